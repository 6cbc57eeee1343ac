"""What to say of a clause that could not be read: where it stuck and what could stand there."""

from __future__ import annotations

from tapewright.diagnostics import Answer, Query, Source, Span, did_you_mean, question
from tapewright.language.clause import BY_LEAD, Unread
from tapewright.language.pattern import Expected
from tapewright.language.slots import KINDS

# The leading words as they are taught, in the order of the table in the manual.
TAUGHT = (
    "Begin", "From", "Square", "Join", "Divide", "Where", "Sweep", "Draw", "Hollow", "Round", "Take out",
    "Let", "Make", "If", "Pivot", "Cut", "Sew", "Mark", "See that",
)  # fmt: skip

_SHORT = 60


def ask(unread: Unread, source: Source) -> Query:
    """The question about a clause that could not be read."""
    if not unread.lead:
        return _no_lead(unread, source)
    read = _excerpt(source, unread.read)
    said = _wanted(unread.wanted)
    if unread.stuck is None:
        end = Span(unread.span.start, unread.span.end)
        return question(
            "sentence-unread",
            f"The sentence stops after “{read}”, and something is still to come.",
            end,
            help=f"Here may stand {said}." if said else "",
        )
    stuck = unread.stuck
    words = [w.words for w in unread.wanted if w.words and w.words.isascii()]
    near = did_you_mean(stuck.text, [w.split()[0] for w in words])
    shown = source[stuck.span]
    message = f"After “{read}” I cannot read “{shown}”." if read else f"I cannot read “{shown}” here."
    help_ = f"Here may stand {said}." if said else ""
    return question(
        "sentence-unread",
        message,
        stuck.span,
        help=help_,
        answers=[Answer(f"Did you mean “{w}”?", w) for w in near],
    )


def _no_lead(unread: Unread, source: Source) -> Query:
    first = source[unread.span].split()
    word = first[0].strip(".,;:") if first else ""
    near = did_you_mean(word.lower(), BY_LEAD)
    place = Span(unread.span.start, unread.span.start + len(word))
    return question(
        "no-leading-word",
        f"A drafting sentence begins with a word that says what it does; “{word}” is none that I know."
        if word
        else "This numbered item says nothing to draw.",
        place if word else unread.span,
        help="The leading words are " + ", ".join(TAUGHT) + ". Prose stands between the numbered items.",
        answers=[Answer(f"Did you mean “{w.capitalize()}”?", w.capitalize()) for w in near],
    )


def _excerpt(source: Source, span: Span) -> str:
    text = " ".join(source[span].split())
    return text if len(text) <= _SHORT else "... " + text[-_SHORT:]


def _wanted(wanted: tuple[Expected, ...], most: int = 7) -> str:
    phrases: list[str] = []
    for one in wanted:
        phrase = f"“{one.words}”" if one.words else (KINDS[one.kind].label if one.kind in KINDS else "")
        if one.words == ".":
            phrase = "the end of the sentence"
        if phrase and phrase not in phrases:
            phrases.append(phrase)
    if len(phrases) > most:
        phrases = [*phrases[:most], "and so on"]
        return ", ".join(phrases)
    if len(phrases) > 1:
        return ", ".join(phrases[:-1]) + " or " + phrases[-1]
    return "".join(phrases)

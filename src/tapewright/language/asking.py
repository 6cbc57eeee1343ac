"""What to say of a clause that could not be read: where it stuck and what could stand there."""

from __future__ import annotations

import re
from collections.abc import Iterable

from tapewright.diagnostics import Answer, Query, Source, Span, did_you_mean, question
from tapewright.diagnostics.near import slips
from tapewright.language.clause import BY_LEAD, Unread
from tapewright.language.list_lines import list_line, unlisted
from tapewright.language.pattern import Expected
from tapewright.language.references import STOPS, UNIT_WORDS
from tapewright.language.slips import slip
from tapewright.language.slots import KINDS
from tapewright.language.tokens import Names, Sort, Token, scan
from tapewright.language.ways import COMPASS
from tapewright.measures import measure_called

# The leading words as they are taught, in the order of the table in the manual.
TAUGHT = (
    "Begin", "From", "Square", "Carry", "Join", "Divide", "Where", "Sweep", "Draw", "Hollow", "Round", "Take",
    "Let", "Make", "If", "Repeat", "Pivot", "Turn over", "Lay", "Open", "Cut", "Sew", "Mark",
)  # fmt: skip

#: What a slot wants, as the table says it; where one is not listed, the label of its kind serves.
EXPECTS = {
    "point": "a letter",
    "new": "a new letter, such as K or B2",
    "name": "a name",
    "newname": "a new name",
    "setting": "a value by eye and what it is to be, such as the ease at 2 cm",
    "place": "a place and its side, such as the centre back on the left",
    "amount": "a length, such as 5 cm or half the waist",
    "reach": "a length, such as 5 cm or half the waist",
    "portion": "a share and its name, such as a third as the back taking",
    "between": "two amounts with “and” between them",
    "ruler": "a line by its two letters, such as A-B",
    "newruler": "two new letters, such as C-D",
    "corner": "a corner by its three letters, such as A-B-C",
    "path": "a line, by its name or its letters",
    "line": "a line, by its name or its letters",
    "thing": "a line or a piece",
    "end": "a line, by its name or its letters",
    "compass": "up, down, left, right or across",
    "way": "a way, such as down, across or toward a letter",
    "toward": "a side, such as toward B or toward the centre front",
    "tape": "a tape, by its name",
    "target": "a letter, a line or a place",
    "crossing": "which crossing, such as the upper crossing",
    "leaning": "how the curve leaves or reaches a letter, such as leaving A square to A-B",
    "run": "the next edge, such as to B, or to B by the hem",
    "edge": "an edge, by its name or its letters",
    "cutting": "how many, and of what, such as twice of cloth",
    "turning": "what is left outside, and where, such as 1 cm everywhere",
    "marked": "a line or a letter, such as the pocket place or P1",
    "landmark": "a place of the body, such as the nape or the bust point",
    "ware": "what is set along it, such as braid or buttons",
    "markat": "an edge and a letter on it, such as the hem at B",
    "claim": "what must come out, such as A-B is 40 cm",
    "number": "a number",
    "quoted": "a title in quotation marks",
}

#: Other words for going some way, which are told together with the directions of the paper.
_WAYS = {*COMPASS, "toward", "along", "square to", "at", "into the corner"}
_LENGTHS = {"amount", "reach", "between"}
#: Signs that some write for inches and feet.
_INCHES = "\"”“″'’′"
_LESS = frozenset("-–−")
_MARKS = {":": "a colon", ",": "a comma", ")": "a closing bracket"}
_SHORT = 60

#: Words that come after a name and are never part of one: `Turn the front over`.
_NO_PART_OF_A_NAME = {"over", "round", "again", "please"}
#: How many words the longest measure of the trade has.
_LONGEST_MEASURE = 7
_TENSIONS = {"flat", "easy", "full"}


def ask(unread: Unread, source: Source, names: Names | None = None, points: Iterable[str] = ()) -> Query:
    """The question about a clause that could not be read; `names` and `points` are those before it."""
    names = Names() if names is None else names
    meant = slip(unread, source, names, points) if unread.span else None
    if meant is not None:
        return meant
    known = list(names)
    if not unread.lead:
        return _no_lead(unread, source)
    read = _excerpt(source, unread.read)
    turns = source[unread.span].lower().startswith("turn ")
    said = expected(unread.wanted)
    if unread.stuck is None:
        help_ = f"Here the table expects {said}." if said else ""
        if turns:
            help_ += " To turn it over a line, write “Turn over the front on A-B”."
        return question(
            "sentence-unread",
            f"The sentence stops after “{read}”, and something is still to come.",
            _last_word(source, unread.span),
            help=help_.strip(),
        )
    stuck = unread.stuck
    words = [w for one in unread.wanted if (w := _first_word(one.words)).isalpha()]
    near = did_you_mean(stuck.text, words) if len(stuck.text) > 2 else ()
    longer = None if near else _measure_unlisted(unread, source, known) or _longer_name(unread, source, known)
    if longer is not None:
        return longer
    message = f"After “{read}” I cannot read “{source[stuck.span]}”."
    help_ = f"Here the table expects {said}." if said else ""
    answers = [Answer(f"Did you mean “{w}”?", w) for w in near]
    wanted = {one.words for one in unread.wanted}
    if not read:
        after = source.text[: unread.span.start].rstrip().endswith(";")
        message = f"{'After a semicolon ' if after else ''}I cannot read “{source[stuck.span]}” here."
    elif ":" in wanted and stuck.sort in {Sort.NUMBER, Sort.MARK}:
        help_ = "A colon stands before a length, such as “: 5 cm”."
        answers = [Answer(":", ":" if stuck.sort is Sort.MARK else f": {source[stuck.span]}")]
    elif turns and "about" in wanted:
        help_ = (
            "Round a point it is “Pivot the front about P by 10 degrees toward B”; "
            "over a line, “Turn over the front on A-B”."
        )
    kinds = {one.kind for one in unread.wanted}
    other = _about_a_number(source, stuck, kinds) or _about_a_letter(source, unread.read, stuck, kinds)
    if other is not None and not near:
        help_, answers = other
    return question("sentence-unread", message, stuck.span, help=help_, answers=answers)


def _about_a_letter(
    source: Source, read: Span, stuck: Token, kinds: set[str]
) -> tuple[str, list[Answer]] | None:
    """What to try where a letter is written another way."""
    if not kinds & {"point", "new"}:
        return None
    text = source.text[stuck.span.start : stuck.span.start + 5]
    if re.match(r"[A-Z](?:\d{3}|\d{0,2}['’′″\"]{2})", text):
        return "A letter has at most two figures and two primes, such as B12 or B''.", []
    small = source.text[read.end : stuck.span.start].strip()
    small = small if small == "a" else stuck.text if re.fullmatch(r"[a-z]", stuck.text) else ""
    if small:
        return f"A letter is a capital: {small.upper()}.", [Answer(small.upper())]
    return None


def _about_a_number(source: Source, stuck: Token, kinds: set[str]) -> tuple[str, list[Answer]] | None:
    """What to try where a number is written another way, or its unit is not known."""
    if stuck.text in _LESS and "amount" in kinds:
        return "A length is not less than nothing; go the other way instead.", []
    if re.fullmatch(r"\d+,\d+", stuck.text):
        point = stuck.text.replace(",", ".")
        return f"A number is written with a point: {point}.", [Answer(f"Did you mean “{point}”?", point)]
    if source.text[: stuck.span.start].rstrip()[-1:].isdigit():
        if stuck.text[:1] in _INCHES:
            return "For inches write in, for feet ft, such as 3 in.", []
        if stuck.sort is Sort.WORD:
            near = did_you_mean(stuck.text, UNIT_WORDS)
            return (
                "A number has a unit behind it: cm, mm, m, in, ft, yd, nail or degrees; or parts of a tape.",
                [Answer(f"Did you mean “{u}”?", u) for u in near],
            )
    return None


def _no_lead(unread: Unread, source: Source) -> Query:
    first = source[unread.span].split()
    word = first[0].strip(".,;:") if first else ""
    if not word:
        return question(
            "no-leading-word",
            "This numbered item says nothing to draw.",
            unread.span,
            help="A numbered item holds drafting sentences; prose stands between the items.",
        )
    near = did_you_mean(word.lower(), BY_LEAD) if len(word) > 2 else ()
    message = f"A drafting sentence begins with a word that says what it does; “{word}” is none that I know."
    help_ = (
        f"The leading words are {', '.join(TAUGHT)} and See that. Prose stands between the numbered items."
    )
    if near:
        help_ = ""
    elif _is_letter(word):
        message = f"A drafting sentence begins with a word that says what it does; “{word}” is a letter."
        help_ = "Say what is done first, such as: From A down to B: 5 cm. Prose stands between the numbered items."
    if source.text[: unread.span.start].rstrip().endswith(";"):
        message = f"After a semicolon the sentence goes on; “{word}” is no word that it can go on with."
        help_ = "It goes on with a leading word, with “then”, with a way, or with “call it” and a name."
    return question(
        "no-leading-word",
        message,
        Span(unread.span.start, unread.span.start + len(word)),
        help=help_,
        answers=[Answer(f"Did you mean “{w.capitalize()}”?", w.capitalize()) for w in near],
    )


def _measure_unlisted(unread: Unread, source: Source, known: list[str]) -> Query | None:
    """The question about a measure of the trade that this lesson does not list: `the waist to knee`."""
    stuck = unread.stuck
    if stuck is None or stuck.sort is not Sort.WORD:
        return None
    tokens = scan(source.text, unread.span.start, unread.span.end)
    at = next((i for i, t in enumerate(tokens) if t.span.start >= stuck.span.start), len(tokens))
    for long in range(_LONGEST_MEASURE, 1, -1):
        for start in range(max(0, at - long + 1), at + 1):
            run = tokens[start : start + long]
            if not run:
                continue
            words = " ".join(source[run[0].span.to(run[-1].span)].lower().split())
            if words in known or measure_called(words) is None:
                continue
            return _to_be_listed(words, run[0].span.to(run[-1].span), source)
    return None


def _to_be_listed(words: str, span: Span, source: Source, near: Iterable[str] = ()) -> Query:
    """The question about a measure or a tape that a list of the lesson should have."""
    line = unlisted(words, ("measure", "tape"))
    message, under, said = line or (f"I know no “{words}” here.", "Measures", f"- {words}")
    return question(
        "name-unknown",
        message,
        span,
        help=f"If it is meant, add a line to the list under {under}: “{said}”.",
        answers=[list_line(source, under, said), *(Answer(f"Did you mean the {n}?", n) for n in near)],
    )


def _longer_name(unread: Unread, source: Source, known: list[str]) -> Query | None:
    """The question about a known name with a word more: `the waist line`, where only the waist is known."""
    stuck = unread.stuck
    if (
        stuck is None
        or stuck.sort is not Sort.WORD
        or stuck.text in STOPS
        or stuck.text in _NO_PART_OF_A_NAME
    ):
        return None
    name, start = _name_before(source, unread.read, known)
    if not name or source[Span(unread.read.end, stuck.span.start)].strip():
        return None
    more = _plain_words(scan(source.text, stuck.span.start, unread.span.end))
    words = " ".join((name, *(t.text for t in more)))
    if words == f"{name} tape":
        return _to_be_listed(words, Span(start, more[-1].span.end), source, (name,))
    near = [n for n in did_you_mean(words, known) if n != name and slips(words, n, 2) <= 2]
    return question(
        "name-unknown",
        f"I know no “{words}” here; I know the {name}.",
        Span(start, more[-1].span.end),
        help="A line gets its name where it is drawn, by “call it”; an amount by “Let”.",
        answers=[Answer(f"Did you mean the {n}?", n) for n in (*near, name)],
    )


def _name_before(source: Source, read: Span, known: list[str]) -> tuple[str, int]:
    """The longest known name with which the read words end, and where it begins; nothing if there is none."""
    text = source[read]
    for name in sorted(known, key=len, reverse=True):
        pattern = r"(?<!\w)" + r"\s+".join(map(re.escape, name.split())) + r"$"
        found = re.search(pattern, text, re.IGNORECASE)
        if found is not None:
            return name, read.start + found.start()
    return "", read.start


def _plain_words(tokens: list[Token]) -> list[Token]:
    """The first word, and those after it that are no words of the language."""
    taken = tokens[:1]
    for token in tokens[1:]:
        if token.sort is not Sort.WORD or token.text in STOPS:
            break
        taken.append(token)
    return taken


def _is_letter(word: str) -> bool:
    """Whether a word is a letter of the draft, such as A or B2."""
    tokens = scan(word, 0, len(word))
    return len(tokens) == 1 and tokens[0].sort is Sort.POINT


def _first_word(words: str) -> str:
    return next((w for w in words.split() if w not in {"the", "a", "an"}), "")


def _last_word(source: Source, span: Span) -> Span:
    """The last word of a stretch: where a sentence stops short."""
    text = source[span].rstrip(" \t\r\n.;")
    start = max(text.rfind(c) for c in " \t\r\n") + 1
    return Span(span.start + start, span.start + len(text)) if text else span


def _excerpt(source: Source, span: Span) -> str:
    text = " ".join(source[span].split())
    return text if len(text) <= _SHORT else "... " + text[-_SHORT:]


def expected(wanted: Iterable[Expected], most: int = 8) -> str:
    """What could stand at a place, in plain words: `a new letter, a way, such as down, or “on”`."""
    phrases: list[str] = []
    wanted = [one for one in wanted if not one.more]
    several = {one.words for one in wanted} >= set(COMPASS)
    curve = {one.words for one in wanted} >= _TENSIONS
    for one in wanted:
        if curve and one.words in _TENSIONS:
            continue
        if one.words == ".":
            phrase = "the end of the sentence"
        elif one.words in _WAYS and several:
            phrase = EXPECTS["way"]
        elif one.words:
            phrase = _MARKS.get(one.words, f"“{one.words}”")
        else:
            label = KINDS[one.kind].label if one.kind in KINDS else ""
            phrase = EXPECTS.get(one.kind, label)
            if one.kind in _LENGTHS and EXPECTS["amount"] in phrases:
                continue
        if phrase and phrase not in phrases:
            phrases.append(phrase)
    # The plainest first: words that stand as they are come after what the maker has to fill in.
    phrases.sort(key=lambda p: p.startswith("“"))
    if len(phrases) > most:
        return "; ".join([*phrases[:most], "and so on"])
    if any("," in p and not p.startswith("“") for p in phrases[:-1]):
        return "; ".join(phrases[:-1]) + "; or " + phrases[-1]
    return " or ".join([", ".join(phrases[:-1]), phrases[-1]] if len(phrases) > 1 else phrases)

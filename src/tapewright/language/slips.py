"""Beginners' slips: a clause that cannot be read, but is plainly meant; said over in the table's words.

Two sorts. A *repair* changes a word or a mark: `point A`, `5,5 cm`, `from a down to b`. A *turn of phrase*
is another way of saying the whole clause: `Draw a rectangle 20 cm by 30 cm`, `Mark E 5 cm below A`. Nothing
is taken for read: what is said over is only offered, and only when the table can read it.
The slips are those that people made who had never seen the language; the list is our own, no source.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from tapewright.diagnostics import Answer, Query, Source, Span, question
from tapewright.language.clause import Unread, read_clause
from tapewright.language.phrases import Known, Said, phrases
from tapewright.language.tokens import Names, Sort, scan, split

_LETTER = r"[A-Z][0-9]{0,2}['’′]{0,2}"
_SMALL = r"(?<![\w'’.-])[a-z][0-9]{0,2}(?:-[a-z][0-9]{0,2}){0,2}(?![\w'’.-])"
#: A clause longer than this is not said whole in an answer.
_SHORT = 90
_GLYPHS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
#: A letter so called is no article: it stands after one of these.
_BEFORE_A_LETTER = r"(?:from|to|about|and|toward|at|on|beyond|join|carry|begin)"


@dataclass(frozen=True, slots=True)
class Repair:
    """A word or a mark to be changed: what to say of it, and the text with it changed."""

    message: str
    help: str
    change: Callable[[str], str]


def _without_point(text: str) -> str:
    return re.sub(rf"\b(?:the\s+)?points?\s+(?={_LETTER}(?!\w)|[a-z]\b)", "", text, flags=re.IGNORECASE)


def _capitals(text: str) -> str:
    """Single small letters made capitals; `a` only where a letter is looked for."""

    def raised(found: re.Match[str]) -> str:
        before = text[: found.start()].split()
        if found[0] == "a" and not (before and re.fullmatch(_BEFORE_A_LETTER, before[-1].lower())):
            return found[0]
        return found[0].upper()

    return re.sub(_SMALL, raised, text)


def _inches(text: str) -> str:
    number = rf"(\d|[{_GLYPHS}])"
    text = re.sub(rf"{number}\s*(?:[\"”“″]|['’′]{{2}})", r"\1 in", text)
    text = re.sub(rf"{number}\s*['’′]\s*(?=\d)", r"\1 ft ", text)
    return re.sub(rf"{number}\s*['’′]", r"\1 ft", text)


_REPAIRS = (
    Repair(
        "A letter is called by itself: A, not “point A”.",
        "Leave the word “point” out.",
        _without_point,
    ),
    Repair(
        "A letter of the draft is a capital, so that it cannot be taken for a word.",
        "Write it as a capital, such as A for a.",
        _capitals,
    ),
    Repair(
        "A number is written with a point before its tenths, since a comma stands between two lengths.",
        "Write a point for the comma.",
        lambda text: re.sub(r"(?<=\d),(?=\d)", ".", text),
    ),
    Repair(
        "The signs for inches and feet are also those of a primed letter, so they are written out here.",
        "Write in for inches, ft for feet.",
        _inches,
    ),
    Repair(
        "A letter stands without quotation marks; what is in them is a title.",
        "Leave the quotation marks out.",
        lambda text: re.sub(rf"[“”\"‘]({_LETTER}(?:-{_LETTER})*)[“”\"’]", r"\1", text),
    ),
    Repair(
        "A comma carries nothing on: after it the same length or list is meant.",
        "Write a semicolon between two things to be done.",
        lambda text: re.sub(r"(?:,| and|, and)\s+(?=(?:then\s+)?(?:from|square|join|carry)\s)", "; ", text),
    ),
    Repair(
        "The edges of an outline stand between commas.",
        "Write a comma for each semicolon.",
        lambda text: re.sub(r";(?=\s*to\s)", ",", text),
    ),
    Repair(
        "One word stands here twice.",
        "Leave one of the two out.",
        lambda text: re.sub(rf"\b((?i:[a-z]+)|{_LETTER})\s+(?i:\1)(?![\w'’])", r"\1", text),
    ),
)


def slip(unread: Unread, source: Source, names: Names, points: Iterable[str]) -> Query | None:
    """The question about a clause that is plainly meant, with what to write offered; None for any other."""
    text = source[unread.span]
    known = Known(source.text[: unread.span.start], tuple(names.order), tuple(points))
    reads = _Reading(names, frozenset(known.points), then=_after_semicolon(source, unread.span))
    repaired = _repaired(text, unread, reads)
    if repaired is not None:
        message, help_, new = repaired
        place, words = _changed(text, new, unread.span.start)
        return question("said-otherwise", message, place, help=help_, answers=[_answer(words, new)])
    for said in phrases(" ".join(text.split()), known):
        offered = [new for new in said.say if reads(new)]
        if offered or not said.say:
            return _question(said, offered, unread)
    return None


def _question(said: Said, offered: list[str], unread: Unread) -> Query:
    help_ = said.tip or ("" if offered else said.example)
    return question(
        "said-otherwise", said.message, unread.span, help=help_, answers=[Answer(o, o) for o in offered]
    )


def _answer(words: str, whole: str) -> Answer:
    """The whole clause is said, unless it is long; what changes of it is replaced."""
    shown = " ".join(whole.split())
    return Answer(shown if len(shown) <= _SHORT else words, words)


def _after_semicolon(source: Source, span: Span) -> bool:
    return source.text[: span.start].rstrip().endswith(";")


@dataclass(frozen=True, slots=True)
class _Reading:
    """Whether the table can read some words where the clause stands."""

    names: Names
    points: frozenset[str]
    then: bool

    def __call__(self, text: str) -> bool:
        tokens = scan(text, 0, len(text))
        if not tokens:
            return False
        for sentence in split(tokens, "."):
            then = self.then
            for run in split(sentence, ";"):
                body = run[:-1] if run[-1].sort is Sort.MARK and run[-1].text in ".;" else run
                clause = read_clause(self.names.merge(body), then=then, known_points=self.points)
                if isinstance(clause, Unread):
                    return False
                then = True
        return True


def _repaired(text: str, unread: Unread, reads: _Reading) -> tuple[str, str, str] | None:
    """What to say, what to try, and the text with the fewest repairs that make it readable."""
    done: list[Repair] = []
    now = text
    for repair in (*_at_the_place(unread, text), *_REPAIRS):
        new = repair.change(text)
        if new != text and reads(new):
            return repair.message, repair.help, new
        new = repair.change(now)
        if new != now:
            done.append(repair)
            now = new
    if len(done) < 2 or not reads(now):
        return None
    return " ".join(r.message for r in done), " ".join(r.help for r in done), now


def _at_the_place(unread: Unread, text: str) -> Iterator[Repair]:
    """Repairs where reading stuck: a colon that is wanting, a comma too many."""
    if unread.stuck is None:
        return
    at = unread.stuck.span.start - unread.span.start
    read = unread.read.end - unread.span.start
    lettered = re.search(rf"(?<!\w){_LETTER}$", text[:read]) is not None
    if lettered and any(one.words == ":" for one in unread.wanted) and unread.stuck.text != ":":
        mark = unread.stuck.sort is Sort.MARK
        after = at + 1 if mark else read
        yield Repair(
            "A colon stands between the letter and how far it is.",
            "Put a colon after the letter, such as “to B: 5 cm”.",
            lambda text: f"{text[:read]}:{text[after:]}",
        )
    if unread.stuck.text == ",":
        yield Repair(
            "No comma stands here.",
            "Leave the comma out.",
            lambda text: text[:at].rstrip() + text[at + 1 :],
        )


def _changed(old: str, new: str, start: int) -> tuple[Span, str]:
    """The smallest stretch of whole words in which two texts differ, and what stands there in the new one."""
    first = 0
    while first < min(len(old), len(new)) and old[first] == new[first]:
        first += 1
    last = 0
    while last < min(len(old), len(new)) - first and old[-1 - last] == new[-1 - last]:
        last += 1
    while first > 0 and not old[first - 1].isspace():
        first -= 1
    while last > 0 and not old[len(old) - last].isspace():
        last -= 1
    return Span(start + first, start + len(old) - last), new[first : len(new) - last]

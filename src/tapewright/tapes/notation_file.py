"""The small text that a notation is written in, read with a query for whatever is unclear.

Markdown: a title, a paragraph beginning `Source:`, paragraphs for the key, a short list of how it is read,
and a table of marks. The format is ours and is described in `docs/tapes.md`; a maker's own notation and
those that are shipped are read by the same reader. It never raises for a text.
"""

from __future__ import annotations

import itertools
from fractions import Fraction
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from tapewright.diagnostics import Query, Source, Span, caution, did_you_mean, in_order, question
from tapewright.tapes.notation import Counting, Edge, Notation, NotationMark, Way, made_of, value_of
from tapewright.tapes.notation_text import Found, blocks, take
from tapewright.tapes.tape import MOST_PARTS
from tapewright.units import read_number, show_fraction

PLAIN = "plain"
"""The notation that is meant where none is asked for."""

MOST_MARKS = 200
_LONGEST_SIGN = 16
# Shares with no common measure above this have no spellings looked for (see `writing.py`).
_MOST_STEPS = 4_000
_FINEST = 64


@cache
def notations() -> MappingProxyType[str, Notation]:
    """The shipped notations by name, plain fractions first."""
    found: dict[str, Notation] = {}
    folder = files("tapewright.tapes") / "notations"
    for page in sorted(folder.iterdir(), key=lambda p: (p.name != f"{PLAIN}.md", p.name)):
        if page.name.endswith(".md"):
            name = page.name.removesuffix(".md")
            notation, queries = read_notation(Source(page.name, page.read_text(encoding="utf-8")), name)
            if notation is None or queries:
                raise AssertionError(f"the shipped notation {name} has a slip: {queries}")
            found[name] = notation
    return MappingProxyType(found)


def plain() -> Notation:
    """Plain fractions and parts, the default."""
    return notations()[PLAIN]


def read_notation(source: Source, name: str = "") -> tuple[Notation | None, tuple[Query, ...]]:
    """A notation from its text, and what is to be asked about it; None where a question remains.

    `name` is what the notation goes by; the name of the text without its ending if empty.
    """
    found = Found()
    for block in blocks(source.text):
        take(block, source, found)
    called = name or source.name.rsplit("/", 1)[-1].rsplit(".", 1)[0]
    notation = _made(called, found, Span(0, len(source.text.split("\n", 1)[0])))
    queries = tuple(in_order(q.at(source.name) for q in found.queries))
    waits = any(str(q.kind) == "question" for q in queries)
    return (None if waits else notation), queries


# --- what it comes to ----------------------------------------------------------------------------------


def _made(name: str, found: Found, top: Span) -> Notation | None:
    way = _way(found, top)
    parts = _count(found, "parts")
    finest = _finest(found)
    halved = _halved(found)
    counting = _counting(found)
    marks = _marks_of(found)
    if way is not None and way.by_marks and not marks and not found.queries:
        found.ask(
            question(
                "notation-table",
                "There is no table of marks, so there is nothing to write a reading with.",
                top,
                help="Put a table with the columns mark and share at the end.",
            )
        )
    if not found.source:
        found.ask(
            caution(
                "notation-source",
                "It is not said where this notation comes from.",
                top,
                help="Add a paragraph such as Source: my own, for the workshop. It is printed with the key.",
            )
        )
    if way is None:
        return None
    title = found.title or name
    source = found.source or "Not said."
    made = Notation(name, title, source, way, marks, parts, finest, counting, halved, tuple(found.prose))
    _look_over(made, found)
    return made


def _way(found: Found, top: Span) -> Way | None:
    said = found.said.get("read")
    if said is None:
        if found.rows:
            return Way.ALONE
        if not found.queries:
            found.ask(
                question(
                    "notation-line",
                    "How is it read?",
                    top,
                    help="Add a line - read: alone, added, added and taken away, parts, or fractions.",
                )
            )
        return None
    words, place = said
    try:
        return Way(words.casefold())
    except ValueError:
        near = did_you_mean(words, [str(w) for w in Way]) or (Way.ALONE, Way.ADDED, Way.BOTH)
        found.ask(
            question(
                "notation-line",
                f"A notation cannot be read “{words}”.",
                place,
                help="Marks stand alone, are added, or are added and taken away; or the parts are counted.",
                answers=[str(w) for w in near],
            )
        )
        return None


def _count(found: Found, key: str) -> int | None:
    said = found.said.get(key)
    if said is None:
        return None
    words, place = said
    number = read_number(words.removesuffix(" parts"))
    if number is None or number.denominator != 1 or not 1 <= number <= MOST_PARTS:
        found.ask(
            question(
                "notation-line",
                f"A tape has a whole number of parts, from 1 to {MOST_PARTS}.",
                place,
                help="Write 48, for instance.",
            )
        )
        return None
    return int(number)


def _finest(found: Found) -> Fraction:
    said = found.said.get("to")
    if said is None:
        return Fraction(1, 4)
    words, place = said
    number = read_number(words.removesuffix(" parts").removesuffix(" part"))
    if number is None or not 0 < number <= 1 or number.numerator != 1 or number.denominator > _FINEST:
        found.ask(
            question(
                "notation-line",
                "Readings go to a part, or to a simple fraction of one.",
                place,
                help="Write 1/8 part, for instance.",
            )
        )
        return Fraction(1, 4)
    return number


def _halved(found: Found) -> bool:
    said = found.said.get("girths")
    if said is None:
        return False
    words, place = said
    if words.casefold() not in {"by the half", "whole"}:
        found.ask(
            question(
                "notation-line",
                "A girth is taped whole or by the half.",
                place,
                answers=["whole", "by the half"],
            )
        )
    return words.casefold() == "by the half"


def _counting(found: Found) -> Counting | None:
    said = found.said.get("counts")
    if said is None:
        return None
    words, place = said
    units: list[tuple[int, str]] = []
    for one in words.split(","):
        size, _, unit = one.strip().partition(" ")
        number = read_number(size)
        if number is not None and number.denominator == 1 and number >= 1 and unit.strip():
            units.append((int(number), unit.strip()))
    parts = _count(found, "counted")
    falls = [a > b and a % b == 0 for (a, _), (b, _) in itertools.pairwise(units)]
    if (
        parts is None
        or len(units) != len(words.split(","))
        or not all(falls)
        or not units
        or units[-1][0] != 1
    ):
        found.ask(
            question(
                "notation-line",
                "What the parts are counted in is not clear.",
                place,
                help="Write the greatest first and the part itself last, such as "
                "- counts: 144 pied, 12 pouce, 1 ligne, and below it - counted: 524 parts.",
            )
        )
        return None
    return Counting(tuple(units), parts)


def _marks_of(found: Found) -> tuple[NotationMark, ...]:
    if len(found.rows) > MOST_MARKS:
        found.ask(
            question(
                "notation-table",
                f"A notation has at most {MOST_MARKS} marks; here are {len(found.rows)}.",
                found.rows[MOST_MARKS][2],
            )
        )
        return ()
    marks: list[NotationMark] = []
    for (sign, share, said, edge), places, line in found.rows:
        number = _share(share, places[1], line, found)
        if not _sign_serves(sign, places[0], line, found) or number is None:
            continue
        if edge.casefold() not in {"", Edge.UPPER, Edge.LOWER}:
            found.ask(
                question(
                    "notation-table", f"A tape has no edge “{edge}”.", places[3], answers=["upper", "lower"]
                )
            )
            continue
        mark = NotationMark(sign, number, said, Edge(edge.casefold() or Edge.UPPER))
        same = next((m for m in marks if m.sign == sign), None)
        if same is not None:
            found.ask(
                question(
                    "notation-twice",
                    f"The mark {sign} stands twice: for {same.share} and for {number}.",
                    places[0],
                    help="One mark means one share. Take another sign for one of them.",
                )
            )
            continue
        marks.append(mark)
    return tuple(marks)


def _sign_serves(sign: str, place: Span, line: Span, found: Found) -> bool:
    if sign and sign != "0" and len(sign) <= _LONGEST_SIGN and sign.isprintable():
        return True
    found.ask(
        question(
            "notation-mark",
            "A mark wants a sign to write it with."
            if not sign
            else f"“{sign[:_LONGEST_SIGN]}” cannot be a mark.",
            place if sign else line,
            help=f"A sign is a letter, a word or a stroke of up to {_LONGEST_SIGN} characters; 0 is nothing.",
        )
    )
    return False


def _share(text: str, place: Span, line: Span, found: Found) -> Fraction | None:
    number = read_number(text)
    if number is not None and 0 < number <= 1 and number.denominator <= MOST_PARTS:
        return number
    if number is None:
        what = f"“{text}” is no share of the whole." if text else "Which share of the whole is it?"
    elif number == 0:
        what = "A mark at nothing would stand on the end of the tape."
    elif number > 1:
        what = f"{show_fraction(number)} is more than the whole, and no tape is so long."
    else:
        what = f"{text} of the whole is finer than a tape can show."
    found.ask(
        question(
            "notation-share",
            what,
            place if text else line,
            help="Write a fraction of the whole, such as 1/6; 1 is the whole.",
        )
    )
    return None


def _look_over(made: Notation, found: Found) -> None:
    """What is seen only when all marks are known: signs that disagree with the rule, shares without measure."""
    if not made.way.by_marks or not made.marks or any(str(q.kind) == "question" for q in found.queries):
        return
    places = {row[0][0]: row[1] for row in found.rows}
    if made.way is not Way.ALONE:
        _examples_agree(made, places, found)
    if made.common > _MOST_STEPS and made.way is not Way.ALONE:
        found.ask(
            caution(
                "notation-share",
                f"The smallest measure that all these shares have in common is 1/{made.common} of the whole.",
                found.rows[0][2],
                help="That is too fine to look for spellings in, so a place between two marks is written as the "
                "nearer of them. Shares such as 1/2, 1/3, 1/8 and 1/12 have a measure in common.",
            )
        )


def _examples_agree(made: Notation, places: dict[str, list[Span]], found: Found) -> None:
    by_sign = {m.sign: m for m in made.marks}
    for mark in made.examples:
        signs = made_of(mark.sign, [m.sign for m in made.letters])
        if signs is None:
            continue
        come = value_of([by_sign[s] for s in signs], made.way)
        if come.why or come.share != mark.share:
            says = "can be read in two ways" if come.why else f"comes to {come.share}"
            found.ask(
                question(
                    "notation-rule",
                    f"By the rule {mark.sign} {says}; the table has it for {mark.share}.",
                    places[mark.sign][1],
                    help="A sign that is made of other marks has to come to what they come to. "
                    "Take another sign for it, or another share.",
                    answers=[] if come.why or come.share > 1 else [show_fraction(come.share)],
                )
            )

"""Amounts and lines as words, in house style: the printer's half of `amounts.py`.

Words for a bare simple fraction of a thing (`half A-B`), figures in readings and mixed numbers (`1/6 of the
neck tape and 1 1/2 parts`); decimals only in metric units.
"""

from __future__ import annotations

from fractions import Fraction

from tapewright.language import numbers
from tapewright.language.amounts import last_tape
from tapewright.language.pattern import Style
from tapewright.language.tree import (
    Along,
    Amount,
    Bare,
    Constant,
    CornerRef,
    CurveBetween,
    IfTaken,
    Limited,
    LookedUp,
    NameRef,
    NewPoint,
    Parts,
    Path,
    PointRef,
    Rest,
    Ruler,
    Share,
    Times,
    Total,
    Unknown,
)

_METRIC = frozenset({"mm", "cm", "m"})


def show(node: Amount, style: Style) -> str:
    """An amount in house style: words for a bare simple fraction of a thing, figures in readings."""
    match node:
        case Constant(number, unit):
            if unit == "degrees" and number == 1:
                return "1 degree"
            return f"{numbers.show(number, metric=unit in _METRIC)} {unit}"
        case Bare(number):
            return numbers.show(number)
        case Parts(number, tape, goes_on):
            word = "part" if number <= 1 else "parts"
            said = f"{numbers.show(number)} {word}"
            return said if tape is None or goes_on else f"{said} of {show(tape, style)}"
        case Times(factor, inner):
            return _show_times(factor, inner, style)
        case Total(signs, terms):
            return _show_total(signs, terms, style)
        case IfTaken(taken, otherwise):
            return f"{show(taken, style)} if taken, otherwise {show(otherwise, style)}"
        case Limited(amount, most, least):
            said = show(amount, style)
            if most is not None:
                said += f", but not more than {show(most, style)}"
            if least is not None:
                said += f", but not less than {show(least, style)}"
            return said
        case Along(line, start, end):
            return f"along {show_path(line)} from {letter(start)} to {letter(end)}"
        case LookedUp(column, by, table):
            return f"the {column} for {show(by, style)} in {show(table, style)}"
        case Rest():
            return "the rest"
        case Share(factor):
            return numbers.say_fraction(factor) or numbers.show(factor)
        case CornerRef(a, b, c):
            return f"the corner {letters(a, b, c)}"
        case _:
            return show_path(node)


def letter(ref: PointRef | NewPoint) -> str:
    """A letter as it is written: `A`, `the block's A`."""
    return f"the {ref.name}" if "'s " in ref.name else ref.name


def letters(*refs: PointRef) -> str:
    """Letters in a row: `A-B`, `the block's A-B`."""
    whose = refs[0].name.rpartition("'s ")[0]
    joined = "-".join(ref.name.rpartition("'s ")[2] for ref in refs)
    return f"the {whose}'s {joined}" if whose else joined


def show_path(node: Path) -> str:
    """A line as it is named."""
    match node:
        case Ruler(a, b):
            return letters(a, b)
        case CurveBetween(a, b):
            return f"the curve {letters(a, b)}"
        case NameRef(name):
            return f"the {name}"
        case Unknown(words):
            return f"the {words}"


def _show_times(factor: Fraction, inner: Amount, style: Style) -> str:
    thing_said = _thing(inner, style)
    if factor == 2:
        return f"twice {thing_said}"
    if factor.denominator == 1:
        return f"{factor} times {thing_said}"
    reading = isinstance(inner, NameRef) and inner.name in style.tapes
    words = None if reading else numbers.say_fraction(factor)
    if words == "half":
        return f"half {thing_said}"
    if factor > 1 and not reading:
        return f"{numbers.show(factor)} times {thing_said}"
    return f"{words or numbers.show(factor)} of {thing_said}"


def _show_total(signs: tuple[int, ...], terms: tuple[Amount, ...], style: Style) -> str:
    said = show(terms[0], style)
    if isinstance(terms[0], Total | IfTaken | Limited):
        said = f"({said})"
    for i in range(1, len(terms)):
        node, last = terms[i], terms[i - 1]
        tape = last_tape(last)
        if (
            isinstance(node, Parts)
            and node.tape is not None
            and node.tape == tape
            and (node.goes_on or _reads(tape, style))
        ):
            word = "part" if node.number <= 1 else "parts"
            more = "and" if _reads(tape, style) else "plus"
            said += f" {more if signs[i] > 0 else 'less'} {numbers.show(node.number)} {word}"
            continue
        inner = show(node, style)
        if signs[i] > 0 and _inches_of(node, last):
            said += f" {inner}"
            continue
        if isinstance(node, Total | IfTaken | Limited):
            inner = f"({inner})"
        said += f" {'plus' if signs[i] > 0 else 'less'} {inner}"
    return said


def _inches_of(node: Amount, last: Amount) -> bool:
    """The inches of `5 ft 4 in`."""
    return (
        isinstance(node, Constant)
        and isinstance(last, Constant)
        and node.unit == "in"
        and last.unit in {"ft", "yd"}
    )


def _reads(tape: NameRef | Unknown, style: Style) -> bool:
    """Whether it is a tape that is read."""
    return isinstance(tape, NameRef) and tape.name in style.tapes


def show_between(low: Amount, high: Amount, style: Style) -> str:
    """Two ends of a range; fractions of one thing name it once: `a quarter and two fifths of X`."""
    if isinstance(low, Times) and isinstance(high, Times) and low.thing == high.thing:
        one, other = low.factor, high.factor
        if one < 1 and other < 1 and not (isinstance(high.thing, NameRef) and high.thing.name in style.tapes):
            words = [numbers.say_fraction(f) for f in (one, other)]
            if all(words) and words[1] == "half":
                return f"{words[0]} and {show(high, style)}"
            thing = _thing(high.thing, style)
            said = words if all(words) else [numbers.show(one), numbers.show(other)]
            return f"{said[0]} and {said[1]} of {thing}"
    return f"{show(low, style)} and {show(high, style)}"


def _thing(node: Amount, style: Style) -> str:
    """A thing that a fraction is taken of, in brackets where it is more than a name."""
    plain = isinstance(node, Ruler | NameRef | Unknown | CurveBetween | CornerRef | Along | Constant)
    return show(node, style) if plain else f"({show(node, style)})"

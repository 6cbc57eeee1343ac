"""Which slip of the tape or the pen would explain a value: half a girth, inches for centimetres, figures turned.

A guess is only a guess: it is offered with its reason, and never put in the value's place by itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from tapewright.measures.catalogue import Measure
from tapewright.units import CM, INCH, Unit

_FITS = 1.9
"""A value this many spreads or fewer from what the others foretell is one that nobody would have asked about."""


@dataclass(frozen=True, slots=True)
class Guess:
    """A value that may have been meant, in mm, and the slip that would have hidden it."""

    mm: Fraction
    slip: str


def _turned(number: Fraction) -> Iterator[Fraction]:
    """The number with two neighbouring figures turned round: of its whole, or across the point."""
    whole, rest = divmod(number, 1)
    figures = str(int(whole))
    tenths = rest * 10
    if tenths.denominator == 1 and tenths:
        figures += str(int(tenths))
        scale = Fraction(1, 10)
        rest = Fraction(0)
    else:
        scale = Fraction(1)
    for i in range(len(figures) - 1):
        if figures[i] != figures[i + 1]:
            other = figures[:i] + figures[i + 1] + figures[i] + figures[i + 2 :]
            yield int(other) * scale + rest


def _candidates(mm: Fraction, unit: Unit, measure: Measure) -> Iterator[Guess]:
    if measure.sort in {"girth", "across"}:
        yield Guess(2 * mm, "if this is half of it")
    if measure.sort == "girth":
        yield Guess(mm / 2, "if the whole was taken twice over")
    for other in (CM, INCH):
        if other is not unit:
            yield Guess(mm / unit.mm * other.mm, f"if it was taken in {other.name}")
    for number in _turned(mm / unit.mm):
        yield Guess(number * unit.mm, "if two figures were turned round")
    for step, said in ((10, "ten"), (5, "five")):
        for sign, way in ((1, "too little"), (-1, "too much")):
            what = {"cm": "cm", "in": "in"}.get(unit.name, "")
            if what:
                yield Guess(mm + sign * step * unit.mm, f"if the tape was read {said} {what} {way}")


def guesses(
    mm: Fraction, unit: Unit, measure: Measure, misfit: Callable[[float], float], most: int = 3
) -> tuple[Guess, ...]:
    """The slips that would bring a value in mm to where the others foretell it, the likeliest first.

    `misfit` says how many spreads a value would stand off. A slip that explains more is named before one
    that happens more rarely to fit as well: halves, units, figures, then ten and five.
    """
    found: list[Guess] = []
    for guess in _candidates(mm, unit, measure):
        if guess.mm > 0 and abs(misfit(float(guess.mm))) <= _FITS and guess.mm not in {g.mm for g in found}:
            found.append(guess)
    return tuple(found[:most])

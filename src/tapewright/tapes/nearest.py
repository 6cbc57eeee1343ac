"""Any length as its nearest simple reading: what the screen snaps to and the printed lesson says.

How simple a reading is goes by its *grain* first:

1. nothing, or a simple fraction alone: wholes, halves, thirds, quarters, sixths, eighths, twelfths;
2. whole parts, alone or with a simple fraction; 3. the same with half parts; 4. with quarter parts.

The first grain that has a reading within the tolerance gives it, and of that grain the nearest one. Two
spellings of one place (`1/2 and 3 parts`, `7/12 less 1 part`) are told apart by what they ask of the
person: parts alone, up to a sixth of the tape, are simplest; then counts the number of parts, to which a
fraction adds 0 for a whole or half, 1/2 for a third or quarter, 1 for a sixth, 3/2 for an eighth, 5/2 for
a twelfth, 3 for any other, and going back (`less`) 1/4. So 27 parts of 48 are `1/2 and 3 parts`, 11 are
`1/4 less 1 part`. Where the fractions do not fall on parts (a fifth of a tape in 20 does not lie a whole
number of parts from any), parts alone may be as many as they like: `7 parts`, `13 1/2 parts`. So every
whole, half and quarter part of a tape has an exact reading, whatever the number of its parts. When no
grain has one near enough it is the nearest eighth of a part, marked *about*.

These weights are ours; that halves to twelfths are the tape's own fractions is the Castilian stick of
Alcega (1580, through modern readers) and the ell of Garsault (1771).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from tapewright.tapes.tape import PARTS, Reading, value
from tapewright.units import Real, to_nearest

_GRAINS = (1, 2, 4)
_ABOUT = 8

_WEIGHT = {
    1: Fraction(0),
    2: Fraction(0),
    3: Fraction(1, 2),
    4: Fraction(1, 2),
    6: Fraction(1),
    8: Fraction(3, 2),
    12: Fraction(5, 2),
}
_OTHER = Fraction(3)
_LESS = Fraction(1, 4)
# Parts alone up to a sixth of the tape are simplest; beside a fraction they stay within a twelfth of it.
_ALONE, _BESIDE = 6, 12


def _fractions_near(share: Fraction) -> Iterator[Fraction]:
    """Simple fractions above nothing, next below and above a share, of each denominator."""
    for denominator in _WEIGHT:
        below = math.floor(share * denominator)
        for count in (below - 1, below, below + 1, below + 2):
            if count > 0:
                yield Fraction(count, denominator)


def _spellings(share: Fraction, parts: int, grain: int) -> Iterator[Reading]:
    """Every reading of one grain that may stand for a share, with parts in it."""
    step = Fraction(1, grain)
    alone = to_nearest(share * parts, step)
    if alone > 0:
        yield Reading(Fraction(0), alone)
    for fraction in _fractions_near(share):
        beside = to_nearest((share - fraction) * parts, step)
        if beside and abs(beside) <= Fraction(parts, _BESIDE):
            yield Reading(fraction, beside)


def effort(reading: Reading, parts: int = PARTS) -> Fraction:
    """How much a spelling asks of the person: the weights of this module's head; lower is simpler."""
    if not reading.fraction:
        # Counting on and on is the last resort: whatever is as near and has a fraction in it goes before.
        few = abs(reading.parts) <= Fraction(parts, _ALONE)
        return Fraction(0) if few else abs(reading.parts) + _OTHER + _LESS
    less = _LESS if reading.parts < 0 else Fraction(0)
    return abs(reading.parts) + _WEIGHT.get(reading.fraction.denominator, _OTHER) + less


def nearest_reading(
    length_mm: Real,
    whole_mm: Real,
    parts: int = PARTS,
    tolerance_mm: Real = Fraction(1, 2),
    parts_tolerance_mm: Real | None = None,
) -> Reading:
    """The nearest simple reading of a length on a tape whose whole is `whole_mm`, all in millimetres.

    `tolerance_mm` is how far a simple fraction may stand from the length, `parts_tolerance_mm` (the same
    if it is None) how far a reading with parts in it. Ties go to the simpler spelling, so the answer
    depends on nothing else. ValueError when the length is negative or the whole is not above nothing.
    """
    long, whole = Fraction(length_mm), Fraction(whole_mm)
    if long < 0 or whole <= 0:
        raise ValueError("a reading is of a length that is not negative on a whole above nothing")
    share = long / whole
    allowed = Fraction(tolerance_mm) / whole
    allowed_parts = allowed if parts_tolerance_mm is None else Fraction(parts_tolerance_mm) / whole

    def order(reading: Reading) -> tuple[Fraction, Fraction, int, Fraction]:
        off = abs(value(reading, parts) - share)
        return off, effort(reading, parts), reading.fraction.denominator, reading.fraction

    alone = min((Reading(f) for f in (Fraction(0), *_fractions_near(share))), key=order)
    if order(alone)[0] <= allowed:
        return alone
    for grain in _GRAINS:
        found = min(_spellings(share, parts, grain), key=order, default=None)
        if found is not None and order(found)[0] <= allowed_parts:
            return found
    last = min((alone, *_spellings(share, parts, _ABOUT)), key=order)
    return Reading(last.fraction, last.parts, about=order(last)[0] > allowed_parts)


def in_parts(length_mm: Real, whole_mm: Real, parts: int = PARTS, step: Fraction = Fraction(1, 2)) -> Reading:
    """The nearest reading in parts alone, to a `step` of a part: how a range counted in parts is read.

    `about` unless it is exact. The length may be negative; ValueError when the whole is not above nothing.
    """
    whole = Fraction(whole_mm)
    if whole <= 0:
        raise ValueError("a tape has a whole above nothing")
    exact = Fraction(length_mm) / whole * parts
    counted = to_nearest(exact, step)
    return Reading(Fraction(0), counted, about=counted != exact)

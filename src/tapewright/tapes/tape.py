"""A graduated tape: a whole divided into simple fractions and small parts, and readings of it.

The whole itself is a length that only a body knows; here it is words, and a number that the caller
brings. A reading is exact: a fraction of the whole and a number of parts.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tapewright.units import Real

PARTS = 48
"""How many parts a tape has unless it says otherwise: the smallest number that halves, thirds, quarters,
sixths, eighths and twelfths all fall on, twice over."""

MOST_PARTS = 2000
"""The most parts a tape may have. The finest that a source divides is an ell of 524 lignes (Garsault 1771);
in 2000 parts the part of a tall man's height is still under a millimetre and above the breadth of a line."""


@dataclass(frozen=True, slots=True)
class Tape:
    """A tape as a lesson declares it: `bust tape: the bust in 48 parts; the usual tape`.

    `name` is the whole name (`bust tape`); `whole_words` say what it is the whole of, which may be a
    measure, a share of one, or a share and a constant (Hertzer, *Garment Cutting in the Twentieth
    Century*, 1892, takes half the breast and 2 1/2 in, in 20 parts). ValueError for less than one part or
    more than `MOST_PARTS`.
    """

    name: str
    whole_words: str
    parts: int = PARTS
    usual: bool = False

    def __post_init__(self) -> None:
        if self.parts < 1:
            raise ValueError(f"a tape has at least one part, not {self.parts}")
        if self.parts > MOST_PARTS:
            raise ValueError(f"a tape has at most {MOST_PARTS} parts, not {self.parts}")


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading: `fraction` of the whole plus `parts` parts, which may be less than none.

    `about` marks one that only stands near the length it was taken from, by more than was allowed.
    """

    fraction: Fraction
    parts: Fraction = Fraction(0)
    about: bool = False


def value(reading: Reading, parts: int = PARTS) -> Fraction:
    """A reading as a share of the whole, exact, on a tape of so many parts."""
    return reading.fraction + reading.parts / parts


def length(reading: Reading, whole_mm: Real, parts: int = PARTS) -> Fraction:
    """A reading as a length in millimetres, exact, on a tape whose whole is `whole_mm`."""
    return value(reading, parts) * Fraction(whole_mm)

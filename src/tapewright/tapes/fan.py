"""The graduating fan: converging lines across which any blank strip takes its parts, without a computer.

The lines run from equal places along the foot of the sheet toward one point. Whatever lies across them
parallel to the foot is cut by them into equal parts, since all such crossings are the foot made smaller
about that point (Euclid, *Elements*, VI 2 and 4, from memory). A strip is laid where it just spans from the first line
to the last. That a fan of lines grades a strip is geometry as old as that; this sheet is ours.

The numbers of it only: where each line stands. `pages/fan_sheet.py` draws it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from tapewright.tapes.tape import MOST_PARTS, PARTS
from tapewright.tapes.ticks import SIMPLE_RANKS, Rank, ticks

LONGEST = 1330.0
"""The longest strip, in mm, that the fan takes unless more is asked for: 130 cm and 52 in, and a little over."""

SHORTEST = 100.0
"""The shortest strip, in mm: a small wrist. Its forty-eight parts are 2 mm."""

# How far the lines are from their common point at the foot, as a share of the foot. Deeper is more exact by
# hand (a strip laid aslant shifts its middle less) and takes more paper; at this depth A4 needs three rows.
_DEPTH = 0.41
# Parts narrower than this at the foot cannot be marked by hand, nor the lines told apart further up.
_LEAST_PART = 4.0
_MOST_LONG = 4000.0


@dataclass(frozen=True, slots=True)
class FanLine:
    """A line of the fan: which share of the strip it marks, how simple that is, how many parts it is."""

    share: Fraction
    rank: Rank
    count: int | None

    @property
    def name(self) -> str:
        """The fraction it marks, where that is a simple one."""
        return str(self.share) if self.rank in SIMPLE_RANKS else ""


@dataclass(frozen=True)
class Fan:
    """A fan for strips of `shortest` to `longest` mm, in `parts` parts.

    On a `folded` one a strip is laid folded in half, both its ends at the first line and its crease at the
    last, and marked through both layers: half as wide, a quarter of the paper. x runs along the foot from
    its first line, y from the common point toward the foot, both in mm. ValueError for a strip or a number
    of parts that it cannot take.
    """

    parts: int = PARTS
    longest: float = LONGEST
    shortest: float = SHORTEST
    folded: bool = False

    def __post_init__(self) -> None:
        if not (0 < self.shortest < self.longest <= _MOST_LONG):
            raise ValueError(f"a fan takes strips from something to at most {_MOST_LONG:g} mm")
        if not 2 <= self.parts <= MOST_PARTS or self.longest / self.parts < _LEAST_PART:
            raise ValueError(f"{self.parts} parts of {self.longest:g} mm are too fine to be marked by hand")
        if self.folded and self.parts % 2:
            raise ValueError("a strip folded in half has an even number of parts")

    @property
    def foot(self) -> float:
        """How wide the fan is at its foot."""
        return self.longest / 2 if self.folded else self.longest

    @property
    def depth(self) -> float:
        """How far the foot is from the common point."""
        return self.foot * _DEPTH

    @property
    def top(self) -> float:
        """Where the lines begin, as a y."""
        return self.at(self.shortest)

    def at(self, strip: float) -> float:
        """The y at which a strip of this length (mm, unfolded) just spans."""
        return strip / self.longest * self.depth

    def spread(self, y: float) -> float:
        """How wide the fan is at a y."""
        return self.foot * y / self.depth

    def x(self, share: Fraction | float, y: float) -> float:
        """Where the line of a share of the strip is at a y."""
        across = float(share) * (2 if self.folded else 1) - 0.5
        return self.foot / 2 + across * self.spread(y)

    @cached_property
    def lines(self) -> tuple[FanLine, ...]:
        """Every line in order, with the first and the last: all parts, and the simple fractions."""
        last = Fraction(1, 2) if self.folded else Fraction(1)
        between = [
            FanLine(t.position, t.rank, _count(t.position, self.parts))
            for t in ticks(self.parts)
            if t.position < last
        ]
        end = Rank.HALF if self.folded else Rank.PART
        return (
            FanLine(Fraction(0), Rank.PART, 0),
            *between,
            FanLine(last, end, _count(last, self.parts)),
        )


def _count(share: Fraction, parts: int) -> int | None:
    return int(share * parts) if (share * parts).denominator == 1 else None

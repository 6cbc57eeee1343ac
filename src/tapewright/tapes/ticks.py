"""The ticks of a tape: where the strokes stand, and how simple a division each belongs to.

Both the printed tape and the rulers on screen draw these; how tall, and which are named, is theirs.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from fractions import Fraction


class Rank(IntEnum):
    """The simplest division a tick belongs to, the simplest first."""

    HALF = 2
    THIRD = 3
    QUARTER = 4
    SIXTH = 6
    EIGHTH = 8
    TWELFTH = 12
    PART = 100
    HALF_PART = 200
    QUARTER_PART = 400
    EIGHTH_PART = 800


SIMPLE_RANKS = (Rank.HALF, Rank.THIRD, Rank.QUARTER, Rank.SIXTH, Rank.EIGHTH, Rank.TWELFTH)
"""The named fractions, which every tape has whatever its parts."""

NAMING_ORDER = (Rank.HALF, Rank.QUARTER, Rank.THIRD, Rank.EIGHTH, Rank.SIXTH, Rank.TWELFTH)
"""Whose names are set first where there is not room for all."""

_SHARE_OF_A_PART = {Rank.PART: 1, Rank.HALF_PART: 2, Rank.QUARTER_PART: 4, Rank.EIGHTH_PART: 8}


@dataclass(frozen=True, slots=True)
class Tick:
    """A tick at a share of the whole."""

    position: Fraction
    rank: Rank


def ticks(parts: int, finest: Rank = Rank.PART) -> tuple[Tick, ...]:
    """The ticks of a tape of so many parts, from its start to its end, without the two ends.

    `finest` is the last rank drawn. A tick that belongs to several divisions has the simplest, so no
    place has two. ValueError for less than one part.
    """
    if parts < 1:
        raise ValueError(f"a tape has at least one part, not {parts}")
    found: dict[Fraction, Rank] = {}
    for rank in Rank:
        if rank > finest:
            break
        count = parts * _SHARE_OF_A_PART[rank] if rank >= Rank.PART else int(rank)
        for k in range(1, count):
            found.setdefault(Fraction(k, count), rank)
    return tuple(Tick(at, found[at]) for at in sorted(found))

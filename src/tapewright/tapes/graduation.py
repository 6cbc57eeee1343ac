"""What stands along the two edges of a tape in a notation: where the strokes are, how tall, what is written.

The numbers of it only; how tall a rank is, in millimetres, and which names have room, is the printer's.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tapewright.tapes.notation import Edge, Notation, Way
from tapewright.tapes.ticks import SIMPLE_RANKS, Rank, Tick, ticks
from tapewright.tapes.writing import write

_RANK_OF = {int(rank): rank for rank in SIMPLE_RANKS}
# On a tape that is counted in parts the parts are what is read first.
_COUNTED = {Rank.PART: Rank.QUARTER, Rank.HALF_PART: Rank.EIGHTH, Rank.QUARTER_PART: Rank.PART,
            Rank.EIGHTH_PART: Rank.HALF_PART}  # fmt: skip


@dataclass(frozen=True, slots=True)
class EdgeTick:
    """A stroke at a share of the whole: how tall it is by its rank, and what is written at it, if anything."""

    position: Fraction
    rank: Rank
    name: str = ""


@dataclass(frozen=True, slots=True)
class Graduation:
    """Both edges. `two_edged` says that the lower one is read like the upper; else it counts the parts.

    `signs` says that what is written at the upper edge are the notation's own marks, not figures.
    """

    upper: tuple[EdgeTick, ...]
    lower: tuple[EdgeTick, ...]
    two_edged: bool = False
    signs: bool = False


def graduation(notation: Notation, parts: int, finest: Rank = Rank.PART, every: int = 1) -> Graduation:
    """The edges of a tape of so many parts in a notation.

    `finest` is the last rank that has room; where even the parts stand too close, only each `every`-th of
    them is marked.
    """
    match notation.way:
        case Way.PLAIN:
            return Graduation(_simple(parts, finest, every), _parts(parts, every))
        case Way.FRACTIONS:
            return Graduation(_own(notation, Edge.UPPER), _own(notation, Edge.LOWER), two_edged=True)
        case Way.PARTS:
            return Graduation(
                _counted(parts, finest, notation.finest, every), _simple(1, Rank.TWELFTH), two_edged=True
            )
        case Way.ALONE:
            lower = _own(notation, Edge.LOWER)
            upper = _own(notation, Edge.UPPER)
            return Graduation(upper, lower or _parts(parts, every), two_edged=bool(lower), signs=True)
        case _:
            return Graduation(_written(notation, parts, finest, every), _parts(parts, every), signs=True)


def _ticks(parts: int, finest: Rank, every: int) -> tuple[Tick, ...]:
    """The tape's ticks; of the parts each `every`-th."""
    found = ticks(parts, finest)
    if every == 1:
        return found
    return tuple(t for t in found if t.rank in SIMPLE_RANKS or (t.position * parts / every).denominator == 1)


def _simple(parts: int, finest: Rank, every: int = 1) -> tuple[EdgeTick, ...]:
    """The simple fractions, named, and the parts, not named."""
    return tuple(
        EdgeTick(t.position, t.rank, str(t.position) if t.rank in SIMPLE_RANKS else "")
        for t in _ticks(parts, finest, every)
    )


def _parts(parts: int, every: int) -> tuple[EdgeTick, ...]:
    return tuple(EdgeTick(Fraction(k, parts), Rank.PART, str(k)) for k in range(every, parts, every))


def _counted(parts: int, finest: Rank, smallest: Fraction, every: int) -> tuple[EdgeTick, ...]:
    """Parts, numbered, and their halves, quarters and eighths as far as the notation reads and room allows."""
    found: dict[Fraction, EdgeTick] = {}
    for rank, shown in _COUNTED.items():
        share = int(rank) // int(Rank.PART)
        if rank > finest or share > smallest.denominator:
            break
        for k in range(every, parts * share, every):
            at = Fraction(k, parts * share)
            found.setdefault(at, EdgeTick(at, shown, str(k) if rank is Rank.PART else ""))
    return tuple(found[at] for at in sorted(found))


def _own(notation: Notation, edge: Edge) -> tuple[EdgeTick, ...]:
    """The notation's own marks on one edge, the simpler the share the taller."""
    marks = sorted((m for m in notation.marks if m.edge is edge and m.share < 1), key=lambda m: m.share)
    return tuple(EdgeTick(m.share, _rank(m.share), m.sign) for m in marks)


def _rank(share: Fraction) -> Rank:
    if share.denominator in _RANK_OF:
        return _RANK_OF[share.denominator]
    return Rank.TWELFTH if share.denominator <= 24 else Rank.PART


def _written(notation: Notation, parts: int, finest: Rank, every: int) -> tuple[EdgeTick, ...]:
    """The simple fractions and the notation's marks, each with its own writing; the parts, without."""
    found = {t.position: EdgeTick(t.position, t.rank) for t in _ticks(parts, finest, every)}
    for mark in notation.marks:
        if mark.share < 1:
            found.setdefault(mark.share, EdgeTick(mark.share, _rank(mark.share)))
    own = {m.share for m in notation.marks}
    for at, tick in found.items():
        if tick.rank in SIMPLE_RANKS or at in own:
            said = write(at, notation, parts)
            found[at] = EdgeTick(at, tick.rank, said.text if said.exact else "")
    return tuple(found[at] for at in sorted(found))

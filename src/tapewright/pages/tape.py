"""A tape to print: what it is of, how it is graduated on the paper, and the pieces it is cut into.

Only the numbers; `tape_face.py` draws a piece. Shares are exact; millimetres are the paper's.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from tapewright.pages.paper import FULL, Scale
from tapewright.tapes import MOST_PARTS, Graduation, Notation, Rank, Way, graduation, plain
from tapewright.units import show_length

TAB = 10.0
# From how many mm on the paper a part's halves, quarters and eighths are marked; and below which not even
# every part is. The counted tape marks finer: its parts are large and its readings are their shares.
_HALVES, _QUARTERS, _EIGHTHS = 5.0, 14.0, math.inf
_COUNTED_QUARTERS, _COUNTED_EIGHTHS = 8.0, 12.0
_NARROWEST = 0.9
# What a joint keeps clear of, in mm: of a named stroke after it, whose name stands on its near side; of one
# before it.
_AFTER, _BEFORE = 9.0, 2.5
# How far a joint may move for that, as a share of a piece.
_MOVES = 0.34
_MANY = (2, 3, 4, 6, 8, 12, 24, 48, 100, 200, 400, 1000)


@dataclass(frozen=True, slots=True)
class PrintedTape:
    """A tape to print: its name, its whole in mm on the body, in how many parts, what it is the whole of.

    `words` (`half the bust`) may be empty. `centimetres` says whether the figure is printed with it, and a
    centimetre rule along it. `scale` is that of the drafts it is for.
    """

    name: str
    whole_mm: float
    parts: int
    words: str = ""
    notation: Notation = field(default_factory=plain)
    scale: Scale = FULL
    centimetres: bool = False

    def __post_init__(self) -> None:
        if not (0 < self.whole_mm < math.inf and 1 <= self.parts <= MOST_PARTS):
            raise ValueError(f"a tape needs a whole and at least one part: {self}")

    @property
    def paper_mm(self) -> float:
        """How long the whole is on the paper."""
        return self.whole_mm * float(self.scale.factor)

    @property
    def part_mm(self) -> float:
        """How long a part is on the paper."""
        return self.paper_mm / self.parts

    @property
    def says(self) -> str:
        """What it is, in words: `half the bust, 46.0 cm (18 1/8 in), in 48 parts`."""
        said = [self.words] if self.words else []
        if self.centimetres:
            said.append(show_length(self.whole_mm))
        if self.notation.way is Way.FRACTIONS:
            return ", ".join(said)
        parts = f"in {self.parts} part{'' if self.parts == 1 else 's'}"
        return f"{said[0]} {parts}" if len(said) == 1 and self.words else ", ".join([*said, parts])


@lru_cache(maxsize=256)
def graduated(tape: PrintedTape) -> Graduation:
    """What stands along its edges: as fine as the paper has room for."""
    part = tape.part_mm
    counted = tape.notation.way is Way.PARTS
    quarters, eighths = (_COUNTED_QUARTERS, _COUNTED_EIGHTHS) if counted else (_QUARTERS, _EIGHTHS)
    finest = Rank.PART
    for rank, least in (
        (Rank.HALF_PART, _HALVES),
        (Rank.QUARTER_PART, quarters),
        (Rank.EIGHTH_PART, eighths),
    ):
        if part >= least:
            finest = rank
    every = 1
    if part < _NARROWEST:
        every = next((n for n in _MANY if n * part >= _NARROWEST), tape.parts)
    return graduation(tape.notation, tape.parts, finest, every)


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of a tape printed in one: `number` from 1 `of` so many, `start` to `end` as shares."""

    tape: PrintedTape
    number: int
    of: int
    start: Fraction
    end: Fraction

    @property
    def length(self) -> float:
        """Without its tab, in mm."""
        return float(self.end - self.start) * self.tape.paper_mm

    @property
    def tab(self) -> float:
        return TAB if self.number < self.of else 0.0

    def at(self, share: Fraction) -> float:
        """How far from its left edge a share of the whole lies, in mm."""
        return float(share - self.start) * self.tape.paper_mm


def pieces_of(tape: PrintedTape, room: float) -> tuple[Piece, ...]:
    """The tape in as few pieces as go in `room` mm, of about one length.

    Each is cut midway between two strokes, and where the joint can be moved a little, so that no named
    stroke stands close behind it, whose name would be cramped against the cut.
    """
    if tape.paper_mm <= room:
        return (Piece(tape, 1, 1, Fraction(0), Fraction(1)),)
    if room <= 2 * TAB:
        raise ValueError("there is no room for a piece of tape")
    longest = (room - TAB) / tape.paper_mm
    joints = _joints(tape, longest)
    count = math.ceil(1 / longest)
    while True:
        ends = _cut(joints, count, longest)
        if ends is not None:
            pairs = enumerate(pairwise([Fraction(0), *ends, Fraction(1)]), 1)
            return tuple(Piece(tape, k, count, a, b) for k, (a, b) in pairs)
        count += 1


def _joints(tape: PrintedTape, longest: float) -> list[tuple[Fraction, float]]:
    """Every place a tape may be cut, in order, and how much a name would be cramped there (0: not at all)."""
    edges = graduated(tape)
    strokes = sorted({t.position for t in (*edges.upper, *edges.lower)})
    named = sorted({t.position for t in (*edges.upper, *(edges.lower if edges.two_edged else ())) if t.name})
    found = []
    for a, b in pairwise([Fraction(0), *strokes, Fraction(1)]):
        # One place in the middle of two strokes; several where they stand very far apart.
        several = math.ceil(float(b - a) / (longest / 2))
        for i in range(several):
            at = a + (b - a) * Fraction(2 * i + 1, 2 * several)
            found.append((at, _cramped(at, named, tape.paper_mm)))
    return found


def _cramped(at: Fraction, named: Sequence[Fraction], paper_mm: float) -> float:
    after = min((float(n - at) for n in named if n > at), default=1.0) * paper_mm
    before = min((float(at - n) for n in named if n < at), default=1.0) * paper_mm
    return max(0.0, _AFTER - after) + max(0.0, _BEFORE - before)


def _cut(joints: Sequence[tuple[Fraction, float]], count: int, longest: float) -> list[Fraction] | None:
    """Joints for `count` pieces, none longer than allowed; the least cramped, then the most even. None
    where it cannot be done.
    """
    best: dict[Fraction, tuple[float, list[Fraction]]] = {Fraction(0): (0.0, [])}
    for k in range(1, count):
        ideal, reach = k / count, _MOVES / count
        near = [(at, cramped) for at, cramped in joints if abs(float(at) - ideal) <= reach]
        if not near:
            near = [min(joints, key=lambda joint: abs(float(joint[0]) - ideal))]
        following: dict[Fraction, tuple[float, list[Fraction]]] = {}
        for at, cramped in near:
            cost = cramped + abs(float(at) - ideal) * count
            tries = [
                (total + cost, [*ends, at])
                for last, (total, ends) in best.items()
                if last < at and float(at - last) <= longest
            ]
            if tries:
                following[at] = min(tries)
        best = following
    whole = [found for last, found in best.items() if float(1 - last) <= longest]
    return min(whole)[1] if whole else None

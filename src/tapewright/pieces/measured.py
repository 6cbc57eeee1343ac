"""The pattern measured as the wearer was: each measure of the sheet that the pieces can show, one body at a time.

Girths are taken at the levels that the draft names (the waist line, the scye line), across the pieces and not along
an edge that dips; lengths along the edges from the places of the body that the lesson names (`Let A stand for the
nape`). What is not on the pieces is told, and not put together from something else.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from tapewright.draft.rows import DrawnLine
from tapewright.geometry import Arc, Circle, end_point, start_point
from tapewright.geometry.tolerance import OFFSET_AGREES
from tapewright.measures import Figure
from tapewright.pieces.across import (
    Level,
    Spot,
    across,
    corner_at,
    crossings,
    down_to,
    joined_pieces,
    level_through,
    one_body,
)
from tapewright.pieces.edge import Lies
from tapewright.pieces.pattern import Pattern
from tapewright.pieces.piece import PatternPiece

#: Girths of the trunk, and the line at whose level each is taken: its own, or one that stands for it.
GIRTHS = {
    "bust": ("bust line",),
    "chest": ("chest line", "scye line"),
    "high bust": ("high bust line", "scye line"),
    "under bust": ("under bust line",),
    "waist": ("waist line",),
    "high waist": ("high waist line",),
    "navel waist": ("navel waist line",),
    "high hip": ("high hip line",),
    "hip": ("hip line", "seat line"),
}
#: Girths of a limb: one piece, or the pieces sewn to each other, go round it once.
LIMBS = ("upper arm", "elbow", "forearm", "wrist", "thigh", "knee", "below the knee", "calf", "ankle")
#: Lines on which two fronts close over each other; what lies beyond them is lap.
CLOSING = ("button line", "closing line", "lacing line")
#: Such a line is carried on by this much beyond its last button, mm.
CARRIED_ON = 40.0
#: What a lesson calls the gap that its lacing leaves open, all round.
LACING_GAP = "lacing gap"
#: Edges that lie beyond the ends of their level by more than this are of something drawn elsewhere, mm.
BESIDE = 200.0


@dataclass(frozen=True, slots=True)
class Measured:
    """A measure taken on the pattern, mm, and how it was taken; `found` is None where the pieces do not show it.

    `parts` are what it was put together from: in words, and mm. `over` is what they lap at one
    front there, mm, counted off already.
    """

    measure: str
    found: float | None
    how: str
    parts: tuple[tuple[str, float], ...] = ()
    over: float = 0.0


@dataclass(slots=True)
class _Tape:
    """A pattern and one body, to be measured."""

    pattern: Pattern
    row: int
    body: tuple[PatternPiece, ...]
    halves: int

    def landmark(self, name: str) -> list[tuple[str, Spot]]:
        """The letters that stand for a place of the body, and where they are."""
        return [
            (letter, (float(p.x[self.row]), float(p.y[self.row])))
            for mark in self.pattern.draft.landmarks()
            if mark.name == name
            for letter, p in zip(mark.letters, mark.points, strict=True)
        ]

    def level(self, *names: str) -> tuple[str, Level, float] | None:
        """The first of some named straight lines that was drawn: its name, its level, how long it is."""
        draft = self.pattern.draft
        for name in names:
            for line in draft.plan.lines:
                if line.name == name and draft.alive(f"line {line.index}", self.row):
                    ends = _ends(draft.line(line.index), self.row)
                    found = None if ends is None else level_through(*ends)
                    if found is not None and ends is not None:
                        return name, found, found.at(ends[1])
        return None

    def on(self, spot: Spot) -> list[tuple[PatternPiece, int]]:
        """The body's pieces that have a corner at a place."""
        return [(p, k) for p in self.body if (k := corner_at(p, self.row, spot)) is not None]


def _ends(line: DrawnLine, row: int) -> tuple[Spot, Spot] | None:
    if isinstance(line, Circle | Arc):
        return None
    p, q = start_point(line), end_point(line)
    return (float(p.x[row]), float(p.y[row])), (float(q.x[row]), float(q.y[row]))


def measure_pattern(pattern: Pattern, row: int = 0) -> tuple[Measured, ...]:
    """Every measure that one body's pattern can show, in the order in which a cutter would take them."""
    tape = _Tape(
        pattern, row, body_pieces(pattern), 1 if pattern.draft.plan.lesson.header.body == "whole" else 2
    )
    if not tape.body:
        return ()
    woman = pattern.draft.bodies.figures[row] is not Figure.MAN
    found = [
        *_girths(tape, woman),
        *_limbs(tape),
        *_lengths(tape),
        *_breadths(tape),
        *_rounds(tape),
    ]
    return tuple(found)


def body_pieces(pattern: Pattern) -> tuple[PatternPiece, ...]:
    """The outer pieces that go round the body: the largest, and whatever is sewn to it."""
    outer = [p for p in pattern.pieces if p.outer]
    if not outer:
        return ()
    largest = max(outer, key=lambda p: float(p.net_area()[0]))
    links = [
        (a.piece, b.piece) for seam in pattern.seams for a in seam.first.parts for b in seam.second.parts
    ]
    mine = joined_pieces(len(pattern.pieces), links, largest.number)
    return tuple(p for p in outer if p.number in mine)


def _girth(tape: _Tape, measure: str, name: str, level: Level, long: float, times: int) -> Measured:
    parts = []
    for piece in tape.body:
        stretches = [(a, b) for a, b in across(piece, tape.row, level) if b > -BESIDE and a < long + BESIDE]
        if stretches:
            parts.append((piece.name, sum(b - a for a, b in stretches)))
    if not parts:
        return Measured(measure, None, f"no piece comes to the {name}")
    over = _over(tape, level)
    total = times * (sum(v for _, v in parts) - over) + _gap(tape)
    return Measured(
        measure, total, f"across the pieces at the {name}, level on the paper", tuple(parts), over
    )


def _over(tape: _Tape, level: Level) -> float:
    """How far the pieces reach past the line on which they close in front, at a level."""
    draft = tape.pattern.draft
    ends = [b for piece in tape.body for _, b in across(piece, tape.row, level)]
    for line in draft.plan.lines:
        if line.name not in CLOSING or not draft.alive(f"line {line.index}", tape.row):
            continue
        drawn = draft.line(line.index)
        if isinstance(drawn, Circle | Arc):
            continue
        met = crossings(one_body(drawn, tape.row), level, CARRIED_ON)
        if met and ends:
            return max(ends) - max(met)
    return 0.0


def _gap(tape: _Tape) -> float:
    """The gap that a lacing leaves open, all round, where the lesson names one; mm."""
    draft = tape.pattern.draft
    for kind in ("eye", "name"):
        if f"{kind} {LACING_GAP}" in draft.made and draft.alive(f"{kind} {LACING_GAP}", tape.row):
            return float(np.asarray(draft.made[f"{kind} {LACING_GAP}"].thing)[tape.row])
    return 0.0


def _girths(tape: _Tape, woman: bool) -> Iterator[Measured]:
    for measure, lines in GIRTHS.items():
        if measure in (("chest",) if woman else ("bust", "high bust", "under bust")):
            continue
        at = tape.level(*lines)
        if at is None and measure == "bust":
            at = _through_the_bust_point(tape)
        if at is not None:
            yield _girth(tape, measure, *at, tape.halves)


def _through_the_bust_point(tape: _Tape) -> tuple[str, Level, float] | None:
    """The bust line: level through the bust point, as the scye line runs."""
    points, along = tape.landmark("bust point"), tape.level("scye line", "waist line")
    if not points or along is None:
        return None
    _, level, long = along
    x, y = points[0][1]
    start = level.at((x, y))
    shifted = Level(x - start * level.dx, y - start * level.dy, level.dx, level.dy)
    return "level of the bust point", shifted, long


def _limbs(tape: _Tape) -> Iterator[Measured]:
    for measure in LIMBS:
        at = tape.level(f"{measure} line")
        if at is None:
            continue
        name, level, _ = at
        parts = []
        for piece in tape.pattern.pieces:
            if not piece.outer:
                continue
            long = sum(b - a for a, b in across(piece, tape.row, level))
            if long > OFFSET_AGREES:
                folded = any(e.lies is Lies.FOLD for e in piece.edges)
                parts.append((piece.name, long * (2 if folded else 1)))
        if parts:
            yield Measured(
                measure,
                sum(v for _, v in parts),
                f"across the pieces at the {name}, level on the paper",
                tuple(parts),
            )


def _lengths(tape: _Tape) -> Iterator[Measured]:
    waist, scye = tape.level("waist line"), tape.level("scye line")
    for measure, mark, down in (
        ("nape to waist", "nape", waist),
        ("front neck to waist", "front neck point", waist),
        ("underarm to waist", "underarm point", waist),
    ):
        if down is None:
            continue
        seen: set[tuple[int, int]] = set()
        for letter, spot in tape.landmark(mark):
            on = tape.on(spot)
            for piece, corner in on:
                if (piece.number, corner) in seen:
                    continue
                seen.add((piece.number, corner))
                long = down_to(piece, tape.row, corner, down[1])
                if long is not None:
                    yield Measured(
                        measure, long, f"along the edge of the {piece.name} from {letter} to the {down[0]}"
                    )
            if not on:
                yield Measured(measure, None, f"the {mark} is {letter}, and no piece has a corner there")
    if scye is not None:
        for letter, spot in tape.landmark("nape"):
            level = scye[1]
            away = abs((spot[0] - level.x) * level.dy - (spot[1] - level.y) * level.dx)
            yield Measured("scye depth", away, f"plumb from {letter} to the scye line")
    yield from _straights(tape)


def _straights(tape: _Tape) -> Iterator[Measured]:
    necks, shoulders = tape.landmark("neck point"), tape.landmark("shoulder point")
    for (a, p), (b, q) in zip(necks, shoulders, strict=False):
        on = [piece for piece, _ in tape.on(p) if corner_at(piece, tape.row, q) is not None]
        if on:
            closed = _less_darts(tape, p, q)
            yield Measured("shoulder", closed, f"from {a} to {b} of the {on[0].name}")
        else:
            yield Measured("shoulder", None, f"no piece has a corner at both {a} and {b}")
    for letter, bust in tape.landmark("bust point"):
        if len(necks) > 1:
            a, p = necks[-1]
            yield Measured("neck to bust point", _far(p, bust), f"from {a} to {letter}")
        middle = tape.landmark("waist in front"), tape.landmark("front neck point")
        if all(middle):
            line = level_through(middle[0][0][1], middle[1][0][1])
            if line is not None:
                away = abs((bust[0] - line.x) * line.dy - (bust[1] - line.y) * line.dx)
                yield Measured(
                    "bust point to bust point", 2.0 * away, f"twice from {letter} to the middle in front"
                )


def _less_darts(tape: _Tape, p: Spot, q: Spot) -> float:
    """From corner to corner along a piece's edges, its darts closed; the straight way where no piece has both."""
    for piece, first in tape.on(p):
        last = corner_at(piece, tape.row, q)
        if last is None:
            continue
        count = len(piece.edges)
        ways = []
        for one, other in ((first, last), (last, first)):
            run = [piece.edges[(one + k) % count] for k in range((other - one) % count)]
            ways.append(sum(float(e.length[tape.row]) for e in run if e.lies is not Lies.DART))
        return min(ways)
    return _far(p, q)


def _far(p: Spot, q: Spot) -> float:
    return float(np.hypot(p[0] - q[0], p[1] - q[1]))


def _breadths(tape: _Tape) -> Iterator[Measured]:
    """Cross back and cross front: half-way between the shoulder's end and the scye line, from scye to scye."""
    scye, shoulders = tape.level("scye line"), tape.landmark("shoulder point")
    if scye is None or len(shoulders) != 2:
        return
    _, level, _ = scye
    between = sum(level.at(p) for _, p in shoulders) / 2.0
    for measure, (_, p), behind in (
        ("cross back", shoulders[0], True),
        ("cross front", shoulders[1], False),
    ):
        up = (p[0] - level.x) * level.dy - (p[1] - level.y) * level.dx
        half = Level(level.x + level.dy * up / 2.0, level.y - level.dx * up / 2.0, level.dx, level.dy)
        parts = []
        if any(_from_a_neck(tape, piece, half, between, behind) for piece in tape.body):
            yield Measured(measure, None, "the neck is cut lower than where it is taken")
            continue
        for piece in tape.body:
            mine = [b - a for a, b in across(piece, tape.row, half) if ((a + b) / 2.0 < between) == behind]
            if mine:
                parts.append((piece.name, sum(mine)))
        if parts:
            yield Measured(
                measure,
                tape.halves * sum(v for _, v in parts),
                "half-way between the shoulder's end and the scye line",
                tuple(parts),
            )


def _from_a_neck(tape: _Tape, piece: PatternPiece, level: Level, between: float, behind: bool) -> bool:
    """Whether a piece begins at the edge of a neck at a level, and not at its middle or a seam."""
    necks = [d for e in piece.edges if is_neck(e.name) for d in crossings(one_body(e.net, tape.row), level)]
    return any(
        abs(d - end) <= OFFSET_AGREES
        for a, b in across(piece, tape.row, level)
        if ((a + b) / 2.0 < between) == behind
        for end in (a, b)
        for d in necks
    )


def is_neck(name: str) -> bool:
    """Whether an edge goes by the name of a neck."""
    return any(word in {"neck", "neckline"} for word in name.split())


def _rounds(tape: _Tape) -> Iterator[Measured]:
    """The scye and the neck by the tape, along the edges that go by that name.

    A neck that does not go from the nape to the pit of the neck is an opening, and no measure of the wearer.
    """
    whole_neck = all(
        any(tape.on(spot) for _, spot in tape.landmark(mark)) for mark in ("nape", "front neck point")
    )
    for measure, wanted, times in (
        ("scye girth", lambda name: "scye" in name.split(), 1),
        ("neck base" if whole_neck else "neck opening", is_neck, tape.halves),
    ):
        parts = [
            (f"{e.name} of the {p.name}", float(e.length[tape.row]))
            for p in tape.body
            for e in p.edges
            if wanted(e.name) and e.lies is Lies.CUT
        ]
        if parts:
            yield Measured(
                measure, times * sum(v for _, v in parts), "along the edges, by the tape", tuple(parts)
            )

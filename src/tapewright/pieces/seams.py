"""Seams between pieces: which edge of which piece runs along which, from which end, all bodies at once.

A `Sew` names edges; here they are found on the pieces, and each side becomes one run, its parts in order, the two
sides run the same way. Which way follows, in this order, from letters that both sides have, from marks that one
sentence puts on both, from how high their ends lie on the paper where both stand upright; else from the rule
that of two pieces lying side by side, face up, one edge is run round its piece and the other against it.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tapewright.draft import Draft, Seam
from tapewright.draft.records import SeamEdge
from tapewright.geometry import (
    Array,
    Point,
    Stretch,
    distance,
    end_point,
    length,
    nearest,
    start_point,
    whole,
)
from tapewright.geometry.tolerance import OFFSET_AGREES, SEAMS_MATCH
from tapewright.pieces.edge import PieceEdge
from tapewright.pieces.piece import PatternPiece
from tapewright.pieces.turnings import lies_along


@dataclass(frozen=True, slots=True, eq=False)
class SeamPart:
    """A run along one edge of one piece; `run` goes the way of the seam, `forward` if that is the outline's way."""

    piece: int
    edge: int
    run: Stretch
    length: Array
    forward: bool


@dataclass(frozen=True, slots=True, eq=False)
class SeamSide:
    """One side of a seam: its parts in order, how long it is, and what of it is on no piece."""

    names: tuple[str, ...]
    parts: tuple[SeamPart, ...]
    length: Array
    missing: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class PatternSeam:
    """A seam as it is run: both sides the same way, from the end where they begin together."""

    number: int
    said: Seam
    first: SeamSide
    second: SeamSide

    @property
    def whole(self) -> bool:
        """Whether every edge that it names is an edge of a piece."""
        return not (self.first.missing or self.second.missing)


def seams_of(draft: Draft, pieces: Sequence[PatternPiece]) -> tuple[PatternSeam, ...]:
    """Every seam of a draft, run on its pieces."""
    laid = [(seam, _side(seam.first, pieces), _side(seam.second, pieces)) for seam in draft.seams()]
    found = []
    for number, (seam, first, second) in enumerate(laid):
        one, two = _agreed(seam, first, second, draft, pieces, [(a, b) for _, a, b in laid])
        found.append(PatternSeam(number, seam, one, two))
    return tuple(found)


# --- finding the edges on the pieces ------------------------------------------------------------------


def _side(edges: Sequence[SeamEdge], pieces: Sequence[PatternPiece]) -> SeamSide:
    parts: list[SeamPart] = []
    missing = []
    for edge in edges:
        mine = _parts(edge, pieces)
        parts += mine
        if not mine:
            missing.append(edge.name)
    total = np.zeros_like(edges[0].length)
    for edge in edges:
        total = total + edge.length
    return SeamSide(tuple(e.name for e in edges), tuple(parts), total, tuple(missing))


def _parts(named: SeamEdge, pieces: Sequence[PatternPiece]) -> list[SeamPart]:
    """The edges of pieces that lie along an edge named, in its own order; of layers alike, the outermost."""
    run = whole(named.drawn)
    low, high = np.minimum(run.start, run.end), np.maximum(run.start, run.end)
    found: list[tuple[float, SeamPart]] = []
    taken: list[tuple[float, float]] = []
    for piece in sorted(pieces, key=lambda p: (not p.outer, p.number)):
        for k, edge in enumerate(piece.edges):
            if not lies_along(edge.edge, named.at):
                continue
            part = _part(run, low, high, edge)
            if part is None:
                continue
            a, b = sorted((float(part.start[0]), float(part.end[0])))
            if any(min(b, d) - max(a, c) > SEAMS_MATCH for c, d in taken):
                continue
            taken.append((a, b))
            onward = bool(run.start[0] <= run.end[0])
            same = bool(part.start[0] <= part.end[0]) == onward
            run_on = part if same else Stretch(run.curve, part.end, part.start)
            found.append((a if onward else -b, SeamPart(piece.number, k, run_on, length(run_on), same)))
    return [part for _, part in sorted(found, key=lambda x: x[0])]


def _part(run: Stretch, low: Array, high: Array, edge: PieceEdge) -> Stretch | None:
    """What of an edge of a piece lies on an edge named, in the outline's way; None where nothing does."""
    p, q = start_point(edge.drawn), end_point(edge.drawn)
    whole_line = Stretch(run.curve, np.zeros_like(low), np.full_like(low, float(run.curve.segments)))
    a, b = nearest(whole_line, p), nearest(whole_line, q)
    if bool(((a.distance > OFFSET_AGREES) & (b.distance > OFFSET_AGREES)).all()):
        # The edge goes beyond both ends of what was named: all of it, if it lies there at all.
        back = nearest(edge.drawn, start_point(run)), nearest(edge.drawn, end_point(run))
        if bool((back[0].distance > OFFSET_AGREES).all()):
            return None
        same = bool(back[0].t[0] <= back[1].t[0])
        return Stretch(run.curve, *((run.start, run.end) if same else (run.end, run.start)))
    part = Stretch(run.curve, np.clip(a.t, low, high), np.clip(b.t, low, high))
    return part if bool((length(part) > OFFSET_AGREES).any()) else None


# --- which way they run together ----------------------------------------------------------------------


def _agreed(
    seam: Seam,
    first: SeamSide,
    second: SeamSide,
    draft: Draft,
    pieces: Sequence[PatternPiece],
    all_sides: Sequence[tuple[SeamSide, SeamSide]],
) -> tuple[SeamSide, SeamSide]:
    """Both sides, the second turned about if need be, and each part the way its neighbours run."""
    if not first.parts or not second.parts:
        return first, second
    links = [side for pair in all_sides for side in pair]
    first, second = _chained(first, pieces, links), _chained(second, pieces, links)
    return (first, second) if _together(first, second, draft, pieces) else (first, _about(second))


def _about(side: SeamSide) -> SeamSide:
    parts = tuple(
        SeamPart(p.piece, p.edge, Stretch(p.run.curve, p.run.end, p.run.start), p.length, not p.forward)
        for p in reversed(side.parts)
    )
    return SeamSide(side.names, parts, side.length, side.missing)


def _chained(side: SeamSide, pieces: Sequence[PatternPiece], links: Sequence[SeamSide]) -> SeamSide:
    """The parts of one side, each run so that all go round their pieces the same way."""
    if len(side.parts) == 1:
        return side
    options = []
    for round_ in (True, False):
        parts = tuple(p if _round(p, pieces) == round_ else _flip(p) for p in side.parts)
        options.append((_joins(parts, pieces, links), parts))
    best = max(options, key=lambda o: o[0])[1]
    return SeamSide(side.names, best, side.length, side.missing)


def _flip(p: SeamPart) -> SeamPart:
    return SeamPart(p.piece, p.edge, Stretch(p.run.curve, p.run.end, p.run.start), p.length, not p.forward)


def _round(part: SeamPart, pieces: Sequence[PatternPiece]) -> bool:
    """Whether a part runs round its piece clockwise as the paper is seen."""
    clockwise = float(pieces[part.piece].outward[0]) < 0.0
    return part.forward == clockwise


def _joins(parts: Sequence[SeamPart], pieces: Sequence[PatternPiece], links: Sequence[SeamSide]) -> int:
    """How many parts end where the next begins: on one piece at one place, on two where a seam joins them."""
    count = 0
    for one, two in itertools.pairwise(parts):
        end, start = end_point(one.run), start_point(two.run)
        if one.piece == two.piece:
            count += bool((distance(end, start) <= OFFSET_AGREES).any())
            continue
        count += _ends_of_seams(one.piece, end, links) & _ends_of_seams(two.piece, start, links)
    return count


def _ends_of_seams(piece: int, p: Point, links: Sequence[SeamSide]) -> bool:
    """Whether a seam of a piece begins or ends at a place."""
    for side in links:
        for part in side.parts:
            if part.piece == piece and len(side.parts) == 1:
                ends = start_point(part.run), end_point(part.run)
                if any(bool((distance(e, p) <= OFFSET_AGREES).any()) for e in ends):
                    return True
    return False


def _together(first: SeamSide, second: SeamSide, draft: Draft, pieces: Sequence[PatternPiece]) -> bool:
    """Whether two sides, as they are run, begin at the same end of the seam."""
    a = (start_point(first.parts[0].run), end_point(first.parts[-1].run))
    b = (start_point(second.parts[0].run), end_point(second.parts[-1].run))
    near = OFFSET_AGREES
    if _touch(a[0], b[0], near) or _touch(a[1], b[1], near):
        return True
    if _touch(a[0], b[1], near) or _touch(a[1], b[0], near):
        return False
    told = _by_marks(first, second, draft)
    if told is not None:
        return told
    level = _by_level(a, b)
    if level is not None:
        return level
    return _round(first.parts[0], pieces) != _round(second.parts[0], pieces)


def _touch(p: Point, q: Point, near: float) -> bool:
    return bool((distance(p, q) <= near).all())


def _by_marks(first: SeamSide, second: SeamSide, draft: Draft) -> bool | None:
    """By the marks that one sentence puts on both sides: do they lie alike from the beginning?"""
    for sentence in {m.sentence for m in draft.marks()}:
        ones = [p for m in draft.marks() if m.sentence == sentence and (p := _along(first, m.at)) is not None]
        others = [
            p for m in draft.marks() if m.sentence == sentence and (p := _along(second, m.at)) is not None
        ]
        if len(ones) == 1 and len(others) == 1:
            same = abs(ones[0] - others[0])
            turned = abs(ones[0] - (float(second.length[0]) - others[0]))
            if abs(same - turned) > 2.0:
                return same < turned
    return None


def _along(side: SeamSide, p: Point) -> float | None:
    """How far along a side a place lies on the first body, mm; None where it is off it."""
    far = 0.0
    for part in side.parts:
        spot = nearest(part.run, p)
        if float(spot.distance[0]) <= OFFSET_AGREES:
            return far + float(length(Stretch(part.run.curve, part.run.start, spot.t))[0])
        far += float(part.length[0])
    return None


def _by_level(a: tuple[Point, Point], b: tuple[Point, Point]) -> bool | None:
    """By height on the paper, where both sides stand rather than lie, on the first body."""
    ay, by = float((a[1].y - a[0].y)[0]), float((b[1].y - b[0].y)[0])
    ax, bx = float((a[1].x - a[0].x)[0]), float((b[1].x - b[0].x)[0])
    if abs(ay) > abs(ax) and abs(by) > abs(bx):
        return (ay > 0.0) == (by > 0.0)
    return None

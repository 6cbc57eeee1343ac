"""What is marked on pieces: balance marks at their edges, carried to both sides of a seam, and lines within.

A balance mark is said once and put on every piece that has the edge. Where the edge is sewn to another, and the
lesson marks nothing there itself, it is carried across, as far along the seam (shared out evenly where one
side is longer). A count that is left to the cutter is one notch in front and two behind.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from tapewright.draft import Draft
from tapewright.draft.records import BalanceMark
from tapewright.geometry import (
    Array,
    Drawn,
    Point,
    Stretch,
    at,
    distance,
    length,
    nearest,
    parameter_at_length,
    tangent,
    whole,
)
from tapewright.geometry.tolerance import OFFSET_AGREES
from tapewright.pieces.piece import PatternPiece
from tapewright.pieces.seams import PatternSeam, SeamSide
from tapewright.pieces.turnings import lies_along

#: A mark nearer than this to where it would be carried is that mark, mm: a notch is about so wide.
SAME_MARK = 3.0
_BEHIND = ("back", "hind", "rear")


@dataclass(frozen=True, slots=True, eq=False)
class Notch:
    """A balance mark on a piece: on which edge, where on the net line, which way is out, how many strokes.

    `out_x`, `out_y` are the unit way outward, square to the edge; `along` is how far it lies from the edge's
    start as the outline runs, mm. `carried` tells that it was carried over a seam. `(bodies,)` throughout.
    """

    piece: int
    edge: int
    at: Point
    out_x: Array
    out_y: Array
    along: Array
    count: int
    sentence: int
    carried: bool


@dataclass(frozen=True, slots=True, eq=False)
class InnerLine:
    """A line marked within a piece, such as a pocket's place; `name` are its words."""

    piece: int
    name: str
    drawn: Drawn
    sentence: int


@dataclass(frozen=True, slots=True, eq=False)
class InnerPoint:
    """A letter marked within a piece, such as a button's place."""

    piece: int
    name: str
    at: Point
    sentence: int


def notches_of(
    draft: Draft, pieces: Sequence[PatternPiece], seams: Sequence[PatternSeam]
) -> tuple[Notch, ...]:
    """Every balance mark on every piece, those that are carried across a seam included."""
    found: list[Notch] = []
    for mark in draft.marks():
        own = [
            _notch(piece, k, mark.at, _count(mark, piece), mark.sentence, carried=False)
            for piece, k in _bearing(mark, pieces)
        ]
        found += [n for n in own if not _already(n, found)]
    for seam in seams:
        for one, other in ((seam.first, seam.second), (seam.second, seam.first)):
            here = [n for n in found if _position(n, one) is not None and not n.carried]
            for notch in here:
                found += list(_carried(notch, one, other, seam, pieces, found))
    return tuple(found)


def _bearing(mark: BalanceMark, pieces: Sequence[PatternPiece]) -> Iterator[tuple[PatternPiece, int]]:
    """The edges that a balance mark falls on, piece by piece."""
    for piece in pieces:
        for k, edge in enumerate(piece.edges):
            if lies_along(edge.edge, mark.on) and bool(
                (nearest(edge.net, mark.at).distance <= OFFSET_AGREES).any()
            ):
                yield piece, k
                break


def _notch(piece: PatternPiece, k: int, point: Point, count: int, sentence: int, *, carried: bool) -> Notch:
    edge = piece.edges[k]
    run = whole(edge.net)
    spot = nearest(run, point)
    way = tangent(run, spot.t)
    along = length(Stretch(run.curve, run.start, spot.t))
    out_x, out_y = -way.dy * piece.outward, way.dx * piece.outward
    return Notch(piece.number, k, spot.point, out_x, out_y, along, count, sentence, carried)


def _count(mark: BalanceMark, piece: PatternPiece) -> int:
    """How many strokes: as said, else one in front and two behind."""
    if mark.notches:
        return mark.notches
    words = f"{mark.edge} {piece.name}".split()
    return 2 if any(w in _BEHIND for w in words) else 1


def _already(notch: Notch, found: Sequence[Notch]) -> bool:
    return any(
        n.piece == notch.piece
        and n.edge == notch.edge
        and bool((distance(n.at, notch.at) <= SAME_MARK).all())
        for n in found
    )


def _position(notch: Notch, side: SeamSide) -> Array | None:
    """How far along a side of a seam a notch stands, mm; None where it is not on it."""
    far = np.zeros_like(notch.along)
    for part in side.parts:
        if (part.piece, part.edge) == (notch.piece, notch.edge):
            spot = nearest(part.run, notch.at)
            if bool((spot.distance <= OFFSET_AGREES).any()):
                return far + length(Stretch(part.run.curve, part.run.start, spot.t))
        far = far + part.length
    return None


def _carried(
    notch: Notch,
    one: SeamSide,
    other: SeamSide,
    seam: PatternSeam,
    pieces: Sequence[PatternPiece],
    found: Sequence[Notch],
) -> Iterator[Notch]:
    position = _position(notch, one)
    if position is None:
        return
    marked = sorted(float(p[0]) for n in found if not n.carried and (p := _position(n, other)) is not None)
    mine = sorted(float(p[0]) for n in found if not n.carried and (p := _position(n, one)) is not None)
    # Where both sides were marked by the lesson its own marks stand: the first for the first, and so on.
    if len(marked) == len(mine):
        return
    share = position / np.maximum(one.length, OFFSET_AGREES)
    place = share * other.length
    if any(abs(float(place[0]) - m) <= SAME_MARK + abs(float(seam.said.difference[0])) for m in marked):
        return
    for part in other.parts:
        # At the very end of an edge there is a corner to go by, and no mark is wanted.
        ends = (place <= SAME_MARK) | (place >= part.length - SAME_MARK)
        inside = (place >= -OFFSET_AGREES) & (place <= part.length + OFFSET_AGREES)
        if bool(inside.any()) and not bool(ends.all()):
            far = parameter_at_length(part.run, np.clip(place, 0.0, part.length))
            point = at(part.run.curve, far.value)
            new = _notch(pieces[part.piece], part.edge, point, notch.count, notch.sentence, carried=True)
            if not _already(new, found):
                yield new
        if bool(inside.any()):
            return
        place = place - part.length


def inner_of(
    draft: Draft, pieces: Sequence[PatternPiece]
) -> tuple[tuple[InnerLine, ...], tuple[InnerPoint, ...]]:
    """The lines and letters that the lesson marks within pieces."""
    lines, points = [], []
    for said in draft.inner_marks():
        for piece in pieces:
            if piece.name == said.outline:
                if said.line is not None:
                    lines.append(InnerLine(piece.number, said.name, said.line.drawn, said.sentence))
                if said.at is not None:
                    points.append(InnerPoint(piece.number, said.name, said.at, said.sentence))
    return tuple(lines), tuple(points)

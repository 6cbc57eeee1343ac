"""Which turning falls to which edge of a piece, and what the edges of a piece are.

What a lesson says is honoured: an edge named has its own turning, the rest has what is left elsewhere, an
edge on the fold has none, and where the draft holds its seams the net line lies inside the line drawn. Where a
piece's sentence says nothing, the caller's width stands in; nothing is left silently.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from tapewright.draft import Draft, Piece
from tapewright.draft.records import EdgeAt, TurningAt
from tapewright.draft.rows import Edge
from tapewright.geometry import (
    Array,
    Drawn,
    Point,
    Stretch,
    area,
    curve_of,
    distance,
    end_point,
    length,
    nearest,
    start_point,
    whole,
)
from tapewright.geometry.tolerance import SEAMS_MATCH
from tapewright.language.tree import Constant
from tapewright.pieces.edge import Corners, Lies, PieceEdge
from tapewright.pieces.net_line import net_edges
from tapewright.plan.amounts import constant
from tapewright.plan.cutting import held_at
from tapewright.plan.turnings import USUAL, turning_of

_CORNERS = {
    "mitred": Corners.MITRED,
    "squared": Corners.SQUARED,
    "blunted": Corners.BLUNTED,
    "turned up": Corners.TURNED,
    "turned in": Corners.TURNED,
}


@dataclass(slots=True)
class Untold:
    """What a piece's sentence leaves open: edges named that it has not, a table that does not name an edge."""

    off_piece: list[str] = field(default_factory=list)
    not_in_table: list[tuple[str, str]] = field(default_factory=list)


def edge_words(edge: Edge) -> str:
    """What an edge is called: the name of its line, else its letters."""
    return edge.name or f"{edge.start}-{edge.end}"


def told_edges(draft: Draft, piece: Piece, elsewhere: Array | None) -> tuple[tuple[PieceEdge, ...], Untold]:
    """The edges of a piece in order, with the turnings said for it, and what was left open.

    `elsewhere` mm `(bodies,)` is left in place of what the piece's sentence leaves at the edges that it does
    not name, unless that is nothing.
    """
    edges = piece.outline.edges
    untold = Untold()
    nought = np.zeros(draft.bodies.count)
    legs = dart_legs(edges)
    found: list[TurningAt | None] = [None] * len(edges)
    rest = next((t for t in piece.turnings if not t.at), None)
    for turning in piece.turnings:
        for named in turning.at:
            mine = [k for k, edge in enumerate(edges) if is_edge(edge, named)]
            if not mine:
                untold.off_piece.append(named.name)
            for k in mine:
                found[k] = turning
    held = _held(draft, edges)
    inside = net_edges(edges, [held.get(k, nought) for k in range(len(edges))])
    made = []
    for k, edge in enumerate(edges):
        lies = Lies.CUT
        if k in legs:
            lies = Lies.DART
        elif piece.on == "fold" and _on_a_line(edge.drawn, piece.lying):
            lies = Lies.FOLD
        # Where the draft holds its seams, nothing is left a second time unless the edge is named for it.
        falls = found[k] if k in held else found[k] or rest
        finish = "" if falls is None else falls.finish
        width = nought
        if lies is Lies.CUT:
            width = _width(falls, edge, untold, None if k in held else elsewhere, nought)
            width = width + held.get(k, nought)
        made.append(
            PieceEdge(
                edge,
                edge_words(edge),
                lies,
                inside[k],
                length(inside[k]),
                width,
                _CORNERS.get(finish, Corners.MITRED),
                finish,
            )
        )
    return tuple(made), untold


def _held(draft: Draft, edges: tuple[Edge, ...]) -> dict[int, Array]:
    """How wide the seams are that the draft holds, mm `(bodies,)`, by the edges that have them."""
    seams = draft.plan.lesson.header.seams
    if seams is None or not isinstance(seams.amount, Constant):
        return {}
    wide = float(constant(seams.amount.number, seams.amount.unit).constant)
    return {
        k: np.full(draft.bodies.count, wide)
        for k, edge in enumerate(edges)
        if any(held_at(edge_words(edge), where) for where in seams.at)
    }


def _width(
    turning: TurningAt | None, edge: Edge, untold: Untold, elsewhere: Array | None, nought: Array
) -> Array:
    if turning is None:
        return nought
    width = nought if turning.width is None else turning.width
    if turning.table:
        mm = turning_of(turning.table, edge_words(edge))
        if mm is None:
            untold.not_in_table.append((turning.table, edge_words(edge)))
        return nought if mm is None else np.full_like(nought, mm)
    if turning.width is None and turning.finish:
        return np.full_like(nought, USUAL[turning.finish])
    if elsewhere is not None and not turning.at:
        return np.where(width > 0.0, elsewhere, width)
    return width


def is_edge(edge: Edge, named: EdgeAt) -> bool:
    """Whether an edge of a piece is the edge that a sentence names, or a piece of it, or it a piece of the edge.

    By the line and the letters; where the sentence names a part of a line, by whether they overlap on the
    first body.
    """
    if named.line < 0:
        same = {edge.start, edge.end} == set(named.ends)
        return same and (edge.line < 0 or curve_of(edge.drawn).is_straight)
    if edge.line != named.line:
        return False
    if named.ends == ("", ""):
        return True
    return overlap(edge.drawn, named.drawn) > SEAMS_MATCH


def lies_along(edge: Edge, named: EdgeAt) -> bool:
    """As `is_edge`, and also where a ruler is named that is a piece of a straight edge, on the first body."""
    if is_edge(edge, named):
        return True
    if named.line >= 0 or not curve_of(edge.drawn).is_straight:
        return False
    spots = start_point(named.drawn), end_point(named.drawn)
    return all(float(nearest(edge.drawn, p).distance[0]) <= SEAMS_MATCH for p in spots)


def overlap(one: Drawn, other: Drawn) -> float:
    """How far two pieces of one line run together on the first body, mm."""
    a, b = whole(one), whole(other)
    first = nearest(b, start_point(a)).t[0], nearest(b, end_point(a)).t[0]
    both = Stretch(b.curve, np.full_like(b.start, min(first)), np.full_like(b.start, max(first)))
    return float(length(both)[0])


def _on_a_line(drawn: Drawn, lines: tuple[tuple[Point, Point], ...]) -> bool:
    """Whether an edge is straight and lies along one of the lines, on every body."""
    if not curve_of(drawn).is_straight:
        return False
    p, q = start_point(drawn), end_point(drawn)
    return any(bool((_away(p, a, b) + _away(q, a, b) <= SEAMS_MATCH).all()) for a, b in lines)


def _away(p: Point, a: Point, b: Point) -> Array:
    """How far a point is from the straight line through two others, mm."""
    long = np.maximum(distance(a, b), SEAMS_MATCH)
    return np.asarray(np.abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / long)


#: A wedge that opens wider than this is no dart, radians: common practice, no source.
WIDEST_DART = np.pi / 3


def dart_legs(edges: tuple[Edge, ...]) -> frozenset[int]:
    """The edges that are legs of a dart: two straight lines of one length, run in to a point and out again."""
    return frozenset(k for pair in darts(edges) for k in pair)


def darts(edges: tuple[Edge, ...]) -> Iterator[tuple[int, int]]:
    """The pairs of edges that are the two legs of a dart."""
    count = len(edges)
    for k in range(count):
        one, other = edges[k], edges[(k + 1) % count]
        if count < 4 or not (curve_of(one.drawn).is_straight and curve_of(other.drawn).is_straight):
            continue
        mouth, tip, end = start_point(one.drawn), end_point(one.drawn), end_point(other.drawn)
        a, b, wide = distance(mouth, tip), distance(tip, end), distance(mouth, end)
        if (np.abs(a - b) > 0.5).any() or (a < 10.0).all():
            continue
        with np.errstate(divide="ignore", invalid="ignore"):
            half = np.where(a > SEAMS_MATCH, wide / (2.0 * np.where(a > SEAMS_MATCH, a, 1.0)), 0.0)
        if bool((half < np.sin(WIDEST_DART / 2)).all()) and _hollow(edges, k):
            yield k, (k + 1) % count


def _hollow(edges: tuple[Edge, ...], k: int) -> bool:
    """Whether the outline turns in at the end of an edge, against its own way round, on every body that opens there."""
    one, other = edges[k], edges[(k + 1) % len(edges)]
    p, q, r = start_point(one.drawn), end_point(one.drawn), end_point(other.drawn)
    turn = (q.x - p.x) * (r.y - q.y) - (q.y - p.y) * (r.x - q.x)
    way = np.sign(area([e.drawn for e in edges]))
    return bool((turn * way <= SEAMS_MATCH).all())


__all__ = ["Untold", "dart_legs", "darts", "edge_words", "is_edge", "lies_along", "overlap", "told_edges"]

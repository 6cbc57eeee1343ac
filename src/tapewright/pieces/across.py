"""Measuring across pieces at a level, and along their edges to it: the tape laid on the paper, one body at a time.

What is measured lies within the net lines, so a dart in an outline is measured as it is sewn, closed.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tapewright.geometry import (
    Carried,
    Curve,
    Drawn,
    Point,
    Stretch,
    length,
    meets,
    start_point,
    straight,
    tangent,
    trimmed,
    whole,
    winding,
)
from tapewright.geometry.tolerance import OFFSET_AGREES
from tapewright.pieces.corners import live
from tapewright.pieces.edge import Lies
from tapewright.pieces.piece import PatternPiece

Spot = tuple[float, float]
#: An edge that rises by more than this on the way down to a level does not lead there, mm.
RISES = 5.0


@dataclass(frozen=True, slots=True)
class Level:
    """A straight line across the paper: a place on it, its unit way; measured from that place, mm."""

    x: float
    y: float
    dx: float
    dy: float

    def at(self, p: Spot) -> float:
        """How far along the level a place lies."""
        return (p[0] - self.x) * self.dx + (p[1] - self.y) * self.dy

    def spot(self, along: float) -> Spot:
        """The place so far along it."""
        return self.x + along * self.dx, self.y + along * self.dy


def level_through(p: Spot, q: Spot) -> Level | None:
    """The level through two places; None where they are one."""
    long = float(np.hypot(q[0] - p[0], q[1] - p[1]))
    if long < OFFSET_AGREES:
        return None
    return Level(p[0], p[1], (q[0] - p[0]) / long, (q[1] - p[1]) / long)


def one_body(drawn: Drawn, row: int) -> Curve:
    """A line of one body."""
    curve = trimmed(drawn)
    return Curve(np.ascontiguousarray(curve.ctrl[..., row : row + 1]), curve.is_straight)


def crossings(drawn: Curve, level: Level, beyond: float = 0.0) -> list[float]:
    """Where a line crosses a level, as distances along the level; `beyond` its ends it is carried on so far, mm."""
    line = straight(_point(level.spot(0.0)), _point(level.spot(1.0)))
    met = meets(live(drawn), line, Carried.BOTH if beyond else Carried.NOT, Carried.BOTH)
    places = zip(met.x[:, 0], met.y[:, 0], met.on[:, 0], met.past_a[:, 0], strict=True)
    return [level.at((float(x), float(y))) for x, y, on, past in places if on and abs(past) <= beyond]


def across(piece: PatternPiece, row: int, level: Level) -> list[tuple[float, float]]:
    """The stretches of a level that lie on a piece, from and to along the level, in order."""
    edges = [one_body(e.net, row) for e in piece.edges]
    places = sorted(d for edge in edges for d in crossings(edge, level))
    distinct: list[float] = []
    for d in places:
        if not distinct or d - distinct[-1] > OFFSET_AGREES:
            distinct.append(d)
    found: list[tuple[float, float]] = []
    for a, b in itertools.pairwise(distinct):
        if int(winding(edges, _point(level.spot((a + b) / 2.0)))[0]) == 0:
            continue
        if found and a - found[-1][1] <= OFFSET_AGREES:
            found[-1] = found[-1][0], b
        else:
            found.append((a, b))
    return found


def down_to(piece: PatternPiece, row: int, corner: int, level: Level) -> float | None:
    """How long the edges are from a corner of a piece down to a level; None where they do not come to it.

    The corner is that at which edge number `corner` starts. Of the two ways round, the one that sets out
    downward.
    """
    count = len(piece.edges)
    order = [(corner + k) % count for k in range(count)]
    around = [order, order[::-1]]
    # A dart is closed when it is sewn: its legs are passed over.
    ways = [[k for k in way if piece.edges[k].lies is not Lies.DART] for way in around]
    onward = [one_body(piece.edges[k].net, row) for k in ways[0]]
    back = [_reversed(one_body(piece.edges[k].net, row)) for k in ways[1]]
    run = max((onward, back), key=lambda way: _falls(way[0]))
    far = 0.0
    for edge in run:
        hit = _first_crossing(edge, level)
        if hit is not None:
            return far + hit
        if float(edge.ctrl[3, 1, -1, 0] - edge.ctrl[0, 1, 0, 0]) < -RISES:
            return None
        far += float(length(edge)[0])
    return None


def _falls(edge: Curve) -> float:
    """How steeply an edge sets out down the paper: 1 straight down, -1 straight up."""
    return float(tangent(edge, np.zeros(1)).dy[0])


def _first_crossing(edge: Curve, level: Level) -> float | None:
    line = straight(_point(level.spot(0.0)), _point(level.spot(1.0)))
    met = meets(edge, line, Carried.NOT, Carried.BOTH)
    run = whole(edge)
    found = [float(t) for t, on in zip(met.ta[:, 0], met.on[:, 0], strict=True) if on]
    along = [float(length(Stretch(edge, run.start, np.array([t])))[0]) for t in found]
    ahead = [a for a in along if a > OFFSET_AGREES]
    return min(ahead) if ahead else None


def _reversed(curve: Curve) -> Curve:
    return Curve(np.ascontiguousarray(curve.ctrl[::-1, :, ::-1]), curve.is_straight)


def _point(p: Spot) -> Point:
    return Point(np.array([p[0]]), np.array([p[1]]))


def corner_at(piece: PatternPiece, row: int, p: Spot) -> int | None:
    """Which edge of a piece starts at a place, if a corner stands there."""
    for k, edge in enumerate(piece.edges):
        s = start_point(edge.net)
        if float(np.hypot(s.x[row] - p[0], s.y[row] - p[1])) <= OFFSET_AGREES:
            return k
    return None


def joined_pieces(count: int, links: Sequence[tuple[int, int]], first: int) -> frozenset[int]:
    """Every piece that is sewn to the first, or to one that is."""
    found = {first}
    grown = True
    while grown:
        grown = False
        for a, b in links:
            if (a in found) != (b in found):
                found |= {a, b}
                grown = True
    return frozenset(k for k in found if k < count)

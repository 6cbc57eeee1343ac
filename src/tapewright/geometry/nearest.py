"""What lies nearest or farthest on a drawn line, and where it runs in a given direction.

Distances turn where the line is square to the way to the point; those places are found cell by cell along
each segment, and the least of all wins. Where two lines meet is elsewhere.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from tapewright.geometry.aims import Line, Round
from tapewright.geometry.curve import Drawn, start_point
from tapewright.geometry.meets_plain import Ruler
from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array, Indices, Mask, N, larger, over, root, smaller
from tapewright.geometry.segments import Segment, in_slots, place, segments_one, segments_rows, taken
from tapewright.geometry.tolerance import FLAT_ANGLE, SAME_POINT, TOUCH

PLACES: Final = 8
"""How many places running in a direction are kept."""


@dataclass(frozen=True, slots=True, eq=False)
class Nearest:
    """The place of a line nearest to a point: the curve's parameter, the place, and how far off it is."""

    t: Array
    point: Point
    distance: Array


@dataclass(frozen=True, slots=True, eq=False)
class Farthest:
    """The place of a line that lies farthest in a direction; `at_end` where that is only an end of it."""

    t: Array
    point: Point
    at_end: Mask


@dataclass(frozen=True, slots=True, eq=False)
class Running:
    """Where a line runs in a direction: up to 8 places in order of the curve's parameter, `(8, bodies)`.

    `on` says which are there; the others repeat the line's start. `more`: there were over 8.
    """

    t: Array
    x: Array
    y: Array
    on: Mask
    more: Mask


def nearest(drawn: Drawn, p: Point) -> Nearest:
    """The place of a drawn line nearest to p; of several equally near, the one of least parameter.

    A line of no length answers with its start. Good to 0.001 mm in distance, but for a segment with a hook so
    sharp that the distance turns twice within an eighth of it (knots a millimetre apart can make one): there
    the place may be missed.
    """
    if drawn.bodies == 1:
        return _nearest_one(drawn, p)
    with np.errstate(under="ignore"):
        s, live, run = segments_rows(drawn)
        # A segment whose box lies farther off than some end of another cannot hold the nearest place.
        off = np.where(live, _box_distance(s, p.x, p.y), np.inf)
        ends = np.minimum(np.hypot(s.ax - p.x, s.ay - p.y), np.hypot(s.dx - p.x, s.dy - p.y))
        reach = np.where(live, ends, np.inf).min(axis=0) + SAME_POINT
        index = np.nonzero(off <= reach)
        own = taken(s, index)
        us, offs = Round(p.x, p.y, np.zeros(p.x.shape[0])).taken(index, live.shape).nodes(own)
        far = np.array(offs)
        node = far.argmin(axis=0)
        each = np.arange(node.size)
        low, place_u = np.full(live.shape, np.inf), np.zeros(live.shape)
        low[index], place_u[index] = far[node, each], np.array(us)[node, each]
        best, rows = low.argmin(axis=0), np.arange(live.shape[1])
        own, u = taken(s, (best, rows)), place_u[best, rows]
        x, y = place(own, u)
        t = own.t0 + (own.t1 - own.t0) * u
        has = np.logical_or.reduce(live, axis=0)
        start = start_point(drawn)
        x, y, t = np.where(has, x, start.x), np.where(has, y, start.y), np.where(has, t, run.start)
        dx, dy = x - p.x, y - p.y
        return Nearest(t, Point(x, y), np.sqrt(dx * dx + dy * dy))


def _nearest_one(drawn: Drawn, p: Point) -> Nearest:
    """As `nearest`, for one row; segments whose box lies farther off than the best yet are passed over."""
    px, py = p.x.item(), p.y.item()
    live, run = segments_one(drawn)
    aim = Round(px, py, 0.0)
    if live:
        best = (np.inf, 0.0, live[0])
        for off, s in sorted(((_box_distance(s, px, py), s) for s in live), key=lambda pair: pair[0]):
            if off > best[0] + SAME_POINT:
                break
            us, offs = aim.nodes(s)
            low = min(offs)
            if low < best[0] or (low == best[0] and s.t0 < best[2].t0):
                best = (low, us[offs.index(low)], s)
        _, u, s = best
        (x, y), t = place(s, u), s.t0 + (s.t1 - s.t0) * u
    else:
        start = start_point(drawn)
        x, y, t = start.x.item(), start.y.item(), run.start
    dx, dy = x - px, y - py
    return Nearest(np.array([t]), Point(np.array([x]), np.array([y])), np.array([root(dx * dx + dy * dy)]))


def _box_distance(s: Segment[N], px: N, py: N) -> N:
    """How far a place lies from the box round a segment's control points, at least."""
    left, right = (
        smaller(smaller(s.ax, s.bx), smaller(s.cx, s.dx)),
        larger(larger(s.ax, s.bx), larger(s.cx, s.dx)),
    )
    top, foot = (
        smaller(smaller(s.ay, s.by), smaller(s.cy, s.dy)),
        larger(larger(s.ay, s.by), larger(s.cy, s.dy)),
    )
    return larger(larger(left - px, px - right), larger(top - py, py - foot))


def farthest(drawn: Drawn, angle: Array) -> Farthest:
    """The place of a drawn line farthest in the direction `angle`: where a line square to it touches.

    Of several the one of least parameter. A line of no length answers with its start.
    """
    with np.errstate(under="ignore"):
        s, live, run = segments_rows(drawn)
        bodies = live.shape[1]
        rows, nought = np.arange(bodies), np.zeros(bodies)
        line = Line(Ruler(nought, nought, np.sin(angle), -np.cos(angle), nought, nought, nought))
        us, offs = line.nodes(s)
        ahead = np.where(live[:, None], np.stack(offs, axis=1), -np.inf).reshape(-1, bodies)
        u = np.stack(us, axis=1).reshape(-1, bodies)
        best = ahead.argmax(axis=0)
        own, u = taken(s, (best // len(us), rows)), u[best, rows]
        x, y = place(own, u)
        t = own.t0 + (own.t1 - own.t0) * u
        has = np.logical_or.reduce(live, axis=0)
        start = start_point(drawn)
        x, y, t = np.where(has, x, start.x), np.where(has, y, start.y), np.where(has, t, run.start)
        low = np.where(run.way > 0.0, run.start, run.start - run.long)
        at_end = (t <= low + TOUCH) | (t >= low + run.long - TOUCH)
        return Farthest(t, Point(x, y), at_end)


def running(drawn: Drawn, angle: Array) -> Running:
    """Where a drawn line runs along the direction `angle`: level with 0, plumb with a quarter turn.

    Ends that run so are counted; a straight stretch that runs so throughout is not. Found exactly, from the
    quadratic each segment's slope is.
    """
    with np.errstate(under="ignore"):
        s, live, run = segments_rows(drawn)
        bodies = live.shape[1]
        nought = np.zeros(bodies)
        line = Line(Ruler(nought, nought, np.cos(angle), np.sin(angle), nought, nought, nought))
        f0, f1, f2, f3 = line.controls(s)
        e0, e1, e2 = f1 - f0, f2 - f1, f3 - f2
        size = np.abs(s.bx - s.ax) + np.abs(s.by - s.ay) + np.abs(s.cx - s.bx) + np.abs(s.cy - s.by)
        size = size + np.abs(s.dx - s.cx) + np.abs(s.dy - s.cy)
        slanted = live & (np.abs(e0) + np.abs(e1) + np.abs(e2) > FLAT_ANGLE * size)
        a, b = e0 - 2.0 * e1 + e2, e1 - e0
        under = b * b - a * e0
        turns = slanted & (under >= -FLAT_ANGLE * FLAT_ANGLE * size * size)
        q = np.sqrt(np.where(turns & (under > 0.0), under, 0.0))
        q = -(b + np.where(b < 0.0, -q, q))
        which: list[tuple[Indices, ...]] = []
        found = []
        for u in (over(q, a, 2.0), over(e0, q, 2.0)):
            index = np.nonzero(turns & (u >= -TOUCH) & (u <= 1.0 + TOUCH))
            which.append(index)
            found.append(np.clip(u[index], 0.0, 1.0))
        segment, body = (np.concatenate(pair) for pair in zip(*which, strict=True))
        (x, y, t), body, slot = in_slots(taken(s, (segment, body)), np.concatenate(found), segment, body)
        more = np.zeros(bodies, dtype=np.bool_)
        more[body[slot >= PLACES]] = True
        kept = slot < PLACES
        body, slot = body[kept], slot[kept]
        start = start_point(drawn)
        fields = [np.repeat(f[None], PLACES, axis=0) for f in (run.start, start.x, start.y)]
        on = np.zeros((PLACES, bodies), dtype=np.bool_)
        for field, values in zip(fields, (t, x, y), strict=True):
            field[slot, body] = values[kept]
        on[slot, body] = True
        return Running(fields[0], fields[1], fields[2], on, more)

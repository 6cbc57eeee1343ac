"""Parallels: the line at a true distance from a drawn line, for turnings and for whatever is drawn beside it.

Each segment is answered by eight cubics. Their ends lie exactly on the parallel and run exactly along it;
their arms are as long as the parallel's own speed there, both then stretched alike until the cubic passes
through the parallel half-way as well, which answers for its bend. Corners between drawn lines, and what to do
where a parallel folds back on itself, belong to the pieces.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from tapewright.geometry.curve import Curve, Drawn, reach, straight, trimmed
from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array, Codes, Mask, Why, because
from tapewright.geometry.tolerance import CUSP, FLAT_ANGLE, SAME_POINT

PIECES: Final = 8
"""Cubics a segment."""
_LOOKS: Final[Array] = (np.arange(2.0 * PIECES + 1.0) / (2.0 * PIECES))[:, None]
"""The places of a segment that are looked at: the ends and middles of its pieces."""
_BACK: Final[Array] = 1.0 - _LOOKS
_SLOPES: Final = (_BACK * _BACK, 2.0 * (_LOOKS * _BACK), _LOOKS * _LOOKS)
_BERNSTEIN: Final = (
    _BACK * _BACK * _BACK,
    3.0 * _LOOKS * (_BACK * _BACK),
    3.0 * _BACK * (_LOOKS * _LOOKS),
    _LOOKS * _LOOKS * _LOOKS,
)
_LOT: Final = 1024
_THIRD: Final = 1.0 / (3.0 * PIECES)


@dataclass(frozen=True, slots=True, eq=False)
class Offset:
    """A parallel: the curve, and on which of its segments the line bends tighter than the distance.

    `tight` is `(segments of the parallel, bodies)`: there the parallel runs backward, past a cusp. Not ok
    (SAME_POINT; the line itself stands in) where the line has no length and so no side.
    """

    curve: Curve
    tight: Mask
    ok: Mask
    why: Codes


def offset(drawn: Drawn, distance: Array) -> Offset:
    """The parallel of a drawn line at a distance `(bodies,)`, to the right hand as the line is run; else below 0.

    A straight line gives a straight one; any other gives eight segments for each of the curve's (so the
    parallel's parameter is eight times that of the trimmed line), those outside a trimmed piece having no length.
    True within 0.01 mm wherever the line does not bend tighter than 3 mm; commonly within 0.0001 mm. A kink
    between segments leaves a gap.
    """
    return offsets([drawn], [distance])[0]


def offsets(lines: Sequence[Drawn], distances: Sequence[Array]) -> list[Offset]:
    """The parallels of several drawn lines, each at its own distance: as `offset`, in one go, which is quicker."""
    curves = [trimmed(drawn) for drawn in lines]
    with np.errstate(under="ignore"):
        bent = [k for k, c in enumerate(curves) if not c.is_straight]
        found = {k: _straight(c.ctrl, distances[k]) for k, c in enumerate(curves) if c.is_straight}
        if bent:
            together = [curves[k].ctrl for k in bent]
            c = together[0] if len(bent) == 1 else np.concatenate(together, axis=2)
            by = np.array([distances[k] for k in bent for _ in range(curves[k].segments)])[:, None]
            ctrl, tight, live = _parallel(c, by)
            first = 0
            for k in bent:
                last = first + curves[k].segments
                found[k] = _bent(curves[k].ctrl, ctrl[:, :, first:last], tight[first:last], live[first:last])
                first = last
    return [found[k] for k in range(len(curves))]


def _straight(c: Array, distance: Array) -> Offset:
    """The parallel of a straight line."""
    dx, dy = c[3, 0, 0] - c[0, 0, 0], c[3, 1, 0] - c[0, 1, 0]
    long = np.sqrt(dx * dx + dy * dy)
    ok = long > SAME_POINT
    part = np.where(ok, distance, 0.0) / np.where(ok, long, 1.0)
    p = Point(c[0, 0, 0] - dy * part, c[0, 1, 0] + dx * part)
    q = Point(c[3, 0, 0] - dy * part, c[3, 1, 0] + dx * part)
    return Offset(straight(p, q), np.zeros((1, *ok.shape), dtype=np.bool_), ok, because(ok, Why.SAME_POINT))


def _bent(c: Array, ctrl: Array, tight: Mask, live: Mask) -> Offset:
    """The parallel of one curve `c` from those of its segments."""
    count, bodies = live.shape
    ok: Mask = np.logical_or.reduce(live, axis=0)
    if not live.all():
        ctrl = _closed_up(ctrl, live, c)
    curve = Curve(ctrl.reshape(4, 2, count * PIECES, bodies))
    return Offset(curve, tight.reshape(count * PIECES, bodies), ok, because(ok, Why.SAME_POINT))


def _parallel(c: Array, distance: Array) -> tuple[Array, Mask, Mask]:
    """The parallels of segments `(4, 2, segments, bodies)` at distances `(segments, 1, bodies)`.

    Their pieces `(4, 2, segments, 8, bodies)`, which of these are tight, and which segments have any length. Many
    rows are taken in lots, for the machine's sake.
    """
    bodies = c.shape[3]
    if bodies <= _LOT:
        return _parallel_lot(c, distance)
    cuts = range(0, bodies, _LOT)
    lots = [_parallel_lot(c[..., k : k + _LOT], distance[..., k : k + _LOT]) for k in cuts]
    ctrl, tight, live = zip(*lots, strict=True)
    return np.concatenate(ctrl, axis=-1), np.concatenate(tight, axis=-1), np.concatenate(live, axis=-1)


def _parallel_lot(c: Array, distance: Array) -> tuple[Array, Mask, Mask]:
    """As `_parallel`, for as many rows as are quick together."""
    steps = c[1:] - c[:-1]
    live = reach(steps) > SAME_POINT
    way, rate, least = _running(steps[:, :, :, None], distance)
    b0, b1, b2, b3 = _BERNSTEIN
    there = c[0][:, :, None] * b0 + c[1][:, :, None] * b1 + c[2][:, :, None] * b2 + c[3][:, :, None] * b3
    there[0] -= distance * way[1]
    there[1] += distance * way[0]
    start, half, end = there[:, :, :-2:2], there[:, :, 1::2], there[:, :, 2::2]
    leaving, across, arriving = way[:, :, :-2:2], way[:, :, 1::2], way[:, :, 2::2]
    third = rate * _THIRD
    a, b = third[:, :-2:2], third[:, 2::2]
    # Stretched until the cubic, half-way, lies on the square to the parallel's direction there.
    pull = a * leaving - b * arriving
    pulled = across[0] * pull[1] - across[1] * pull[0]
    lack = half - (start + end) * 0.5
    lacking = across[0] * lack[1] - across[1] * lack[0]
    bent = np.abs(pulled) > FLAT_ANGLE * (np.abs(a) + np.abs(b))
    stretch = lacking / np.where(bent, pulled * 0.375, 1.0)
    stretch = np.where(bent & (stretch > 0.5) & (stretch < 2.0), stretch, 1.0)
    ctrl = np.empty((4, *start.shape))
    ctrl[0], ctrl[3] = start, end
    ctrl[1] = start + (a * stretch) * leaving
    ctrl[2] = end - (b * stretch) * arriving
    back = rate < -least
    tight = (back[:, :-2:2] | back[:, 1::2] | back[:, 2::2]) & live[:, None]
    return ctrl, tight, live


def _running(steps: Array, distance: Array) -> tuple[Array, Array, Array]:
    """At 17 places of each segment: direction `(2, segments, 17, bodies)`, the parallel's speed, what speed is none.

    Where the line stands still, its direction is that in which it moves off, and its turning the limit there.
    """
    p, q, r = _SLOPES
    d = steps * 3.0
    e = (d[1:] - d[:-1]) * 2.0
    first = d[0] * p + d[1] * q + d[2] * r
    second = e[0] * _BACK + e[1] * _LOOKS
    square = first[0] * first[0] + first[1] * first[1]
    speed = np.sqrt(square)
    least = CUSP * reach(steps)
    still = speed <= least
    bend = first[0] * second[1] - first[1] * second[0]
    if not still.any():
        return first / speed, speed - distance * (bend / square), least
    third = e[1] - e[0]
    turn = np.sqrt(second[0] * second[0] + second[1] * second[1])
    slow = turn <= least
    away = np.where(slow, third, second * np.where(_LOOKS >= 1.0, -1.0, 1.0))
    limit = second[0] * third[1] - second[1] * third[0]
    limit = np.where(slow, 0.0, limit) / np.where(slow, 1.0, 2.0 * turn * turn)
    way = np.where(still, away, first)
    long = np.sqrt(way[0] * way[0] + way[1] * way[1])
    nowhere = long == 0.0
    way[0] = np.where(nowhere, 1.0, way[0])
    turning = np.where(still, limit, bend / np.where(still, 1.0, square))
    speed = np.where(still, 0.0, speed)
    return way / np.where(nowhere, 1.0, long), speed - distance * turning, least


def _closed_up(ctrl: Array, live: Mask, c: Array) -> Array:
    """The pieces of segments of no length drawn together at the end of the parallel next to them."""
    count, bodies = live.shape
    index = np.arange(count)[:, None]
    before = np.maximum.accumulate(np.where(live, index, -1), axis=0)
    first, rows = live.argmax(axis=0), np.arange(bodies)
    ends = ctrl[3, :, np.maximum(before, 0), -1, rows].transpose(2, 0, 1)
    starts = ctrl[0, :, first, 0, rows].T[:, None]
    nearer = np.where(before >= 0, ends, starts)
    nearer = np.where(np.logical_or.reduce(live, axis=0), nearer, c[0])
    return np.where(live[:, None], ctrl, nearer[:, :, None])

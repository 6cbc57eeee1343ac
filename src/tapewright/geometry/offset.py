"""Parallels: the line at a true distance from a drawn line, for turnings and for whatever is drawn beside it.

Each segment is answered by eight cubics. Their ends lie exactly on the parallel and run exactly along it;
their arms are as long as the parallel's own speed there, both then stretched alike until the cubic passes
through the parallel half-way as well, which answers for its bend. Corners between drawn lines, and what to do
where a parallel folds back on itself, belong to the pieces.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from tapewright.geometry.curve import Curve, Drawn, cubic, derivatives, straight, trimmed
from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array, Codes, Mask, Why, because
from tapewright.geometry.tolerance import CUSP, FLAT_ANGLE, SAME_POINT

PIECES: Final = 8
"""Cubics a segment."""
_LOOKS: Final = (np.arange(2.0 * PIECES + 1.0) / (2.0 * PIECES))[:, None]


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
    """The parallel of a drawn line at a distance `(bodies,)`, to the right hand as the line is run; else
    negative.

    A straight line gives a straight one; any other gives eight segments for each of the curve's (so the
    parallel's parameter is eight times that of the trimmed line), those outside a trimmed piece having no
    length. True within 0.01 mm wherever the line does not bend tighter than 3 mm; commonly within 0.0001 mm.
    A kink between segments leaves a gap.
    """
    curve = trimmed(drawn)
    c = curve.ctrl
    with np.errstate(under="ignore"):
        if curve.is_straight:
            return _straight(c, distance)
        size = np.abs(c[1:] - c[:1]).max(axis=(0, 1))
        live = size > SAME_POINT
        ok: Mask = np.logical_or.reduce(live, axis=0)
        (tx, ty), rate, least = _running(c, distance)
        part = 1.0 / (3.0 * PIECES)
        x = cubic(*(c[i, 0][:, None] for i in range(4)), _LOOKS) - distance * ty
        y = cubic(*(c[i, 1][:, None] for i in range(4)), _LOOKS) + distance * tx
        a, b = rate[:, :-2:2] * part, rate[:, 2::2] * part
        stretch = _stretch(x, y, tx, ty, a, b)
        a, b = a * stretch, b * stretch
        count, bodies = live.shape
        ctrl = np.empty((4, 2, count, PIECES, bodies))
        for j, (o, t) in enumerate(((x, tx), (y, ty))):
            ctrl[0, j], ctrl[3, j] = o[:, :-2:2], o[:, 2::2]
            ctrl[1, j] = ctrl[0, j] + a * t[:, :-2:2]
            ctrl[2, j] = ctrl[3, j] - b * t[:, 2::2]
        if not live.all():
            ctrl = _closed_up(ctrl, live, c)
        back = rate < -least
        tight = (back[:, :-2:2] | back[:, 1::2] | back[:, 2::2]) & live[:, None]
    return Offset(
        Curve(ctrl.reshape(4, 2, count * PIECES, bodies)),
        tight.reshape(count * PIECES, bodies),
        ok,
        because(ok, Why.SAME_POINT),
    )


def _straight(c: Array, distance: Array) -> Offset:
    """The parallel of a straight line."""
    dx, dy = c[3, 0, 0] - c[0, 0, 0], c[3, 1, 0] - c[0, 1, 0]
    long = np.hypot(dx, dy)
    ok = long > SAME_POINT
    part = np.where(ok, distance, 0.0) / np.where(ok, long, 1.0)
    p = Point(c[0, 0, 0] - dy * part, c[0, 1, 0] + dx * part)
    q = Point(c[3, 0, 0] - dy * part, c[3, 1, 0] + dx * part)
    return Offset(straight(p, q), np.zeros((1, *ok.shape), dtype=np.bool_), ok, because(ok, Why.SAME_POINT))


def _running(c: Array, distance: Array) -> tuple[tuple[Array, Array], Array, Array]:
    """At 17 places of each segment, `(segments, 17, bodies)`: direction, speed, and the speed of the
    parallel.

    Where the line stands still, its direction is that in which it moves off, and its turning the limit there.
    """
    (dx, dy), (ex, ey), (fx, fy) = derivatives(c[:, :, :, None], _LOOKS)
    square = dx * dx + dy * dy
    speed = np.sqrt(square)
    d = c[1:] - c[:-1]
    least = CUSP * (np.abs(d[:, 0]) + np.abs(d[:, 1])).sum(axis=0)[:, None]
    still = speed <= least
    turning = (dx * ey - dy * ex) / np.where(still, 1.0, square)
    if still.any():
        away = np.where(_LOOKS >= 1.0, -1.0, 1.0)
        bend = np.sqrt(ex * ex + ey * ey)
        slow = bend <= least
        gx, gy = np.where(slow, fx, ex * away), np.where(slow, fy, ey * away)
        long = np.sqrt(gx * gx + gy * gy)
        nowhere = long == 0.0
        gx, long = np.where(nowhere, 1.0, gx), np.where(nowhere, 1.0, long)
        limit = np.where(slow, 0.0, ex * fy - ey * fx) / np.where(slow, 1.0, 2.0 * bend * bend)
        dx, dy = np.where(still, gx, dx), np.where(still, gy, dy)
        turning = np.where(still, limit, turning)
        safe = np.where(still, long, speed)
        return (dx / safe, dy / safe), np.where(still, 0.0, speed) - distance * turning, least
    return (dx / speed, dy / speed), speed - distance * turning, least


def _stretch(x: Array, y: Array, tx: Array, ty: Array, a: Array, b: Array) -> Array:
    """By how much both arms must be stretched for each cubic to pass through the parallel half-way."""
    nx, ny = -ty[:, 1::2], tx[:, 1::2]
    pull = nx * (a * tx[:, :-2:2] - b * tx[:, 2::2]) + ny * (a * ty[:, :-2:2] - b * ty[:, 2::2])
    lack_x = x[:, 1::2] - (x[:, :-2:2] + x[:, 2::2]) * 0.5
    lack_y = y[:, 1::2] - (y[:, :-2:2] + y[:, 2::2]) * 0.5
    bent = np.abs(pull) > FLAT_ANGLE * (np.abs(a) + np.abs(b))
    stretch = (nx * lack_x + ny * lack_y) / np.where(bent, pull * 0.375, 1.0)
    return np.where(bent & (stretch > 0.5) & (stretch < 2.0), stretch, 1.0)


def _closed_up(ctrl: Array, live: Mask, c: Array) -> Array:
    """The pieces of segments of no length drawn together at the end of the parallel next to them."""
    count, bodies = live.shape
    index = np.arange(count)[:, None]
    before = np.maximum.accumulate(np.where(live, index, -1), axis=0)
    first = live.argmax(axis=0)
    rows = np.arange(bodies)
    ends = np.where(
        before >= 0,
        ctrl[3, :, np.maximum(before, 0), -1, rows].transpose(2, 0, 1),
        ctrl[0, :, first, 0, rows].T[:, None],
    )
    ends = np.where(np.logical_or.reduce(live, axis=0), ends, c[0])
    return np.where(live[:, None], ctrl, ends[:, :, None])

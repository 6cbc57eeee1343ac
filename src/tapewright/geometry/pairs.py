"""Pairs of cubic segments that may meet: boxes round ever smaller pieces, inflated by their sag, then Newton.

A pair whose boxes overlap is cut twice into eight by eight pieces; what still overlaps is about a
sixty-fourth of a segment, nearly straight, and Newton's method goes on from its middle. Works on flat lists;
used inside the geometry.
"""

from __future__ import annotations

from typing import Final, TypeAlias

import numpy as np

from tapewright.geometry.rows import Array, Indices, Mask, held
from tapewright.geometry.segments import Segment, place, speed, taken
from tapewright.geometry.tolerance import CONVERGED, EXACT, FLAT_ANGLE, SAME_POINT, TOUCH

_PARTS: Final = 8
_CUTS: Final = 2
_STEPS: Final = 60
_CROWDED: Final = 128
"""At most so many small pieces of a pair are followed up: two cubics cross nine times, and more lie along."""

Box: TypeAlias = tuple[Array, Array, Array, Array]
"""The least and the greatest x, the least and the greatest y."""


def box(s: Segment[Array]) -> Box:
    """The box round the control points."""
    xl, xh = (
        np.minimum(np.minimum(s.ax, s.bx), np.minimum(s.cx, s.dx)),
        np.maximum(np.maximum(s.ax, s.bx), np.maximum(s.cx, s.dx)),
    )
    yl, yh = (
        np.minimum(np.minimum(s.ay, s.by), np.minimum(s.cy, s.dy)),
        np.maximum(np.maximum(s.ay, s.by), np.maximum(s.cy, s.dy)),
    )
    return xl, xh, yl, yh


def boxes_near(a: Box, b: Box) -> Mask:
    """Whether two boxes touch or nearly do."""
    return ~(
        (a[0] > b[1] + SAME_POINT)
        | (b[0] > a[1] + SAME_POINT)
        | (a[2] > b[3] + SAME_POINT)
        | (b[2] > a[3] + SAME_POINT)
    )


def parted(a: Segment[Array], b: Segment[Array], by: float) -> Mask:
    """Whether a straight cut parts two segments, leaving more than `by` between them; below 0 they may so overlap.

    Tried are cuts along the chord of each and square to the way from one middle to the other; seen is what the
    control points do.
    """
    axes = [
        (a.ay - a.dy, a.dx - a.ax),
        (b.ay - b.dy, b.dx - b.ax),
        ((b.ax + b.dx) - (a.ax + a.dx), (b.ay + b.dy) - (a.ay + a.dy)),
    ]
    found = np.zeros(a.ax.shape, dtype=np.bool_)
    for x, y in axes:
        long = np.sqrt(x * x + y * y)
        sure = long > SAME_POINT
        ux, uy = x / np.where(sure, long, 1.0), y / np.where(sure, long, 1.0)
        (al, ah), (bl, bh) = _span(a, ux, uy), _span(b, ux, uy)
        found |= sure & ((bl - ah > by) | (al - bh > by))
    return found


def _span(s: Segment[Array], ux: Array, uy: Array) -> tuple[Array, Array]:
    """The least and the greatest of a segment's control points along a direction."""
    f, g = s.ax * ux + s.ay * uy, s.bx * ux + s.by * uy
    h, i = s.cx * ux + s.cy * uy, s.dx * ux + s.dy * uy
    return np.minimum(np.minimum(f, g), np.minimum(h, i)), np.maximum(np.maximum(f, g), np.maximum(h, i))


def pair_meets(a: Segment[Array], b: Segment[Array]) -> tuple[Indices, Array, Array, Mask]:
    """The meets of pairs of segments: for each find its pair, the parameters on both, and whether it is one.

    A meet may be found many times over. Within a pair the order is fixed, whatever other pairs are in the
    list.
    """
    pair = np.arange(a.ax.size)
    u, v = np.zeros(pair.size), np.zeros(pair.size)
    if not pair.size:
        return pair, u, v, np.zeros(0, dtype=np.bool_)
    wide = 1.0
    for _ in range(_CUTS):
        wide = wide / _PARTS
        ca, cb = _cells(taken(a, (pair,)), u, wide), _cells(taken(b, (pair,)), v, wide)
        m, n, index = np.nonzero(boxes_near(_spread(ca, 1), _spread(cb, 0)))
        u, v, pair = u[index] + m * wide, v[index] + n * wide, pair[index]
    if pair.size and np.bincount(pair).max() > _CROWDED:
        order = np.argsort(pair, kind="stable")
        ranked = pair[order]
        kept = np.sort(order[np.arange(order.size) - np.searchsorted(ranked, ranked) < _CROWDED])
        u, v, pair = u[kept], v[kept], pair[kept]
    u, v, ok = _newton(taken(a, (pair,)), taken(b, (pair,)), u + wide * 0.5, v + wide * 0.5)
    return pair, u, v, ok


def _spread(b: Box, axis: int) -> Box:
    """The boxes with an axis put in, to be held against all others."""
    xl, xh, yl, yh = (np.expand_dims(f, axis) for f in b)
    return xl, xh, yl, yh


def _cells(s: Segment[Array], u: Array, wide: float) -> Box:
    """The boxes of eight cells of each segment from u on, `(8, n)`: those of the chords, inflated by the sag."""
    x, y = place(s, u + wide * np.arange(_PARTS + 1.0)[:, None])
    # The second derivative is at most six times the greater second difference; the sag of a chord an eighth
    # of it.
    part = 0.75 * wide * wide
    sag_x = part * np.maximum(np.abs(s.ax - 2.0 * s.bx + s.cx), np.abs(s.bx - 2.0 * s.cx + s.dx))
    sag_y = part * np.maximum(np.abs(s.ay - 2.0 * s.by + s.cy), np.abs(s.by - 2.0 * s.cy + s.dy))
    xl, xh = np.minimum(x[:-1], x[1:]) - sag_x, np.maximum(x[:-1], x[1:]) + sag_x
    return xl, xh, np.minimum(y[:-1], y[1:]) - sag_y, np.maximum(y[:-1], y[1:]) + sag_y


def _newton(a: Segment[Array], b: Segment[Array], u: Array, v: Array) -> tuple[Array, Array, Mask]:
    """From near meets to meets, held within both segments; and which of them are meets at all."""
    u, v = u.copy(), v.copy()
    going = np.arange(u.size)
    p, q = a, b
    for _ in range(_STEPS):
        if not going.size:
            break
        gu, gv = u[going], v[going]
        (ax, ay), (bx, by) = place(p, gu), place(q, gv)
        (px, py), (qx, qy) = speed(p, gu), speed(q, gv)
        dx, dy = bx - ax, by - ay
        sine = px * qy - py * qx
        square = (px * px + py * py) * (qx * qx + qy * qy)
        steep = np.abs(sine) > FLAT_ANGLE * np.sqrt(square)
        exact = (np.abs(dx) < EXACT) & (np.abs(dy) < EXACT)
        moving = steep & ~exact
        safe = np.where(moving, sine, 1.0)
        # Never farther at once than an eighth, and not beyond the ends by more.
        du = np.where(moving, held((dx * qy - dy * qx) / safe, -0.125, 0.125), 0.0)
        dv = np.where(moving, held((dx * py - dy * px) / safe, -0.125, 0.125), 0.0)
        nu, nv = held(gu + du, -0.125, 1.125), held(gv + dv, -0.125, 1.125)
        u[going], v[going] = nu, nv
        left = np.nonzero((np.abs(nu - gu) >= CONVERGED) | (np.abs(nv - gv) >= CONVERGED))[0]
        if left.size < going.size:
            going = going[left]
            p, q = taken(p, (left,)), taken(q, (left,))
    ru, rv = held(u, 0.0, 1.0), held(v, 0.0, 1.0)
    inside = (ru == u) & (rv == v)
    (ax, ay), (bx, by) = place(a, ru), place(b, rv)
    off = np.hypot(bx - ax, by - ay)
    return ru, rv, off <= np.where(inside, TOUCH, SAME_POINT)

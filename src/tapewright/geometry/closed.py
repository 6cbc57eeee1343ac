"""Closed outlines made of drawn lines: area, inside and outside, and whether they cross themselves.

An outline is a sequence of drawn lines run end to end; a gap between two, or a last one, is closed straight.
Areas are exact for cubics. What an outline means, and how it is mended, belong to the pieces.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tapewright.geometry.aims import Line
from tapewright.geometry.curve import Drawn, trimmed
from tapewright.geometry.meets_plain import Ruler
from tapewright.geometry.pairs import box, boxes_near, pair_meets, parted
from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array, Indices, Mask, total
from tapewright.geometry.segments import Segment, bracketed, place, speed, taken
from tapewright.geometry.tolerance import FLAT_ANGLE, SAME_POINT


@dataclass(frozen=True, slots=True, eq=False)
class Tangle:
    """Where an outline first crosses itself: which rows do, the place, which two lines; `(bodies,)`.

    On rows that do not, the place is the outline's start and the lines are the first.
    """

    crosses: Mask
    x: Array
    y: Array
    first: Indices
    second: Indices


def area(outline: Sequence[Drawn]) -> Array:
    """The area inside a closed outline, mm2, positive if it is run clockwise as the paper is seen.

    Exact for cubics, by Green's formula on their control points. An outline that crosses itself counts each
    part with its own sign. Lines of no length give nought.
    """
    with np.errstate(under="ignore"):
        c, _ = _closed(outline)
        x, y = c[:, 0] - c[0, 0, 0], c[:, 1] - c[0, 1, 0]

        def cross(i: int, j: int) -> Array:
            twice: Array = x[i] * y[j] - x[j] * y[i]
            return twice

        outer = 6.0 * (cross(0, 1) + cross(2, 3)) + cross(0, 3)
        return total((outer + 3.0 * (cross(0, 2) + cross(1, 2) + cross(1, 3))) / 20.0)


def winding(outline: Sequence[Drawn], p: Point) -> Indices:
    """How many times an outline goes round a point, clockwise positive as the paper is seen; 0 is outside.

    On the outline itself it is one of the answers on its two sides.
    """
    with np.errstate(under="ignore"):
        c, _ = _closed(outline)
        s = _segments(c)
        nought = np.zeros(c.shape[3])
        line = Line(Ruler(p.x, p.y, nought + 1.0, nought, nought, nought, nought))
        us, fs = line.nodes(s)
        turns = np.zeros(c.shape[3], dtype=np.intp)
        for u0, u1, f0, f1 in zip(us, us[1:], fs, fs[1:], strict=False):
            downward = (f0 < 0.0) & (f1 >= 0.0)
            index = np.nonzero(downward | ((f0 >= 0.0) & (f1 < 0.0)))
            own = taken(s, index)
            course = line.taken(index, f0.shape).course(own)
            settled = np.zeros(index[0].size, dtype=np.bool_)
            u = bracketed(course, u0[index], u1[index], f0[index], f1[index], settled)
            right = place(own, u)[0] > p.x[index[1]]
            # To the right of the point, what comes down goes round it clockwise as the paper is seen.
            np.add.at(turns, index[1], np.where(right, np.where(downward[index], 1, -1), 0))
        return turns


def crosses_itself(outline: Sequence[Drawn]) -> Tangle:
    """Whether, and where first, an outline crosses itself, a loop within one segment included.

    A crossing must go clean through: lines that touch, share an end, or lie along each other (a dart come to
    nothing) do not cross, nor do lines that pass through each other's ends.
    """
    with np.errstate(under="ignore"):
        c, owner = _closed(outline)
        live = np.abs(c[1:] - c[:1]).max(axis=(0, 1)) > SAME_POINT
        start_x, start_y = c[0, 0, 0].copy(), c[0, 1, 0].copy()
        # Most gaps are closed by nothing: what has no length on any row is left out.
        some = live.any(axis=1)
        c, owner, live = c[:, :, some], owner[some], live[some]
        s, count, bodies = _segments(c), c.shape[2], c.shape[3]
        one, other = np.triu_indices(count, 1)
        xl, xh, yl, yh = box(s)
        near = boxes_near((xl[one], xh[one], yl[one], yh[one]), (xl[other], xh[other], yl[other], yh[other]))
        index, body = np.nonzero(near & live[one] & live[other])
        i, j = one[index], other[index]
        a, b = taken(s, (i, body)), taken(s, (j, body))
        kept = np.nonzero(~parted(a, b, -SAME_POINT))[0]
        (loop, loop_body), loop_u = _loops(s, live)
        crosses = np.zeros(bodies, dtype=np.bool_)
        place_x, place_y = start_x, start_y
        first, second = np.zeros(bodies, dtype=np.intp), np.zeros(bodies, dtype=np.intp)
        if not kept.size and not loop.size:
            return Tangle(crosses, place_x, place_y, first, second)
        a, b, i, j, body = taken(a, (kept,)), taken(b, (kept,)), i[kept], j[kept], body[kept]
        pair, u, v, ok = pair_meets(a, b)
        a, b = taken(a, (pair,)), taken(b, (pair,))
        ok = ok & _within(a, u) & _within(b, v) & _clean(a, b, u, v)
        x, y = place(a, u)
        lx, ly = place(taken(s, (loop, loop_body)), loop_u)
        bodies_at = np.concatenate((body[pair][ok], loop_body))
        ones = np.concatenate((i[pair][ok], loop))
        others = np.concatenate((j[pair][ok], loop))
        xs, ys = np.concatenate((x[ok], lx)), np.concatenate((y[ok], ly))
        order = np.lexsort((others, ones, bodies_at))
        who, first_at = np.unique(bodies_at[order], return_index=True)
        chosen = order[first_at]
        crosses[who] = True
        place_x[who], place_y[who] = xs[chosen], ys[chosen]
        first[who], second[who] = owner[ones[chosen]], owner[others[chosen]]
        return Tangle(crosses, place_x, place_y, first, second)


def _closed(outline: Sequence[Drawn]) -> tuple[Array, Indices]:
    """All segments of an outline `(4, 2, n, bodies)`, gaps closed straight, and the line each belongs to."""
    curves = [trimmed(drawn).ctrl for drawn in outline]
    parts: list[Array] = []
    owner: list[int] = []
    for k, c in enumerate(curves):
        following = curves[(k + 1) % len(curves)]
        end, start = c[3, :, -1:], following[0, :, :1]
        parts += [c, np.array([end, (end * 2.0 + start) / 3.0, (end + start * 2.0) / 3.0, start])]
        owner += [k] * (c.shape[2] + 1)
    return np.concatenate(parts, axis=2), np.array(owner, dtype=np.intp)


def _segments(c: Array) -> Segment[Array]:
    """The segments `(n, bodies)` by their co-ordinates."""
    nought = np.zeros(c.shape[2:])
    return Segment(
        c[0, 0], c[0, 1], c[1, 0], c[1, 1], c[2, 0], c[2, 1], c[3, 0], c[3, 1], nought, nought + 1.0
    )


def _within(s: Segment[Array], u: Array) -> Mask:
    """Whether a place lies clear of both ends of a segment."""
    x, y = place(s, u)
    start = (np.abs(x - s.ax) > SAME_POINT) | (np.abs(y - s.ay) > SAME_POINT)
    return start & ((np.abs(x - s.dx) > SAME_POINT) | (np.abs(y - s.dy) > SAME_POINT))


def _clean(a: Segment[Array], b: Segment[Array], u: Array, v: Array) -> Mask:
    """Whether two segments go through each other and do not merely touch."""
    (px, py), (qx, qy) = speed(a, u), speed(b, v)
    size = np.sqrt((px * px + py * py) * (qx * qx + qy * qy))
    return np.abs(px * qy - py * qx) > FLAT_ANGLE * size


def _loops(s: Segment[Array], live: Mask) -> tuple[tuple[Indices, Indices], Array]:
    """The segments that cross themselves, as flat indices, and the parameter at which each first does.

    A cubic meets itself at u and w where their sum and product solve two linear equations.
    """
    ax, ay = s.dx - s.ax - 3.0 * (s.cx - s.bx), s.dy - s.ay - 3.0 * (s.cy - s.by)
    bx, by = 3.0 * (s.ax - 2.0 * s.bx + s.cx), 3.0 * (s.ay - 2.0 * s.by + s.cy)
    cx, cy = 3.0 * (s.bx - s.ax), 3.0 * (s.by - s.ay)
    det = ax * by - ay * bx
    size = np.sqrt((ax * ax + ay * ay) * (bx * bx + by * by))
    bent = live & (np.abs(det) > FLAT_ANGLE * size)
    safe = np.where(bent, det, 1.0)
    added = np.where(bent, (ay * cx - ax * cy) / safe, 0.0)
    square = np.where(bent, (bx * cy - by * cx) / safe, 0.0)
    under = 4.0 * square - 3.0 * added * added
    apart = np.sqrt(np.where(under > 0.0, under, 0.0))
    u, w = (added - apart) * 0.5, (added + apart) * 0.5
    found = bent & (under > FLAT_ANGLE) & (u >= 0.0) & (w <= 1.0)
    index = np.nonzero(found)
    return (index[0], index[1]), u[index]

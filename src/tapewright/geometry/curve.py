"""Curves as cubic segments, and trimmed curves: the drawn lines of a draft, straight or bent.

A curve is `ctrl`, its control points `(4, 2, segments, bodies)`; its parameter t runs from 0 to the number of
segments, one t a row. A trimmed curve is the curve and two parameters, never cut up again. A parameter always
means the curve's own, also on a trimmed one. Lengths, meets and parallels have their own modules.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from tapewright.geometry.point import Point, Vector
from tapewright.geometry.rows import Array, N, held
from tapewright.geometry.tolerance import CUSP, SAME_POINT


@dataclass(frozen=True, slots=True, eq=False)
class Curve:
    """A line made of cubic segments that follow one another, `(4, 2, segments, bodies)`.

    `is_straight` promises one segment with its control points at thirds: then everything takes a short way.
    """

    ctrl: Array
    is_straight: bool = False

    @property
    def segments(self) -> int:
        """How many segments; the parameter runs from 0 to this."""
        return int(self.ctrl.shape[2])

    @property
    def bodies(self) -> int:
        """How many rows."""
        return int(self.ctrl.shape[3])


@dataclass(frozen=True, slots=True, eq=False)
class Stretch:
    """A piece of a curve from one parameter to another, `(bodies,)` each; run backwards where start > end.

    No length at all is legal. Parameters outside the curve are read as its ends.
    """

    curve: Curve
    start: Array
    end: Array

    @property
    def bodies(self) -> int:
        """How many rows."""
        return self.curve.bodies


Drawn: TypeAlias = Curve | Stretch
"""A drawn line: a whole curve, or a trimmed one."""


def straight(p: Point, q: Point) -> Curve:
    """The straight line from p to q as a one-segment curve; p and q may be one."""
    if p.x.shape[0] == 1:
        a, b, c, d = p.x.item(), p.y.item(), q.x.item(), q.y.item()
        ax, bx, ay, by = (a * 2.0 + c) / 3.0, (a + c * 2.0) / 3.0, (b * 2.0 + d) / 3.0, (b + d * 2.0) / 3.0
        return Curve(np.array((a, b, ax, ay, bx, by, c, d)).reshape(4, 2, 1, 1), is_straight=True)
    ctrl = np.empty((4, 2, 1, p.x.shape[0]))
    ctrl[0, 0], ctrl[0, 1], ctrl[3, 0], ctrl[3, 1] = p.x, p.y, q.x, q.y
    ctrl[1] = (ctrl[0] * 2.0 + ctrl[3]) / 3.0
    ctrl[2] = (ctrl[0] + ctrl[3] * 2.0) / 3.0
    return Curve(ctrl, is_straight=True)


def joined(curves: Sequence[Curve]) -> Curve:
    """Curves that follow one another as one curve; whether their ends agree is the caller's to see."""
    if len(curves) == 1:
        return curves[0]
    return Curve(np.concatenate([c.ctrl for c in curves], axis=2))


def whole(drawn: Drawn) -> Stretch:
    """The drawn line as a trimmed one: a curve from its start to its end."""
    if isinstance(drawn, Stretch):
        return drawn
    bodies = drawn.bodies
    nought = np.zeros(bodies)
    return Stretch(drawn, nought, nought + drawn.segments)


def curve_of(drawn: Drawn) -> Curve:
    """The curve beneath a drawn line."""
    return drawn.curve if isinstance(drawn, Stretch) else drawn


def start_point(drawn: Drawn) -> Point:
    """Where a drawn line starts."""
    if isinstance(drawn, Stretch):
        return at(drawn.curve, drawn.start)
    return Point(drawn.ctrl[0, 0, 0], drawn.ctrl[0, 1, 0])


def end_point(drawn: Drawn) -> Point:
    """Where a drawn line ends."""
    if isinstance(drawn, Stretch):
        return at(drawn.curve, drawn.end)
    return Point(drawn.ctrl[3, 0, -1], drawn.ctrl[3, 1, -1])


def backward(drawn: Drawn) -> Drawn:
    """The same line run the other way: a curve's t becomes segments - t, a trimmed one keeps its own."""
    if isinstance(drawn, Stretch):
        return Stretch(drawn.curve, drawn.end, drawn.start)
    return Curve(np.ascontiguousarray(drawn.ctrl[::-1, :, ::-1]), drawn.is_straight)


def at(drawn: Drawn, t: Array) -> Point:
    """The point at a parameter `(bodies,)` of the curve; outside 0 to segments, the nearer end."""
    curve = curve_of(drawn)
    if t.shape[0] == 1:
        (ax, ay), (bx, by), (cx, cy), (dx, dy), w = one_segment(curve, t)
        return Point(np.array((cubic(ax, bx, cx, dx, w),)), np.array((cubic(ay, by, cy, dy, w),)))
    c, u = segment_rows(curve, t)
    return Point(cubic(c[0, 0], c[1, 0], c[2, 0], c[3, 0], u), cubic(c[0, 1], c[1, 1], c[2, 1], c[3, 1], u))


def tangent(drawn: Drawn, t: Array) -> Vector:
    """The unit direction in which the line runs at a parameter of the curve; reversed on rows run backwards.

    At a joint it is that of the segment beginning there. Where the curve stands still (control points
    together, a cusp) it is the direction in which it moves off again, at the very end the one in which it
    arrived; a segment that is one point answers (1, 0).
    """
    curve = curve_of(drawn)
    if t.shape[0] == 1:
        (ax, ay), (bx, by), (cx, cy), (dx, dy), w = one_segment(curve, t)
        vx, vy = slope(ax, bx, cx, dx, w), slope(ay, by, cy, dy, w)
        fast = math.sqrt(vx * vx + vy * vy)
        if fast > CUSP * (
            abs(bx - ax) + abs(by - ay) + abs(cx - bx) + abs(cy - by) + abs(dx - cx) + abs(dy - cy)
        ):
            if isinstance(drawn, Stretch) and drawn.start.item() > drawn.end.item():
                fast = -fast
            return Vector(np.array((vx / fast,)), np.array((vy / fast,)))
    c, u = segment_rows(curve, t)
    with np.errstate(under="ignore"):
        return _tangent_rows(drawn, c, u)


def _tangent_rows(drawn: Drawn, c: Array, u: Array) -> Vector:
    """As `tangent`, for many rows or for one that stands still; segments `(4, 2, bodies)` at u."""
    (x, y), d2, d3 = derivatives(c, u)
    speed = np.sqrt(x * x + y * y)
    least = CUSP * reach(c[1:] - c[:-1])
    still = speed <= least
    if still.any():
        ahead = np.where(u >= 1.0, -1.0, 1.0)
        slow = np.sqrt(d2[0] * d2[0] + d2[1] * d2[1]) <= least
        x = np.where(still, np.where(slow, d3[0], d2[0] * ahead), x)
        y = np.where(still, np.where(slow, d3[1], d2[1] * ahead), y)
        speed = np.sqrt(x * x + y * y)
        nowhere = speed == 0.0
        x, speed = np.where(nowhere, 1.0, x), np.where(nowhere, 1.0, speed)
    if isinstance(drawn, Stretch):
        speed = np.where(drawn.start > drawn.end, -speed, speed)
    return Vector(x / speed, y / speed)


def curvature(drawn: Drawn, t: Array) -> Array:
    """The curvature at a parameter, 1/mm, positive where the line turns clockwise as the paper is seen.

    Nought where the curve stands still, which has none. Sign reversed on rows run backwards.
    """
    curve = curve_of(drawn)
    with np.errstate(under="ignore"):
        c, u = segment_rows(curve, t)
        bend = bending(c, u)
    if isinstance(drawn, Stretch):
        bend = np.where(drawn.start > drawn.end, -bend, bend)
    return bend


def bending(c: Array, u: Array) -> Array:
    """The signed curvature of segments `(4, 2, ...)` at u `(...)`; nought where they stand still."""
    d1, d2, _ = derivatives(c, u)
    speed = np.sqrt(d1[0] * d1[0] + d1[1] * d1[1])
    moving = speed > CUSP * reach(c[1:] - c[:-1])
    safe = np.where(moving, speed, 1.0)
    cross = np.where(moving, d1[0] * d2[1] - d1[1] * d2[0], 0.0)
    bend: Array = cross / (safe * safe * safe)
    return bend


def trimmed(drawn: Drawn) -> Curve:
    """The drawn line as a curve of exactly that piece, running its way, for exporters and parallels.

    It has as many segments as the curve it is cut from; those outside the piece have no length and lie at its
    nearer end, so that it stays one line. The shape is not changed by a hair: each segment is cut by its own
    polar form.
    """
    if isinstance(drawn, Curve):
        return drawn
    curve, n = drawn.curve, drawn.curve.segments
    if curve.bodies == 1:
        return _trimmed_one(drawn)
    back = drawn.start > drawn.end
    low = held(np.where(back, drawn.end, drawn.start), 0.0, float(n))
    high = held(np.where(back, drawn.start, drawn.end), 0.0, float(n))
    first, last = at(curve, low), at(curve, high)
    index = np.arange(float(n))[:, None]
    u0, u1 = held(low - index, 0.0, 1.0), held(high - index, 0.0, 1.0)
    with np.errstate(under="ignore"):
        ctrl = np.array(cut(curve.ctrl[0], curve.ctrl[1], curve.ctrl[2], curve.ctrl[3], u0, u1))
    before, after = low - index >= 1.0, (high - index <= 0.0) | (low >= float(n))
    ctrl = np.where(before, np.stack((first.x, first.y))[:, None], ctrl)
    ctrl = np.where(after & ~before, np.stack((last.x, last.y))[:, None], ctrl)
    if back.any():
        ctrl = np.where(back, ctrl[::-1, :, ::-1], ctrl)
    return Curve(ctrl, curve.is_straight)


def _trimmed_one(drawn: Stretch) -> Curve:
    """As `trimmed`, for one row."""
    curve, n = drawn.curve, drawn.curve.segments
    start, end = held(drawn.start.item(), 0.0, float(n)), held(drawn.end.item(), 0.0, float(n))
    low, high = (end, start) if start > end else (start, end)
    first, last = at(curve, np.array((low,))), at(curve, np.array((high,)))
    nearer = [first.x.item(), first.y.item()] * 4, [last.x.item(), last.y.item()] * 4
    rows = curve.ctrl[..., 0].transpose(2, 0, 1).reshape(n, 8).tolist()
    pieces = []
    for i, (ax, ay, bx, by, cx, cy, dx, dy) in enumerate(rows):
        if low - i >= 1.0:
            pieces.append(nearer[0])
        elif high - i <= 0.0 or low >= n:
            pieces.append(nearer[1])
        else:
            u0, u1 = held(low - i, 0.0, 1.0), held(high - i, 0.0, 1.0)
            xs, ys = cut(ax, bx, cx, dx, u0, u1), cut(ay, by, cy, dy, u0, u1)
            pieces.append([v for pair in zip(xs, ys, strict=True) for v in pair])
    ctrl = np.array(pieces).reshape(n, 4, 2, 1).transpose(1, 2, 0, 3)
    if start > end:
        ctrl = ctrl[::-1, :, ::-1]
    return Curve(np.ascontiguousarray(ctrl), curve.is_straight)


def cubics(drawn: Drawn, row: int) -> NDArray[np.float64]:
    """One row's piece as cubics `(n, 4, 2)` for an exporter; segments of no length are left out.

    A line that is one point gives none at all, `(0, 4, 2)`.
    """
    ctrl = trimmed(drawn).ctrl[..., row].transpose(2, 0, 1)
    size = np.abs(ctrl - ctrl[:, :1]).max(axis=(1, 2)) if len(ctrl) else np.empty(0)
    return np.ascontiguousarray(ctrl[size > SAME_POINT])


def one_segment(curve: Curve, t: Array) -> tuple[list[float], list[float], list[float], list[float], float]:
    """For one row: the four control points of the segment at t, as floats, and the parameter within it."""
    n = curve.ctrl.shape[2]
    s = t.item()
    s = 0.0 if s < 0.0 else float(n) if s > n else s
    index = int(s)
    if index == n:
        index -= 1
    a, b, c, d = curve.ctrl[:, :, index, 0].tolist()
    return a, b, c, d, s - index


def segment_rows(curve: Curve, t: Array) -> tuple[Array, Array]:
    """For each row: its segment at t `(4, 2, bodies)`, and the parameter within it `(bodies,)`."""
    n = curve.segments
    s = np.clip(t, 0.0, float(n))
    if n == 1:
        return curve.ctrl[:, :, 0], s
    index = np.minimum(s.astype(np.intp), n - 1)
    return curve.ctrl[:, :, index, np.arange(index.shape[0])], s - index


def cubic(a: N, b: N, c: N, d: N, u: N) -> N:
    """A cubic from its four control values at u; exact at 0 and 1."""
    v = 1.0 - u
    return v * v * (v * a + 3.0 * u * b) + u * u * (3.0 * v * c + u * d)


def slope(a: N, b: N, c: N, d: N, u: N) -> N:
    """The slope at u of a cubic given by its four control values."""
    v = 1.0 - u
    return ((b - a) * 3.0) * (v * v) + ((c - b) * 3.0) * (2.0 * (u * v)) + ((d - c) * 3.0) * (u * u)


def cut(a: N, b: N, c: N, d: N, u0: N, u1: N) -> tuple[N, N, N, N]:
    """The control values of a cubic's piece from u0 to u1, by its polar form; exact at 0 and 1."""
    v0, v1 = 1.0 - u0, 1.0 - u1
    e0, f0, g0 = a * v0 + b * u0, b * v0 + c * u0, c * v0 + d * u0
    e1, f1, g1 = a * v1 + b * u1, b * v1 + c * u1, c * v1 + d * u1
    h0, i0 = e0 * v0 + f0 * u0, f0 * v0 + g0 * u0
    h1, i1 = e1 * v1 + f1 * u1, f1 * v1 + g1 * u1
    return h0 * v0 + i0 * u0, h0 * v1 + i0 * u1, h1 * v0 + i1 * u0, h1 * v1 + i1 * u1


def reach(steps: Array) -> Array:
    """How long the way along a segment's control points is, measured across and down: a size to compare with.

    From the steps between them `(3, 2, ...)`; added in order, so that no shape changes a bit of it.
    """
    s = np.abs(steps)
    long: Array = s[0, 0] + s[0, 1] + s[1, 0] + s[1, 1] + s[2, 0] + s[2, 1]
    return long


Pair: TypeAlias = tuple[Array, Array]


def derivatives(c: Array, u: Array) -> tuple[Pair, Pair, Pair]:
    """The first, second and third derivatives of segments `(4, 2, ...)` at u, each as x and y.

    u may have more axes in front than the segments.
    """
    d = (c[1:] - c[:-1]) * 3.0
    e = (d[1:] - d[:-1]) * 2.0
    v = 1.0 - u
    a, b, g = v * v, 2.0 * (u * v), u * u
    first = d[0, 0] * a + d[1, 0] * b + d[2, 0] * g, d[0, 1] * a + d[1, 1] * b + d[2, 1] * g
    second = e[0, 0] * v + e[1, 0] * u, e[0, 1] * v + e[1, 1] * u
    return first, second, (e[1, 0] - e[0, 0], e[1, 1] - e[0, 1])

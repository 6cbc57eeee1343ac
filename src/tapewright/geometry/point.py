"""Points and what is laid off from them: distances, directions, feet, corners, turns and mirrors.

Everything is `(bodies,)`: one entry a row, millimetres and radians, x to the right and y DOWN the paper.
Angles run from the x axis toward the y axis, so a growing angle turns clockwise as the paper is seen.
Functions that may fail return a `Found`. Nothing here knows a curve.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from tapewright.geometry.rows import Array, Codes, Found, Mask, N, Why, because, pick, root
from tapewright.geometry.tolerance import FLAT_ANGLE, SAME_POINT


@dataclass(frozen=True, slots=True, eq=False)
class Point:
    """A place on the paper, one for each row; `x` and `y` are `(bodies,)`."""

    x: Array
    y: Array


@dataclass(frozen=True, slots=True, eq=False)
class Vector:
    """A displacement, one for each row: how far right and how far down."""

    dx: Array
    dy: Array


@dataclass(frozen=True, slots=True, eq=False)
class Foot:
    """Where the square from a point falls on the line a-b carried on without end.

    `along` is the distance from a toward b (negative before a), `away` the distance of the point from the
    line, positive on the right hand of one walking from a to b. Not ok, with a as the foot, where a and b are
    one.
    """

    point: Point
    along: Array
    away: Array
    ok: Mask
    why: Codes


def fixed(x: float, y: float, bodies: int = 1) -> Point:
    """The same place for every row."""
    return Point(np.full(bodies, float(x)), np.full(bodies, float(y)))


def displacement(p: Point, q: Point) -> Vector:
    """The way from p to q."""
    return Vector(q.x - p.x, q.y - p.y)


def distance(p: Point, q: Point) -> Array:
    """The straight distance from p to q."""
    return np.hypot(q.x - p.x, q.y - p.y)


def moved(p: Point, by: Vector) -> Point:
    """p moved by a displacement."""
    return Point(p.x + by.dx, p.y + by.dy)


def polar(p: Point, angle: Array, length: Array) -> Point:
    """The point at a length from p in a direction given as an angle; a negative length goes the other way."""
    return Point(p.x + length * np.cos(angle), p.y + length * np.sin(angle))


def between(p: Point, q: Point, fraction: Array | float) -> Point:
    """The point a fraction of the way from p (0) to q (1); beyond either end when outside 0 to 1."""
    rest = 1.0 - fraction
    return Point(p.x * rest + q.x * fraction, p.y * rest + q.y * fraction)


def midpoint(p: Point, q: Point) -> Point:
    """Half-way from p to q."""
    return Point((p.x + q.x) * 0.5, (p.y + q.y) * 0.5)


def toward(p: Point, q: Point, length: Array) -> Found[Point]:
    """The point at a length from p toward q, also beyond q or, if negative, away from q.

    Not ok (SAME_POINT) where p and q are one; p itself stands in.
    """
    if p.x.shape[0] == 1:
        x, y, ok = _toward(p.x.item(), p.y.item(), q.x.item(), q.y.item(), length.item())
        return Found(Point(np.array((x,)), np.array((y,))), np.array((ok,)), _one_why(ok))
    with np.errstate(under="ignore"):
        xs, ys, oks = _toward(p.x, p.y, q.x, q.y, length)
    return Found(Point(xs, ys), oks, because(oks, Why.SAME_POINT))


def _toward(px: N, py: N, qx: N, qy: N, length: N) -> tuple[N, N, Any]:
    """As `toward`, on plain co-ordinates."""
    dx, dy = qx - px, qy - py
    d = root(dx * dx + dy * dy)
    ok = d > SAME_POINT
    part = pick(ok, length, d * 0.0) / pick(ok, d, d * 0.0 + 1.0)
    return px + dx * part, py + dy * part, ok


def _one_why(ok: bool) -> Codes:
    """NOTHING or SAME_POINT for one row."""
    return np.array((Why.NOTHING if ok else Why.SAME_POINT,), np.int8)


def direction(p: Point, q: Point) -> Found[Array]:
    """The angle of the way from p to q, from -pi to pi; not ok (SAME_POINT, 0 stands in) where they are one."""
    dx, dy = q.x - p.x, q.y - p.y
    ok = np.hypot(dx, dy) > SAME_POINT
    return Found(np.where(ok, np.arctan2(dy, dx), 0.0), ok, because(ok, Why.SAME_POINT))


def unit(angle: Array) -> Vector:
    """The displacement of length 1 in a direction."""
    return Vector(np.cos(angle), np.sin(angle))


def rotated(p: Point, pivot: Point, angle: Array) -> Point:
    """p turned about a pivot; a positive angle turns clockwise as the paper is seen."""
    c, s = np.cos(angle), np.sin(angle)
    dx, dy = p.x - pivot.x, p.y - pivot.y
    return Point(pivot.x + (c * dx - s * dy), pivot.y + (s * dx + c * dy))


def foot(p: Point, a: Point, b: Point) -> Foot:
    """Where the square from p falls on the line a-b carried on; see `Foot`."""
    if p.x.shape[0] == 1:
        x, y, along, away, ok = _foot(p.x.item(), p.y.item(), a.x.item(), a.y.item(), b.x.item(), b.y.item())
        place = Point(np.array((x,)), np.array((y,)))
        return Foot(place, np.array((along,)), np.array((away,)), np.array((ok,)), _one_why(ok))
    with np.errstate(under="ignore"):
        xs, ys, alongs, aways, oks = _foot(p.x, p.y, a.x, a.y, b.x, b.y)
    return Foot(Point(xs, ys), alongs, aways, oks, because(oks, Why.SAME_POINT))


def _foot(px: N, py: N, ax: N, ay: N, bx: N, by: N) -> tuple[N, N, N, N, Any]:
    """As `foot`, on plain co-ordinates."""
    dx, dy = bx - ax, by - ay
    d = root(dx * dx + dy * dy)
    ok = d > SAME_POINT
    safe, nought = pick(ok, d, d * 0.0 + 1.0), d * 0.0
    ux, uy = pick(ok, dx, nought) / safe, pick(ok, dy, nought) / safe
    x, y = px - ax, py - ay
    along = ux * x + uy * y
    return ax + ux * along, ay + uy * along, along, ux * y - uy * x, ok


def side(p: Point, a: Point, b: Point) -> Array:
    """How far p lies from the line a-b carried on, positive on the right hand of one walking from a to b.

    Nought where a and b are one, as on the line itself.
    """
    return foot(p, a, b).away


def mirrored(p: Point, a: Point, b: Point) -> Found[Point]:
    """p turned over on the line a-b; not ok (SAME_POINT) where a and b are one, with p turned about a."""
    f = foot(p, a, b)
    return Found(Point(f.point.x * 2.0 - p.x, f.point.y * 2.0 - p.y), f.ok, f.why)


def corner(a: Point, b: Point, c: Point) -> Found[Array]:
    """The angle of the corner a-b-c, from 0 to pi; not ok (SAME_POINT) where an arm has no length."""
    found = turning(a, b, c)
    return Found(np.abs(found.value), found.ok, found.why)


def turning(a: Point, b: Point, c: Point) -> Found[Array]:
    """The angle that turns the arm b-a on to the arm b-c, clockwise positive, from -pi to pi.

    Not ok (SAME_POINT, 0 stands in) where an arm has no length.
    """
    ax, ay, cx, cy = a.x - b.x, a.y - b.y, c.x - b.x, c.y - b.y
    ok = (np.hypot(ax, ay) > SAME_POINT) & (np.hypot(cx, cy) > SAME_POINT)
    angle = np.arctan2(ax * cy - ay * cx, ax * cx + ay * cy)
    return Found(np.where(ok, angle, 0.0), ok, because(ok, Why.SAME_POINT))


def corner_point(a: Point, b: Point, c: Point, length: Array) -> Found[Point]:
    """The point at a length from b into the corner a-b-c, half-way between the two arms.

    Not ok with b standing in where an arm has no length (SAME_POINT) or the corner is flat, so that it has
    two insides (FLAT). Where both arms lie together the point lies along them.
    """
    ax, ay, cx, cy = a.x - b.x, a.y - b.y, c.x - b.x, c.y - b.y
    da, dc = np.hypot(ax, ay), np.hypot(cx, cy)
    apart = (da > SAME_POINT) & (dc > SAME_POINT)
    da, dc = np.where(apart, da, 1.0), np.where(apart, dc, 1.0)
    mx, my = ax / da + cx / dc, ay / da + cy / dc
    m = np.hypot(mx, my)
    bent = m > FLAT_ANGLE
    ok = apart & bent
    part = np.where(ok, length, 0.0) / np.where(ok, m, 1.0)
    why = np.where(apart, because(bent, Why.FLAT), np.int8(Why.SAME_POINT)).astype(np.int8)
    return Found(Point(b.x + mx * part, b.y + my * part), ok, why)

"""Circles and arcs: what a string and a pencil draw, kept exact, and the curve that stands for an arc.

Angles run from the x axis toward the y axis (clockwise as the paper is seen, y being down); an arc's `turn`
is signed. Everything is `(bodies,)`. Where arcs meet other lines is in the meets.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from tapewright.geometry.curve import Curve, cubic, slope
from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array, Found, N, Why, because, cosine, held, over, rounded_off, sine
from tapewright.geometry.tolerance import FLAT_ANGLE, SAME_POINT

ARC_SEGMENTS: Final = 24
"""Segments of the curve that stands for an arc: a whole circle of 1 m is then true within 0.00001 mm."""


@dataclass(frozen=True, slots=True, eq=False)
class Circle:
    """A whole circle, one for each row. A radius below nought is read as its size."""

    centre: Point
    radius: Array


@dataclass(frozen=True, slots=True, eq=False)
class Arc:
    """A piece of a circle from the angle `start` through the signed angle `turn`."""

    centre: Point
    radius: Array
    start: Array
    turn: Array


def on_circle(circle: Circle | Arc, angle: Array) -> Point:
    """The point of a circle at an angle."""
    c, r = circle.centre, circle.radius
    return Point(c.x + r * np.cos(angle), c.y + r * np.sin(angle))


def arc_length(arc: Arc) -> Array:
    """The length of an arc by the tape."""
    return np.abs(arc.radius * arc.turn)


def arc_curve(arc: Arc) -> Curve:
    """The arc as a curve of 24 segments, its parameter running 0 to 24 as the arc is drawn.

    Handles of 4/3 tan(a quarter of each segment's angle), the classic rule; true within 0.00001 mm on a whole
    circle of 1 m. A turn of nought gives a curve of no length.
    """
    bodies = arc.start.shape[0]
    step = arc.turn / ARC_SEGMENTS
    angles = arc.start + step * np.arange(ARC_SEGMENTS + 1.0)[:, None]
    c, s = np.cos(angles) * arc.radius, np.sin(angles) * arc.radius
    handle = np.tan(step / 4.0) * (4.0 / 3.0)
    x, y = arc.centre.x + c, arc.centre.y + s
    ctrl = np.empty((4, 2, ARC_SEGMENTS, bodies))
    ctrl[0, 0], ctrl[0, 1] = x[:-1], y[:-1]
    ctrl[1, 0], ctrl[1, 1] = x[:-1] - handle * s[:-1], y[:-1] + handle * c[:-1]
    ctrl[2, 0], ctrl[2, 1] = x[1:] + handle * s[1:], y[1:] - handle * c[1:]
    ctrl[3, 0], ctrl[3, 1] = x[1:], y[1:]
    return Curve(ctrl)


def arc_parameter(arc: Arc, angle: Array) -> Array:
    """The parameter, 0 to 24, at which `arc_curve` passes an angle; angles off the arc give its nearer end.

    Angles may be given any number of whole turns away.
    """
    return parameter_turned(arc.turn, turned_from(arc, angle))


def turned_from(arc: Arc, angle: Array) -> Array:
    """How far the arc has turned, signed, when it passes an angle; an angle off it falls before or beyond it.

    Of the whole turns that could be meant the one nearest the middle of the arc is taken.
    """
    return turned_to(arc.start, arc.turn, angle)


def turned_to(start: N, turn: N, angle: N) -> N:
    """As `turned_from`, of an arc given by its start and turn, for floats or arrays."""
    middle = turn * 0.5
    off = angle - start - middle
    return middle + (off - math.tau * rounded_off(off / math.tau))


def parameter_turned(turn: N, turned: N) -> N:
    """The parameter of an arc's curve at a turned angle: linear, then two Newton steps on the segment itself."""
    part = held(over(turned, turn, 0.0), 0.0, 1.0) * ARC_SEGMENTS
    index = held(rounded_off(part - 0.5), 0.0, ARC_SEGMENTS - 1.0)
    u = held(part - index, 0.0, 1.0)
    whole = turn / ARC_SEGMENTS
    # The segment about its own middle: ends at -half and +half; `aim` is the angle sought.
    half = whole * 0.5
    aim = whole * (u - 0.5)
    ca, sa, ch, sh = cosine(aim), sine(aim), cosine(half), sine(half)
    # Half the half angle's tangent, from its sine and cosine; a segment of a whole turn has none.
    handle = over(sh, 1.0 + ch, 0.0) * (4.0 / 3.0)
    x1, y1 = ch + handle * sh, -sh + handle * ch
    # The cross product of the aim with each control point: a cubic in u, antisymmetric about the middle.
    f0, f1, f2, f3 = -ca * sh - sa * ch, ca * y1 - sa * x1, -ca * y1 - sa * x1, ca * sh - sa * ch
    for _ in range(2):
        f, g = cubic(f0, f1, f2, f3, u), slope(f0, f1, f2, f3, u)
        u = held(u - over(f, g, 0.0), 0.0, 1.0)
    return index + u


def circle_through(a: Point, b: Point, c: Point) -> Found[Circle]:
    """The circle through three points; not ok where two are one (SAME_POINT) or they lie in a row (FLAT)."""
    bx, by, cx, cy = b.x - a.x, b.y - a.y, c.x - a.x, c.y - a.y
    lb, lc, lbc = np.hypot(bx, by), np.hypot(cx, cy), np.hypot(cx - bx, cy - by)
    apart = (lb > SAME_POINT) & (lc > SAME_POINT) & (lbc > SAME_POINT)
    cross = bx * cy - by * cx
    bent = np.abs(cross) > FLAT_ANGLE * lb * lc
    ok = apart & bent
    safe = np.where(ok, cross * 2.0, 1.0)
    b2, c2 = np.where(ok, bx * bx + by * by, 0.0), np.where(ok, cx * cx + cy * cy, 0.0)
    ux, uy = (cy * b2 - by * c2) / safe, (bx * c2 - cx * b2) / safe
    why = np.where(apart, because(bent, Why.FLAT), np.int8(Why.SAME_POINT)).astype(np.int8)
    return Found(Circle(Point(a.x + ux, a.y + uy), np.hypot(ux, uy)), ok, why)


def arc_through(a: Point, b: Point, c: Point) -> Found[Arc]:
    """The arc from a through b to c; fails as `circle_through`, with an arc of no turn at a standing in."""
    found = circle_through(a, b, c)
    centre = found.value.centre
    start = np.arctan2(a.y - centre.y, a.x - centre.x)
    end = np.arctan2(c.y - centre.y, c.x - centre.x)
    cross = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
    sweep = end - start
    clockwise = np.where(sweep <= 0.0, sweep + math.tau, sweep)
    turn = np.where(cross > 0.0, clockwise, clockwise - math.tau)
    arc = Arc(centre, found.value.radius, start, np.where(found.ok, turn, 0.0))
    return Found(arc, found.ok, found.why)


def arc_about(centre: Point, p: Point, angle: Array) -> Arc:
    """The arc about a centre from p through a signed angle (clockwise positive)."""
    dx, dy = p.x - centre.x, p.y - centre.y
    return Arc(centre, np.hypot(dx, dy), np.arctan2(dy, dx), angle)


def arc_between(centre: Point, p: Point, q: Point, clockwise: bool | None = None) -> Arc:
    """The arc about a centre from p to the direction of q: the shorter way, or the way asked.

    The radius is that of p; whether q lies at the same distance is the caller's to see.
    """
    start = np.arctan2(p.y - centre.y, p.x - centre.x)
    sweep = np.arctan2(q.y - centre.y, q.x - centre.x) - start
    sweep = sweep - math.tau * np.rint(sweep / math.tau)
    if clockwise is True:
        sweep = np.where(sweep < 0.0, sweep + math.tau, sweep)
    elif clockwise is False:
        sweep = np.where(sweep > 0.0, sweep - math.tau, sweep)
    return Arc(centre, np.hypot(p.x - centre.x, p.y - centre.y), start, sweep)

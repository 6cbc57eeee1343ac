"""The mouth of a dart at the cutting line: shaped so that the dart, sewn and pressed, ends flush with the edge.

A dart drawn in an outline runs in along one leg and out along the other. Its cloth is not cut out: it is folded,
and lies behind the piece on one side. There it must end where the piece ends. So the cutting line of that side is
mirrored in the leg as far as the middle of the dart, and from there mirrored back in the middle to the other
leg. Geometry; no source needed.
"""

from __future__ import annotations

import numpy as np

from tapewright.geometry import (
    Array,
    Carried,
    Curve,
    Drawn,
    Point,
    Stretch,
    Vector,
    distance,
    end_point,
    meets,
    start_point,
    straight,
    trimmed,
    whole,
)
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.pieces.corners import (
    Corner,
    Side,
    either,
    mirrored,
    mirrored_point,
    mitred,
    nearest_meet,
    within,
)


def dart_mouth(first: Side, second: Side, leg_in: Drawn, leg_out: Drawn, outward: Array) -> Corner:
    """The way from the cutting line before a dart to the one after it.

    The dart is pressed toward the first edge. Where the dart has come to nothing the corner is a plain one.
    """
    a, tip, b = start_point(leg_in), end_point(leg_in), end_point(leg_out)
    open_ = distance(a, b) > SAME_POINT
    plain = mitred(first, second, outward)
    if not open_.any():
        return plain
    one, two = whole(first.cut), whole(second.cut)
    in_way, out_way = _way(tip, a), _way(tip, b)
    middle = _halfway(in_way, out_way)
    # Where the first cutting line stands over its leg, and where the second over the other.
    x, y, t_leg, _, found = nearest_meet(meets(one, _line(tip, in_way), Carried.BOTH, Carried.BOTH), a)
    x2, y2, t_join, _, found2 = nearest_meet(meets(two, _line(tip, out_way), Carried.BOTH, Carried.BOTH), b)
    end = end_point(one)
    leave = Point(np.where(within(one, t_leg), x, end.x), np.where(within(one, t_leg), y, end.y))
    over_leg = Point(x, y)
    # As far as the first edge is covered by half the dart: up to the middle, mirrored in the leg.
    back = _mirror_way(middle, in_way)
    xm, ym, t_far, _, reach = nearest_meet(
        meets(Stretch(one.curve, one.end, one.start), _line(tip, back), Carried.BOTH, Carried.BOTH), over_leg
    )
    good = open_ & found & found2 & reach
    if not good.any():
        return plain
    strip = trimmed(Stretch(one.curve, t_leg, t_far))
    glass = mirrored(strip, tip, in_way)
    turn = mirrored_point(Point(xm, ym), tip, in_way)
    again = mirrored(glass, tip, middle)
    close = mirrored_point(over_leg, tip, middle)
    start = start_point(two)
    join = Point(np.where(within(two, t_join), x2, start.x), np.where(within(two, t_join), y2, start.y))
    chain: tuple[Drawn, ...] = (
        straight(leave, over_leg),
        straight(over_leg, _first(glass)),
        glass,
        straight(_last(glass), turn),
        straight(turn, _last(again)),
        Curve(np.ascontiguousarray(again.ctrl[::-1, :, ::-1]), again.is_straight),
        straight(_first(again), close),
        straight(close, Point(x2, y2)),
        straight(Point(x2, y2), join),
    )
    return Corner(
        np.where(good, np.where(within(one, t_leg), t_leg, one.end), plain.leaves),
        np.where(good, np.where(within(two, t_join), t_join, two.start), plain.joins),
        either(good, chain, plain.between),
        np.where(good, False, plain.lost),
    )


def _way(p: Point, q: Point) -> Vector:
    long = np.maximum(distance(p, q), SAME_POINT)
    return Vector((q.x - p.x) / long, (q.y - p.y) / long)


def _halfway(a: Vector, b: Vector) -> Vector:
    x, y = a.dx + b.dx, a.dy + b.dy
    long = np.maximum(np.hypot(x, y), SAME_POINT)
    return Vector(x / long, y / long)


def _mirror_way(v: Vector, about: Vector) -> Vector:
    along = v.dx * about.dx + v.dy * about.dy
    return Vector(2.0 * along * about.dx - v.dx, 2.0 * along * about.dy - v.dy)


def _line(p: Point, way: Vector) -> Curve:
    return straight(p, Point(p.x + way.dx, p.y + way.dy))


def _first(curve: Curve) -> Point:
    return Point(curve.ctrl[0, 0, 0], curve.ctrl[0, 1, 0])


def _last(curve: Curve) -> Point:
    return Point(curve.ctrl[3, 0, -1], curve.ctrl[3, 1, -1])

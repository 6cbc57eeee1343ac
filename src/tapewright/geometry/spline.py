"""Curves through points: bounded Hobby (mock-curvature) splines.

The method is J. D. Hobby, "Smooth, easy to compute interpolating splines", Discrete and Computational
Geometry 1 (1986): directions at the points from the mock-curvature equations, solved as one band of three;
arms from his velocity function. Each arm is then bounded to the triangle made by the chord and the two end
directions, as the trade's curves do not overshoot. Knots are few and rows are many, so the band is walked
knot by knot.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from tapewright.geometry.curve import Curve, straight
from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array, Codes, Mask, N, Why, angle_of, because, over, pick, root
from tapewright.geometry.tolerance import FLAT_ANGLE, SAME_POINT

_ROOT_2: Final = math.sqrt(2.0)
_C1: Final = (math.sqrt(5.0) - 1.0) / 2.0
_C2: Final = (3.0 - math.sqrt(5.0)) / 2.0
_LONGEST: Final = 4.0
"""Hobby's limit on the velocity: an arm is at most 4/3 of the chord over the tension."""
_LEAST_TENSION: Final = 0.75


@dataclass(frozen=True, slots=True, eq=False)
class Spline:
    """A curve through points, with the solved end angles of each segment.

    `theta` `(segments, bodies)` is the angle from a segment's chord to its leaving direction, `phi` from its
    arriving direction to its chord, clockwise positive. Both of one sign: the segment bends one way, by theta
    + phi in all. Opposite signs: it bends both ways. Not ok (SAME_POINT) where two neighbouring points are
    one; the curve is finite there and means nothing.
    """

    curve: Curve
    theta: Array
    phi: Array
    ok: Mask
    why: Codes


def spline(
    points: Sequence[Point],
    directions: Mapping[int, Array] | None = None,
    tensions: float | Sequence[float] = 1.0,
) -> Spline:
    """The bounded Hobby spline through two points or more.

    `directions` gives, by the index of the point, the angle `(bodies,)` in which the curve passes it; the
    curve is solved apart on its two sides. An end without one is free, with curl 1: it leaves as a circle
    would. `tensions` is one a segment or one for all: 1 is easy, more is flatter, less is fuller; not under
    3/4 (ValueError, as for fewer points than two: those are the caller's slips, not the body's).
    """
    if len(points) < 2:
        raise ValueError("a curve goes through two points or more")
    given = directions or {}
    if len(points) == 2 and not given:
        return _ruled(points[0], points[1])
    count = len(points) - 1
    slack = [tensions] * count if isinstance(tensions, int | float) else list(tensions)
    if len(slack) != count or min(slack) < _LEAST_TENSION:
        raise ValueError("one tension a segment, none under 3/4")
    if points[0].x.shape[0] == 1:
        return _spline_one(points, given, slack)
    with np.errstate(under="ignore"):
        knots = np.array([[p.x for p in points], [p.y for p in points]])
        x, y = knots[:, 1:] - knots[:, :-1]
        far = np.sqrt(x * x + y * y)
        apart = far > SAME_POINT
        ok: Mask = np.logical_and.reduce(apart, axis=0)
        turn = np.arctan2(x[:-1] * y[1:] - y[:-1] * x[1:], x[:-1] * x[1:] + y[:-1] * y[1:])
        ends = {k: _ends(list(x), list(y), k, np.cos(a), np.sin(a)) for k, a in given.items()}
        solved = _end_angles(list(np.where(apart, far, 1.0)), list(turn), [1.0 / t for t in slack], ends)
        theta, phi = np.array(solved[0]), np.array(solved[1])
        tension = np.array(slack)[:, None]
        st, ct, sf, cf = np.sin(theta), np.cos(theta), np.sin(phi), np.cos(phi)
        ctrl = np.empty((4, 2, *far.shape))
        ctrl[0], ctrl[3] = knots[:, :-1], knots[:, 1:]
        (ax, ay), (dx, dy) = ctrl[0], ctrl[3]
        (ctrl[1, 0], ctrl[1, 1]), (ctrl[2, 0], ctrl[2, 1]) = _handles(ax, ay, dx, dy, st, ct, sf, cf, tension)
    return Spline(Curve(ctrl), theta, phi, ok, because(ok, Why.SAME_POINT))


def _spline_one(points: Sequence[Point], given: Mapping[int, Array], slack: Sequence[float]) -> Spline:
    """As `spline`, for one row."""
    xs, ys = [p.x.item() for p in points], [p.y.item() for p in points]
    count = len(points) - 1
    x, y = [xs[k + 1] - xs[k] for k in range(count)], [ys[k + 1] - ys[k] for k in range(count)]
    far = [root(x[k] * x[k] + y[k] * y[k]) for k in range(count)]
    ok = min(far) > SAME_POINT
    safe = [f if f > SAME_POINT else 1.0 for f in far]
    cross = [x[k] * y[k + 1] - y[k] * x[k + 1] for k in range(count - 1)]
    dot = [x[k] * x[k + 1] + y[k] * y[k + 1] for k in range(count - 1)]
    turn: list[float] = np.arctan2(cross, dot).tolist()
    ends = {k: _ends(x, y, k, np.cos(a).item(), np.sin(a).item()) for k, a in given.items()}
    theta, phi = _end_angles(safe, turn, [1.0 / t for t in slack], ends)
    angles = np.array((theta, phi))
    (st, sf), (ct, cf) = np.sin(angles).tolist(), np.cos(angles).tolist()
    flat: list[float] = []
    for k in range(count):
        own = (xs[k], ys[k], xs[k + 1], ys[k + 1])
        (bx, by), (cx, cy) = _handles(*own, st[k], ct[k], sf[k], cf[k], slack[k])
        flat += (xs[k], ys[k], bx, by, cx, cy, xs[k + 1], ys[k + 1])
    ctrl = np.ascontiguousarray(np.array(flat).reshape(count, 4, 2, 1).transpose(1, 2, 0, 3))
    angles = angles[:, :, None]
    return Spline(
        Curve(ctrl), angles[0], angles[1], np.array((ok,)), np.array((0 if ok else Why.SAME_POINT,), np.int8)
    )


def _ruled(p: Point, q: Point) -> Spline:
    """Two points and nothing said about the ends: the straight line."""
    ok = np.hypot(q.x - p.x, q.y - p.y) > SAME_POINT
    nought = np.zeros((1, p.x.shape[0]))
    return Spline(straight(p, q), nought, nought.copy(), ok, because(ok, Why.SAME_POINT))


def _ends(x: Sequence[N], y: Sequence[N], k: int, c: N, s: N) -> tuple[N | None, N | None]:
    """A given direction at a knot as the angle of leaving its chord, and of arriving along the one before."""
    leaving = arriving = None
    if k < len(x):
        leaving = angle_of(x[k] * c + y[k] * s, x[k] * s - y[k] * c)
    if k > 0:
        arriving = angle_of(c * x[k - 1] + s * y[k - 1], c * y[k - 1] - s * x[k - 1])
    return leaving, arriving


def _end_angles(
    far: list[N], turn: list[N], easy: list[float], given: Mapping[int, tuple[N | None, N | None]]
) -> tuple[list[N], list[N]]:
    """Theta and phi of each segment: Hobby's mock-curvature equations, apart between given directions."""
    theta: list[N] = []
    phi: list[N] = []
    for first, last in pairwise(sorted({0, len(far), *given})):
        leaving = given[first][0] if first in given else None
        arriving = given[last][1] if last in given else None
        own = _solved(far[first:last], turn[first : last - 1], easy[first:last], leaving, arriving)
        theta += own[0]
        phi += own[1]
    return theta, phi


def _solved(
    far: list[N], turn: list[N], easy: list[float], leaving: N | None, arriving: N | None
) -> tuple[list[N], list[N]]:
    """The end angles between two stops: the band of three, eliminated downward and filled in upward.

    The unknowns are theta at each knot, and minus phi at the last. `easy` is 1 over each tension. A free end
    has curl 1: its mock curvature equals that at its neighbour.
    """
    n = len(far)
    nought = far[0] * 0.0
    if n == 1 and leaving is None and arriving is None:
        return [nought], [nought]
    turn = turn + [nought]  # noqa: RUF005 - unpacking loses the kind of number
    # Each row of the band, once eliminated: theta[k] + right[k] * theta[k + 1] = known[k].
    right: list[N] = []
    known: list[N] = []
    if leaving is None:
        # With one tension at both ends of a segment the curl makes theta equal phi.
        right.append(nought + 1.0)
        known.append(-turn[0])
    else:
        right.append(nought)
        known.append(leaving)
    for k in range(1, n):
        e, f = easy[k - 1], easy[k]
        q, r = 1.0 / (far[k - 1] * (e * e)), 1.0 / (far[k] * (f * f))
        below, on, above = q * e, q * (3.0 - e) + r * (3.0 - f), r * f
        rhs = -(q * (3.0 - e)) * turn[k - 1] - above * turn[k]
        pivot = on - below * right[k - 1]
        right.append(above / pivot)
        known.append((rhs - below * known[k - 1]) / pivot)
    # At a free end too phi equals theta, so that the unknown there is minus the theta before it.
    end = over(-known[n - 1], 1.0 - right[n - 1], 0.0) if arriving is None else -arriving
    theta = [nought] * n
    after = end
    for k in range(n - 1, -1, -1):
        theta[k] = known[k] - right[k] * after
        after = theta[k]
    phi = [-turn[k] - theta[k + 1] for k in range(n - 1)]
    phi.append(-end)
    return theta, phi


def _handles(
    ax: N, ay: N, dx: N, dy: N, st: N, ct: N, sf: N, cf: N, tension: N
) -> tuple[tuple[N, N], tuple[N, N]]:
    """The two inner control points between two knots: Hobby's velocities, bounded to the triangle.

    From the sines and cosines of the end angles theta and phi.
    """
    shared = (st - sf / 16.0) * (sf - st / 16.0) * (ct - cf) * _ROOT_2
    front = _velocity(2.0 + shared, 1.0 + _C1 * ct + _C2 * cf) / (tension * 3.0)
    rear = _velocity(2.0 - shared, 1.0 + _C1 * cf + _C2 * ct) / (tension * 3.0)
    apex = st * cf + sf * ct
    one_way = ((apex > FLAT_ANGLE) | (apex < -FLAT_ANGLE)) & (st * apex >= 0.0) & (sf * apex >= 0.0)
    safe = pick(one_way, apex, apex * 0.0 + 1.0)
    most_front, most_rear = sf / safe, st / safe
    front = pick(one_way & (most_front < front), most_front, front)
    rear = pick(one_way & (most_rear < rear), most_rear, rear)
    x, y = dx - ax, dy - ay
    b = ax + front * (ct * x - st * y), ay + front * (st * x + ct * y)
    return b, (dx - rear * (cf * x + sf * y), dy - rear * (cf * y - sf * x))


def _velocity(top: N, bottom: N) -> N:
    """Hobby's quotient, at most 4."""
    within = top < bottom * _LONGEST
    return pick(within, top, top * 0.0 + _LONGEST) / pick(within, bottom, bottom * 0.0 + 1.0)

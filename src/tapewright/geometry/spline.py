"""Curves through points: bounded Hobby (mock-curvature) splines, and the bows that are drawn with two of
them.

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
from typing import Final

import numpy as np

from tapewright.geometry.curve import Curve, straight
from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array, Codes, Mask, N, Why, because, over
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
    bodies = points[0].x.shape[0]
    with np.errstate(under="ignore"):
        if bodies == 1:
            knots = np.array([[p.x.item() for p in points], [p.y.item() for p in points]])[:, :, None]
        else:
            knots = np.array([[p.x for p in points], [p.y for p in points]])
        chord = knots[:, 1:] - knots[:, :-1]
        far = np.hypot(chord[0], chord[1])
        apart = far > SAME_POINT
        ok: Mask = np.logical_and.accumulate(apart, axis=0)[-1]
        safe = np.where(apart, far, 1.0)
        theta, phi = _end_angles(chord, safe, given, [1.0 / s for s in slack])
        curve = _with_arms(knots, chord, theta, phi, slack)
    return Spline(curve, theta, phi, ok, because(ok, Why.SAME_POINT))


def _ruled(p: Point, q: Point) -> Spline:
    """Two points and nothing said about the ends: the straight line."""
    ok = np.hypot(q.x - p.x, q.y - p.y) > SAME_POINT
    nought = np.zeros((1, p.x.shape[0]))
    return Spline(straight(p, q), nought, nought.copy(), ok, because(ok, Why.SAME_POINT))


def _end_angles(
    chord: Array, far: Array, given: Mapping[int, Array], easy: list[float]
) -> tuple[Array, Array]:
    """Theta and phi of each segment `(segments, bodies)`: Hobby's mock-curvature equations."""
    count, bodies = far.shape
    x, y = chord
    turn = np.arctan2(x[:-1] * y[1:] - y[:-1] * x[1:], x[:-1] * x[1:] + y[:-1] * y[1:])
    leaving: dict[int, Array] = {}
    arriving: dict[int, Array] = {}
    for k, angle in given.items():
        c, s = np.cos(angle), np.sin(angle)
        if k < count:
            leaving[k] = np.arctan2(x[k] * s - y[k] * c, x[k] * c + y[k] * s)
        if k > 0:
            arriving[k] = np.arctan2(c * y[k - 1] - s * x[k - 1], c * x[k - 1] + s * y[k - 1])
    theta, phi = np.empty((count, bodies)), np.empty((count, bodies))
    stops = sorted({0, count, *given})
    for first, last in zip(stops, stops[1:], strict=False):
        a, b = leaving.get(first), arriving.get(last)
        e = easy[first:last]
        if bodies == 1:
            f = far[first:last, 0].tolist()
            p = turn[first : last - 1, 0].tolist()
            t1, p1 = _solved(f, p, e, None if a is None else a.item(), None if b is None else b.item())
            theta[first:last, 0], phi[first:last, 0] = t1, p1
        else:
            t2, p2 = _solved(list(far[first:last]), list(turn[first : last - 1]), e, a, b)
            theta[first:last], phi[first:last] = t2, p2
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
    turn = [*turn, nought]
    # Each row of the band, once eliminated: theta[k] + right[k] * theta[k + 1] = known[k].
    right: list[N] = []
    known: list[N] = []
    e = easy[0]
    if leaving is None:
        # (3 - e + e) theta = (e + 3 - e) phi / with one tension at both ends of a segment: theta = phi.
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
    if arriving is None:
        # The end's own angle equals its neighbour's: phi = theta, so minus phi = -theta.
        end = over(-known[n - 1], 1.0 - right[n - 1], 0.0)
    else:
        end = -arriving
    theta = [nought] * n
    after = end
    for k in range(n - 1, -1, -1):
        theta[k] = known[k] - right[k] * after
        after = theta[k]
    phi = [-turn[k] - theta[k + 1] for k in range(n - 1)]
    phi.append(-end)
    return theta, phi


def _with_arms(knots: Array, chord: Array, theta: Array, phi: Array, slack: Sequence[float]) -> Curve:
    """The cubic segments: Hobby's velocities, bounded to the triangle of chord and end directions."""
    st, ct, sf, cf = np.sin(theta), np.cos(theta), np.sin(phi), np.cos(phi)
    shared = (st - sf / 16.0) * (sf - st / 16.0) * (ct - cf) * _ROOT_2
    tension = np.array(slack)[:, None] * 3.0
    front = _velocity(2.0 + shared, 1.0 + _C1 * ct + _C2 * cf) / tension
    rear = _velocity(2.0 - shared, 1.0 + _C1 * cf + _C2 * ct) / tension
    apex = st * cf + sf * ct
    one_way = (np.abs(apex) > FLAT_ANGLE) & (st * apex >= 0.0) & (sf * apex >= 0.0)
    safe = np.where(one_way, apex, 1.0)
    most_front, most_rear = sf / safe, st / safe
    front = np.where(one_way & (most_front < front), most_front, front)
    rear = np.where(one_way & (most_rear < rear), most_rear, rear)
    ctrl = np.empty((4, 2, theta.shape[0], theta.shape[1]))
    x, y = chord
    ctrl[0], ctrl[3] = knots[:, :-1], knots[:, 1:]
    ctrl[1, 0], ctrl[1, 1] = ctrl[0, 0] + front * (ct * x - st * y), ctrl[0, 1] + front * (st * x + ct * y)
    ctrl[2, 0], ctrl[2, 1] = ctrl[3, 0] - rear * (cf * x + sf * y), ctrl[3, 1] - rear * (cf * y - sf * x)
    return Curve(ctrl)


def _velocity(top: Array, bottom: Array) -> Array:
    """Hobby's quotient, at most 4."""
    within = top < bottom * _LONGEST
    return np.where(within, top, _LONGEST) / np.where(within, bottom, 1.0)

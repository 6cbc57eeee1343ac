"""Bowed lines: a straight line hollowed or rounded by an amount, and how closely a line bends.

A bow is two Hobby segments that meet at its deepest point, where it runs along the straight line it was. What
is too close a bend, or too deep a hollow, is for the caller to say.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from tapewright.geometry.curve import Curve, Drawn, derivatives, reach, trimmed
from tapewright.geometry.point import Point, direction, distance, side
from tapewright.geometry.rows import Array, Found, Mask, Why
from tapewright.geometry.spline import spline
from tapewright.geometry.tolerance import CUSP, FLAT_ANGLE, SAME_POINT

_LOOKS: Final[Array] = (np.arange(25.0) / 24.0)[:, None, None]
_MANY: Final = 512


def hollow(p: Point, q: Point, depth: Array, place: Array, toward: Point) -> Found[Curve]:
    """The line p-q bowed by `depth` at the fraction `place` of it, to the side on which `toward` lies.

    Hollow or round is one thing; the side says which. It touches its depth at that place and nowhere else,
    and leaves both ends as a free curve does. Not ok: p and q one, or the place at an end (SAME_POINT);
    `toward` on the line (FLAT); a depth below nought (NEGATIVE) or of more than half the line (TOO_DEEP). A
    straight line drawn as two segments stands in. A depth of nought is that line, and ok.
    """
    way = direction(p, q)
    long = distance(p, q)
    which = side(toward, p, q)
    apart = way.ok & (place * long > SAME_POINT) & ((1.0 - place) * long > SAME_POINT)
    sided = np.abs(which) > SAME_POINT
    signed, shallow = depth >= 0.0, depth <= long * 0.5
    ok = apart & sided & signed & shallow
    deep = np.where(ok, depth, 0.0) * np.where(which < 0.0, -1.0, 1.0)
    part = np.where(ok, place, 0.5)
    x, y = np.cos(way.value), np.sin(way.value)
    rest = 1.0 - part
    bottom = Point(p.x * rest + q.x * part - y * deep, p.y * rest + q.y * part + x * deep)
    why = np.where(
        ~apart, Why.SAME_POINT, np.where(~sided, Why.FLAT, np.where(signed, Why.TOO_DEEP, Why.NEGATIVE))
    )
    drawn = spline([p, bottom, q], {1: way.value})
    return Found(drawn.curve, ok, np.where(ok, Why.NOTHING, why).astype(np.int8))


def closest_bend(drawn: Drawn) -> Array:
    """The smallest radius at which a drawn line bends, mm; nought where it turns on the spot.

    Looked for at 25 places a segment, ends included, so that a bend sharper than its neighbours by far may be
    given a little too wide. A straight line answers with 1 / FLAT_ANGLE, 100 km. Corners between segments are
    not bends.
    """
    c = trimmed(drawn).ctrl
    with np.errstate(under="ignore"):
        size = reach(c[1:] - c[:-1])
        if size.size < _MANY:
            most, still = _bending(c, _LOOKS, size)
            return _radius(most.max(axis=(0, 1)), np.logical_or.reduce(still, axis=(0, 1)))
        # Place by place, which is quicker for many; the greatest of them is the same.
        most, still = np.zeros(size.shape[1]), np.zeros(size.shape[1], dtype=np.bool_)
        for look in _LOOKS:
            bend, stood = _bending(c, look, size)
            most, still = np.maximum(most, bend.max(axis=0)), still | np.logical_or.reduce(stood, axis=0)
        return _radius(most, still)


def _bending(c: Array, u: Array, size: Array) -> tuple[Array, Mask]:
    """The curvature of segments at u, its sign left out, and where they stand still there."""
    (dx, dy), (ex, ey), _ = derivatives(c, u)
    square = dx * dx + dy * dy
    speed = np.sqrt(square)
    still = speed <= CUSP * size
    bend = np.abs(dx * ey - dy * ex) / np.where(still, 1.0, square * speed)
    return np.where(still, 0.0, bend), still & (size > SAME_POINT)


def _radius(most: Array, still: Mask) -> Array:
    """The radius of the greatest curvature: nought where a line stands still, 100 km where it is straight."""
    return np.where(still, 0.0, 1.0 / np.where(most > FLAT_ANGLE, most, FLAT_ANGLE))

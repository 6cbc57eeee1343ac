"""Bowed lines: a straight line hollowed or rounded by an amount, and how closely a line bends.

A bow is two Hobby segments that meet at its deepest point, where it runs along the straight line it was. What
is too close a bend, or too deep a hollow, is for the caller to say.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from tapewright.geometry.curve import Curve, Drawn, bending, derivatives, trimmed
from tapewright.geometry.point import Point, direction, distance, side
from tapewright.geometry.rows import Array, Found, Why
from tapewright.geometry.spline import spline
from tapewright.geometry.tolerance import CUSP, FLAT_ANGLE, SAME_POINT

_LOOKS: Final = (np.arange(25.0) / 24.0)[:, None, None]


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
    ctrl = trimmed(drawn).ctrl
    with np.errstate(under="ignore"):
        bend = np.abs(bending(ctrl, _LOOKS))
        first = derivatives(ctrl, _LOOKS)[0]
        d = ctrl[1:] - ctrl[:-1]
        reach = np.hypot(d[:, 0], d[:, 1])
        long = reach[0] + reach[1] + reach[2]
        still = (np.hypot(first[0], first[1]) <= CUSP * long) & (long > SAME_POINT)
        most = np.where(bend > FLAT_ANGLE, bend, FLAT_ANGLE).max(axis=(0, 1))
        return np.where(still.any(axis=(0, 1)), 0.0, 1.0 / most)

"""Where two lines meet: every candidate, in order, for the caller to choose from.

One door, `meets(a, b)`, for straight lines, curves, trimmed curves, circles and arcs. Straight lines and
circles are met in closed form (`meets_plain.py`), a curve with either of them by the roots between its
turning points (`meets_curve.py`), two curves by boxes and Newton's method (`meets_curves.py`). Nothing here
chooses: which crossing is meant is the draft's to say.
"""

from __future__ import annotations

from typing import TypeAlias

from tapewright.geometry.circle import Arc, Circle
from tapewright.geometry.curve import Curve, Stretch, curve_of
from tapewright.geometry.meets_answer import Carried, Meets
from tapewright.geometry.meets_curve import curve_and_circle, curve_and_straight
from tapewright.geometry.meets_curves import curve_and_curve
from tapewright.geometry.meets_plain import circle_and_circle, straight_and_circle, straight_and_straight

Meetable: TypeAlias = Curve | Stretch | Circle | Arc
"""What can be met: any drawn line, a circle or an arc."""


def meets(
    a: Meetable, b: Meetable, carried_a: Carried = Carried.NOT, carried_b: Carried = Carried.NOT
) -> Meets:
    """All meets of a and b; see `Meets` for what comes back and how it is ordered.

    `carried_a` and `carried_b` say which ends may be carried straight on beyond; a circle has none, an arc is
    not carried. Candidates kept: 1 for two straight lines, 2 where circles and straight lines meet, 8 with a
    curve. Good to 0.001 mm. Degenerate: a line of no length meets nothing (SAME_POINT); lines lying along
    each other give ALONG and no candidate; a touch is one candidate.
    """
    if isinstance(a, Circle | Arc):
        if isinstance(b, Circle | Arc):
            return circle_and_circle(a, b)
        met = straight_and_circle if curve_of(b).is_straight else curve_and_circle
        return met(b, a, carried_b, flip=True)
    if isinstance(b, Circle | Arc):
        met = straight_and_circle if curve_of(a).is_straight else curve_and_circle
        return met(a, b, carried_a)
    if curve_of(a).is_straight:
        if curve_of(b).is_straight:
            return straight_and_straight(a, b, carried_a, carried_b)
        return curve_and_straight(b, a, carried_b, carried_a, flip=True)
    if curve_of(b).is_straight:
        return curve_and_straight(a, b, carried_a, carried_b)
    return curve_and_curve(a, b, carried_a, carried_b)

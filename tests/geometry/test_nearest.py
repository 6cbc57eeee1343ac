"""The nearest and the farthest place of a line, and where it runs in a direction, against sampling and shapely."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from shapely import Point as ShapelyPoint

from tapewright.geometry import (
    Arc,
    Stretch,
    arc_curve,
    at,
    distance,
    farthest,
    fixed,
    joined,
    nearest,
    running,
    spline,
    straight,
    tangent,
)
from tests.geometry.cases import NECK, SCYE, curve, knots, one, samples

few = settings(max_examples=50)
scye = curve(SCYE)
places = st.tuples(st.floats(-300.0, 400.0), st.floats(-200.0, 400.0)).map(
    lambda p: (round(p[0], 3), round(p[1], 3))
)
directions = st.floats(-4.0, 4.0).map(lambda a: round(a, 6))


@pytest.mark.parametrize("through", [SCYE, NECK, [(0.0, 0.0), (5.0, 120.0), (90.0, 0.0), (5.0, 60.0)]])
@few
@given(places)
def test_nothing_lies_nearer(through: list[tuple[float, float]], place: tuple[float, float]) -> None:
    """No sampled place is nearer, and shapely's distance to the sampled curve is the same but for its chords."""
    line = curve(through)
    found = nearest(line, fixed(*place))
    dense = samples(line, 4001)
    assert found.distance[0] <= np.hypot(dense[:, 0] - place[0], dense[:, 1] - place[1]).min() + 1e-9
    sampled = LineString(dense).distance(ShapelyPoint(place))
    assert found.distance[0] == pytest.approx(sampled, abs=2e-3)
    assert distance(found.point, fixed(*place))[0] == pytest.approx(found.distance[0], abs=1e-12)
    assert distance(at(line, found.t), found.point)[0] < 1e-9


def test_a_place_on_the_line_is_its_own_nearest() -> None:
    """Every place of the curve is at distance nought from it, to 0.000001 mm, and so are those of a piece."""
    for t in np.linspace(0.0, 4.0, 41):
        here = at(scye, one(t))
        assert nearest(scye, here).distance[0] < 1e-6
        assert nearest(scye, here).t[0] == pytest.approx(t, abs=1e-6)
    piece = Stretch(scye, one(3.0), one(1.0))
    assert nearest(piece, at(scye, one(0.2))).t[0] == pytest.approx(1.0)
    nothing = Stretch(scye, one(1.5), one(1.5))
    assert nearest(nothing, fixed(0.0, 0.0)).t[0] == 1.5


def test_of_equals_the_first() -> None:
    """From the centre of an arc every place is equally near: the answer is one of them, at the radius."""
    arc = arc_curve(Arc(fixed(0.0, 0.0), one(50.0), one(0.0), one(3.0)))
    assert nearest(arc, fixed(0.0, 0.0)).distance[0] == pytest.approx(50.0, abs=1e-5)
    vee = joined(
        [straight(fixed(-10.0, 10.0), fixed(0.0, 0.0)), straight(fixed(0.0, 0.0), fixed(10.0, 10.0))]
    )
    assert nearest(vee, fixed(0.0, 10.0)).t[0] == pytest.approx(0.5)


@few
@given(directions)
def test_nothing_lies_farther(angle: float) -> None:
    """The farthest place in a direction beats every sampled one; where it is no end, the line runs square to it."""
    found = farthest(scye, one(angle))
    way = np.array([math.cos(angle), math.sin(angle)])
    best = float(found.point.x[0] * way[0] + found.point.y[0] * way[1])
    sampled = samples(scye, 4001) @ way
    assert best >= sampled.max() - 1e-9
    assert best == pytest.approx(sampled.max(), abs=1e-3)
    if not found.at_end[0]:
        v = tangent(scye, found.t)
        assert v.dx[0] * way[0] + v.dy[0] * way[1] == pytest.approx(0.0, abs=1e-6)


def test_a_plumb_line_touches_a_back_scye() -> None:
    """The place of the curve nearest the centre back lies between two knots; of a straight line it is an end."""
    touch = farthest(scye, one(math.pi))
    assert not touch.at_end[0]
    assert touch.point.x[0] < -18.0
    assert farthest(straight(fixed(0.0, 0.0), fixed(10.0, 5.0)), one(math.pi)).at_end[0]
    assert farthest(Stretch(scye, one(2.0), one(2.0)), one(0.0)).t[0] == 2.0


@few
@given(directions)
def test_it_runs_in_the_direction_wherever_it_is_said_to(angle: float) -> None:
    """At each place found the tangent lies along the direction; between samples that pass it, one is found."""
    found = running(scye, one(angle))
    for k in range(8):
        if found.on[k, 0]:
            v = tangent(scye, one(found.t[k, 0]))
            assert v.dx[0] * math.sin(angle) - v.dy[0] * math.cos(angle) == pytest.approx(0.0, abs=1e-6)
    steps = np.diff(samples(scye, 4001), axis=0)
    across = steps[:, 0] * math.sin(angle) - steps[:, 1] * math.cos(angle)
    passes = int((across[:-1] * across[1:] < 0.0).sum())
    ends = [t for t in found.t[found.on[:, 0], 0] if t < 1e-3 or t > 4.0 - 1e-3]
    assert passes <= found.on.sum() <= passes + len(ends) + 1


def test_a_scye_drawn_level_is_level_there() -> None:
    """Where a knot was passed level, and where the end was reached level, it is said to run level (by making)."""
    line = spline(knots(SCYE), {2: one(0.0), 4: one(0.0)}).curve
    found = running(line, one(0.0))
    t = found.t[found.on[:, 0], 0]
    assert np.abs(t - 2.0).min() < 1e-9
    assert np.abs(t - 4.0).min() < 1e-9
    assert not running(straight(fixed(0.0, 0.0), fixed(10.0, 0.0)), one(0.0)).on.any()
    wave = curve([(20.0 * k, 30.0 * (-1) ** k) for k in range(14)])
    assert running(wave, one(0.0)).more[0]

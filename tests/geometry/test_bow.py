"""Hollowed lines and closest bends, against closed forms and dense sampling."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapewright.geometry import (
    Arc,
    Curve,
    Why,
    arc_curve,
    closest_bend,
    fixed,
    hollow,
    nearest,
    side,
    spline,
    straight,
    tangent,
)
from tests.geometry.cases import knots, one, samples

few = settings(max_examples=50)
P, Q = fixed(10.0, 20.0), fixed(210.0, 80.0)
LONG = math.hypot(200.0, 60.0)


@few
@given(st.floats(0.1, 100.0), st.floats(0.15, 0.85), st.booleans())
def test_a_hollow_is_as_deep_as_asked_where_asked(depth: float, place: float, right: bool) -> None:
    """It touches the depth at the place, on the side asked, and is nowhere deeper (sampled); ends stay."""
    toward = fixed(100.0, 300.0) if right else fixed(100.0, -300.0)
    found = hollow(P, Q, one(depth), one(place), toward)
    assert found.ok[0]
    bent = samples(found.value, 801)
    off = np.array([side(fixed(*p), P, Q)[0] for p in bent]) * (1.0 if right else -1.0)
    assert off.max() == pytest.approx(depth, abs=1e-9)
    assert off.min() > -1e-9
    assert np.abs(bent[[0, -1]] - [[10.0, 20.0], [210.0, 80.0]]).max() == 0.0
    way = tangent(found.value, one(1.0))
    assert way.dy[0] / way.dx[0] == pytest.approx(0.3)
    deepest = nearest(found.value, fixed(10.0 + 200.0 * place, 20.0 + 60.0 * place))
    assert deepest.distance[0] <= depth + 1e-9


def test_the_middle_of_a_shallow_hollow_is_nearly_an_arc() -> None:
    """At the middle, a bow of a tenth is within a fiftieth of its depth of the circle through its three points."""
    found = hollow(fixed(-100.0, 0.0), fixed(100.0, 0.0), one(20.0), one(0.5), fixed(0.0, 50.0)).value
    radius = (100.0**2 + 20.0**2) / 40.0
    assert (
        np.abs(np.hypot(samples(found, 401)[:, 0], samples(found, 401)[:, 1] - 20.0 + radius) - radius).max()
        < 0.4
    )


def test_what_cannot_be_hollowed_is_told() -> None:
    """No side, too deep, below nought, at an end, between coincident points: each with its reason, all finite."""
    cases = [
        (P, Q, 10.0, 0.5, fixed(110.0, 50.0), Why.FLAT),
        (P, Q, LONG * 0.51, 0.5, fixed(0.0, 300.0), Why.TOO_DEEP),
        (P, Q, -1.0, 0.5, fixed(0.0, 300.0), Why.NEGATIVE),
        (P, Q, 10.0, 0.0, fixed(0.0, 300.0), Why.SAME_POINT),
        (P, Q, 10.0, 1.0, fixed(0.0, 300.0), Why.SAME_POINT),
        (P, P, 10.0, 0.5, fixed(0.0, 300.0), Why.SAME_POINT),
    ]
    for p, q, depth, place, toward, why in cases:
        found = hollow(p, q, one(depth), one(place), toward)
        assert (found.ok[0], found.why[0]) == (False, why)
        assert np.isfinite(found.value.ctrl).all()
    none = hollow(P, Q, one(0.0), one(0.5), fixed(0.0, 300.0))
    assert none.ok[0]
    assert np.abs([side(fixed(*p), P, Q)[0] for p in samples(none.value, 51)]).max() < 1e-9


def test_the_closest_bend_of_an_arc_is_its_radius() -> None:
    """Circle (closed form), straight line (no bend at all), an ellipse-like curve against dense sampling."""
    assert closest_bend(arc_curve(Arc(fixed(0.0, 0.0), one(35.0), one(0.0), one(3.0))))[0] == pytest.approx(
        35.0, rel=1e-4
    )
    assert closest_bend(straight(fixed(0.0, 0.0), fixed(9.0, 9.0)))[0] >= 1e7
    line = spline(knots([(0.0, 0.0), (60.0, 40.0), (70.0, 120.0), (10.0, 160.0)])).curve
    p = samples(line, 30001)
    first, second = np.gradient(p, axis=0), np.gradient(np.gradient(p, axis=0), axis=0)
    bend = np.abs(first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]) / np.hypot(*first.T) ** 3
    inner = np.ones(len(p), dtype=bool)
    for joint in (0, 10000, 20000, 30000):
        inner[max(joint - 3, 0) : joint + 4] = False
    assert closest_bend(line)[0] == pytest.approx(1.0 / bend[inner].max(), rel=0.02)


def test_a_cusp_bends_at_no_radius_at_all() -> None:
    """A cubic that turns on the spot half-way answers nought."""
    c = np.zeros((4, 2, 1, 1))
    c[1, :, 0, 0], c[2, :, 0, 0], c[3, :, 0, 0] = (100.0, 100.0), (0.0, 100.0), (100.0, 0.0)
    assert closest_bend(Curve(c))[0] == 0.0

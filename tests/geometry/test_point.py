"""Points and what is laid off from them, against closed forms and shapely."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString
from shapely import Point as ShapelyPoint
from shapely.affinity import rotate as shapely_rotate

from tapewright.geometry import (
    Vector,
    Why,
    between,
    corner,
    corner_point,
    direction,
    displacement,
    distance,
    fixed,
    foot,
    midpoint,
    mirrored,
    moved,
    polar,
    rotated,
    side,
    toward,
    turning,
    unit,
)
from tests.geometry.cases import angles, at_place, lengths, one, places

few = settings(max_examples=60)


@few
@given(places, places)
def test_distance_is_pythagoras(a: tuple[float, float], b: tuple[float, float]) -> None:
    """The straight distance is that of the standard library's math.dist."""
    assert distance(at_place(a), at_place(b))[0] == pytest.approx(math.dist(a, b), rel=1e-15, abs=1e-12)


@few
@given(places, places, st.floats(-1.0, 2.0))
def test_between_and_midpoint(a: tuple[float, float], b: tuple[float, float], part: float) -> None:
    """A fraction of the way is linear, exact at both ends; half-way is the midpoint."""
    p, q = at_place(a), at_place(b)
    here = between(p, q, one(part))
    assert here.x[0] == pytest.approx(a[0] + (b[0] - a[0]) * part, abs=1e-9)
    assert between(p, q, one(0.0)).x[0] == a[0]
    assert between(p, q, one(1.0)).y[0] == b[1]
    assert midpoint(p, q).y[0] == pytest.approx((a[1] + b[1]) / 2, abs=1e-12)


@few
@given(places, places)
def test_a_displacement_leads_there(a: tuple[float, float], b: tuple[float, float]) -> None:
    """p moved by the way from p to q is q."""
    p, q = at_place(a), at_place(b)
    there = moved(p, displacement(p, q))
    assert distance(there, q)[0] < 1e-12


def test_down_the_paper_is_positive() -> None:
    """A quarter turn from the x axis points down, and a growing angle turns clockwise as the paper is seen."""
    down = polar(fixed(0.0, 0.0), one(math.pi / 2), one(10.0))
    assert (down.x[0], down.y[0]) == (pytest.approx(0.0, abs=1e-12), 10.0)
    right_hand = side(fixed(5.0, 3.0), fixed(0.0, 0.0), fixed(10.0, 0.0))
    assert right_hand[0] == 3.0
    assert unit(one(0.0)).dx[0] == 1.0


@few
@given(places, places, lengths)
def test_toward_lies_at_the_length_on_the_ray(
    a: tuple[float, float], b: tuple[float, float], far: float
) -> None:
    """The point toward q lies at the length asked, and in q's direction."""
    assume(math.dist(a, b) > 0.01)
    p, q = at_place(a), at_place(b)
    found = toward(p, q, one(far))
    assert found.ok[0]
    assert found.why[0] == Why.NOTHING
    assert distance(p, found.value)[0] == pytest.approx(far, abs=1e-9)
    assert abs(side(found.value, p, q)[0]) < 1e-6


@few
@given(places, places, angles)
def test_rotation_is_that_of_shapely(a: tuple[float, float], b: tuple[float, float], by: float) -> None:
    """Turned about a pivot, against shapely.affinity.rotate (whose y goes up, so the same formula)."""
    got = rotated(at_place(a), at_place(b), one(by))
    want = shapely_rotate(ShapelyPoint(a), by, origin=b, use_radians=True)
    assert got.x[0] == pytest.approx(want.x, abs=1e-9)
    assert got.y[0] == pytest.approx(want.y, abs=1e-9)


@few
@given(places, places, places)
def test_the_foot_is_the_nearest_point_of_the_line(
    c: tuple[float, float], a: tuple[float, float], b: tuple[float, float]
) -> None:
    """The foot of the perpendicular, against shapely's distance to a segment long enough to hold it."""
    assume(math.dist(a, b) > 1.0)
    f = foot(at_place(c), at_place(a), at_place(b))
    ux, uy = (b[0] - a[0]) / math.dist(a, b), (b[1] - a[1]) / math.dist(a, b)
    long = LineString([(a[0] - 1e4 * ux, a[1] - 1e4 * uy), (a[0] + 1e4 * ux, a[1] + 1e4 * uy)])
    assert abs(f.away[0]) == pytest.approx(long.distance(ShapelyPoint(c)), abs=1e-7)
    assert f.along[0] == pytest.approx(long.project(ShapelyPoint(c)) - 1e4, abs=1e-7)
    assert math.hypot(f.point.x[0] - c[0], f.point.y[0] - c[1]) == pytest.approx(abs(f.away[0]), abs=1e-9)


@few
@given(places, places, places)
def test_turned_over_twice_is_where_it_was(
    c: tuple[float, float], a: tuple[float, float], b: tuple[float, float]
) -> None:
    """A mirror undoes itself, and the line between bisects the way across."""
    assume(math.dist(a, b) > 1.0)
    p, q, r = at_place(a), at_place(b), at_place(c)
    once = mirrored(r, p, q).value
    assert distance(mirrored(once, p, q).value, r)[0] < 1e-6
    assert abs(side(midpoint(once, r), p, q)[0]) < 1e-6


@few
@given(places, places, places)
def test_the_corner_is_the_angle_between_its_arms(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]
) -> None:
    """The unsigned corner, against the arc cosine of numpy's normalised dot product; signed it turns arm on arm."""
    u, v = np.subtract(a, b), np.subtract(c, b)
    assume(min(np.linalg.norm(u), np.linalg.norm(v)) > 1.0)
    found = corner(at_place(a), at_place(b), at_place(c))
    cosine = np.clip(u @ v / np.linalg.norm(u) / np.linalg.norm(v), -1.0, 1.0)
    assert math.cos(found.value[0]) == pytest.approx(cosine, abs=1e-9)
    signed = turning(at_place(a), at_place(b), at_place(c)).value
    onto = rotated(at_place(a), at_place(b), signed)
    assert abs(side(onto, at_place(b), at_place(c))[0]) < 1e-6


def test_into_the_corner_lies_half_way_between_the_arms() -> None:
    """Two inches into a square corner lie as far from one arm as from the other, at 45 degrees (closed form)."""
    found = corner_point(fixed(0.0, 100.0), fixed(0.0, 0.0), fixed(70.0, 0.0), one(50.8))
    assert found.ok[0]
    assert found.value.x[0] == pytest.approx(50.8 / math.sqrt(2.0), abs=1e-12)
    assert found.value.y[0] == pytest.approx(50.8 / math.sqrt(2.0), abs=1e-12)


def test_a_flat_corner_has_no_inside() -> None:
    """Arms in one line: not ok, flat. Arms lying together: the point lies along them."""
    flat = corner_point(fixed(-10.0, 0.0), fixed(0.0, 0.0), fixed(20.0, 0.0), one(5.0))
    assert not flat.ok[0]
    assert flat.why[0] == Why.FLAT
    shut = corner_point(fixed(10.0, 0.0), fixed(0.0, 0.0), fixed(20.0, 0.0), one(5.0))
    assert (shut.value.x[0], shut.value.y[0]) == (5.0, 0.0)


def test_one_point_has_no_direction() -> None:
    """Coincident points are not ok, with their reason and a finite stand-in, in every function that needs two."""
    p, q = fixed(3.0, 4.0), fixed(3.0, 4.0 + 1e-5)
    other = fixed(10.0, 10.0)
    for found in (
        toward(p, q, one(5.0)),
        direction(p, q),
        mirrored(other, p, q),
        corner(p, q, other),
        turning(other, p, q),
        corner_point(other, p, q, one(1.0)),
    ):
        assert not found.ok[0]
        assert found.why[0] == Why.SAME_POINT
    assert foot(other, p, q).why[0] == Why.SAME_POINT
    assert side(other, p, q)[0] == 0.0


def test_rows_are_taken_each_by_itself() -> None:
    """Two rows, one with a direction and one without: each has its own answer."""
    p = moved(fixed(0.0, 0.0, 2), Vector(one(0.0, 0.0), one(0.0, 0.0)))
    q = moved(p, Vector(one(0.0, 3.0), one(0.0, 4.0)))
    found = direction(p, q)
    assert found.ok.tolist() == [False, True]
    assert found.value.tolist() == [0.0, pytest.approx(math.atan2(4.0, 3.0))]

"""Outlines: area, inside and outside, and crossing themselves, against shapely and closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LinearRing, Polygon
from shapely import Point as ShapelyPoint

from tapewright.geometry import (
    Arc,
    Curve,
    Drawn,
    Point,
    Stretch,
    arc_curve,
    area,
    backward,
    crosses_itself,
    fixed,
    offset,
    spline,
    straight,
    winding,
)
from tests.geometry.cases import NECK, SCYE, curve, knots, one, samples

few = settings(max_examples=40)
places = st.tuples(st.floats(-200.0, 200.0), st.floats(-200.0, 200.0)).map(
    lambda p: (round(p[0], 3), round(p[1], 3))
)
scye = curve(SCYE)


def _block() -> list[Drawn]:
    """A back: scye, side, waist, centre back and neck, the scye run backwards from a longer curve."""
    return [
        straight(fixed(110.0, 178.0), fixed(120.0, 380.0)),
        straight(fixed(120.0, 380.0), fixed(-150.0, 380.0)),
        straight(fixed(-150.0, 380.0), fixed(-150.0, -20.0)),
        spline(knots([(-150.0, -20.0), (-100.0, -25.0), (-80.0, -40.0)])).curve,
        straight(fixed(-80.0, -40.0), fixed(0.0, 0.0)),
        Stretch(curve(SCYE[::-1]), one(4.0), one(0.0)),
    ]


def _ring(outline: list[Drawn], fine: int = 2001) -> list[tuple[float, float]]:
    return [tuple(p) for drawn in outline for p in samples(drawn, fine)]


def test_the_area_of_a_block_is_shapelys() -> None:
    """Against shapely's area of the sampled outline; sign by the way it is run."""
    block = _block()
    polygon = Polygon(_ring(block))
    assert abs(area(block)[0]) == pytest.approx(polygon.area, rel=1e-6)
    turned = [backward(drawn) for drawn in reversed(block)]
    assert area(turned)[0] == pytest.approx(-area(block)[0])


def test_areas_in_closed_form() -> None:
    """A square run clockwise on the paper is positive; a circle is pi r squared; a segment of it by its formula."""
    square: list[Drawn] = [
        straight(fixed(0.0, 0.0), fixed(10.0, 0.0)),
        straight(fixed(10.0, 0.0), fixed(10.0, 10.0)),
        straight(fixed(10.0, 10.0), fixed(0.0, 10.0)),
    ]
    assert area(square)[0] == 100.0
    circle = arc_curve(Arc(fixed(3.0, 4.0), one(100.0), one(0.0), one(math.tau)))
    assert area([circle])[0] == pytest.approx(math.pi * 1e4, rel=1e-7)
    bow = arc_curve(Arc(fixed(0.0, 0.0), one(100.0), one(0.0), one(1.0)))
    assert area([bow])[0] == pytest.approx(0.5 * 1e4 * (1.0 - math.sin(1.0)), rel=1e-7)
    assert area([straight(fixed(5.0, 5.0), fixed(5.0, 5.0))])[0] == 0.0


@few
@given(places)
def test_inside_is_inside(place: tuple[float, float]) -> None:
    """Round a point of the block the outline winds once, round others not at all: shapely's contains."""
    block = _block()
    polygon = Polygon(_ring(block, 401))
    assume(polygon.exterior.distance(ShapelyPoint(place)) > 0.01)
    want = polygon.contains(ShapelyPoint(place))
    assert abs(winding(block, fixed(*place))[0]) == int(want)
    assert (
        winding([backward(d) for d in reversed(block)], fixed(*place))[0] == -winding(block, fixed(*place))[0]
    )


def test_once_round_is_one_and_twice_is_two() -> None:
    """A circle run twice winds twice; clockwise on the paper is positive, as is its area."""
    twice = arc_curve(Arc(fixed(0.0, 0.0), one(10.0), one(0.0), one(2 * math.tau)))
    once = arc_curve(Arc(fixed(0.0, 0.0), one(10.0), one(0.0), one(math.tau)))
    assert winding([twice], fixed(1.0, 1.0))[0] == 2
    assert winding([once], fixed(1.0, 1.0))[0] == 1
    assert winding([backward(once)], fixed(1.0, 1.0))[0] == -1


def test_a_sound_block_does_not_cross_itself() -> None:
    """Neither a block nor its parallel outlines' lines, nor one whose dart has come to nothing."""
    assert not crosses_itself(_block()).crosses[0]
    closed_dart: list[Drawn] = [
        straight(fixed(0.0, 0.0), fixed(50.0, 0.0)),
        straight(fixed(50.0, 0.0), fixed(50.0, 60.0)),
        straight(fixed(50.0, 60.0), fixed(50.0, 0.0)),
        straight(fixed(50.0, 0.0), fixed(100.0, 0.0)),
        straight(fixed(100.0, 0.0), fixed(100.0, 100.0)),
        straight(fixed(100.0, 100.0), fixed(0.0, 100.0)),
    ]
    assert not crosses_itself(closed_dart).crosses[0]
    assert not crosses_itself([straight(fixed(0.0, 0.0), fixed(0.0, 0.0))]).crosses[0]


def test_a_crossed_outline_says_where_and_which() -> None:
    """Legs of a dart that cross: the place by closed form, the two lines by their number."""
    bad: list[Drawn] = [
        straight(fixed(0.0, 0.0), fixed(100.0, 0.0)),
        straight(fixed(100.0, 0.0), fixed(100.0, 100.0)),
        straight(fixed(100.0, 100.0), fixed(40.0, -20.0)),
        straight(fixed(40.0, -20.0), fixed(0.0, 50.0)),
    ]
    tangle = crosses_itself(bad)
    assert tangle.crosses[0]
    assert (tangle.first[0], tangle.second[0]) == (0, 2)
    assert (tangle.x[0], tangle.y[0]) == (pytest.approx(50.0), pytest.approx(0.0))


@few
@given(st.lists(places, min_size=4, max_size=7, unique=True))
def test_crossing_is_as_in_shapely(through: list[tuple[float, float]]) -> None:
    """A closed curve through random points is simple just when shapely's densely sampled ring is."""
    solved = spline(knots([*through, through[0]]))
    assume(solved.ok[0])
    ring = samples(solved.curve, 3001)
    simple = LinearRing(ring).is_simple
    tangle = crosses_itself([solved.curve])
    if tangle.crosses[0] == simple:
        # The two may part where the ring only just touches itself, or turns on the spot.
        shrunk = [offset(solved.curve, one(by)).curve for by in (0.02, -0.02)]
        assert any(LinearRing(samples(c, 3001)).is_simple != simple for c in shrunk)


def test_a_loop_in_one_segment_is_a_crossing() -> None:
    """A cubic that crosses itself: its double point by symmetry (closed form)."""
    c = np.zeros((4, 2, 1, 1))
    c[1, :, 0, 0], c[2, :, 0, 0], c[3, :, 0, 0] = (160.0, 100.0), (-60.0, 100.0), (100.0, 0.0)
    tangle = crosses_itself([Curve(c)])
    assert tangle.crosses[0]
    assert tangle.x[0] == pytest.approx(50.0)
    p = samples(Curve(c), 20001)
    assert np.hypot(p[:, 0] - tangle.x[0], p[:, 1] - tangle.y[0]).min() < 0.02
    assert not LinearRing([*p[::20]]).is_simple


def test_rows_cross_each_for_itself() -> None:
    """One row's dart legs cross, another's do not."""
    tip = Point(one(50.0, 50.0), one(30.0, -30.0))
    outline: list[Drawn] = [
        straight(fixed(0.0, 0.0, 2), fixed(100.0, 0.0, 2)),
        straight(fixed(100.0, 0.0, 2), fixed(100.0, 100.0, 2)),
        straight(fixed(100.0, 100.0, 2), tip),
        straight(tip, fixed(0.0, 100.0, 2)),
    ]
    assert crosses_itself(outline).crosses.tolist() == [False, True]
    assert len(NECK) == 4

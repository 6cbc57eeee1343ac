"""Parallels: every place of one lies at the distance asked, which is the law; shapely's buffer is a second witness."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from tapewright.geometry import (
    Arc,
    Array,
    Curve,
    Drawn,
    Mask,
    Point,
    Stretch,
    Why,
    arc_curve,
    at,
    backward,
    closest_bend,
    distance,
    end_point,
    fixed,
    joined,
    length,
    nearest,
    offset,
    offsets,
    side,
    spline,
    start_point,
    straight,
    tangent,
)
from tests.geometry.cases import SCYE, curve, knots, one, random_curve, random_stretch, samples

scye = curve(SCYE)


def _strays(drawn: Drawn, by: Array, per_piece: int = 4) -> tuple[Array, Mask]:
    """How far places of the parallel stray from the distance, at worst in each row; and where it is tight."""
    line = offset(drawn, by)
    worst: Array = np.zeros(by.shape)
    for k in range(line.curve.segments):
        for u in (np.arange(per_piece) + 0.5) / per_piece:
            here = at(line.curve, np.full(by.shape, k + u))
            worst = np.maximum(worst, np.abs(nearest(drawn, here).distance - np.abs(by)))
    tight: Mask = np.logical_or.reduce(line.tight, axis=0)
    return worst, tight


@pytest.mark.parametrize("by", [4.0, 10.0, 15.0, 25.0])
@pytest.mark.parametrize("hand", [1.0, -1.0])
def test_every_place_lies_at_the_distance(by: float, hand: float) -> None:
    """On scyes drawn with a random hand: within 0.01 mm outside bends over 3 mm, commonly within 0.0001 mm."""
    rng = np.random.default_rng(11)
    line = random_curve(rng, 60, SCYE, 6.0)
    rows = np.full(60, by * hand)
    strays, tight = _strays(line, rows)
    fair = (closest_bend(line) > 3.0) & ~tight & (closest_bend(line) > (by * 1.05 if tight.any() else 0.0))
    assert fair.sum() > 10
    assert strays[fair].max() < 0.01
    assert np.median(strays[fair]) < 1e-4


def test_a_circle_has_its_closed_form() -> None:
    """The parallel of an arc is the arc of the other radius: within 0.00001 mm, both ends exact."""
    arc = arc_curve(Arc(fixed(0.0, 0.0), one(80.0), one(0.0), one(2.0)))
    for by in (12.0, -12.0):
        line = offset(arc, one(by)).curve
        # Run clockwise, so the right hand is inside.
        assert np.abs(np.hypot(*samples(line, 2001).T) - (80.0 - by)).max() < 1e-5
        assert end_point(line).x[0] == pytest.approx((80.0 - by) * math.cos(2.0), abs=1e-9)


def test_a_straight_line_moves_over() -> None:
    """To the right hand of one walking along it, as a straight line; a line of no length has no side."""
    line = offset(straight(fixed(0.0, 0.0), fixed(100.0, 0.0)), one(10.0))
    assert line.curve.is_straight
    assert (start_point(line.curve).x[0], start_point(line.curve).y[0]) == (0.0, 10.0)
    back = offset(Stretch(straight(fixed(0.0, 0.0), fixed(100.0, 0.0)), one(0.75), one(0.25)), one(10.0))
    assert (start_point(back.curve).x[0], start_point(back.curve).y[0]) == (75.0, -10.0)
    nothing = offset(straight(fixed(1.0, 1.0), fixed(1.0, 1.0)), one(10.0))
    assert (nothing.ok[0], nothing.why[0]) == (False, Why.SAME_POINT)
    assert offset(Stretch(scye, one(1.2), one(1.2)), one(10.0)).why[0] == Why.SAME_POINT


def test_it_runs_as_the_line_runs() -> None:
    """Ends lie square off the ends, tangents are the line's own, and the hand is the right one."""
    line = offset(scye, one(12.0)).curve
    for t in (0.0, 1.0, 2.5, 4.0):
        here, there = at(scye, one(t)), at(line, one(8.0 * t))
        way, other = tangent(scye, one(t)), tangent(line, one(8.0 * t))
        assert distance(here, there)[0] == pytest.approx(12.0, abs=1e-9)
        assert way.dx[0] * other.dx[0] + way.dy[0] * other.dy[0] == pytest.approx(1.0, abs=1e-9)
        ahead = Point(here.x + way.dx, here.y + way.dy)
        assert side(there, here, ahead)[0] == pytest.approx(12.0, abs=1e-9)


def test_a_trimmed_line_has_a_trimmed_parallel() -> None:
    """Of a piece, either way run: rows by the law, and one line without tears; segments off it have no length."""
    rng = np.random.default_rng(12)
    whole = random_curve(rng, 40, SCYE, 4.0)
    piece = random_stretch(rng, whole)
    by = np.full(40, 8.0)
    line = offset(piece, by)
    long = length(piece) > 1.0
    strays, tight = _strays(piece, by)
    fair = long & ~tight & (closest_bend(whole) > 3.0)
    assert strays[fair].max() < 0.01
    c = line.curve.ctrl
    assert np.abs(c[3, :, :-1] - c[0, :, 1:])[..., fair].max() < 1e-6
    assert (line.ok == (length(piece) > 1e-3)).all()
    there, back = offset(piece, by), offset(backward(piece), -by)
    assert np.abs(length(there.curve) - length(back.curve)).max() < 1e-6


def test_shapelys_buffer_agrees() -> None:
    """The area between scye and parallel is that of shapely's one-sided buffer, within 0.02 per cent."""
    for by in (10.0, -10.0):
        line = offset(scye, one(by)).curve
        ours = Polygon([*samples(scye, 4001), *samples(line, 4001)[::-1]]).area
        fine = LineString(samples(scye, 4001))
        theirs = fine.buffer(by, single_sided=True, quad_segs=64).area
        assert ours == pytest.approx(theirs, rel=2e-4)
        rim = LineString(samples(line, 2001))
        assert abs(rim.distance(ShapelyPoint(samples(scye, 3)[1])) - 10.0) < 1e-3


def test_several_in_one_go_are_what_each_is_alone() -> None:
    """Parallels of a curve, a straight line and a piece, at a distance each: bit for bit those asked one by one."""
    lines: list[Drawn] = [
        scye,
        straight(fixed(0.0, 0.0), fixed(10.0, 5.0)),
        Stretch(scye, one(3.5), one(0.25)),
    ]
    by = [one(10.0), one(-4.0), one(15.0)]
    for together, line, far in zip(offsets(lines, by), lines, by, strict=True):
        assert (together.curve.ctrl == offset(line, far).curve.ctrl).all()
        assert (together.tight == offset(line, far).tight).all()


def test_where_it_is_tighter_than_its_own_bend_it_says_so() -> None:
    """Inside an arc of 20 mm a distance of 30 mm is tight all along and 10 mm nowhere; outside never (closed form)."""
    arc = arc_curve(Arc(fixed(0.0, 0.0), one(20.0), one(0.0), one(2.0)))
    assert offset(arc, one(30.0)).tight.all()
    assert not offset(arc, one(10.0)).tight.any()
    assert not offset(arc, one(-30.0)).tight.any()
    bend = joined([arc, arc_curve(Arc(fixed(-100.0, 0.0), one(100.0), one(0.0), one(0.5)))])
    partly = offset(bend, one(50.0)).tight[:, 0]
    assert partly[: 24 * 8].all()
    assert not partly[24 * 8 :].any()


def test_handles_of_no_length_do_not_upset_it() -> None:
    """A segment whose control points lie on its ends stands still there: the parallel is still at the distance."""
    c = np.zeros((4, 2, 1, 1))
    c[2, :, 0, 0], c[3, :, 0, 0] = (60.0, 40.0), (120.0, 0.0)
    strays, tight = _strays(Curve(c), one(10.0))
    assert not tight[0]
    assert strays[0] < 0.01
    # Where it stands still it bends at no radius at all: on the inner hand the parallel starts past its cusp.
    assert offset(Curve(c), one(-10.0)).tight[:, 0].tolist() == [True] + [False] * 7
    ruled = spline(knots([(0.0, 0.0), (60.0, 0.0), (120.0, 0.0)])).curve
    flat = offset(ruled, one(10.0)).curve
    assert np.abs(samples(flat, 50)[:, 1] - 10.0).max() < 1e-9

"""Curves, trimmed curves and arcs, against fontTools, scipy and closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from fontTools.misc.bezierTools import splitCubicAtT  # type: ignore[import-untyped]
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import BPoly

from tapewright.geometry import (
    Arc,
    Curve,
    Stretch,
    Why,
    arc_about,
    arc_between,
    arc_curve,
    arc_length,
    arc_parameter,
    arc_through,
    at,
    backward,
    bent_arc,
    bent_end,
    circle_through,
    cubics,
    curvature,
    distance,
    end_point,
    fixed,
    joined,
    length,
    on_circle,
    start_point,
    straight,
    tangent,
    trimmed,
    turned_from,
    whole,
)
from tests.geometry.cases import SCYE, angles, curve, one

few = settings(max_examples=40)
scye = curve(SCYE)
parameters = st.floats(0.0, 4.0).map(lambda t: round(t, 6))


def _bernstein(row: int = 0) -> BPoly:
    """The scye as scipy's piecewise Bernstein polynomial."""
    return BPoly(scye.ctrl[..., row].transpose(0, 2, 1), np.arange(5.0))


@few
@given(parameters)
def test_places_slopes_and_bends_are_those_of_scipy(t: float) -> None:
    """Point, unit tangent and curvature, against scipy.interpolate.BPoly and its derivatives."""
    poly = _bernstein()
    x, y = poly(t)
    p = at(scye, one(t))
    assert (p.x[0], p.y[0]) == (pytest.approx(x, abs=1e-10), pytest.approx(y, abs=1e-10))
    d1, d2 = poly.derivative()(t), poly.derivative(2)(t)
    v = tangent(scye, one(t))
    assert (v.dx[0], v.dy[0]) == (pytest.approx(d1[0] / np.hypot(*d1)), pytest.approx(d1[1] / np.hypot(*d1)))
    bend = (d1[0] * d2[1] - d1[1] * d2[0]) / np.hypot(*d1) ** 3
    assert curvature(scye, one(t))[0] == pytest.approx(bend, abs=1e-10)


@few
@given(parameters, parameters)
def test_a_trimmed_line_is_exactly_that_piece(t0: float, t1: float) -> None:
    """Trimmed, against fontTools' splitCubicAtT, segment by segment; it runs the way it was asked."""
    piece = Stretch(scye, one(t0), one(t1))
    got = cubics(piece, 0)
    low, high = min(t0, t1), max(t0, t1)
    want = []
    for k in range(4):
        a, b = np.clip([low - k, high - k], 0.0, 1.0)
        if b > a:
            parts = splitCubicAtT(*[tuple(c) for c in scye.ctrl[:, :, k, 0]], a, b)
            want.append(parts[1])
    wanted = np.array(want).reshape(-1, 4, 2)
    if t0 > t1:
        wanted = wanted[::-1, ::-1]
    wanted = wanted[np.abs(wanted - wanted[:, :1]).max(axis=(1, 2), initial=0.0) > 1e-4]
    assert got.shape == wanted.shape
    assert np.abs(got - wanted).max(initial=0.0) < 1e-9


@few
@given(parameters, parameters)
def test_a_trimmed_line_stays_one_line(t0: float, t1: float) -> None:
    """Segments outside the piece have no length and lie at its ends, so that nothing tears."""
    c = trimmed(Stretch(scye, one(t0), one(t1))).ctrl
    assert np.abs(c[3, :, :-1] - c[0, :, 1:]).max() < 1e-9
    start, end = at(scye, one(t0)), at(scye, one(t1))
    assert np.abs(c[0, :, 0, 0] - [start.x[0], start.y[0]]).max() < 1e-9
    assert np.abs(c[3, :, -1, 0] - [end.x[0], end.y[0]]).max() < 1e-9


def test_backward_runs_the_other_way() -> None:
    """A curve run backwards has its parameter from the other end; a piece keeps the curve's own."""
    back = backward(scye)
    assert distance(at(back, one(1.25)), at(scye, one(2.75)))[0] < 1e-10
    piece = Stretch(scye, one(3.0), one(1.0))
    assert distance(start_point(piece), at(scye, one(3.0)))[0] == 0.0
    assert distance(end_point(backward(piece)), at(scye, one(3.0)))[0] == 0.0
    forward, reverse = tangent(Stretch(scye, one(1.0), one(3.0)), one(2.0)), tangent(piece, one(2.0))
    assert reverse.dx[0] == -forward.dx[0]
    assert curvature(piece, one(2.0))[0] == -curvature(scye, one(2.0))[0]


def test_beyond_its_parameters_a_curve_answers_with_its_ends() -> None:
    """Parameters off the curve are read as its nearer end."""
    assert distance(at(scye, one(-3.0)), start_point(scye))[0] == 0.0
    assert distance(at(scye, one(9.0)), end_point(scye))[0] == 0.0


def test_a_tangent_is_sound_where_control_points_lie_together() -> None:
    """At a start whose handle has no length the line moves off toward the next control point; at the end likewise.

    Closed form: the limit of the direction of travel.
    """
    p = np.zeros((4, 2, 1, 1))
    p[2, :, 0, 0], p[3, :, 0, 0] = (30.0, 40.0), (100.0, 0.0)
    away = tangent(Curve(p), one(0.0))
    assert (away.dx[0], away.dy[0]) == (pytest.approx(0.6), pytest.approx(0.8))
    p[2] = p[3]
    home = tangent(Curve(p), one(1.0))
    assert (home.dx[0], home.dy[0]) == (pytest.approx(1.0), pytest.approx(0.0))
    nowhere = tangent(Curve(p * 0.0), one(0.5))
    assert (nowhere.dx[0], nowhere.dy[0]) == (1.0, 0.0)
    assert curvature(Curve(p * 0.0), one(0.5))[0] == 0.0


def test_a_point_exports_nothing() -> None:
    """A line of no length gives an exporter no cubics."""
    assert cubics(Stretch(scye, one(1.5), one(1.5)), 0).shape == (0, 4, 2)
    assert cubics(straight(fixed(1.0, 1.0), fixed(1.0, 1.0)), 0).shape == (0, 4, 2)


def test_joined_lines_follow_one_another() -> None:
    """The parameter runs on from one curve to the next; a whole curve is a stretch of itself."""
    line = joined([scye, straight(end_point(scye), fixed(300.0, 178.0))])
    assert line.segments == 5
    assert distance(at(line, one(4.5)), fixed((110.0 + 300.0) / 2, 178.0))[0] < 1e-9
    everything = whole(line)
    assert (everything.start[0], everything.end[0]) == (0.0, 5.0)
    assert whole(everything) is everything
    assert joined([scye]) is scye


def test_an_arc_is_true_to_a_hundred_thousandth_of_a_millimetre() -> None:
    """The curve of a whole circle of 1 m keeps its radius to 0.00001 mm (closed form: the circle)."""
    arc = Arc(fixed(12.0, -7.0), one(1000.0), one(0.3), one(math.tau))
    line = arc_curve(arc)
    t = np.linspace(0.0, 24.0, 2401)
    index = np.minimum(t.astype(int), 23)
    u = t - index
    c = line.ctrl[..., index, 0]
    x, y = (1 - u) ** 3 * c[0] + 3 * u * (1 - u) ** 2 * c[1] + 3 * u**2 * (1 - u) * c[2] + u**3 * c[3]
    assert np.abs(np.hypot(x - 12.0, y + 7.0) - 1000.0).max() < 1e-5
    assert length(line)[0] == pytest.approx(math.tau * 1000.0, abs=1e-4)
    assert arc_length(arc)[0] == pytest.approx(math.tau * 1000.0)


@few
@given(angles, st.floats(-6.2, 6.2).map(lambda v: round(v, 6)), st.floats(0.0, 1.0))
def test_the_parameter_of_an_arc_is_that_of_its_curve(start: float, turn: float, part: float) -> None:
    """Where the arc passes an angle its curve passes the parameter: within 0.00001 mm on a radius of 1 m."""
    arc = Arc(fixed(0.0, 0.0), one(1000.0), one(start), one(turn))
    angle = one(start + turn * part)
    here = at(arc_curve(arc), arc_parameter(arc, angle))
    assert distance(here, on_circle(arc, angle))[0] < 1e-5


def test_an_angle_off_the_arc_answers_with_the_nearer_end() -> None:
    """Off the arc the parameter is that of the end, and how far it has turned says by how much it missed."""
    arc = Arc(fixed(0.0, 0.0), one(100.0), one(0.0), one(1.0))
    assert arc_parameter(arc, one(1.5))[0] == 24.0
    assert arc_parameter(arc, one(-0.5 - math.tau))[0] == 0.0
    assert turned_from(arc, one(1.5 + 2 * math.tau))[0] == pytest.approx(1.5)
    nothing = Arc(fixed(0.0, 0.0), one(100.0), one(0.0), one(0.0))
    assert arc_parameter(nothing, one(1.0))[0] == 0.0


def test_three_points_make_a_circle() -> None:
    """A circle through three of its own points (closed form), an arc that passes the middle one, and the failures."""
    a, b, c = (
        on_circle(Arc(fixed(5.0, 6.0), one(70.0), one(0.0), one(0.0)), one(w)) for w in (0.2, -1.0, -3.0)
    )
    circle = circle_through(a, b, c)
    assert circle.ok[0]
    assert circle.value.radius[0] == pytest.approx(70.0, abs=1e-9)
    assert distance(circle.value.centre, fixed(5.0, 6.0))[0] < 1e-9
    arc = arc_through(a, b, c).value
    assert arc.turn[0] == pytest.approx(-3.2, abs=1e-9)
    assert distance(end_point(arc_curve(arc)), c)[0] < 1e-9
    in_a_row = circle_through(fixed(0.0, 0.0), fixed(1.0, 1.0), fixed(3.0, 3.0))
    assert in_a_row.why[0] == Why.FLAT
    assert circle_through(a, a, c).why[0] == Why.SAME_POINT
    assert arc_through(a, a, c).value.turn[0] == 0.0


def test_a_sweep_starts_at_its_point() -> None:
    """An arc about a centre from a point through an angle, or to a direction by either way round."""
    centre, p, q = fixed(0.0, 0.0), fixed(10.0, 0.0), fixed(0.0, 30.0)
    quarter = arc_about(centre, p, one(math.pi / 2))
    assert distance(end_point(arc_curve(quarter)), fixed(0.0, 10.0))[0] < 1e-9
    assert arc_between(centre, p, q).turn[0] == pytest.approx(math.pi / 2)
    assert arc_between(centre, p, q, clockwise=False).turn[0] == pytest.approx(-3 * math.pi / 2)
    assert arc_between(centre, q, p, clockwise=True).turn[0] == pytest.approx(3 * math.pi / 2)


@few
@given(
    angles, st.floats(-6.2, 6.2).map(lambda v: round(v, 6)), st.floats(1.0, 1000.0).map(lambda v: round(v, 3))
)
def test_a_bent_line_is_an_arc_of_its_length(way: float, turn: float, long: float) -> None:
    """Of given length and turn: as long as asked, ending as it should, and on its circle (closed form)."""
    line = bent_arc(fixed(3.0, 4.0), one(way), one(long), one(turn))
    assert length(line)[0] == pytest.approx(long, abs=1e-5)
    assert distance(end_point(line), bent_end(fixed(3.0, 4.0), one(way), one(long), one(turn)))[0] < 1e-9
    off = tangent(line, one(0.0)), tangent(line, one(24.0))
    assert (off[0].dx[0], off[0].dy[0]) == (pytest.approx(math.cos(way)), pytest.approx(math.sin(way)))
    assert (off[1].dx[0], off[1].dy[0]) == (
        pytest.approx(math.cos(way + turn)),
        pytest.approx(math.sin(way + turn)),
    )
    if abs(turn) > 0.01:
        radius = long / turn
        centre = (3.0 - radius * math.sin(way), 4.0 + radius * math.cos(way))
        for t in (5.3, 12.0, 20.7):
            p = at(line, one(t))
            assert math.dist((p.x[0], p.y[0]), centre) == pytest.approx(
                abs(radius), abs=1e-5 * max(1.0, abs(radius) / 1e3)
            )


def test_a_line_bent_by_nothing_is_straight() -> None:
    """A turn of nought is no centre at infinity but the straight line; no length is one point."""
    line = bent_arc(fixed(0.0, 0.0), one(0.0), one(100.0), one(0.0))
    assert np.abs(line.ctrl[:, 1]).max() == 0.0
    assert (end_point(line).x[0], length(line)[0]) == (pytest.approx(100.0), pytest.approx(100.0))
    assert length(bent_arc(fixed(0.0, 0.0), one(0.0), one(0.0), one(1.0)))[0] == 0.0

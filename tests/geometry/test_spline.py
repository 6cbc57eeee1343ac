"""Bounded Hobby splines, against what Hobby published and the laws his curves obey."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tapewright.geometry import (
    Array,
    Point,
    Why,
    closest_bend,
    curvature,
    fixed,
    length,
    rotated,
    spline,
    tangent,
)
from tests.geometry.cases import NECK, SCYE, knots, one

few = settings(max_examples=60)
places = st.tuples(st.floats(-300.0, 300.0), st.floats(-300.0, 300.0)).map(
    lambda p: (round(p[0], 3), round(p[1], 3))
)
routes = st.lists(places, min_size=3, max_size=6, unique=True)
small = st.floats(-3.0, 3.0).map(lambda a: round(a, 6))


def _ctrl(through: list[tuple[float, float]], **options: object) -> Array:
    """The control points of one row, `(segments, 4, 2)`."""
    return np.asarray(spline(knots(through), **options).curve.ctrl[..., 0].transpose(2, 0, 1))  # type: ignore[arg-type]


def test_hobbys_own_example_of_five_points() -> None:
    """Through (0,0) (60,40) (40,90) (10,70) (30,50), control points to a tenth as Hobby printed them.

    J. D. Hobby, AT&T Computing Science Technical Report 162 (1992), his second worked example; from memory.
    """
    want = [
        [(26.8, -1.8), (51.4, 14.6)],
        [(67.1, 61.0), (59.8, 84.6)],
        [(25.4, 94.0), (10.5, 84.5)],
        [(9.6, 58.8), (18.8, 49.6)],
    ]
    got = _ctrl([(0, 0), (60, 40), (40, 90), (10, 70), (30, 50)])[:, 1:3]
    assert np.abs(got - want).max() < 0.06


def test_a_quarter_circle_has_hobbys_handle() -> None:
    """The handle of a quarter circle is 0.5523 of the radius: 8/3 / (2 + sqrt 2) less 1 ... by his formula.

    J. D. Hobby, "Smooth, easy to compute interpolating splines" (1986): f(45, 45) = 2 / (1 + cos 45), an arm of a
    third of that over the chord.
    """
    got = spline([fixed(100.0, 0.0), fixed(0.0, 100.0)], {0: one(math.pi / 2), 1: one(math.pi)}).curve.ctrl[
        ..., 0, 0
    ]
    handle = 100.0 * math.sqrt(2.0) * 2.0 / (1.0 + math.cos(math.pi / 4)) / 3.0
    assert got[1, 1] == pytest.approx(handle, abs=1e-9)
    assert got[2, 0] == pytest.approx(handle, abs=1e-9)
    assert handle == pytest.approx(55.23, abs=0.005)


def _velocity(theta: float, phi: float) -> float:
    """Hobby's velocity function, as printed in the paper of 1986."""
    a, b, c = math.sqrt(2.0), 1.0 / 16.0, (3.0 - math.sqrt(5.0)) / 2.0
    alpha = (
        a
        * (math.sin(theta) - b * math.sin(phi))
        * (math.sin(phi) - b * math.sin(theta))
        * (math.cos(theta) - math.cos(phi))
    )
    return (2.0 + alpha) / (1.0 + (1.0 - c) * math.cos(theta) + c * math.cos(phi))


@few
@given(small, small, st.floats(0.75, 3.0))
def test_the_arms_are_hobbys_or_reach_the_triangles_point(theta: float, phi: float, tension: float) -> None:
    """Each arm is Hobby's velocity over three tensions (his limit: 4), cut short only at the triangle's point."""
    chord = 120.0
    line = spline([fixed(0.0, 0.0), fixed(chord, 0.0)], {0: one(theta), 1: one(-phi)}, tension)
    c = line.curve.ctrl[..., 0, 0]
    arms = np.hypot(*(c[1] - c[0])), np.hypot(*(c[2] - c[3]))
    apex = math.sin(theta + phi)
    for arm, own, other in ((arms[0], theta, phi), (arms[1], phi, theta)):
        want = min(_velocity(own, other), 4.0) * chord / 3.0 / tension
        one_way = math.sin(theta) * apex >= 0.0 and math.sin(phi) * apex >= 0.0 and abs(apex) > 1e-7
        if one_way:
            want = min(want, chord * math.sin(other) / apex)
        assert arm == pytest.approx(want, rel=1e-9, abs=1e-9)


@few
@given(routes)
def test_mock_curvature_agrees_at_every_inner_knot(through: list[tuple[float, float]]) -> None:
    """The solved angles satisfy the mock-curvature equations of the paper, free ends like circles.

    For tension 1: (2 theta_k - phi_{k+1}) / d_k + ... = 0 on both sides of a knot, and theta + phi + turn = 0.
    """
    line = spline(knots(through))
    assume(line.ok[0])
    theta, phi = line.theta[:, 0], line.phi[:, 0]
    z = np.array(through)
    chord = np.diff(z, axis=0)
    d = np.hypot(*chord.T)
    assume(d.min() > 0.1)
    for k in range(1, len(d)):
        before, after = chord[k - 1], chord[k]
        turn = math.atan2(before[0] * after[1] - before[1] * after[0], before @ after)
        assert theta[k] + phi[k - 1] + turn == pytest.approx(0.0, abs=1e-9)
        # Arriving and leaving mock curvature, each times three, per millimetre of chord.
        arriving = (theta[k - 1] - 2.0 * phi[k - 1]) / d[k - 1]
        leaving = (phi[k] - 2.0 * theta[k]) / d[k]
        assert arriving == pytest.approx(leaving, abs=1e-9 * (1.0 + 1.0 / d.min()))
    assert theta[0] == pytest.approx(phi[0], abs=1e-9)
    assert theta[-1] == pytest.approx(phi[-1], abs=1e-9)


@few
@given(routes)
def test_a_curve_goes_through_its_points_without_a_corner(through: list[tuple[float, float]]) -> None:
    """Every knot lies on the curve, and the direction of arriving there is that of leaving."""
    line = spline(knots(through))
    assume(line.ok[0])
    c = line.curve.ctrl[..., 0]
    assert np.abs(c[0, :, 0] - through[0]).max() == 0.0
    for k in range(1, len(through)):
        assert np.abs(c[3, :, k - 1] - through[k]).max() == 0.0
    arms_in, arms_out = c[3, :, :-1] - c[2, :, :-1], c[1, :, 1:] - c[0, :, 1:]
    cross = arms_in[0] * arms_out[1] - arms_in[1] * arms_out[0]
    size = np.hypot(*arms_in) * np.hypot(*arms_out)
    assert (np.abs(cross) <= 1e-9 * size + 1e-9).all()
    assert ((arms_in * arms_out).sum(axis=0) >= -1e-9).all()


@few
@given(routes, small, st.floats(0.2, 5.0))
def test_turned_scaled_and_mirrored_the_curve_is_the_same_curve(
    through: list[tuple[float, float]], angle: float, size: float
) -> None:
    """Hobby's curves keep their shape under turning, scaling and reflection (not under shear)."""
    line = spline(knots(through))
    assume(line.ok[0])
    z = np.array(through)
    assume(np.hypot(*np.diff(z, axis=0).T).min() > 1.0)
    # A knot where the way turns right back may bend to either side: no law there.
    turns = [
        abs(math.atan2(a[0] * b[1] - a[1] * b[0], a @ b))
        for a, b in zip(np.diff(z, axis=0), np.diff(z, axis=0)[1:], strict=False)
    ]
    assume(max(turns) < 3.0)
    turn = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]]) * size
    for matrix in (turn, turn @ np.diag([1.0, -1.0])):
        got = spline([fixed(*(matrix @ p)) for p in z])
        want = np.einsum("ij,kjs->kis", matrix, line.curve.ctrl[..., 0])
        assert np.abs(got.curve.ctrl[..., 0] - want).max() < 1e-6 * size * 300.0


def test_run_backwards_it_is_the_same_curve() -> None:
    """A symmetrical scheme: through the points the other way about, the same control points reversed."""
    there, back = _ctrl(SCYE), _ctrl(SCYE[::-1])
    assert np.abs(there - back[::-1, ::-1]).max() < 1e-9
    even = _ctrl([(-100.0, 0.0), (-40.0, 60.0), (40.0, 60.0), (100.0, 0.0)])
    assert np.abs(even[:, :, 0] + even[::-1, ::-1, 0]).max() < 1e-9


def test_points_in_a_row_make_a_straight_line() -> None:
    """No bend, no angle, and the length is the ruler's."""
    line = spline(knots([(0.0, 0.0), (10.0, 20.0), (30.0, 60.0), (31.0, 62.0)]))
    assert np.abs(line.theta).max() < 1e-12
    assert np.abs(line.phi).max() < 1e-12
    assert length(line.curve)[0] == pytest.approx(math.hypot(31.0, 62.0), abs=1e-9)
    two = spline(knots([(0.0, 0.0), (30.0, 40.0)]))
    assert two.curve.is_straight
    assert two.theta.tolist() == [[0.0]]


def test_points_on_a_circle_nearly_make_it() -> None:
    """Points every 30 degrees: within 0.01 per cent of the radius, which Hobby's velocities were fitted for."""
    places = [(100.0 * math.cos(a), 100.0 * math.sin(a)) for a in np.radians(range(0, 181, 30))]
    line = spline(knots(places)).curve
    for k in range(6):
        for u in (0.25, 0.5, 0.75):
            c = line.ctrl[:, :, k, 0]
            x, y = (1 - u) ** 3 * c[0] + 3 * u * (1 - u) ** 2 * c[1] + 3 * u**2 * (1 - u) * c[2] + u**3 * c[3]
            assert math.hypot(x, y) == pytest.approx(100.0, abs=0.01)
        assert curvature(line, one(k + 0.5))[0] == pytest.approx(0.01, rel=0.01)


@few
@given(routes, small)
def test_a_given_direction_is_kept_and_parts_the_curve(
    through: list[tuple[float, float]], angle: float
) -> None:
    """At a knot with a direction the curve runs so; beyond it nothing this side of it is felt."""
    assume(spline(knots(through)).ok[0])
    line = spline(knots(through), {1: one(angle)})
    c = line.curve.ctrl[..., 0]
    arm = c[1, :, 1] - c[0, :, 1]
    if np.hypot(*arm) > 1e-6:
        assert math.atan2(arm[1], arm[0]) == pytest.approx(math.remainder(angle, math.tau), abs=1e-6)
    moved = [(through[0][0] + 500.0, through[0][1] - 80.0), *through[1:]]
    other = spline(knots(moved), {1: one(angle)}).curve.ctrl[..., 0]
    assert (other[:, :, 1:] == c[:, :, 1:]).all()


@few
@given(routes)
def test_a_segment_that_bends_one_way_stays_in_its_triangle(through: list[tuple[float, float]]) -> None:
    """Where both end angles are of one sign and under 180 together, the handles lie inside the triangle."""
    line = spline(knots(through))
    assume(line.ok[0])
    for k in range(len(through) - 1):
        theta, phi = line.theta[k, 0], line.phi[k, 0]
        if theta * phi <= 0.0 or abs(theta + phi) >= math.pi - 0.01:
            continue
        c = line.curve.ctrl[:, :, k, 0]
        chord = c[3] - c[0]
        long = np.hypot(*chord)
        depth = long * abs(math.sin(theta) * math.sin(phi) / math.sin(theta + phi))
        for handle in (c[1], c[2]):
            high = (chord[0] * (handle - c[0])[1] - chord[1] * (handle - c[0])[0]) / long
            assert abs(high) <= depth + 1e-9
            assert high * theta >= -1e-9


def test_tension_flattens() -> None:
    """More tension, shorter curve; less, longer. Under 3/4, or a number of them that does not fit, is a slip."""
    easy, flat, full = (length(spline(knots(NECK), tensions=t).curve)[0] for t in (1.0, 1.5, 0.8))
    assert flat < easy < full
    same = spline(knots(NECK), tensions=[1.5, 1.5, 1.5]).curve.ctrl
    assert (same == spline(knots(NECK), tensions=1.5).curve.ctrl).all()
    for wrong in (0.5, [1.0, 1.0]):
        with pytest.raises(ValueError, match="tension"):
            spline(knots(NECK), tensions=wrong)
    with pytest.raises(ValueError, match="two points"):
        spline(knots(NECK[:1]))


def test_coincident_neighbours_are_told() -> None:
    """Two neighbouring points that are one: that row is not ok, the other is, and both are finite."""
    p = [
        Point(one(0.0, 0.0), one(0.0, 0.0)),
        Point(one(0.0, 50.0), one(0.0, 10.0)),
        Point(one(90.0, 90.0), one(0.0, 60.0)),
    ]
    line = spline(p)
    assert line.ok.tolist() == [False, True]
    assert line.why.tolist() == [Why.SAME_POINT, Why.NOTHING]
    assert np.isfinite(line.curve.ctrl).all()
    assert spline([p[0], p[1]]).ok.tolist() == [False, True]


def test_the_angles_tell_what_a_query_needs() -> None:
    """A wiggle has end angles of opposite sign, a near reversal turns over 150 degrees, a bulge leaves beyond 60."""
    wiggle = spline(knots([(0.0, 0.0), (50.0, 40.0), (100.0, -40.0), (150.0, 0.0)]))
    assert wiggle.theta[1, 0] * wiggle.phi[1, 0] < 0.0
    hairpin = spline(knots([(0.0, 0.0), (100.0, 0.0)]), {0: one(-1.4), 1: one(1.4)})
    assert abs(hairpin.theta[0, 0] + hairpin.phi[0, 0]) == pytest.approx(2.8)
    assert hairpin.theta[0, 0] < -math.radians(60.0)


def test_a_flat_triangle_leaves_no_room_for_a_direction() -> None:
    """Reached along its chord, a segment cannot leave at an angle without an inflexion: it turns on the spot.

    The bound's own consequence, and told by the closest bend, which is nought.
    """
    line = spline([fixed(0.0, 0.0), fixed(100.0, 0.0)], {0: one(0.7), 1: one(0.0)})
    assert (line.curve.ctrl[1] == line.curve.ctrl[0]).all()
    assert line.theta[0, 0] == pytest.approx(0.7)
    assert closest_bend(line.curve)[0] == 0.0
    roomy = spline([fixed(0.0, 0.0), fixed(100.0, 0.0)], {0: one(0.7), 1: one(-0.7)})
    assert closest_bend(roomy.curve)[0] > 50.0


def test_the_leaving_direction_is_chord_plus_theta() -> None:
    """Theta turns the chord on to the way of leaving, phi the way of arriving on to the chord."""
    line = spline(knots(SCYE))
    p, q = fixed(*SCYE[1]), fixed(*SCYE[2])
    way = tangent(line.curve, one(1.0))
    along = rotated(q, p, line.theta[1])
    assert way.dx[0] * (along.y - p.y)[0] == pytest.approx(way.dy[0] * (along.x - p.x)[0], abs=1e-9)

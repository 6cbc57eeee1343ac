"""Lengths by the tape, against scipy's quadrature, fontTools and closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from fontTools.misc.bezierTools import calcCubicArcLength  # type: ignore[import-untyped]
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.polynomial.legendre import leggauss
from scipy.integrate import quad

from tapewright.geometry import (
    Curve,
    Point,
    Stretch,
    Why,
    at,
    backward,
    curve_of,
    fixed,
    length,
    parameter_at_length,
    spline,
    straight,
)
from tapewright.geometry.length import FEW_WEIGHTS, NODES, WEIGHTS
from tests.geometry.cases import NECK, SCYE, curve, knots, one, random_curve, random_stretch

few = settings(max_examples=40)
scye = curve(SCYE)
places = st.tuples(st.floats(-500.0, 500.0), st.floats(-500.0, 500.0)).map(
    lambda p: (round(p[0], 3), round(p[1], 3))
)


def _quad(line: Curve, t0: float, t1: float, row: int = 0) -> float:
    """The length by scipy.integrate.quad of the speed, segment by segment."""
    out = 0.0
    for k in range(line.segments):
        a, b = np.clip([t0 - k, t1 - k], 0.0, 1.0)
        d = 3.0 * np.diff(line.ctrl[:, :, k, row], axis=0)

        def speed(u: float, d: np.ndarray = d) -> float:
            return float(np.hypot(*(d[0] * (1 - u) ** 2 + 2 * d[1] * u * (1 - u) + d[2] * u * u)))

        if b > a:
            out += quad(speed, a, b, epsabs=1e-9, epsrel=1e-12, limit=500)[0]
    return out


def test_the_rules_are_gauss_and_kronrod() -> None:
    """The seven points are numpy's Gauss-Legendre; the fifteen are exact to degree 22, as Kronrod's theorem says."""
    x, w = leggauss(7)
    assert np.abs(np.array(NODES[1::2]) - (1 + x) / 2).max() < 1e-15
    assert np.abs(np.array(FEW_WEIGHTS) - w / 2).max() < 1e-15
    for degree in range(23):
        assert np.dot(WEIGHTS, np.array(NODES) ** degree) == pytest.approx(1 / (degree + 1), rel=1e-14)
    assert np.dot(WEIGHTS, np.array(NODES) ** 24) != pytest.approx(1 / 25, rel=1e-15, abs=0.0)


def test_a_straight_line_is_its_ruler() -> None:
    """Three, four, five; and a fraction of it."""
    line = straight(fixed(0.0, 0.0), fixed(300.0, 400.0))
    assert length(line)[0] == 500.0
    assert length(Stretch(line, one(0.75), one(0.25)))[0] == 250.0
    assert length(straight(fixed(7.0, 7.0), fixed(7.0, 7.0)))[0] == 0.0


def test_a_parabola_has_its_closed_form() -> None:
    """The parabola y = x^2 / 4f from -a to a: a sqrt(1 + k^2) + asinh(k) / k * a, with k = a / 2f (closed form)."""
    a, f = 120.0, 40.0
    h = a * a / (4 * f)
    quadratic = np.array([[-a, h], [0.0, -h], [a, h]])
    c = np.array(
        [
            quadratic[0],
            (quadratic[0] + 2 * quadratic[1]) / 3,
            (2 * quadratic[1] + quadratic[2]) / 3,
            quadratic[2],
        ]
    )
    k = a / (2 * f)
    want = a * math.sqrt(1 + k * k) + a * math.asinh(k) / k
    assert length(Curve(c[:, :, None, None]))[0] == pytest.approx(want, abs=1e-3)


@few
@given(st.lists(places, min_size=3, max_size=6, unique=True))
def test_the_length_is_that_of_scipy(through: list[tuple[float, float]]) -> None:
    """Any Hobby curve of up to a few metres agrees with scipy's adaptive quadrature to 0.001 mm."""
    solved = spline(knots(through))
    if solved.ok[0]:
        assert length(solved.curve)[0] == pytest.approx(_quad(solved.curve, 0.0, 9.0), abs=1e-3)


@pytest.mark.parametrize("tolerance", [1e-3, 1e-5, 1e-8])
def test_the_length_is_that_of_fonttools(tolerance: float) -> None:
    """The scye agrees with fontTools' calcCubicArcLength at each of its accuracies."""
    for k in range(4):
        segment = Curve(scye.ctrl[:, :, k : k + 1])
        want = calcCubicArcLength(*[tuple(c) for c in scye.ctrl[:, :, k, 0]], tolerance=tolerance)
        assert length(segment)[0] == pytest.approx(want, abs=max(tolerance, 1e-6))


def test_a_curve_that_turns_150_degrees_in_a_segment_is_measured_true() -> None:
    """Hobby segments from flat to nearly reversed, 2 m long in all, to 0.001 mm (scipy's quadrature)."""
    for degrees in range(0, 176, 5):
        half = math.radians(degrees / 2)
        for other in (half, half * 0.3, 0.0, -half):
            ends = {0: one(-half), 1: one(other)}
            line = spline([fixed(0.0, 0.0), fixed(1500.0, 0.0)], ends).curve
            assert length(line)[0] == pytest.approx(_quad(line, 0.0, 1.0), abs=1e-3), (degrees, other)


@few
@given(st.floats(0.0, 4.0), st.floats(0.0, 4.0))
def test_a_piece_is_as_long_as_scipy_says(t0: float, t1: float) -> None:
    """A trimmed line either way, against quadrature between the same parameters."""
    t0, t1 = round(t0, 6), round(t1, 6)
    got = length(Stretch(scye, one(t0), one(t1)))[0]
    assert got == pytest.approx(_quad(scye, min(t0, t1), max(t0, t1)), abs=1e-6)


def test_a_length_leads_to_its_parameter_and_back() -> None:
    """Length, to the parameter at it, to the length there: the same within 0.00001 mm, pieces and whole lines."""
    rng = np.random.default_rng(4)
    for through in (SCYE, NECK):
        line = random_curve(rng, 200, through, 25.0)
        for drawn in (line, random_stretch(rng, line), backward(random_stretch(rng, line)), backward(line)):
            asked = length(drawn) * rng.uniform(0.0, 1.0, 200)
            found = parameter_at_length(drawn, asked)
            assert found.ok.all()
            beneath = curve_of(drawn)
            start = drawn.start if isinstance(drawn, Stretch) else np.zeros(200)
            assert np.abs(length(Stretch(beneath, start, found.value)) - asked).max() < 1e-5


def test_lengths_off_the_line_are_told() -> None:
    """Beyond the end and before the start are not ok, with the end standing in; a hair's excess is the end."""
    whole = length(scye)
    beyond = parameter_at_length(scye, whole + 1.0)
    assert (beyond.ok[0], beyond.why[0], beyond.value[0]) == (False, Why.TOO_SHORT, 4.0)
    before = parameter_at_length(scye, one(-1.0))
    assert (before.ok[0], before.why[0], before.value[0]) == (False, Why.NEGATIVE, 0.0)
    assert parameter_at_length(scye, whole + 1e-4).ok[0]
    assert parameter_at_length(scye, whole).value[0] == 4.0
    piece = Stretch(scye, one(3.0), one(1.0))
    assert parameter_at_length(piece, length(piece)).value[0] == 1.0
    assert parameter_at_length(piece, one(0.0)).value[0] == 3.0
    assert parameter_at_length(piece, length(piece) + 5.0).value[0] == 1.0
    straight_line = straight(fixed(0.0, 0.0), fixed(10.0, 0.0))
    assert parameter_at_length(straight_line, one(2.5)).value[0] == 0.25
    assert parameter_at_length(straight_line, one(11.0)).why[0] == Why.TOO_SHORT


def test_a_line_of_no_length_has_one_place() -> None:
    """Nought along it is its start; any more is too short."""
    nothing = Stretch(scye, one(2.5), one(2.5))
    assert length(nothing)[0] == 0.0
    assert parameter_at_length(nothing, one(0.0)).ok[0]
    assert parameter_at_length(nothing, one(0.0)).value[0] == 2.5
    assert parameter_at_length(nothing, one(1.0)).why[0] == Why.TOO_SHORT
    assert at(scye, parameter_at_length(nothing, one(1.0)).value).x.shape == (1,)
    assert isinstance(at(nothing, one(2.5)), Point)

"""Where lines meet, against closed forms, dense sampling and shapely."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, MultiPoint
from shapely import Point as ShapelyPoint

from tapewright.geometry import (
    Arc,
    Carried,
    Circle,
    Curve,
    Drawn,
    Meets,
    Point,
    Stretch,
    Why,
    arc_curve,
    at,
    curve_of,
    distance,
    end_point,
    fixed,
    joined,
    meets,
    nearest,
    spline,
    straight,
    tangent,
)
from tests.geometry.cases import NECK, SCYE, at_place, curve, knots, one, samples

few = settings(max_examples=60)
places = st.tuples(st.floats(-200.0, 300.0), st.floats(-100.0, 300.0)).map(
    lambda p: (round(p[0], 3), round(p[1], 3))
)
scye = curve(SCYE)
neck = curve(NECK)


def _line(a: tuple[float, float], b: tuple[float, float]) -> Curve:
    return straight(at_place(a), at_place(b))


def _there(m: Meets) -> list[tuple[float, float]]:
    """The places of one row that are on both."""
    return [(float(m.x[k, 0]), float(m.y[k, 0])) for k in range(m.x.shape[0]) if m.on[k, 0]]


def _are(got: list[tuple[float, float]], *want: tuple[float, float], within: float = 1e-6) -> bool:
    """Whether the places are those wanted, in that order."""
    return len(got) == len(want) and all(math.dist(p, q) <= within for p, q in zip(got, want, strict=True))


def _by_shapely(a: Drawn, b: Drawn, fine: int = 1601) -> list[tuple[float, float]]:
    """The crossings of two densely sampled lines, by shapely."""
    met = LineString(samples(a, fine)).intersection(LineString(samples(b, fine)))
    if met.is_empty:
        return []
    points = met.geoms if isinstance(met, MultiPoint) else [met]
    return [(p.x, p.y) for p in points if isinstance(p, ShapelyPoint)]


@few
@given(places, places, places, places)
def test_two_straight_lines_meet_as_in_shapely(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]
) -> None:
    """On both, or not, and where: shapely's intersection of the same two segments."""
    assume(math.dist(a, b) > 1.0 and math.dist(c, d) > 1.0)
    m = meets(_line(a, b), _line(c, d))
    assume(m.why[0] != Why.ALONG)  # end to end in one line: shapely gives the point, we say so
    want = LineString([a, b]).intersection(LineString([c, d]))
    # Within a hair of an end the two may rightly differ.
    assume(not m.real[0, 0] or all(abs(v) > 0.01 for v in (m.past_a[0, 0], m.past_b[0, 0])) or m.on[0, 0])
    if isinstance(want, ShapelyPoint) and not want.is_empty:
        assert m.on[0, 0]
        assert (m.x[0, 0], m.y[0, 0]) == (pytest.approx(want.x, abs=1e-3), pytest.approx(want.y, abs=1e-3))
    elif want.is_empty:
        assert (
            not m.on[0, 0]
            or want.distance(ShapelyPoint(m.x[0, 0], m.y[0, 0])) < 1e-3
            or _near_end(m, a, b, c, d)
        )


def _near_end(m: Meets, *ends: tuple[float, float]) -> bool:
    return min(math.dist(end, (m.x[0, 0], m.y[0, 0])) for end in ends) < 1e-3


def test_beyond_an_end_it_says_how_far() -> None:
    """The square passes 12 mm below D, where C-D ends: not on, real, and past the end of b by 12 mm."""
    c_d = _line((100.0, 0.0), (100.0, 50.0))
    square = _line((0.0, 62.0), (200.0, 62.0))
    m = meets(square, c_d)
    assert (m.on[0, 0], m.real[0, 0], m.why[0]) == (False, True, Why.BEYOND)
    assert (m.past_a[0, 0], m.past_b[0, 0]) == (0.0, pytest.approx(12.0))
    assert m.tb[0, 0] == 1.0
    assert meets(square, c_d, carried_b=Carried.END).on[0, 0]
    assert not meets(square, c_d, carried_b=Carried.START).on[0, 0]
    run_back = Stretch(c_d, one(1.0), one(0.0))
    assert meets(square, run_back).past_b[0, 0] == pytest.approx(-12.0)
    assert meets(square, run_back, carried_b=Carried.START).on[0, 0]


def test_lines_that_never_meet_are_told_apart() -> None:
    """Parallel by their distance, lying along each other, and a line of no length."""
    a = _line((0.0, 0.0), (100.0, 0.0))
    parallel = meets(a, _line((10.0, 7.0), (90.0, 7.0)))
    assert (parallel.why[0], parallel.gap[0]) == (Why.PARALLEL, pytest.approx(7.0))
    assert not parallel.real.any()
    assert meets(a, _line((200.0, 0.0), (300.0, 0.0))).why[0] == Why.ALONG
    assert meets(a, _line((5.0, 5.0), (5.0, 5.0))).why[0] == Why.SAME_POINT
    assert meets(scye, _line((5.0, 5.0), (5.0, 5.0))).why[0] == Why.SAME_POINT
    assert meets(Stretch(scye, one(2.0), one(2.0)), neck).why[0] == Why.SAME_POINT


def test_a_meet_at_an_end_is_on() -> None:
    """Lines that share an end meet there, also when rounding puts it a hair beyond."""
    for off in (0.0, 1e-9, -1e-9, 5e-5, -5e-5):
        m = meets(_line((0.0, 0.0), (100.0, 0.0)), _line((100.0 + off, 0.0), (100.0, 80.0)))
        assert m.on[0, 0]
        assert m.past_a[0, 0] == 0.0


def test_a_ruler_laid_to_a_line() -> None:
    """A circle of radius 139 mm about N cuts the shoulder line twice (Pythagoras), and misses one farther off."""
    line = _line((0.0, 120.0), (200.0, 120.0))
    m = meets(line, Circle(fixed(90.0, 0.0), one(139.0)))
    half = math.sqrt(139.0**2 - 120.0**2)
    assert _are(_there(m), (90.0 - half, 120.0), (90.0 + half, 120.0))
    short = meets(line, Circle(fixed(90.0, 0.0), one(112.0)))
    assert (short.why[0], short.gap[0]) == (Why.APART, pytest.approx(8.0))
    touch = meets(line, Circle(fixed(90.0, 0.0), one(120.0)))
    assert _are(_there(touch), (90.0, 120.0))


@few
@given(places, places, st.floats(1.0, 300.0), st.floats(1.0, 300.0))
def test_two_circles_meet_where_both_radii_reach(
    a: tuple[float, float], b: tuple[float, float], r: float, s: float
) -> None:
    """Every meet lies at both radii; there are as many as the distance allows; the gap is by what they miss."""
    assume(math.dist(a, b) > 0.5)
    m = meets(Circle(at_place(a), one(r)), Circle(at_place(b), one(s)))
    far = math.dist(a, b)
    slack = min(r + s - far, far - abs(r - s))
    assume(abs(slack) > 1e-6)
    assert len(_there(m)) == (2 if slack > 0.0 else 0)
    for p in _there(m):
        assert math.dist(p, a) == pytest.approx(r, abs=1e-6)
        assert math.dist(p, b) == pytest.approx(s, abs=1e-6)
    if slack < 0.0:
        assert m.gap[0] == pytest.approx(-slack, abs=1e-9)
        assert m.why[0] == Why.APART


def test_one_circle_twice_and_two_that_touch() -> None:
    """The same circle lies along itself; circles that touch meet once; one inside another misses by the ring."""
    c = Circle(fixed(10.0, 10.0), one(50.0))
    assert meets(c, Circle(fixed(10.0, 10.0), one(50.0))).why[0] == Why.ALONG
    ring = meets(c, Circle(fixed(10.0, 10.0), one(30.0)))
    assert (ring.why[0], ring.gap[0]) == (Why.APART, pytest.approx(20.0))
    outside = meets(c, Circle(fixed(90.0, 10.0), one(30.0)))
    assert _are(_there(outside), (60.0, 10.0))
    inside = meets(c, Circle(fixed(30.0, 10.0), one(30.0)))
    assert _are(_there(inside), (60.0, 10.0))


def test_an_arc_only_meets_where_it_runs() -> None:
    """Off the arc a meet is real but beyond, by the length of the arc that lacks (closed form)."""
    line = _line((-100.0, 0.0), (100.0, 0.0))
    arc = Arc(fixed(0.0, 0.0), one(60.0), one(0.5), one(2.0))
    m = meets(line, arc)
    assert not m.on.any()
    assert m.why[0] == Why.BEYOND
    assert sorted(m.past_b[:, 0].tolist()) == [
        pytest.approx(-0.5 * 60.0),
        pytest.approx((math.pi - 2.5) * 60.0),
    ]
    longer = Arc(fixed(0.0, 0.0), one(60.0), one(0.5), one(3.0))
    assert _are(_there(meets(line, longer)), (-60.0, 0.0))


@pytest.mark.parametrize("through", [SCYE, NECK])
@few
@given(places, places)
def test_a_curve_meets_a_line_where_dense_sampling_says(
    through: list[tuple[float, float]], a: tuple[float, float], b: tuple[float, float]
) -> None:
    """As many crossings as the densely sampled curve has, each within 0.05 mm of it and 0.001 mm of both lines."""
    assume(math.dist(a, b) > 20.0)
    line, drawn = _line(a, b), curve(through)
    m = meets(drawn, line)
    want = _by_shapely(drawn, line)
    got = _there(m)
    _alike(got, want, drawn, line)


def _alike(got: list[tuple[float, float]], want: list[tuple[float, float]], a: Drawn, b: Drawn) -> None:
    """The same crossings; each on both lines to 0.001 mm. Where sampling is unsure (a near touch) nothing is said."""
    for p in got:
        assert nearest(a, fixed(*p)).distance[0] < 1e-3
        assert nearest(b, fixed(*p)).distance[0] < 1e-3
    if len(got) != len(want):
        # Two crossings may fall between two samples, or an end be a hair off: every one not matched must be so.
        odd = [p for p in got if not any(math.dist(p, q) < 0.5 for q in want)]
        odd += [q for q in want if not any(math.dist(p, q) < 0.5 for p in got)]
        assert not odd, (got, want)
    for p in got:
        assert min((math.dist(p, q) for q in want), default=0.0) < 0.5


def test_a_curve_and_a_line_know_each_other_by_either_hand() -> None:
    """Asked the other way about, the same meets, in the order of the line."""
    line = _line((150.0, 90.0), (-50.0, 150.0))
    there, back = meets(scye, line), meets(line, scye)
    assert sorted(_there(there)) == sorted(_there(back))
    on = back.on[:, 0]
    assert (np.diff(back.ta[on, 0]) > 0.0).all()
    assert (np.diff(there.ta[there.on[:, 0], 0]) > 0.0).all()


def test_a_level_line_touches_a_curve_once() -> None:
    """A line laid to the lowest place of a curve touches it there once; a hair lower misses by the hair."""
    bowl = curve([(0.0, 0.0), (30.0, 50.0), (90.0, 55.0), (140.0, 10.0)])
    deepest = max(samples(bowl, 100001)[:, 1])
    level = meets(bowl, _line((-50.0, deepest), (200.0, deepest)))
    assert len(_there(level)) in {1, 2}  # the sampled depth is itself a hair short
    exact = spline(knots([(0.0, 0.0), (70.0, 50.0), (140.0, 0.0)]), {1: one(0.0)}).curve
    touch = meets(exact, _line((-50.0, 50.0), (200.0, 50.0)))
    assert _are(_there(touch), (70.0, 50.0))
    below = meets(exact, _line((-50.0, 50.5), (200.0, 50.5)))
    assert not below.on.any()
    rays = below.past_a[below.real]
    assert (np.abs(rays) > 1.0).all()


def test_a_line_that_misses_says_by_how_much() -> None:
    """Level under a curve whose ends are level too: nothing real, and the gap is the distance."""
    flat = spline(knots([(0.0, 0.0), (100.0, 0.0), (140.0, 0.0)]), {0: one(0.0), 2: one(0.0)}).curve
    m = meets(flat, _line((-50.0, 9.0), (300.0, 9.0)))
    assert (m.why[0], m.gap[0]) == (Why.APART, pytest.approx(9.0))
    assert not m.real.any()
    far = meets(scye, Circle(fixed(500.0, 80.0), one(100.0)))
    want = nearest(scye, fixed(500.0, 80.0)).distance[0] - 100.0
    if not far.real.any():
        assert far.gap[0] == pytest.approx(want, abs=1e-6)


def test_a_curve_carried_on_goes_straight() -> None:
    """Beyond its end the scye goes on as it left it: the meet lies on the ray (closed form), and says how far."""
    end, way = end_point(scye), tangent(scye, one(4.0))
    line = _line((180.0, 0.0), (180.0, 400.0))
    m = meets(scye, line)
    assert m.why[0] == Why.BEYOND
    far = (180.0 - end.x[0]) / way.dx[0]
    assert m.past_a[0, 0] == pytest.approx(far)
    assert m.y[0, 0] == pytest.approx(end.y[0] + way.dy[0] * far)
    assert meets(scye, line, carried_a=Carried.END).on[0, 0]
    assert meets(line, scye, carried_b=Carried.END).past_b[0, 0] == pytest.approx(far)
    assert not meets(scye, line, carried_a=Carried.START).on[0, 0]
    cut = Stretch(scye, one(0.5), one(2.0))
    ray = meets(cut, _line((-40.0, 300.0), (200.0, 300.0)), carried_a=Carried.END)
    leaves = tangent(scye, one(2.0))
    start = at(scye, one(2.0))
    assert ray.x[0, 0] == pytest.approx(start.x[0] + leaves.dx[0] * (300.0 - start.y[0]) / leaves.dy[0])
    assert ray.ta[0, 0] == pytest.approx(2.0)


def test_a_trimmed_curve_meets_only_on_its_piece() -> None:
    """Crossings off the piece are not meets; run backwards, the order turns."""
    line = _line((-100.0, 100.0), (300.0, 140.0))
    whole = meets(scye, line)
    t = float(whole.ta[0, 0])
    assert meets(Stretch(scye, one(0.0), one(t - 0.1)), line).on.sum() == 0
    assert meets(Stretch(scye, one(t + 0.1), one(t - 0.1)), line).on.sum() == 1
    wave = curve([(0.0, 0.0), (50.0, 40.0), (100.0, -40.0), (150.0, 40.0), (200.0, 0.0)])
    level = _line((-10.0, 5.0), (210.0, 5.0))
    there, back = meets(wave, level), meets(Stretch(wave, one(4.0), one(0.0)), level)
    assert len(_there(there)) == 4
    assert _are(_there(back), *reversed(_there(there)))


def test_a_crossing_at_a_joint_is_one_crossing() -> None:
    """A line through a knot meets the curve there once, and through two knots twice."""
    for a, b in ((1, 3), (2, 4), (0, 2), (0, 4)):
        p, q = np.array(SCYE[a]), np.array(SCYE[b])
        m = meets(scye, _line(tuple(p - (q - p)), tuple(q + (q - p))))
        near = [t for t in _there(m) if min(math.dist(t, p), math.dist(t, q)) < 1e-3]
        assert len(near) == 2
    kink = joined([_line((0.0, 0.0), (50.0, 50.0)), _line((50.0, 50.0), (100.0, 0.0))])
    assert _are(_there(meets(kink, _line((0.0, 50.0), (100.0, 50.0)))), (50.0, 50.0))
    assert len(_there(meets(kink, _line((0.0, 49.0), (100.0, 49.0))))) == 2
    assert len(_there(meets(kink, _line((50.0, -10.0), (50.0, 100.0))))) == 1


@few
@given(places, st.floats(5.0, 250.0))
def test_a_curve_meets_a_circle_where_dense_sampling_says(centre: tuple[float, float], radius: float) -> None:
    """Against shapely's intersection of densely sampled lines; each meet at the radius to 0.001 mm."""
    circle = Circle(at_place(centre), one(radius))
    # At the very end of the curve a sampled line decides by its rounding.
    for end in (SCYE[0], SCYE[-1]):
        assume(abs(math.dist(end, centre) - radius) > 1e-3)
    ring = arc_curve(Arc(circle.centre, circle.radius, one(0.0), one(math.tau)))
    got = _there(meets(scye, circle))
    for p in got:
        assert math.dist(p, centre) == pytest.approx(radius, abs=1e-6)
    _alike(got, _by_shapely(scye, ring, 4001), scye, ring)


@few
@given(st.lists(places, min_size=3, max_size=5, unique=True))
def test_two_curves_meet_where_dense_sampling_says(through: list[tuple[float, float]]) -> None:
    """As many crossings as shapely finds on the densely sampled curves, each on both to 0.001 mm."""
    solved = spline(knots(through))
    assume(solved.ok[0])
    m = meets(scye, solved.curve)
    _alike(_there(m), _by_shapely(scye, solved.curve, 6001), scye, solved.curve)


def test_two_curves_that_share_an_end_meet_there() -> None:
    """A neck that starts where a shoulder ends, at an angle or smoothly: one meet, at the very end."""
    end, way = end_point(scye), tangent(scye, one(4.0))
    for angle in (math.atan2(way.dy[0], way.dx[0]), 1.0, -1.0):
        on = spline(
            [end, fixed(end.x[0] + 60.0, end.y[0] + 50.0), fixed(end.x[0] + 120.0, end.y[0] + 90.0)],
            {0: one(angle)},
        )
        m = meets(scye, on.curve)
        assert m.on.sum() == 1
        assert (m.ta[0, 0], m.tb[0, 0]) == (4.0, 0.0)
        assert distance(m.point(0), end)[0] < 1e-9


def test_two_curves_that_touch() -> None:
    """Two bowls with one lowest place, level there: one meet, within 0.001 mm of it (closed form: symmetry)."""
    wide = spline(knots([(-100.0, 0.0), (0.0, 50.0), (100.0, 0.0)]), {1: one(0.0)}).curve
    narrow = spline(knots([(-50.0, 0.0), (0.0, 50.0), (50.0, 0.0)]), {1: one(0.0)}).curve
    m = meets(wide, narrow)
    assert m.on.sum() == 1
    assert distance(m.point(0), fixed(0.0, 50.0))[0] < 1e-3


def test_curves_carried_on_meet_beyond() -> None:
    """Two curves whose straight continuations meet: real, past both, and on when both may be carried on."""
    left = spline(knots([(0.0, 0.0), (40.0, 20.0), (60.0, 60.0)])).curve
    right = spline(knots([(200.0, 0.0), (160.0, 20.0), (140.0, 60.0)])).curve
    m = meets(left, right)
    assert m.why[0] == Why.BEYOND
    assert m.x[0, 0] == pytest.approx(100.0)
    assert m.past_a[0, 0] == pytest.approx(m.past_b[0, 0])
    assert m.past_a[0, 0] > 10.0
    assert meets(left, right, Carried.END, Carried.END).on[0, 0]
    assert not meets(left, right, Carried.END).on[0, 0]
    assert not meets(left, right, Carried.START, Carried.START).on.any()
    apart = meets(
        spline(knots([(0.0, 0.0), (50.0, 1.0), (100.0, 0.0)]), {0: one(0.0), 2: one(0.0)}).curve,
        spline(knots([(0.0, 30.0), (50.0, 31.0), (100.0, 30.0)]), {0: one(0.0), 2: one(0.0)}).curve,
    )
    assert (apart.why[0], apart.gap[0]) == (Why.APART, pytest.approx(30.0, abs=0.01))


def test_a_curve_lies_along_itself() -> None:
    """The same curve, a piece of it, and a piece with another beginning: along each other, never a list of meets."""
    assert meets(scye, scye).why[0] == Why.ALONG
    assert meets(Stretch(scye, one(0.5), one(2.5)), Stretch(scye, one(3.5), one(1.5))).why[0] == Why.ALONG
    longer = joined([scye, _line((110.0, 178.0), (200.0, 178.0))])
    assert meets(longer, scye).why[0] == Why.ALONG
    apart = meets(Stretch(scye, one(0.0), one(1.0)), Stretch(scye, one(2.0), one(3.0)))
    assert apart.why[0] != Why.ALONG
    straight_as_curve = spline(knots([(0.0, 0.0), (50.0, 0.0), (90.0, 0.0)])).curve
    assert meets(straight_as_curve, _line((10.0, 0.0), (200.0, 0.0))).why[0] == Why.ALONG


def test_more_meets_than_are_kept_is_said() -> None:
    """A line through a long wave: eight are given, in order, and that there are more."""
    wave = curve([(20.0 * k, 30.0 * (-1) ** k) for k in range(14)])
    m = meets(wave, _line((-50.0, 0.0), (400.0, 0.0)))
    assert m.more[0]
    assert m.on.sum() == 8
    assert (np.diff(m.ta[:, 0]) > 0.0).all()
    assert not meets(scye, _line((-50.0, 100.0), (400.0, 100.0))).more[0]


def test_rows_choose_each_for_itself() -> None:
    """One row meets twice, one touches, one misses: each in its own column, the count with it."""
    line = straight(
        Point(one(0.0, 0.0, 0.0), one(30.0, 50.0, 60.0)), Point(one(99.0, 99.0, 99.0), one(30.0, 50.0, 60.0))
    )
    m = meets(line, Circle(fixed(50.0, 0.0, 3), one(50.0, 50.0, 50.0)))
    assert m.count().tolist() == [2, 1, 0]
    assert m.gap.tolist() == [0.0, 0.0, pytest.approx(10.0)]
    assert curve_of(line).bodies == 3

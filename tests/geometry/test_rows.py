"""A row's answer never depends on its neighbours, whatever function is asked, and is always finite.

The law is ours (docs/architecture.md); the witness is the same function called on fewer rows.
"""

from __future__ import annotations

import math
from functools import cache
from typing import Any

import numpy as np
import pytest

from tapewright import geometry
from tapewright.geometry import Arc, Array, Carried, Circle, Curve, Point, Stretch, Vector, fixed, straight
from tests.geometry import cases

ROWS = 1000
TYPES = {
    "Arc Array Carried Circle Codes Curve Drawn Farthest Foot Found Indices Mask Meetable Meets Nearest Offset Point",
    "Running Spline Stretch Tangle Vector Why",
}
NOT_OF_ROWS = {"because", "cubics", "fixed"}
"""A mask's own shadow, a single row's export, and a constant: nothing that could mix rows."""


@cache
def _material(seed: int) -> dict[str, Any]:
    rng = np.random.default_rng(seed)
    scye, neck = cases.random_curve(rng, ROWS, cases.SCYE), cases.random_curve(rng, ROWS, cases.NECK)
    points = [cases.random_point(rng, ROWS, place, 15.0) for place in cases.SCYE]
    return {
        "p": points,
        "angle": rng.uniform(-4.0, 4.0, ROWS),
        "more_angle": rng.uniform(-4.0, 4.0, ROWS),
        "length": rng.uniform(-20.0, 300.0, ROWS),
        "fraction": rng.uniform(-0.1, 1.1, ROWS),
        "t": rng.uniform(-0.2, 4.2, ROWS),
        "scye": scye,
        "neck": neck,
        "stretch": cases.random_stretch(rng, scye),
        "neck_stretch": cases.random_stretch(rng, neck),
        "line": cases.random_straight(rng, ROWS),
        "line_stretch": cases.random_stretch(rng, cases.random_straight(rng, ROWS)),
        "circle": cases.random_circle(rng, ROWS),
        "arc": cases.random_arc(rng, ROWS),
    }


def _calls(m: dict[str, Any]) -> dict[str, list[Any]]:
    """Every public function that works on rows, called in every way that takes another path."""
    p, q, r, a, b = m["p"]
    angle, length, t = m["angle"], m["length"], m["t"]
    drawn = [m[k] for k in ("scye", "stretch", "line", "line_stretch")]
    anything = [*drawn, m["neck"], m["neck_stretch"], m["circle"], m["arc"]]
    outline = [m["scye"], m["stretch"], m["line"]]
    g = geometry
    return {
        "arc_about": [g.arc_about(p, q, angle)],
        "arc_between": [g.arc_between(p, q, r, way) for way in (None, True, False)],
        "arc_curve": [g.arc_curve(m["arc"])],
        "arc_length": [g.arc_length(m["arc"])],
        "arc_parameter": [g.arc_parameter(m["arc"], angle)],
        "arc_through": [g.arc_through(p, q, r)],
        "area": [g.area(outline)],
        "at": [g.at(d, t) for d in drawn],
        "backward": [g.backward(d) for d in drawn],
        "bent_arc": [g.bent_arc(p, angle, length, m["more_angle"])],
        "bent_end": [g.bent_end(p, angle, length, m["more_angle"])],
        "between": [g.between(p, q, m["fraction"])],
        "circle_through": [g.circle_through(p, q, r)],
        "closest_bend": [g.closest_bend(d) for d in drawn],
        "corner": [g.corner(p, q, r)],
        "corner_point": [g.corner_point(p, q, r, length)],
        "crosses_itself": [g.crosses_itself(outline)],
        "curvature": [g.curvature(d, t) for d in drawn],
        "curve_of": [g.curve_of(d) for d in drawn],
        "direction": [g.direction(p, q)],
        "displacement": [g.displacement(p, q)],
        "distance": [g.distance(p, q)],
        "end_point": [g.end_point(d) for d in drawn],
        "farthest": [g.farthest(d, angle) for d in drawn],
        "foot": [g.foot(p, q, r)],
        "hollow": [g.hollow(p, q, length, m["fraction"], r)],
        "joined": [g.joined([m["scye"], m["neck"]])],
        "length": [g.length(d) for d in drawn],
        "meets": [
            g.meets(x, y, *carried)
            for x in anything
            for y in anything
            for carried in (
                (Carried.NOT, Carried.NOT),
                (Carried.END, Carried.START),
                (Carried.BOTH, Carried.BOTH),
            )
        ],
        "midpoint": [g.midpoint(p, q)],
        "mirrored": [g.mirrored(p, q, r)],
        "moved": [g.moved(p, Vector(length, angle))],
        "nearest": [g.nearest(d, p) for d in drawn],
        "offset": [g.offset(d, length * 0.1) for d in drawn],
        "offsets": g.offsets(drawn, [length * 0.1, angle, length * 0.05, angle * 3.0]),
        "on_circle": [g.on_circle(c, angle) for c in (m["circle"], m["arc"])],
        "parameter_at_length": [g.parameter_at_length(d, length) for d in drawn],
        "polar": [g.polar(p, angle, length)],
        "rotated": [g.rotated(p, q, angle)],
        "running": [g.running(d, angle) for d in drawn],
        "side": [g.side(p, q, r)],
        "spline": [
            g.spline([p, q, r, a, b]),
            g.spline([p, q, r, a, b], {0: angle, 2: m["more_angle"]}, [1.0, 1.2, 0.8, 2.0]),
            g.spline([p, q], {1: angle}),
            g.spline([p, q], {0: m["more_angle"], 1: angle}),
            g.spline([p, q]),
            g.spline([p, q, r], {1: angle}),
        ],
        "start_point": [g.start_point(d) for d in drawn],
        "straight": [g.straight(p, q)],
        "tangent": [g.tangent(d, t) for d in drawn],
        "toward": [g.toward(p, q, length)],
        "trimmed": [g.trimmed(d) for d in drawn],
        "turned_from": [g.turned_from(m["arc"], angle)],
        "turning": [g.turning(p, q, r)],
        "unit": [g.unit(angle)],
        "whole": [g.whole(d) for d in drawn],
        "winding": [g.winding(outline, a)],
    }


@cache
def _crowd() -> dict[str, list[Any]]:
    return _calls(_material(1))


FUNCTIONS = sorted(set(geometry.__all__) - set(" ".join(TYPES).split()) - NOT_OF_ROWS)


def test_every_public_function_is_tried() -> None:
    """No function is added to the geometry without being tried for this."""
    assert sorted(_crowd()) == FUNCTIONS


def _some(index: list[int]) -> dict[str, list[Any]]:
    return _calls(cases.rows_of(_material(1), np.array(index, dtype=np.intp)))


@cache
def _alone() -> dict[int, dict[str, list[Any]]]:
    return {row: _some([row]) for row in (0, 1, 7, 20, 21, 499, 640, 998, 999)}


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_row_alone_is_the_row_in_a_crowd(name: str) -> None:
    """One row, computed by itself, has the same bits as among a thousand."""
    for row, answers in _alone().items():
        for k, (alone, crowd) in enumerate(zip(answers[name], _crowd()[name], strict=True)):
            for mine, theirs in zip(cases.leaves(alone), cases.leaves(crowd), strict=True):
                assert mine[..., 0].tobytes() == np.ascontiguousarray(theirs[..., row]).tobytes(), (row, k)


@cache
def _seven() -> tuple[list[int], dict[str, list[Any]]]:
    index = [3, 999, 40, 41, 512, 7, 860]
    return index, _some(index)


@cache
def _shuffled() -> tuple[list[int], dict[str, list[Any]]]:
    index = np.random.default_rng(3).permutation(ROWS).tolist()
    return index, _some(index)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_seven_rows_and_shuffled_rows_are_the_rows_of_the_crowd(name: str) -> None:
    """Neither how many rows there are nor their order changes a bit of any of them."""
    for index, answers in (_seven(), _shuffled()):
        for some, crowd in zip(answers[name], _crowd()[name], strict=True):
            for mine, theirs in zip(cases.leaves(some), cases.leaves(crowd), strict=True):
                assert mine.tobytes() == np.ascontiguousarray(theirs[..., index]).tobytes()


def _spoilt() -> dict[str, Any]:
    """Material in which everything that can coincide does, on one row or another."""
    rows = 24
    here = [(0.0, 0.0), (0.0, 0.0), (10.0, 0.0), (20.0, 0.0), (-5.0, 0.0)]
    rng = np.random.default_rng(8)
    index = rng.integers(0, 5, (5, rows))
    index[:, 0] = 0  # all five points are one
    index[:, 1] = [0, 2, 3, 2, 0]  # there and back on one line
    index[:, 2] = [0, 2, 0, 2, 0]
    places = np.array(here)[index]
    # Far from the start of the paper, and with the last bits alive.
    places[:, rows // 2 :] = places[:, rows // 2 :] * 1e3 + 1e6 / 3.0
    points = [Point(places[k, :, 0].copy(), places[k, :, 1].copy()) for k in range(5)]
    p, q, r, _, b = points
    noughts = np.zeros(rows)
    angle = np.resize([0.0, math.pi / 2, math.pi, -math.pi, 1.0, math.tau], rows)
    lengths = np.resize([0.0, 10.0, -10.0, 5.0, 1e5], rows)
    scye = geometry.spline(points, {0: angle}).curve
    collapsed = Curve(
        np.broadcast_to(np.array([[0.0], [0.0], [10.0], [10.0]])[:, :, None, None], (4, 2, 3, rows)) + 0.0
    )
    cusp = np.zeros((4, 2, 1, rows))
    cusp[1, 0], cusp[2, 0], cusp[1, 1], cusp[2, 1] = 30.0, -20.0, 30.0, 30.0
    cusp[3, 0] = 10.0
    return {
        "p": points,
        "angle": angle,
        "more_angle": angle[::-1].copy(),
        "length": lengths,
        "fraction": np.resize([0.0, 1.0, 0.5], rows),
        "t": np.resize([0.0, 1.0, 0.5, 4.0, 2.0], rows),
        "scye": scye,
        "neck": geometry.joined([collapsed, Curve(cusp), straight(p, b)]),
        "stretch": Stretch(scye, noughts + 1.0, np.resize([1.0, 0.0, 4.0, 2.0], rows)),
        "neck_stretch": Stretch(Curve(cusp), noughts, np.resize([1.0, 0.5], rows)),
        "line": straight(p, q),
        "line_stretch": Stretch(straight(p, r), noughts + 1.0, np.resize([1.0, 0.5], rows)),
        "circle": Circle(p, np.resize([0.0, 10.0, 5.0], rows)),
        "arc": Arc(q, np.resize([10.0, 0.0], rows), angle, np.resize([0.0, 1.0, -math.tau, math.pi], rows)),
    }


def test_nothing_degenerate_raises_warns_or_leaves_the_finite_numbers() -> None:
    """Coincident points, lines of no length, folded lines, cusps, circles of no radius: every answer is finite."""
    for name, answers in _calls(_spoilt()).items():
        for answer in answers:
            for leaf in cases.leaves(answer):
                assert np.isfinite(leaf).all(), name


def test_the_spoilt_material_too_is_answered_row_by_row() -> None:
    """Degenerate rows too have the same bits alone as together."""
    material = _spoilt()
    crowd = _calls(material)
    for row in range(24):
        alone = _calls(cases.rows_of(material, np.array([row])))
        for name, answers in alone.items():
            for k, (mine, theirs) in enumerate(zip(answers, crowd[name], strict=True)):
                for one, many in zip(cases.leaves(mine), cases.leaves(theirs), strict=True):
                    assert one[..., 0].tobytes() == np.ascontiguousarray(many[..., row]).tobytes(), (
                        name,
                        k,
                        row,
                    )


def test_sums_are_added_in_order() -> None:
    """The one sum of the geometry adds strictly in order, which numpy's own sum does not.

    Witness: a plain Python loop.
    """
    from tapewright.geometry.rows import total

    terms = np.random.default_rng(2).uniform(0.0, 1.0, (37, 3)) * 10.0 ** np.arange(-6.0, 31.0)[:, None]
    for wide in (1, 3):
        expected = [0.0] * wide
        for row in terms[:, :wide].tolist():
            expected = [e + v for e, v in zip(expected, row, strict=True)]
        got: Array = total(terms[:, :wide])
        assert got.tolist() == expected


def test_a_constant_stands_on_every_row() -> None:
    """`fixed` gives as many rows as are asked."""
    p = fixed(3.0, 4.0, 5)
    assert p.x.tolist() == [3.0] * 5
    assert p.y.tolist() == [4.0] * 5

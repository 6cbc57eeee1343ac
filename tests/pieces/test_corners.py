"""Corners of cutting lines, worked by hand. Constructions: common practice, no single source; sums: geometry."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point, Polygon

from tapewright.geometry import Curve, Stretch, area
from tapewright.pieces import Corners, closed_gaps
from tests.pieces.hand import Spot, as_dart, cut_of, edges_of, polygon_edges, shape, vertices

SQUARE: list[Spot] = [(0, 0), (100, 0), (100, 80), (0, 80)]


def around(corners: list[Spot], turnings: list[float], **styles: Corners) -> list[Spot]:
    """The corners of the cutting line round a polygon; `e2=...` gives the style of edge 2."""
    told = {int(k[1:]): v for k, v in styles.items()}
    return vertices(cut_of(polygon_edges(corners, turnings, told)).runs)


def same(found: list[Spot], wanted: list[Spot]) -> bool:
    """Whether two closed runs of corners are one, wherever they begin and whichever way they run."""
    if len(found) != len(wanted):
        return False
    for run in (wanted, wanted[::-1]):
        for k in range(len(run)):
            turned = run[k:] + run[:k]
            if all(math.dist(a, b) < 0.001 for a, b in zip(found, turned, strict=True)):
                return True
    return False


def test_each_edge_has_its_own_turning() -> None:
    """A rectangle with 10 above, 20 right, 30 below and nothing left grows by just so much on each side."""
    found = around(SQUARE, [10, 20, 30, 0])
    assert same(found, [(0, -10), (120, -10), (120, 110), (0, 110)])


def test_the_other_way_round() -> None:
    """A piece whose outline runs the other way has its turnings outside all the same."""
    found = around(SQUARE[::-1], [30, 20, 10, 0])
    assert same(found, [(0, -10), (120, -10), (120, 110), (0, 110)])


def test_hollow_corner() -> None:
    """At a hollow corner the two cutting lines end where they cross: an L with 10 all round, by hand."""
    ell: list[Spot] = [(0, 0), (100, 0), (100, 50), (50, 50), (50, 100), (0, 100)]
    found = around(ell, [10] * 6)
    assert same(found, [(-10, -10), (110, -10), (110, 60), (60, 60), (60, 110), (-10, 110)])


def test_squared() -> None:
    """A turning of 15 squared at a slanting seam ends on a line square to the seam, where the seam meets the hem's cut.

    A parallelogram leaning 30 degrees from upright, 60 high, hem turning 20: by hand from the two right angles.
    """
    lean = 60 * math.tan(math.radians(30))
    piece: list[Spot] = [(0, 0), (100, 0), (100 + lean, 60), (lean, 60)]
    found = around(piece, [0, 15, 20, 0], e1=Corners.SQUARED)
    # Down the seam, 20 deeper than the hem: 20 / cos 30 along it; out from there 15, square to the seam.
    foot = (100 + lean + 20 * math.tan(math.radians(30)), 80.0)
    out = (foot[0] + 15 * math.cos(math.radians(30)), foot[1] - 15 * math.sin(math.radians(30)))
    assert any(math.dist(p, foot) < 0.001 for p in found)
    assert any(math.dist(p, out) < 0.001 for p in found)


def test_blunted() -> None:
    """The point of a right angle with 10 both sides is cut off 10 from the corner, square to its mitre.

    By hand: the mitre's tip is 10 sqrt 2 out; the cut crosses each cutting line (10 sqrt 2 - 10) sqrt 2 from it.
    """
    found = around(SQUARE, [10, 10, 10, 10], e1=Corners.BLUNTED)
    off = (10 * math.sqrt(2) - 10) * math.sqrt(2)
    for p in [(110 - off, -10), (110, -10 + off), (110, 90 - off), (110 - off, 90)]:
        assert any(math.dist(p, q) < 0.001 for q in found), (p, found)
    assert any(math.dist((-10, -10), q) < 0.001 for q in found)


def test_a_sharp_point_is_blunted_unasked() -> None:
    """A point of 20 degrees does not reach out 57 mm for a turning of 10; it stops at 25."""
    half = math.radians(10)
    piece: list[Spot] = [(0, 0), (200, 200 * math.tan(half)), (200, -200 * math.tan(half))]
    found = around(piece[::-1], [10, 10, 10])
    assert min(x for x, _ in found) == pytest.approx(-25, abs=0.001)


def test_turned_up() -> None:
    """A hem of 40 on a flared panel is cut so that, folded on the hem line, its ends lie on the sides' cutting lines.

    A trapezium 100 above, 160 below, 200 high, 10 at the sides. By hand: the sides' cutting lines mirrored in the hem.
    """
    piece: list[Spot] = [(30, 0), (130, 0), (160, 200), (0, 200)]
    found = around(piece, [0, 10, 40, 10], e2=Corners.TURNED)
    slope = 30 / 200
    out = 10 * math.hypot(1, slope)
    at_hem = 160 + out
    wanted = [(at_hem, 200.0), (at_hem - 40 * slope, 240.0)]
    for p in [*wanted, *((160 - x, y) for x, y in wanted)]:
        assert any(math.dist(p, q) < 0.001 for q in found), (p, found)


def test_a_step_where_a_seam_runs_on() -> None:
    """Where one edge runs straight on into another with a wider turning, the cut steps out square."""
    piece: list[Spot] = [(0, 0), (50, 0), (100, 0), (100, 80), (0, 80)]
    found = around(piece, [10, 30, 0, 0, 0])
    assert same(found, [(0, -10), (50, -10), (50, -30), (100, -30), (100, 80), (0, 80)])


def test_a_corner_part_of_the_way_along_a_curve() -> None:
    """An edge that leaves off part of the way along a curve is carried on as it runs there, and mitred as any other.

    The right-hand side, 10 outside it, is the first half of a curve; the slant after it has 25. By hand: the two
    cutting lines meet where x is 110, and so far down that it is 25 from the slant.
    """
    corners: list[Spot] = [(0, 0), (100, 0), (100, 50), (0, 100)]
    top, _, slant, left = polygon_edges(corners, [0, 10, 25, 0])
    bow = [[(100, 0), (99, 20), (100, 40), (100, 50)], [(100, 50), (100, 60), (90, 80), (80, 90)]]
    curve = Curve(np.moveaxis(np.array(bow, dtype=np.float64), 0, -1)[..., None])
    side = edges_of([Stretch(curve, np.zeros(1), np.ones(1))], [10])[0]
    found = vertices(cut_of((top, side, slant, left)).runs)
    down = (25 * math.sqrt(5) - 10) / 2
    assert min(math.dist(p, (110, 50 + down)) for p in found) < 0.001
    assert max(x for x, _ in found) < 110.1, "no beak"


@pytest.mark.parametrize("lean", [0.0, 12.0, -20.0])
def test_dart_mouth(lean: float) -> None:
    """A dart, folded on its legs and its middle as cloth is, ends level with the cutting line of the piece.

    Folding is done here by turning and mirroring points; nothing of the construction is used.
    """
    tip, a, b = (100.0 + lean, 90.0), (90.0, 0.0), (110.0, 0.0)
    # Both legs as long as each other: the second edge starts where the first leg, turned about the tip, would.
    far = math.dist(tip, a)
    angle = math.atan2(b[1] - tip[1], b[0] - tip[0])
    b = (tip[0] + far * math.cos(angle), tip[1] + far * math.sin(angle))
    # Beyond it the edge goes on so that, the dart closed, both are one straight line.
    wedge = angle - math.atan2(a[1] - tip[1], a[0] - tip[0])
    end = (b[0] + 90 * math.cos(wedge), b[1] + 90 * math.sin(wedge))
    piece: list[Spot] = [(0, 0), a, tip, b, end, (200, 150), (0, 150)]
    edges = as_dart(polygon_edges(piece, [12, 0, 0, 12, 12, 12, 12]), 1)
    line = cut_of(edges)
    assert closed_gaps(line.runs)[0] < 1e-9
    found = vertices(line.runs)
    ways = [math.atan2(p[1] - tip[1], p[0] - tip[0]) for p in (a, b)]
    middle = sum(ways) / 2
    mouth = [p for p in found if ways[0] - 1e-4 <= math.atan2(p[1] - tip[1], p[0] - tip[0]) <= ways[1] + 1e-4]
    assert len(mouth) >= 2
    for p in mouth:
        way, long = math.atan2(p[1] - tip[1], p[0] - tip[0]), math.dist(p, tip)
        # The half beside the second leg is turned with it on to the first; the other is folded back beneath.
        lies = way - (ways[1] - ways[0]) if way > middle else 2 * ways[0] - way
        y = tip[1] + long * math.sin(lies)
        assert y == pytest.approx(-12, abs=0.01), (p, way, middle)


@st.composite
def round_polygons(draw: st.DrawFn) -> list[Spot]:
    """Polygons whose corners lie on a ring in order: some corners hollow, none sharp."""
    count = draw(st.integers(4, 9))
    radii = [draw(st.floats(140, 200)) for _ in range(count)]
    return [
        (r * math.cos(2 * math.pi * k / count), r * math.sin(2 * math.pi * k / count))
        for k, r in enumerate(radii)
    ]


@given(round_polygons(), st.floats(3, 25))
@settings(max_examples=150, deadline=None)
def test_mitred_all_round_is_shapelys(corners: list[Spot], wide: float) -> None:
    """One turning all round, mitred, is what shapely's buffer with mitred joins makes of the same polygon."""
    mine = shape(cut_of(polygon_edges(corners, [wide] * len(corners))).runs)
    theirs = Polygon(corners).buffer(wide, join_style="mitre", mitre_limit=10)
    assert mine.symmetric_difference(theirs).area < 0.01


@given(round_polygons(), st.lists(st.floats(0, 25), min_size=9, max_size=9))
@settings(max_examples=150, deadline=None)
def test_every_edge_keeps_its_distance(corners: list[Spot], wide: list[float]) -> None:
    """Whatever the turnings, the line is closed, holds the piece, and runs at each edge's own distance at its middle."""
    wide = wide[: len(corners)]
    line = cut_of(polygon_edges(corners, wide))
    assert closed_gaps(line.runs)[0] < 1e-9
    mine = shape(line.runs)
    assert mine.buffer(0.01).contains(Polygon(corners))
    for k, w in enumerate(wide):
        p, q = np.array(corners[k]), np.array(corners[(k + 1) % len(corners)])
        m, way = (p + q) / 2, (q - p) / np.linalg.norm(q - p)
        out = m + w * np.array([way[1], -way[0]])
        assert mine.exterior.distance(Point(*out)) < 0.01 or any(k == e for e, _ in line.swallowed)


def test_area_of_a_cutting_line_by_hand() -> None:
    """A square of 100 with 10 all round is cut from 120 by 120."""
    edges = polygon_edges([(0, 0), (100, 0), (100, 100), (0, 100)], [10] * 4)
    assert abs(area(cut_of(edges).runs)[0]) == pytest.approx(14400)

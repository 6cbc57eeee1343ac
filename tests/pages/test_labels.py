"""Lettering: every point keeps its name, and nothing touches what it may not."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, box

from tapewright.drawing import Box, set_name
from tapewright.pages import (
    FULL,
    HALF,
    QUARTER,
    Letter,
    Lines,
    Plate,
    PlateLine,
    PlatePoint,
    Role,
    Scale,
    draw_field,
    place_labels,
)
from tapewright.pages.leaders import lead
from tapewright.pages.room import Floats
from tapewright.pages.sides import Ground
from tests.pages.bodice import bodice, curve, straight_line
from tests.pages.checker import faults

SCALES = (FULL, HALF, QUARTER)
NONE = np.zeros((0, 4))


@pytest.mark.parametrize("scale", SCALES, ids=lambda s: s.name)
@pytest.mark.parametrize("dense", [False, True])
def test_a_bodice_is_lettered_without_a_fault(scale: Scale, dense: bool) -> None:
    """As many labels as points; none touches a label, a point or an outline; no leader crosses a label."""
    plate = bodice(dense=dense)
    with np.errstate(all="raise"):
        field = draw_field(plate, scale)
    assert faults(field, plate, scale) == []
    assert {label.name for label in field.names} == {line.name for line in plate.lines if line.show_name}


def test_crowded_places_are_drawn_again_larger() -> None:
    """At a quarter, the dense necks and the shoulder are shown in insets, with the letters only there."""
    plate = bodice(dense=True)
    field = draw_field(plate, QUARTER)
    inside = {label.name: label.inset for label in field.lettering.labels if label.inset is not None}
    for crowd in (["N", "N2", "N3", "N4", "N5", "A1"], ["M", "M2", "M3", "M4", "M5", "M6", "M7"]):
        assert len({inside[name] for name in crowd}) == 1
    for label in field.lettering.labels:
        if label.inset is not None:
            inset = field.lettering.insets[label.inset]
            point = next(p for p in plate.points if p.name == label.name)
            assert label.point == pytest.approx(inset.enlarging(point.x / 4, point.y / 4), abs=1e-6)
            assert inset.into_radius == pytest.approx(inset.times * inset.radius)


def test_at_full_size_a_plain_bodice_needs_no_inset() -> None:
    """Where there is room nothing is drawn twice."""
    assert draw_field(bodice(), FULL).lettering.insets == ()


def test_one_alone_that_has_no_room_gets_a_leader() -> None:
    """A point among many outlines, none with room between, stands clear with a leader that starts at it."""
    pleats = tuple(
        PlateLine("", straight_line((x, -40), (x, 40)), Role.OUTLINE) for x in np.arange(-21.0, 22.0, 4.2)
    )
    plate = Plate("pleats", (PlatePoint("A", 2.1, 0),), pleats)
    field = draw_field(plate, FULL)
    (label,) = field.lettering.labels
    assert faults(field, plate, FULL) == []
    assert label.leader is not None
    assert np.hypot(label.leader[0] - 2.1, label.leader[1]) < 2


def test_a_leader_goes_where_no_label_stands() -> None:
    """A point hemmed in by labels but for one gap, with outlines all about: the leader takes the gap,
    and a second one does not cross the first."""
    pleats = np.array([[x, -24.0, x, 24.0] for x in np.arange(-24.0, 25.0, 3.0)])
    walls = [
        np.array(side, dtype=float)
        for side in (
            (-16, -16, 16, -12),
            (-16, 12, 16, 16),
            (-16, -16, -12, 16),
            (12, -16, 16, -3),
            (12, 3, 16, 16),
        )
    ]
    points = np.array([[0.0, 0.0], [-5.0, 3.0]])
    ground = Ground(4.0, pleats, NONE, points, np.array([-90.0, -90.0, 90.0, 90.0]))
    drawn: list[Floats] = []
    taken = list(walls)
    for name, (x, y) in zip("AB", points, strict=True):
        led = lead(Letter(name, x, y, 4, set_name(name, 4.0)), ground, taken, drawn)
        assert led is not None
        way = LineString([led.leader[:2], led.leader[2:]])
        assert not any(way.intersects(box(*wall)) for wall in taken)
        assert not any(way.intersects(LineString([d[:2], d[2:]])) for d in drawn)
        assert way.intersects(LineString([(14, -3), (14, 3)]))
        taken.append(led.box)
        drawn.append(led.leader)


def test_the_same_plate_is_lettered_the_same_way() -> None:
    """Twice the same input, twice the same places."""
    first, second = draw_field(bodice(dense=True), QUARTER), draw_field(bodice(dense=True), QUARTER)
    assert first.lettering == second.lettering
    assert first.names == second.names


def test_points_on_top_of_each_other_are_named_side_by_side() -> None:
    """A dart of nothing: three names at one place, none lost, none on another."""
    plate = Plate(
        "heap",
        (*(PlatePoint(name, 50, 50) for name in ("W1", "W2", "W'")), PlatePoint("A", 0, 0)),
        (PlateLine("", straight_line((0, 50), (100, 50)), Role.OUTLINE),),
    )
    field = draw_field(plate, QUARTER)
    assert faults(field, plate, QUARTER) == []
    lines_of_writing = {round(label.y, 6) for label in field.lettering.labels[:3]}
    assert len(lines_of_writing) == 1


def test_insets_stay_within_the_room_they_are_given() -> None:
    """Where paper is short on one side the windows go to another."""
    for within in ((150.0, 400.0), (400.0, 160.0)):
        block = draw_field(bodice(dense=True), QUARTER, within=within).block
        assert block.width <= within[0]
        assert block.height <= within[1]


def test_nothing_to_letter() -> None:
    """No points: no labels, and the paper as it was."""
    region = Box(0, 0, 10, 10)
    assert place_labels([], Lines(NONE, NONE), region, 4.0).region == region


def test_ranks_go_first() -> None:
    """Of two that want the same place the one of the better rank has it: its letter is the nearer."""
    size = 4.0
    walls = np.array([[-4.6, -30, -4.6, 30], [4.6, -30, 4.6, 30]], dtype=float)
    far = {}
    for first, second in ((1, 4), (4, 1)):
        letters = [
            Letter("A", 0.0, 0.0, first, set_name("A", size)),
            Letter("B", 0.0, 4.4, second, set_name("B", size)),
        ]
        got = place_labels(letters, Lines(walls, NONE), Box(-60, -60, 60, 60), size)
        far[first] = [np.hypot(*(np.array(label.box.middle) - label.point)) for label in got.labels]
    assert far[1][0] <= far[4][0]
    assert far[4][1] <= far[1][1]


MM = st.floats(0, 500).map(lambda v: round(v, 3))
NEAR = st.floats(-14, 14).map(lambda v: round(v, 3))
PLACE = st.tuples(MM, MM)


@st.composite
def plates(draw: st.DrawFn) -> Plate:
    """Any points, some of them crowded or in one spot, and any lines between them."""
    places = draw(st.lists(PLACE, min_size=1, max_size=30))
    crowd = draw(st.lists(st.tuples(NEAR, NEAR), max_size=9))
    places += [(places[0][0] + dx, places[0][1] + dy) for dx, dy in crowd]
    places += [places[-1]] * draw(st.integers(0, 3))
    index = st.integers(0, len(places) - 1)
    lines = []
    for number, (i, j, k, role) in enumerate(
        draw(st.lists(st.tuples(index, index, index, st.sampled_from(list(Role))), max_size=16))
    ):
        if k % 2:
            cubics = straight_line(places[i], places[j])
        else:
            cubics = curve([places[i], places[j]], [(1, 0.2 * k), (0.3, 1)])
        lines.append(PlateLine(f"line {number}", cubics, role, k % 3 == 0))
    points = tuple(
        PlatePoint(f"{chr(65 + i % 26)}{i // 26 or ''}", x, y, 1 + i % 4) for i, (x, y) in enumerate(places)
    )
    return Plate("any", points, tuple(lines))


@settings(max_examples=40, deadline=None)
@given(plates(), st.sampled_from(SCALES))
def test_any_plate_keeps_the_promises(plate: Plate, scale: Scale) -> None:
    """The same promises hold for points and lines of any kind, judged by shapely."""
    with np.errstate(all="raise"):
        field = draw_field(plate, scale)
    assert faults(field, plate, scale) == []


def test_names_run_along_their_lines() -> None:
    """A level line's name is level above it, an upright one's reads upward, whichever way it was drawn."""
    for a, b, turn in (
        ((0, 100), (300, 100), 0.0),
        ((300, 100), (0, 100), 0.0),
        ((100, 0), (100, 300), -np.pi / 2),
        ((100, 300), (100, 0), -np.pi / 2),
        ((0, 0), (200, 200), np.pi / 4),
        ((200, 0), (0, 200), -np.pi / 4),
    ):
        plate = Plate("n", (), (PlateLine("scye line", straight_line(a, b), Role.FRAME, True),))
        (name,) = draw_field(plate, FULL).names
        assert name.turn == pytest.approx(turn, abs=1e-9)
        middle = np.mean(np.array(name.corners), axis=0)
        start, way = np.array(a, dtype=float), np.array(b, dtype=float) - a
        across = float(np.cross(np.append(way, 0), np.append(middle - start, 0))[2]) / float(np.hypot(*way))
        assert abs(across) < 6
        assert name.leader is None


def test_a_name_without_a_line_to_stand_on_is_told() -> None:
    """A line of no length has no place for its name, and the field says so."""
    plate = Plate(
        "n",
        (PlatePoint("A", 0, 0),),
        (PlateLine("the dart", straight_line((5, 5), (5, 5)), Role.DART, True),),
    )
    field = draw_field(plate, FULL)
    assert field.names == ()
    assert field.unnamed == ("the dart",)

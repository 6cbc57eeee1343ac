"""Questions of room, against shapely."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from tapewright.pages.room import (
    box_distances,
    boxes_touch,
    lengths_inside,
    near,
    piece_distances,
    pieces_cross,
    pieces_of,
    squared,
)

# Whole tenths, so that what touches exactly does so in both libraries.
Four = tuple[float, float, float, float]
NUMBER = st.integers(-200, 200).map(lambda v: v / 8)
PIECE = st.tuples(NUMBER, NUMBER, NUMBER, NUMBER)


@st.composite
def boxes(draw: st.DrawFn) -> tuple[float, float, float, float]:
    x, y, w, h = draw(PIECE)
    return min(x, w), min(y, h), max(x, w), max(y, h)


@given(st.lists(boxes(), min_size=1, max_size=4), st.lists(PIECE, min_size=1, max_size=6))
def test_lengths_inside_boxes(some: list[Four], pieces: list[Four]) -> None:
    """What touches, and how much of a line lies inside a box, is what shapely says."""
    with np.errstate(all="raise"):
        touches, lengths = lengths_inside(np.array(some), np.array(pieces))
    for i, box in enumerate(some):
        for j, (x0, y0, x1, y1) in enumerate(pieces):
            line = shapely.LineString([(x0, y0), (x1, y1)])
            inside = shapely.box(*box)
            if box[0] < box[2] and box[1] < box[3]:
                assert lengths[i, j] == pytest.approx(line.intersection(inside).length, abs=1e-9)
                if line.distance(inside) > 1e-9:
                    assert not touches[i, j]
                if inside.contains(line) and line.length:
                    assert touches[i, j]


@given(st.lists(PIECE, min_size=1, max_size=5), st.lists(PIECE, min_size=1, max_size=5))
def test_pieces_crossing(some: list[Four], others: list[Four]) -> None:
    """Two pieces share a place where shapely says that they do."""
    crossing = pieces_cross(np.array(some), np.array(others))
    for i, a in enumerate(some):
        for j, b in enumerate(others):
            if a[:2] == a[2:] or b[:2] == b[2:]:
                continue
            expected = shapely.LineString([a[:2], a[2:]]).intersects(shapely.LineString([b[:2], b[2:]]))
            assert crossing[i, j] == expected


@given(
    st.lists(PIECE, min_size=1, max_size=5),
    boxes(),
    st.lists(st.tuples(NUMBER, NUMBER), min_size=1, max_size=5),
)
def test_distances(pieces: list[Four], box: Four, places: list[tuple[float, float]]) -> None:
    """Distances of places from pieces and from boxes are shapely's."""
    with np.errstate(all="raise"):
        from_pieces = piece_distances(np.array(pieces), np.array(places))
        from_box = box_distances(np.array([box]), np.array(places))
    for j, place in enumerate(places):
        dot = shapely.Point(place)
        assert from_box[0, j] == pytest.approx(shapely.box(*box).distance(dot), abs=1e-9)
        for i, a in enumerate(pieces):
            shape = shapely.LineString([a[:2], a[2:]])
            assert from_pieces[i, j] == pytest.approx(shape.distance(dot), abs=1e-9)


@given(boxes(), boxes())
def test_boxes_touching(a: Four, b: Four) -> None:
    """Two boxes share a place where shapely says so, edges included."""
    assert boxes_touch(np.array([a]), np.array([b]))[0, 0] == shapely.box(*a).intersects(shapely.box(*b))


def test_curves_stray_little_from_their_pieces() -> None:
    """A cubic lies within 0.02 mm of the straight pieces that stand for it."""
    cubic = np.array([[[0, 0], [0, 300], [200, 400], [500, 380]]], dtype=float)
    pieces = pieces_of(cubic)
    t = np.linspace(0, 1, 2001)[:, None]
    s = 1 - t
    places = (
        s**3 * cubic[0, 0] + 3 * s * s * t * cubic[0, 1] + 3 * s * t * t * cubic[0, 2] + t**3 * cubic[0, 3]
    )
    assert piece_distances(pieces, places).min(axis=0).max() <= 0.02
    assert len(pieces_of(np.array([[[0, 0], [1, 1], [2, 2], [3, 3]]], dtype=float))) == 1
    assert len(pieces_of(np.zeros((3, 4, 2)))) == 0


def test_near_pieces_are_all_that_matter() -> None:
    """Only pieces whose own box touches are kept."""
    pieces = np.array([[0, 0, 10, 10], [20, 0, 30, 0], [5, 5, 5, 50]], dtype=float)
    assert near(pieces, np.array([8.0, 8.0, 12.0, 12.0])).tolist() == [[0, 0, 10, 10]]


@given(st.lists(PIECE, max_size=5), st.floats(1, 12), st.floats(1, 12))
def test_free_rectangles_are_empty(pieces: list[Four], width: float, height: float) -> None:
    """A rectangle said to be free has no line in it, but for less than a square at its edges."""
    rows = np.array(pieces).reshape(-1, 4)
    ground = squared(np.array([-25.0, -25.0, 25.0, 25.0]), rows, np.zeros((0, 4)), 0.5)
    lines = shapely.MultiLineString([[a[:2], a[2:]] for a in pieces if a[:2] != a[2:]])
    for x, y in ground.free(width, height)[::7]:
        shape = shapely.box(x, y, x + width, y + height).buffer(-0.5)
        assert not shape.intersects(lines)

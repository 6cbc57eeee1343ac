"""Paths, boxes and transforms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from fontTools.misc.bezierTools import calcCubicBounds  # type: ignore[import-untyped]
from hypothesis import given
from hypothesis import strategies as st

from tapewright.drawing import (
    Bend,
    Box,
    Close,
    Move,
    Path,
    To,
    Transform,
    box_round,
    circle,
    from_cubics,
    rectangle,
    straight,
    through,
)

PLACE = st.floats(-1000, 1000, allow_nan=False).map(lambda v: round(v, 3))
CUBIC = st.tuples(*[st.tuples(PLACE, PLACE)] * 4)


@given(CUBIC)
def test_box_agrees_with_fonttools(cubic: tuple[tuple[float, float], ...]) -> None:
    """A cubic's box is that of the reference library fontTools, to a millionth of a millimetre."""
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = cubic
    box = Path((Move(x0, y0), Bend(x1, y1, x2, y2, x3, y3))).box()
    assert box is not None
    expected = calcCubicBounds(*cubic)
    assert (box.left, box.top, box.right, box.bottom) == pytest.approx(expected, abs=1e-6)


@given(CUBIC)
def test_box_holds_every_sample(cubic: tuple[tuple[float, float], ...]) -> None:
    """No place of a cubic, densely sampled, lies outside its box."""
    path = from_cubics(np.array([cubic]))
    box = path.box()
    if box is None:
        assert len(set(cubic)) == 1
        return
    for x, y in path.flat(64)[0]:
        assert box.padded(1e-6).holds(Box(x, y, x, y))


def test_circle_is_round() -> None:
    """The cubic circle strays from the true one by no more than 27 parts in 100,000 of its radius."""
    away = [math.hypot(x - 3, y + 2) for x, y in circle(3, -2, 100).flat(200)[0]]
    assert max(away) == pytest.approx(100, rel=28e-5)
    assert min(away) == pytest.approx(100, rel=28e-5)


@given(st.floats(-3, 3), st.floats(0.1, 9), PLACE, PLACE, PLACE, PLACE)
def test_transforms_compose(angle: float, by: float, dx: float, dy: float, x: float, y: float) -> None:
    """One transform then another is the two applied in turn; lengths grow by the scale alone."""
    first = Transform.turning(angle).then(Transform.moving(dx, dy))
    second = Transform.scaling(by, about=(dy, dx))
    assert first.then(second)(x, y) == pytest.approx(second(*first(x, y)), abs=1e-6)
    a, b = first.then(second)(x, y), first.then(second)(x + 3, y + 4)
    assert math.dist(a, b) == pytest.approx(5 * by, rel=1e-6)
    assert first.then(second).scale == pytest.approx(by)


def test_turning_is_clockwise_on_the_paper() -> None:
    """A quarter turn takes what lies to the right downward, since y runs down."""
    assert Transform.turning(math.pi / 2)(1, 0) == pytest.approx((0, 1))


def test_scaling_by_nothing_is_refused() -> None:
    """A drawing scaled by 0 or less would be no drawing."""
    with pytest.raises(ValueError, match="more than nothing"):
        Transform.scaling(0)


def test_cubics_of_no_length_are_left_out_and_gaps_lift_the_pen() -> None:
    """A degenerate cubic is dropped; where one does not begin at the last one's end, a new stretch begins."""
    a = [[0, 0], [1, 0], [2, 0], [3, 0]]
    point = [[3, 0]] * 4
    on = [[3, 0], [4, 0], [5, 1], [6, 1]]
    apart = [[10, 1], [11, 1], [12, 1], [13, 1]]
    path = from_cubics(np.array([a, point, on, apart], dtype=float))
    assert [type(step).__name__ for step in path.steps] == ["Move", "Bend", "Bend", "Move", "Bend"]
    assert from_cubics(np.array([point], dtype=float)).steps == ()


@pytest.mark.parametrize("shape", [(2, 2), (1, 3, 2), (1, 4, 3)])
def test_other_arrays_are_refused(shape: tuple[int, ...]) -> None:
    """Only (n, 4, 2) is cubics."""
    with pytest.raises(ValueError, match="n, 4, 2"):
        from_cubics(np.zeros(shape))


def test_a_path_draws_itself_on_a_pen() -> None:
    """Every step reaches the pen, in order, with its own places."""

    class Notes:
        def __init__(self) -> None:
            self.got: list[tuple[object, ...]] = []

        def move(self, x: float, y: float) -> None:
            self.got.append(("move", x, y))

        def to(self, x: float, y: float) -> None:
            self.got.append(("to", x, y))

        def bend(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
            self.got.append(("bend", x1, y1, x2, y2, x, y))

        def close(self) -> None:
            self.got.append(("close",))

    notes = Notes()
    Path((Move(0, 1), To(2, 3), Bend(4, 5, 6, 7, 8, 9), Close())).draw(notes)
    assert notes.got == [("move", 0, 1), ("to", 2, 3), ("bend", 4, 5, 6, 7, 8, 9), ("close",)]


def test_boxes() -> None:
    """Touching includes the edge; what is shared, joined and held is as drawn on paper."""
    a, b = Box(0, 0, 10, 10), Box(10, 4, 20, 6)
    assert a.touches(b)
    assert not a.touches(Box(10.1, 0, 11, 10))
    assert a.joined(b) == Box(0, 0, 20, 10)
    assert a.padded(5).shared(b) == Box(10, 4, 15, 6)
    assert a.holds(Box(0, 0, 10, 10))
    assert not a.holds(b)
    assert box_round([]) is None
    assert box_round([a, b]) == Box(0, 0, 20, 10)
    assert rectangle(a).box() == a
    assert straight(3, 4, 1, 2).box() == Box(1, 2, 3, 4)


def test_through_needs_a_place() -> None:
    """No path begins nowhere."""
    with pytest.raises(ValueError, match="place to begin"):
        through([])

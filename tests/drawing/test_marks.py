"""Marks, drawings and pens."""

from __future__ import annotations

import math

import pytest

from tapewright.drawing import (
    INK,
    PAPER,
    WELD,
    Box,
    Clip,
    Drawing,
    Fill,
    Group,
    Ink,
    Line,
    RecordingPen,
    Stroke,
    Transform,
    Words,
    box_of,
    circle,
    every,
    framed,
    place,
    rectangle,
    set_text,
    straight,
    within,
    words_at,
    words_corners,
)

LINE = Line(0.5)
STROKE = Stroke(straight(0, 0, 10, 0), LINE)


def test_a_drawing_plays_itself_in_order() -> None:
    """Marks reach the pen in the order drawn, groups and clips opened and closed round their own."""
    fill = Fill(circle(5, 5, 2), WELD)
    words = Words(set_text("A", "book", 4.0), 1, 2)
    drawing = Drawing(20, 20, (Group("frame", (STROKE,)), Clip(rectangle(Box(0, 0, 5, 5)), (fill,)), words))
    pen = RecordingPen()
    drawing.play(pen)
    assert [what for what, _ in pen.asked] == [
        "open_group",
        "stroke",
        "close_group",
        "open_clip",
        "fill",
        "close_clip",
        "words",
    ]
    assert pen.asked[1][1] == (STROKE.path, LINE)
    assert pen.asked[6][1] == (words.setting, 1, 2, 0.0, INK)


def test_an_empty_box_is_drawn_for_a_letter_no_face_has() -> None:
    """A hole in the words reaches the pen as a stroke, so that the gap is seen."""
    pen = RecordingPen()
    Drawing(20, 20, (Words(set_text("Ж", "book", 4.0), 1, 10),)).play(pen)
    assert [what for what, _ in pen.asked] == ["words", "stroke"]


def test_placing_moves_what_is_drawn_and_keeps_the_weights() -> None:
    """A transform moves paths, scales and turns lettering, and leaves the widths of lines alone."""
    how = Transform.turning(math.pi / 2).then(Transform.scaling(2)).then(Transform.moving(100, 50))
    stroke = place(STROKE, how)
    assert isinstance(stroke, Stroke)
    assert stroke.line == LINE
    assert stroke.path.flat()[0] == [pytest.approx((100, 50)), pytest.approx((100, 70))]
    words = place(Words(set_text("AB", "book", 4.0), 10, 0), how)
    assert isinstance(words, Words)
    assert (words.x, words.y) == pytest.approx((100, 70))
    assert words.turn == pytest.approx(math.pi / 2)
    assert words.setting.width == pytest.approx(2 * set_text("AB", "book", 4.0).width)


def test_boxes_of_marks() -> None:
    """A stroke's box has its width, a clip's is what is seen of its marks, words' is their turned ink."""
    assert box_of(STROKE) == Box(-0.25, -0.25, 10.25, 0.25)
    assert box_of(Clip(rectangle(Box(5, -1, 30, 1)), (STROKE,))) == Box(5, -0.25, 10.25, 0.25)
    assert box_of(Clip(rectangle(Box(50, 50, 60, 60)), (STROKE,))) is None
    assert box_of(Group("empty", ())) is None
    words = Words(set_text("H", "book", 10.0), 50, 50, -math.pi / 2)
    box = box_of(words)
    assert box is not None
    assert box.height == pytest.approx(words.setting.ink.width)
    assert box.width == pytest.approx(words.setting.ink.height)
    assert box.right == pytest.approx(50, abs=0.2)


def test_what_lies_elsewhere_is_left_out() -> None:
    """Only marks whose box touches a place are kept, inside their groups; empty groups go."""
    far = Stroke(straight(100, 100, 110, 100), LINE)
    kept = within((Group("a", (STROKE, far)), Group("b", (far,)), far), Box(0, -5, 20, 5))
    assert kept == (Group("a", (STROKE,)),)


def test_words_stand_left_middle_or_right() -> None:
    """The same words hung at one place by their three sides differ by half their width."""
    setting = set_text("centre back", "hand", 4.0)
    left, middle, right = (words_at(setting, 50, 9, side=side).x for side in ("left", "middle", "right"))
    assert left == 50
    assert left - middle == pytest.approx(setting.width / 2)
    assert left - right == pytest.approx(setting.width)
    upward = words_at(setting, 50, 9, side="right", turn=-math.pi / 2)
    assert (upward.x, upward.y) == pytest.approx((50, 9 + setting.width))
    assert words_corners(upward)[0][1] == pytest.approx(upward.y - setting.ink.left)


def test_missing_characters_of_a_drawing_are_listed_once() -> None:
    """A drawing can say which letters of all its words no face has."""
    words = [Words(set_text(said, "book", 4.0), 0, 0) for said in ("Жана", "Łódź 衣", "plain")]
    assert Drawing(9, 9, (Group("g", tuple(words)),)).missing() == ("Ж", "а", "н", "衣")


def test_every_opens_groups_and_clips() -> None:
    """All plain marks come out, however deep."""
    assert list(every((Group("a", (framed(Box(0, 0, 1, 1), (STROKE,)),)), STROKE))) == [STROKE, STROKE]


@pytest.mark.parametrize(
    "bad",
    [
        lambda: Line(0.0),
        lambda: Line(1.0, dash=(1.0,)),
        lambda: Line(1.0, dash=(0.0, 0.0)),
        lambda: Line(1.0, dash=(-1.0, 2.0)),
        lambda: Ink("too red", 300, 0, 0),
        lambda: Drawing(0, 10, ()),
        lambda: Drawing(math.inf, 10, ()),
    ],
)
def test_nonsense_is_refused(bad: object) -> None:
    """A line of no width, half a dash, an impossible ink, paper of no size: faults of ours, said at once."""
    with pytest.raises(ValueError, match=r"."):
        bad()  # type: ignore[operator]


def test_plain_inks_are_grey() -> None:
    """Black, white and the greys are grey, so that a printer lays no colour; the tape's ink is not."""
    assert INK.grey
    assert PAPER.grey
    assert not WELD.grey

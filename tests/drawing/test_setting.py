"""Setting words: fractions, names of points, lines, what is missing."""

from __future__ import annotations

import numpy as np
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.drawing import (
    Box,
    Drawing,
    FaceName,
    Setting,
    Words,
    face,
    joined,
    set_lines,
    set_name,
    set_text,
    words_corners,
)
from tapewright.export import pdf

STROKE = "\u2044"


def shown(setting: Setting) -> str:
    return "".join(run.text for run in setting.runs)


@pytest.mark.parametrize("name", ["book", "book-italic", "book-bold", "hand", "hand-bold"])
@pytest.mark.parametrize("said", ["1/2", "5/12", "11/48"])
def test_a_fraction_is_raised_and_lowered(said: str, name: FaceName) -> None:
    """Figure above, stroke, figure below: both smaller, the upper as high as the capitals, the lower on
    the line, and the two apart."""
    top, stroke, below = set_text(said, name, 10.0).runs
    assert (top.text, stroke.text, below.text) == (said.split("/", maxsplit=1)[0], STROKE, said.split("/")[1])
    assert top.size == below.size < stroke.size == 10.0
    assert below.drop == 0.0
    reach = -top.drop + face(top.face).cap_height * top.size
    assert reach == pytest.approx(face(name).cap_height * 10.0)
    assert top.at[0] < stroke.at[0] < below.at[0]


@pytest.mark.parametrize("said", ["1 1/2", "1½", "1-1/2", "1 1\u20442"])
def test_a_mixed_number_has_a_thin_space(said: str) -> None:
    """However a mixed number is typed, the whole number stands a thin space before its fraction."""
    setting = set_text(said, "book", 8.0)
    assert shown(setting) == f"1\u20091{STROKE}2"
    whole, fraction = setting.runs[0], setting.runs[2]
    gap = fraction.at[0] - whole.at[0] - face("book").advance("1") * 8.0
    assert gap == pytest.approx(8.0 / 8)


@pytest.mark.parametrize(
    "said", ["3/5/1630", "1630/31", "and/or", "2.5/3", "1/2.5", "24/7/365", "a/b", "1 / 2", "1/1630"]
)
def test_what_is_no_fraction_stays(said: str) -> None:
    """A date, a ratio with a point, or a stroke between words is set as it was typed."""
    assert shown(set_text(said, "hand", 4.0)) == said or said in {"1630/31", "1/1630"}
    if said in {"1630/31", "1/1630"}:
        assert STROKE not in shown(set_text(said, "hand", 4.0))


def test_all_simple_fractions_of_a_tape_are_set() -> None:
    """Every fraction from halves to forty-eighths is set true inside a sentence."""
    for below in (2, 3, 4, 6, 8, 12, 18, 20, 24, 48):
        for top in range(1, below):
            setting = set_text(f"and {top}/{below} of it", "book", 4.0)
            assert shown(setting) == f"and {top}{STROKE}{below} of it"


@pytest.mark.parametrize(
    ("name", "runs"),
    [
        ("A", [("A", "book-italic")]),
        ("B2", [("B", "book-italic"), ("2", "book")]),
        ("H2'", [("H", "book-italic"), ("2", "book"), ("\u2032", "book")]),
        ("M''", [("M", "book-italic"), ("\u2032\u2032", "book")]),
        ("K12", [("K", "book-italic"), ("12", "book")]),
    ],
)
def test_names_of_points(name: str, runs: list[tuple[str, str]]) -> None:
    """Letter in italic, figure small and lowered, primes true primes."""
    setting = set_name(name, 6.0)
    assert [(run.text, run.face) for run in setting.runs] == runs
    for run in setting.runs:
        if run.text.isdigit():
            assert run.size < 6.0
            assert run.drop > 0


def test_a_figure_keeps_clear_of_its_letter() -> None:
    """Q's tail reaches under; its figure stands right of it all the same."""
    letter, figure = set_name("Q2", 10.0).runs
    ink = face("book-italic").ink("Q")
    assert ink is not None
    assert figure.at[0] >= letter.at[0] + ink.right * 10.0


def ink_on_page(setting: Setting, turn: float) -> Box:
    """The box of the dark pixels of words drawn alone at 20 pixels a mm, in mm."""
    drawing = Drawing(60.0, 60.0, (Words(setting, 30.0, 30.0, turn),))
    page = pypdfium2.PdfDocument(pdf([drawing], title=""))[0]
    picture = page.render(scale=20 * 25.4 / 72, grayscale=True).to_numpy()
    rows, columns = np.nonzero(picture < 128)
    return Box(columns.min() / 20, rows.min() / 20, (columns.max() + 1) / 20, (rows.max() + 1) / 20)


@pytest.mark.parametrize(
    ("setting", "turn"),
    [
        (set_text("Agfj 1 1/2", "book", 5.0), 0.0),
        (set_text("scye line", "hand", 5.0), -np.pi / 2),
        (set_name("Q2'", 8.0), 0.0),
        (set_text("5/12", "hand-bold", 8.0), np.pi / 2),
    ],
)
def test_the_box_of_the_ink_is_where_the_ink_is(setting: Setting, turn: float) -> None:
    """Rendered by PDFium, the ink fills its computed box to within a tenth of a millimetre."""
    seen = ink_on_page(setting, turn)
    corners = words_corners(Words(setting, 30.0, 30.0, turn))
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    assert (seen.left, seen.top, seen.right, seen.bottom) == pytest.approx(
        (min(xs), min(ys), max(xs), max(ys)), abs=0.1
    )


def test_what_a_face_lacks_is_named_and_never_dropped() -> None:
    """A letter with a mark that the face lacks falls back to its plain letter, a foreign one to an empty box; both named."""
    setting = set_text("Žoṽie Ж", "book", 4.0)
    assert setting.missing == ("ṽ", "Ж")
    assert shown(setting) == "Žovie "
    assert len(setting.holes) == 1
    assert setting.ink.right >= setting.holes[0].right


def test_breaks_and_control_characters() -> None:
    """A line end or a tab is a space; what cannot be shown is listed, not set."""
    setting = set_text("a\tb\nc\x00d\u200b", "book", 4.0)
    assert shown(setting) == "a b cd"
    assert setting.missing == ("\x00", "\u200b")


@given(st.text(max_size=40))
def test_any_text_can_be_set(words: str) -> None:
    """No text at all makes the setter fail, and places never run backward by more than kerning."""
    setting = set_text(words, "hand", 5.0)
    assert np.isfinite(setting.width)
    for run in setting.runs:
        assert len(run.at) == len(run.text)
        assert all(b - a > -2.0 for a, b in zip(run.at, run.at[1:], strict=False))


def test_lines_keep_to_the_width_and_lose_nothing() -> None:
    """Wrapped words fit, come back in order, and no mixed number or unit is parted."""
    words = "Lay the tape along the scye from the ridge: 42.6 cm, or 5/12 and 2 1/4 parts of the bust tape."
    for width in (30.0, 45.0, 80.0):
        lines = set_lines(words, "hand", 4.0, width)
        assert all(line.width <= width for line in lines)
        assert " ".join(line.said for line in lines).replace("\u00a0", " ") == words
        assert not any(line.said.endswith("and 2") or line.said.endswith("42.6") for line in lines)


def test_a_word_too_long_stands_alone() -> None:
    """A word wider than the line is set whole on a line of its own."""
    lines = set_lines("a Donaudampfschifffahrt b", "book", 6.0, 15.0)
    assert [line.said for line in lines] == ["a", "Donaudampfschifffahrt", "b"]


def test_joined_settings_stand_one_after_the_other() -> None:
    """Two faces in one line: the second starts where the first ends, plus the gap."""
    a, b = set_text("5 parts", "book", 5.0), set_text("9.6 cm", "hand", 4.0)
    both = joined([a, b], 2.0)
    assert both.width == pytest.approx(a.width + 2.0 + b.width)
    assert both.runs[-1].at[0] == pytest.approx(a.width + 2.0)
    assert both.ink.right == pytest.approx(a.width + 2.0 + b.ink.right)


def test_scaling_a_setting_is_setting_it_larger() -> None:
    """Twice as large is what setting at twice the size gives."""
    small, large = set_text("1 1/2 parts", "book", 4.0), set_text("1 1/2 parts", "book", 8.0)
    assert small.scaled(2).width == pytest.approx(large.width)
    assert small.scaled(2).ink.right == pytest.approx(large.ink.right)


@pytest.mark.parametrize("size", [0.0, -1.0])
def test_type_needs_a_size(size: float) -> None:
    """Words of no size are a fault of the caller."""
    with pytest.raises(ValueError, match="size"):
        set_text("a", "book", size)

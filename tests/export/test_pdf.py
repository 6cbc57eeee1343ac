"""The PDF writer, read back with PDFium."""

from __future__ import annotations

import hashlib
import math
import subprocess
import sys

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapewright.drawing import (
    SOFT,
    WELD,
    Bend,
    Box,
    Clip,
    Drawing,
    Fill,
    Group,
    Line,
    Move,
    Path,
    Stroke,
    To,
    Words,
    circle,
    rectangle,
    set_name,
    set_text,
    straight,
    through,
)
from tapewright.export import pdf
from tests.export.reading import characters, page_sizes, paths, words

PLACE = st.floats(0.5, 900, allow_nan=False).map(lambda v: round(v, 2))


def a_drawing() -> Drawing:
    """One of every kind of mark, dashes, three faces, a fraction, a turned name."""
    return Drawing(
        210,
        297,
        (
            Group("frame", (Stroke(through([(10, 10), (110, 10), (110, 80)]), Line(0.3)),)),
            Stroke(circle(60, 50, 20), Line(0.6, WELD, (2, 1), cap="round")),
            Clip(rectangle(Box(20, 100, 60, 140)), (Fill(circle(40, 120, 30), SOFT),)),
            Words(set_text("1/6 of the neck tape and 1 1/2 parts", "book", 5.0), 20, 160),
            Words(set_text("centre front", "hand", 4.0), 150, 160, -math.pi / 2),
            Words(set_name("H2'", 5.0), 20, 170),
        ),
        "a plate",
    )


def test_one_millimetre_is_one_millimetre() -> None:
    """Lines of 1,000 mm across and down, read back from the page's own path, agree to 0.01 %."""
    drawing = Drawing(1100, 1200, (Stroke(through([(50, 60), (1050, 60), (1050, 1060)]), Line(0.3)),))
    (path,) = paths(pdf([drawing], title="scale"))
    (ax, ay), (bx, by), (cx, cy) = path.places
    assert bx - ax == pytest.approx(1000, rel=1e-4)
    assert cy - by == pytest.approx(1000, rel=1e-4)
    assert (ax, ay, by, cx) == pytest.approx((50, 60, 60, 1050), abs=0.02)


@settings(max_examples=40)
@given(st.lists(st.tuples(PLACE, PLACE, PLACE, PLACE, PLACE, PLACE), min_size=1, max_size=5))
def test_every_place_is_read_back(bends: list[tuple[float, float, float, float, float, float]]) -> None:
    """Straight lines and cubics come back step for step where they were drawn, y turned over and back."""
    path = Path((Move(1, 2), To(3, 4), *(Bend(*bend) for bend in bends)))
    (seen,) = paths(pdf([Drawing(1000, 1000, (Stroke(path, Line(0.5)),))], title=""))
    flat = [(1, 2), (3, 4)] + [(b[i], b[i + 1]) for b in bends for i in (0, 2, 4)]
    assert [kind for kind, _, _ in seen.steps] == ["move", "to"] + ["bend"] * 3 * len(bends)
    for (x, y), (ex, ey) in zip(seen.places, flat, strict=True):
        assert (x, y) == pytest.approx((ex, ey), abs=0.01)
    assert seen.width == pytest.approx(0.5, rel=1e-4)


def test_pages_are_as_large_as_their_drawings() -> None:
    """A4 and US Letter come out at their own sizes, in the order given."""
    sizes = [(210.0, 297.0), (215.9, 279.4), (900.0, 1234.5)]
    got = page_sizes(pdf([Drawing(w, h, ()) for w, h in sizes], title="three"))
    for size, expected in zip(got, sizes, strict=True):
        assert size == pytest.approx(expected, rel=1e-5)


def test_the_same_drawing_is_the_same_bytes() -> None:
    """Two writes of one drawing differ in nothing."""
    assert pdf([a_drawing(), a_drawing()], title="t") == pdf([a_drawing(), a_drawing()], title="t")


@pytest.mark.parametrize("seeds", [("1", "2")])
def test_two_processes_write_the_same_bytes(seeds: tuple[str, str]) -> None:
    """Nothing depends on the process: other hash seeds, the same file."""
    code = (
        "import hashlib, sys; from tests.export.test_pdf import a_drawing; from tapewright.export import pdf;"
        "print(hashlib.sha256(pdf([a_drawing()], title='t')).hexdigest())"
    )
    printed = [
        subprocess.run(
            [sys.executable, "-c", code],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(sys.path)},
            capture_output=True,
            text=True,
            check=True,
        ).stdout.strip()
        for seed in seeds
    ]
    here = hashlib.sha256(pdf([a_drawing()], title="t")).hexdigest()
    assert printed == [here, here]


def test_words_can_be_read_and_searched() -> None:
    """The text of the page is the text that was set, fractions with their true stroke."""
    seen = words(pdf([a_drawing()], title="t"))
    assert "of the neck tape and" in seen
    assert "1\u20446" in seen
    assert "centre front" in seen


def test_each_letter_stands_where_it_was_set() -> None:
    """The origin of every character, read back, is its place in the setting to 0.01 mm; kerned, turned."""
    for turn in (0.0, -math.pi / 2, 0.3):
        setting = set_text("AVAIL To 1 1/2 Wax", "book", 8.0)
        drawing = Drawing(200, 200, (Words(setting, 100, 100, turn),))
        expected = [
            (
                c,
                100 + at * math.cos(turn) - run.drop * math.sin(turn),
                100 + at * math.sin(turn) + run.drop * math.cos(turn),
            )
            for run in setting.runs
            for c, at in zip(run.text, run.at, strict=True)
            if not c.isspace()
        ]
        seen = [c for c in characters(pdf([drawing], title="t")) if not c.character.isspace()]
        assert "".join(c.character for c in seen) == "".join(c for c, _, _ in expected)
        for got, (_, x, y) in zip(seen, expected, strict=True):
            assert (got.x, got.y) == pytest.approx((x, y), abs=0.01)


def test_the_faces_are_in_the_file() -> None:
    """Both typefaces are embedded, cut down; no font of the viewer's is asked for but the unused default."""
    data = pdf([a_drawing()], title="t")
    assert data.count(b"/FontFile2") >= 3
    assert b"Literata" in data
    assert b"Ysabeau" in data
    assert b"Helvetica" not in data


def test_it_says_its_title_and_no_time() -> None:
    """The title is the caller's, the date a fixed one, and the reader is asked not to scale the page."""
    data = pdf([a_drawing()], title="A bodice of 1780")
    about = pypdfium2.PdfDocument(data).get_metadata_dict()
    assert about["Title"] == "A bodice of 1780"
    assert about["CreationDate"].startswith("D:20000101")
    assert about["Author"] == about["Subject"] == ""
    assert b"/Lang (en-GB)" in data
    whose = pdf([a_drawing()], title="A bodice of 1780", subject="For Hester Amory")
    assert pypdfium2.PdfDocument(whose).get_metadata_dict()["Subject"] == "For Hester Amory"
    assert b"/PrintScaling /None" in data


def test_a_clip_shows_only_what_lies_inside() -> None:
    """Rendered, a clipped disc has ink inside its clip and none outside it."""
    drawing = Drawing(100, 100, (Clip(rectangle(Box(0, 0, 50, 100)), (Fill(circle(50, 50, 30), SOFT),)),))
    picture = pypdfium2.PdfDocument(pdf([drawing], title=""))[0].render(scale=72 / 25.4, grayscale=True)
    pixels = picture.to_numpy()
    scale = pixels.shape[1] / 100
    assert pixels[int(50 * scale), int(40 * scale)] < 128
    assert pixels[int(50 * scale), int(60 * scale)] == 255


def test_a_pdf_needs_a_page() -> None:
    """Nothing to print is a fault of the caller."""
    with pytest.raises(ValueError, match="one page"):
        pdf([], title="t")


def test_any_title_is_taken() -> None:
    """Quotes, brackets and letters of other scripts in a title do not break the file."""
    title = "L'habit (à la française) \\ “fin” 衣"
    data = pdf([Drawing(10, 10, (Stroke(straight(0, 0, 1, 1), Line(0.1)),), title)], title=title)
    assert pypdfium2.PdfDocument(data).get_metadata_dict()["Title"] == title

"""The graduating fan, read back from the PDF: every strip takes its parts, on every paper.

The outside check is arithmetic: a strip of L mm in n parts has its marks at k L / n. Where a strip just
spans is found on the printed lines alone, as whoever lays one finds it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapewright.drawing import Box
from tapewright.export import pdf
from tapewright.pages import A3, A4, LETTER, ONE_PAGE, Pages, Paper
from tapewright.pages.fan_lines import checks_of
from tapewright.pages.fan_sheet import NoRoomForFan, fan_pages
from tapewright.tapes import Fan
from tests.export.reading import page_sizes, paths, words
from tests.pages.seen import squares

ROLL = Paper("roll, 90 cm wide", 900.0, None)
NARROW = Paper("roll, 60 cm wide", 600.0, None)
PAPERS = (A4, LETTER, A3, ONE_PAGE, ROLL, NARROW)
FANS = (Fan(), Fan(folded=True))
#: What the marks may be out by, in mm.
ALLOWED = 0.2


@dataclass(frozen=True)
class Seen:
    """A line of the fan as it stands on the joined sheet, and the windows of the pages it is printed on."""

    x0: float
    y0: float
    x1: float
    y1: float

    def at(self, y: float) -> float:
        return self.x0 + (self.x1 - self.x0) * (y - self.y0) / (self.y1 - self.y0)


@cache
def printed(fan: Fan, paper: Paper) -> tuple[Pages, bytes]:
    pages = fan_pages(fan, paper)
    return pages, pdf(pages.drawings, title="fan")


@cache
def lines_on(fan: Fan, paper: Paper) -> list[tuple[Box, list[Seen]]]:
    """For each page its window on the joined sheet, and the fan's lines that it shows, in order across.

    A fan's line is a stroke of one piece from the top of the fan to its foot, neither level nor dashed.
    """
    pages, data = printed(fan, paper)
    deep = fan.depth - fan.top
    found = []
    for i, page in enumerate(pages.pages):
        if page.window is None and len(pages.pages) > 1:
            continue
        window = page.window or Box(0, 0, page.drawing.width, page.drawing.height)
        left, top = page.corner or (0.0, 0.0)
        lines = []
        for path in paths(data, i):
            if path.stroked and [kind for kind, _, _ in path.steps] == ["move", "to"]:
                (x0, y0), (x1, y1) = path.places
                if abs(abs(y1 - y0) - deep) < 0.05:
                    dx, dy = window.left - left, window.top - top
                    lines.append(Seen(x0 + dx, y0 + dy, x1 + dx, y1 + dy))
        found.append((window, sorted(lines, key=lambda line: line.x1)))
    return found


def spans_at(fan: Fan, first: Seen, last: Seen, strip: float) -> float:
    """Where, down the joined sheet, the first and the last line are a strip apart."""
    wide = strip / 2 if fan.folded else strip
    top, foot = first.y0, first.y1
    at_top, at_foot = last.at(top) - first.at(top), last.at(foot) - first.at(foot)
    return top + (foot - top) * (wide - at_top) / (at_foot - at_top)


def outer(fan: Fan, paper: Paper) -> tuple[Seen, Seen]:
    """The first and the last line of the fan."""
    every = [line for _, lines in lines_on(fan, paper) for line in lines]
    return min(every, key=lambda line: line.x1), max(every, key=lambda line: line.x1)


def marks_of(fan: Fan, paper: Paper, strip: float) -> list[float]:
    """Where the printed lines cross a strip that just spans, from its beginning, each once.

    Only what is visible counts: a crossing is read from a page whose window holds it.
    """
    first, last = outer(fan, paper)
    y = spans_at(fan, first, last, strip)
    seen: list[float] = []
    for window, lines in lines_on(fan, paper):
        if window.top <= y <= window.bottom:
            seen += [line.at(y) for line in lines if window.left <= line.at(y) <= window.right]
    marks: list[float] = []
    for x in sorted(seen):
        if not marks or x - first.at(y) - marks[-1] > 0.5:
            marks.append(x - first.at(y))
    return marks


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
@pytest.mark.parametrize("fan", FANS, ids=["whole", "folded"])
@pytest.mark.parametrize("strip", [500.0, 612.5, 777.0, 925.3, 1001.0, 1148.9, 1300.0])
def test_a_strip_takes_its_48_parts(fan: Fan, paper: Paper, strip: float) -> None:
    """On the printed lines every mark is at its part of the strip, to a fifth of a millimetre, and none is
    wanting; 50 to 130 cm."""
    marks = marks_of(fan, paper, strip)
    wanted = [strip * k / 48 for k in range((24 if fan.folded else 48) + 1)]
    assert len(marks) == len(wanted)
    assert max(abs(a - b) for a, b in zip(marks, wanted, strict=True)) < ALLOWED


@settings(max_examples=150, deadline=None)
@given(st.floats(100.5, 1329.5), st.sampled_from(PAPERS), st.sampled_from(FANS))
def test_any_strip_of_the_range_that_is_printed_on_it(strip: float, paper: Paper, fan: Fan) -> None:
    """The same for half girths, wrists and everything else between 10 and 133 cm."""
    marks = marks_of(fan, paper, strip)
    wanted = [strip * k / 48 for k in range((24 if fan.folded else 48) + 1)]
    assert len(marks) == len(wanted)
    assert max(abs(a - b) for a, b in zip(marks, wanted, strict=True)) < ALLOWED


@settings(max_examples=40, deadline=None)
@given(st.integers(2, 60), st.floats(0.05, 1.0))
def test_any_number_of_parts(parts: int, share: float) -> None:
    """A fan of any number of parts has a line for each, and for the simple fractions between them."""
    fan = Fan(parts=parts, longest=1000.0)
    y = fan.at(1000.0 * share)
    places = {line.share: fan.x(line.share, y) - fan.x(0, y) for line in fan.lines}
    for k in range(parts + 1):
        assert places[Fraction(k, parts)] == pytest.approx(1000.0 * share * k / parts, abs=1e-6)
    for simple in (Fraction(1, 3), Fraction(3, 8), Fraction(11, 12)):
        assert places[simple] == pytest.approx(1000.0 * share * float(simple), abs=1e-6)


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
@pytest.mark.parametrize("fan", FANS, ids=["whole", "folded"])
def test_the_check_rules_say_true(fan: Fan, paper: Paper) -> None:
    """Along each dashed rule the printed lines stand the said length apart, to 0.1 %: 1 and 2 cm, 1/2 and 1 in."""
    first, _ = outer(fan, paper)
    found = checks_of(fan)
    assert [check.words for check in found] == ["1 cm", "1/2 in", "2 cm", "1 in"]
    steps = {"1 cm": 10.0, "1/2 in": 12.7, "2 cm": 20.0, "1 in": 25.4}
    for check in found:
        marks = marks_of(fan, paper, steps[check.words] * 48)
        assert np.allclose(np.diff(marks), steps[check.words], rtol=1e-3)
    said = " ".join(words(printed(fan, paper)[1], i) for i in range(len(printed(fan, paper)[0].pages)))
    assert "parts 2 cm apart" in said
    assert "parts 1 in apart" in said
    assert first.y1 > first.y0


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
def test_both_squares_and_the_instructions_stand_on_the_first_page(paper: Paper) -> None:
    """100 mm and 4 in, true to 0.01 %; what to do; and the page is as large as its paper."""
    for fan in FANS:
        pages, data = printed(fan, paper)
        assert squares(paths(data, 0), 100.0)[0][2:] == pytest.approx((100, 100), rel=1e-4)
        assert squares(paths(data, 0), 101.6)[0][2:] == pytest.approx((101.6, 101.6), rel=1e-4)
        said = " ".join(words(data, 0).split())
        assert "slide it up or down until it just spans" in said
        assert "4." in said
        assert pages.squares_on == pages.pages[0].label
        if paper.cut_sheet:
            for size in page_sizes(data):
                assert sorted(size) == pytest.approx(sorted((paper.width or 0, paper.height or 0)), abs=0.1)


def test_the_words_stand_clear_of_the_fan() -> None:
    """On a single sheet neither the words nor the squares lie on the lines."""
    from tapewright.drawing import Stroke, Words, box_of, every

    for fan in FANS:
        (drawing,) = fan_pages(fan, ONE_PAGE).drawings
        first, last = outer(fan, ONE_PAGE)
        told = 0
        for mark in every(drawing.marks):
            box = box_of(mark)
            at_left = box is not None and box.left < 20 and box.bottom < first.y1 - 60
            if isinstance(mark, Words) and box is not None and at_left:
                assert box.right < first.at(max(box.bottom, first.y0)) - 5
                told += 1
            if (
                isinstance(mark, Stroke)
                and box is not None
                and 100 < box.width < 103
                and 100 < box.height < 103
            ):
                assert box.left > last.at(max(box.bottom, last.y0)) + 5
        assert told > 6


@settings(max_examples=100, deadline=None)
@given(st.floats(500, 1300), st.floats(-0.01, 0.01))
def test_the_crease_tells_of_a_strip_laid_aslant(strip: float, slant: float) -> None:
    """A strip whose ends touch the outer lines but which lies aslant is out most at its middle: so when the
    crease lies on the middle line, every mark is right. Reckoned from the printed lines of the one-page fan."""
    fan = Fan()
    lines = lines_on(fan, ONE_PAGE)[0][1]
    first, last = lines[0], lines[-1]
    # A slanting line through the place that is level with where the strip would just span, its crossings.
    y = spans_at(fan, first, last, strip)
    middle = (first.at(y) + last.at(y)) / 2

    def crossing(line: Seen) -> float:
        lean = (line.x1 - line.x0) / (line.y1 - line.y0)
        # x = line.at(y + (x - middle) slant)
        return (line.at(y) - lean * slant * middle) / (1 - lean * slant)

    xs = np.array([crossing(line) for line in lines])
    marks = (xs - xs[0]) / (xs[-1] - xs[0]) * strip
    out = np.abs(marks - strip * np.arange(49) / 48)
    assert out.argmax() in {23, 24, 25} or out.max() < 0.01
    if out[24] <= 0.15:
        assert out.max() < ALLOWED


def test_what_a_fan_cannot_be_is_refused() -> None:
    """Faults of the caller: no range, parts too fine, an odd number to be folded, a roll too narrow."""
    with pytest.raises(ValueError, match="a fan takes strips"):
        Fan(longest=90.0)
    with pytest.raises(ValueError, match="a fan takes strips"):
        Fan(longest=math.inf)
    with pytest.raises(ValueError, match="a fan takes strips"):
        Fan(shortest=0.0)
    with pytest.raises(ValueError, match="too fine"):
        Fan(parts=1)
    with pytest.raises(ValueError, match="too fine"):
        Fan(parts=500)
    with pytest.raises(ValueError, match="even number"):
        Fan(parts=27, folded=True)
    with pytest.raises(NoRoomForFan, match="across its lines"):
        fan_pages(Fan(), Paper("roll, 40 cm wide", 400.0, None))


def test_the_same_fan_is_the_same_bytes() -> None:
    """Two writes of one fan differ in nothing."""
    pages = fan_pages(Fan(), A4)
    assert pdf(pages.drawings, title="f") == pdf(fan_pages(Fan(), A4).drawings, title="f")

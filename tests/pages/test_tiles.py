"""Drawings over several pages: that they join, and that nothing is lost."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString
from shapely.geometry import box as polygon

from tapewright.drawing import Group, Line, Stroke, Words, box_of, every, set_text, straight, through
from tapewright.export import pdf
from tapewright.pages import (
    A3,
    A4,
    FULL,
    HALF,
    LETTER,
    Block,
    Cover,
    Page,
    Pages,
    Paper,
    Plate,
    PlateCheck,
    Scale,
    plate_pages,
    tile,
)
from tapewright.pages.counting import in_words, listed, ordinal
from tapewright.pages.layout import OVERLAP, better_way, grid_over
from tests.export.reading import paths, words
from tests.pages.bodice import bodice

COVER = Cover("A skirt", "Hester Amory, 3 May", "A skirt  Hester Amory, 3 May", (), ())
HEAVY = Line(0.9)


def sheets(pages: Pages) -> list[tuple[int, Page]]:
    """The pages that show the drawing, with their place in the file."""
    return [(i, page) for i, page in enumerate(pages.pages) if page.window]


def big(width: float = 700.0, height: float = 600.0) -> Block:
    """A large frame with both its diagonals."""
    w, h = width - 10, height - 10
    round_it = Stroke(through([(5, 5), (w, 5), (w, h), (5, h)], closed=True), HEAVY)
    return Block(
        width, height, (round_it, Stroke(straight(5, 5, w, h), HEAVY), Stroke(straight(5, h, w, 5), HEAVY))
    )


@pytest.mark.parametrize("paper", [A4, A4.turned(), LETTER], ids=lambda p: f"{p.name} {p.width}")
def test_every_page_shows_its_window_at_true_scale(paper: Paper) -> None:
    """The lines of every page, read from its PDF and moved back by its window, are the drawing's own."""
    block = big()
    pages = tile(block, paper, FULL, COVER)
    data = pdf(pages.drawings, title="t")
    expected = [np.array(mark.path.flat()[0]) for mark in block.marks if isinstance(mark, Stroke)]
    for i, page in sheets(pages):
        assert page.window is not None
        assert page.corner is not None
        back = np.array([page.window.left - page.corner[0], page.window.top - page.corner[1]])
        heavy = [p for p in paths(data, i) if abs(p.width - 0.9) < 1e-3]
        assert heavy
        for path in heavy:
            places = np.array(path.places) + back
            assert any(
                len(places) in {len(line), len(line) - 1}
                and np.abs(places - line[: len(places)]).max() < 0.01 * 700 / 100
                for line in expected
            )


@settings(max_examples=60, deadline=None)
@given(st.floats(100, 3000), st.floats(100, 3000), st.sampled_from([A4, A4.turned(), LETTER]))
def test_windows_cover_the_drawing_and_overlap_alike(width: float, height: float, paper: Paper) -> None:
    """Windows fill the whole drawing, neighbours share exactly the overlap, and none could be spared."""
    grid = grid_over(Block(width, height, ()), paper)
    last = grid.window((grid.down - 1, grid.across - 1))
    assert last.right >= width - 1e-6
    assert last.bottom >= height - 1e-6
    for row, column in grid.places():
        here = grid.window((row, column))
        assert grid.window((row, column + 1)).left == pytest.approx(here.right - OVERLAP)
        assert grid.window((row + 1, column)).top == pytest.approx(here.bottom - OVERLAP)
    assert grid.across == 1 or grid.window((0, grid.across - 2)).right < width
    assert grid.down == 1 or grid.window((grid.down - 2, 0)).bottom < height


def crosses(data: bytes, i: int, page: Page) -> set[tuple[float, float]]:
    """Middles of the registration crosses of a page, in the drawing's own mm, rounded to 0.01."""
    assert page.window is not None
    assert page.corner is not None
    found = set()
    for path in paths(data, i):
        if [kind for kind, _, _ in path.steps] == ["move", "to", "move", "to"]:
            (x0, y0), (x1, y1), (x2, y2), (x3, y3) = path.places
            if abs(y0 - y1) < 1e-3 and abs(x2 - x3) < 1e-3 and abs(x1 - x0 - 8) < 0.01:
                assert (x0 + x1) / 2 == pytest.approx(x2, abs=1e-3)
                assert (y2 + y3) / 2 == pytest.approx(y0, abs=1e-3)
                found.add(
                    (
                        round(x2 + page.window.left - page.corner[0], 2),
                        round(y0 + page.window.top - page.corner[1], 2),
                    )
                )
    return found


def test_crosses_meet_on_neighbouring_pages() -> None:
    """On every shared edge both pages bear the same crosses, at its two ends and in its middle."""
    pages = tile(big(), A4, FULL, COVER)
    data = pdf(pages.drawings, title="t")
    shown = {page.label: (page, crosses(data, i, page)) for i, page in sheets(pages)}
    edges = 0
    for label, (page, here) in shown.items():
        row, column = (int(n) for n in label.split("-"))
        beyond, below = f"{row}-{column + 1}", f"{row + 1}-{column}"
        for other, axis in ((beyond, 0), (below, 1)):
            if other in shown:
                window = shown[other][0].window
                assert window is not None
                assert page.window is not None
                edge = (window.left, window.top)[axis]
                on_edge = {c for c in here if abs(c[axis] - edge) < 0.02}
                assert len(on_edge) >= 3
                assert on_edge <= shown[other][1]
                edges += 1
    assert edges >= 12


def test_blank_pages_are_left_out_and_named() -> None:
    """A drawing in two far corners leaves the pages between out; the first page names them and the rest
    are all there."""
    corner = Stroke(straight(5, 5, 60, 60), HEAVY)
    other = Stroke(straight(600, 700, 660, 790), HEAVY)
    pages = tile(Block(700, 800, (corner, other)), A4, FULL, COVER)
    grid = grid_over(Block(700, 800, ()), A4)
    labels = [page.label for _, page in sheets(pages)]
    assert set(labels).isdisjoint(pages.left_out)
    assert len(labels) + len(pages.left_out) == grid.across * grid.down
    assert labels[0] == "1-1"
    assert len(labels) < 4
    said = words(pdf(pages.drawings, title="t")).replace("\r\n", " ")
    assert "would be blank" in said
    assert all(name in said for name in pages.left_out)


def test_nothing_is_left_out_that_has_a_line() -> None:
    """A diagonal too long for its box to tell touches exactly the pages that are printed."""
    pages = tile(Block(700, 800, (Stroke(straight(5, 5, 690, 790), HEAVY),)), A4, FULL, COVER)
    plain = grid_over(Block(700, 800, ()), A4)
    window, label = next((page.window, page.label) for _, page in sheets(pages) if page.window)
    row, column = (int(n) - 1 for n in label.split("-"))
    sx, sy = plain.step
    grid = replace(plain, left=window.left - column * sx, top=window.top - row * sy)
    t = np.linspace(0, 1, 20001)
    places = np.stack([5 + 685 * t, 5 + 785 * t], axis=1)
    expected = set()
    for row, column in grid.places():
        own = grid.own((row, column))
        inside = (
            (places[:, 0] >= own.left)
            & (places[:, 0] <= own.right)
            & (places[:, 1] >= own.top)
            & (places[:, 1] <= own.bottom)
        )
        if inside.any():
            expected.add(f"{row + 1}-{column + 1}")
    assert {page.label for _, page in sheets(pages)} == expected


def test_a_bodice_is_joined_from_the_fewest_pages() -> None:
    """At full size on A4 the plate is six pages and a first one, labelled by row and column."""
    pages = plate_pages(bodice(), A4, FULL)
    assert [page.label for page in pages.pages] == ["the map", "1-1", "1-2", "1-3", "2-1", "2-2", "2-3"]
    assert pages.squares_on == "the map"
    assert pages.says[0] == "Six pages besides this one."
    data = pdf(pages.drawings, title="t")
    for i, page in sheets(pages):
        seen = words(data, i)
        assert page.label in seen
        assert "Hester Amory" in seen
        assert "Full size" in seen
    assert "lay 1-2 over, to the dotted edge" in words(data, 1)
    assert "lay 2-1 over, to the dotted edge" in words(data, 1)


def test_the_better_way_needs_fewer_pages() -> None:
    """Paper is laid down where that saves pages, and left upright where it does not."""
    wide = Block(270, 150, ())
    assert better_way(wide, A4) == A4.turned()
    assert better_way(Block(150, 270, ()), A4) == A4


def test_paper_hardly_larger_than_the_overlap_is_refused() -> None:
    """A label printer is no place for a bodice."""
    with pytest.raises(ValueError, match="too small"):
        grid_over(big(), Paper("label", 40.0, 40.0))


def test_counting() -> None:
    """Counts in words, lists with an and, places in words."""
    assert [in_words(n) for n in (0, 1, 7, 12, 13)] == ["no", "one", "seven", "twelve", "13"]
    assert [listed(s) for s in ([], ["A1"], ["A1", "B2"], ["A", "B", "C"])] == [
        "",
        "A1",
        "A1 and B2",
        "A, B and C",
    ]
    assert [ordinal(n) for n in (1, 2, 12, 13, 21, 22, 23, 111)] == [
        *("first", "second", "twelfth", "13th", "21st", "22nd", "23rd", "111th")
    ]


def test_the_first_page_counts_those_that_follow_it() -> None:
    """Pages of the drawing and pages of checks are counted apart, and both are there."""
    checks = tuple(PlateCheck(f"Check number {n} holds.", True) for n in range(90))
    pages = plate_pages(replace(bodice(), checks=checks), A4, FULL)
    told = [page for page in pages.pages if page.window is None][1:]
    assert len(told) == 2
    assert pages.says[0] == "Six pages besides this one, and two more for the checks."
    assert len(pages.pages) == 1 + 6 + 2


def test_the_first_page_says_how_pages_are_named() -> None:
    """A name with a figure could be a point's: the cover says which row and which column is meant."""
    said = words(pdf(plate_pages(bodice(), A4, FULL).drawings, title="t"), 0).replace("\r\n", " ")
    assert "2-3 is the second row, third column" in said


def test_many_blank_pages_are_counted_not_listed() -> None:
    """A drawing twelve metres long has its map all the same: the list of blank pages may not push it out."""
    far = (Stroke(straight(5, 5, 60, 60), HEAVY), Stroke(straight(11700, 9100, 11790, 9190), HEAVY))
    pages = tile(Block(11800, 9200, far), A4, FULL, COVER)
    assert any(f"{len(pages.left_out)} would be blank" in line for line in pages.says)
    assert len(pages.pages) - 1 < 8
    assert any(isinstance(m, Group) and m.name == "map" for m in pages.pages[0].drawing.marks)


def test_names_on_the_map_hide_no_line() -> None:
    """No name on the map stands on a line of the drawing, nor has bare paper laid under it."""
    page = plate_pages(bodice(), A4, FULL).pages[0]
    (drawn,) = (mark for mark in page.drawing.marks if isinstance(mark, Group) and mark.name == "map")
    assert not any(type(mark).__name__ == "Fill" for mark in every(drawn.marks))
    names = [m for m in every(drawn.marks) if isinstance(m, Words) and m.setting.said[:1].isdigit()]
    assert [m.setting.said for m in names] == ["1-1", "1-2", "1-3", "2-1", "2-2", "2-3"]
    lines = [
        LineString(stretch)
        for mark in every(drawn.marks)
        if isinstance(mark, Stroke)
        for stretch in mark.path.flat()
        if len(set(stretch)) > 1
    ]
    for name in names:
        b = box_of(name)
        assert b is not None
        assert not any(line.intersects(polygon(b.left, b.top, b.right, b.bottom)) for line in lines)


@pytest.mark.parametrize(("paper", "scale"), [(A4, FULL), (LETTER, FULL), (A3, FULL), (A4, HALF)])
def test_crosses_strike_no_word_out(paper: Paper, scale: Scale) -> None:
    """Every cross of a tiled plate lies clear of everything written on its page."""
    for page in plate_pages(bodice(dense=True), paper, scale).pages:
        crosses_here = [
            m for g in page.drawing.marks if isinstance(g, Group) and g.name == "crosses" for m in g.marks
        ]
        written = [
            b for m in every(page.drawing.marks) if isinstance(m, Words) if (b := box_of(m)) is not None
        ]
        for mark in crosses_here:
            assert isinstance(mark, Stroke)
            for stretch in mark.path.flat():
                line = LineString(stretch)
                assert not any(line.intersects(polygon(b.left, b.top, b.right, b.bottom)) for b in written)


def test_edges_run_where_no_name_is_cut() -> None:
    """Where the pages have room to spare, a name that would lie across an edge does not."""
    step = A4.width - 16 - OVERLAP if A4.width else 0.0
    across = Words(set_text("a name across the edge", "hand", 5.0), step - 20, 60)
    line = Stroke(straight(5, 5, 240, 150), HEAVY)
    pages = tile(Block(250, 160, (line, across)), Paper("A4", 210.0, 297.0), FULL, COVER)
    box = box_of(across)
    assert box is not None
    windows = [page.window for _, page in sheets(pages) if page.window]
    assert len(windows) == 2
    assert not any(box.left < window.left < box.right for window in windows)


@pytest.mark.parametrize(("paper", "scale"), [(A4, FULL), (A4, HALF), (A3, FULL)])
def test_a_warning_is_on_every_page(paper: Paper, scale: Scale) -> None:
    """What must not be overlooked stands on the map, on every page of the drawing, with the checks."""
    checks = tuple(PlateCheck(f"Check number {n} holds.", True) for n in range(120))
    plate = replace(bodice(), warning="Not finished: do not cut.", checks=checks)
    data = pdf((pages := plate_pages(plate, paper, scale)).drawings, title="t")
    for i in range(len(pages.pages)):
        assert words(data, i).count("Not finished: do not cut.") == 1


def test_the_first_page_of_a_roll_is_no_longer_than_what_stands_on_it() -> None:
    """A plate 60 cm long joined from strips of a narrow roll has a first page that ends with its map."""
    plate: Plate = bodice()
    pages = plate_pages(plate, Paper("roll, 30 cm wide", 300.0, None), FULL)
    first, strip = pages.pages[0].drawing, pages.pages[1].drawing
    lowest = max(b.bottom for m in first.marks if (b := box_of(m)) is not None)
    assert first.height == pytest.approx(lowest + 8, abs=2)
    assert first.height < strip.height
    assert first.width == 300
    assert len([page for page in pages.pages if page.window is None]) == 1

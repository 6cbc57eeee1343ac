"""Drawings over several pages: that they join, and that nothing is lost."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapewright.drawing import Line, Stroke, straight, through
from tapewright.export import pdf
from tapewright.pages import A4, FULL, LETTER, Block, Cover, Page, Pages, Paper, plate_pages, tile
from tapewright.pages.counting import in_words, listed, row_letter
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
        beyond = f"{label[0]}{int(label[1:]) + 1}"
        below = f"{chr(ord(label[0]) + 1)}{label[1:]}"
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
    assert labels[0] == "A1"
    assert len(labels) < 4
    said = words(pdf(pages.drawings, title="t")).replace("\r\n", " ")
    assert "would be blank" in said
    assert all(name in said for name in pages.left_out)


def test_nothing_is_left_out_that_has_a_line() -> None:
    """A diagonal too long for its box to tell touches exactly the pages that are printed."""
    pages = tile(Block(700, 800, (Stroke(straight(5, 5, 690, 790), HEAVY),)), A4, FULL, COVER)
    grid = grid_over(Block(700, 800, ()), A4)
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
            expected.add(f"{row_letter(row)}{column + 1}")
    assert {page.label for _, page in sheets(pages)} == expected


def test_a_bodice_is_joined_from_the_fewest_pages() -> None:
    """At full size on A4 the plate is six pages and a first one, labelled by row and column."""
    pages = plate_pages(bodice(), A4, FULL)
    assert [page.label for page in pages.pages] == ["the map", "A1", "A2", "A3", "B1", "B2", "B3"]
    assert pages.squares_on == "the map"
    assert pages.says[0] == "Six pages besides this one."
    data = pdf(pages.drawings, title="t")
    for i, page in sheets(pages):
        seen = words(data, i)
        assert page.label in seen
        assert "Hester Amory" in seen
        assert "Full size" in seen
    assert "lay A2 over, to the dotted edge" in words(data, 1)
    assert "lay B1 over, to the dotted edge" in words(data, 1)


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
    """Counts in words, lists with an and, rows as letters."""
    assert [in_words(n) for n in (0, 1, 7, 12, 13)] == ["no", "one", "seven", "twelve", "13"]
    assert [listed(s) for s in ([], ["A1"], ["A1", "B2"], ["A", "B", "C"])] == [
        "",
        "A1",
        "A1 and B2",
        "A, B and C",
    ]
    assert [row_letter(n) for n in (0, 25, 26, 27, 701, 702)] == ["A", "Z", "AA", "AB", "ZZ", "AAA"]

"""Pages for measuring, read back from the PDF: blank sheets, the plate of a wearer, the ruler for strips."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

import pytest

from tapewright.drawing import Box, Drawing, Transform
from tapewright.export import pdf
from tapewright.figures import View, lies_of, on_side, outline
from tapewright.figures.lying import Lie
from tapewright.measures import catalogue, in_turn
from tapewright.pages import A3, A4, LETTER, Paper
from tapewright.pages.figure import Laid, Led, crop_round, led_out
from tapewright.pages.layout import Pages
from tapewright.pages.measuring import ToTake, measuring_pages
from tapewright.pages.ruler import ruler_pages, ruler_pieces
from tapewright.pages.wearer_plate import PlateRow, wearer_plate
from tests.export.reading import characters, page_sizes, paths, words
from tests.pages.seen import rectangles, squares, uprights

PAPERS = (A4, A3, LETTER)
ALL = tuple(catalogue())


def printed(pages: Pages) -> bytes:
    return pdf(pages.drawings, title="t")


def text(data: bytes) -> str:
    """The words of all pages, one space between them."""
    return " ".join(" ".join(words(data, page) for page in range(len(page_sizes(data)))).split())


def within(drawings: Sequence[Drawing], data: bytes) -> None:
    """Every letter that is printed stands on its page."""
    for page, (width, height) in enumerate(page_sizes(data)):
        letters = [(c.x, c.y) for c in characters(data, page)]
        assert letters
        for x, y in letters:
            assert -0.01 <= x <= width + 0.01
            assert -0.01 <= y <= height + 0.01
    assert len(drawings) == len(page_sizes(data))


# --- blank sheets --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
def test_every_measure_has_two_boxes_a_side_and_a_number(paper: Paper) -> None:
    """All of the catalogue on one blank sheet: every name in its turn, and two boxes for each side it is taken on."""
    pages = measuring_pages([ToTake("", ALL)], paper)
    data = printed(pages)
    within(pages.drawings, data)
    read = text(data)
    at = -1
    for i, name in enumerate(in_turn(ALL), 1):
        at = read.index(f"{i} {name} ", at + 1)
    boxes = [
        r
        for page in range(len(page_sizes(data)))
        for r in rectangles(paths(data, page))
        if abs(r[3] - 7.6) < 0.01
    ]
    sides = sum(1 if m.side == "right" else len(m.sides) or 1 for m in catalogue().values())
    assert len(boxes) == 2 * sides


def test_a_sheet_a_wearer_and_each_begins_a_page() -> None:
    """Two wearers are two sheets; what is known of them stands there, and what is not has a line to write on."""
    pages = measuring_pages(
        [ToTake("Anna Holt", ("waist", "hip"), "shift"), ToTake("Bess Field", ("arm",), "", ("A sleeve",))],
        A4,
    )
    data = printed(pages)
    assert len(page_sizes(data)) == 2
    first, second = words(data, 0), words(data, 1)
    assert "Anna Holt" in first
    assert "shift" in first
    assert "Bess" not in first
    assert "Asked for by: A sleeve." in " ".join(second.split())


def test_a_measure_of_a_lessons_own_is_on_the_sheet_with_the_lessons_words() -> None:
    """What no catalogue has stands in a group of its own, with how the lesson says it is taken."""
    own = ToTake("Anna Holt", ("waist", "cuff opening"), own={"cuff opening": "round the closed hand"})
    read = text(printed(measuring_pages([own], A4)))
    assert "2 cuff opening round the closed hand" in read


def test_over_stays_the_blank_sheet_carries_the_care() -> None:
    """A sheet to be taken over stays says when to stop lacing (the design's own wording)."""
    assert "Stop at pain, numbness or short breath" in text(
        printed(measuring_pages([ToTake("Anna Holt", ("waist",), "stays")], A4))
    )


# --- figures -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("view", list(View))
def test_leads_never_cross_and_signs_stand_apart(view: View) -> None:
    """With every tape of a view on it, the signs stand 4 mm apart at least, and no two leads of a side cross."""
    lies = [lies_of(name)[0] for name in ALL if lies_of(name) and lies_of(name)[0].view is view]
    tapes = [Laid(lie, str(i)) for i, lie in enumerate(lies)]
    crop = crop_round(lies, view)
    how = Transform(1.4, 0.0, 100.0, -crop.top * 1.4)
    found = led_out(tapes, how, 4.0, 400.0, (10.0, 190.0), 4.0)
    assert len(found) == len(tapes)
    for side in (-1, 1):
        mine = sorted((led for led in found if led.side == side), key=lambda led: led.y)
        edge = 10.0 if side < 0 else 190.0
        for one, other in pairwise(mine):
            assert other.y - one.y >= 4.0 - 1e-9
        for i, one in enumerate(mine):
            assert not any(_cross(edge, one, other) for other in mine[i + 1 :])


def _cross(edge: float, one: Led, other: Led) -> bool:
    def turn(p: tuple[float, float], q: tuple[float, float], r: tuple[float, float]) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    a, b, c, d = (edge, one.y), one.at, (edge, other.y), other.at
    return turn(a, b, c) * turn(a, b, d) < -1e-9 and turn(c, d, a) * turn(c, d, b) < -1e-9


@pytest.mark.parametrize(
    "name", [m.name for m in catalogue().values() if "left" in m.sides and lies_of(m.name)]
)
def test_left_and_right_lie_on_the_wearers_own_sides(name: str) -> None:
    """From the front the wearer's left is at the right of the figure, from behind at the left; both are one tape."""
    lie = lies_of(name)[0]
    left, right = on_side(lie, "left"), on_side(lie, "right")

    def middle(one: Lie) -> float:
        return sum(x for x, _ in one.over) / len(one.over)

    if lie.view is View.SIDE or abs(middle(lie)) < 1.5:
        assert left == right == lie
        return
    assert middle(left) == -middle(right)
    assert (middle(left) > 0) == (lie.view is View.FRONT)
    assert lie in {left, right}
    assert on_side(lie, "") is lie


# --- the plate of a wearer -----------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
def test_the_plate_names_all_and_marks_what_is_estimated(paper: Paper) -> None:
    """Every measure stands with its value; what was not taken says about and in what range, and the foot says so."""
    rows = [
        PlateRow(name, f"{i}.5 cm", "not taken; 1 to 2 cm, nine in ten" if i % 2 else "", about=bool(i % 2))
        for i, name in enumerate(ALL)
    ]
    pages = wearer_plate("Anna Holt", "taken over: shift", rows, paper)
    data = printed(pages)
    within(pages.drawings, data)
    read = text(data)
    for i, name in enumerate(ALL):
        assert re.search(rf"(?<![a-z]){name} {'about ' if i % 2 else ''}{i}\.5 cm", read), name
    assert read.count("not taken; 1 to 2 cm") == sum(row.about for row in rows if lies_of(row.name))
    assert read.count("was not taken: it is estimated") == len(page_sizes(data))


def test_a_plate_of_what_was_taken_says_nothing_of_estimates() -> None:
    """Without an estimate no word of one stands on the plate."""
    read = text(printed(wearer_plate("Anna Holt", "", [PlateRow("waist", "70.0 cm")], A4)))
    assert "waist 70.0 cm" in read
    assert "estimated" not in read
    assert "about" not in read


# --- the ruler -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", [*PAPERS, Paper("roll, 90 cm wide", 900.0, None)], ids=lambda p: p.name)
@pytest.mark.parametrize("length", [500.0, 1300.0])
def test_the_ruler_is_true(paper: Paper, length: float) -> None:
    """Read back from the paths: every millimetre and every eighth of an inch of every piece stands at its place to
    0.01 mm, and the measuring squares are ten centimetres and four inches to a tenth of a per cent.
    """
    pages = ruler_pages(length, paper)
    data = printed(pages)
    within(pages.drawings, data)
    wide = max(width for width, _ in page_sizes(data))
    room = max(wide - 2 * paper.margin, length if paper.height is None else 0.0)
    pieces = ruler_pieces(length, room)
    tops: list[tuple[int, float, float, list[tuple[float, float, float]]]] = []
    for page in range(len(page_sizes(data))):
        lines = uprights(paths(data, page))
        for top in sorted({round(t, 2) for _, t, b in lines if abs(b - t - 4.4) < 0.01}):
            mine = [line for line in lines if abs(line[1] - top) < 0.02]
            tops.append((page, top, paper.margin, mine))
    assert len(tops) == len(pieces)
    for piece, (page, top, left, mine) in zip(pieces, tops, strict=True):
        wanted = [mm for mm in range(int(length) + 1) if piece.start <= mm <= piece.end]
        for mm in wanted:
            assert any(abs(x - left - (mm - piece.start)) < 0.01 for x, _, _ in mine), (page, mm)
        below = [x for x, _, b in uprights(paths(data, page)) if abs(b - top - 22.0) < 0.02]
        for k in range(int(length / 3.175) + 1):
            if piece.start <= k * 3.175 <= piece.end:
                assert any(abs(x - left - (k * 3.175 - piece.start)) < 0.01 for x in below), (page, k)
    seen = [path for page in range(len(page_sizes(data))) for path in paths(data, page)]
    assert len(squares(seen, 100.0)) == 1
    assert len(squares(seen, 101.6)) == 1


@pytest.mark.parametrize("length", [130.0, 500.0, 1300.0, 2000.0])
def test_the_pieces_are_the_ruler_and_no_stroke_falls_on_a_cut(length: float) -> None:
    """Laid end to end the pieces are the whole, each goes in its room, and a cut lies between two centimetres."""
    for room in (190.0, 277.0, 400.0):
        pieces = ruler_pieces(length, room)
        assert pieces[0].start == 0.0
        assert pieces[-1].end == length
        for one, other in pairwise(pieces):
            assert one.end == other.start
            assert one.end % 1.0 == 0.5 or one.end % 10.0 == 5.5
        assert all(piece.length + piece.tab <= room for piece in pieces)


def test_what_cannot_be_printed_is_refused() -> None:
    """No length, no rows, a roll for a plate."""
    with pytest.raises(ValueError, match="length"):
        ruler_pages(0.0, A4)
    with pytest.raises(ValueError, match="wants a measure"):
        wearer_plate("A", "", [], A4)
    with pytest.raises(ValueError, match="fixed size"):
        wearer_plate("A", "", [PlateRow("waist", "70 cm")], Paper("roll", 900.0, None))
    assert crop_round([], View.FRONT) == Box(*_whole(View.FRONT))


def _whole(view: View) -> tuple[float, float, float, float]:
    box = outline(view).box
    return box.left, box.top, box.right, box.bottom

"""Printed tapes, read back from the PDF."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapewright.drawing import set_text
from tapewright.export import pdf
from tapewright.pages import A3, A4, LETTER, ONE_PAGE, Paper, PrintedTape, TapeSheet, tapes_sheet
from tapewright.pages.tape import TAB, pieces_of
from tapewright.pages.tape_face import names_of, width_of
from tapewright.tapes import NAMING_ORDER
from tests.export.reading import SeenPath, paths, words
from tests.pages.seen import squares, uprights

ROLL = Paper("roll, 90 cm wide", 900.0, None)
TAPES = (
    PrintedTape("bust tape", 460.0, 48, "half the bust, 46.0 cm, in 48 parts"),
    PrintedTape("neck tape", 368.5, 48, "the neck, 36.9 cm, in 48 parts"),
    PrintedTape("breast tape", 461.3, 18, "half the bust, 46.1 cm, in 18 parts"),
    PrintedTape("length tape", 400.0, 20, "the nape to waist, 40.0 cm, in 20 parts"),
    PrintedTape("wrist tape", 160.0, 48, "the wrist, 16.0 cm, in 48 parts"),
    PrintedTape("hip tape", 980.0, 48, "the hips, 98.0 cm, in 48 parts"),
)
SIMPLE = {Fraction(k, n) for n in (2, 3, 4, 6, 8, 12) for k in range(1, n)}
PAPERS = (A4, A3, LETTER, ONE_PAGE, ROLL)


def sheet_on(paper: Paper, tapes: tuple[PrintedTape, ...] = TAPES) -> TapeSheet:
    return tapes_sheet(tapes, paper, title="Hester Amory's tapes", wearer_line="Hester Amory, 3 May")


def simplest(at: Fraction) -> int:
    """The smallest of 2, 3, 4, 6, 8 and 12 whose fractions include a place; 100 for a bare part."""
    return next((n for n in (2, 3, 4, 6, 8, 12) if (at * n).denominator == 1), 100)


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
def test_every_tick_is_where_its_fraction_is(paper: Paper) -> None:
    """Every half, third, quarter, sixth, eighth, twelfth and part of every tape stands, on the page's own
    path, at its share of the whole, to 0.01 % of the whole, and no other tick as tall."""
    sheet = sheet_on(paper)
    data = pdf(sheet.pages.drawings, title="t")
    seen: dict[int, list[tuple[float, float, float]]] = {}
    found: dict[str, dict[Fraction, float]] = {}
    for placed in sheet.pieces:
        piece, tape = placed.piece, placed.piece.tape
        lines = seen.setdefault(placed.page, uprights(paths(data, placed.page)))
        wanted = SIMPLE | {Fraction(k, tape.parts) for k in range(1, tape.parts)}
        right = placed.x + piece.length
        mine = [
            (x, below - top)
            for x, top, below in lines
            if abs(top - placed.y) < 0.01 and placed.x + 0.01 < x < right - 0.01
        ]
        for at in sorted(wanted):
            if piece.start < at < piece.end:
                x = placed.x + float(at - piece.start) * tape.whole_mm
                near = [tall for seen_x, tall in mine if abs(seen_x - x) <= tape.whole_mm * 1e-4]
                assert len(near) == 1, (tape.name, at)
                found.setdefault(tape.name, {})[at] = near[0]
        halves = [tall for _, tall in mine if tall < 2.5]
        assert len(mine) - len(halves) == sum(piece.start < at < piece.end for at in wanted)
    for tape in TAPES:
        wanted = SIMPLE | {Fraction(k, tape.parts) for k in range(1, tape.parts)}
        assert set(found[tape.name]) == wanted
        heights: dict[int, set[float]] = {}
        for at, tall in found[tape.name].items():
            heights.setdefault(simplest(at), set()).add(round(tall, 2))
        assert all(len(one) == 1 for one in heights.values())
        in_order = [heights[n].pop() for n in sorted(heights)]
        assert in_order == sorted(in_order, reverse=True)
        assert len(set(in_order)) == len(in_order)


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
def test_the_whole_is_as_long_as_the_measure(paper: Paper) -> None:
    """The pieces of a tape, from cut line to cut line on the pages' own paths, add up to its whole, to
    0.01 %."""
    sheet = sheet_on(paper)
    data = pdf(sheet.pages.drawings, title="t")
    total = dict.fromkeys((tape.name for tape in TAPES), 0.0)
    for placed in sheet.pieces:
        cut = [
            path
            for path in paths(data, placed.page)
            if path.stroked
            and abs(min(y for _, y in path.places) - placed.y) < 0.01
            and abs(max(y for _, y in path.places) - placed.y - width_of(placed.piece.tape)) < 0.01
            and abs(min(x for x, _ in path.places) - placed.x) < 0.01
            and len(path.places) >= 4
        ]
        (body,) = cut
        total[placed.piece.tape.name] += max(x for x, _ in body.places) - min(x for x, _ in body.places)
    for tape in TAPES:
        assert total[tape.name] == pytest.approx(tape.whole_mm, rel=1e-4)


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
def test_both_squares_stand_on_a_tape_sheet(paper: Paper) -> None:
    """100 mm and 4 in, true to 0.01 %, on the page that says so."""
    sheet = sheet_on(paper)
    data = pdf(sheet.pages.drawings, title="t")
    page = [p.label for p in sheet.pages.pages].index(sheet.pages.squares_on)
    seen = paths(data, page)
    assert squares(seen, 100.0)[0][2:] == pytest.approx((100, 100), rel=1e-4)
    assert squares(seen, 101.6)[0][2:] == pytest.approx((101.6, 101.6), rel=1e-4)


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
def test_pieces_lie_on_the_paper_and_apart(paper: Paper) -> None:
    """No piece with its tab leaves the margins, and no two lie on each other."""
    sheet = sheet_on(paper)
    boxes = []
    for placed in sheet.pieces:
        drawing = sheet.pages.drawings[placed.page]
        right = placed.x + placed.piece.length + placed.piece.tab
        assert placed.x >= paper.margin - 1e-9
        assert right <= drawing.width - paper.margin + 1e-6
        assert placed.y + width_of(placed.piece.tape) <= drawing.height - paper.margin + 1e-6
        boxes.append((placed.page, placed.x, placed.y, right, placed.y + width_of(placed.piece.tape)))
    for i, a in enumerate(boxes):
        for b in boxes[:i]:
            assert a[0] != b[0] or a[3] < b[1] or b[3] < a[1] or a[4] < b[2] or b[4] < a[2]


def test_a_roll_and_one_page_cut_no_tape() -> None:
    """Where the paper is long enough every tape is in one piece."""
    for paper in (ROLL, ONE_PAGE):
        assert {placed.piece.of for placed in sheet_on(paper).pieces} == {1}


def hatches(seen: list[SeenPath], x: float, y: float) -> int:
    """How many slanting lines lie about a tab whose upper left is there."""
    count = 0
    for path in seen:
        if path.stroked and len(path.places) == 2:
            (x0, y0), (x1, y1) = path.places
            slants = abs(abs(x1 - x0) - abs(y1 - y0)) < 0.01 < abs(x1 - x0)
            count += slants and x - 25 < x0 < x + 15 and abs(max(y0, y1) - y - 19) < 0.1
    return count


def test_a_piece_that_goes_on_has_a_hatched_tab() -> None:
    """Each piece but the last has a tab with hatching that says which piece it goes under."""
    sheet = sheet_on(A4)
    data = pdf(sheet.pages.drawings, title="t")
    for placed in sheet.pieces:
        seen = paths(data, placed.page)
        goes_on = placed.piece.number < placed.piece.of
        assert (hatches(seen, placed.x + placed.piece.length, placed.y) > 5) == goes_on
        assert placed.piece.tab == (TAB if goes_on else 0)
    said = " ".join(words(data, i) for i in range(len(sheet.pages.pages)))
    assert said.count("glue under 2") == 5
    assert said.count("glue under 4") == 1
    assert said.count("piece 1 of 2") == 4
    assert said.count("piece 4 of 4") == 1


def test_each_piece_says_what_and_whose_it_is() -> None:
    """A tape found alone in a drawer says its name, its whole, its wearer and its day."""
    sheet = sheet_on(ONE_PAGE)
    said = words(pdf(sheet.pages.drawings, title="t"))
    for tape in TAPES:
        assert tape.name in said
        assert tape.words in said
    assert said.count("Hester Amory, 3 May") == len(TAPES) + 1


@settings(max_examples=60, deadline=None)
@given(st.floats(20, 4000), st.integers(1, 60), st.floats(60, 1200))
def test_any_tape_is_cut_into_pieces_that_fit_and_join(whole: float, parts: int, room: float) -> None:
    """Pieces follow on each other without gap or overlap, each goes in the room, and no seam is on a tick."""
    tape = PrintedTape("t", whole, parts, "w")
    pieces = pieces_of(tape, room)
    assert pieces[0].start == 0
    assert pieces[-1].end == 1
    marks = SIMPLE | {Fraction(k, 2 * parts) for k in range(1, 2 * parts)}
    for a, b in pairwise(pieces):
        assert a.end == b.start
        assert a.end not in marks or whole / parts < 5
        assert a.end not in SIMPLE
    for piece in pieces:
        assert piece.length + piece.tab <= room + 1e-9


def test_names_follow_the_house_order_and_keep_clear() -> None:
    """Names come in the order halves, quarters, thirds, eighths, sixths, twelfths, each only where it is
    clear of those already set; never 2/4 or 3/6; each on the near side of its tick."""
    for whole in (60.0, 110.0, 160.0, 260.0):
        (piece,) = pieces_of(PrintedTape("t", whole, 48, "w"), 300.0)
        named = names_of(piece)
        order = [NAMING_ORDER.index(n.tick.rank) for n in named]
        assert order == sorted(order)
        assert named[0].setting.said == "1/2"
        spans = sorted((n.start + n.setting.ink.left, n.start + n.setting.ink.right) for n in named)
        assert all(b[0] - a[1] > 0.5 for a, b in pairwise(spans))
        for n in named:
            assert "/".join(map(str, n.tick.position.as_integer_ratio())) == n.setting.said
            assert n.start + n.setting.ink.right < float(n.tick.position) * whole
    assert len(named) == len(SIMPLE)


def test_a_small_tape_names_fewer() -> None:
    """On a tape too short for all, the simplest stay."""
    (piece,) = pieces_of(PrintedTape("t", 60.0, 48, "w"), 300.0)
    said = {n.setting.said for n in names_of(piece)}
    assert {"1/2", "1/4", "3/4"} <= said
    assert len(said) < len(SIMPLE)


def test_half_parts_are_marked_where_there_is_room() -> None:
    """A part of 9.6 mm has its half marked, one of 3.3 mm has not."""
    for whole, halves in ((460.0, True), (160.0, False)):
        tape = (PrintedTape("t", whole, 48, "w"),)
        sheet = sheet_on(ONE_PAGE, tape)
        placed = sheet.pieces[0]
        x = placed.x + whole * 3 / 96
        ticks = uprights(paths(pdf(sheet.pages.drawings, title="t")))
        assert any(abs(at - x) < 0.01 and abs(top - placed.y) < 0.01 for at, top, _ in ticks) == halves


def test_the_same_tapes_are_the_same_bytes() -> None:
    """Two writes of one sheet differ in nothing."""
    assert pdf(sheet_on(A4).pages.drawings, title="t") == pdf(sheet_on(A4).pages.drawings, title="t")


@pytest.mark.parametrize(("whole", "parts"), [(0.0, 48), (-1.0, 48), (float("inf"), 48), (100.0, 0)])
def test_a_tape_needs_a_whole_and_parts(whole: float, parts: int) -> None:
    """A tape of nothing is a fault of the caller."""
    with pytest.raises(ValueError, match="a whole and at least one part"):
        PrintedTape("t", whole, parts, "w")


def test_no_tapes_is_refused() -> None:
    """Nothing to print is a fault of the caller."""
    with pytest.raises(ValueError, match="no tapes"):
        tapes_sheet((), A4, title="t")


def test_fraction_names_are_true_fractions() -> None:
    """The name at a tick is a small raised figure, a stroke and a small figure, not plain text."""
    (piece,) = pieces_of(TAPES[4], 300.0)
    for named in names_of(piece):
        assert [run.text for run in named.setting.runs][1] == "\u2044"
        assert named.setting == set_text(named.setting.said, "book", named.setting.runs[1].size)

"""Plates on paper, read back from the PDF."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tapewright.drawing import Group, Mark, Stroke, Words, every
from tapewright.export import pdf, svg
from tapewright.pages import (
    A3,
    A4,
    FULL,
    HALF,
    LETTER,
    ONE_PAGE,
    QUARTER,
    Paper,
    Plate,
    PlateCheck,
    PlateLine,
    Role,
    Scale,
    draw_field,
    line_for,
    plate_pages,
)
from tests.export.reading import page_sizes, paths, words
from tests.pages.bodice import bodice, straight_line
from tests.pages.seen import squares

ROLL = Paper("roll, 90 cm wide", 900.0, None)
NARROW = Paper("roll, 30 cm wide", 300.0, None)
EVERY_WAY = [
    (paper, scale) for paper in (A4, A3, LETTER, ONE_PAGE, ROLL, NARROW) for scale in (FULL, HALF, QUARTER)
]


@pytest.mark.parametrize(("paper", "scale"), EVERY_WAY, ids=lambda v: v.name)
def test_both_squares_are_true_on_every_print(paper: Paper, scale: Scale) -> None:
    """One square of 100 mm and one of 101.6 mm (4 in of 25.4, the international inch), to 0.01 %, on the
    page that says so, and the scale in words beside them."""
    pages = plate_pages(bodice(), paper, scale)
    data = pdf(pages.drawings, title="t")
    page = [p.label for p in pages.pages].index(pages.squares_on)
    seen = paths(data, page)
    for side in (100.0, 4 * 25.4):
        (found,) = squares(seen, side)
        assert found[2:] == pytest.approx((side, side), rel=1e-4)
    assert scale.name in words(data, page)
    assert bodice().title in words(data, page)


@pytest.mark.parametrize("scale", [FULL, HALF, QUARTER], ids=lambda s: s.name)
def test_the_outline_is_printed_to_scale(scale: Scale) -> None:
    """Every cubic of the outline, read from the page's own path, is the draft's at the scale, to 0.01 %
    of the plate."""
    plate = replace(bodice(), caption="", checks=(), notes=())
    drawing = plate_pages(plate, ONE_PAGE, scale).drawings[0]
    width = line_for(Role.OUTLINE, scale).width
    seen = [p for p in paths(pdf([drawing], title="t")) if p.stroked and abs(p.width - width) < 1e-3]
    drawn = [line for line in plate.lines if line.role is Role.OUTLINE]
    first = np.array(seen[0].places[0])
    start = np.asarray(drawn[0].cubics)[0, 0] * float(scale.factor)
    for line in drawn:
        cubics = np.asarray(line.cubics) * float(scale.factor)
        expected = np.concatenate([cubics[0, :1], cubics[:, 1:].reshape(-1, 2)]) - start
        assert any(
            len(p.places) == len(expected)
            and np.abs(np.array(p.places) - first - expected).max() <= 475 * float(scale.factor) * 1e-4
            for p in seen
        )
    assert len(drawn) == 12


def test_every_kind_of_line_looks_its_own() -> None:
    """No two roles share both weight and dash, at any scale; the outline is the heaviest."""
    for scale in (FULL, HALF, QUARTER):
        looks = {role: line_for(role, scale) for role in Role}
        assert len({(line.width, line.dash) for line in looks.values()}) == len(Role)
        assert max(looks, key=lambda role: looks[role].width) is Role.OUTLINE


def test_every_letter_is_on_the_page() -> None:
    """As many settings of point names as points are written, each once."""
    plate = bodice(dense=True)
    for scale in (FULL, QUARTER):
        field = draw_field(plate, scale)
        written = [
            mark.setting.said
            for mark in every(field.block.marks)
            if isinstance(mark, Words) and mark.setting.runs[0].face == "book-italic"
        ]
        assert sorted(written) == sorted(point.name for point in plate.points)


def groups(marks: tuple[Mark, ...]) -> list[str]:
    names: list[str] = []
    for mark in marks:
        if isinstance(mark, Group):
            names += [mark.name, *groups(mark.marks)]
    return names


def test_lines_are_grouped_by_what_they_are_for() -> None:
    """An SVG of the plate can be taken apart: frame, outline and so on, and in them the named lines."""
    names = groups(draw_field(bodice(), FULL).block.marks)
    for name in ("frame", "construction", "outline", "dart", "points", "letters", "back scye"):
        assert name in names
    drawing = plate_pages(bodice(), A4, QUARTER).drawings[0]
    assert b'id="back-scye"' in svg(drawing)


def test_a_guide_line_gives_way_to_a_letter_but_an_outline_stays() -> None:
    """Bare paper is laid over guide lines and under outlines, so that no outline is ever broken."""
    marks = draw_field(bodice(dense=True), QUARTER).block.marks
    kinds = [m.name if isinstance(m, Group) else type(m).__name__ for m in marks]
    assert kinds.index("construction") < kinds.index("Fill") < kinds.index("outline")


def test_checks_and_notes_are_told() -> None:
    """Title, wearer, caption, note and checks are on the page, what does not hold with the rest."""
    seen = words(pdf(plate_pages(bodice(), A4, QUARTER).drawings, title="t")).replace("\r\n", " ")
    for told in ("A bodice block", "Hester Amory", "Plate 1.", "cross front was not taken", "1 of 2 hold"):
        assert told in seen


def test_many_checks_go_on_further_pages() -> None:
    """Fifty checks that find no room beside the squares are all printed all the same."""
    checks = tuple(PlateCheck(f"Check number {n} holds.", True) for n in range(50))
    for paper, scale in ((A4, QUARTER), (A4, FULL), (ONE_PAGE, FULL)):
        pages = plate_pages(replace(bodice(), checks=checks), paper, scale)
        data = pdf(pages.drawings, title="t")
        seen = " ".join(words(data, i) for i in range(len(pages.pages)))
        assert all(f"Check number {n} holds." in seen for n in range(50))


def test_a_small_plate_is_one_page_of_the_paper_asked_for() -> None:
    """At a quarter a bodice goes on one sheet, upright or lying, of exactly the paper's size."""
    for paper, size in ((A4, {210, 297}), (LETTER, {215.9, 279.4})):
        sizes = page_sizes(pdf(plate_pages(bodice(), paper, QUARTER).drawings, title="t"))
        assert [{round(side, 1) for side in one} for one in sizes] == [size]


def test_a_roll_has_its_width_and_the_length_it_needs() -> None:
    """On a roll of 90 cm one page is 900 mm wide and no longer than what stands on it."""
    ((width, height),) = page_sizes(pdf(plate_pages(bodice(), ROLL, FULL).drawings, title="t"))
    assert width == pytest.approx(900, rel=1e-5)
    assert 600 < height < 700


def test_beneath_is_drawn_dotted() -> None:
    """Another wearer's line beneath is dots with round ends."""
    beneath = PlateLine("", straight_line((0, 0), (100, 100)), Role.BENEATH)
    field = draw_field(Plate("b", (), (beneath,)), FULL)
    (stroke,) = [m for m in every(field.block.marks) if isinstance(m, Stroke)]
    assert stroke.line.dash[0] == 0
    assert stroke.line.cap == "round"


def test_a_plate_of_nothing_is_refused() -> None:
    """No point and no line is no plate."""
    with pytest.raises(ValueError, match="a point or a line"):
        draw_field(Plate("nothing", (), ()), FULL)


def test_the_same_plate_is_the_same_bytes() -> None:
    """A dense plate with insets, written twice from the beginning, is one file."""
    once, twice = (plate_pages(bodice(dense=True), A4, QUARTER).drawings for _ in range(2))
    assert pdf(once, title="t") == pdf(twice, title="t")
    assert svg(once[0]) == svg(twice[0])


def test_a_plate_without_the_squares_says_where_they_are() -> None:
    """Where the plate fills its page it says how large it is printed and that the squares follow."""
    tall = replace(
        bodice(), lines=(*bodice().lines, straight_line_to(760.0)), caption="", drafted="On the half."
    )
    pages = plate_pages(tall, A4, QUARTER)
    assert [page.label for page in pages.pages] == [tall.title, "the words"]
    data = pdf(pages.drawings, title="t")
    seen = words(data, 0).replace("\r\n", " ")
    assert "Quarter size: 1 cm here is 4 cm of the pattern." in seen
    assert "The measuring squares are on the next page." in seen
    assert len(squares(paths(data, 1), 100.0)) == 1


def straight_line_to(y: float) -> PlateLine:
    """A guide line that makes the bodice's plate higher."""
    return PlateLine("", straight_line((0, 0), (0, y)), Role.CONSTRUCTION)


@pytest.mark.parametrize("paper", [A4, ONE_PAGE, ROLL], ids=lambda p: p.name)
def test_how_it_was_drafted_stands_under_the_wearer(paper: Paper) -> None:
    """Net or with seams, and over what: told on the first page at every scale."""
    told = "On the half. Drafted net. Taken over: a shift."
    for scale in (FULL, HALF, QUARTER):
        pages = plate_pages(replace(bodice(), drafted=told), paper, scale)
        assert told in words(pdf(pages.drawings, title="t"), 0).replace("\r\n", " ")

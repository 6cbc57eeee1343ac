"""Real lessons on paper: the shipped blocks, the README's pocket, the handbooks' drafts, at every scale."""

from __future__ import annotations

import re
from functools import cache

import pytest

from tapewright.app import drafting
from tapewright.app.library import lessons, wearers
from tapewright.drawing import Group, Words, box_of, every
from tapewright.export import pdf
from tapewright.pages import A4, FULL, HALF, LETTER, QUARTER, Paper, Plate, Scale, draw_field, plate_pages
from tapewright.pages.from_draft import plate_of
from tests.export.reading import words
from tests.handbooks import drafts
from tests.pages.checker import faults

SCALES = pytest.mark.parametrize("scale", [FULL, HALF, QUARTER], ids=lambda s: s.name)
BLOCKS = [("a-womans-body-block", "margery-thorne"), ("a-mans-body-block", "josiah-pell")]
DRAWN = pytest.mark.parametrize(("lesson", "wearer"), BLOCKS, ids=str)


@cache
def block(lesson: str, wearer: str) -> Plate:
    """A shipped block's plate for a demo wearer."""
    result = drafting.draft_for(drafting.read(lessons()[lesson]), wearers()[wearer])
    assert result.draft is not None
    assert result.sheet is not None
    return plate_of(result.draft, wearer_line=drafting.wearer_line(result.sheet))


@SCALES
@DRAWN
def test_a_block_is_lettered_without_a_fault(lesson: str, wearer: str, scale: Scale) -> None:
    """As many labels as points; none touches another, an outline or a point, nor does a piece's caption."""
    plate = block(lesson, wearer)
    field = draw_field(plate, scale)
    assert not faults(field, plate, scale)
    assert not field.unnamed


@DRAWN
def test_a_block_says_how_it_was_drafted_and_how_it_is_cut(lesson: str, wearer: str) -> None:
    """The header's own words stand under the title, the pieces' cutting in their outlines."""
    plate = block(lesson, wearer)
    header = re.search(r"^On the half\..*$", lessons()[lesson].read_text(encoding="utf-8"), re.MULTILINE)
    assert header is not None
    said = words(pdf(plate_pages(plate, A4, HALF).drawings, title="t")).replace("\r\n", " ")
    assert f"{header[0]} Turnings are not drawn." in said
    assert [piece.name for piece in plate.pieces] == ["Back", "Front"]
    for ends in ("A–E", "Q–D"):
        assert f"Cut twice of calico,\n{ends} on the grain." in [piece.told for piece in plate.pieces]


@pytest.mark.parametrize(("paper", "scale"), [(A4, FULL), (LETTER, FULL), (A4, HALF), (LETTER, HALF)])
@DRAWN
def test_no_cross_strikes_out_a_letter_of_a_block(
    lesson: str, wearer: str, paper: Paper, scale: Scale
) -> None:
    """On every page of the blocks the crosses are clear of what is written, and every page shows a line."""
    pages = plate_pages(block(lesson, wearer), paper, scale)
    tiles = [page for page in pages.pages if page.window is not None]
    assert tiles
    for page in tiles:
        written = [
            b for m in every(page.drawing.marks) if isinstance(m, Words) and (b := box_of(m)) is not None
        ]
        (crosses,) = (m for m in page.drawing.marks if isinstance(m, Group) and m.name == "crosses")
        for mark in crosses.marks:
            box = box_of(mark)
            assert box is not None
            # A corner of the cross's box is bare: the arms are what strikes.
            x, y = box.middle
            for b in written:
                across = b.left < box.right and b.right > box.left and b.top < y < b.bottom
                down = b.top < box.bottom and b.bottom > box.top and b.left < x < b.right
                assert not across
                assert not down


@pytest.mark.slow
@SCALES
@pytest.mark.parametrize("number", range(len(drafts.entries())), ids=lambda n: str(drafts.entries()[n]))
def test_a_handbooks_draft_is_lettered_without_a_fault(number: int, scale: Scale) -> None:
    """The same of every draft of the handbooks; and each comes out on A4, however large it is."""
    plate = plate_of(drafts.drawn(number).alone)
    field = draw_field(plate, scale)
    assert not faults(field, plate, scale)
    # A sheet the size of a barn takes seconds to lay over A4 at full size; smaller, it is told as well.
    if max(field.block.width, field.block.height) < 6000:
        assert plate_pages(plate, A4, scale).pages

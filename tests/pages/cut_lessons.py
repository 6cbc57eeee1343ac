"""Shipped lessons cut out for their demo wearers, as `tapewright pieces` does it."""

from __future__ import annotations

from functools import cache

from tapewright.app import drafting, library
from tapewright.app.piecing import Cut, HowCut, cut_out
from tapewright.pages import ONE_PAGE, Paper, read_scale
from tapewright.pages.paper import Scale
from tapewright.pages.paper_piece import PieceLines

LESSONS = {
    "a-mans-waistcoat": "josiah-pell",
    "a-tabbed-bodice": "margery-thorne",
    "a-mans-body-block": "josiah-pell",
    "a-womans-body-block": "margery-thorne",
    "a-mans-coat-sleeve": "josiah-pell",
    "a-womans-bent-sleeve": "margery-thorne",
    "a-full-sleeve": "margery-thorne",
}


@cache
def cut_lesson(
    name: str,
    scale: str = "1",
    lines: PieceLines = PieceLines.BOTH,
    paper: Paper = ONE_PAGE,
    *,
    letters: bool = False,
) -> Cut:
    """A shipped lesson's pieces at a scale."""
    at = read_scale(scale)
    assert isinstance(at, Scale)
    made = drafting.read(library.lesson_path(name))
    result = drafting.draft_for(made, library.wearer_path(LESSONS[name]))
    return cut_out(result, HowCut(drafting.Print(paper, at), lines, letters))

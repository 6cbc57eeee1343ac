"""Print a wearer's tapes: those of a lesson, or without one the main girths and lengths in 48 parts."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from tapewright.app.beside import estimated_line
from tapewright.app.drafting import (
    Read,
    Result,
    draft_for,
    file_name,
    read_sheet_result,
    wearer_line,
)
from tapewright.app.files import Trouble
from tapewright.draft import Draft
from tapewright.measures import Sheet
from tapewright.pages import Paper, PrintedTape, tapes_sheet
from tapewright.plan.form import Linear, MeasureBase

#: What is taped when no lesson says: the girths and lengths a cutter reckons from.
MAIN = ("high bust", "bust", "chest", "waist", "hip", "nape to waist", "nape height", "arm", "neck base")
PARTS = 48


def lesson_tapes(draft: Draft, row: int = 0) -> list[PrintedTape]:
    """The tapes of a lesson for one body."""
    found = []
    for name, tape in draft.plan.tapes.items():
        if draft.alive(f"tape {name}", row):
            whole = float(np.asarray(draft.made[f"tape {name}"].thing)[row])
            found.append(PrintedTape(name, whole, tape.parts, _whole_words(tape.whole)))
    return found


def main_tapes(sheet: Sheet) -> list[PrintedTape]:
    """A tape in 48 parts of each main girth and length that was taken."""
    found = []
    for name in MAIN:
        value = sheet.number(name)
        if value is not None:
            found.append(PrintedTape(f"{name} tape", value, PARTS, f"the {name}"))
    return found


def _whole_words(whole: object) -> str:
    """What a tape is a tape of, where that is one measure or half of one."""
    if isinstance(whole, Linear) and len(whole.terms) == 1 and not whole.constant:
        base, factor = whole.terms[0]
        if isinstance(base, MeasureBase):
            return {1: "", 0.5: "half "}.get(float(factor), f"{factor} of ") + f"the {base.name}"
    return ""


def tapes_for(sheet_path: Path, read_: Read | None, paper: Paper) -> tuple[Result, bytes, str]:
    """One wearer's tapes as a PDF, and what to call the file."""
    from tapewright.export import pdf

    if read_ is not None:
        result = draft_for(read_, sheet_path)
        tapes = [] if result.draft is None else lesson_tapes(result.draft)
    else:
        result = read_sheet_result(sheet_path)
        tapes = [] if result.sheet is None else main_tapes(result.sheet)
    if result.sheet is None:
        return result, b"", ""
    if not tapes:
        what = "no tape of the lesson" if read_ is not None else "none of the main girths and lengths"
        raise Trouble(
            f"Nothing to print for {result.wearer or sheet_path.name}: {what} can be made from this sheet."
        )
    title = f"Tapes of {result.wearer}"
    line = wearer_line(result.sheet)
    if result.estimates:
        line = f"{line}. {estimated_line(result.estimates)}"
    made = tapes_sheet(tapes, paper, title=title, wearer_line=line)
    return result, pdf(made.pages.drawings, title=title), f"{file_name('tapes', result.wearer)}.pdf"

"""Draw the plates that the documents show: `make plates`. The tests draw them again and compare.

The README's plate is drawn from the lesson that stands in the README itself, those of the manual from its
fenced examples, all for a demo wearer. What the table says under the manual's examples is written anew too.
"""

from __future__ import annotations

import re
from pathlib import Path

from fences import MANUAL, answered
from manual_plates import manual_plates
from measuring_figures import FIGURES
from tape_plates import tape_plates

from tapewright.app import drafting, library
from tapewright.app.library import wearers
from tapewright.app.piecing import HowCut, cut_out
from tapewright.diagnostics import Source
from tapewright.draft import Draft, evaluate, from_sheets
from tapewright.drawing import Drawing
from tapewright.export import svg
from tapewright.language import read_lesson
from tapewright.measures import read_sheet
from tapewright.pages import HALF, ONE_PAGE, QUARTER, draw_field
from tapewright.pages.from_draft import plate_of
from tapewright.pages.piece_shelves import laid, shelved
from tapewright.plan import build_plan

ROOT = Path(__file__).parent.parent


def readme_lesson() -> str:
    """The lesson that the README shows, from between its fences."""
    found = re.search(r"```markdown\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    if found is None:
        raise ValueError("the README shows no lesson")
    return found[1]


def drawn_for(text: str, wearer: str) -> Draft:
    """A lesson's text drawn for a demo wearer."""
    sheet, _ = read_sheet(Source(wearer, wearers()[wearer].read_text(encoding="utf-8")))
    if sheet is None:
        raise ValueError(f"{wearer} cannot be read")
    plan = build_plan(read_lesson(Source("README.md", text)))
    return evaluate(plan, from_sheets([sheet], plan.measures()))


def readme_plate() -> bytes:
    """The README's plate, at half size."""
    plate = plate_of(drawn_for(readme_lesson(), "margery-thorne"))
    field = draw_field(plate, HALF)
    return svg(Drawing(field.block.width, field.block.height, field.block.marks, plate.title))


def readme_jacket() -> bytes:
    """The pieces of the jacket that the README leads with, at quarter size, nothing else on the paper."""
    made = drafting.read(library.lesson_path("a-womans-jacket"))
    result = drafting.draft_for(made, library.wearer_path("margery-thorne-over-stays"))
    cut = cut_out(result, HowCut(drafting.Print(ONE_PAGE, QUARTER)))
    block = laid(cut.drawn, shelved([piece.size for piece in cut.drawn], 400.0)[0])
    bare = 1.0  # so that no line is cut in half by the edge
    return svg(
        Drawing(block.width + 2 * bare, block.height + 2 * bare, block.at(bare, bare), cut.sheet.title)
    )


PLATES = {
    "docs/readme-plate.svg": readme_plate,
    "docs/readme-jacket.svg": readme_jacket,
    **FIGURES,
    **tape_plates(),
}

if __name__ == "__main__":
    manual = MANUAL.read_text(encoding="utf-8")
    MANUAL.write_text(answered(manual), encoding="utf-8")
    every = PLATES | manual_plates()
    for name, draw in every.items():
        (ROOT / name).write_bytes(draw())
        print(name)
    for stale in set((ROOT / "docs" / "manual").glob("*.svg")) - {ROOT / name for name in every}:
        stale.unlink()
        print(f"gone: {stale.relative_to(ROOT)}")

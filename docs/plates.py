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

from tapewright.app.library import wearers
from tapewright.diagnostics import Source
from tapewright.draft import Draft, evaluate, from_sheets
from tapewright.drawing import Drawing
from tapewright.export import svg
from tapewright.language import read_lesson
from tapewright.measures import read_sheet
from tapewright.pages import HALF, draw_field
from tapewright.pages.from_draft import plate_of
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


PLATES = {"docs/readme-plate.svg": readme_plate, **FIGURES, **tape_plates()}

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

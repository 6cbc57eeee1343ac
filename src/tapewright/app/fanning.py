"""Print the graduating fan."""

from __future__ import annotations

from tapewright.app.files import Trouble
from tapewright.pages import Paper
from tapewright.pages.fan_sheet import TITLE, NoRoomForFan, fan_pages
from tapewright.tapes import Fan
from tapewright.units import show_cm


def fan_pdf(fan: Fan, paper: Paper) -> tuple[bytes, tuple[str, ...]]:
    """The fan as a PDF, and what there is to say about its pages; Trouble where the roll is too narrow."""
    from tapewright.export import pdf

    try:
        pages = fan_pages(fan, paper)
    except NoRoomForFan as slip:
        raise Trouble(f"{paper.name} is too narrow: {slip}. Try a wider roll, a4, or --folded.") from None
    says = f"It takes strips from {show_cm(fan.shortest)} to {show_cm(fan.longest)}, in {fan.parts} parts."
    return pdf(pages.drawings, title=TITLE), (*pages.says[:1], says)

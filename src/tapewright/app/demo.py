"""The main job on the demo wearers: both blocks drawn, checked and printed, with the wearers' tapes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tapewright.app.drafting import Print, Result, draft_for, read, write_result
from tapewright.app.files import write
from tapewright.app.library import DEMO, lessons, wearers
from tapewright.app.taping import HowTaped, taped, written
from tapewright.pages import A4, FULL, ONE_PAGE, QUARTER


@dataclass(frozen=True, slots=True)
class Shown:
    """One block for one wearer, and the files it was written to."""

    result: Result
    files: tuple[Path, ...]


def demo(folder: Path) -> Iterator[Shown]:
    """Draw both blocks into a folder: on one page and on A4 at full scale, at a quarter, with the tapes."""
    for lesson, wearer in DEMO:
        made = read(lessons()[lesson])
        sheet = wearers()[wearer]
        result = draft_for(made, sheet)
        files = write_result(result, folder, Print(ONE_PAGE, FULL))
        stem = files[0].stem
        files += write_result(result, folder / f"{stem}-a4.pdf", Print(A4, FULL))
        files += write_result(result, folder / f"{stem}-quarter.pdf", Print(A4, QUARTER))
        tapes = taped(sheet, HowTaped(A4), made)
        target = folder / f"{tapes.name}.pdf"
        write(target, written([tapes]))
        yield Shown(result, (*files, target))

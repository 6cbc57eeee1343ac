"""The main job on the demo wearers: blocks drawn and printed with the tapes; a jacket cut out, and its toile."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tapewright.app.drafting import Print, Result, draft_for, read, write_result
from tapewright.app.files import write
from tapewright.app.library import DEMO, lessons, wearers
from tapewright.app.piecing import HowCut, cut_out, names_of, write_cut
from tapewright.app.taping import HowTaped, taped, written
from tapewright.pages import A4, FULL, ONE_PAGE, QUARTER

#: What is cut out, and for whom.
JACKET = ("a-womans-jacket", "margery-thorne-over-stays")


@dataclass(frozen=True, slots=True)
class Shown:
    """One lesson for one wearer, and the files it was written to."""

    result: Result
    files: tuple[Path, ...]


def demo(folder: Path) -> Iterator[Shown]:
    """Draw both blocks into a folder: on one page and on A4 at full scale, at a quarter, with the tapes.

    Then the jacket's pieces: in cloth on A4 and as DXF, and in calico with the form for its fitting.
    """
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
    lesson, wearer = JACKET
    result = draft_for(read(lessons()[lesson]), wearers()[wearer])
    cloth = cut_out(result, HowCut(Print(A4, FULL)))
    stem = names_of([cloth])[0]
    made_of = [(cloth, f"{stem}-pieces-a4.pdf"), (cloth, f"{stem}-pieces.dxf")]
    made_of.append((cut_out(result, HowCut(Print(ONE_PAGE, FULL), toile=True)), f"{stem}-toile.pdf"))
    yield Shown(result, tuple(path for one, name in made_of for path in write_cut(one, folder / name, stem)))

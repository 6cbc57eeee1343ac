"""A company's measures brought in from one table and sent out again: all or nothing, and never over a sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tapewright.app.drafting import file_name
from tapewright.app.files import Trouble, is_there, write
from tapewright.diagnostics import Source, as_json
from tapewright.measures import (
    Company,
    Figure,
    Sheet,
    Wearer,
    read_company,
    same_layers,
    say_layers,
    what_it_holds,
    write_company,
    write_sheet,
)
from tapewright.units import Unit

SHEET = ".yaml"


@dataclass(frozen=True, slots=True)
class BroughtIn:
    """A table read, and where each accepted wearer's sheet would go, or went."""

    company: Company
    source: Source
    targets: tuple[tuple[Wearer, str], ...]

    def data(self) -> dict[str, Any]:
        """Plain data: the columns as understood, the rows, what was rejected and why."""
        sources = {self.source.name: self.source}
        names = {id(w): name for w, name in self.targets}
        return {
            "table": self.source.name,
            "columns": [{"heading": c.heading, "understood": c.words()} for c in self.company.columns],
            "queries": [as_json(q, sources) for q in self.company.queries],
            "accepted": len(self.company.accepted),
            "rejected": len(self.company.rejected),
            "rows": [
                {
                    "line": self.source.place(w.place.start).line,
                    "wearer": w.sheet.wearer,
                    "measures": len(w.sheet.entries),
                    "file": names.get(id(w)),
                    "rejected": w.rejected,
                    "queries": [as_json(q, sources) for q in w.queries],
                }
                for w in self.company.wearers
            ],
        }


def read_in(
    source: Source, told: Mapping[str, str] | None = None, unit: str = "", figure: Figure | None = None
) -> BroughtIn:
    """A table read, nothing written."""
    company = read_company(source, told=told, unit=unit, figure=figure)
    return BroughtIn(company, source, _targets(company))


def _targets(company: Company) -> tuple[tuple[Wearer, str], ...]:
    """A file name for every accepted wearer, no two alike."""
    taken: set[str] = set()
    found = []
    for wearer in company.accepted:
        sheet = wearer.sheet
        words = [sheet.wearer]
        others = [w.sheet for w in company.accepted if w is not wearer and w.sheet.wearer == sheet.wearer]
        if sheet.over and any(not same_layers(o.over or (), sheet.over) for o in others):
            words += ["over", say_layers(sheet.over)]
        stem = name = file_name(*words)
        count = 2
        while name in taken:
            name = f"{stem}-{count}"
            count += 1
        taken.add(name)
        found.append((wearer, f"{name}{SHEET}"))
    return tuple(found)


def keep(brought: BroughtIn, folder: Path) -> list[Path]:
    """Write every accepted wearer's sheet into a folder, readable by its owner only; all of them or none.

    Trouble, and nothing written, while a heading waits, when nobody was accepted, or when a file of a name
    is there already: no sheet is ever written over.
    """
    if brought.company.waits:
        raise Trouble("Nothing was brought in: a heading is still to be settled.")
    if not brought.targets:
        raise Trouble("Nothing was brought in: no row could be taken.")
    paths = [folder / name for _, name in brought.targets]
    there = [path for path in paths if is_there(path)]
    if there:
        more = f" and {len(there) - 1} more" if len(there) > 1 else ""
        raise Trouble(f"Nothing was brought in: {there[0]}{more} is there already. Choose another folder.")
    written: list[Path] = []
    try:
        for path, (wearer, _) in zip(paths, brought.targets, strict=True):
            write(path, write_sheet(wearer.sheet).encode(), private=True)
            written.append(path)
    except BaseException:
        for path in written:
            path.unlink(missing_ok=True)
        raise
    return written


def send_out(sheets: Sequence[Sheet], target: Path, unit: Unit) -> str:
    """Write the sheets as one table, readable by its owner only; the words for what it holds."""
    if not sheets:
        raise Trouble("There is no sheet to send out.")
    write(target, write_company(sheets, unit).encode(), private=True)
    return what_it_holds(sheets)

"""What stands beside a draft because of its sheet: estimates that were used, and how tightly a wearer is laced."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from tapewright.app.files import read_sheet_source
from tapewright.diagnostics import Query, Source
from tapewright.measures import Estimate, Sheet, body_sheet_for, lacing, read_sheet, show, stayed


def estimate_data(made: Estimate) -> dict[str, Any]:
    """An estimate as plain data: mm, degrees or kg, nine in ten between `low` and `high`."""
    return {
        "about": round(made.mid, 1),
        "low": round(made.low, 1),
        "high": round(made.high, 1),
        "from": list(made.from_),
        "judgement": made.judgement,
    }


def estimated_line(estimates: Mapping[str, Estimate]) -> str:
    """`Estimated, not taken: scye depth, cross back`."""
    return f"Estimated, not taken: {', '.join(estimates)}"


def ranges(estimates: Mapping[str, Estimate]) -> tuple[str, ...]:
    """What paper says of each estimate: its middle and its range."""
    said = []
    for name, made in estimates.items():
        middle, low, high = (show(q).split(" (", maxsplit=1)[0] for q in made.quantities())
        said.append(f"The {name} is estimated: about {middle}, nine in ten between {low} and {high}.")
    return tuple(said)


def laced(sheet: Sheet, path: Path, folder: Iterable[Path]) -> Query | None:
    """The lacing caution of a sheet over stays, by the same wearer's sheet of the body in the same folder."""
    if not stayed(sheet.over or ()):
        return None
    others: list[Sheet] = []
    for beside in folder:
        if beside.name == path.name:
            continue
        source = read_sheet_source(beside)
        # A sheet that does not name the wearer need not be read.
        if isinstance(source, Source) and sheet.wearer.casefold() in source.text.casefold():
            other, _ = read_sheet(source)
            others += [] if other is None else [other]
    body = body_sheet_for(sheet, tuple(others))
    found = None if body is None else lacing(sheet, body)
    return None if found is None else found.at(path.name)

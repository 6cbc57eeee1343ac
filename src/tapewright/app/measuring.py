"""Measure sheets by themselves: looked over, estimated from, and what is still to take printed for a measuring day."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from tapewright.app.beside import estimate_data, laced
from tapewright.app.drafting import (
    Read,
    Result,
    file_name,
    read_sheet_result,
    sheets_in,
    wearer_line,
)
from tapewright.app.files import Trouble, write
from tapewright.diagnostics import as_json, in_order
from tapewright.measures import (
    Estimate,
    Sheet,
    Stays,
    blank_sheet,
    can_be_estimated,
    catalogue,
    estimate,
    in_turn,
    key_of,
    measures_meant,
    near_measures,
    over_stays,
    same_layers,
    say_either,
    say_layers,
    show,
    stays_of,
    with_estimates,
)
from tapewright.pages import Paper
from tapewright.pages.measuring import ToTake
from tapewright.pages.wearer_plate import PlateRow


def look_over(path: Path) -> list[Result]:
    """Every sheet of a path read, with what the sheets of one wearer say about each other."""
    found: list[Result] = []
    folder = sheets_in(path if path.is_dir() else path.parent)
    for sheet_path in sheets_in(path):
        result = _with_estimates(read_sheet_result(sheet_path))
        tight = None if result.sheet is None else laced(result.sheet, sheet_path, folder)
        if tight is not None:
            result = replace(result, queries=tuple(in_order([*result.queries, tight])))
        found.append(result)
    return found


def _with_estimates(result: Result) -> Result:
    """What the sheet asks to be estimated told, and nothing of it put on the sheet."""
    if result.sheet is None or not result.sheet.to_estimate:
        return result
    filled = with_estimates(result.sheet)
    told = [query.at(next(iter(result.sources), result.sheet_name)) for query in filled.queries]
    return replace(result, queries=tuple(in_order([*result.queries, *told])), estimates=filled.estimates)


def sheet_data(result: Result) -> dict[str, Any]:
    """A sheet looked over, as plain data: mm, degrees, kg."""
    sheet = result.sheet
    data: dict[str, Any] = {"sheet": result.sheet_name, "wearer": result.wearer}
    if sheet is not None:
        data |= {
            "figure": None if sheet.figure is None else str(sheet.figure),
            "date": None if sheet.date is None else sheet.date.isoformat(),
            "over": None if sheet.over is None else [layer.name for layer in sheet.over],
            "measures": {name: shown_number(sheet, name) for name in sheet.entries},
            "waiting": sorted(sheet.waiting),
            "estimated": {name: estimate_data(e) for name, e in result.estimates.items()},
        }
    data["queries"] = [as_json(q, result.sources) for q in result.queries]
    return data


def shown_number(sheet: Sheet, name: str) -> float | None:
    """A measure's value for programs: millimetres, degrees or kilograms."""
    from tapewright.measures import base

    value = sheet.value(name)
    return None if value is None else round(float(base(value)), 3)


@dataclass(frozen=True, slots=True)
class Estimated:
    """One wearer's estimates; `why_not` says why there are none, or why a name asked for has none."""

    result: Result
    estimates: Mapping[str, Estimate]
    why_not: tuple[str, ...] = ()

    def data(self) -> dict[str, Any]:
        """Plain data: mm, degrees, kg; every figure is marked as an estimate."""
        return {
            "sheet": self.result.sheet_name,
            "wearer": self.result.wearer,
            "estimates": {name: estimate_data(e) for name, e in self.estimates.items()},
            "not estimated": list(self.why_not),
            "queries": [as_json(q, self.result.sources) for q in self.result.queries],
        }


def known_names(names: Iterable[str]) -> tuple[str, ...]:
    """Names of the catalogue, also by another word that can mean only one; Trouble for what it has not."""
    found = []
    for name in names:
        meant = measures_meant(name)
        if len(meant) > 1:
            raise Trouble(f"“{name}” may mean {say_either(meant)}. Say which.")
        if not meant:
            near = near_measures(name)
            hint = f" Did you mean {' or '.join(near)}?" if near else ""
            raise Trouble(f"There is no measure called {name}.{hint}")
        found.append(meant[0])
    return tuple(found)


def asked_for_by(read: Read, names: Sequence[str]) -> tuple[str, ...]:
    """The names, all of which the lesson asks for; Trouble for one that it does not."""
    wanted = {key_of(name) for name in read.plan.measures()}
    for name in names:
        if name not in wanted:
            raise Trouble(f"The lesson does not ask for the {name}.")
    return tuple(names)


def estimates_for(
    path: Path, names: Sequence[str] = (), people: str | None = None, stays: Stays | None = None
) -> list[Estimated]:
    """Estimates for every wearer of a path: all that can be made, or those of some names.

    `people` is women, men or both in place of what the sheet says. With `stays`, what may be over such
    stays, from sheets of the body; where a sheet of the same wearer over them is there, it says nothing.
    """
    found = []
    for result in look_over(path):
        sheet = result.sheet
        if sheet is None:
            found.append(Estimated(result, {}, ("The sheet could not be read.",)))
            continue
        if people is not None:
            sheet = replace(sheet, estimate_from=people)
        made = dict(over_stays(sheet, stays)) if stays is not None else dict(estimate(sheet, names or None))
        if names:
            made = {name: made[name] for name in names if name in made}
        found.append(Estimated(result, made, tuple(_why_not(sheet, names, made, stays))))
    return found


def _why_not(
    sheet: Sheet, names: Sequence[str], made: Mapping[str, Estimate], stays: Stays | None
) -> Iterable[str]:
    if sheet.figure == "child" and sheet.estimate_from is None:
        yield "No survey here measured children, so that nothing is estimated of one."
        return
    for name in names:
        if name in made:
            continue
        if name in sheet.entries and stays is None:
            yield f"The {name} was taken: {show_or_none(sheet, name)}."
        elif not can_be_estimated(name) and stays is None:
            yield f"No survey here took the {name}; it has to be measured."
        else:
            yield f"The {name} cannot be estimated from this sheet."
    if not names and not made:
        if stays is not None and stays_of(sheet) is not None:
            yield "This sheet was taken over stays itself; what was measured needs no estimate."
        else:
            yield "This sheet holds nothing to estimate from."


def show_or_none(sheet: Sheet, name: str) -> str:
    """A measure's value in words."""
    value = sheet.value(name)
    return "nothing" if value is None else show(value)


def plate_pdf(estimated: Estimated, paper: Paper) -> tuple[bytes, str]:
    """The plate of a wearer with what was taken and, marked, what is estimated; and what to call the file."""
    from tapewright.export import pdf
    from tapewright.pages.wearer_plate import wearer_plate

    sheet = estimated.result.sheet
    if sheet is None:
        raise Trouble(f"{estimated.result.sheet_name} could not be read, so that there is nothing to show.")
    rows = [*_taken_rows(sheet), *(_about_row(e) for e in estimated.estimates.values())]
    if not rows:
        raise Trouble(f"The sheet of {sheet.wearer} holds no measures to show.")
    line = wearer_line(sheet).removeprefix(f"For {sheet.wearer}").lstrip(", ")
    pages = wearer_plate(sheet.wearer, line, rows, paper)
    return pdf(
        pages.drawings, title=f"Measures of {sheet.wearer}"
    ), f"{file_name('measures', sheet.wearer)}.pdf"


def _short(words: str) -> str:
    return words.split(" (", maxsplit=1)[0]


def _taken_rows(sheet: Sheet) -> list[PlateRow]:
    rows = []
    for name, entry in sheet.entries.items():
        for side, readings in entry.readings.items():
            value = entry.value(side or None)
            if value is None:
                continue
            times = {1: "", 2: "twice", 3: "three times"}[len(readings)]
            under = ", ".join(part for part in (side, times, entry.note) if part)
            rows.append(PlateRow(name, _short(show(value)), under, side=side))
    return rows


def _about_row(e: Estimate) -> PlateRow:
    mid, low, high = (_short(show(q)) for q in e.quantities())
    number, _, unit = low.partition(" ")
    low = number if high.endswith(f" {unit}") else low
    said = "by judgement" if e.judgement else "nine in ten"
    return PlateRow(e.name, mid, f"not taken; {low} to {high}, {said}", about=True)


def still_to_take(
    reads: Sequence[Read],
    path: Path | None = None,
    wearers: Sequence[str] = (),
    names: Sequence[str] = (),
    over: str = "",
) -> tuple[list[ToTake], list[Result]]:
    """What each wearer still has to be measured for, by what is worn beneath, and the sheets that were read.

    The measures wanted are those of the lessons and `names`; without either, the whole catalogue. A
    lesson's measures are looked for on the wearer's sheets taken over what the lesson asks, or that do not
    say over what; where there are none, all of them are to take. `path` gives the wearers who have sheets,
    `wearers` names others; without any the blank sheet is for nobody yet.
    """
    results = [] if path is None else look_over(path)
    by_wearer: dict[str, list[Sheet]] = {name: [] for name in wearers}
    for result in results:
        if result.sheet is not None:
            by_wearer.setdefault(result.sheet.wearer, []).append(result.sheet)
    if not by_wearer:
        by_wearer[""] = []
    found: list[ToTake] = []
    for wearer, sheets in by_wearer.items():
        found += _for_wearer(wearer, sheets, reads, names, over)
    return found, results


def _for_wearer(
    wearer: str, sheets: Sequence[Sheet], reads: Sequence[Read], names: Sequence[str], over: str
) -> list[ToTake]:
    wanted: dict[str, dict[str, list[str]]] = {}
    own: dict[str, str] = {}
    for read in reads:
        beneath = over if read.lesson.header.over is None else say_layers(read.lesson.header.over)
        asks = wanted.setdefault(beneath, {})
        for name in map(key_of, read.plan.measures()):
            asks.setdefault(name, []).append(read.lesson.title or read.lesson.source.name)
        own |= {m.name: m.note for m in read.lesson.measures if key_of(m.name) not in catalogue()}
    plain = names or (tuple(catalogue()) if not reads else ())
    for name in plain:
        wanted.setdefault(over, {}).setdefault(name, [])
    found = []
    for beneath, asks in wanted.items():
        have = [s for s in sheets if not beneath or s.over is None or same_layers([beneath], s.over)]
        # A lesson's chest is a woman's bust; of the whole catalogue only the word of the figure is wanted.
        words = [name for name in asks if _fits(name, sheets) or name in names or asks[name]]
        left = [name for name in words if not any(_has(s, name) for s in have)]
        if left:
            lessons = dict.fromkeys(title for name in left for title in asks[name])
            found.append(ToTake(wearer, in_turn(left), beneath, tuple(lessons), own))
    return found


def _has(sheet: Sheet, name: str) -> bool:
    """Whether a sheet has a measure, the fullest girth under either word."""
    return bool({name, {"bust": "chest", "chest": "bust"}.get(name, name)} & sheet.entries.keys())


def _fits(name: str, sheets: Sequence[Sheet]) -> bool:
    """Whether a measure has its word for this wearer: a man has no bust, and a woman no chest."""
    figure = next((s.figure for s in sheets if s.figure is not None), None)
    return not ((name == "bust" and figure == "man") or (name == "chest" and figure == "woman"))


def blank_pdf(sheets: Sequence[ToTake], paper: Paper) -> tuple[bytes, tuple[str, ...]]:
    """The blank sheets as a PDF, and what there is to say about the pages."""
    from tapewright.export import pdf
    from tapewright.pages.measuring import measuring_pages

    pages = measuring_pages(sheets, paper)
    return pdf(pages.drawings, title="To measure"), pages.says


def blank_texts(sheets: Sequence[ToTake], target: Path) -> list[Path]:
    """Blank sheets to be filled in at a keyboard: one file, or one a wearer into a folder; never over a file."""
    if target.suffix and len(sheets) > 1:
        raise Trouble(f"{target} is one sheet, and {len(sheets)} are wanted; give a folder after -o.")
    paths = [target] if target.suffix else _in_folder(sheets, target)
    for path in paths:
        if path.exists():
            raise Trouble(f"{path} is there already; nothing was written.")
    for sheet, path in zip(sheets, paths, strict=True):
        text = blank_sheet(sheet.wearer, sheet.names, sheet.over, sheet.own)
        write(path, text.encode(), private=True)
    return paths


def _in_folder(sheets: Sequence[ToTake], folder: Path) -> list[Path]:
    """A file for each, no two alike."""
    found: list[Path] = []
    for sheet in sheets:
        stem = file_name(sheet.wearer or "blank", *(["over", sheet.over] if sheet.over else []))
        path, count = folder / f"{stem}.yaml", 2
        while path in found:
            path, count = folder / f"{stem}-{count}.yaml", count + 1
        found.append(path)
    return found


def ruler_pdf(length_mm: float, paper: Paper) -> bytes:
    """The ruler for strips as a PDF."""
    from tapewright.export import pdf
    from tapewright.pages.ruler import TITLE, ruler_pages

    return pdf(ruler_pages(length_mm, paper).drawings, title=TITLE)

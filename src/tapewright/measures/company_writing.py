"""A company's measures as one table, such that reading it gives the same sheets again.

One row a sheet, one column a measure, side and reading, the unit in the heading. A value that the unit
shows in three decimals is written so; any other keeps the words it was taken in, with its own unit.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tapewright.measures.catalogue import catalogue, in_turn
from tapewright.measures.filling import ESTIMATED
from tapewright.measures.over import Layer
from tapewright.measures.sheet import Reading, Sheet, base
from tapewright.measures.values import AS_TAKEN
from tapewright.units import CM, DEGREES, KG, MM, Length, Unit, UnitKind, show_fraction

_SIDES = ("", "left", "right", "front", "back")
_PLACES = 1000


def what_it_holds(sheets: Sequence[Sheet]) -> str:
    """One sentence that says what a table of these sheets holds, for whoever finds it."""
    wearers = {sheet.wearer.casefold() for sheet in sheets}
    measures = {name for sheet in sheets for name in sheet.entries}
    people = "one wearer" if len(wearers) == 1 else f"{len(wearers)} wearers"
    notes = " and notes on their bodies" if any(_notes(s) for s in sheets) else ""
    return (
        f"Names, dates and {len(measures)} body measures of {people}{notes}: private, to be kept as such and "
        "passed on only with their leave."
    )


def _cell(text: str) -> str:
    if any(mark in text for mark in ',;"\n\r\t') or text != text.strip() or text.startswith("#"):
        return '"' + text.replace('"', '""') + '"'
    return text


def _number(reading: Reading, unit: Unit) -> str:
    number = base(reading.quantity) / unit.size
    scaled = number * _PLACES
    if scaled.denominator == 1:
        digits = f"{abs(int(scaled)):04d}"
        decimals = digits[-3:].rstrip("0")
        text = f"{'-' if number < 0 else ''}{digits[:-3]}{'.' if decimals else ''}{decimals}"
    elif isinstance(reading.quantity, Length) and not any(c.isalpha() or c in "\"'″′°" for c in reading.text):
        text = f"{reading.text} {reading.quantity.unit.name}"
    else:
        text = reading.text
    return f"{text} {AS_TAKEN}" if reading.sure else text


def _layer(layer: Layer) -> str:
    if layer.thickness is None:
        return layer.name
    return f"{layer.name} ({show_fraction(layer.thickness)} {MM.name})"


def _notes(sheet: Sheet) -> str:
    beside = (f"{entry.name}: {entry.note}" for entry in sheet.entries.values() if entry.note)
    return "; ".join([*sheet.notes, *beside])


def _unit_of(name: str, unit: Unit) -> Unit:
    measure = catalogue().get(name)
    if measure is None or measure.kind is UnitKind.LENGTH:
        return unit
    return KG if measure.kind is UnitKind.WEIGHT else DEGREES


def write_company(sheets: Iterable[Sheet], unit: Unit = CM) -> str:
    """The table, with a remark at its head that says what it holds; ValueError for no sheets.

    Notes beside single measures go into the notes of their row, behind the measure's name.
    """
    every = tuple(sheets)
    if not every:
        raise ValueError("there is nobody to write")
    columns: list[tuple[str, str, int]] = []
    for name in in_turn(n for sheet in every for n in (*sheet.entries, *sheet.to_estimate)):
        for side in _SIDES:
            most = max(
                (len(s.entries[name].readings.get(side, ())) for s in every if name in s.entries), default=0
            )
            if not side and any(name in s.to_estimate for s in every):
                most = max(most, 1)
            columns += [(name, side, i) for i in range(most)]
    heads = ["wearer", "figure", "date", "over", "estimate from", "notes"]
    rows = [[*heads, *(_heading(name, side, i, _unit_of(name, unit)) for name, side, i in columns)]]
    for sheet in every:
        row = [
            sheet.wearer,
            str(sheet.figure or ""),
            sheet.date.isoformat() if sheet.date is not None else "",
            "" if sheet.over is None else ", ".join(map(_layer, sheet.over)) or "nothing",
            sheet.estimate_from or "",
            _notes(sheet),
        ]
        for name, side, i in columns:
            if name in sheet.to_estimate and not side and not i:
                row.append(ESTIMATED)
                continue
            readings = sheet.entries[name].readings.get(side, ()) if name in sheet.entries else ()
            row.append(_number(readings[i], _unit_of(name, unit)) if i < len(readings) else "")
        rows.append(row)
    # A line of a sheet that nobody has is left out; the wearer and the figure always stand.
    kept = [i for i in range(len(rows[0])) if i < 2 or any(row[i] for row in rows[1:])]
    lines = [",".join(_cell(row[i]) for i in kept) for row in rows]
    return f"# {what_it_holds(every)}\n" + "\n".join(lines) + "\n"


def _heading(name: str, side: str, reading: int, unit: Unit) -> str:
    words = f"{name} {side}".strip()
    if reading:
        words += f" {reading + 1}"
    return f"{words} ({unit.name})"

"""A measure sheet as text, in house order, such that reading it gives the same sheet again.

Values are written in the words they were taken in. Measures that wait are not on it, since they have no
value; a sheet that somebody is still answering queries about is kept as its text.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

import yaml

from tapewright.measures.filling import ESTIMATED
from tapewright.measures.over import Layer
from tapewright.measures.sheet import Entry, Reading, Sheet
from tapewright.measures.values import AS_TAKEN
from tapewright.units import MM, show_fraction

# What may stand without quotes both as a line's value and within brackets.
_PLAIN = re.compile(r"[^\W_](?:[\w .;/'½⅓⅔¼¾⅛⅜⅝⅞°()+-]*[\w.)'°½⅓⅔¼¾⅛⅜⅝⅞])?")


def _text(text: str) -> str:
    if _PLAIN.fullmatch(text):
        return text
    quoted: str = yaml.dump(text, Dumper=yaml.SafeDumper, default_style='"', allow_unicode=True, width=2**30)
    return quoted.strip()


def _reading(reading: Reading) -> str:
    return _text(f"{reading.text} {AS_TAKEN}" if reading.sure else reading.text)


def _readings(readings: tuple[Reading, ...]) -> str:
    written = [_reading(r) for r in readings]
    return written[0] if len(written) == 1 else f"[{', '.join(written)}]"


def _entry(entry: Entry) -> str:
    sides = [f"{side or 'taken'}: {_readings(readings)}" for side, readings in entry.readings.items()]
    if entry.note:
        return f"{{{', '.join([*sides, f'note: {_text(entry.note)}'])}}}"
    if "" in entry.readings:
        return _readings(entry.readings[""])
    return f"{{{', '.join(sides)}}}"


def _layer(layer: Layer) -> str:
    if layer.thickness is None:
        return _text(layer.name)
    return f"{{layer: {_text(layer.name)}, thickness: {show_fraction(layer.thickness)} {MM.name}}}"


def _listed(key: str, items: Iterable[str]) -> list[str]:
    return [f"{key}:", *(f"  - {item}" for item in items)]


def write_sheet(sheet: Sheet) -> str:
    """The sheet as YAML with a closing line end; `read_sheet` of it gives an equal sheet, waiting aside."""
    lines = [f"wearer: {_text(sheet.wearer)}"]
    if sheet.figure is not None:
        lines.append(f"figure: {sheet.figure}")
    if sheet.date is not None:
        lines.append(f"date: {sheet.date.isoformat()}")
    if sheet.over is not None:
        lines += _listed("over", map(_layer, sheet.over)) if sheet.over else ["over: nothing"]
    if sheet.unit is not None:
        lines.append(f"unit: {_text(sheet.unit.name)}")
    if sheet.estimate_from is not None:
        lines.append(f"estimate from: {sheet.estimate_from}")
    if sheet.entries or sheet.to_estimate:
        lines += ["measures:", *(f"  {_text(e.name)}: {_entry(e)}" for e in sheet.entries.values())]
        lines += [f"  {_text(name)}: {ESTIMATED}" for name in sheet.to_estimate]
    if sheet.notes:
        lines += _listed("notes", map(_text, sheet.notes))
    return "\n".join(lines) + "\n"

"""A measure sheet as text, in house order, such that reading it gives the same sheet again.

Values are written in the words they were taken in. Measures that wait are not on it, since they have no
value; a sheet that somebody is still answering queries about is kept as its text.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

import yaml

from tapewright.measures.catalogue import catalogue, in_turn
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


def blank_sheet(
    wearer: str, names: Iterable[str], over: str = "", own: Mapping[str, str] | None = None
) -> str:
    """A sheet to be filled in: every measure a remark, in the order one measures, with how it is taken above it.

    `own` says how measures that are not in the catalogue are taken. As it stands it reads as a sheet without
    measures.
    """
    lines = [
        "# To be filled in. Take the # from the lines you have a value for, and write it behind the colon.",
        "# Two readings stand in brackets, [70, 70.5]; left and right in curly ones, {left: 13, right: 12.6}.",
        "",
        f"wearer: {_text(wearer)}" if wearer else "wearer:",
        "# figure: woman",
        "# date: 2026-03-14",
        f"over: {_text(over)}" if over else "# over: a shift",
        "unit: cm",
        "measures:",
    ]
    group = ""
    for name in in_turn(names):
        measure = catalogue().get(name)
        if measure is not None and measure.group != group:
            group = measure.group
            lines += ["", f"  # --- {group}"]
        how = (own or {}).get(name, "") if measure is None else measure.how
        lines += [f"  # {how}"] if how else []
        lines.append(f"  # {_text(name)}:")
    return "\n".join(lines) + "\n"


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

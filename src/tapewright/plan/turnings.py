"""Turnings that need not be written out: tables by the name of an edge, and what a finish usually takes.

A table comes from a printed source, named in the file beside this one. What finishes take is from memory and common
practice; a lesson that knows better says how much.
"""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files
from typing import Final

from tapewright.units import Length, read_length

INCH: Final = 25.4
#: What is left for an edge that is finished so, mm. From memory: no source.
USUAL: Final = {
    "to whip": INCH / 4,
    "to lap": INCH / 2,
    "to bag": INCH / 4,
    "to fell": INCH / 2,
}


@cache
def _rows() -> dict[str, dict[tuple[str, ...], float]]:
    """Every table: mm by the words of an edge."""
    text = (files("tapewright.plan") / "turnings.csv").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    found: dict[str, dict[tuple[str, ...], float]] = {}
    for row in csv.DictReader(lines):
        mm = read_length(row["leaves"])
        assert isinstance(mm, Length), row
        found.setdefault(row["table"], {})[tuple(row["edge"].split())] = float(mm.mm)
    return found


def tables() -> tuple[str, ...]:
    """The titles of the tables."""
    return tuple(_rows())


def turning_of(table: str, edge: str) -> float | None:
    """What a table leaves at an edge, mm, by the longest words that its name ends with; None where it names none.

    KeyError for a table that is not there.
    """
    words = tuple(edge.lower().split())
    rows = _rows()[table]
    for count in range(len(words), 0, -1):
        if words[-count:] in rows:
            return rows[words[-count:]]
    return None

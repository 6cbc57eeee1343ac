"""Handbook drafts: lessons of this folder, drawn for the book's figure, and measured as a row asks.

`compared.yaml` says which row of `data/check-values.csv` is held against what of which draft. Sheets are
read, lessons planned and drawn by the program itself; an amount is compared exactly wherever the plan
knows it as a fraction of what was measured.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from math import degrees
from pathlib import Path
from typing import Any

import numpy as np
import yaml

from tapewright.diagnostics import Query, Source
from tapewright.draft import Bodies, Draft, evaluate, from_sheets
from tapewright.draft.rows import OutlineRun
from tapewright.geometry import area
from tapewright.language import Amendment, Lesson, amendment_for, read_lesson
from tapewright.measures import Sheet, read_sheet
from tapewright.plan import Plan, build_plan
from tapewright.units import CM, INCH, YARD, M
from tests.handbook import Row, row
from tests.handbooks.exactly import Exactly

HERE = Path(__file__).parent
#: What a figure that is worked out in floating point may be out by where the row says exact, in its unit.
ROUNDING = Fraction(1, 10**9)
#: Millimetres in the units that rows are counted in; an area in the square of one.
SIZES = {
    "in": INCH.mm,
    "in per scale unit": INCH.mm,
    "same as d": INCH.mm,
    "sq in": INCH.mm,
    "sq ft": INCH.mm * 12,
    "mm": Fraction(1),
    "cm": CM.mm,
    "m": M.mm,
    "yd": YARD.mm,
}
_PLACE = re.compile(r"([A-Z]\d*'*) (right of|left of|above|below) ([A-Z]\d*'*)")
_SIGNS = {"right of": (1, 0), "left of": (-1, 0), "below": (0, 1), "above": (0, -1)}


@dataclass(frozen=True, slots=True)
class Asked:
    """What of a draft is held against a row: an amount, a place, a surface or a number of letters.

    `unit` is an amount of the lesson that it is counted in; empty for the unit of the row.
    """

    row: Row
    what: str
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Entry:
    """A lesson drawn for one sheet, and the rows that are compared with it."""

    lesson: str
    number: int
    sheet: Mapping[str, Any]
    by_eye: Mapping[str, str]
    printed: bool
    rows: tuple[Asked, ...]

    def __str__(self) -> str:
        return self.lesson if self.number == 0 else f"{self.lesson}, sheet {self.number + 1}"


@dataclass(frozen=True, slots=True)
class Found:
    """A compared figure in its row's unit; `exact` where no floating point came into it."""

    value: Fraction
    exact: bool

    def holds(self, book: Row) -> bool:
        """Whether it is the book's figure within the row's tolerance, exactly so where that is possible."""
        if self.exact:
            return book.holds(self.value)
        return abs(self.value - book.expected) <= max(book.tolerance, ROUNDING)


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """An entry drawn: its sheet, its plan with the compared amounts added, its draft.

    `alone` is the draft of the lesson as it stands, without the added amounts.
    """

    entry: Entry
    sheet: Sheet
    lesson: Lesson
    plan: Plan
    draft: Draft
    alone: Draft
    sheet_queries: tuple[Query, ...]
    names: Mapping[str, str] = field(default_factory=dict)


# --- the table -----------------------------------------------------------------------------------------


@cache
def _table() -> Mapping[str, Any]:
    read: Mapping[str, Any] = yaml.safe_load((HERE / "compared.yaml").read_text(encoding="utf-8"))
    return read


@cache
def entries() -> tuple[Entry, ...]:
    """Every entry of the table, in its order."""
    found: list[Entry] = []
    for one in _table()["drafts"]:
        rows = tuple(_asked(id_, said) for id_, said in one.get("rows", {}).items())
        number = sum(e.lesson == one["lesson"] for e in found)
        sheet = one.get("sheet", {"figure": "woman"})
        found.append(
            Entry(one["lesson"], number, sheet, one.get("by eye", {}), bool(one.get("printed")), rows)
        )
    return tuple(found)


def _asked(id_: str, said: str | Mapping[str, str]) -> Asked:
    return Asked(row(id_), said) if isinstance(said, str) else Asked(row(id_), said["compare"], said["in"])


@dataclass(frozen=True, slots=True)
class Waiting:
    """Rows that are not compared: which, what they are about, and why."""

    rows: tuple[str, ...]
    what: str
    why: str


def waiting() -> tuple[Waiting, ...]:
    """The rows that are not compared, by reason."""
    return tuple(Waiting(tuple(one["rows"]), one["what"], one["why"]) for one in _table()["waiting"])


def waiting_ids() -> tuple[str, ...]:
    """The numbers of the rows that are not compared."""
    return tuple(id_ for one in waiting() for id_ in one.rows)


def comparisons() -> tuple[tuple[Entry, Asked], ...]:
    """Every comparison."""
    return tuple((entry, asked) for entry in entries() for asked in entry.rows)


# --- drawing -------------------------------------------------------------------------------------------


def lesson_source(name: str) -> Source:
    """A lesson of this folder."""
    return Source(f"{name}.md", (HERE / f"{name}.md").read_text(encoding="utf-8"))


def lesson_names() -> tuple[str, ...]:
    """All lessons of this folder."""
    return tuple(sorted(path.stem for path in HERE.glob("*.md")))


@cache
def drawn(entry_index: int) -> Drawn:
    """An entry of the table drawn, the amounts that its rows compare added at its end."""
    entry = entries()[entry_index]
    source = lesson_source(entry.lesson)
    wanted = [w for asked in entry.rows for w in (asked.what, asked.unit) if w and is_amount(w)]
    names = {what: f"compared {i}" for i, what in enumerate(dict.fromkeys(wanted), 1)}
    added = "".join(f"\n99. Let the {name} be {what}.\n" for what, name in names.items())
    alone = read_lesson(source)
    lesson = read_lesson(Source(source.name, f"{source.text}\n{added}"))
    sheet, queries = read_sheet(Source("sheet.yaml", yaml.safe_dump({"wearer": "The book", **entry.sheet})))
    assert sheet is not None
    amendments: list[Amendment] = []
    for name, words in entry.by_eye.items():
        more, asked_back = amendment_for(words, name, alone)
        assert not asked_back, (name, words)
        amendments += more
    plan, plan_alone = build_plan(lesson, amendments), build_plan(alone, amendments)
    bodies = from_sheets([sheet], plan.measures())
    draft, draft_alone = evaluate(plan, bodies), evaluate(plan_alone, bodies)
    return Drawn(entry, sheet, lesson, plan, draft, draft_alone, queries, names)


def drawn_entry(entry: Entry) -> Drawn:
    """The same, by the entry."""
    return drawn(entries().index(entry))


def is_amount(what: str) -> bool:
    """Whether a compared thing is an amount of the language."""
    return not (what.startswith(("area of ", "how many of ")) or _PLACE.fullmatch(what))


# --- measuring -----------------------------------------------------------------------------------------


def found(one: Drawn, asked: Asked, draft: Draft | None = None) -> Found:
    """What an entry's draft has for a row, in the row's unit; another draft of its plan, if one is given."""
    exactly = None if draft is not None else Exactly(one.plan, one.sheet)
    here = one.draft if draft is None else draft
    if asked.what.startswith("how many of "):
        letters = re.findall(r"[A-Z]\d*'*", asked.what)
        return Found(Fraction(sum(here.alive(f"point {letter}") for letter in letters)), True)
    size = _value(one, here, exactly, asked.unit) if asked.unit else None
    if asked.row.unit == "deg":
        value = _value(one, here, exactly, asked.what)
        return value if value.exact else Found(Fraction(degrees(float(value.value))), False)
    unit = size if size is not None else Found(SIZES[asked.row.unit], True)
    if asked.what.startswith("area of "):
        surface = _surface(here, asked.what.removeprefix("area of ").removeprefix("the "))
        return Found(surface / unit.value**2, False)
    value = _value(one, here, exactly, asked.what)
    return Found(value.value / unit.value, value.exact and unit.exact)


def _value(one: Drawn, draft: Draft, exactly: Exactly | None, what: str) -> Found:
    """An amount or a place, in millimetres (or degrees where exact, radians where not)."""
    place = _PLACE.fullmatch(what)
    if place is not None:
        p, q = draft.point(place[1]), draft.point(place[3])
        across, down = _SIGNS[place[2]]
        return Found(Fraction(float((p.x[0] - q.x[0]) * across + (p.y[0] - q.y[0]) * down)), False)
    name = one.names[what]
    exact = None if exactly is None else exactly.named(name)
    if exact is not None:
        return Found(exact, True)
    assert draft.alive(f"name {name}"), what
    return Found(Fraction(float(draft.amount(name)[0])), False)


def _surface(draft: Draft, name: str) -> Fraction:
    outline = draft.made[draft.plan.outlines[name].key].thing
    assert isinstance(outline, OutlineRun)
    return Fraction(abs(float(area([edge.drawn for edge in outline.edges])[0])))


def drawn_larger(one: Drawn, factor: float) -> Draft:
    """The same plan for a figure whose every measure, and every value by eye, is so many times as large."""
    bodies = one.draft.bodies
    larger = Bodies(
        bodies.count,
        bodies.labels,
        bodies.figures,
        {name: value * factor for name, value in bodies.values.items()},
        bodies.taken,
    )
    chosen = {
        name: np.asarray(one.draft.made[f"eye {name}"].thing) * factor
        for name in one.plan.by_eye
        if one.draft.alive(f"eye {name}")
    }
    return evaluate(one.plan, larger, chosen)

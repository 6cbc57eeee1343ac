"""What the headings of a company's table mean: whose, when, over what, and which measure in which unit.

A heading may be any word of the trade for a measure, with a unit, a side and a second reading behind or
before it: `Hips (cm)`, `left shoulder`, `waist_to_floor back in`, `bust 2`. A word that may mean several
measures is asked about, and a column that means nothing here is passed over and said so.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from tapewright.diagnostics import Query, Span, caution, did_you_mean, note, question
from tapewright.measures.catalogue import catalogue, measures_meant, near_measures, plain_name
from tapewright.measures.grid import Cell
from tapewright.measures.values import short
from tapewright.units import INCH, Unit, old_units_called, unit_called

LINES: Mapping[str, tuple[str, ...]] = {
    "wearer": ("wearer", "name", "wearers", "who", "person", "full name"),
    "figure": ("figure", "sex", "woman or man"),
    "date": ("date", "day", "measured on", "taken on", "measured"),
    "over": ("over", "worn beneath", "beneath", "taken over", "worn", "worn under"),
    "unit": ("unit", "units", "in unit"),
    "estimate from": ("estimate from",),
    "notes": ("notes", "note", "remarks", "remark"),
}
"""The lines of a sheet beside its measures, by the headings they are known under."""

_LINE_WORDS = {
    "over": "what is worn beneath",
    "date": "the day it was taken",
    "unit": "the unit of the row",
    "estimate from": "the people to estimate from",
}

NOTHING = "nothing"
"""What a heading is said to be when its column is to be passed over."""

_SIDES = {"left": "left", "l": "left", "right": "right", "r": "right", "front": "front", "back": "back"}
_AGAIN = frozenset({"2", "3", "second", "third", "again"})
_FIRST = frozenset({"1", "first", "first reading"})
_UNIT_BEHIND = re.compile(r"^(.*?)\s*[\[(]\s*([^\])]*?)\s*[\])]$")
_PARTED = re.compile(r"[\s,_/-]+")


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading and what it was understood to be.

    `line` is a line of the sheet (`wearer`), `measure` a measure with its `side`, its `unit`, and whether
    it is the second reading; both empty for a column that is passed over. `own` marks a measure that is
    not in the catalogue, `waits` one that is still to be settled, and `either` the bust of women that is the
    chest of men.
    """

    heading: str
    span: Span
    line: str = ""
    measure: str = ""
    side: str = ""
    unit: Unit | None = None
    again: bool = False
    own: bool = False
    waits: bool = False
    either: bool = False

    @property
    def passed_over(self) -> bool:
        return not self.line and not self.measure

    def words(self) -> str:
        """What the column was understood to be, in words."""
        if self.waits:
            return "to be settled"
        if self.line:
            return _LINE_WORDS.get(self.line, f"the {self.line}")
        if not self.measure:
            return "passed over"
        words = f"the {self.side} {self.measure}" if self.side else f"the {self.measure}"
        if self.either:
            words = "the bust of women, the chest of men"
        if self.again:
            words += ", second reading"
        if self.own:
            words += ", a measure of your own"
        if self.unit is None:
            return words
        return f"{words}, in {'inches' if self.unit is INCH else self.unit.name}"


def _unit(words: str) -> Unit | None:
    found = unit_called(words)
    if found is not None:
        return found
    old = old_units_called(words)
    return old[0] if len(old) == 1 else None


def _take_unit(heading: str) -> tuple[str, Unit | None]:
    """The heading without a unit behind it, and the unit: in brackets, or its last word."""
    if (found := _UNIT_BEHIND.match(heading)) and (unit := _unit(found[2])) is not None:
        return found[1], unit
    words = heading.replace("_", " ").rstrip(" :").split()
    if len(words) > 1 and (unit := _unit(words[-1])) is not None:
        return " ".join(words[:-1]).rstrip(" ,:"), unit
    return heading, None


def _sides_taken(words: list[str]) -> list[tuple[str, str, bool]]:
    """Readings of a heading's words: what is left, its side, whether it is the second; the plainest first."""
    found = [(" ".join(words), "", False)]
    for again in (False, True):
        rest = list(words)
        if again:
            if not rest or rest[-1] not in _AGAIN:
                continue
            rest = rest[:-1]
            found.append((" ".join(rest), "", True))
        elif rest and rest[-1] in _FIRST:
            rest = rest[:-1]
            found.append((" ".join(rest), "", False))
        if len(rest) > 1:
            for side, left in ((rest[-1], rest[:-1]), (rest[0], rest[1:])):
                if side in _SIDES:
                    found.append((" ".join(left), _SIDES[side], again))
    return found


def _understood(cell: Cell) -> tuple[Column, tuple[str, ...]]:
    """A column, and the measures its heading may mean when it may mean several."""
    plain, unit = _take_unit(cell.text)
    words = [w for w in _PARTED.split(plain_name(plain).rstrip(":")) if w]
    spaced = " ".join(words)
    bare = Column(cell.text, cell.span, unit=unit)
    for line, known in LINES.items():
        if spaced in known:
            return replace(bare, line=line, unit=None), ()
    for left, side, again in _sides_taken(words):
        if {*left.split()} - {"or", "and"} == {"bust", "chest"}:
            return replace(bare, measure="bust", again=again, either=True), ()
        meant = measures_meant(left)
        if side:
            meant = tuple(name for name in meant if side in catalogue()[name].sides)
        if len(meant) == 1:
            return replace(bare, measure=meant[0], side=side, again=again), ()
        if meant:
            return replace(bare, waits=True), meant
    if unit is not None and spaced:
        return replace(bare, measure=spaced, own=True), ()
    return bare, ()


def _told(cell: Cell, name: str) -> Column | None:
    """The column as somebody said it is: a measure, a line of the sheet, or nothing."""
    _, unit = _take_unit(cell.text)
    if name == NOTHING:
        return Column(cell.text, cell.span)
    if name in LINES:
        return Column(cell.text, cell.span, line=name)
    for left, side, again in _sides_taken(name.split()):
        if left in catalogue() and (not side or side in catalogue()[left].sides):
            return Column(cell.text, cell.span, measure=left, side=side, unit=unit, again=again)
    return None


def understood(cells: Sequence[Cell], told: Mapping[str, str]) -> int:
    """How many of some cells are headings of a table of measures."""
    said = {plain_name(heading) for heading in told}
    count = 0
    for cell in cells:
        column, meant = _understood(cell)
        count += plain_name(cell.text) in said or bool(
            column.line or meant or (column.measure and not column.own)
        )
    return count


def read_headings(cells: Sequence[Cell], told: Mapping[str, str]) -> tuple[tuple[Column, ...], list[Query]]:
    """The columns of a table and what there is to ask; `told` says what headings are that were asked about."""
    columns: list[Column] = []
    queries: list[Query] = []
    said = {plain_name(heading): plain_name(name) for heading, name in told.items()}
    for cell in cells:
        name = said.get(plain_name(cell.text))
        if name is not None:
            column = _told(cell, name)
            if column is None:
                queries.append(_no_such(cell, name))
                column = Column(cell.text, cell.span, waits=True)
            columns.append(column)
            continue
        column, meant = _understood(cell)
        columns.append(column)
        if meant:
            queries.append(_which(cell, meant))
        elif column.own:
            queries.append(_own(column))
        elif column.passed_over and cell.text:
            queries.append(_passed_over(cell))
    return tuple(columns), [*queries, *_twice(columns)]


def _how(heading: str, name: str) -> str:
    return f'--column "{heading}={name}"'


def _which(cell: Cell, meant: tuple[str, ...]) -> Query:
    listed = f"{', '.join(f'the {name}' for name in meant[:-1])} or the {meant[-1]}"
    return question(
        "import-which-column",
        f"The column “{short(cell.text)}” may be {listed}.",
        cell.span,
        help=f"Say which: {_how(short(cell.text), meant[0])}; or leave it out: {_how(short(cell.text), NOTHING)}.",
        answers=meant,
    )


def _passed_over(cell: Cell) -> Query:
    near = near_measures(_take_unit(cell.text)[0])
    return caution(
        "import-column-passed-over",
        f"The column “{short(cell.text)}” is none that I know, and is passed over.",
        cell.span,
        help=f"If it is a measure, say which: {_how(short(cell.text), near[0] if near else 'bust')}.",
        answers=near,
    )


def _own(column: Column) -> Query:
    near = near_measures(column.measure)
    hint = f" If it is the {near[0]}, say so: {_how(short(column.heading), near[0])}." if near else ""
    return note(
        "measure-unknown",
        f"“{short(column.measure)}” is not among the measures I know; the column is kept as lengths of your own.",
        column.span,
        help=f"A lesson that asks for a measure of this name will find it.{hint}",
        answers=near,
    )


def _no_such(cell: Cell, name: str) -> Query:
    return question(
        "import-which-column",
        f"There is no measure called {short(name)} to take the column “{short(cell.text)}” for.",
        cell.span,
        answers=did_you_mean(name, [*catalogue(), *LINES, NOTHING]),
    )


def _twice(columns: list[Column]) -> list[Query]:
    """Columns that mean the same thing; a lone second reading is the first."""
    seen: dict[tuple[str, str, str, bool], Column] = {}
    queries = []
    for column in columns:
        if column.passed_over:
            continue
        key = (column.line, column.measure, column.side, column.again)
        if key in seen:
            queries.append(
                question(
                    "import-column-twice",
                    f"The columns “{short(seen[key].heading)}” and “{short(column.heading)}” are both "
                    f"{column.words().split(', in ')[0]}.",
                    column.span,
                    help=f"Leave one out: {_how(short(column.heading), NOTHING)}. A second reading is "
                    f"headed {short(column.measure or column.line)} 2.",
                )
            )
        else:
            seen[key] = column
    return queries

"""Tables and shapes: pipe tables under their own headings.

`## Table: the boys' sizes` holds measures by rows; the paragraph above the table says what holds between
them (*in proportion*, *nearest* or *next larger*). `## Shape: turnover` holds the points of a shape, so many
squares right and down, perhaps with letters.
"""

from __future__ import annotations

import re
from fractions import Fraction

from tapewright.diagnostics import Query, Source, Span, question
from tapewright.language.bullets import plain_name
from tapewright.language.lesson import ShapeEntry, ShapePoint, TableEntry
from tapewright.units import Unit, UnitKind, read_length, read_number, unit_called
from tapewright.units.amounts import Length

BETWEEN = ("in proportion", "nearest", "next larger")

_LIKE = "The first row names the columns, such as | chest (in) | scye depth (in) |; figures follow."
_SHAPE = "Its first row is | right | down | or | right | down | letter |; each point follows in a row."
_SQUARES = "Such as 2, 2 1/2 or 2.5; a minus before it goes the other way."

_CELL = re.compile(r"(?<!\\)\|")
_UNIT = re.compile(r"^(.*?)\s*(?:\(([^()]+)\)|,\s*([^,]+))?$")


def table(
    source: Source, name: str, heading: Span, span: Span, above: str
) -> tuple[TableEntry | None, list[Query]]:
    """A table of amounts; `above` is the paragraph that stands over it."""
    rows = _rows(source, span)
    if len(rows) < 2:
        return None, [_ask(span, "A table has a row of names and at least one row of figures.", _LIKE)]
    columns: list[str] = []
    units: list[Unit | None] = []
    for words, _ in rows[0]:
        found = _UNIT.match(words)
        said = (found[2] or found[3] or "") if found else ""
        unit = unit_called(said.strip()) if said else None
        units.append(unit if unit is not None and unit.kind is UnitKind.LENGTH else None)
        columns.append(plain_name((found[1] if found else words) if unit is not None else words))
    figures: list[tuple[Fraction, ...]] = []
    queries: list[Query] = []
    for row in rows[1:]:
        if len(row) != len(columns):
            queries.append(
                _ask(
                    row[0][1] if row else span,
                    f"This row has {len(row)} {'cell' if len(row) == 1 else 'cells'}; "
                    f"the row of names has {len(columns)}.",
                    "Every row has a figure under each name.",
                )
            )
            continue
        read = [_figure(words, place, unit) for (words, place), unit in zip(row, units, strict=True)]
        queries += [r for r in read if isinstance(r, Query)]
        if not any(isinstance(r, Query) for r in read):
            figures.append(tuple(r for r in read if isinstance(r, Fraction)))
    if queries:
        return None, queries
    between = next((b for b in BETWEEN if b in above.lower()), "")
    return TableEntry(name, tuple(columns), tuple(figures), between, heading), []


def shape(source: Source, name: str, heading: Span, span: Span) -> tuple[ShapeEntry | None, list[Query]]:
    """The points of a shape: columns right and down in squares, and a letter if one is to be made there."""
    rows = _rows(source, span)
    head = [words.lower() for words, _ in rows[0]] if rows else []
    if "right" not in head or "down" not in head:
        return None, [
            _ask(
                span,
                "A shape's table has the columns right and down, in squares, and may have letter.",
                _SHAPE,
            )
        ]
    points: list[ShapePoint] = []
    queries: list[Query] = []
    for row in rows[1:]:
        cells = dict(zip(head, row, strict=False))
        numbers = []
        for column in ("right", "down"):
            words, place = cells.get(column, ("", span))
            sign = -1 if words[:1] in "-−–" and words else 1
            number = read_number(words.lstrip("-−– "))
            if number is None:
                queries.append(_ask(place, f"I cannot read “{words}” as a number of squares.", _SQUARES))
            else:
                numbers.append(sign * number)
        if len(numbers) == 2:
            letter = cells.get("letter", ("", span))[0].strip()
            corner = "corner" in cells.get("line", ("", span))[0].lower()
            points.append(ShapePoint(numbers[0], numbers[1], letter, corner))
    if not queries and len(points) < 2:
        queries.append(_ask(span, "A shape has at least two points.", _SHAPE))
    return (None, queries) if queries else (ShapeEntry(name, tuple(points), heading), [])


def _rows(source: Source, span: Span) -> list[list[tuple[str, Span]]]:
    """The cells of each row with their places; the row of dashes is left out."""
    rows = []
    at = span.start
    for line in source[span].splitlines(keepends=True):
        cells: list[tuple[str, Span]] = []
        start = 0
        text = line.rstrip("\r\n")
        for cut in [*(m.start() for m in _CELL.finditer(text)), len(text)]:
            piece = text[start:cut]
            left = start + len(piece) - len(piece.lstrip())
            cells.append((piece.strip(), Span(at + left, at + left + max(1, len(piece.strip())))))
            start = cut + 1
        if cells and not cells[0][0]:
            cells = cells[1:]
        if cells and not cells[-1][0]:
            cells = cells[:-1]
        if cells and not all(re.fullmatch(r":?-+:?", words) for words, _ in cells):
            rows.append(cells)
        at += len(line)
    return rows


def _figure(words: str, place: Span, unit: Unit | None) -> Fraction | Query:
    found = read_length(words, unit)
    if isinstance(found, Length):
        return found.mm
    return question(
        "table-figure", f"I cannot read “{words}” as a length.", place,
        help="Give the column's unit with its name, such as chest (in), or a unit with the figure.",
    )  # fmt: skip


def _ask(span: Span, message: str, help_: str = "") -> Query:
    return question("table", message, span, help=help_)

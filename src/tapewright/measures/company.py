"""A company's measures from one table: a row a wearer, each read by the very rules of a measure sheet.

A row with a question is rejected whole, with its reasons; nothing of it is taken. What the headings were
understood to be is told before anything is kept. A table with its measures down the side and a wearer a
column is read as well.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from tapewright.diagnostics import Kind, Query, Source, Span, question
from tapewright.measures.catalogue import plain_name
from tapewright.measures.grid import Cell, Row, read_grid, turned
from tapewright.measures.head import Reader
from tapewright.measures.headings import Column, read_headings, understood
from tapewright.measures.over import same_layers, say_layers
from tapewright.measures.reading import sheet_of
from tapewright.measures.sheet import Figure, Sheet
from tapewright.measures.tree import Listing, Node, Table, Text
from tapewright.measures.values import short
from tapewright.units import Unit

LARGEST = 8_000_000
"""Characters in a company's table: some tens of thousands of wearers; more is refused."""

_MOST_COLUMNS = 400
_EMPTY = frozenset({"", "-", "–", "—", "?", "n/a"})
_BARE = re.compile(r"^[-−]?[\d\s.,/½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⁄-]+$")
_SURE = re.compile(r"^(.*?)([\s,]+as\s+taken)\s*$", re.IGNORECASE)
_THICK = re.compile(r"^(.*?)\s*\(([^)]*)\)$")
_HELP = {
    "sheet-for-nobody": "Fill in the wearer's name; a first name or initials will do.",
    "sheet-figure": "Add a column headed figure, or say --figure woman or --figure man for all.",
    "sheet-unit": "Put the unit into the heading, bust (cm); or say --unit cm for all.",
}
"""What to try where a table is read, instead of a sheet with lines of its own."""

_FIGURES = {
    **dict.fromkeys(("woman", "women", "female", "f", "w"), Figure.WOMAN),
    **dict.fromkeys(("man", "men", "male", "m"), Figure.MAN),
    **dict.fromkeys(("child", "children", "boy", "girl", "c"), Figure.CHILD),
}


@dataclass(frozen=True, slots=True)
class Wearer:
    """One row: its sheet, and all there is to say of it. `place` is where the row begins."""

    sheet: Sheet
    queries: tuple[Query, ...]
    place: Span

    @property
    def rejected(self) -> bool:
        """Whether a question remains, so that nothing of the row is taken."""
        return any(q.kind is Kind.QUESTION for q in self.queries)


@dataclass(frozen=True, slots=True)
class Company:
    """A table read: what its columns are, its wearers in order, and what there is to ask of it as a whole."""

    columns: tuple[Column, ...]
    wearers: tuple[Wearer, ...]
    queries: tuple[Query, ...]

    @property
    def waits(self) -> bool:
        """Whether a heading is still to be settled, so that nothing at all is to be kept."""
        return any(q.kind is Kind.QUESTION for q in self.queries)

    @property
    def accepted(self) -> tuple[Wearer, ...]:
        return tuple(w for w in self.wearers if not w.rejected)

    @property
    def rejected(self) -> tuple[Wearer, ...]:
        return tuple(w for w in self.wearers if w.rejected)


def _not_there(source: Source, message: str, help_: str, span: Span | None = None) -> Company:
    return Company((), (), (question("import-no-table", message, span, help=help_).at(source.name),))


def read_company(
    source: Source,
    *,
    told: Mapping[str, str] | None = None,
    unit: str = "",
    figure: Figure | None = None,
) -> Company:
    """The company of a table. `told` settles headings (heading -> measure, line or `nothing`); `unit` and
    `figure` hold where a row says neither. Queries carry the source's name and places in it; never raises.
    """
    text = source.text
    if len(text) > LARGEST:
        return _not_there(
            source,
            f"This table holds {len(text):,} characters, which is no company's.",
            "Is it another file?",
        )
    rows, unclosed = read_grid(text)
    if unclosed is not None:
        return _not_there(
            source,
            "A double quote is opened here and never closed, so that the rest is one cell.",
            "Close it, or write in for an inch mark.",
            unclosed,
        )
    if len(rows) < 2:
        return _not_there(
            source,
            "There is no table here: one row of headings, and under it a row a wearer.",
            "The first heading is wearer; the others are measures, such as bust (cm).",
        )
    if max(len(row) for row in rows) > _MOST_COLUMNS and len(rows) > _MOST_COLUMNS:
        return _not_there(source, "This table is too wide for one of measures.", "Is it another file?")
    rows = _upright(rows, told or {})
    columns, queries = read_headings(rows[0], told or {})
    if not any(column.line == "wearer" for column in columns):
        queries.insert(
            0,
            question(
                "import-no-wearers",
                "No column says whose measures these are.",
                rows[0][0].span,
                help='Head it wearer, or name; or say which it is: --column "HEADING=wearer".',
            ),
        )
    wearers = [_wearer(source, row, columns, unit, figure) for row in rows[1:]]
    return Company(
        columns, tuple(_each_once(wearers, source.name)), tuple(q.at(source.name) for q in queries)
    )


def _upright(rows: tuple[Row, ...], told: Mapping[str, str]) -> tuple[Row, ...]:
    """The table with a wearer a row: turned, where its first column is understood better than its first row."""
    if len(rows) > _MOST_COLUMNS:
        return rows
    down = understood(tuple(row[0] for row in rows), told)
    return turned(rows) if down > max(1, understood(rows[0], told)) else rows


def _text(cell: Cell, value: str | None = None) -> Text:
    return Text(cell.text if value is None else value, cell.span)


def _value(cell: Cell, unit: Unit | None) -> Text:
    """A cell's value, with the unit of its heading where it has none of its own."""
    if unit is None:
        return _text(cell)
    sure = _SURE.match(cell.text)
    number, tail = (sure[1], sure[2]) if sure else (cell.text, "")
    return _text(cell, f"{number.strip()} {unit.name}{tail}") if _BARE.match(number) else _text(cell)


def _over(cell: Cell) -> Node:
    """The layers of a cell; a thickness stands in brackets behind its layer."""
    parts = [p for p in re.split(r"\s*(?:,|;|\band\b)\s*", cell.text) if p]
    if not any(_THICK.match(p) for p in parts):
        return _text(cell)
    items: list[Node] = []
    for part in parts:
        thick = _THICK.match(part)
        if thick is None:
            items.append(_text(cell, part))
        else:
            pairs = (
                (_text(cell, "layer"), _text(cell, thick[1])),
                (_text(cell, "thickness"), _text(cell, thick[2])),
            )
            items.append(Table(pairs, cell.span))
    return Listing(tuple(items), cell.span)


def _figure_of(columns: tuple[Column, ...], row: Row) -> Figure | None:
    said = (cell.text for column, cell in zip(columns, row, strict=False) if column.line == "figure")
    return next((_FIGURES[plain_name(text)] for text in said if plain_name(text) in _FIGURES), None)


def _wearer(
    source: Source, row: Row, columns: tuple[Column, ...], unit: str, figure: Figure | None
) -> Wearer:
    reader = Reader(source)
    lines: dict[str, tuple[Text, Node]] = {}
    taken: dict[str, dict[str, list[tuple[bool, Cell, Text]]]] = {}
    keys: dict[str, Cell] = {}
    whose = _figure_of(columns, row) or figure
    for column, cell in zip(columns, row, strict=False):
        if cell.text.casefold() in _EMPTY or column.passed_over or column.waits:
            continue
        if column.line:
            node: Node = _text(cell)
            if column.line == "figure":
                node = _text(cell, str(_FIGURES.get(plain_name(cell.text), cell.text)))
            elif column.line == "over":
                node = _over(cell)
            lines[column.line] = (_text(cell, column.line), node)
            continue
        name = "chest" if column.either and whose is Figure.MAN else column.measure
        keys.setdefault(name, cell)
        sides = taken.setdefault(name, {})
        sides.setdefault(column.side, []).append((column.again, cell, _value(cell, column.unit)))
    start = row[0].span
    whole = Span(start.start, row[-1].span.end)
    head = Cell("", start)
    if unit and "unit" not in lines:
        lines["unit"] = (_text(head, "unit"), _text(head, unit))
    if figure is not None and "figure" not in lines:
        lines["figure"] = (_text(head, "figure"), _text(head, str(figure)))
    measures = tuple(
        (_text(keys[name], name), _measure(sides, keys[name].span)) for name, sides in taken.items()
    )
    pairs = (*lines.values(), (_text(head, "measures"), Table(measures, whole)))
    sheet = sheet_of(reader, Table(pairs, whole))
    extra = [cell for cell in row[len(columns) :] if cell.text]
    if extra:
        reader.ask(
            question(
                "import-row",
                f"This row has more cells than there are headings; the first is “{short(extra[0].text)}”.",
                extra[0].span,
                help="Was a comma written in a number? Put the cell in double quotes, or use a point.",
            )
        )
        # Cells that have moved along are under another's heading: what they hold there says nothing.
        reader.queries[:] = [
            q for q in reader.queries if q.name == "import-row" or q.kind is not Kind.QUESTION
        ]
    if not taken and not extra:
        reader.ask(
            question("import-row", "This row holds no measure.", start, help="Leave it out, or fill it in.")
        )
    own = {column.measure for column in columns if column.own}
    said = [q for q in reader.queries if not (q.name == "measure-unknown" and _names(q, sheet) & own)]
    said = [replace(q, help=_HELP.get(q.name, q.help), span=q.span or start) for q in said]
    in_order = sorted(said, key=lambda q: -1 if q.span is None else q.span.start)
    return Wearer(sheet, tuple(q.at(source.name) for q in in_order), start)


def _names(query: Query, sheet: Sheet) -> set[str]:
    return {name for name, span in sheet.spans.items() if span == query.span}


def _measure(sides: Mapping[str, list[tuple[bool, Cell, Text]]], span: Span) -> Node:
    def one(readings: list[tuple[bool, Cell, Text]]) -> Node:
        texts = tuple(text for _, _, text in sorted(readings, key=lambda r: r[0]))
        return texts[0] if len(texts) == 1 else Listing(texts, texts[0].span.to(texts[-1].span))

    if list(sides) == [""]:
        return one(sides[""])
    first = next(iter(sides.values()))[0][1]
    pairs = tuple((Text(side or "taken", first.span), one(readings)) for side, readings in sides.items())
    return Table(pairs, span)


def _each_once(wearers: list[Wearer], source: str) -> list[Wearer]:
    """The wearers, those that stand a second time over the same layers with a question of it."""
    seen: dict[str, list[Wearer]] = {}
    found: list[Wearer] = []
    for wearer in wearers:
        name = plain_name(wearer.sheet.wearer)
        before = next(
            (w for w in seen.get(name, []) if same_layers(w.sheet.over or (), wearer.sheet.over or ())), None
        )
        if name and before is not None:
            over = f" over {say_layers(wearer.sheet.over)}" if wearer.sheet.over else ""
            query = question(
                "import-wearer-twice",
                f"{wearer.sheet.wearer} stands here a second time{over}.",
                wearer.place,
                help="Keep one row; two readings of a measure stand in two columns, bust and bust 2. Two people "
                "of one name want a letter more.",
            ).at(source)
            wearer = replace(wearer, queries=(*wearer.queries, query))  # noqa: PLW2901
        seen.setdefault(name, []).append(wearer)
        found.append(wearer)
    return found

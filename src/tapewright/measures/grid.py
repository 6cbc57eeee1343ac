"""A table of cells from text, each with its place: a file of values parted by commas, or what was pasted.

Cells are parted by whichever of tab, semicolon and comma parts the first line into most cells. A cell may
stand in double quotes, and then hold parting marks, line ends and, doubled, quotes. Lines that begin with #
are remarks. Nothing here knows what a cell means, and nothing raises.
"""

from __future__ import annotations

from dataclasses import dataclass

from tapewright.diagnostics import Span

_MARKS = ("\t", ";", ",")


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell: its text without quotes and outer spaces, and where it stands in the source."""

    text: str
    span: Span


Row = tuple[Cell, ...]


def _parting(text: str) -> str:
    """The mark that parts cells, by the first line that is no remark; a comma when none does."""
    for line in text.splitlines():
        if line.strip() and not line.lstrip().startswith("#"):
            counts = [len(_cells_of_line(line, mark)) for mark in _MARKS]
            return _MARKS[counts.index(max(counts))] if max(counts) > 1 else ","
    return ","


def _cells_of_line(line: str, mark: str) -> Row:
    rows, _ = _scan(line, mark)
    return rows[0] if rows else ()


def _scan(text: str, mark: str) -> tuple[list[Row], Span | None]:
    """The rows, and the place of a quote that is never closed."""
    rows: list[Row] = []
    row: list[Cell] = []
    at, size = 0, len(text)
    unclosed: Span | None = None
    line_start = True
    while at <= size:
        if line_start and (remark := _remark(text, at)) is not None:
            at = remark
            continue
        line_start = False
        start = at
        while at < size and text[at].isspace() and text[at] not in f"{mark}\r\n":
            at += 1
        if at < size and text[at] == '"':
            inner, at, closed = _quoted(text, at)
            if not closed and unclosed is None:
                unclosed = Span(start, start + 1)
            end = at
            while at < size and text[at] not in f"{mark}\r\n":
                at += 1
            tail = text[end:at].strip()
            cell = Cell(f"{inner}{tail}", Span(start, end))
        else:
            begin = at
            while at < size and text[at] not in f"{mark}\r\n":
                at += 1
            said = text[begin:at].rstrip()
            cell = Cell(said, Span(begin, begin + len(said)))
        row.append(cell)
        if at < size and text[at] == mark:
            at += 1
            continue
        if any(c.text for c in row):
            rows.append(tuple(row))
        row = []
        if at >= size:
            break
        at += 2 if text.startswith("\r\n", at) else 1
        line_start = True
    return rows, unclosed


def _remark(text: str, at: int) -> int | None:
    """Where the next line begins, if this one is a remark."""
    start = at
    while start < len(text) and text[start] in " \u00a0":
        start += 1
    if start >= len(text) or text[start] != "#":
        return None
    end = text.find("\n", start)
    return len(text) + 1 if end < 0 else end + 1


def _quoted(text: str, at: int) -> tuple[str, int, bool]:
    """What stands in the quotes that open at `at`, the place after them, and whether they close."""
    parts: list[str] = []
    begin = at + 1
    while True:
        end = text.find('"', begin)
        if end < 0:
            return " ".join("".join([*parts, text[begin:]]).split()), len(text), False
        parts.append(text[begin:end])
        if text.startswith('"', end + 1):
            parts.append('"')
            begin = end + 2
            continue
        return " ".join("".join(parts).split()), end + 1, True


def read_grid(text: str) -> tuple[tuple[Row, ...], Span | None]:
    """The rows of a table, empty ones left out, and the place of a quote that is never closed."""
    rows, unclosed = _scan(text, _parting(text))
    return tuple(rows), unclosed


def turned(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """The table with its rows for columns; short rows are filled with empty cells."""
    width = max((len(row) for row in rows), default=0)
    filled = [(*row, *(Cell("", row[-1].span) for _ in range(width - len(row)))) for row in rows]
    return tuple(tuple(row[i] for row in filled) for i in range(width))

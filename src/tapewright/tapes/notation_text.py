"""The text of a notation taken apart: title, source, paragraphs, list and rows of the table, each with its place.

What it all comes to is `notation_file.py`'s; here is asked only what the shape of a line leaves open.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from tapewright.diagnostics import Query, Source, Span, did_you_mean, question

COLUMNS = ("mark", "share", "said", "edge")
KEYS = ("read", "parts", "to", "girths", "counts", "counted")
_EXAMPLE_ROW = "| m | 1/2 | a half |"
_DELIMITER = re.compile(r"\|?\s*:?-+:?\s*(\|\s*:?-+:?\s*)*\|?")
_CELL = re.compile(r"(?:\\.|[^|\\])*")


@dataclass(slots=True)
class Found:
    """What a text has in it, and what is asked about it."""

    title: str = ""
    source: str = ""
    prose: list[str] = field(default_factory=list)
    said: dict[str, tuple[str, Span]] = field(default_factory=dict)
    rows: list[tuple[list[str], list[Span], Span]] = field(default_factory=list)
    queries: list[Query] = field(default_factory=list)

    def ask(self, query: Query) -> None:
        self.queries.append(query)


def blocks(text: str) -> Iterator[Span]:
    """Runs of lines with no bare line between, in order."""
    start: int | None = None
    at = 0
    for line in text.splitlines(keepends=True):
        if line.strip():
            start = at if start is None else start
        elif start is not None:
            yield Span(start, at)
            start = None
        at += len(line)
    if start is not None:
        yield Span(start, at)


def _lines(text: str, span: Span) -> list[Span]:
    """The lines of a block without what is bare at their ends."""
    found = []
    at = span.start
    for line in text[span.start : span.end].splitlines(keepends=True):
        inner = line.strip()
        if inner:
            start = at + len(line) - len(line.lstrip())
            found.append(Span(start, start + len(inner)))
        at += len(line)
    return found


def take(block: Span, source: Source, found: Found) -> None:
    lines = _lines(source.text, block)
    first = source[lines[0]]
    if first.startswith("#"):
        if not found.title and first.startswith("# "):
            found.title = first[2:].strip()
        lines = lines[1:]
        if not lines:
            return
        first = source[lines[0]]
    if first.startswith("|"):
        _table(lines, source, found)
    elif first.startswith(("- ", "* ")):
        _list(lines, source, found)
    elif first.casefold().startswith("source:"):
        found.source = _joined(lines, source)[len("source:") :].strip()
    else:
        found.prose.append(_joined(lines, source))


def _joined(lines: list[Span], source: Source) -> str:
    return " ".join(" ".join(source[line].split()) for line in lines)


def _list(lines: list[Span], source: Source, found: Found) -> None:
    for line in lines:
        text = source[line]
        key, colon, words = text[2:].partition(":")
        key = " ".join(key.casefold().split())
        if not text.startswith(("- ", "* ")) or not colon or key not in KEYS:
            near = did_you_mean(key, KEYS)
            found.ask(
                question(
                    "notation-line",
                    "This line of the list says nothing about how the notation is read.",
                    line,
                    help="A line begins with " + ", ".join(f"{k}:" for k in KEYS[:-1]) + f" or {KEYS[-1]}:.",
                    answers=[text.replace(text[2:].partition(":")[0], one, 1) for one in near if colon],
                )
            )
        elif key in found.said:
            found.ask(question("notation-line", f"“{key}” is said twice.", line, help="Keep one of the two."))
        else:
            start = line.end - len(words.lstrip())
            found.said[key] = (" ".join(words.split()), Span(min(start, line.end), line.end))


def _cells(text: str, line: Span) -> list[tuple[str, Span]]:
    """The cells of a table's row, each with its place; `\\|` stands for an upright stroke."""
    inner = text[line.start : line.end]
    at = 1 if inner.startswith("|") else 0
    cells = []
    while at <= len(inner):
        found = _CELL.match(inner, at)
        end = found.end() if found else at
        raw = inner[at:end]
        start = line.start + at + len(raw) - len(raw.lstrip())
        cell = raw.strip()
        cells.append((cell.replace("\\|", "|"), Span(start, start + len(cell))))
        at = end + 1
    if len(cells) > 1 and not cells[-1][0] and inner.endswith("|"):
        cells.pop()
    return cells


def _table(lines: list[Span], source: Source, found: Found) -> None:
    head = [name.casefold() for name, _ in _cells(source.text, lines[0])]
    ruled = len(lines) > 1 and _DELIMITER.fullmatch(source[lines[1]]) is not None
    if not ruled or "mark" not in head or "share" not in head or not set(head) <= set(COLUMNS):
        found.ask(
            question(
                "notation-table",
                "A table of marks has a column “mark” and a column “share”, and may have “said” and “edge”.",
                lines[0],
                help="Write | mark | share | said | with a line | --- | --- | --- | under it, "
                f"then a row for each mark, such as {_EXAMPLE_ROW}",
            )
        )
        return
    for line in lines[2:]:
        cells = _cells(source.text, line)
        if len(cells) != len(head):
            found.ask(
                question(
                    "notation-table",
                    f"This row has {len(cells)} cells; the table has {len(head)} columns.",
                    line,
                    help=f"Write it like {_EXAMPLE_ROW} An upright stroke that is a mark itself is written \\|.",
                )
            )
            continue
        by = dict(zip(head, cells, strict=True))
        row = [by.get(column, ("", line)) for column in COLUMNS]
        found.rows.append(([cell for cell, _ in row], [place for _, place in row], line))

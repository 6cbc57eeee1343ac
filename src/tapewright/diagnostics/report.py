"""Queries as text for people and as plain data for programs, both from the same record."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from tapewright.diagnostics.query import Answer, Query
from tapewright.diagnostics.source import Source, Span

_UNDERLINE = "^"
_MEANT = "Did you mean "


def _excerpt(source: Source, span: Span) -> list[str]:
    place = source.place(span.start)
    text = source.line(place.line)
    lead = f"{place.line:>5} | "
    blank = "      | "
    # A long line is shown round the place, so that it can be read in a narrow window.
    cut = max(0, place.column - 1 - 60)
    shown = printable(text[cut : cut + 130])
    width = max(1, min(len(span), len(shown) - (place.column - 1 - cut)))
    return [f"{lead}{shown}", f"{blank}{' ' * (place.column - 1 - cut)}{_UNDERLINE * width}"]


def printable(text: str) -> str:
    """A text as it can be shown on one line: a sign that would move the writing about becomes a dot."""
    return "".join(c if c.isprintable() else "·" for c in text.replace("\t", " "))


def as_text(query: Query, sources: Mapping[str, Source]) -> str:
    """A query as it is printed: kind and place, what is so, the line it concerns, what to try."""
    source = sources.get(query.source)
    where = query.source
    lines: list[str] = []
    if source is not None and query.span is not None:
        place = source.place(query.span.start)
        where = f"{query.source}, line {place.line}, column {place.column}"
    if query.sentence is not None:
        where = f"{where}, sentence {query.sentence}" if where else f"sentence {query.sentence}"
    head = str(query.kind).capitalize()
    lines.append(f"{head} ({where})" if where else head)
    if source is not None and query.span is not None:
        lines += _excerpt(source, query.span)
    lines.append(f"  {printable(query.message)}")
    if query.help:
        lines.append(f"  {printable(query.help)}")
    if offered := answers_said(query):
        lines.append(f"  {printable(offered)}")
    lines.append(f"  (more: tapewright why {query.name})")
    return "\n".join(lines)


def answers_said(query: Query) -> str:
    """The answers offered, as a sentence or two; those that the help says already are left out."""
    meant: list[str] = []
    rest: list[str] = []
    for answer in query.answers:
        if answer.say in query.help:
            continue
        if answer.say.startswith(_MEANT):
            meant.append(answer.say.removeprefix(_MEANT).rstrip("?").strip("“”"))
        else:
            rest.append(answer.say)
    said = []
    if meant:
        said.append(f"{_MEANT}{_either(meant)}?")
    if rest:
        said.append(f"Try {_either(rest)}.")
    return " ".join(said)


def _either(words: list[str]) -> str:
    quoted = [f"“{w}”" for w in words]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}"


def as_json(query: Query, sources: Mapping[str, Source]) -> dict[str, Any]:
    """A query as plain data; line and column are null when it concerns the whole text."""
    source = sources.get(query.source)
    data: dict[str, Any] = {
        "kind": str(query.kind),
        "name": query.name,
        "message": query.message,
        "source": query.source,
        "sentence": query.sentence,
        "line": None,
        "column": None,
        "end_line": None,
        "end_column": None,
    }
    if source is not None and query.span is not None:
        start, end = source.place(query.span.start), source.place(query.span.end)
        data |= {
            "line": start.line,
            "column": start.column,
            "end_line": end.line,
            "end_column": end.column,
        }
    data["help"] = query.help
    data["answers"] = [_answer(a, source) for a in query.answers]
    return data


def _answer(answer: Answer, source: Source | None) -> dict[str, Any]:
    """An answer as plain data; it has a place of its own where it does not stand at the query's."""
    data: dict[str, Any] = {"say": answer.say, "replace": answer.replace}
    if answer.where is not None and source is not None:
        start, end = source.place(answer.where.start), source.place(answer.where.end)
        data |= {
            "line": start.line,
            "column": start.column,
            "end_line": end.line,
            "end_column": end.column,
        }
    return data


def in_order(queries: Iterable[Query]) -> list[Query]:
    """Queries in the order of the text; those about the whole come first."""
    return sorted(queries, key=lambda q: (q.source, -1 if q.span is None else q.span.start))

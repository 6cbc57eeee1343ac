"""A sheet's YAML as a small tree of texts, listings and tables, each with its place.

Only the plain part of YAML is let in. Everything is text here: nothing is resolved, so `no` stays a word
and a number keeps the figures it was written with. Anchors, aliases, tags and second documents are
refused, and depth and size are bounded, so that no text can make it slow or large. It never raises.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TypeAlias

import yaml

from tapewright.diagnostics import Query, Source, Span, question

LARGEST = 250_000
"""Characters in a sheet, a hundred times what the fullest one has; more is refused."""

_DEEPEST = 6
_MOST_LINES = 300
# YAML's own printable characters; whatever holds another is no text.
_NO_TEXT = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]|\ufffd")


@dataclass(frozen=True, slots=True)
class Text:
    """A scalar, as written (quotes off)."""

    value: str
    span: Span


@dataclass(frozen=True, slots=True)
class Listing:
    """A sequence."""

    items: tuple[Node, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Table:
    """A mapping, in its order; a key may stand twice."""

    pairs: tuple[tuple[Text, Node], ...]
    span: Span


Node: TypeAlias = Text | Listing | Table


@dataclass(slots=True)
class _Open:
    """A listing or table not yet closed; in a table every other node is a key."""

    table: bool
    start: Span
    nodes: list[Node] = field(default_factory=list)


class _NotPlainError(Exception):
    """Carries the query out of the reading loop."""

    def __init__(self, query: Query) -> None:
        super().__init__(query.name)
        self.query = query


def _span(event: yaml.events.Event) -> Span:
    start = 0 if event.start_mark is None else event.start_mark.index
    end = start if event.end_mark is None else event.end_mark.index
    return Span(start, max(start, end))


def _not_plain(event: yaml.events.Event, what: str) -> _NotPlainError:
    span = _span(event)
    return _NotPlainError(
        question(
            "sheet-plain-only",
            f"{what} A measure sheet is read as plain lines only.",
            Span(span.start, span.start + 1),
            help="Write the value out; if the mark belongs to a text, put the text in double quotes.",
        )
    )


def _close(opened: _Open, end: Span) -> Node:
    span = opened.start.to(end)
    if len(opened.nodes) > 2 * _MOST_LINES:
        raise _NotPlainError(
            question(
                "sheet-too-large",
                f"More than {_MOST_LINES} lines stand in one list; the fullest sheet has under a hundred.",
                Span(span.start, span.start + 1),
                help="One sheet holds one wearer. Is it another kind of file?",
            )
        )
    if not opened.table:
        return Listing(tuple(opened.nodes), span)
    pairs: list[tuple[Text, Node]] = []
    for key, value in zip(opened.nodes[::2], opened.nodes[1::2], strict=True):
        if not isinstance(key, Text):
            raise _NotPlainError(
                question(
                    "sheet-shape",
                    "A list stands where a name is wanted.",
                    key.span,
                    help="Write the name first, then a colon, then what belongs to it.",
                )
            )
        pairs.append((key, value))
    return Table(tuple(pairs), span)


def _build(events: Iterator[yaml.events.Event]) -> Node | None:
    """The one document's node, None when there is none; raises `_NotPlainError` or yaml.YAMLError."""
    opened: list[_Open] = []
    root: Node | None = None
    for event in events:
        if isinstance(event, yaml.AliasEvent):
            raise _not_plain(event, "A value stands for another one here (*).")
        if isinstance(event, yaml.DocumentStartEvent):
            if root is not None:
                raise _not_plain(event, "A second sheet begins here.")
            continue
        if not isinstance(event, yaml.NodeEvent | yaml.CollectionEndEvent):
            continue
        node: Node
        if isinstance(event, yaml.CollectionEndEvent):
            node = _close(opened.pop(), _span(event))
        else:
            if event.anchor is not None:
                raise _not_plain(event, "A value is given a mark of its own here (&).")
            if isinstance(event, yaml.ScalarEvent | yaml.CollectionStartEvent) and event.tag not in (
                None,
                "!",
            ):
                raise _not_plain(event, "A value is given a kind of its own here (!).")
            if isinstance(event, yaml.CollectionStartEvent):
                if len(opened) >= _DEEPEST:
                    raise _NotPlainError(
                        question(
                            "sheet-shape",
                            "Lists stand within lists here, deeper than any sheet goes.",
                            Span(_span(event).start, _span(event).start + 1),
                            help="A measure is a name, a colon and a value.",
                        )
                    )
                opened.append(_Open(isinstance(event, yaml.MappingStartEvent), _span(event)))
                continue
            if not isinstance(event, yaml.ScalarEvent):
                continue
            node = Text(event.value, _span(event))
        if opened:
            opened[-1].nodes.append(node)
        else:
            root = node
    return root


def _unreadable(source: Source, error: yaml.YAMLError) -> Query:
    mark, opened = getattr(error, "problem_mark", None), getattr(error, "context_mark", None)
    if mark is None or (opened is not None and mark.index >= len(source.text.rstrip())):
        # What is still open at the end of the text is shown where it was opened.
        mark = opened
    at = getattr(error, "position", 0) if mark is None else mark.index
    at = max(0, min(at, len(source.text) - 1))
    if source.text[at : at + 1] in {"\n", "\r", ""} and at > 0:
        at -= 1
    span = Span(at, at + 1)
    line = source.line(source.place(at).line)
    indent = line[: len(line) - len(line.lstrip())]
    if "\t" in indent:
        why = "A line is set in with a tab; set it in with spaces."
    elif source.text[at : at + 1] in {"@", "`", "%", "&", "*", "!"}:
        why = "A text that begins with such a mark stands in double quotes."
    elif line.count(": ") > 1:
        why = "Only one colon to a line: a text with a colon in it stands in double quotes."
    elif line.count('"') % 2 == 1:
        why = "A double quote is opened and not closed; an inch mark may be written in, too."
    else:
        why = "Each line is a name, a colon, a space and a value; lines of one list begin equally far in."
    return question("sheet-not-readable", "This cannot be read as part of a measure sheet.", span, help=why)


def read_tree(source: Source) -> Node | Query:
    """The tree of a sheet's text, or the question why there is none; an empty text is an empty table.

    Spans are offsets into `source.text`. Never raises on any text.
    """
    if len(source.text) > LARGEST:
        return question(
            "sheet-too-large",
            f"This file holds {len(source.text):,} characters; a measure sheet has a few thousand.",
            help="Is it another kind of file?",
        )
    if found := _NO_TEXT.search(source.text):
        return question(
            "sheet-not-text",
            "This file holds characters that no text has.",
            Span(found.start(), found.end()),
            help="A measure sheet is a plain text file, saved as UTF-8. Is it another kind of file?",
        )
    try:
        root = _build(yaml.parse(source.text, Loader=yaml.SafeLoader))
    except _NotPlainError as refused:
        return refused.query
    except yaml.YAMLError as error:
        return _unreadable(source, error)
    if root is None or (isinstance(root, Text) and not root.value):
        return Table((), Span(0, 0))
    return root

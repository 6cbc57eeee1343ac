"""The lines of a sheet beside its measures: whose it is, when it was taken, over what, in which unit."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import date as Date  # noqa: N812
from fractions import Fraction

from tapewright.diagnostics import Answer, Query, Source, Span, caution, did_you_mean, question
from tapewright.measures.catalogue import measure_called, plain_name
from tapewright.measures.over import Layer, layers_named, plain_layer
from tapewright.measures.sheet import Figure
from tapewright.measures.tree import Listing, Node, Table, Text
from tapewright.measures.values import Waits, read_value, short
from tapewright.units import Length, Unit, UnitKind, old_units_called, unit_called

KEYS = ("wearer", "figure", "date", "over", "unit", "estimate from", "measures", "notes")
"""The keys of a sheet, in the order it is written in."""

ESTIMATES = ("women", "men", "both")
_LAYER_KEYS = ("layer", "thickness")
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


@dataclass(slots=True)
class Reader:
    """A sheet being read: its text, and what has been said about it so far."""

    source: Source
    queries: list[Query] = field(default_factory=list)

    def ask(self, query: Query) -> None:
        """Adds a query."""
        self.queries.append(query)

    def raw(self, node: Node) -> str:
        """The text a node was read from, quotes and all."""
        return self.source[node.span]

    def first_line(self, node: Node) -> Span:
        """Where a node stands, cut to its first line."""
        end = self.source.text.find("\n", node.span.start, node.span.end)
        return Span(node.span.start, end if end >= 0 else node.span.end)

    def shape(self, node: Node, message: str, help_: str = "") -> None:
        """Asks about a node that is a list or a table where another thing is wanted."""
        self.ask(question("sheet-shape", message, self.first_line(node), help=help_))

    def twice(self, key: Text, before: str = "") -> None:
        """Asks about a name that stands a second time; `before` is the word it stood under the first time."""
        word = plain_name(key.value)
        said = f"“{short(key.value)}” stands on this sheet twice."
        if before and before != word:
            said = f"“{short(before)}” and “{short(word)}” on this sheet are one measure."
        self.ask(
            question(
                "sheet-twice",
                said,
                key.span,
                help="Keep the one that is meant. Two readings go in brackets: [70 cm, 70.5 cm].",
            )
        )


@dataclass(slots=True)
class Head:
    """What the sheet says beside its measures. `unit_waits`: its unit was written and not understood."""

    wearer: str = ""
    figure: Figure | None = None
    date: Date | None = None
    over: tuple[Layer, ...] | None = None
    unit: Unit | None = None
    unit_waits: bool = False
    unit_at: Span | None = None
    figure_waits: bool = False
    estimate_from: str | None = None
    notes: tuple[str, ...] = ()
    measures: list[Node] = field(default_factory=list)
    spans: dict[str, Span] = field(default_factory=dict)


def _unknown_key(reader: Reader, key: Text) -> None:
    name = plain_name(key.value)
    if measure_called(name) is not None:
        message = f"“{name}” is a measure, and stands outside the list of measures."
        reader.ask(
            caution("sheet-unknown-key", message, key.span, help="Set it in under measures: with the others.")
        )
        return
    reader.ask(
        caution(
            "sheet-unknown-key",
            f"A sheet has no line called “{short(name)}”; it is passed over.",
            key.span,
            help=f"Its lines are {', '.join(KEYS)}. Remarks go under notes.",
            answers=did_you_mean(name, KEYS),
        )
    )


def _one_line(reader: Reader, fields: dict[str, Node], name: str) -> Text | None:
    """A field that is one line of text; None, asked about, when it is a list or a table, or absent."""
    node = fields.get(name)
    if isinstance(node, Text):
        return node
    if node is not None:
        reader.shape(node, f"The line “{name}” wants one word or one line, not a list.")
    return None


def _one_of(
    reader: Reader, fields: dict[str, Node], name: str, words: tuple[str, ...]
) -> tuple[str | None, bool]:
    """One of some words, and whether something stood there that is none of them."""
    node = _one_line(reader, fields, name)
    if node is None:
        return None, name in fields
    word = plain_name(node.value)
    if word in words:
        return word, False
    either = f"{', '.join(words[:-1])} or {words[-1]}"
    reader.ask(
        question(
            "sheet-choice",
            f"The line “{name}” is {either}; “{short(word)}” is none of these."
            if word
            else f"The line “{name}” is empty.",
            node.span,
            help="" if word else f"It is {either}.",
            answers=did_you_mean(word, words) or words,
        )
    )
    return None, True


def _wearer(reader: Reader, fields: dict[str, Node], spans: dict[str, Span]) -> str:
    node = _one_line(reader, fields, "wearer")
    wearer = "" if node is None else " ".join(node.value.split())
    if not wearer and (node is not None or "wearer" not in fields):
        reader.ask(
            question(
                "sheet-for-nobody",
                "This sheet does not say whose measures it holds.",
                spans.get("wearer"),
                help="Add a line at the top, such as wearer: Anna Holt.",
            )
        )
    return wearer


def _date(reader: Reader, fields: dict[str, Node]) -> Date | None:
    node = _one_line(reader, fields, "date")
    if node is None:
        return None
    text = node.value.strip()
    try:
        if _DAY.fullmatch(text):
            return Date.fromisoformat(text)
        message = f"“{short(text)}” is not read as a day." if text else "The line “date” is empty."
    except ValueError:
        message = f"There is no such day as {text}."
    reader.ask(caution("sheet-date", message, node.span, help="Write year, month and day: 2026-03-14."))
    return None


def _unit(reader: Reader, fields: dict[str, Node], head: Head) -> None:
    node = _one_line(reader, fields, "unit")
    head.unit_waits = "unit" in fields and node is None
    if node is None:
        return
    head.unit_at = node.span
    found = unit_called(node.value.strip())
    if found is not None and found.kind is UnitKind.LENGTH:
        head.unit = found
        return
    old = old_units_called(node.value)
    if len(old) == 1:
        head.unit = old[0]
        return
    head.unit_waits = True
    message = "The line “unit” is empty."
    if old:
        message = f"“{short(node.value)}” has been the name of several lengths."
    elif node.value:
        message = f"“{short(node.value)}” is no unit of length that I know."
    reader.ask(
        question(
            "sheet-unit",
            message,
            node.span,
            help="Lengths that stand without a unit are in this one. A value may still carry its own.",
            answers=tuple(unit.name for unit in old) or ("cm", "mm", "in"),
        )
    )


def _thickness(reader: Reader, node: Node, layer: str, head: Head) -> Fraction | None:
    what = f"the thickness of “{short(layer)}”"
    if not isinstance(node, Text):
        reader.shape(node, f"{what[0].upper()}{what[1:]} is one value.")
        return None
    read = read_value(
        node, what, UnitKind.LENGTH, head.unit, "positive", told_unit=head.unit_waits, raw=reader.raw(node)
    )
    if isinstance(read, Waits):
        if read.query is not None:
            reader.ask(read.query)
        return None
    return read.quantity.mm if isinstance(read.quantity, Length) else None


def _layer(reader: Reader, node: Node, head: Head) -> Layer | None:
    """One item of a list of layers; None for nothing, or for what was asked about."""
    if isinstance(node, Text):
        name = " ".join(node.value.split())
        return Layer(name) if plain_layer(name) else None
    if isinstance(node, Listing):
        reader.shape(node, "A list stands where one layer is wanted.")
        return None
    name = ""
    thickness: Fraction | None = None
    for key, value in node.pairs:
        word = plain_name(key.value)
        if word == "layer" and isinstance(value, Text):
            name = " ".join(value.value.split())
        elif word not in _LAYER_KEYS:
            reader.ask(
                caution(
                    "sheet-unknown-key",
                    f"A layer has no “{short(word)}”; it is passed over.",
                    key.span,
                    help="It has a layer and a thickness: {layer: petticoat, thickness: 3 mm}.",
                    answers=did_you_mean(word, _LAYER_KEYS),
                )
            )
    for key, value in node.pairs:
        if plain_name(key.value) == "thickness":
            thickness = _thickness(reader, value, name, head)
    if not plain_layer(name):
        reader.shape(
            node, "A layer stands here without its name.", "Write {layer: petticoat, thickness: 3 mm}."
        )
        return None
    return Layer(name, thickness)


def _over(reader: Reader, node: Node | None, head: Head) -> tuple[Layer, ...] | None:
    if node is None:
        return None
    if isinstance(node, Text):
        if not node.value.strip():
            reader.ask(
                question(
                    "sheet-choice",
                    "The line “over” is empty.",
                    node.span,
                    help="Say what was worn beneath: a shift, stays. Nothing is an answer, too.",
                    answers=(Answer("nothing", "nothing"),),
                )
            )
            return None
        return tuple(Layer(name) for name in layers_named(node.value))
    if isinstance(node, Table):
        found = _layer(reader, node, head)
        return None if found is None else (found,)
    return tuple(layer for item in node.items if (layer := _layer(reader, item, head)) is not None)


def _notes(reader: Reader, node: Node | None) -> tuple[str, ...]:
    if node is None:
        return ()
    if isinstance(node, Text):
        return (node.value.strip(),) if node.value.strip() else ()
    if isinstance(node, Table):
        reader.ask(
            caution(
                "sheet-shape",
                "The notes look like names and values here; they are passed over.",
                reader.first_line(node),
                help="A note with a colon in it stands in double quotes.",
            )
        )
        return ()
    kept: list[str] = []
    for item in node.items:
        kept += _notes(reader, item)
    return tuple(kept)


def read_head(reader: Reader, table: Table) -> Head:
    """Everything but the measures, whose nodes are handed on. Queries go to `reader`."""
    head = Head()
    fields: dict[str, Node] = {}
    for key, value in table.pairs:
        name = plain_name(key.value)
        if name not in KEYS:
            _unknown_key(reader, key)
            continue
        if name in fields:
            reader.twice(key)
        else:
            fields[name] = value
            head.spans[name] = key.span
        if name == "measures":
            # Both lists are read, so that one slip does not make every measure of the second missing.
            head.measures.append(value)
    head.wearer = _wearer(reader, fields, head.spans)
    word, head.figure_waits = _one_of(reader, fields, "figure", tuple(Figure))
    head.figure = None if word is None else Figure(word)
    head.date = _date(reader, fields)
    _unit(reader, fields, head)
    head.over = _over(reader, fields.get("over"), head)
    head.estimate_from, _ = _one_of(reader, fields, "estimate from", ESTIMATES)
    head.notes = _notes(reader, fields.get("notes"))
    return head

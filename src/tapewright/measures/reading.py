"""A measure sheet from its text: every value it can use, and a query for every one it cannot.

Nothing a person types is raised as an exception, and one slip makes one query: what hangs on it waits
without another.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from tapewright.diagnostics import Answer, Query, Source, Span, caution, note, question
from tapewright.measures.catalogue import (
    Measure,
    key_of,
    measure_called,
    measures_meant,
    near_measures,
    plain_name,
    say_either,
)
from tapewright.measures.head import Head, Reader, read_head
from tapewright.measures.lacing import child_over_stays
from tapewright.measures.sheet import Entry, Figure, Quantity, Reading, Sheet, base, show, with_base
from tapewright.measures.together import look_together
from tapewright.measures.tree import LARGEST, Listing, Node, Table, Text, read_tree
from tapewright.measures.values import doubt, read_value, short
from tapewright.measures.which_unit import ask_unit, meant_unit
from tapewright.units import Angle, Length, UnitKind, Weight

_SIDES = ("left", "right", "front", "back")
_TO_ESTIMATE = frozenset({"estimated", "estimate", "to estimate", "to be estimated"})
_MOST_READINGS = 3
_LONGEST_NAME = 80


def sheet_source(name: str, data: bytes) -> Source | Query:
    """A file's bytes as a source, or the question why it is no text: UTF-8, or UTF-16 with its mark."""
    if len(data) > 4 * LARGEST:
        return question(
            "sheet-too-large",
            f"This file holds {len(data):,} bytes; a measure sheet has a few thousand.",
            help="Is it another kind of file?",
        ).at(name)
    wide = data[:2] in {b"\xff\xfe", b"\xfe\xff"}
    try:
        return Source(name, data.decode("utf-16" if wide else "utf-8-sig"))
    except UnicodeDecodeError:
        return question(
            "sheet-not-text",
            "This file is not a text that can be read.",
            help="A measure sheet is a plain text file, saved as UTF-8. Is it another kind of file?",
        ).at(name)


def read_sheet(source: Source) -> tuple[Sheet | None, tuple[Query, ...]]:
    """The sheet and everything there is to say about it, in the order of the text.

    The sheet is None only when the text is no sheet at all. All spans are offsets into `source.text`; all
    queries carry the source's name. Never raises on any text.
    """
    tree = read_tree(source)
    if isinstance(tree, Query):
        return None, (tree.at(source.name),)
    reader = Reader(source)
    if not isinstance(tree, Table):
        reader.shape(
            tree,
            "A measure sheet is a table of names and values; this is something else.",
            "It begins with a line such as wearer: Anna Holt.",
        )
        return None, tuple(q.at(source.name) for q in reader.queries)
    sheet = sheet_of(reader, tree)
    in_order = sorted(reader.queries, key=lambda q: -1 if q.span is None else q.span.start)
    return sheet, tuple(q.at(source.name) for q in in_order)


def sheet_of(reader: Reader, table: Table) -> Sheet:
    """The sheet that a table of nodes holds; everything there is to say about it goes to `reader`.

    The nodes need not come from a sheet's own text: a row of a list of wearers is read by the same rules.
    """
    head = read_head(reader, table)
    measures = _Measures(reader, head)
    for node in head.measures:
        measures.read(node)
    measures.finish()
    sheet = Sheet(
        wearer=head.wearer,
        figure=head.figure,
        date=head.date,
        over=head.over,
        unit=head.unit,
        entries=measures.entries,
        notes=head.notes,
        estimate_from=head.estimate_from,
        waiting=frozenset(measures.waiting),
        to_estimate=tuple(measures.to_estimate),
        spans=head.spans,
    )
    child = child_over_stays(sheet)
    if child is not None:
        reader.ask(child)
    for query in look_together(sheet, measures.unusual):
        reader.ask(query)
    return sheet


@dataclass(slots=True)
class _Measures:
    """The measures of one sheet being read."""

    reader: Reader
    head: Head
    entries: dict[str, Entry] = field(default_factory=dict)
    waiting: set[str] = field(default_factory=set)
    seen: dict[str, str] = field(default_factory=dict)
    bare: list[Span] = field(default_factory=list)
    figureless: list[Text] = field(default_factory=list)
    unusual: dict[str, Query] = field(default_factory=dict)
    others: dict[str, tuple[Text, str]] = field(default_factory=dict)
    to_estimate: list[str] = field(default_factory=list)
    #: Lengths in the sheet's own unit, and the questions about those that are past belief.
    plain: dict[str, tuple[Measure, list[Reading]]] = field(default_factory=dict)
    past_belief: dict[str, list[Query]] = field(default_factory=dict)

    def read(self, node: Node) -> None:
        """One list of measures."""
        if isinstance(node, Table):
            for key, value in node.pairs:
                self.measure(key, value)
        elif not (isinstance(node, Text) and not node.value):
            self.reader.shape(
                node,
                "The measures are a list of names with values.",
                "Set each in on a line of its own: waist: 70 cm, without a dash.",
            )

    def measure(self, key: Text, value: Node) -> None:
        """One line of it."""
        name = plain_name(key.value)
        if not name or len(name) > _LONGEST_NAME:
            self.reader.ask(
                question("sheet-shape", "A value stands here without a name that can be one.", key.span)
            )
            return
        word = name
        name = key_of(word)
        if name in self.seen:
            self.reader.twice(key, self.seen[name])
            self.waiting.add(name)
            self.entries.pop(name, None)
            self.to_estimate = [one for one in self.to_estimate if one != name]
            self.others.pop(name, None)
            return
        self.seen[name] = word
        if word != name:
            self.others[name] = (key, word)
        self.head.spans.setdefault(name, key.span)
        measure = measure_called(name)
        waits = measure is None and self.unknown(key, name)
        taken, note_ = self.noted(key, value)
        if isinstance(taken, Text) and plain_name(taken.value) in _TO_ESTIMATE:
            if waits or self.other_word(key, name):
                self.waiting.add(name)
            else:
                self.to_estimate.append(name)
            return
        readings = None if taken is None else self.sides(key, taken, name, measure)
        if readings is None or waits or self.other_word(key, name):
            self.waiting.add(name)
        else:
            self.entries[name] = Entry(name, measure, readings, note_, key.span)

    def noted(self, key: Text, value: Node) -> tuple[Node | None, str]:
        """What was taken, and the note beside it: `{taken: 70, note: over the shift}`; a side may have one too."""
        if not isinstance(value, Table):
            return value, ""
        written = ""
        kept: list[tuple[Text, Node]] = []
        taken: Node | None = None
        for word, node in value.pairs:
            match plain_name(word.value):
                case "note" if isinstance(node, Text):
                    written = " ".join(node.value.split())
                case "note":
                    self.reader.shape(node, "A note is one line of text.")
                case "taken" if taken is None:
                    taken = node
                case _:
                    kept.append((word, node))
        if taken is not None and kept:
            self.reader.shape(
                value, f"The {short(plain_name(key.value))} stands here as one value and by its sides.",
                "Keep either taken: or the sides.",
            )  # fmt: skip
            return None, written
        return (Table(tuple(kept), value.span) if taken is None else taken), written

    def unknown(self, key: Text, name: str) -> bool:
        """Asks about a name that is not in the catalogue; whether it has to wait for the answer."""
        near = near_measures(name)
        meant = measures_meant(name)
        if len(meant) > 1:
            self.reader.ask(
                question(
                    "measure-which",
                    f"“{short(name)}” may mean {say_either(meant)}.",
                    key.span,
                    help="Set the one that was measured in its place.",
                    answers=meant,
                )
            )
            return True
        self.reader.ask(
            note(
                "measure-unknown",
                f"“{short(name)}” is not among the measures I know; it is kept as a length.",
                key.span,
                help="" if near else "A lesson that asks for a measure of this name will find it.",
                answers=near,
            )
        )
        return False

    def other_word(self, key: Text, name: str) -> bool:
        """Whether the figure asks for another word than this: bust and chest name the same girth."""
        if name not in {"bust", "chest"} or self.head.figure is Figure.CHILD:
            return False
        if self.head.figure is None:
            if not self.head.figure_waits:
                self.figureless.append(key)
            return True
        if self.head.figure is Figure.WOMAN and name == "chest":
            self.reader.ask(
                question(
                    "bust-or-chest",
                    "The chest of a woman: round the fullest part, or close under the arms?",
                    key.span,
                    help="The fullest girth of a woman is the bust, the one under her arms the high bust.",
                    answers=("bust", "high bust"),
                )
            )
            return True
        if self.head.figure is Figure.MAN and name == "bust":
            self.reader.ask(
                question(
                    "bust-or-chest",
                    "On a man's sheet the fullest girth is called the chest.",
                    key.span,
                    help="Is it that, or is the wearer not a man?",
                    answers=("chest",),
                )
            )
            return True
        return False

    def sides(
        self, key: Text, value: Node, name: str, measure: Measure | None
    ) -> dict[str, tuple[Reading, ...]] | None:
        """The readings of each side; None when any part of the line has to wait."""
        if not isinstance(value, Table):
            found = self.readings(value, f"the {short(name)}", name, measure)
            return None if found is None else {"": found}
        allowed = _SIDES if measure is None else measure.sides
        if not allowed:
            self.reader.ask(
                question(
                    "side-unknown",
                    f"The {short(name)} is taken once, and has no sides.",
                    self.reader.first_line(value),
                    help="Write one value, or two readings in brackets: [70 cm, 70.5 cm].",
                )
            )
            return None
        by_side: dict[str, tuple[Reading, ...]] = {}
        whole = bool(value.pairs)
        for side_key, node in value.pairs:
            side = plain_name(side_key.value)
            if side not in allowed:
                self.unknown_side(side_key, short(name), allowed)
                whole = False
            elif side in by_side:
                self.reader.twice(side_key)
                whole = False
            else:
                found = self.readings(node, f"the {side} {short(name)}", name, measure)
                whole = whole and found is not None
                by_side[side] = found or ()
        if not value.pairs:
            self.reader.ask(
                question("value-not-a-number", f"No value stands behind the {short(name)}.", key.span)
            )
        return by_side if whole else None

    def unknown_side(self, key: Text, name: str, allowed: tuple[str, ...]) -> None:
        sides = f"{', '.join(allowed[:-1])} and {allowed[-1]}"
        message = f"“{short(key.value)}” is no side of the {name}."
        self.reader.ask(
            question("side-unknown", message, key.span, help=f"Its sides are {sides}.", answers=allowed)
        )

    def readings(
        self, node: Node, what: str, name: str, measure: Measure | None
    ) -> tuple[Reading, ...] | None:
        """One value, or two or three readings of it; None when any waits. Asks about each."""
        items = node.items if isinstance(node, Listing) else (node,)
        if not 1 <= len(items) <= _MOST_READINGS:
            self.reader.shape(node, f"In brackets stand two readings of {what}, or three.")
            return None
        kind = UnitKind.LENGTH if measure is None else measure.kind
        may_be = "positive" if measure is None else measure.may_be
        kept: list[Reading] = []
        for item in items:
            if not isinstance(item, Text):
                self.reader.shape(
                    item, f"{what[0].upper()}{what[1:]} is one value, or two readings in brackets."
                )
                continue
            told = self.head.unit_waits or self.head.unit is None
            read = read_value(
                item, what, kind, self.head.unit, may_be, told_unit=told, raw=self.reader.raw(item)
            )
            if isinstance(read, Reading):
                if measure is not None and kind is UnitKind.LENGTH and not any(map(str.isalpha, read.text)):
                    self.plain.setdefault(name, (measure, []))[1].append(read)
                asked = (
                    None if measure is None else doubt(read, measure, self.head.figure, only_impossible=True)
                )
                if asked is None:
                    kept.append(read)
                else:
                    self.past_belief.setdefault(name, []).append(asked)
                    self.reader.ask(asked)
            elif read.query is not None:
                self.reader.ask(read.query)
            else:
                self.bare.append(item.span)
        if len(kept) < len(items):
            return None
        if measure is not None:
            self.look_at(tuple(kept), what, measure, node)
        return tuple(kept)

    def look_at(self, readings: tuple[Reading, ...], what: str, measure: Measure, node: Node) -> None:
        """The cautions of one side's readings: unusual, or too far apart."""
        numbers = [base(r.quantity) for r in readings]
        mean = with_base(readings[0].quantity, sum(numbers, Fraction(0)) / len(numbers))
        one = len(readings) == 1
        words = readings[0].text if one else show(mean)
        whole = Reading(mean, words, any(r.sure for r in readings), readings[0].span if one else node.span)
        asked = doubt(whole, measure, self.head.figure)
        if asked is not None:
            # Said later, unless the other measures of the sheet bear it out or tell more about it.
            self.unusual.setdefault(measure.name, asked)
        apart = max(numbers) - min(numbers)
        if apart > measure.apart:
            shown = [show(r.quantity) for r in readings]
            several = f"{', '.join(shown[:-1])} and {shown[-1]}"
            self.reader.ask(
                caution(
                    "readings-apart",
                    f"The readings of {what} are {several}: {_show(measure, apart)} apart, where "
                    f"{_show(measure, measure.apart)} is allowed. Their mean is used, {show(mean)}.",
                    self.reader.first_line(node),
                    help="Take it once more, with the landmarks marked first, and keep the two that agree.",
                )
            )

    def line(self, said: str) -> Answer:
        """The answer that adds a line to the sheet, above its measures."""
        found = re.search(r"^measures[ \t]*:", self.reader.source.text, re.MULTILINE)
        if found is None:
            return Answer(said)
        return Answer(said, f"{said}\n", Span(found.start(), found.start()))

    def doubt_the_unit(self) -> None:
        """Where most values are past belief in the sheet's unit, and ordinary in another, that is asked instead."""
        unit = self.head.unit
        doubted = [n for n in self.plain if n in self.past_belief or n in self.unusual]
        other = None if unit is None else meant_unit(self.plain, doubted, unit)
        if unit is None or other is None or not self.past_belief:
            return
        told = [query for name in doubted for query in self.past_belief.get(name, ())]
        self.reader.queries[:] = [query for query in self.reader.queries if query not in told]
        for name in self.plain:
            # None of them can be drawn from until the unit is known.
            self.unusual.pop(name, None)
            self.entries.pop(name, None)
            self.waiting.add(name)
        self.reader.ask(ask_unit(len(doubted), unit, other, self.head.unit_at))

    def finish(self) -> None:
        """What is said once for the whole sheet."""
        self.doubt_the_unit()
        for name, (key, word) in self.others.items():
            # What waits has been asked about already, and the answer sets its own name.
            if name not in self.waiting:
                self.reader.ask(
                    note(
                        "measure-other-word",
                        f"“{short(word)}” is another word for the {name}, and is read as that.",
                        key.span,
                        help="If a length of your own is meant, give it a name of its own.",
                        answers=(name,),
                    )
                )
        if self.figureless:
            words = " and ".join(f"“{plain_name(key.value)}”" for key in self.figureless)
            self.reader.ask(
                question(
                    "sheet-figure",
                    f"What {words} means depends on the figure: on women the fullest girth is the bust, on "
                    "men the chest. This sheet does not say whose it is.",
                    self.figureless[0].span,
                    help="Add a line near the top.",
                    answers=tuple(self.line(f"figure: {f}") for f in Figure),
                )
            )
        if self.bare and not self.head.unit_waits:
            count = len(self.bare)
            values = "One value stands" if count == 1 else f"{count} values stand"
            self.reader.ask(
                question(
                    "sheet-unit",
                    f"{values} here without a unit, and the sheet names none.",
                    self.bare[0],
                    help="Add a line near the top.",
                    answers=tuple(self.line(f"unit: {u}") for u in ("cm", "in", "mm")),
                )
            )
        differ = [name for name, entry in self.entries.items() if _differ(entry)]
        if differ:
            self.reader.ask(
                note(
                    "sides-differ",
                    f"Left and right differ: {', '.join(short(n) for n in differ)}. A draft on the half "
                    "takes the mean of the two; a draft on the half, left and right, takes each.",
                    self.entries[differ[0]].span,
                )
            )


def _differ(entry: Entry) -> bool:
    if not {"left", "right"} <= entry.readings.keys():
        return False
    left, right = entry.value("left"), entry.value("right")
    return left is not None and right is not None and base(left) != base(right)


def _show(measure: Measure, number: Fraction) -> str:
    made: Quantity
    match measure.kind:
        case UnitKind.LENGTH:
            made = Length(number, measure.unit)
        case UnitKind.ANGLE:
            made = Angle(number)
        case UnitKind.WEIGHT:
            made = Weight(number)
    return show(made)

"""Pointing a sentence together: its slots in order, what may be pressed for each, and the sentence that comes.

Everything is made from a kind's own pattern, so a sentence that is pointed is one that can be read. Slots
are filled with words as a maker would write them (`A`, `the waist line`, `5 cm`); nothing is drawn here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tapewright.language import sentences as _sentences  # noqa: F401 - fills the table of kinds
from tapewright.language.clause import BY_KIND, Clause, read_clause, show_clause
from tapewright.language.pattern import (
    Choice,
    Element,
    Flag,
    Maybe,
    OneOf,
    Row,
    Several,
    Slot,
    Style,
    Words,
    joined,
    listed,
)
from tapewright.language.slots import KINDS
from tapewright.language.tokens import Names, scan
from tapewright.language.tree import Unknown
from tapewright.language.walking import walk

#: What may be pressed on the paper, or said beside it, for a slot of each kind.
PRESSED: dict[str, tuple[str, ...]] = {
    "point": ("a point",),
    "new": ("a place on the paper", "a letter typed"),
    "newruler": ("two letters typed",),
    "newname": ("a name typed",),
    "name": ("a piece", "a line", "a name typed"),
    "ruler": ("two points",),
    "corner": ("three points",),
    "path": ("a line", "two points"),
    "line": ("a line", "two points"),
    "end": ("a line", "two points", "a crossing"),
    "crossing": ("a crossing",),
    "thing": ("a line", "a piece"),
    "edge": ("a line", "two points"),
    "run": ("a point", "a line"),
    "way": ("a way on the compass", "a point", "a line"),
    "compass": ("a way on the compass",),
    "toward": ("a point", "a line", "a way on the compass"),
    "leaning": ("a point", "a way on the compass", "a line"),
    "amount": ("a length dragged", "a reading typed", "a line to be as long as", "a value by eye"),
    "reach": ("a length dragged", "a reading typed", "a line to be as long as", "a value by eye"),
    "between": ("two readings typed",),
    "portion": ("a share typed",),
    "setting": ("a value by eye",),
    "place": ("a side of the paper",),
    "cutting": ("a number and a cloth",),
    "turning": ("a width typed", "a line"),
    "markat": ("a place on a line",),
    "marked": ("a line", "a point"),
    "landmark": ("one of a few words",),
    "ware": ("a word typed",),
    "claim": ("a claim typed",),
    "number": ("a number typed",),
    "quoted": ("a title typed",),
    "words": ("one of a few words",),
}


@dataclass(frozen=True, slots=True)
class PointingSlot:
    """A slot as it is asked for: its name in the pattern, what it is called, what may be pressed for it.

    `needed` tells whether the sentence cannot do without it; `several` whether more than one may be given;
    `words` are the only words it takes, if it takes no others.
    """

    name: str
    kind: str
    label: str
    pressed: tuple[str, ...]
    needed: bool
    several: bool = False
    words: tuple[str, ...] = ()


def slots_of(kind: str, filled: Mapping[str, str] | None = None) -> tuple[PointingSlot, ...]:
    """The slots of a kind of sentence, in the order in which they are asked for.

    Where a sentence may be made in several ways, the slots filled so far decide which; the first way is
    meant until then. Raises KeyError if there is no such kind.
    """
    found: list[PointingSlot] = []
    _slots(BY_KIND[kind].pattern, filled or {}, True, found)
    return tuple(found)


def _slots(element: Element, filled: Mapping[str, str], needed: bool, found: list[PointingSlot]) -> None:
    match element:
        case Slot(name, kind_name) | Several(name, kind_name):
            label = KINDS[kind_name].label
            several = isinstance(element, Several)
            found.append(PointingSlot(name, kind_name, label, PRESSED[kind_name], needed, several))
        case Flag(name, words):
            said = joined(list(words.shown))
            found.append(PointingSlot(name, "words", said, PRESSED["words"], False, words=(said,)))
        case OneOf(name, options):
            several_words = tuple(joined(list(o.shown)) for o in options)
            label = " or ".join(several_words)
            found.append(PointingSlot(name, "words", label, PRESSED["words"], needed, words=several_words))
        case Row(pieces):
            for piece in pieces:
                _slots(piece, filled, needed, found)
        case Maybe(piece):
            begun = any(name in filled for name in piece.slots())
            _slots(piece, filled, needed and begun, found)
        case Choice():
            _slots(_chosen(element, filled), filled, needed, found)
        case _:
            pass


def _chosen(choice: Choice, filled: Mapping[str, str]) -> Element:
    """The way of a choice that holds every slot of it that is filled; the first of several."""
    mine = {name for name in choice.slots() if name in filled}
    return next((p for p in choice.pieces if mine <= set(p.slots())), choice.pieces[0])


def with_slots(kind: str, filled: Mapping[str, str]) -> str:
    """The sentence so far, what is still to be said in square brackets: `Square from A to [a new letter]`."""
    return joined(_words(BY_KIND[kind].pattern, filled, True))


def _words(element: Element, filled: Mapping[str, str], needed: bool) -> list[str]:
    match element:
        case Words(shown):
            return list(shown)
        case Slot(name, kind_name) | Several(name, kind_name):
            return [filled.get(name) or f"[{KINDS[kind_name].label}]"]
        case Flag(name, words):
            return list(words.shown) if filled.get(name) else []
        case OneOf(name, options):
            return [filled.get(name) or joined(list(options[0].shown))]
        case Row(pieces):
            return [word for piece in pieces for word in _words(piece, filled, needed)]
        case Maybe(piece):
            return _words(piece, filled, needed) if any(filled.get(name) for name in piece.slots()) else []
        case Choice():
            return _words(_chosen(element, filled), filled, needed)
        case _:
            return []


def pointed(
    kind: str, filled: Mapping[str, str], names: Names, style: Style, *, then: bool = False
) -> str | None:
    """The sentence in house style, with its full stop; None while a slot that is needed is open.

    `names` are those that stand before the sentence; `then` lets it go on after a semicolon. What was typed
    into a slot may also be no reading of it, or a name that nothing has: then too there is no sentence yet.
    """
    if any(slot.needed and not filled.get(slot.name) for slot in slots_of(kind, filled)):
        return None
    said = with_slots(kind, filled)
    clause = read_clause(names.merge(scan(said, 0, len(said))), then=then, known_points=set())
    if not isinstance(clause, Clause) or clause.kind != kind:
        return None
    if any(isinstance(node, Unknown) for node in walk(clause)):
        return None
    return f"{show_clause(clause, style)}."


def filled_from(clause: Clause, style: Style) -> dict[str, str]:
    """The slots of a clause that is written, each with its words: what one begins from to change it."""
    filled: dict[str, str] = {}
    _fill(clause.pattern, clause, style, filled)
    return filled


def _fill(element: Element, clause: Clause, style: Style, filled: dict[str, str]) -> None:
    match element:
        case Slot(name, _, kind):
            if (node := getattr(clause, name)) is not None:
                filled[name] = kind.show(node, style)
        case Several(name, _, kind, commas):
            if nodes := getattr(clause, name):
                words = [kind.show(node, style) for node in nodes]
                filled[name] = ", ".join(words) if commas else listed(words)
        case Flag(name, words):
            if getattr(clause, name):
                filled[name] = joined(list(words.shown))
        case OneOf(name, options):
            held = getattr(clause, name)
            for option in options:
                if " ".join(option.read) == held:
                    filled[name] = joined(list(option.shown))
        case Row(pieces) | Choice(pieces):
            for piece in pieces:
                _fill(piece, clause, style, filled)
        case Maybe(piece):
            _fill(piece, clause, style, filled)
        case _:
            pass

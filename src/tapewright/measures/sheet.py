"""One wearer's measure sheet, as values: who, when, over what, and every reading as it was taken.

A sheet only holds what was taken; nothing is filled in, and nothing is rounded. Reading it from text
is `reading.py`, writing it `writing.py`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date as Date  # noqa: N812
from enum import StrEnum
from fractions import Fraction
from typing import TypeAlias

from tapewright.diagnostics import Span
from tapewright.measures.catalogue import Measure, key_of
from tapewright.measures.over import Layer
from tapewright.units import Angle, Length, Unit, Weight, show_degrees, show_kg, show_length

Quantity: TypeAlias = Length | Angle | Weight

NO_SPAN = Span(0, 0)


class Figure(StrEnum):
    """Whose body: what decides between bust and chest, and which ranges are ordinary."""

    WOMAN = "woman"
    MAN = "man"
    CHILD = "child"


def base(quantity: Quantity) -> Fraction:
    """The exact number: millimetres, degrees or kilograms."""
    match quantity:
        case Length():
            return quantity.mm
        case Angle():
            return quantity.degrees
        case Weight():
            return quantity.kg


def with_base(quantity: Quantity, number: Fraction) -> Quantity:
    """The same kind and unit with another number in the base."""
    return type(quantity)(number, quantity.unit)


def show(quantity: Quantity) -> str:
    """As the table shows it: `91.1 cm (35 7/8 in)`, `26 degrees`, `61.8 kg`."""
    match quantity:
        case Length():
            return show_length(quantity.mm)
        case Angle():
            return show_degrees(quantity.degrees)
        case Weight():
            return show_kg(quantity.kg)


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading: its exact value, the words it was written in, and whether it was marked `as taken`."""

    quantity: Quantity
    text: str
    sure: bool = False
    span: Span = field(default=NO_SPAN, compare=False)


@dataclass(frozen=True, slots=True)
class Entry:
    """One measure of a sheet. `readings` holds one to three a side; the side is empty when none was named.

    `measure` is None for a name that is not in the catalogue; `note` is what was written beside it.
    """

    name: str
    measure: Measure | None
    readings: Mapping[str, tuple[Reading, ...]]
    note: str = ""
    span: Span = field(default=NO_SPAN, compare=False)

    @property
    def sure(self) -> bool:
        """Whether any of its readings was marked `as taken`."""
        return any(r.sure for readings in self.readings.values() for r in readings)

    def value(self, side: str | None = None) -> Quantity | None:
        """The mean of the readings, exact; the rule for sides is that of `Sheet.value`."""
        if side is not None and side in self.readings:
            chosen: tuple[str, ...] = (side,)
        elif "" in self.readings:
            chosen = ("",)
        else:
            both = tuple(s for s in ("left", "right") if s in self.readings)
            # The one side there is stands in for the other; front and back stand for nothing else.
            chosen = both if side in {None, "left", "right"} else ()
        if not chosen:
            return None
        means = [
            sum((base(r.quantity) for r in self.readings[s]), Fraction(0)) / len(self.readings[s])
            for s in chosen
        ]
        return with_base(self.readings[chosen[0]][0].quantity, sum(means, Fraction(0)) / len(means))


@dataclass(frozen=True, slots=True)
class Sheet:
    """A measure sheet.

    `over` is None when the sheet does not say what was worn beneath. `unit` is the one bare lengths were
    in. `waiting` names the measures that stand on the sheet with a question: they have no value, and a
    draft that needs them has been told why already. `to_estimate` names the measures that the sheet asks to
    be estimated: they have no value here either (`filling.py`). `spans` are the places of its keys and
    measures.
    """

    wearer: str
    figure: Figure | None = None
    date: Date | None = None
    over: tuple[Layer, ...] | None = None
    unit: Unit | None = None
    entries: Mapping[str, Entry] = field(default_factory=dict)
    notes: tuple[str, ...] = ()
    estimate_from: str | None = None
    waiting: frozenset[str] = frozenset()
    to_estimate: tuple[str, ...] = ()
    spans: Mapping[str, Span] = field(default_factory=dict, compare=False)

    def value(self, name: str, side: str | None = None) -> Quantity | None:
        """A measure's exact value, or None when it was not taken or waits.

        Several readings give their mean. With a side, that side, else the value given for no side, else
        (for left and right) the other one. Without a side, the value given for no side, else the mean of
        left and right. Lengths in mm, angles in degrees (`.radians`), weights in kg. A word that can mean only
        one measure is understood.
        """
        entry = self.entries.get(key_of(name))
        return None if entry is None else entry.value(side)

    def number(self, name: str, side: str | None = None) -> float | None:
        """`value` as a float in what the geometry uses: millimetres, radians, kilograms."""
        match self.value(name, side):
            case None:
                return None
            case Angle() as angle:
                return angle.radians
            case quantity:
                return float(base(quantity))

    def has_sides(self, name: str) -> bool:
        """Whether left and right were both taken."""
        entry = self.entries.get(key_of(name))
        return entry is not None and {"left", "right"} <= entry.readings.keys()

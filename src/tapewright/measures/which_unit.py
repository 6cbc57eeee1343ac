"""A sheet whose values are in another unit than it says: asked once, not value by value."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from tapewright.diagnostics import Answer, Query, Span, question
from tapewright.measures.catalogue import Measure
from tapewright.measures.sheet import Reading
from tapewright.units import CM, INCH, MM, Length, Unit

#: So many values must be past belief before the unit is doubted rather than each of them.
FEWEST = 3

_PLURAL = {MM.name: "millimetres", CM.name: "centimetres", INCH.name: "inches"}


def meant_unit(
    bare: Mapping[str, tuple[Measure, Sequence[Reading]]], doubted: Sequence[str], unit: Unit
) -> Unit | None:
    """The unit in which a sheet's bare values would be ordinary, if in its own most are past belief.

    `bare` are the lengths that stand without a unit of their own, each with its measure; `doubted` those
    that a body cannot well have as they stand. None unless three or more are doubted, more than half of
    all, and every one of these is ordinary in the other unit.
    """
    if len(doubted) < FEWEST or 2 * len(doubted) <= len(bare):
        return None
    for other in (CM, INCH, MM):
        if other is not unit and all(_fits(*bare[name], other) for name in doubted):
            return other
    return None


def _fits(measure: Measure, readings: Sequence[Reading], other: Unit) -> bool:
    for reading in readings:
        length = reading.quantity
        if not isinstance(length, Length):
            return False
        if not measure.low <= length.mm / length.unit.mm * other.mm <= measure.high:
            return False
    return True


def ask_unit(count: int, unit: Unit, other: Unit, place: Span | None) -> Query:
    """The question about the unit of a whole sheet."""
    was, would = (_PLURAL.get(u.name, u.name) for u in (unit, other))
    return question(
        "sheet-unit",
        f"Read in {was}, {count} of these values are beyond most bodies; in {would} all are ordinary.",
        place,
        help="If it is the unit, change this one line. A value may still carry its own, such as 27 1/2 in.",
        answers=[Answer(f"unit: {other.name}", other.name)],
    )

"""One value of a sheet: from its text to an exact reading, and whether a body can have it.

Every doubt is a query with its place. What is past believing waits; what is only unusual is drawn with a
caution; `as taken` behind a value confirms it and silences both.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from tapewright.diagnostics import Answer, Query, Span, caution, did_you_mean, question
from tapewright.measures.catalogue import Measure
from tapewright.measures.sheet import Figure, Quantity, Reading, base, show
from tapewright.measures.tree import Text
from tapewright.units import (
    CM,
    DEGREES,
    INCH,
    KG,
    MM,
    Angle,
    Length,
    Trouble,
    TroubleKind,
    Unit,
    UnitKind,
    Weight,
    old_unit_words,
    old_units_called,
    read_angle,
    read_length,
    read_weight,
    show_cm,
    show_fraction,
    unit_words,
)

AS_TAKEN = "as taken"
_SURE = re.compile(r"[\s,]+as\s+taken\s*$", re.IGNORECASE)
_LONGEST = 80
_FORMS = "A value is a number with its unit: 69.8 cm, 27 1/2 in."


@dataclass(frozen=True, slots=True)
class Waits:
    """A value that cannot be used; `query` is None when its cause has been told once for the sheet."""

    query: Query | None


def _troubled(what: str, trouble: Trouble, kind: UnitKind, span: Span, exact: bool) -> Query:
    """A trouble in the words of a maker; `exact` when offsets in the value are offsets in the sheet."""
    at = (
        Span(span.start + trouble.start, span.start + trouble.end)
        if exact and trouble.end > trouble.start
        else span
    )
    word = trouble.word
    match trouble.kind:
        case TroubleKind.NO_NUMBER if not word:
            return question("value-not-a-number", f"No value stands behind {what}.", at, help=_FORMS)
        case TroubleKind.NO_NUMBER:
            return question("value-not-a-number", f"“{word}” does not begin with a number.", at, help=_FORMS)
        case TroubleKind.NEGATIVE:
            return question(
                "value-not-positive", f"{_upper(what)} is less than nothing here.", at, help=_FORMS
            )
        case TroubleKind.NO_UNIT:
            units = {UnitKind.LENGTH: "cm or in", UnitKind.ANGLE: "degrees", UnitKind.WEIGHT: "kg or lb"}[
                kind
            ]
            return question(
                "value-unit", f"{_upper(what)} stands without a unit.", at, help=f"Write {units} behind it."
            )
        case TroubleKind.UNKNOWN_UNIT:
            known = (*unit_words(kind), *(old_unit_words() if kind is UnitKind.LENGTH else ()))
            # Marks and single letters are near to everything.
            near = did_you_mean(word, [u for u in known if u[0].isalpha()]) if len(word) > 1 else ()
            return question(
                "value-unit",
                f"I know no unit “{word}”.",
                at,
                help=_FORMS if kind is UnitKind.LENGTH else "",
                answers=near,
            )
        case TroubleKind.WRONG_UNIT:
            wanted = {
                UnitKind.LENGTH: "a length",
                UnitKind.ANGLE: "an angle, in degrees",
                UnitKind.WEIGHT: "a weight",
            }
            return question(
                "value-unit", f"{_upper(what)} is {wanted[kind]}; “{word}” measures something else.", at
            )
        case TroubleKind.WHICH_UNIT:
            meant = old_units_called(word)
            return question(
                "value-unit",
                f"“{word}” has been the name of several lengths: "
                f"{', '.join(f'{unit.name} {show_cm(unit.mm)}' for unit in meant)}.",
                at,
                help="Say which; where each length comes from stands in docs/measures.md.",
                answers=tuple(unit.name for unit in meant),
            )
        case TroubleKind.TWO_UNITS:
            return question(
                "value-unit",
                f"Two units stand in {what}, and they do not go together.",
                at,
                help="One unit to a value, or two of a family, the larger first: 5 ft 4 in.",
            )
        case TroubleKind.TOO_MANY:
            return question(
                "value-unit",
                f"In “{word}” the second part is more than one of the first, or the first is not whole.",
                at,
                help="Was a figure slipped? 5 ft 4 in is one length.",
            )
        case TroubleKind.TRAILING:
            return question(
                "value-not-a-number",
                f"“{word}” stands behind the value of {what}.",
                at,
                help="Put remarks under notes; a second reading goes in brackets: [70 cm, 70.5 cm].",
            )


def short(text: str, most: int = 60) -> str:
    """A text cut to what a message can hold."""
    plain = " ".join(text[: 4 * most].split())
    return plain if len(plain) <= most else plain[: most - 1] + "…"


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def read_value(
    node: Text, what: str, kind: UnitKind, unit: Unit | None, may_be: str, *, told_unit: bool, raw: str
) -> Reading | Waits:
    """One value from its text.

    `what` is how a query calls it (`the waist`), `unit` the sheet's unit of length if it has one, `may_be`
    as in the catalogue. `told_unit` says that the sheet's missing or unknown unit has a query of its own,
    so that bare lengths wait without another. `raw` is the sheet's text of the node.
    """
    text = node.value
    if len(text) > _LONGEST:
        message = f"“{short(text)}” is longer than any value."
        return Waits(question("value-not-a-number", message, node.span, help=_FORMS))
    sure = _SURE.search(text)
    if sure is not None:
        text = text[: sure.start()]
    signed = may_be == "either"
    read: Quantity | Trouble
    match kind:
        case UnitKind.LENGTH:
            read = read_length(text, unit, decimal_comma=True, signed=signed, old=True)
        case UnitKind.ANGLE:
            read = read_angle(text, DEGREES, decimal_comma=True, signed=signed)
        case UnitKind.WEIGHT:
            # Beside inches a bare weight may well be in pounds, so it is asked.
            bare = KG if unit is None or unit.family == KG.family else None
            read = read_weight(text, bare, decimal_comma=True)
    if isinstance(read, Trouble):
        if told_unit and kind is UnitKind.LENGTH and read.kind is TroubleKind.NO_UNIT:
            return Waits(None)
        return Waits(_troubled(what, read, kind, node.span, exact=raw == node.value))
    if base(read) == 0 and may_be == "positive":
        return Waits(
            question(
                "value-not-positive",
                f"{_upper(what)} is nothing here.",
                node.span,
                help="If it was not taken, leave the line out; what is missing is filled or asked for.",
            )
        )
    return Reading(read, " ".join(text.split()), sure is not None, node.span)


def in_unit(number: Fraction, unit: Unit) -> str:
    """A number of a unit as it would stand on a sheet: decimals where they are exact, else a fraction."""
    tenths = number * 10
    figures = f"{float(number):g}" if tenths.denominator == 1 else show_fraction(number)
    return f"{figures} {unit.name}"


def _would_fit(reading: Reading, measure: Measure) -> tuple[Answer, ...]:
    """Slips that would bring the value into the ordinary range: another unit, or half of a girth."""
    if not isinstance(reading.quantity, Length):
        return ()
    unit = reading.quantity.unit
    number = reading.quantity.mm / unit.mm
    fits: list[Answer] = []
    for other in (MM, CM, INCH):
        if other is not unit and measure.low <= number * other.mm <= measure.high:
            text = in_unit(number, other)
            fits.append(Answer(f"{text}, if that was the unit", text))
    if measure.low <= 2 * reading.quantity.mm <= measure.high:
        text = in_unit(2 * number, unit)
        fits.append(Answer(f"{text}, if this is half of it", text))
    return tuple(fits)


def _range(measure: Measure) -> str:
    def quantity(number: Fraction) -> Quantity:
        match measure.kind:
            case UnitKind.LENGTH:
                return Length(number, CM)
            case UnitKind.ANGLE:
                return Angle(number)
            case UnitKind.WEIGHT:
                return Weight(number)

    return f"{show(quantity(measure.low))} and {show(quantity(measure.high))}"


def doubt(
    reading: Reading, measure: Measure, figure: Figure | None, *, only_impossible: bool = False
) -> Query | None:
    """A question when no body is likely to have this value, a caution when few have; None otherwise.

    A child is only asked about when the value is past a grown person's or under a quarter of the middle
    (for a weight, under 2 kg): there are no ranges of children here. `as taken` silences both.
    """
    if reading.sure:
        return None
    number = base(reading.quantity)
    if measure.low <= number <= measure.high:
        return None
    low, high = measure.possible
    if figure is Figure.CHILD:
        low = Fraction(2) if measure.kind is UnitKind.WEIGHT else min(low, (measure.low + measure.high) / 8)
    if low <= number <= high and (only_impossible or figure is Figure.CHILD):
        return None
    fits = _would_fit(reading, measure)
    shown = show(reading.quantity)
    sure = f"If it is right, write “{AS_TAKEN}” behind it: {reading.text} {AS_TAKEN}."
    if figure is None:
        sure += " Is the wearer a child? Then add a line, figure: child."
    if not low <= number <= high:
        return question(
            "value-impossible",
            f"The {measure.name} is {shown} here; in grown people it lies between {_range(measure)}.",
            reading.span,
            help=sure,
            answers=fits,
        )
    return caution(
        "value-unusual",
        f"The {measure.name} is {shown}; in most grown people it lies between {_range(measure)}.",
        reading.span,
        help=f"Please look at it once more. {sure}",
        answers=fits,
    )

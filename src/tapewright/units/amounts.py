"""Amounts as text: a number, or several, with their units.

`27 1/2 in`, `5 ft 4 in`, `69,8 cm` where the comma is allowed, `26 degrees`. What cannot be read comes
back as a `Trouble` that says what it is and where; wording it for a person belongs to higher layers.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from tapewright.units.numbers import MINUS, scan_number
from tapewright.units.old import scan_old_unit
from tapewright.units.table import DEGREES, KG, Unit, UnitKind, unit_called


@dataclass(frozen=True, slots=True)
class Length:
    """A length, exact, and the unit it was given in (the first of several)."""

    mm: Fraction
    unit: Unit


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle, exact in degrees."""

    degrees: Fraction
    unit: Unit = DEGREES

    @property
    def radians(self) -> float:
        """The same in radians, the nearest float."""
        return math.radians(self.degrees)


@dataclass(frozen=True, slots=True)
class Weight:
    """A weight, exact, and the unit it was given in."""

    kg: Fraction
    unit: Unit = KG


class TroubleKind(StrEnum):
    """Why a text is no amount."""

    NO_NUMBER = "no number"
    NO_UNIT = "no unit"
    UNKNOWN_UNIT = "unknown unit"
    WRONG_UNIT = "wrong unit"
    """A unit of another kind: degrees for a length."""
    TWO_UNITS = "two units"
    """Units that do not stand together: `5 cm 3 in`, `5 in cm`, `4 in 5 ft`."""
    TOO_MANY = "too many"
    """A second part that would fill the first (`5 ft 14 in`), or a first that is not whole."""
    WHICH_UNIT = "which unit"
    """A word that named several lengths: `ell`."""
    NEGATIVE = "negative"
    TRAILING = "trailing text"


@dataclass(frozen=True, slots=True)
class Trouble:
    """Why a text is no amount: `text[start:end]` is the stretch that shows it, `word` what stands there.

    A stretch of no width stands where something is missing.
    """

    kind: TroubleKind
    start: int
    end: int
    word: str


_SPACES = re.compile(r"\s*")
_SIGN = re.compile(f"[-{MINUS}\N{EN DASH}]\\s*")
# A word, or one of the marks that stand for units.
_UNIT_WORD = re.compile("[^\\W\\d_]+[.]?|[\"″”'′’°]")


def _skip(text: str, at: int) -> int:
    found = _SPACES.match(text, at)
    return found.end() if found else at


def _trouble(kind: TroubleKind, text: str, start: int, end: int) -> Trouble:
    return Trouble(kind, start, end, text[start:end])


def _rest(kind: TroubleKind, text: str, at: int) -> Trouble:
    return _trouble(kind, text, at, max(at, len(text.rstrip())))


def _old_unit(text: str, at: int) -> tuple[Unit, int] | Trouble | None:
    """A historical unit at `at` and the place after it; None when none stands there."""
    found = scan_old_unit(text, at)
    if found is None:
        return None
    units, start, end = found
    return (units[0], end) if len(units) == 1 else _trouble(TroubleKind.WHICH_UNIT, text, start, end)


def _read(
    text: str, kind: UnitKind, default: Unit | None, decimal_comma: bool, signed: bool, old: bool = False
) -> tuple[Fraction, Unit] | Trouble:
    """The whole text as an amount of a kind, in the base of that kind, with its first unit."""
    at = _skip(text, 0)
    sign = _SIGN.match(text, at)
    if sign is not None:
        if not signed:
            return _rest(TroubleKind.NEGATIVE, text, at)
        at = sign.end()
    total = Fraction(0)
    first: Unit | None = None
    last: Unit | None = None
    while True:
        start = at
        number = scan_number(text, at, decimal_comma=decimal_comma)
        if number is None:
            return _rest(TroubleKind.NO_NUMBER if first is None else TroubleKind.TRAILING, text, at)
        at = _skip(text, number.end)
        word = _UNIT_WORD.match(text, at)
        ancient = _old_unit(text, at) if old else None
        if isinstance(ancient, Trouble):
            return ancient
        if ancient is not None:
            unit, at = ancient[0], _skip(text, ancient[1])
        elif word is None:
            if at < len(text):
                return _rest(TroubleKind.TRAILING, text, at)
            if default is None or first is not None:
                return _trouble(TroubleKind.NO_UNIT, text, number.end, number.end)
            unit = default
        else:
            named = unit_called(word[0])
            if named is None:
                return _trouble(TroubleKind.UNKNOWN_UNIT, text, word.start(), word.end())
            if named.kind is not kind:
                return _trouble(TroubleKind.WRONG_UNIT, text, word.start(), word.end())
            unit = named
            at = _skip(text, word.end())
        if last is not None:
            if unit.family != last.family or unit.size >= last.size:
                return _trouble(TroubleKind.TWO_UNITS, text, start, at)
            if number.value * unit.size >= last.size or (total / last.size).denominator != 1:
                return _trouble(TroubleKind.TOO_MANY, text, 0, len(text.rstrip()))
        total += number.value * unit.size
        first, last = first or unit, unit
        if at == len(text):
            return (-total if sign is not None else total), first
        second = _UNIT_WORD.match(text, at)
        if second is not None and unit_called(second[0]) is not None:
            return _trouble(TroubleKind.TWO_UNITS, text, at, second.end())


def read_length(
    text: str,
    default_unit: Unit | None = None,
    *,
    decimal_comma: bool = False,
    signed: bool = False,
    old: bool = False,
) -> Length | Trouble:
    """The length that the whole text is, exact; `5 ft 4 in` and `1 yd 3 nails` are one length.

    `default_unit` is meant where a single number stands bare; with None a bare number is a `NO_UNIT`.
    `signed` lets a minus through; `old` lets historical units in (`1 vara 3 dedos`, `1/2 Paris ell`). Zero
    is a length here.
    """
    found = _read(text, UnitKind.LENGTH, default_unit, decimal_comma, signed, old)
    return found if isinstance(found, Trouble) else Length(*found)


def read_angle(
    text: str, default_unit: Unit | None = None, *, decimal_comma: bool = False, signed: bool = False
) -> Angle | Trouble:
    """The angle that the whole text is, exact in degrees; the arguments as for `read_length`."""
    found = _read(text, UnitKind.ANGLE, default_unit, decimal_comma, signed)
    return found if isinstance(found, Trouble) else Angle(*found)


def read_weight(
    text: str, default_unit: Unit | None = None, *, decimal_comma: bool = False
) -> Weight | Trouble:
    """The weight that the whole text is, exact in kilograms; `9 st 4 lb` is one weight."""
    found = _read(text, UnitKind.WEIGHT, default_unit, decimal_comma, False)
    return found if isinstance(found, Trouble) else Weight(*found)

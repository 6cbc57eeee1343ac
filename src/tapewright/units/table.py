"""The units the table reads and shows: lengths, angles, weights.

Each is one record with its exact size, what else it is called, and where that size comes from. No
reading or showing here, and no unit whose size is not certain.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction


class UnitKind(StrEnum):
    """What a unit measures; amounts of two kinds never mix."""

    LENGTH = "length"
    ANGLE = "angle"
    WEIGHT = "weight"


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit.

    `name` is how it is written in a text, `synonyms` what else is read as it. `size` is exact and in the
    base of its kind: millimetres, degrees or kilograms. `family` names the units that may stand together
    in one amount, as feet and inches do. `source` says where the size comes from.
    """

    name: str
    synonyms: tuple[str, ...]
    kind: UnitKind
    size: Fraction
    family: str
    source: str

    @property
    def mm(self) -> Fraction:
        """The size of a unit of length, in millimetres; ValueError for any other kind."""
        if self.kind is not UnitKind.LENGTH:
            raise ValueError(f"{self.name} is no unit of length")
        return self.size


_SI = "SI Brochure, 9th edition (BIPM 2019)"
_YARD = "the international yard of 1959: 0.9144 m exactly"
_NAIL = "Potts, Elementary Arithmetic, cloth measure: 16 nails to the yard, 2 1/4 in"

MM = Unit("mm", ("millimetre", "millimetres", "millimeter", "millimeters"), UnitKind.LENGTH, Fraction(1),
          "metric", _SI)  # fmt: skip
CM = Unit("cm", ("centimetre", "centimetres", "centimeter", "centimeters"), UnitKind.LENGTH, Fraction(10),
          "metric", _SI)  # fmt: skip
M = Unit("m", ("metre", "metres", "meter", "meters"), UnitKind.LENGTH, Fraction(1000), "metric", _SI)
INCH = Unit("in", ("inch", "inches", "ins", '"', "″", "”"), UnitKind.LENGTH, Fraction(127, 5), "yard", _YARD)
NAIL = Unit("nail", ("nails",), UnitKind.LENGTH, Fraction(1143, 20), "yard", _NAIL)
FOOT = Unit("ft", ("foot", "feet", "'", "′", "’"), UnitKind.LENGTH, Fraction(1524, 5), "yard", _YARD)
YARD = Unit("yd", ("yard", "yards", "yds"), UnitKind.LENGTH, Fraction(4572, 5), "yard", _YARD)
DEGREES = Unit("degrees", ("degree", "deg", "°"), UnitKind.ANGLE, Fraction(1), "degree",
               "SI Brochure, table 8: pi/180 radians")  # fmt: skip
KG = Unit("kg", ("kilo", "kilos", "kilogram", "kilograms"), UnitKind.WEIGHT, Fraction(1), "metric", _SI)
POUND = Unit("lb", ("lbs", "pound", "pounds"), UnitKind.WEIGHT, Fraction(45359237, 100_000_000), "pound",
             "the international pound of 1959: 0.45359237 kg exactly")  # fmt: skip
STONE = Unit("st", ("stone", "stones"), UnitKind.WEIGHT, 14 * Fraction(45359237, 100_000_000), "pound",
             "14 pounds, Weights and Measures Act 1985, schedule 1 (from memory)")  # fmt: skip

UNITS: tuple[Unit, ...] = (MM, CM, M, INCH, NAIL, FOOT, YARD, DEGREES, KG, POUND, STONE)

_BY_WORD: dict[str, Unit] = {word: unit for unit in UNITS for word in (unit.name, *unit.synonyms)}


def unit_called(word: str) -> Unit | None:
    """The unit of a name or synonym, capitals ignored and one closing full stop allowed (`in.`)."""
    folded = word.casefold()
    return _BY_WORD.get(folded) or _BY_WORD.get(folded.removesuffix("."))


def unit_words(kind: UnitKind | None = None) -> tuple[str, ...]:
    """Every word read as a unit (of one kind): what a near miss is compared with."""
    return tuple(word for word, unit in _BY_WORD.items() if kind is None or unit.kind is kind)

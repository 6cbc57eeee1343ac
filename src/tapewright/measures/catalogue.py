"""The catalogue of measures: what each is called, how it is taken, and between what values it lies.

The facts are in `catalogue.csv`, whose head explains its columns. Names are the only keys there are;
what is not in the catalogue is offered the nearest names, never taken for one of them.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from tapewright.diagnostics import did_you_mean
from tapewright.units import Unit, UnitKind, unit_called

_SIDES = {
    "once": (),
    "left and right": ("left", "right"),
    "right": ("left", "right"),
    "front, left, right and back": ("front", "left", "right", "back"),
}
GROUPS = ("to begin", "round", "back", "front", "arms", "legs", "how one stands")
"""The groups of a measuring day, in its order."""

_SORTS = frozenset({"girth", "across", "along", "height", "gap", "angle", "weight"})
# Weight goes with the cube of a length, so that half and twice the middle would catch real people.
_WEIGHT_SPAN = 3


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure of the catalogue.

    `also` are other words of the trade for it; `group` and `turn` say when it is taken on a measuring day;
    `sort` is girth, across, along, height, gap, angle or weight.
    `low`, `high` (the ordinary range of grown people) and `apart` (the allowed difference of two readings)
    are in the base of `kind`: millimetres, degrees or kilograms. `unit` is the one they are written in.
    `may_be` is `positive`, `zero` or `either`; `side` says how many sides are usual; `standard` is the
    term of a standard, or empty; `source` and `status` (`read`, `memory`) say how far to trust the row.
    """

    name: str
    also: tuple[str, ...]
    term: str
    how: str
    group: str
    turn: int
    sort: str
    kind: UnitKind
    unit: Unit
    low: Fraction
    high: Fraction
    apart: Fraction
    may_be: str
    side: str
    standard: str
    source: str
    status: str

    @property
    def sides(self) -> tuple[str, ...]:
        """The sides a sheet may give apart: none for a measure that is taken once."""
        return _SIDES[self.side]

    @property
    def possible(self) -> tuple[Fraction, Fraction]:
        """Outside these a value is past believing until it is confirmed; in the base of `kind`.

        Lengths: half and twice the middle of the ordinary range. A weight: a third and three times it.
        Angles, and lengths whose ordinary range is itself wider than that (they may be nothing): the
        ordinary range and its own width more on either side. Common sense, no source.
        """
        middle, width = (self.low + self.high) / 2, self.high - self.low
        if self.kind is UnitKind.WEIGHT:
            return middle / _WEIGHT_SPAN, middle * _WEIGHT_SPAN
        if self.kind is UnitKind.LENGTH and middle / 2 <= self.low and self.high <= 2 * middle:
            return middle / 2, 2 * middle
        return self.low - width, self.high + width


def _measure(row: dict[str, str]) -> Measure:
    unit = unit_called(row["unit"])
    if unit is None or unit.kind is not UnitKind(row["kind"]):
        raise ValueError(f"catalogue: {row['name']}: no such unit of {row['kind']}: {row['unit']}")
    if row["side"] not in _SIDES or row["may_be"] not in {"positive", "zero", "either"}:
        raise ValueError(f"catalogue: {row['name']}: unknown side or may_be")
    if row["group"] not in GROUPS or row["sort"] not in _SORTS:
        raise ValueError(f"catalogue: {row['name']}: unknown group or sort")
    return Measure(
        name=row["name"],
        also=tuple(row["also"].split("; ")) if row["also"] else (),
        term=row["term"],
        how=row["how"],
        group=row["group"],
        turn=int(row["turn"]),
        sort=row["sort"],
        kind=unit.kind,
        unit=unit,
        low=Fraction(row["low"]) * unit.size,
        high=Fraction(row["high"]) * unit.size,
        apart=Fraction(row["apart"]) * unit.size,
        may_be=row["may_be"],
        side=row["side"],
        standard=row["standard"],
        source=row["source"],
        status=row["status"],
    )


@cache
def catalogue() -> MappingProxyType[str, Measure]:
    """All measures by name, in the order of the catalogue; ValueError if the data file is amiss."""
    text = (files("tapewright.measures") / "catalogue.csv").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    rows = [_measure(row) for row in csv.DictReader(lines)]
    found = {m.name: m for m in rows}
    if len(found) != len(rows):
        raise ValueError("catalogue: a name stands twice")
    return MappingProxyType(found)


def plain_name(text: str) -> str:
    """A name as it is compared: small letters, single spaces."""
    return " ".join(text.casefold().split())


def measure_called(name: str) -> Measure | None:
    """The measure of exactly this name, capitals and repeated spaces aside."""
    return catalogue().get(plain_name(name))


@cache
def _meanings() -> MappingProxyType[str, tuple[str, ...]]:
    """Every word of the catalogue, with the names it may mean; a name means itself."""
    found: dict[str, tuple[str, ...]] = {}
    for measure in catalogue().values():
        for word in measure.also:
            found[word] = (*found.get(word, ()), measure.name)
    return MappingProxyType(found | {name: (name,) for name in catalogue()})


def _spaced(name: str) -> str:
    """A word with spaces for the marks that programs set between words."""
    return plain_name(name.replace("_", " ").replace("-", " "))


def measures_meant(word: str) -> tuple[str, ...]:
    """The names a word of the trade may mean: itself, the measure it is another word for, several, or none.

    `hips` means the hip; `waist line` may be the waist, the navel waist or the high waist.
    """
    return _meanings().get(plain_name(word)) or _meanings().get(_spaced(word), ())


def key_of(name: str) -> str:
    """The name a measure is kept under: `hips` is kept as the hip; a word that may mean several stays itself."""
    meant = measures_meant(name)
    return meant[0] if len(meant) == 1 else plain_name(name)


def measure_meant(name: str) -> Measure | None:
    """The measure of a name, or of a word that can mean only one; None for others."""
    return catalogue().get(key_of(name))


def say_either(names: Iterable[str]) -> str:
    """`the waist, the navel waist or the high waist`."""
    said = [f"the {name}" for name in names]
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} or {said[-1]}"


def near_measures(name: str) -> tuple[str, ...]:
    """The names that may have been meant, nearest first, at most four; `nape_to-waist` is near too."""
    if meant := measures_meant(name):
        return meant[:4]
    near = did_you_mean(_spaced(name), _meanings())
    return tuple(dict.fromkeys(n for word in near for n in _meanings()[word]))[:4]


def in_turn(names: Iterable[str]) -> tuple[str, ...]:
    """Names in the order of a measuring day; those not in the catalogue last, as they came."""
    known = catalogue()
    return tuple(sorted(dict.fromkeys(names), key=lambda n: known[n].turn if n in known else len(known) + 1))

"""Measures that were not taken, estimated from those that were, each with the range that holds nine in ten.

An estimate is always marked: it is another type than what was taken, a sheet never holds one, and no draft
uses one by itself. From the body to the body it rests on the models of two surveys (`model.py`); from the
body to the body in stays on judgement alone (`over_stays`), and says so.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from math import exp
from types import MappingProxyType

from tapewright.measures.beneath import CORSET, changed_by, stayed
from tapewright.measures.catalogue import catalogue, in_turn, measure_called
from tapewright.measures.evidence import evidence_of, group_of, known_as, said_as
from tapewright.measures.over import layers_named, plain_layer
from tapewright.measures.sheet import Quantity, Sheet, base
from tapewright.measures.together import odd_ones
from tapewright.units import CM, Angle, Length, UnitKind, Weight, to_nearest


@dataclass(frozen=True, slots=True)
class Estimate:
    """What a measure is likely to be: `mid`, and `low` to `high`, which holds nine in ten such people.

    In mm, degrees or kg, as the measure is. `from_` are the measures it rests on, those that tell most
    first; `judgement` marks what no survey stands behind: then the range is what is plausible, no more.
    """

    name: str
    mid: float
    low: float
    high: float
    from_: tuple[str, ...]
    judgement: bool = False

    def quantities(self) -> tuple[Quantity, Quantity, Quantity]:
        """The three as lengths, angles or weights, to the nearest millimetre, degree or tenth of a kilogram."""
        from fractions import Fraction

        measure = measure_called(self.name)
        kind = UnitKind.LENGTH if measure is None else measure.kind
        step = Fraction(1, 10) if kind is UnitKind.WEIGHT else Fraction(1)
        numbers = [to_nearest(x, step) for x in (self.mid, self.low, self.high)]
        match kind:
            case UnitKind.LENGTH:
                return Length(numbers[0], CM), Length(numbers[1], CM), Length(numbers[2], CM)
            case UnitKind.ANGLE:
                return Angle(numbers[0]), Angle(numbers[1]), Angle(numbers[2])
            case UnitKind.WEIGHT:
                return Weight(numbers[0]), Weight(numbers[1]), Weight(numbers[2])


def can_be_estimated(name: str) -> bool:
    """Whether any survey took the measure, so that there is something to estimate it from."""
    from tapewright.measures import model

    return measure_called(name) is not None and known_as(name) in model.names()


def estimate(sheet: Sheet, names: Iterable[str] | None = None) -> Mapping[str, Estimate]:
    """Estimates of the measures that the sheet has not, in the order of a measuring day.

    All that can be, or those of `names` that can. Values that stand too far from the others to be trusted
    are not built upon. Measures that wait with a question are estimated too. Nothing is estimated of a
    child, nor from nothing; over stays, hoops or padding only what they leave as it was.
    """
    group = group_of(sheet)
    evidence = evidence_of(sheet)
    if group is None or evidence is None:
        return MappingProxyType({})
    import numpy as np

    from tapewright.measures import model

    odd, _ = odd_ones(sheet)
    doubted = {one.name for one in odd}
    logs = {name: value for name, value in evidence.logs.items() if name not in doubted}
    if not logs:
        return MappingProxyType({})
    known = tuple(known_as(name) for name in logs)
    taken = {known_as(name) for name in sheet.entries}
    changed = changed_by(sheet.over or ())
    usual = [said_as(name, sheet.figure) for name in model.names() if name not in model.aside()]
    asked = usual if names is None else list(dict.fromkeys(names))
    wanted = [
        name
        for name in in_turn(asked)
        if name in catalogue()
        and known_as(name) in model.names()
        and known_as(name) not in taken
        and name not in changed
    ]
    if not wanted:
        return MappingProxyType({})
    how = model.foretelling(group, known, tuple(known_as(name) for name in wanted))
    middles = how.middles(np.array([list(logs.values())]))[0]
    back = dict(zip(known, logs, strict=True))
    found: dict[str, Estimate] = {}
    for j, name in enumerate(wanted):
        reach = model.NINE_IN_TEN * float(how.spread[j])
        middle = float(middles[j])
        near = tuple(back[n] for n in model.nearest(group, known, known_as(name), len(known)))
        found[name] = Estimate(name, exp(middle), exp(middle - reach), exp(middle + reach), near)
    return MappingProxyType(found)


class Stays(StrEnum):
    """Two makes of stays, which do not change a body alike."""

    CONICAL = "stays"
    """Conical stays of the eighteenth century: they shape more than they lace in."""
    CORSET = "corset"
    """A corset of the nineteenth."""


@dataclass(frozen=True, slots=True)
class _Change:
    """What stays do to one measure: a factor and an addition in mm, middle, least and most."""

    factor: tuple[float, float, float]
    added: tuple[float, float, float] = (0.0, 0.0, 0.0)


_ONE = (1.0, 1.0, 1.0)
_CHANGES: Mapping[Stays, Mapping[str, _Change]] = {
    Stays.CONICAL: {
        "waist": _Change((0.97, 0.90, 1.05)),
        "bust": _Change(_ONE, (25.0, 0.0, 50.0)),
        "under bust": _Change(_ONE, (-40.0, -60.0, -20.0)),
    },
    Stays.CORSET: {
        "waist": _Change((0.92, 0.84, 1.00)),
        "bust": _Change(_ONE, (25.0, 0.0, 50.0)),
        "under bust": _Change(_ONE, (-40.0, -60.0, -20.0)),
    },
}
"""Judgement, after reading: Dickinson 1887 (52 corseted women, waists 1 to 4 1/2 in smaller), Gau 1998, a
fitting study of corsets (the chest grows, under-bust and waist shrink), and costume writers on conical stays
(the waist over them may even be larger). Nobody's survey.
"""


def stays_of(sheet: Sheet) -> Stays | None:
    """The make of stays a sheet was taken over, by its word: a corset, or else stays; None when neither."""
    layers = sheet.over or ()
    if not stayed(layers):
        return None
    words = {word for layer in layers for word in plain_layer(layer.name).split()}
    return Stays.CORSET if words & CORSET else Stays.CONICAL


def over_stays(body: Sheet, stays: Stays) -> Mapping[str, Estimate]:
    """What the bust, the under-bust and the waist may be over stays, from a sheet of the body itself.

    Judgement with wide ranges (docs/measures.md), always to be measured over the stays when they are there.
    Only from what was taken on the body; empty when the sheet is itself over stays.
    """
    if stayed(body.over or ()):
        return MappingProxyType({})
    found: dict[str, Estimate] = {}
    for name, change in _CHANGES[stays].items():
        value = body.value(name)
        if value is None:
            continue
        number = float(base(value))
        mid, low, high = (
            number * factor + more for factor, more in zip(change.factor, change.added, strict=True)
        )
        found[name] = Estimate(name, mid, low, high, (name,), judgement=True)
    return MappingProxyType(found)


def named_stays(text: str) -> Stays | None:
    """`stays` or `corset` from a word or a list of layers."""
    words = {word for layer in layers_named(text) for word in layer.split()}
    if words & CORSET:
        return Stays.CORSET
    return Stays.CONICAL if stayed(layers_named(text)) else None

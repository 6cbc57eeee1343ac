"""Estimates that somebody asked for by name, put where a measure was not taken; marked wherever they go.

Nothing is filled that was not asked for in so many words, `scye depth: estimated` on the sheet or the name in
the command. What was taken stays; and every estimate that is used is told with its range.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from tapewright.diagnostics import Query, caution, question
from tapewright.measures.catalogue import key_of, measure_called
from tapewright.measures.estimates import Estimate, can_be_estimated, estimate
from tapewright.measures.evidence import group_of
from tapewright.measures.sheet import NO_SPAN, Entry, Reading, Sheet, show

ESTIMATED = "estimated"
"""The word on a sheet, in a value's place."""

NOTE = "estimated, not taken"


@dataclass(frozen=True, slots=True)
class Filled:
    """A sheet with the estimates that were asked for among its entries, what they are, and what is said of them.

    A measure that cannot be estimated is among those that wait on the sheet, its question among `queries`.
    """

    sheet: Sheet
    estimates: Mapping[str, Estimate]
    queries: tuple[Query, ...]


def with_estimates(sheet: Sheet, names: Iterable[str] = (), wanted: Iterable[str] | None = None) -> Filled:
    """The sheet with what it, or `names`, asks to be estimated; of those only what is `wanted`, if that is said.

    The value is the middle, to the nearest millimetre or degree. A caution tells each with the range that holds
    nine in ten; a question what cannot be estimated. What was taken, or waits, is left as it is.
    """
    keys = None if wanted is None else {key_of(name) for name in wanted}
    asked = [
        name
        for name in dict.fromkeys([*sheet.to_estimate, *map(key_of, names)])
        if name not in sheet.entries and name not in sheet.waiting and (keys is None or name in keys)
    ]
    if not asked:
        return Filled(sheet, MappingProxyType({}), ())
    made = estimate(sheet, asked)
    entries = dict(sheet.entries)
    queries: list[Query] = []
    for name in asked:
        span = sheet.spans.get(name)
        if name not in made:
            queries.append(
                question(
                    "not-estimated",
                    f"The {name} cannot be estimated: {_why_not(sheet, name)}.",
                    span,
                    help="It has to be measured; or leave the line out, and see what the lesson fills it by.",
                )
            )
            continue
        found = made[name]
        middle, low, high = found.quantities()
        reading = Reading(middle, NOTE, span=span or NO_SPAN)
        entries[name] = Entry(name, measure_called(name), {"": (reading,)}, NOTE, span or NO_SPAN)
        queries.append(
            caution(
                "estimate-used",
                f"The {name} was not taken. {show(middle)} is an estimate, from the {_listed(found.from_[:3])}; "
                f"nine in ten such people lie between {show(low)} and {show(high)}.",
                span,
                help=f"Take it as soon as you can. Until then the {name} stands as estimated on whatever is printed.",
            )
        )
    none = [name for name in asked if name not in made]
    filled = replace(sheet, entries=entries, waiting=sheet.waiting | frozenset(none))
    return Filled(filled, made, tuple(queries))


def _why_not(sheet: Sheet, name: str) -> str:
    if group_of(sheet) is None:
        return "no survey here measured children"
    if not can_be_estimated(name):
        return "no survey here took it"
    return "this sheet holds too little to tell it from, or what is worn beneath makes another thing of it"


def _listed(names: Iterable[str]) -> str:
    said = list(names)
    return said[0] if len(said) == 1 else f"{', the '.join(said[:-1])} and the {said[-1]}"

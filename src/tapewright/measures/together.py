"""A sheet looked at as a whole: each measure beside what all the others foretell of it.

Far sharper than any range, since a hip of 89 is nothing strange and a hip of 89 under a bust of 98 is. What
stands too far off is a caution with its reason, what would be usual, and the slip it may be; whatever the
others bear out is not asked about, however far from the ordinary it is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import exp, log

from tapewright.diagnostics import Answer, Query, caution, note
from tapewright.measures.evidence import Evidence, evidence_of, known_as
from tapewright.measures.sheet import Entry, Quantity, Sheet, base, show, with_base
from tapewright.measures.values import AS_TAKEN, in_unit
from tapewright.units import CM, Length

LEAST = 3
"""So many measures of a body, at least, tell anything about one of them."""

_BEARS_OUT = 3
"""So many others bear out a value that is out of the ordinary."""


@dataclass(frozen=True, slots=True)
class Odd:
    """A value that stands too far from what the others foretell.

    `misfit` in spreads; `middle`, `low`, `high` what would be usual for this body, nine times in ten, in mm,
    kg or degrees; `by` the measures that say so, those nearest to it first.
    """

    name: str
    misfit: float
    middle: float
    low: float
    high: float
    by: tuple[str, ...]
    known: tuple[str, ...]


def odd_ones(sheet: Sheet) -> tuple[tuple[Odd, ...], frozenset[str]]:
    """The values that stand too far off, the farthest first, and those that the rest bears out.

    One after the other, the farthest is set aside and the rest looked at again, so that a slip does not
    make its neighbours look odd. What is marked `as taken` is never among them, but is set aside likewise.
    """
    # A sheet too short to tell anything does not load the models.
    evidence = evidence_of(sheet) if len(sheet.entries) >= LEAST else None
    if evidence is None or len(evidence.logs) < LEAST:
        return (), frozenset()
    from tapewright.measures import model

    left = dict(evidence.logs)
    limit = model.doubt(len(left))
    aside: list[tuple[str, float]] = []
    while len(left) >= LEAST:
        misfits = _misfits(Evidence(evidence.group, left))
        worst = max(misfits, key=lambda name: abs(misfits[name]))
        if abs(misfits[worst]) <= limit:
            break
        aside.append((worst, misfits[worst]))
        del left[worst]
    found = [_odd(n, misfit, evidence.group, left) for n, misfit in aside if not sheet.entries[n].sure]
    bear = frozenset(left) if len(left) > _BEARS_OUT else frozenset()
    return tuple(found), bear


def _misfits(evidence: Evidence) -> dict[str, float]:
    import numpy as np

    from tapewright.measures import model

    rows = np.array([list(evidence.logs.values())])
    found = model.judge(evidence.group, evidence.model_names()).misfits(rows)[0]
    return dict(zip(evidence.logs, (float(x) for x in found), strict=True))


def _odd(name: str, misfit: float, group: str, left: Mapping[str, float]) -> Odd:
    import numpy as np

    from tapewright.measures import model

    known = tuple(known_as(n) for n in left)
    how = model.foretelling(group, known, (known_as(name),))
    middle = float(how.middles(np.array([list(left.values())]))[0, 0])
    reach = model.NINE_IN_TEN * float(how.spread[0])
    back = dict(zip(known, left, strict=True))
    by = tuple(back[n] for n in model.nearest(group, known, known_as(name)))
    return Odd(name, misfit, exp(middle), exp(middle - reach), exp(middle + reach), by, tuple(left))


def look_together(sheet: Sheet, unusual: Mapping[str, Query]) -> tuple[Query, ...]:
    """What there is to say of the sheet's measures together; `unusual` are the doubts about single ones.

    A doubt about a single measure is kept where the others cannot tell, gives way to the sharper one where
    they can, and is dropped, in one note for all, where the others bear the value out.
    """
    odd, bear = odd_ones(sheet)
    said = {one.name for one in odd}
    kept = [query for name, query in unusual.items() if name not in said and name not in bear]
    borne_out = [name for name in unusual if name in bear and name not in said]
    queries = [*kept, *_cautions(sheet, odd)]
    if borne_out:
        queries.append(_beyond(sheet, borne_out))
    return tuple(queries)


def _beyond(sheet: Sheet, names: list[str]) -> Query:
    listed = ", ".join(f"the {name}" for name in names[:-1])
    listed = f"{listed} and the {names[-1]}" if listed else f"the {names[-1]}"
    lies = "lies" if len(names) == 1 else "lie"
    child = " Is the wearer a child? Then say figure: child." if sheet.figure is None else ""
    return note(
        "beyond-the-survey",
        f"{listed[:1].upper()}{listed[1:]} {lies} outside what most grown people have, and the other measures "
        "bear it out.",
        sheet.entries[names[0]].span,
        help=f"Nothing need be done. Estimates for so unusual a figure are less sure than they say.{child}",
    )


def _cautions(sheet: Sheet, odd: tuple[Odd, ...]) -> list[Query]:
    queries: list[Query] = []
    told: set[str] = set()
    for one in odd:
        if one.name in told:
            continue
        other = _exchanged(sheet, one, odd)
        told |= {one.name, *([other.name] if other is not None else [])}
        queries.append(_caution(sheet, one, other))
    return queries


def _exchanged(sheet: Sheet, one: Odd, odd: tuple[Odd, ...]) -> Odd | None:
    """Another odd measure whose value would do for this one, and this one's for it."""
    for other in odd:
        if other.name == one.name or not _plain_length(sheet, one) or not _plain_length(sheet, other):
            continue
        mine, theirs = _number(sheet, one.name), _number(sheet, other.name)
        if one.low <= theirs <= one.high and other.low <= mine <= other.high:
            return other
    return None


def _plain_length(sheet: Sheet, one: Odd) -> bool:
    return isinstance(sheet.value(one.name), Length)


def _number(sheet: Sheet, name: str) -> float:
    value = sheet.value(name)
    assert value is not None
    return float(base(value))


def _shown(like: Quantity, number: float) -> str:
    return show(with_base(like, Fraction(number)))


def _range(like: Quantity, low: float, high: float) -> str:
    """`95.1 and 103.5 cm`: two values with one unit, without inches, which stand beside the middle."""
    one, other = (_shown(like, x).split(" (")[0] for x in (low, high))
    number, _, unit = one.partition(" ")
    return f"{number} and {other}" if other.endswith(f" {unit}") else f"{one} and {other}"


def _caution(sheet: Sheet, one: Odd, other: Odd | None) -> Query:
    entry = sheet.entries[one.name]
    value = sheet.value(one.name)
    assert value is not None
    by = [f"the {name}" for name in one.by]
    beside = f"{', '.join(by[:-1])} and {by[-1]}" if len(by) > 1 else by[0]
    message = (
        f"The {one.name} is {show(value)} here. Beside {beside} of this sheet it would be about "
        f"{_shown(value, one.middle)}, nine times in ten between {_range(value, one.low, one.high)}."
    )
    reading = entry.readings[""][0] if _single(entry) else None
    help_ = "Please measure it once more."
    answers: tuple[Answer, ...] = ()
    if other is not None:
        help_ = (
            f"The {other.name} is {show(sheet.entries[other.name].value() or value)}: the two would fit if each "
            "stood in the other’s line."
        )
    elif entry.measure is not None and isinstance(value, Length):
        answers = _answers(entry, value, one)
        if answers:
            # What is only guessed is said first, since it is what the taker will recognise.
            help_ = f"Was it {answers[0].say}? If not, please measure it once more."
    if reading is not None:
        help_ += f" If it is right, write “{AS_TAKEN}” behind it: {reading.text} {AS_TAKEN}."
    return caution(
        "value-unlike-others",
        message,
        entry.span if reading is None else reading.span,
        help=help_,
        answers=answers if reading is not None else (),
    )


def _single(entry: Entry) -> bool:
    return list(entry.readings) == [""] and len(entry.readings[""]) == 1


def _answers(entry: Entry, value: Length, one: Odd) -> tuple[Answer, ...]:
    from tapewright.measures.model import NINE_IN_TEN
    from tapewright.measures.slips import guesses

    if entry.measure is None:
        return ()
    spread = (log(one.high) - log(one.low)) / (2 * NINE_IN_TEN)
    unit = value.unit if value.unit.size else CM

    def misfit(mm: float) -> float:
        return (log(mm) - log(one.middle)) / spread

    found = []
    for guess in guesses(value.mm, unit, entry.measure, misfit):
        text = in_unit(guess.mm / unit.mm, unit)
        found.append(Answer(f"{text}, {guess.slip}", text))
    return tuple(found)

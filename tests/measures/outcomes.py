"""How well the sheet is read as a whole: estimates and slips, on people no model was fitted on.

The people are the trial half (odd places) of both surveys; the models were fitted on the other. A slip is
made in a true value, one at a time, and it is caught when the table's first doubt is about that very value.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import numpy as np
import numpy.typing as npt
from fitting.file import TWENTY
from fitting.fit import AS_IN_2012, Fitted, apart, fit
from fitting.people import of_1988, of_2012

from tapewright.measures import Entry, Figure, Reading, Sheet, catalogue, look_together
from tapewright.measures.model import doubt, foretelling, judge, names, taken_in_1988, taken_in_2012
from tapewright.measures.values import doubt as doubt_of_one
from tapewright.units import CM, Length
from tests.survey import Half, Sex

Column = npt.NDArray[np.float64]

GROUP = {Sex.WOMEN: "women", Sex.MEN: "men"}
FIGURE = {Sex.WOMEN: Figure.WOMAN, Sex.MEN: Figure.MAN}

FROM_2012 = ("stature", "bust", "navel waist", "hip")
OF_2012 = ("mid neck", "shoulder", "nape to navel", "arm", "bent arm", "wrist", "thigh", "leg")
"""Neck, shoulder, back length, arm, bent arm, wrist, thigh and leg, as that survey has them: its waist and its
back length are the navel's."""

FROM_1988 = ("stature", "bust", "waist", "hip")
OF_1988 = (
    "neck base", "shoulder", "shoulders round the arms", "high bust", "under bust", "scye girth", "cross back",
    "low cross back", "bust point to bust point", "nape to waist", "front neck to waist", "neck to bust point",
    "nape to bust point", "scye depth", "nape height", "waist to floor", "fork round", "leg", "thigh", "knee",
    "calf", "bent arm", "elbow", "wrist", "arm",
)  # fmt: skip
"""Twenty-five measures that a cutter uses, all that the survey took as we do. Which twenty-five is our choice."""


@dataclass(frozen=True, slots=True)
class Missed:
    """Estimates of some measures: mean error in mm of each, and the share of true values in the range."""

    errors: Mapping[str, float]
    covered: Mapping[str, float]
    plain: float

    @property
    def error(self) -> float:
        """The mean over the measures, in mm."""
        return float(np.mean(list(self.errors.values())))

    @property
    def cover(self) -> float:
        return float(np.mean(list(self.covered.values())))


def _rows(table: Mapping[str, Column], wanted: Sequence[str]) -> npt.NDArray[np.float64]:
    return np.stack([table[name] for name in wanted], axis=1)


def _survey(year: int, sex: Sex, half: Half) -> tuple[dict[str, Column], Mapping[str, float]]:
    """The people of one survey, as logarithms, and by how much it takes each measure larger than the model."""
    if year == 2012:
        return of_2012(sex, half), taken_in_2012(GROUP[sex])
    return of_1988(sex, half), taken_in_1988(GROUP[sex])


def _plain(year: int, sex: Sex, known: Sequence[str], wanted: Sequence[str], trial: Half) -> float:
    """The mean error of a plain model: each measure by itself, a straight line in the logarithms."""
    fitting = Half.FITTING if trial is Half.TRIAL else Half.TRIAL
    there, here = _survey(year, sex, fitting)[0], _survey(year, sex, trial)[0]

    def ones(table: Mapping[str, Column]) -> npt.NDArray[np.float64]:
        return np.column_stack([np.ones(len(table["hip"])), _rows(table, known)])

    line = np.linalg.lstsq(ones(there), _rows(there, wanted), rcond=None)[0]
    return float(np.abs(np.exp(ones(here) @ line) - np.exp(_rows(here, wanted))).mean())


@cache
def missed(year: int, sex: Sex) -> Missed:
    """The shipped model on the trial half of a survey."""
    known, wanted = (FROM_2012, OF_2012) if year == 2012 else (FROM_1988, OF_1988)
    table, larger = _survey(year, sex, Half.TRIAL)
    off = np.array([larger.get(name, 0.0) for name in wanted])
    how = foretelling(GROUP[sex], known, wanted)
    middles = how.middles(_rows(table, known)) + off
    true = _rows(table, wanted)
    errors = np.abs(np.exp(middles) - np.exp(true)).mean(axis=0)
    inside = (np.abs(middles - true) <= 1.6448536269514722 * how.spread).mean(axis=0)
    return Missed(
        dict(zip(wanted, map(float, errors), strict=True)),
        dict(zip(wanted, map(float, inside), strict=True)),
        _plain(year, sex, known, wanted, Half.TRIAL),
    )


@cache
def crossed(sex: Sex) -> float:
    """The mean error on 2012 with each half of the rows tried by a model fitted on the other."""
    errors = []
    for fitting, trial in ((Half.FITTING, Half.TRIAL), (Half.TRIAL, Half.FITTING)):
        fitted = fit(GROUP[sex], fitting)
        by = apart(sex, fitting)
        table = of_2012(sex, trial)
        middles = _foretold(fitted, FROM_2012, OF_2012, _rows(table, FROM_2012))
        off = np.array([0.0 if name in AS_IN_2012 else by[name] for name in OF_2012])
        errors.append(np.abs(np.exp(middles + off) - np.exp(_rows(table, OF_2012))))
    return float(np.concatenate(errors).mean())


def _foretold(
    fitted: Fitted, known: Sequence[str], wanted: Sequence[str], rows: npt.NDArray[np.float64]
) -> npt.NDArray[np.float64]:
    k = [fitted.names.index(name) for name in known]
    w = [fitted.names.index(name) for name in wanted]
    share = np.linalg.solve(fitted.covariance[np.ix_(k, k)], fitted.covariance[np.ix_(k, w)])
    return np.asarray(fitted.mean[w] + (rows - fitted.mean[k]) @ share)


# --- slips -------------------------------------------------------------------------------------------------


def millimetres(sex: Sex) -> npt.NDArray[np.float64]:
    """The usual sheet of twenty of everybody in the trial half of 1988, in mm: (rows, 20)."""
    return np.exp(_rows(of_1988(sex, Half.TRIAL), TWENTY[GROUP[sex]]))


def sheet_of(sex: Sex, values: Sequence[float]) -> Sheet:
    """A sheet of twenty in centimetres, to the millimetre."""
    entries = {}
    for model_name, mm in zip(TWENTY[GROUP[sex]], values, strict=True):
        name = "chest" if model_name == "bust" and sex is Sex.MEN else model_name
        number = Fraction(round(mm))
        reading = Reading(Length(number, CM), f"{float(number) / 10:g}")
        entries[name] = Entry(name, catalogue()[name], {"": (reading,)})
    return Sheet("somebody", FIGURE[sex], unit=CM, entries=entries)


def asked_about(sheet: Sheet) -> list[str]:
    """The measures of a sheet that are asked about, by itself or beside the others."""
    unusual = {}
    for name, entry in sheet.entries.items():
        measure = entry.measure
        assert measure is not None
        query = doubt_of_one(entry.readings[""][0], measure, sheet.figure)
        if query is not None:
            unusual[name] = query
    impossible = [name for name, query in unusual.items() if query.kind == "question"]
    said = [
        q.message.split(" is ")[0].removeprefix("The ")
        for q in look_together(sheet, unusual)
        if q.kind != "note"
    ]
    return list(dict.fromkeys([*impossible, *said]))


@cache
def false_alarms(sex: Sex) -> float:
    """How many of the true values of the trial half are asked about, in a hundred entries."""
    rows = millimetres(sex)
    asked = sum(len(asked_about(sheet_of(sex, row))) for row in rows)
    return 100 * asked / rows.size


def _turned(mm: float) -> float | None:
    """The last two figures of the whole centimetres exchanged; None where that changes nothing."""
    whole, rest = divmod(round(mm), 10)
    tens, ones = divmod(whole % 100, 10)
    return None if tens == ones else float((whole - whole % 100 + ones * 10 + tens) * 10 + rest)


SLIPS: Mapping[str, Callable[[float], list[float | None]]] = {
    "half of a girth": lambda mm: [mm / 2],
    "inches for centimetres": lambda mm: [mm / 2.54],
    "two figures turned round": lambda mm: [_turned(mm)],
    "10 cm off": lambda mm: [mm + 100, mm - 100],
    "5 cm off": lambda mm: [mm + 50, mm - 50],
}
BOUNDS = {
    "half of a girth": 98.0,
    "inches for centimetres": 98.0,
    "two figures turned round": 98.0,
    "10 cm off": 95.0,
    "5 cm off": 75.0,
}


@dataclass(frozen=True, slots=True)
class Caught:
    """Of slips made in `tried` values, how many in a hundred are caught, and by measure."""

    tried: int
    share: float
    by_measure: Mapping[str, float]


@cache
def caught(sex: Sex, slip: str) -> Caught:
    """One slip made in every value of everybody in the trial half it can be made in, one at a time."""
    every = TWENTY[GROUP[sex]]
    rows = millimetres(sex)
    how = judge(GROUP[sex], every)
    limit = doubt(len(every))
    logs = np.log(np.rint(rows))
    found: dict[str, list[bool]] = {}
    for j, name in enumerate(every):
        measure = catalogue()["chest" if name == "bust" and sex is Sex.MEN else name]
        if slip == "half of a girth" and measure.sort != "girth":
            continue
        low, high = (float(x) for x in measure.possible)
        for slipped in zip(*(SLIPS[slip](float(mm)) for mm in rows[:, j]), strict=True):
            at = [i for i, mm in enumerate(slipped) if mm is not None and mm > 0]
            changed = logs[at].copy()
            changed[:, j] = np.log([slipped[i] for i in at])
            misfits = np.abs(how.misfits(changed))
            first = (misfits.argmax(axis=1) == j) & (misfits[:, j] > limit)
            past = np.array([not low <= float(slipped[i] or 0) <= high for i in at])
            found.setdefault(name, []).extend((first | past).tolist())
    every_one = [one for ones in found.values() for one in ones]
    return Caught(
        len(every_one),
        100 * float(np.mean(every_one)),
        {n: 100 * float(np.mean(v)) for n, v in found.items()},
    )


def exchanges(sex: Sex) -> Iterator[tuple[Sheet, str, str]]:
    """Two lines of the trial sheets exchanged, that lie 3 cm apart at least: one pair a row."""
    every = TWENTY[GROUP[sex]]
    chance = np.random.default_rng(1988)
    for row in millimetres(sex)[::3]:
        while True:
            i, j = chance.choice(len(every), 2, replace=False)
            if abs(row[i] - row[j]) >= 30:
                break
        values = row.copy()
        values[i], values[j] = row[j], row[i]
        said = ["chest" if n == "bust" and sex is Sex.MEN else n for n in (every[i], every[j])]
        yield sheet_of(sex, values), said[0], said[1]


@cache
def exchanged(sex: Sex) -> float:
    """Of pairs of lines exchanged, in how many of a hundred one of the two at least is asked about."""
    found = [bool({one, other} & set(asked_about(sheet))) for sheet, one, other in exchanges(sex)]
    return 100 * float(np.mean(found))


def known_to_the_models() -> int:
    """How many measures of the catalogue the models know."""
    return len([name for name in names() if name in catalogue()])

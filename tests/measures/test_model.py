"""The models of the measures: fitted as it is said, small, and the same for a row whoever stands beside it."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from fitting.file import MODEL, written
from fitting.nominal import FIGURES, NOMINAL, nominal
from fitting.people import of_1988
from hypothesis import given
from hypothesis import strategies as st

from tapewright.measures import catalogue
from tapewright.measures.model import USUAL, doubt, foretelling, judge, model, names, nearest
from tests.survey import Half, Sex

GROUPS = ("women", "men", "both")
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def test_the_file_is_what_the_fitting_writes() -> None:
    """`model.json` is, to its last digit, what `python -m fitting` comes to from the fitting half."""
    now, there = written(), MODEL.read_text(encoding="utf-8")
    assert NUMBER.sub("", now) == NUMBER.sub("", there)
    for one, other in zip(NUMBER.findall(now), NUMBER.findall(there), strict=True):
        assert abs(float(one) - float(other)) <= 1.01 * 10.0 ** -len(one.partition(".")[2])


@pytest.mark.parametrize("sex", list(Sex))
def test_the_nominal_figures_are_what_the_fitting_writes(sex: Sex) -> None:
    """Each nominal sheet is the medians of the survey, recomputed."""
    assert (NOMINAL / f"nominal-{FIGURES[sex]}.yaml").read_text(encoding="utf-8") == nominal(sex)


def test_the_file_is_small_and_read_only_when_it_is_wanted() -> None:
    """Under 40 kB; neither it nor numpy is loaded by naming the package or by reading a sheet of two measures."""
    assert MODEL.stat().st_size < 40_000
    assert set(json.loads(MODEL.read_text(encoding="utf-8"))["groups"]) == set(GROUPS)
    code = (
        "import sys\nfrom tapewright.measures import read_sheet\nfrom tapewright.diagnostics import Source\n"
        "read_sheet(Source('s', 'wearer: A\\nfigure: woman\\nunit: cm\\nmeasures:\\n  waist: 70\\n  hip: 96\\n'))\n"
        "from tapewright.measures.model import _data\nassert _data.cache_info().currsize == 0\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize("group", GROUPS)
def test_the_rounded_models_are_sound(group: str) -> None:
    """Every model is a law of probability: symmetrical, and no combination of measures without spread."""
    of = model(group)
    assert np.array_equal(of.covariance, of.covariance.T)
    spread = np.sqrt(np.diag(of.covariance))
    lowest = np.linalg.eigvalsh(of.covariance / np.outer(spread, spread))[0]
    assert lowest > 1e-4
    for name in names():
        if name in catalogue():
            measure = catalogue()[name]
            middle = of.middle(name) * (1 if measure.kind == "length" else float(measure.unit.size))
            assert float(measure.low) < middle < float(measure.high)


def test_women_and_men_count_alike_in_both() -> None:
    """The middle of `both` lies half-way between the middles of women and men, though more men were measured."""
    for name in ("stature", "hip", "arm", "navel waist"):
        women, men, both = (np.log(model(group).middle(name)) for group in GROUPS)
        assert abs(both - (women + men) / 2) < 1e-3


def test_with_everything_known_but_one_the_judge_and_the_foretelling_agree() -> None:
    """The misfit of a value is its distance from what the others foretell, in the spread that is left.

    Two ways to one figure: the inverse of the covariance, and the conditional law (any textbook of the normal law).
    """
    known = ("stature", "bust", "waist", "hip", "arm", "neck base")
    rows = np.stack([of_1988(Sex.WOMEN, Half.TRIAL)[name] for name in known], axis=1)[:50]
    misfits = judge("women", known).misfits(rows)
    for j, name in enumerate(known):
        others = tuple(n for n in known if n != name)
        how = foretelling("women", others, (name,))
        middle = how.middles(np.delete(rows, j, axis=1))[:, 0]
        assert np.allclose(misfits[:, j], (rows[:, j] - middle) / how.spread[0], rtol=1e-8, atol=1e-8)


@given(st.permutations(range(40)), st.integers(1, 40))
def test_a_row_does_not_depend_on_its_neighbours(order: list[int], count: int) -> None:
    """Alone, among others, shuffled: the same figures bit for bit."""
    known, wanted = ("stature", "bust", "waist", "hip"), ("arm", "scye depth", "leg")
    rows = np.stack([of_1988(Sex.WOMEN, Half.TRIAL)[name] for name in known], axis=1)[:40]
    how, by = foretelling("women", known, wanted), judge("women", known)
    middles, misfits = how.middles(rows), by.misfits(rows)
    some = order[:count]
    assert np.array_equal(how.middles(rows[some]), middles[some])
    assert np.array_equal(by.misfits(rows[some]), misfits[some])
    assert np.array_equal(how.middles(rows[:1]), middles[:1])


def test_a_longer_sheet_is_not_asked_about_oftener() -> None:
    """The limit rises with the number of entries, so that a sheet of fifty is doubted as often as one of twenty."""
    assert doubt(5) == doubt(USUAL)
    assert doubt(50) > doubt(30) > doubt(USUAL)


def test_the_nearest_measures_are_those_a_cutter_would_name() -> None:
    """The wrist goes with the hand and the forearm, the leg with the heights (common practice, no source)."""
    known = tuple(n for n in names() if n not in {"wrist", "leg"})
    assert set(nearest("women", known, "wrist")) <= {"hand round", "forearm", "elbow", "hand", "weight"}
    assert set(nearest("men", known, "leg")) <= {"waist to floor", "hip to floor", "knee to floor", "nape height", "waist to knee"}  # fmt: skip


def test_the_fitting_half_never_meets_the_trial_half() -> None:
    """The rows of the two halves are other rows, in both surveys."""
    for sex in Sex:
        fitting, trial = of_1988(sex, Half.FITTING)["stature"], of_1988(sex, Half.TRIAL)["stature"]
        assert len(fitting) - len(trial) in {0, 1}
    assert Path(MODEL).name == "model.json"

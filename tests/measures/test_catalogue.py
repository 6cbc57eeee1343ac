"""The catalogue of measures, its ranges recomputed from two public surveys."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from tapewright.measures import (
    GROUPS,
    catalogue,
    in_turn,
    measure_called,
    measures_meant,
    near_measures,
)
from tapewright.units import UnitKind
from tests.survey import Column, Sex, columns_2012, survey

IN_2012 = {
    "stature": "stature",
    "weight": "weight_kg",
    "head": "headcircumference",
    "mid neck": "neckcircumference",
    "neck base": "neckcircumferencebase",
    "shoulder": "shoulderlength",
    "shoulders round the arms": "shouldercircumference",
    "navel waist": "waistcircumference",
    "hip": "buttockcircumference",
    "trunk round": "verticaltrunkcircumferenceusa",
    "cross back": "interscyeii",
    "low cross back": "interscyei",
    "nape height": "cervicaleheight",
    "hip to floor": "buttockheight",
    "leg": "crotchheight",
    "knee to floor": "kneeheightmidpatella",
    "thigh": "thighcircumference",
    "calf": "calfcircumference",
    "ankle": "anklecircumference",
    "heel and instep": "heelanklecircumference",
    "foot": "footlength",
    "foot round": "balloffootcircumference",
    "bent arm": "bicepscircumferenceflexed",
    "forearm": "forearmcircumferenceflexed",
    "wrist": "wristcircumference",
    "hand round": "handcircumference",
    "hand": "handlength",
    "arm": "sleeveoutseam",
    "shoulder to elbow": "shoulderelbowlength",
    "nape to wrist": "sleevelengthspinewrist",
    "bust": "chestcircumference",
    "chest": "chestcircumference",
}
"""Measures the 2012 survey has as well, by its own column."""

SURVEYED = sorted(name for name in catalogue() if any(name in survey(sex) for sex in Sex))


def _people(name: str) -> list[Column]:
    """Every group of people measured for a name, in the unit of the catalogue."""
    groups = [survey(sex)[name] for sex in Sex if name in survey(sex)]
    if name in IN_2012:
        groups += [columns_2012(sex)[IN_2012[name]] for sex in Sex if sex is Sex.MEN or name != "chest"]
    if name == "shoulder slope":
        return [np.degrees(g) for g in groups]
    return groups if name == "weight" else [g / 10 for g in groups]


@pytest.mark.parametrize("name", SURVEYED)
def test_ordinary_ranges_are_those_of_the_surveys(name: str) -> None:
    """Each range is the 1st percentile of the smaller group and the 99th of the larger, rounded outward to a
    half (a degree for the slope). Source: ANSUR 1988 and 2012, all rows (tests/data/README.md).
    """
    measure = catalogue()[name]
    low = min(float(np.percentile(group, 1)) for group in _people(name))
    high = max(float(np.percentile(group, 99)) for group in _people(name))
    step = 1.0 if measure.kind is UnitKind.ANGLE else 0.55
    assert low - step <= float(measure.low / measure.unit.size) <= low + 0.05
    assert high - 0.05 <= float(measure.high / measure.unit.size) <= high + step


def test_every_range_said_to_be_surveyed_was_checked() -> None:
    """A row that names the surveys as its source is among those recomputed, and the others say otherwise."""
    said = {m.name for m in catalogue().values() if "survey" in m.source}
    assert said == set(SURVEYED)
    assert len(SURVEYED) == 52


def test_the_catalogue_is_whole() -> None:
    """Seventy-two measures, each with a name a lesson can hold, a term, a way of taking it and a range."""
    assert len(catalogue()) == 72
    for name, measure in catalogue().items():
        assert name == measure.name == name.lower()
        assert all(word.isalpha() for word in name.split(" "))
        assert measure.term
        assert measure.how.endswith(".")
        assert measure.low < measure.high
        assert measure.apart > 0
        assert measure.status in {"read", "memory"}
        assert (measure.may_be == "positive") == (measure.low > 0 and name != "waist hollow")


def test_what_is_possible_is_half_and_twice_the_middle() -> None:
    """Half and twice the middle of the range for lengths; wider for a weight, and for what may be nothing."""
    assert catalogue()["waist"].possible == (Fraction(410), Fraction(1640))
    assert catalogue()["nape to plumb"].possible == (Fraction(-120), Fraction(240))
    low, high = catalogue()["weight"].possible
    assert low < 30
    assert high > 250
    for measure in catalogue().values():
        assert measure.possible[0] <= measure.low < measure.high <= measure.possible[1]


@pytest.mark.parametrize("sex", list(Sex))
def test_nobody_in_the_survey_is_past_believing(sex: Sex) -> None:
    """Not one of the 3,385 people of 1988 has a measure that would be a question (ANSUR 1988)."""
    for name, column in survey(sex).items():
        measure = catalogue()[name]
        values = np.degrees(column) if measure.kind is UnitKind.ANGLE else column
        low, high = (float(x) for x in measure.possible)
        assert low <= values.min()
        assert values.max() <= high


def test_names_are_found_exactly_or_offered() -> None:
    """A name is its own key; a slip is offered its neighbours and never taken for one of them."""
    found = measure_called("  Nape  to waist")
    assert found is not None
    assert found.name == "nape to waist"
    assert measure_called("nape to wiast") is None
    assert near_measures("nape to wiast")[0] == "nape to waist"
    assert near_measures("nape_to-waist") == ("nape to waist",)
    assert near_measures("xylophone") == ()


def test_three_waists_are_three_measures() -> None:
    """The natural waist, the navel waist and the high waist never share a name (measures of the trade)."""
    assert {"waist", "navel waist", "high waist"} <= catalogue().keys()
    assert catalogue()["waist"].standard == ""


def test_other_words_of_the_trade_mean_one_measure_or_several() -> None:
    """`Hips` is the hip; `waist line` and `neck` may be several measures, and none is chosen (common practice)."""
    assert measures_meant("Hips") == ("hip",)
    assert measures_meant("inside_leg") == ("leg",)
    assert measures_meant("waist-line") == ("waist", "navel waist", "high waist")
    assert set(measures_meant("neck")) == {"mid neck", "neck base"}
    assert measures_meant("xylophone") == ()
    assert near_measures("hipps") == ("hip",)


def test_another_word_is_never_a_name_and_every_measure_has_one() -> None:
    """No synonym is itself a name of the catalogue, or it would mean two things without being asked about."""
    for measure in catalogue().values():
        assert measure.also
        assert not set(measure.also) & set(catalogue())
        for word in measure.also:
            assert word == " ".join(word.casefold().split())
            assert measure.name in measures_meant(word)


def test_every_measure_has_its_own_turn_on_a_measuring_day() -> None:
    """Turns run from 1 to 72, group by group in the order of the day, and the waist is tied before any length."""
    day = sorted(catalogue().values(), key=lambda m: m.turn)
    assert [m.turn for m in day] == list(range(1, 73))
    groups = list(dict.fromkeys(m.group for m in day))
    assert groups == [group for group in GROUPS if group in groups]
    assert in_turn(["leg", "my own", "bust", "waist"]) == ("waist", "bust", "leg", "my own")
    tied = catalogue()["waist"].turn
    assert all(m.turn > tied for m in day if "tied waist" in m.how and m.name != "waist")


def test_what_sort_a_measure_is_agrees_with_its_kind() -> None:
    """Angles and weights are no lengths; what is all round is called a girth in its own words or is one."""
    for measure in catalogue().values():
        assert (measure.sort == "angle") == (measure.kind is UnitKind.ANGLE)
        assert (measure.sort == "weight") == (measure.kind is UnitKind.WEIGHT)
        if "girth" in measure.term.lower():
            assert measure.sort == "girth"

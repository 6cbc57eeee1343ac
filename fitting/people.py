"""The people of both surveys under the names of our measures, as logarithms, one half of the rows at a time.

The two surveys do not take every measure alike (`tests/data/README.md`): the 1988 one has the natural waist
and what hangs from it, the 2012 one has newer and heavier people. Millimetres, kilograms, degrees.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import numpy.typing as npt
from tests.survey import Half, Sex, columns, columns_2012, survey

Column = npt.NDArray[np.float64]

IN_2012: Mapping[str, str] = {
    "stature": "stature",
    "weight": "weight_kg",
    "head": "headcircumference",
    "mid neck": "neckcircumference",
    "neck base": "neckcircumferencebase",
    "shoulder": "shoulderlength",
    "shoulders round the arms": "shouldercircumference",
    "bust": "chestcircumference",
    "navel waist": "waistcircumference",
    "hip": "buttockcircumference",
    "trunk round": "verticaltrunkcircumferenceusa",
    "cross back": "interscyeii",
    "low cross back": "interscyei",
    "nape to navel": "waistbacklength",
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
}
"""Measures that the 2012 survey has as well, by its own column. `bust` is the chest of men, too."""

ASIDE = ("nape to navel",)
"""In both surveys, and no measure of ours: kept because the back length of 2012 ends at the navel."""


def of_1988(sex: Sex, half: Half) -> dict[str, Column]:
    """Logarithms of the measures of 1987-88."""
    found = dict(survey(sex, half))
    if sex is Sex.MEN:
        found["bust"] = found.pop("chest")
    found["shoulder slope"] = np.degrees(found["shoulder slope"])
    first = 0 if half is Half.FITTING else 1
    found["nape to navel"] = columns(sex)["waist_omph_lnth"][first::2]
    return {name: np.log(column) for name, column in found.items()}


def of_2012(sex: Sex, half: Half) -> dict[str, Column]:
    """Logarithms of the measures of 2010-12, by the columns of that survey."""
    first = 0 if half is Half.FITTING else 1
    table = columns_2012(sex)
    return {name: np.log(table[column][first::2]) for name, column in IN_2012.items()}

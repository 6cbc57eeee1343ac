"""The people of the 1988 survey under the names of our measures, in two named halves.

The FITTING half may set a rule or a constant of ours; the TRIAL half never does, and every claim about how
a draft suits real bodies is made on it. A row's half is its 0-based place among the rows of its sex: even
places fit, odd places try. The data, its makers and its limits are in `data/README.md`.
"""

from __future__ import annotations

import csv
import gzip
from collections.abc import Callable, Mapping
from enum import StrEnum
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Column: TypeAlias = npt.NDArray[np.float64]

_DATA = Path(__file__).parent / "data"


class Sex(StrEnum):
    """The survey's two groups of rows."""

    WOMEN = "F"
    MEN = "M"


class Half(StrEnum):
    """The two named halves of the rows of each sex."""

    FITTING = "even places"
    TRIAL = "odd places"


_SAME: Mapping[str, str] = {
    "stature": "stature",
    "head": "head_circ",
    "mid neck": "neck_circ_over_larynx",
    "neck base": "neck_circ_base",
    "shoulder": "shoulder_lnth",
    "shoulders round the arms": "shoulder_circ",
    "high bust": "chest_circ_at_scye",
    "under bust": "chest_circ_below_bust",
    "waist": "waist_circ_natural",
    "navel waist": "waist_circ_omphalion",
    "hip": "buttock_circ",
    "trunk round": "vertical_trunk_circ",
    "scye girth": "scye_circ_over_acromion",
    "cross back": "intrscy_mid_dist",
    "low cross back": "intrscy_dist",
    "bust point to bust point": "bustpoint_to_bustpoint_brth",
    "nape to waist": "waist_nat_lnth",
    "front neck to waist": "wst_nat_front",
    "neck to bust point": "neck_to_bustpoint_lnth",
    "scye depth": "scye_depth",
    "nape height": "cervic_ht",
    "waist to floor": "waist_ht_natural",
    "hip to floor": "butt_ht",
    "fork round": "crotch_nat_waist",
    "leg": "crotch_ht",
    "knee to floor": "patella_mid_ht",
    "thigh": "thigh_circ_proximal",
    "knee": "knee_circ",
    "calf": "calf_circ",
    "ankle": "ankle_circ",
    "heel and instep": "heel_ankle_circ",
    "foot": "foot_lnth",
    "foot round": "foot_circ",
    "upper arm": "arm_circ_axillary",
    "bent arm": "armcircbcps_flex",
    "elbow": "elbow_circ_extended",
    "forearm": "forearm_circ_flexed",
    "wrist": "wrist_circ_stylion",
    "hand round": "hand_circ_at_metacarpale",
    "hand": "hand_lnth",
    "arm": "sleeve_outseam_lnth",
    "shoulder to elbow": "shoulder_elbow_lnth",
    "nape to wrist": "spine_to_wrist_lnth",
}

Columns: TypeAlias = Mapping[str, Column]
_MADE: Mapping[str, Callable[[Columns], Column]] = {
    "shoulder slope": lambda c: np.arcsin((c["neck_ht_lateral"] - c["acromion_ht"]) / c["shoulder_lnth"]),
    "nape to bust point": lambda c: c["strap_lnth"] / 2,
    "underarm to waist": lambda c: c["axilla_ht"] - c["waist_ht_natural"],
    "waist to hip": lambda c: c["waist_ht_natural"] - c["butt_ht"],
    "rise": lambda c: c["waist_ht_natural"] - c["crotch_ht"],
    "waist to knee": lambda c: c["waist_ht_natural"] - c["patella_mid_ht"],
}

STAND_INS = frozenset(
    {"nape to wrist", "underarm to waist", "waist to hip", "rise", "waist to knee", "upper arm"}
)
"""Measures the survey took another way, a little out from how our catalogue takes them."""


@cache
def columns(sex: Sex) -> MappingProxyType[str, Column]:
    """Every column of the 1988 survey as it was published, by its own name, for one sex: mm, years, kg."""
    return MappingProxyType(_read("ansur1988.csv.gz", sex))


@cache
def columns_2012(sex: Sex) -> MappingProxyType[str, Column]:
    """The same of the 2012 survey, whose columns have other names and some other definitions."""
    return MappingProxyType(_read("ansur2012.csv.gz", sex))


def _read(file: str, sex: Sex) -> dict[str, Column]:
    with gzip.open(_DATA / file, "rt", encoding="utf-8", newline="") as text:
        rows = [row for row in csv.DictReader(text) if row["sex"] == sex]
    names = [name for name in rows[0] if name != "sex"]
    table = {name: np.array([float(row[name]) for row in rows]) for name in names}
    for column in table.values():
        column.setflags(write=False)
    return table


@cache
def survey(sex: Sex, half: Half | None = None) -> MappingProxyType[str, Column]:
    """Measures by our names, one value a row: mm, the shoulder slope in radians, the weight in kg.

    The girth at the bust points is the `bust` of women and the `chest` of men. All rows without a half.
    """
    table = columns(sex)
    measures = {name: table[column] for name, column in _SAME.items()}
    measures |= {name: make(table) for name, make in _MADE.items()}
    measures["weight"] = table["weight_kg"]
    measures["bust" if sex is Sex.WOMEN else "chest"] = table["chest_circ"]
    if half is None:
        return MappingProxyType(measures)
    first = 0 if half is Half.FITTING else 1
    return MappingProxyType({name: column[first::2] for name, column in measures.items()})


def row_in_survey(half: Half, row: int) -> int:
    """The 0-based place among all rows of its sex of a 0-based row of one half."""
    return 2 * row + (0 if half is Half.FITTING else 1)

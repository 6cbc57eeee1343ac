"""One log-normal model a group of people: what every measure of a body says about every other.

The method, all of it. The logarithms of the measures are taken as jointly normal; then what is known of a
body gives the middle and the spread of what is not known by the usual formulas. The two surveys are joined
so that each gives what it is good for:

1. Where both took a measure, they differ by a constant share (another landmark, another hand). It is
   found by least squares on both surveys together, with stature, bust, navel waist, hip and weight as the
   common ground, and taken off, so that the model speaks the way one of the two takes it: the way of 1988,
   on which the shipped lessons were fitted as well, but for the mid neck, whose level is that of 2012.
2. The measures in both surveys get their means and their variances from the people of 2012.
3. The measures that only 1988 has (the natural waist and all that hangs from it) follow from those in both
   by linear regression on the people of 1988, with the spread that it leaves.
4. Measures that the survey took a little otherwise than we do get that much more spread (`OTHERWISE`).

Only the fitting half of the rows is used. `both` counts women and men alike, however many were measured.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from tests.survey import Half, Sex

from fitting.people import Column, of_1988, of_2012

Matrix = npt.NDArray[np.float64]

GROUND = ("stature", "bust", "navel waist", "hip", "weight")
"""Measures that both surveys took alike: what the others are compared on."""

AS_IN_2012 = ("mid neck",)

OTHERWISE: Mapping[str, float] = {
    "underarm to waist": 10.0,
    "waist to hip": 10.0,
    "rise": 15.0,
    "waist to knee": 10.0,
    "nape to wrist": 10.0,
    "upper arm": 8.0,
}
"""How far, in mm (one standard deviation), our way of taking a measure may lie from the survey's stand-in:
a tape on the body against the difference of two heights, a stool against standing, another level. Judgement.
"""

GROUPS: Mapping[str, tuple[Sex, ...]] = {
    "women": (Sex.WOMEN,),
    "men": (Sex.MEN,),
    "both": (Sex.WOMEN, Sex.MEN),
}


@dataclass(frozen=True, slots=True, eq=False)
class Fitted:
    """The model of a group: the mean and the covariance of the logarithms, in the order of `names`."""

    names: tuple[str, ...]
    mean: Column
    covariance: Matrix


def _matrix(table: Mapping[str, Column], names: Sequence[str]) -> Matrix:
    return np.stack([table[name] for name in names], axis=1)


def apart(sex: Sex, half: Half) -> dict[str, float]:
    """By what share (as a logarithm) 2012 takes each measure larger than 1988 on the same body."""
    old, new = of_1988(sex, half), of_2012(sex, half)
    ground = np.concatenate([_matrix(new, GROUND), _matrix(old, GROUND)])
    is_new = np.concatenate([np.ones(len(new["hip"])), np.zeros(len(old["hip"]))])
    known = np.column_stack([np.ones(len(ground)), ground, is_new])
    found: dict[str, float] = {}
    for name in new:
        if name in GROUND:
            found[name] = 0.0
            continue
        told = np.concatenate([new[name], old[name]])
        found[name] = float(np.linalg.lstsq(known, told, rcond=None)[0][-1])
    return found


def _weighted(rows: Matrix, weights: Column) -> tuple[Column, Matrix]:
    share = weights / weights.sum()
    mean = share @ rows
    left = rows - mean
    # As many degrees of freedom are lost as one sample's own mean takes.
    return mean, (left.T * share) @ left / (1 - float(share @ share))


def fit(group: str, half: Half = Half.FITTING) -> Fitted:
    """The model of `women`, `men` or `both`, from one half of the rows of both surveys."""
    new_rows, old_rows, alone_rows, new_weights, old_weights = [], [], [], [], []
    shared: list[str] = []
    alone: list[str] = []
    for sex in GROUPS[group]:
        old, new = of_1988(sex, half), of_2012(sex, half)
        by = apart(sex, half)
        shared = list(new)
        alone = [name for name in old if name not in new]
        off = np.array([0.0 if name in AS_IN_2012 else by[name] for name in shared])
        on = np.array([by[name] if name in AS_IN_2012 else 0.0 for name in shared])
        new_rows.append(_matrix(new, shared) - off)
        old_rows.append(_matrix(old, shared) + on)
        alone_rows.append(_matrix(old, alone))
        new_weights.append(np.full(len(new["hip"]), 1.0 / len(new["hip"])))
        old_weights.append(np.full(len(old["hip"]), 1.0 / len(old["hip"])))
    mean, covariance = _weighted(np.concatenate(new_rows), np.concatenate(new_weights))
    weights = np.sqrt(np.concatenate(old_weights))[:, None]
    known = np.concatenate(old_rows) - mean
    known = np.column_stack([np.ones(len(known)), known])
    told = np.concatenate(alone_rows)
    line = np.linalg.lstsq(known * weights, told * weights, rcond=None)[0]
    left = (told - known @ line) * weights
    free = 1 - known.shape[1] / len(known)
    spread = left.T @ left / float((weights**2).sum()) / free
    slopes = line[1:].T
    across = slopes @ covariance
    names = (*shared, *alone)
    middle = np.concatenate([mean, line[0]])
    whole = np.block([[covariance, across.T], [across, across @ slopes.T + spread]])
    for name, mm in OTHERWISE.items():
        i = names.index(name)
        whole[i, i] += (mm / np.exp(middle[i])) ** 2
    return Fitted(names, middle, whole)

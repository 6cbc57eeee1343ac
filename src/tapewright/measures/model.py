"""What the measures of a body say about each other: log-normal models of women, men and both.

Read from `model.json` the first time it is asked for, and not before. How it was fitted, on whom, and how
well it does stands in `docs/measures.md`; the fitting itself is `fitting/`, outside the package.

Values are arrays `(rows, names)` of logarithms, of millimetres, kilograms and degrees. A row's result does
not depend on the other rows, bit for bit: sums over names run in a fixed order, and no product of matrices
is taken over rows.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from statistics import NormalDist
from types import MappingProxyType
from typing import Any

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

_SCALE = 100_000
NINE_IN_TEN = 1.6448536269514722
"""So many spreads to either side of the middle hold nine in ten of a normal law."""


USUAL = 20
"""Entries of a usual sheet, on which `doubt` was settled."""


@cache
def _data() -> Mapping[str, Any]:
    read: Mapping[str, Any] = json.loads(
        (files("tapewright.measures") / "model.json").read_text(encoding="utf-8")
    )
    return read


def names() -> tuple[str, ...]:
    """Every measure that the models know; the chest is known as the bust."""
    return tuple(_data()["names"])


def aside() -> frozenset[str]:
    """Those of them that are no measures of the catalogue."""
    return frozenset(_data()["aside"])


def doubt(entries: int = USUAL) -> float:
    """How many spreads a value may stand from what the others foretell before it is asked about.

    A longer sheet is asked about no oftener for it: so many entries more, so much rarer each must be.
    """
    least = float(_data()["doubt"])
    if entries <= USUAL:
        return least
    law = NormalDist()
    return law.inv_cdf(1 - (1 - law.cdf(least)) * USUAL / entries)


def taken_in_2012(group: str) -> Mapping[str, float]:
    """By what share, as a logarithm, the survey of 2010-12 takes a measure larger than the model does."""
    by: Mapping[str, int] = _data()["taken in 2012"][group]
    same = frozenset(_data()["as in 2012"])
    return {name: 0.0 if name in same else share / _SCALE for name, share in by.items()}


def taken_in_1988(group: str) -> Mapping[str, float]:
    """The same of the survey of 1987-88."""
    by: Mapping[str, int] = _data()["taken in 2012"][group]
    return {name: -by.get(name, 0) / _SCALE for name in _data()["as in 2012"]}


@dataclass(frozen=True, slots=True, eq=False)
class Model:
    """The law of one group of people: means and covariance of logarithms."""

    group: str
    places: Mapping[str, int]
    mean: Floats
    covariance: Floats

    def knows(self, name: str) -> bool:
        return name in self.places

    def middle(self, name: str) -> float:
        """The middle of the group for a measure: mm, kg or degrees."""
        return float(np.exp(self.mean[self.places[name]]))


@cache
def model(group: str) -> Model:
    """The model of `women`, `men` or `both`."""
    data = _data()
    found = data["groups"][group]
    spread = np.array(found["spread"], dtype=np.float64) / _SCALE
    size = len(spread)
    together = np.eye(size)
    for i, row in enumerate(found["together"]):
        together[i, :i] = np.array(row, dtype=np.float64) / _SCALE
        together[:i, i] = together[i, :i]
    places = MappingProxyType({name: i for i, name in enumerate(data["names"])})
    mean = np.array(found["middle"], dtype=np.float64) / _SCALE
    return Model(group, places, mean, together * np.outer(spread, spread))


@dataclass(frozen=True, slots=True, eq=False)
class Foretelling:
    """How some measures foretell others: `share[i, j]` of known `i` in wanted `j`, and the spread left."""

    known_mean: Floats
    mean: Floats
    share: Floats
    spread: Floats

    def middles(self, known: Floats) -> Floats:
        """The middle of each wanted measure, as logarithms `(rows, wanted)`, from `known` `(rows, names)`."""
        found = np.broadcast_to(self.mean, (len(known), len(self.mean))).copy()
        for i in range(known.shape[1]):
            found += (known[:, i] - self.known_mean[i])[:, None] * self.share[i][None, :]
        return found


@lru_cache(maxsize=512)
def foretelling(group: str, known: tuple[str, ...], wanted: tuple[str, ...]) -> Foretelling:
    """From the known measures to the wanted ones; with nothing known, the group itself."""
    of = model(group)
    k = [of.places[name] for name in known]
    w = [of.places[name] for name in wanted]
    across = of.covariance[np.ix_(k, w)]
    share = np.zeros((0, len(w)))
    if k:
        share = np.asarray(np.linalg.solve(of.covariance[np.ix_(k, k)], across), dtype=np.float64)
    left = np.diag(of.covariance)[w] - (across * share).sum(axis=0)
    return Foretelling(of.mean[k], of.mean[w], share, np.sqrt(left))


@dataclass(frozen=True, slots=True, eq=False)
class Judge:
    """How each of some measures stands beside all the others of them."""

    mean: Floats
    tight: Floats

    def misfits(self, rows: Floats) -> Floats:
        """How many spreads each value stands from what the others foretell: `(rows, names)`."""
        away = rows - self.mean
        found = np.zeros_like(away)
        for i in range(away.shape[1]):
            found += away[:, i][:, None] * self.tight[i][None, :]
        return np.asarray(found / np.sqrt(np.diag(self.tight)))


@lru_cache(maxsize=512)
def judge(group: str, known: tuple[str, ...]) -> Judge:
    """The judge of some measures of one body; at least two of them."""
    of = model(group)
    k = [of.places[name] for name in known]
    tight = np.linalg.inv(of.covariance[np.ix_(k, k)])
    return Judge(of.mean[k], np.asarray(tight, dtype=np.float64))


def nearest(group: str, known: Sequence[str], wanted: str, most: int = 3) -> tuple[str, ...]:
    """The known measures that go most closely with a wanted one, the closest first."""
    of = model(group)
    at = [of.places[name] for name in known]
    close = np.abs(of.covariance[at, of.places[wanted]]) / np.sqrt(np.diag(of.covariance)[at])
    return tuple(known[i] for i in np.argsort(-close, kind="stable")[:most])

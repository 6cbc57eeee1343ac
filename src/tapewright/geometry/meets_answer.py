"""The answer to "where do these two lines meet?": its shape, and how candidates are put in order.

Candidates come here as plain numbers for one row or as arrays for many, with the same keys, so that both are
put in the same order. No meeting is computed here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntFlag
from typing import Final, Generic, NamedTuple

import numpy as np

from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array, Codes, Mask, N, Why, pick
from tapewright.geometry.tolerance import SAME_POINT

REAL_AFTER: Final = 1e9
"""Sorting key of the nearest real candidate that is not on: beyond any place on a run."""
REST_AFTER: Final = 1e18
"""Sorting key of the stand-ins."""


class Carried(IntFlag):
    """Which ends of a line may be carried on: straight on, as the line left its end."""

    NOT = 0
    START = 1
    END = 2
    BOTH = 3


@dataclass(frozen=True, slots=True, eq=False)
class Meets:
    """All meets of two lines a and b, the candidates along the first axis, `(candidates, bodies)`.

    `x`, `y`: the place. `ta`, `tb`: the parameter on each, held within it: a curve's own parameter, 0 to 24
    on an Arc (that of `arc_curve`), the angle from -pi to pi on a Circle. `past_a`, `past_b`: how far beyond
    its end (positive) or before its start (negative) the meet lies, in mm as the line is run; nought on it.
    `on`: the meet lies on both, carried on where that was asked. `real`: the lines do cross there, if both
    are carried on. Candidates that are `on` come first, as a is run; then the real ones, nearest to being on
    first; the rest are stand-ins. `gap` `(bodies,)`: how far the lines miss each other where nothing is real,
    else nought. `why` `(bodies,)`: NOTHING where some candidate is on, else SAME_POINT, PARALLEL, ALONG,
    APART or BEYOND. `more` `(bodies,)`: there were more crossings than candidates are kept.
    """

    x: Array
    y: Array
    ta: Array
    tb: Array
    past_a: Array
    past_b: Array
    on: Mask
    real: Mask
    gap: Array
    why: Codes
    more: Mask

    def count(self) -> Codes:
        """How many candidates are on, `(bodies,)`."""
        counted: Codes = self.on.sum(axis=0, dtype=np.int8)
        return counted

    def point(self, k: int = 0) -> Point:
        """The place of one candidate."""
        return Point(self.x[k], self.y[k])


class Candidate(NamedTuple, Generic[N]):
    """One candidate: place, parameters, how far past the ends, the places on the two runs, and `real`.

    Floats and a bool for one row; for many, arrays `(bodies,)`, or `(candidates, bodies)` when they come
    together.
    """

    x: N
    y: N
    ta: N
    tb: N
    past_a: N
    past_b: N
    run_a: N
    run_b: N
    real: bool | Mask


def past(s: N, long: N) -> N:
    """How far a length s from the start of a line of length `long` lies beyond it; a hair is nought."""
    beyond = pick(s < 0.0, s, pick(s > long, s - long, s * 0.0))
    return pick((beyond < SAME_POINT) & (beyond > -SAME_POINT), s * 0.0, beyond)


def answer_one(
    candidates: Sequence[Candidate[float]],
    none: tuple[float, Why],
    carried: tuple[Carried, Carried],
    keep: int,
    flip: bool = False,
) -> Meets:
    """The answer of one row; `none` is the gap and the reason where nothing is real.

    `carried` belongs to a and b as the candidates know them; `flip` then exchanges a and b.
    """
    table: list[tuple[float, bool, Candidate[float]]] = []
    some_on = some_real = False
    for c in candidates:
        real = bool(c.real)
        on = real and _allows(carried[0], c.past_a) and _allows(carried[1], c.past_b)
        some_on, some_real = some_on or on, some_real or real
        key = (c.run_b if flip else c.run_a) if on else REAL_AFTER + (abs(c.past_a) + abs(c.past_b))
        table.append((key if real else REST_AFTER, on, c))
    if len(table) > 1:
        table.sort(key=_key)
    real_ones = [row for row in table if row[2].real]
    # Whatever is not real repeats the first candidate.
    table = real_ones[:keep] + [(REST_AFTER, False, table[0][2]._replace(real=False))] * (
        keep - len(real_ones)
    )
    first, second = (3, 2) if flip else (2, 3)
    numbers = [row[2][i] for i in (0, 1, first, second, first + 2, second + 2) for row in table]
    x, y, ta, tb, past_a, past_b = np.array(numbers).reshape(6, keep, 1)
    on_real = np.array([row[1] for row in table] + [bool(row[2].real) for row in table]).reshape(2, keep, 1)
    more = np.array([len(real_ones) > keep])
    why = Why.NOTHING if some_on else Why.BEYOND if some_real else none[1]
    gap = np.array([0.0 if some_real else none[0]])
    return Meets(x, y, ta, tb, past_a, past_b, on_real[0], on_real[1], gap, np.array([why], np.int8), more)


def answer_rows(
    c: Candidate[Array],
    none: tuple[Array, Codes],
    carried: tuple[Carried, Carried],
    keep: int,
    flip: bool = False,
) -> Meets:
    """The answer of many rows, candidates `(any, bodies)`; as `answer_one`, bit for bit."""
    real = np.asarray(c.real, dtype=np.bool_)
    on = real & _allow(carried[0], c.past_a) & _allow(carried[1], c.past_b)
    some_real, some_on = np.logical_or.reduce(real, axis=0), np.logical_or.reduce(on, axis=0)
    fields: list[Array] = [c.x, c.y, c.ta, c.tb, c.past_a, c.past_b]
    more = np.zeros(some_on.shape, dtype=np.bool_)
    if real.shape[0] > 1:
        key = np.where(on, c.run_b if flip else c.run_a, REAL_AFTER + (np.abs(c.past_a) + np.abs(c.past_b)))
        order = np.argsort(np.where(real, key, REST_AFTER), axis=0, kind="stable")
        fields = [np.take_along_axis(f, order, axis=0) for f in fields]
        on, real = np.take_along_axis(on, order, axis=0), np.take_along_axis(real, order, axis=0)
        if real.shape[0] > keep:
            more = np.logical_or.reduce(real[keep:], axis=0)
        # The stand-ins of a row repeat its first candidate, as they do for one row alone.
        fields = [np.where(real[:keep], f[:keep], f[:1]) for f in fields]
        on, real = on[:keep], real[:keep]
    if real.shape[0] < keep:
        spare = keep - real.shape[0]
        fields = [np.concatenate((f, np.repeat(f[:1], spare, axis=0))) for f in fields]
        empty = np.zeros((spare, *some_on.shape), dtype=np.bool_)
        on, real = np.concatenate((on, empty)), np.concatenate((real, empty))
    x, y, ta, tb, past_a, past_b = fields
    if flip:
        ta, tb, past_a, past_b = tb, ta, past_b, past_a
    why = np.where(some_on, Why.NOTHING, np.where(some_real, Why.BEYOND, none[1])).astype(np.int8)
    gap = np.where(some_real, 0.0, none[0])
    return Meets(x, y, ta, tb, past_a, past_b, on, real, gap, why, more)


def _key(row: tuple[float, bool, Candidate[float]]) -> float:
    return row[0]


def _allows(carried: Carried, beyond: float) -> bool:
    """Whether a meet so far past the ends counts as on, given the ends that may be carried on."""
    if beyond == 0.0:
        return True
    return bool(carried & Carried.START) if beyond < 0.0 else bool(carried & Carried.END)


def _allow(carried: Carried, beyond: Array) -> Mask:
    """As `_allows`, for many rows."""
    if carried == Carried.BOTH:
        return np.ones(beyond.shape, dtype=np.bool_)
    if carried == Carried.START:
        return beyond <= 0.0
    return beyond >= 0.0 if carried == Carried.END else beyond == 0.0

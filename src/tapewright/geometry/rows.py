"""Arithmetic that one row and many rows share, and the shape of an answer that may fail.

Most calls are made for one wearer, where a numpy call costs ten times the sum it does; many figures need
numpy. A kernel written over `N` runs on plain floats for one row and on arrays for many, operation for
operation, so the bits of a row are the same alone and in a crowd. Sines, cosines and arc tangents always come
from numpy, for its answers may differ from the standard library's in the last bit. This is no general
numerical library.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import IntEnum
from typing import Final, Generic, TypeVar, cast

import numpy as np
from numpy.typing import NDArray

from tapewright.geometry.tolerance import NOUGHT

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Codes = NDArray[np.int8]
Indices = NDArray[np.intp]

N = TypeVar("N", float, Array)
T = TypeVar("T")


_MANY: Final = 512
"""Sums of more entries than this are added up term by term, which is quicker there; the bits are the same."""


class Why(IntEnum):
    """Why a row has no answer. The caller words it; nobody at the table sees these."""

    NOTHING = 0
    """The row has its answer."""
    SAME_POINT = 1
    """Two points that must differ are one."""
    PARALLEL = 2
    """The lines run side by side and never meet."""
    ALONG = 3
    """The lines lie along each other: every point is a meet."""
    APART = 4
    """The lines miss each other; `gap` says by how much."""
    BEYOND = 5
    """They meet only beyond an end; `past_a` and `past_b` say how far."""
    FLAT = 6
    """The corner is flat, or the three points lie in a row."""
    TOO_SHORT = 7
    """The line is shorter than the length asked along it."""
    NEGATIVE = 8
    """A length or radius is below nought."""
    TOO_DEEP = 9
    """The bow is deeper than half the line it bends."""


@dataclass(frozen=True, slots=True, eq=False)
class Found(Generic[T]):
    """An answer that some rows may lack: the value, which rows have it, and why the others have not.

    `ok` and `why` are `(bodies,)`. On a row that is not ok the value is finite and means nothing.
    """

    value: T
    ok: Mask
    why: Codes


def because(ok: Mask, why: Why) -> Codes:
    """The reason `why` on the rows that are not ok, NOTHING on the others; `(bodies,)`."""
    return (~ok).view(np.int8) * np.int8(why)


def pick(where: bool | Mask, one: N, other: N) -> N:
    """`one` where the condition holds, else `other`; for floats or arrays."""
    if isinstance(where, np.ndarray):
        return cast("N", np.where(where, one, other))
    return one if where else other


def everywhere(holds: bool | Mask) -> bool:
    """Whether a condition holds on every row."""
    return bool(holds.all()) if isinstance(holds, np.ndarray) else holds


def somewhere(holds: bool | Mask) -> bool:
    """Whether a condition holds on any row."""
    return bool(holds.any()) if isinstance(holds, np.ndarray) else holds


def root(square: N) -> N:
    """The square root of a number that is not negative (exact rounding: the same in both worlds)."""
    if isinstance(square, float):
        return math.sqrt(square)
    return np.sqrt(square)


def larger(one: N, other: N) -> N:
    """The larger of two; where they are equal, the second, bit for bit."""
    return pick(one > other, one, other)


def smaller(one: N, other: N) -> N:
    """The smaller of two; where they are equal, the second, bit for bit."""
    return pick(one < other, one, other)


def held(value: N, low: float, high: float) -> N:
    """The value held between two limits."""
    if isinstance(value, float):
        return low if value < low else high if value > high else value
    return np.where(value < low, low, np.where(value > high, high, value))


def over(top: N, bottom: N, instead: float) -> N:
    """The quotient, or `instead` where the divisor is nought."""
    if isinstance(bottom, float):
        return top / bottom if bottom > NOUGHT or bottom < -NOUGHT else instead
    good = np.abs(bottom) > NOUGHT
    return np.where(good, top / np.where(good, bottom, 1.0), instead)


def angle_of(along: N, across: N) -> N:
    """The angle of a direction, from -pi to pi, by numpy's arc tangent in both worlds."""
    if isinstance(across, float):
        return float(np.arctan2(across, along))
    return np.arctan2(across, along)


def sine(angle: N) -> N:
    """The sine, by numpy in both worlds."""
    if isinstance(angle, float):
        return float(np.sin(angle))
    return np.sin(angle)


def cosine(angle: N) -> N:
    """The cosine, by numpy in both worlds."""
    if isinstance(angle, float):
        return float(np.cos(angle))
    return np.cos(angle)


def rounded_off(number: N) -> N:
    """The nearest whole number, halves to the even one."""
    if isinstance(number, float):
        return float(np.rint(number))
    return np.rint(number)


def total(terms: Array) -> Array:
    """The sum along the first axis, added strictly in order, so that no shape changes a bit of it."""
    if terms[0].size < _MANY:
        added: Array = np.add.accumulate(terms, axis=0)[-1]
        return added
    added = terms[0].copy()
    for term in terms[1:]:
        added += term
    return added

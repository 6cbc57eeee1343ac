"""Lengths by the tape: how long a drawn line is, and where along it a length falls.

Each segment is measured by Kronrod's rule of 15 points, which holds Gauss's of 7 within it; where the two differ
the segment is measured in four parts, and those again, so that lines with the sharpest bends are good to a
thousandth of a millimetre. Every sum is added in a fixed order. What lies nearest to a point has its own module.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from tapewright.geometry.curve import Curve, Drawn, Stretch, curve_of
from tapewright.geometry.rows import (
    Array,
    Found,
    Indices,
    Mask,
    N,
    Why,
    because,
    held,
    over,
    pick,
    root,
    total,
)
from tapewright.geometry.tolerance import CONVERGED, EXACT, LENGTH_AGREES

# Kronrod's 15 points on -1 to 1 and their weights, and the weights of Gauss's 7 among them (every second one):
# R. Piessens and others, QUADPACK (1983), rule QK15.
_POINTS: Final = (
    0.991455371120812639206854697526329,
    0.949107912342758524526189684047851,
    0.864864423359769072789712788640926,
    0.741531185599394439863864773280788,
    0.586087235467691130294144691258547,
    0.405845151377397166906606412076961,
    0.207784955007898467600689403773245,
)
_KRONROD: Final = (
    0.022935322010529224963732008058970,
    0.063092092629978553290700663189204,
    0.104790010322250183839876322541518,
    0.140653259715525918745189590510238,
    0.169004726639267902826583426598550,
    0.190350578064785409913256402421014,
    0.204432940075298892414161999234649,
)
_MIDDLE: Final = 0.209482141084727828012999174891714
_GAUSS: Final = (
    0.129484966168869693270611432679082,
    0.279705391489276667901467771423780,
    0.381830050505118944950369775488975,
)
_GAUSS_MIDDLE: Final = 0.417959183673469387755102040816327

NODES: Final = (
    *((1.0 - x) / 2.0 for x in _POINTS),
    0.5,
    *((1.0 + x) / 2.0 for x in reversed(_POINTS)),
)
WEIGHTS: Final = tuple(w / 2.0 for w in (*_KRONROD, _MIDDLE, *reversed(_KRONROD)))
FEW_WEIGHTS: Final = tuple(w / 2.0 for w in (*_GAUSS, _GAUSS_MIDDLE, *reversed(_GAUSS)))
_X: Final = np.array(NODES)[:, None, None]
_W: Final = np.array(WEIGHTS)[:, None, None]
_FEW: Final = np.array(FEW_WEIGHTS)[:, None, None]
_P: Final = (1.0 - _X) * (1.0 - _X)
_Q: Final = 2.0 * (_X * (1.0 - _X))
_R: Final = _X * _X
_QUARTERS: Final = np.array([[0.0], [0.25], [0.5], [0.75], [1.0]])
_NOUGHT: Final = np.zeros((1, 1))
_EACH: Final = tuple(zip(NODES, WEIGHTS, strict=True))

_DOUBT: Final = LENGTH_AGREES * 0.1
"""Where the two rules differ by more, a piece is measured in four; Kronrod's own error is then far less."""
_STEPS: Final = 60
_MANY: Final = 512
_DEEPEST: Final = 7
"""How often a piece may be cut in four again: a cusp is then measured from a 16,384th of a segment."""


def length(drawn: Drawn) -> Array:
    """The length of a drawn line by the tape, `(bodies,)`, never negative; nought for one of no length."""
    if not isinstance(drawn, Stretch):
        return _chord(drawn) if drawn.is_straight else total(segment_lengths(drawn))
    curve, n = drawn.curve, float(drawn.curve.segments)
    if curve.bodies == 1:
        first, last = held(drawn.start.item(), 0.0, n), held(drawn.end.item(), 0.0, n)
        first, last = (last, first) if first > last else (first, last)
        if curve.is_straight:
            return _chord(curve) * (last - first)
        ends = [(held(first - i, 0.0, 1.0), held(last - i, 0.0, 1.0)) for i in range(curve.segments)]
        u = np.array(ends)
        with np.errstate(under="ignore"):
            return total(_measured((curve.ctrl[1:] - curve.ctrl[:-1]) * 3.0, u[:, :1], u[:, 1:]))
    start, end = held(drawn.start, 0.0, n), held(drawn.end, 0.0, n)
    back = start > end
    low, high = np.where(back, end, start), np.where(back, start, end)
    if curve.is_straight:
        part: Array = _chord(curve) * (high - low)
        return part
    index = np.arange(n)[:, None]
    with np.errstate(under="ignore"):
        d = (curve.ctrl[1:] - curve.ctrl[:-1]) * 3.0
        return total(_measured(d, held(low - index, 0.0, 1.0), held(high - index, 0.0, 1.0)))


def segment_lengths(curve: Curve) -> Array:
    """The length of each segment, `(segments, bodies)`."""
    with np.errstate(under="ignore"):
        return _measured((curve.ctrl[1:] - curve.ctrl[:-1]) * 3.0, None, None)


def parameter_at_length(drawn: Drawn, along: Array) -> Found[Array]:
    """The curve's parameter at a length by the tape from the start of a drawn line, `(bodies,)`.

    Not ok where the length is below nought (NEGATIVE, the start stands in) or the line is shorter (TOO_SHORT, its
    end stands in); a thousandth of a millimetre either way is the end itself.
    """
    curve = curve_of(drawn)
    if curve.is_straight:
        chord = _chord(curve)
        places: list[Array | float] = [0.0, 1.0]
        if isinstance(drawn, Stretch):
            places = [held(drawn.start, 0.0, 1.0), held(drawn.end, 0.0, 1.0)]
        t0, t1 = places
        whole = chord * np.abs(t1 - t0)
        part = held(along / np.where(whole > 0.0, whole, 1.0), 0.0, 1.0)
        return _found(np.where(part < 1.0, t0 + (t1 - t0) * part, t1), along, whole)
    with np.errstate(under="ignore"):
        d = (curve.ctrl[1:] - curve.ctrl[:-1]) * 3.0
        marks = np.add.accumulate(_measured(d, None, None), axis=0)
        if curve.bodies == 1:
            ends = (drawn.start.item(), drawn.end.item()) if isinstance(drawn, Stretch) else None
            t, long = _one(d[..., 0], marks[:, 0].tolist(), along.item(), ends)
            return _found(np.array((t,)), along, np.array((long,)))
        both = (drawn.start, drawn.end) if isinstance(drawn, Stretch) else None
        return _found(*_many(d, marks, along, both))


def _found(t: Array, along: Array, whole: Array) -> Found[Array]:
    """The parameters found, and on which rows the length asked for lies off the line."""
    short = along > whole + LENGTH_AGREES
    below = along < -LENGTH_AGREES
    return Found(t, ~(short | below), because(~short, Why.TOO_SHORT) + because(~below, Why.NEGATIVE))


def _one(d: Array, marks: list[float], along: float, ends: tuple[float, float] | None) -> tuple[float, float]:
    """The parameter at a length along one row's line, and the line's whole length.

    `d` are the slopes `(3, 2, segments)`, `marks` the lengths to the end of each segment, `ends` the parameters of
    a trimmed line's start and end.
    """
    n = len(marks)
    if ends is None:
        if along <= 0.0 or along >= marks[-1]:
            return (0.0 if along <= 0.0 else float(n)), marks[-1]
        return _one_from_start(d, marks, along), marks[-1]
    start, end = held(ends[0], 0.0, float(n)), held(ends[1], 0.0, float(n))
    before, after = _one_mark(d, marks, start), _one_mark(d, marks, end)
    whole = abs(after - before)
    if along <= 0.0 or along >= whole:
        return (start if along <= 0.0 else end), whole
    t = _one_from_start(d, marks, before - along if start > end else before + along)
    low, high = (end, start) if start > end else (start, end)
    return held(t, low, high), whole


def _one_mark(d: Array, marks: list[float], t: float) -> float:
    """The length from the start of one row's curve to a parameter."""
    index = min(int(t), len(marks) - 1)
    before = marks[index - 1] if index else 0.0
    return before + _one_part(d, index, t - index)


def _one_part(d: Array, index: int, u: float) -> float:
    """The length of one row's segment from its start to u."""
    (ax, ay), (bx, by), (cx, cy) = d[:, :, index].tolist()
    far = few = 0.0
    for k, (x, w) in enumerate(_EACH):
        speed = root(_square(ax, ay, bx, by, cx, cy, u * x))
        far += speed * w
        if k & 1:
            few += speed * FEW_WEIGHTS[k >> 1]
    far, few = far * u, few * u
    if abs(far - few) > _DOUBT:
        return float(_measured(d[:, :, index : index + 1, None], _NOUGHT, np.array([[u]])).item())
    return far


def _one_from_start(d: Array, marks: list[float], along: float) -> float:
    """The parameter at a length from the start of one row's curve: a bracketed Newton within its segment."""
    index = 0
    while index < len(marks) - 1 and marks[index] <= along:
        index += 1
    before = marks[index - 1] if index else 0.0
    rest, whole = along - before, marks[index] - before
    if rest <= 0.0 or rest >= whole:
        return index + (1.0 if rest > 0.0 else 0.0)
    (ax, ay), (bx, by), (cx, cy) = d[:, :, index].tolist()
    low, high, u = 0.0, 1.0, rest / whole
    for _ in range(_STEPS):
        square = _square(ax, ay, bx, by, cx, cy, u)
        low, high, moved = _step(square, _one_part(d, index, u) - rest, u, low, high)
        hop, u = moved - u, moved
        if -CONVERGED <= hop <= CONVERGED:
            break
    return index + u


def _many(
    d: Array, marks: Array, along: Array, ends: tuple[Array, Array] | None
) -> tuple[Array, Array, Array]:
    """As `_one`, for many rows: the parameters, the lengths asked for, and the whole lengths."""
    n = float(marks.shape[0])
    if ends is None:
        start, end = np.zeros(along.shape), np.full(along.shape, n)
        before, after = start, marks[-1]
    else:
        start, end = held(ends[0], 0.0, n), held(ends[1], 0.0, n)
        before, after = _many_marks(d, marks, start), _many_marks(d, marks, end)
    back = start > end
    whole = np.abs(after - before)
    inside = (along > 0.0) & (along < whole)
    asked = np.where(inside, np.where(back, before - along, before + along), 0.0)
    t = _many_from_start(d, marks, asked, inside)
    low, high = np.where(back, end, start), np.where(back, start, end)
    t = np.where(t < low, low, np.where(t > high, high, t))
    return np.where(inside, t, np.where(along <= 0.0, start, end)), along, whole


def _many_marks(d: Array, marks: Array, t: Array) -> Array:
    """As `_one_mark`, for many rows."""
    index: Indices = np.minimum(t.astype(np.intp), marks.shape[0] - 1)
    rows = np.arange(t.size)
    before = np.where(index > 0, marks[index - 1, rows], 0.0)
    own = d[:, :, index, rows][:, :, None]
    marked: Array = before + _measured(own, np.zeros((1, t.size)), (t - index)[None])[0]
    return marked


def _many_from_start(d: Array, marks: Array, along: Array, wanted: Mask) -> Array:
    """As `_one_from_start`, for the rows wanted; those that have settled are left alone."""
    n, bodies = marks.shape
    rows = np.arange(bodies)
    index: Indices = np.minimum((marks <= along).sum(axis=0), n - 1)
    before = np.where(index > 0, marks[index - 1, rows], 0.0)
    rest, whole = along - before, marks[index, rows] - before
    inside = wanted & (rest > 0.0) & (rest < whole)
    u: Array = np.where(rest > 0.0, 1.0, 0.0)
    u[inside] = rest[inside] / whole[inside]
    going: Indices = np.nonzero(inside)[0]
    own, rest = d[:, :, index[going], going], rest[going]
    low, high = np.zeros(going.size), np.ones(going.size)
    for _ in range(_STEPS):
        if not going.size:
            break
        now = u[going]
        far = _measured(own[:, :, None], np.zeros((1, going.size)), now[None])[0]
        square = _square(own[0, 0], own[0, 1], own[1, 0], own[1, 1], own[2, 0], own[2, 1], now)
        low, high, moved = _step(square, far - rest, now, low, high)
        u[going] = moved
        left = np.nonzero(np.abs(moved - now) > CONVERGED)[0]
        going, own, rest, low, high = going[left], own[:, :, left], rest[left], low[left], high[left]
    t: Array = index + u
    return t


def _square(ax: N, ay: N, bx: N, by: N, cx: N, cy: N, t: N) -> N:
    """The square of the speed at t, from the control vectors of the slope."""
    v = 1.0 - t
    p, q, r = v * v, 2.0 * (t * v), t * t
    hx, hy = ax * p + bx * q + cx * r, ay * p + by * q + cy * r
    return hx * hx + hy * hy


def _step(square: N, miss: N, u: N, low: N, high: N) -> tuple[N, N, N]:
    """Newton's step between two bounds, else the half; stands still where nothing is missing."""
    low, high = pick(miss < 0.0, u, low), pick(miss > 0.0, u, high)
    step = u - over(miss, root(square), 2.0)
    step = pick((step > low) & (step < high), step, (low + high) * 0.5)
    return low, high, pick((miss < EXACT) & (miss > -EXACT), u, step)


def _chord(curve: Curve) -> Array:
    """The length of a straight line, from its ends."""
    c = curve.ctrl
    chord: Array = np.hypot(c[3, 0, 0] - c[0, 0, 0], c[3, 1, 0] - c[0, 1, 0])
    return chord


def _measured(d: Array, u0: Array | None, u1: Array | None, cuts: int = 0) -> Array:
    """The length of segments from u0 to u1, whole if not said; d their slopes `(3, 2, m, n)`, the rest `(m, n)`."""
    if u0 is None or u1 is None:
        lengths, few = _ruled(d, None, 1.0)
    else:
        lengths, few = _ruled(d, u0, u1 - u0)
    hard = np.abs(lengths - few) > _DOUBT
    if cuts < _DEEPEST and hard.any():
        own = d[:, :, hard][:, :, None]
        low, high = (0.0, 1.0) if u0 is None or u1 is None else (u0[hard], u1[hard])
        marks = low + (high - low) * np.broadcast_to(_QUARTERS, (5, own.shape[-1]))
        parts = np.broadcast_to(own, (3, 2, 4, own.shape[-1]))
        lengths[hard] = total(_measured(parts, marks[:-1], marks[1:], cuts + 1))
    return lengths


def _ruled(d: Array, u0: Array | None, wide: Array | float) -> tuple[Array, Array]:
    """Kronrod's rule and Gauss's within it, over `wide` from u0: all points at once, or if many one by one."""
    if d[0, 0].size < _MANY:
        if u0 is None:
            p, q, r = _P, _Q, _R
        else:
            t = u0 + wide * _X
            v = 1.0 - t
            p, q, r = v * v, 2.0 * (t * v), t * t
        x = d[0, 0] * p + d[1, 0] * q + d[2, 0] * r
        y = d[0, 1] * p + d[1, 1] * q + d[2, 1] * r
        speed = np.sqrt(x * x + y * y)
        return total(speed * _W) * wide, total(speed[1::2] * _FEW) * wide
    far, few = np.zeros(d.shape[2:]), np.zeros(d.shape[2:])
    for k, (node, weight) in enumerate(_EACH):
        here = np.full((1, 1), node) if u0 is None else u0 + wide * node
        speed = np.sqrt(_square(d[0, 0], d[0, 1], d[1, 0], d[1, 1], d[2, 0], d[2, 1], here))
        far += speed * weight
        if k & 1:
            few += speed * FEW_WEIGHTS[k >> 1]
    return far * wide, few * wide

"""Lengths by the tape: how long a drawn line is, and where along it a length falls.

Gauss's rule of 12 points a segment, on four parts of a segment whose control polygon turns so hard that 12 would
not do; good to a thousandth of a millimetre on lines of 2 m. Every sum is added in a fixed order. What lies
nearest to a point has its own module.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from tapewright.geometry.curve import Curve, Drawn, Stretch, curve_of
from tapewright.geometry.rows import Array, Found, Mask, Why, because, total
from tapewright.geometry.tolerance import CONVERGED, LENGTH_AGREES

# Gauss-Legendre, 12 points on -1 to 1 (Abramowitz and Stegun, table 25.4), moved to 0 to 1.
_HALF_NODES: Final = (
    0.125233408511468916,
    0.367831498998180194,
    0.587317954286617447,
    0.769902674194304687,
    0.904117256370474857,
    0.981560634246719251,
)
_HALF_WEIGHTS: Final = (
    0.249147045813402785,
    0.233492536538354809,
    0.203167426723065922,
    0.160078328543346226,
    0.106939325995318431,
    0.047175336386511827,
)
NODES: Final[Array] = np.array(
    [(1.0 - x) / 2.0 for x in reversed(_HALF_NODES)] + [(1.0 + x) / 2.0 for x in _HALF_NODES]
)
WEIGHTS: Final[Array] = np.array(
    [w / 2.0 for w in reversed(_HALF_WEIGHTS)] + [w / 2.0 for w in _HALF_WEIGHTS]
)
_X: Final = NODES[:, None, None]
_W: Final = WEIGHTS[:, None, None]
# The three weights of the hodograph's control vectors at each node; (12, 1, 1, 1) against (2, segments, bodies).
_B0: Final = ((1.0 - NODES) * (1.0 - NODES))[:, None, None, None]
_B1: Final = (2.0 * NODES * (1.0 - NODES))[:, None, None, None]
_B2: Final = (NODES * NODES)[:, None, None, None]

_HARD: Final = 1.35
"""A segment whose polygon is this many times its chord is measured in four parts."""


def length(drawn: Drawn) -> Array:
    """The length of a drawn line by the tape, `(bodies,)`, never negative; nought for one of no length."""
    if isinstance(drawn, Curve):
        if drawn.is_straight:
            return _chord(drawn)
        with np.errstate(under="ignore"):
            return total(segment_lengths(drawn))
    curve = drawn.curve
    n = curve.segments
    start, end = np.clip(drawn.start, 0.0, float(n)), np.clip(drawn.end, 0.0, float(n))
    if curve.is_straight:
        return _chord(curve) * np.abs(end - start)
    index = np.arange(float(n))[:, None]
    low, high = np.minimum(start, end), np.maximum(start, end)
    u0 = np.clip(low - index, 0.0, 1.0)
    u1 = np.clip(high - index, 0.0, 1.0)
    with np.errstate(under="ignore"):
        return total(_partial(curve.ctrl, u0, u1))


def segment_lengths(curve: Curve) -> Array:
    """The length of each segment, `(segments, bodies)`."""
    d = (curve.ctrl[1:] - curve.ctrl[:-1]) * 3.0
    h = d[0] * _B0 + d[1] * _B1 + d[2] * _B2
    lengths = total(np.sqrt(h[:, 0] * h[:, 0] + h[:, 1] * h[:, 1]) * _W)
    hard = _hard(curve.ctrl, d)
    if hard.any():
        c = curve.ctrl[:, :, hard]
        lengths[hard] = _in_four(c, np.zeros(c.shape[2]), np.ones(c.shape[2]))
    return lengths


def parameter_at_length(drawn: Drawn, along: Array) -> Found[Array]:
    """The curve's parameter at a length by the tape from the start of a drawn line, `(bodies,)`.

    Not ok where the length is below nought (NEGATIVE, the start stands in) or the line is shorter
    (TOO_SHORT, its end stands in); a thousandth of a millimetre either way is the end itself.
    """
    curve = curve_of(drawn)
    n = float(curve.segments)
    with np.errstate(under="ignore"):
        if isinstance(drawn, Stretch):
            start, end = np.clip(drawn.start, 0.0, n), np.clip(drawn.end, 0.0, n)
            back = start > end
            whole = length(drawn)
            before = length(Stretch(curve, np.zeros_like(start), start))
            asked = np.clip(along, 0.0, whole)
            found = _parameter(curve, np.where(back, before - asked, before + asked))
            t = np.where(asked <= 0.0, start, np.where(asked >= whole, end, found))
            t = np.where(back, np.clip(t, end, start), np.clip(t, start, end))
        else:
            whole = length(drawn)
            t = _parameter(curve, np.clip(along, 0.0, whole))
    short = along > whole + LENGTH_AGREES
    below = along < -LENGTH_AGREES
    why = because(~short, Why.TOO_SHORT) + because(~below, Why.NEGATIVE)
    return Found(t, ~(short | below), why)


def _parameter(curve: Curve, along: Array) -> Array:
    """The parameter at a length from the start of the curve, held within it: a bracketed Newton on each row."""
    if curve.is_straight:
        chord = _chord(curve)
        return np.clip(along / np.where(chord > 0.0, chord, 1.0), 0.0, 1.0)
    lengths = segment_lengths(curve)
    n, bodies = lengths.shape
    rows = np.arange(bodies)
    if n == 1:
        index = np.zeros(bodies, dtype=np.intp)
        rest = along
    else:
        marks = np.add.accumulate(lengths, axis=0)
        index = np.minimum((marks <= along).sum(axis=0), n - 1)
        rest = along - np.where(index > 0, marks[index - 1, rows], 0.0)
    whole = lengths[index, rows]
    ctrl = curve.ctrl[:, :, index, rows]
    safe = np.where(whole > 0.0, whole, 1.0)
    rest = np.clip(rest, 0.0, whole)
    u = np.where(whole > 0.0, rest / safe, 0.0)
    low, high = np.zeros(bodies), np.ones(bodies)
    zero = np.zeros(bodies)
    d = (ctrl[1:] - ctrl[:-1]) * 3.0
    settled = (u <= 0.0) | (u >= 1.0)
    for _ in range(60):
        if settled.all():
            break
        f = _partial(ctrl[:, :, None], zero[None], u[None])[0] - rest
        v = 1.0 - u
        g = d[0] * (v * v) + d[1] * (2.0 * u * v) + d[2] * (u * u)
        speed = np.hypot(g[0], g[1])
        low, high = np.where(f < 0.0, u, low), np.where(f > 0.0, u, high)
        moving = speed > 0.0
        step = u - f / np.where(moving, speed, 1.0)
        step = np.where(moving & (step > low) & (step < high), step, (low + high) * 0.5)
        step = np.where(settled | (f == 0.0), u, step)
        settled = settled | (np.abs(step - u) <= CONVERGED)
        u = step
    return index + u


def _chord(curve: Curve) -> Array:
    """The length of a straight line, from its ends."""
    c = curve.ctrl
    return np.hypot(c[3, 0, 0] - c[0, 0, 0], c[3, 1, 0] - c[0, 1, 0])


def _hard(ctrl: Array, d: Array) -> Mask:
    """Which segments need four parts, `(segments, bodies)`; the same whatever piece of them is asked."""
    polygon = np.hypot(d[:, 0], d[:, 1])
    chord = np.hypot(ctrl[3, 0] - ctrl[0, 0], ctrl[3, 1] - ctrl[0, 1])
    return polygon[0] + polygon[1] + polygon[2] > chord * (3.0 * _HARD)


def _partial(ctrl: Array, u0: Array, u1: Array) -> Array:
    """The length of each segment `(4, 2, segments, bodies)` from u0 to u1, `(segments, bodies)` each."""
    d = (ctrl[1:] - ctrl[:-1]) * 3.0
    lengths = _gauss(d, u0, u1)
    hard = _hard(ctrl, d)
    if hard.any():
        lengths[hard] = _in_four(ctrl[:, :, hard], u0[hard], u1[hard])
    return lengths


def _in_four(ctrl: Array, u0: Array, u1: Array) -> Array:
    """As `_partial` for hard segments `(4, 2, n)`, in four parts."""
    d = (ctrl[1:] - ctrl[:-1]) * 3.0
    marks = u0 + (u1 - u0) * np.array([[0.0], [0.25], [0.5], [0.75], [1.0]])
    return total(_gauss(d[:, :, None], marks[:-1], marks[1:]))


def _gauss(d: Array, u0: Array, u1: Array) -> Array:
    """Twelve-point Gauss of the speed over u0 to u1; d `(3, 2, segments, bodies)`, the rest `(segments, bodies)`."""
    wide = u1 - u0
    u = u0 + wide * _X
    v = 1.0 - u
    b0, b1, b2 = v * v, 2.0 * u * v, u * u
    x = d[0, 0] * b0 + d[1, 0] * b1 + d[2, 0] * b2
    y = d[0, 1] * b0 + d[1, 1] * b1 + d[2, 1] * b2
    return total(np.sqrt(x * x + y * y) * _W) * wide

"""The signs of a draft as strokes on paper: right angles, divisions, pins, notches, the grain and the fold.

They are of one size on paper whatever the scale, beside the letters; where they stand is the draft's.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from tapewright.draft import Sign, SignKind
from tapewright.drawing import INK, SOFT, Group, Line, Mark, Stroke, circle, through
from tapewright.pages.room import Floats, no_pieces, ring_pieces

# Sizes against the letters.
_ANGLE = 0.62
_ACROSS = 0.42
_PIN = 0.62
_NOTCH = 0.62
_APART = 0.5
_HEAD = 0.85
_FOLD_IN, _GRAIN_IN = 1.5, 1.5
#: What share of the line the grain and the fold leave free at either end.
_FREE = 0.14
_PLAIN, _HEAVY = Line(0.2, SOFT), Line(0.5, INK)
_ARROW = Line(0.24, INK, join="mitre")

Run = list[tuple[float, float]]


def sign_marks(signs: Sequence[Sign], k: float, size: float) -> tuple[Mark, ...]:
    """The signs at a scale `k`, for letters of `size` mm, a group for each kind."""
    groups: dict[SignKind, list[Mark]] = {}
    for sign in signs:
        line = _HEAVY if sign.kind is SignKind.NOTCH else _PLAIN
        if sign.kind in {SignKind.GRAIN, SignKind.FOLD}:
            line = _ARROW
        strokes = groups.setdefault(sign.kind, [])
        if sign.kind is SignKind.PIN:
            strokes.append(Stroke(circle(sign.x * k, sign.y * k, _PIN * size), line))
        strokes.extend(Stroke(through(run), line) for run in _runs(sign, k, size))
    return tuple(Group(f"{kind.value} signs", tuple(strokes)) for kind, strokes in groups.items())


def sign_pieces(signs: Sequence[Sign], k: float, size: float) -> Floats:
    """The signs as straight pieces (n, 4), for what letters keep clear of."""
    found = [no_pieces()]
    for sign in signs:
        if sign.kind is SignKind.PIN:
            found.append(ring_pieces(sign.x * k, sign.y * k, _PIN * size, 16))
        for run in _runs(sign, k, size):
            places = np.array(run)
            found.append(np.concatenate([places[:-1], places[1:]], axis=1))
    return np.concatenate(found)


def _runs(sign: Sign, k: float, size: float) -> Iterator[Run]:
    """A sign as broken lines, in mm of paper."""
    at = np.array((sign.x * k, sign.y * k))
    u = np.array((math.cos(sign.along), math.sin(sign.along)))
    v = np.array((math.cos(sign.other), math.sin(sign.other)))
    n = np.array((-u[1], u[0]))
    match sign.kind:
        case SignKind.SQUARE:
            a = _ANGLE * size
            yield _run(at + a * u, at + a * (u + v), at + a * v)
        case SignKind.DIVISION:
            yield _run(at - _ACROSS * size * n, at + _ACROSS * size * n)
        case SignKind.NOTCH:
            for i in range(sign.count):
                here = at + (i - (sign.count - 1) / 2) * _APART * size * u
                yield _run(here - _NOTCH * size * n, here + _NOTCH * size * n)
        case SignKind.GRAIN:
            far = sign.far * k
            # Beside its line, which may be an edge of the piece.
            at = at + _GRAIN_IN * size * v
            first, last = at + _FREE * far * u, at + (1 - _FREE) * far * u
            yield _run(first, last)
            yield _head(first, -u, size)
            yield _head(last, u, size)
        case SignKind.FOLD:
            far, deep = sign.far * k, _FOLD_IN * size
            first, last = at + _FREE * far * u, at + (1 - _FREE) * far * u
            yield _run(first, first + deep * v, last + deep * v, last)
            yield _head(first, -v, size)
            yield _head(last, -v, size)


def _head(tip: Floats, way: Floats, size: float) -> Run:
    """The head of an arrow: two strokes back from its tip."""
    side = np.array((-way[1], way[0]))
    back = tip - _HEAD * size * way
    return _run(back + 0.35 * _HEAD * size * side, tip, back - 0.35 * _HEAD * size * side)


def _run(*places: Floats) -> Run:
    return [(float(p[0]), float(p[1])) for p in places]

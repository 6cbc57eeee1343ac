"""Choosing among meets: a stated word chooses; none, or two and no word, is the row's question."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from tapewright.diagnostics import Query, Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array, Mask
from tapewright.geometry import Meets, Point, distance
from tapewright.geometry.tolerance import LENGTH_AGREES
from tapewright.language.tree import Crossing

Miss = Callable[[Meets, int], Query]

_FAR = 1e12


def choose(
    board: Board, met: Meets, crossing: Crossing | None, span: Span, miss: Miss, start: Point | None = None
) -> tuple[Point, Array, Array]:
    """The meet that is meant, and its parameter on either line, each `(bodies,)`.

    `start` is a point that does not count as a meet while there is another: where the line set out from.
    """
    on = met.on
    if start is not None:
        away = np.hypot(met.x - start.x, met.y - start.y) > LENGTH_AGREES
        other = on & away
        if np.count_nonzero(other) < np.count_nonzero(on):
            on = np.where(other.any(axis=0), other, on)
    if (crossing is None or crossing.point is None) and _only_first(on):
        return Point(met.x[0], met.y[0]), met.ta[0], met.tb[0]
    count = on.sum(axis=0)
    board.fail(count > 0, lambda row: miss(met, row))
    if crossing is None:
        board.fail(count < 2, lambda row: asking.two_crossings(met, on, row, span))
        k = np.argmax(on, axis=0)
    else:
        k = _pick(board, met, on, crossing)
    rows = np.arange(board.count)
    return Point(met.x[k, rows], met.y[k, rows]), met.ta[k, rows], met.tb[k, rows]


def _only_first(on: Mask) -> bool:
    """Whether every row has one meet and it is the first: then there is nothing to choose."""
    return bool(np.count_nonzero(on) == on.shape[1] == np.count_nonzero(on[0]))


def _pick(board: Board, met: Meets, on: Mask, crossing: Crossing) -> Array:
    """The index of the crossing a word chooses."""
    if crossing.point is not None:
        p = board.point(crossing.point)
        key = np.stack([distance(Point(met.x[k], met.y[k]), p) for k in range(met.x.shape[0])])
        if crossing.which == "farther":
            key = -key
    else:
        key = {"upper": met.y, "lower": -met.y, "left": met.x, "right": -met.x}[crossing.which]
    picked: Array = np.argmin(np.where(on, key, _FAR), axis=0)
    return picked

"""Where the edges between pages run, and where the crosses stand on them.

A drawing seldom fills its pages to the last millimetre. What is left over is used to move the edges to
where they cut through no name and run along no line; and a cross that would strike a word out is moved
along its edge. Everything is told in the drawing's own mm, so that neighbours agree.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from tapewright.drawing import Mark, Words, box_of, every
from tapewright.pages.block import Block
from tapewright.pages.layout import At, Grid, Layout, stroked_pieces
from tapewright.pages.room import Floats, no_pieces

ARM = 4.0  # half of a cross
_STEP = 1.0  # between the places tried for an edge or a cross, mm
_FARTHEST = 60.0  # that a cross is moved along its edge
_CLEAR = 1.0  # bare paper between an edge or a cross and a word
# What an edge along a drawn line costs for each mm, where cutting through a word costs 1.
_ALONG = 0.05


def words_boxes(marks: Sequence[Mark]) -> Floats:
    """The boxes (n, 4) of all that is written."""
    boxes = [box_of(mark) for mark in every(tuple(marks)) if isinstance(mark, Words) and mark.setting.runs]
    rows = [(b.left, b.top, b.right, b.bottom) for b in boxes if b is not None]
    return np.array(rows).reshape(-1, 4) if rows else no_pieces()


def best_start(content: Block, grid: Grid) -> Grid:
    """The grid moved left and up by what its pages have to spare, so that its edges do least harm.

    Of places as good as each other the one with least bare paper before the drawing.
    """
    words, pieces = words_boxes(content.marks), stroked_pieces(content.marks)
    last = grid.window((grid.down - 1, grid.across - 1))
    sx, sy = grid.step
    left = _start(words[:, [0, 2]], pieces, 0, sx, grid.across, last.right - content.width)
    top = _start(words[:, [1, 3]], pieces, 1, sy, grid.down, last.bottom - content.height)
    return replace(grid, left=left, top=top)


def _start(spans: Floats, pieces: Floats, axis: int, step: float, count: int, spare: float) -> float:
    """Where the first window begins along one axis; 0 where there is nothing to spare or to join."""
    if count == 1 or spare <= 0:
        return 0.0
    starts = -np.arange(0.0, spare, _STEP)
    edges = starts[:, None] + step * np.arange(1, count)
    cost = np.zeros(len(starts))
    for low, high in spans:
        cost += ((edges > low - _CLEAR) & (edges < high + _CLEAR)).sum(axis=1)
    # Only lines that run the edge's way can lie along it.
    flat = pieces[np.abs(pieces[:, axis] - pieces[:, axis + 2]) < _CLEAR]
    for piece in flat:
        middle = (piece[axis] + piece[axis + 2]) / 2
        length = float(np.hypot(piece[2] - piece[0], piece[3] - piece[1]))
        cost += (np.abs(edges - middle) < 2 * _CLEAR).sum(axis=1) * length * _ALONG
    return float(starts[int(np.argmin(cost))])


def cross_spots(layout: Layout, at: At, words: Floats) -> tuple[tuple[float, float], ...]:
    """The middles of a page's crosses, in the drawing's mm: on every edge shared with a page that is
    printed, near both its ends and in its middle, moved along it where they would strike words out."""
    row, column = at
    grid, seen = layout.grid, layout.grid.joined(at)
    # At the outer ends of an edge a whole cross stands on the paper, clear of the strip below.
    low_x = seen.left + (ARM if column == 0 else 0.0)
    high_x = seen.right - (ARM if column == grid.across - 1 else 0.0)
    low_y = seen.top + (ARM if row == 0 else 0.0)
    high_y = seen.bottom - (ARM if row == grid.down - 1 else 0.0)
    sx, sy = grid.step
    spots: set[tuple[float, float]] = set()
    for neighbour, x in (((row, column - 1), seen.left), ((row, column + 1), seen.left + sx)):
        if neighbour in layout.here:
            spots |= {(x, y) for y in _three(low_y, high_y, partial(_strikes, words, x))}
    for neighbour, y in (((row - 1, column), seen.top), ((row + 1, column), seen.top + sy)):
        if neighbour in layout.here:
            spots |= {(x, y) for x in _three(low_x, high_x, partial(_strikes, words, y=y))}
    return tuple(sorted(spots))


def _three(low: float, high: float, strikes: Callable[[float], bool]) -> tuple[float, float, float]:
    """Near both ends and in the middle of a stretch, each at the nearest place where nothing is struck."""
    middle = (low + high) / 2
    far = min(_FARTHEST, (high - low) / 4)
    away = np.arange(0.0, far, _STEP)

    def first(tries: Sequence[float]) -> float:
        return next((t for t in tries if not strikes(t)), tries[0])

    both = [t for by in away for t in (middle + by, middle - by)]
    return first([low + by for by in away]), first(both), first([high - by for by in away])


def _strikes(words: Floats, x: float, y: float) -> bool:
    reach = ARM + _CLEAR
    return bool(
        (
            (words[:, 0] < x + reach)
            & (words[:, 2] > x - reach)
            & (words[:, 1] < y + reach)
            & (words[:, 3] > y - reach)
        ).any()
    )

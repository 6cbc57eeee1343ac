"""Pieces laid beside each other on paper, upright as drafted: in rows, the tallest first.

This is for looking at and cutting out, not for cloth: how they lie on cloth is found elsewhere.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tapewright.drawing import Box, Transform, box_round, place
from tapewright.pages.block import Block
from tapewright.pages.layout import FOOT, OVERLAP
from tapewright.pages.paper import Paper
from tapewright.pages.piece_drawn import DrawnPiece
from tapewright.pages.room import Floats

GAP = 10.0  # between two pieces, mm of paper
Size = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Windows:
    """Pages that join: each shows `width` by `height`, and the next begins `OVERLAP` before it ends."""

    width: float
    height: float
    bare: bool = True

    @staticmethod
    def of(paper: Paper, *, bare: bool = True) -> Windows:
        """The windows of a cut sheet, the strip under each left for its name.

        `bare`: what a page laps over another stays bare where it can.
        """
        across, down = paper.room
        assert across is not None
        assert down is not None
        return Windows(across, down - FOOT, bare)

    def across(self, x: float, wide: float) -> float:
        """Where something so wide, wanted at x, stands whole on one page; x where none holds it."""
        return _clear(x, wide, self.width, bare=self.bare)

    def down(self, y: float, high: float) -> float:
        """As `across`, down the paper."""
        return _clear(y, high, self.height, bare=self.bare)

    def joins(self, box: Box) -> Floats:
        """The edges of pages within a box, as straight pieces (n, 4): both edges of every overlap."""
        found = [(x, box.top, x, box.bottom) for x in _edges(self.width, box.left, box.right)]
        found += [(box.left, y, box.right, y) for y in _edges(self.height, box.top, box.bottom)]
        return np.array(found).reshape(-1, 4)


def _edges(window: float, low: float, high: float) -> list[float]:
    """Where pages begin and where those before them end, between two places."""
    step = window - OVERLAP
    starts = [page * step for page in range(1, int(high / step) + 2)]
    return [edge for start in starts for edge in (start, start + OVERLAP) if low < edge < high]


def _clear(start: float, long: float, window: float, *, bare: bool) -> float:
    """The first start, not before this one, from which a length lies on one page: best clear of its laps."""
    step = window - OVERLAP
    if long > window:
        return start
    page = int(start / step)
    if bare and (long <= step - OVERLAP or (page == 0 and start + long <= step)):
        # What is laid over, and what it is laid on, stay bare.
        first = page * step + (OVERLAP if page else 0.0)
        start = max(start, first)
        return start if start + long <= (page + 1) * step else (page + 1) * step + OVERLAP
    return start if start - page * step + long <= window else (page + 1) * step


def shelved(
    sizes: Sequence[Size], width: float, windows: Windows | None = None
) -> tuple[list[tuple[float, float]], Size]:
    """Where the upper left corner of each stands in rows no wider than `width`; and how large the whole is.

    One that is wider than the width has a row of its own, and stands out. With `windows` each that a single
    page can hold stands whole on one, lower in its row if need be.
    """
    order = sorted(range(len(sizes)), key=lambda i: (-sizes[i][1], i))
    spots: list[tuple[float, float]] = [(0.0, 0.0)] * len(sizes)
    x = y = row = widest = lowest = 0.0
    for i in order:
        w, h = sizes[i]
        here = windows.across(x, w) if windows else x
        if x > 0.0 and here + w > width:
            here, y, row = 0.0, lowest + GAP, 0.0
        if row == 0.0:
            row = h
            y = windows.down(y, h) if windows else y
        top = windows.down(y, h) if windows else y
        spots[i] = (here, top)
        x = here + w + GAP
        widest, lowest = max(widest, here + w), max(lowest, top + h)
    return spots, (widest, lowest)


def laid(drawn: Sequence[DrawnPiece], spots: Sequence[tuple[float, float]]) -> Block:
    """The pieces with their upper left corners at these spots, as one block."""
    marks = tuple(
        place(one.group, Transform.moving(x - one.box.left, y - one.box.top))
        for one, (x, y) in zip(drawn, spots, strict=True)
    )
    box = box_round(
        Box(x, y, x + one.box.width, y + one.box.height) for one, (x, y) in zip(drawn, spots, strict=True)
    )
    return Block(box.right if box else 0.0, box.bottom if box else 0.0, marks)


def fewest_pages(sizes: Sequence[Size], paper: Paper) -> tuple[Paper, list[tuple[float, float]]]:
    """The way of laying a cut sheet, and where the pieces stand, that need the fewest pages."""
    best: tuple[int, bool, float] | None = None
    answer: tuple[Paper, list[tuple[float, float]]] = (paper, [])
    for way, bare in itertools.product((paper, paper.turned()), (True, False)):
        windows = Windows.of(way, bare=bare)
        step_x, step_y = windows.width - OVERLAP, windows.height - OVERLAP
        for count in range(1, 40):
            width = OVERLAP + count * step_x
            spots, (wide, high) = shelved(sizes, width, windows)
            touched = {
                (i, j)
                for (x, y), (w, h) in zip(spots, sizes, strict=True)
                for i in range(int(x / step_x), max(math.ceil((x + w - OVERLAP) / step_x), 1))
                for j in range(int(y / step_y), max(math.ceil((y + h - OVERLAP) / step_y), 1))
            }
            cost = (len(touched), not bare, wide * high)
            if best is None or cost < best:
                best, answer = cost, (way, spots)
            if len({y for _, y in spots}) == 1:
                break
    return answer


def fair_width(sizes: Sequence[Size]) -> float:
    """The width of rows with which the whole comes nearest to half as wide again as high."""
    widest = max(w for w, _ in sizes)
    whole = sum(w + GAP for w, _ in sizes)
    widths = [widest + (whole - widest) * i / 24 for i in range(25)]
    return min(widths, key=lambda w: _squareness(shelved(sizes, w)[1]))


def _squareness(size: Size) -> float:
    wide, high = size
    return max(wide, 1.5 * high)

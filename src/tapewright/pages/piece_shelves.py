"""Pieces laid beside each other on paper, upright as drafted: in rows, the tallest first.

This is for looking at and cutting out, not for cloth: how they lie on cloth is found elsewhere.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from tapewright.drawing import Transform, place
from tapewright.pages.block import Block
from tapewright.pages.layout import FOOT, OVERLAP
from tapewright.pages.paper import Paper
from tapewright.pages.piece_drawn import DrawnPiece

GAP = 10.0  # between two pieces, mm of paper
Size = tuple[float, float]


def shelved(sizes: Sequence[Size], width: float) -> tuple[list[tuple[float, float]], Size]:
    """Where the upper left corner of each stands in rows no wider than `width`; and how large the whole is.

    One that is wider than the width has a row of its own, and stands out.
    """
    order = sorted(range(len(sizes)), key=lambda i: (-sizes[i][1], i))
    spots: list[tuple[float, float]] = [(0.0, 0.0)] * len(sizes)
    x = y = row = widest = 0.0
    for i in order:
        w, h = sizes[i]
        if x > 0.0 and x + w > width:
            x, y, row = 0.0, y + row + GAP, 0.0
        spots[i] = (x, y)
        x, row = x + w + GAP, max(row, h)
        widest = max(widest, x - GAP)
    return spots, (widest, y + row)


def laid(drawn: Sequence[DrawnPiece], width: float) -> Block:
    """The pieces in rows no wider than `width`, as one block."""
    spots, (wide, high) = shelved([one.size for one in drawn], width)
    marks = tuple(
        place(one.group, Transform.moving(x - one.box.left, y - one.box.top))
        for one, (x, y) in zip(drawn, spots, strict=True)
    )
    return Block(wide, high, marks)


def best_width(sizes: Sequence[Size], paper: Paper) -> float:
    """The width of the rows that makes most of the paper: its own on a roll, on one page that which comes nearest
    to half as wide again as high; over several pages the one that needs the fewest."""
    across, _ = paper.room
    if across is not None and not paper.cut_sheet:
        return across
    if across is None:
        widths = _widths(sizes)
        return min(widths, key=lambda w: _squareness(shelved(sizes, w)[1]))
    found: list[tuple[int, float, float]] = []
    for way in (paper, paper.turned()):
        room_x, room_y = way.room
        assert room_x is not None and room_y is not None
        step_x, step_y = room_x - OVERLAP, room_y - FOOT - OVERLAP
        for count in range(1, 40):
            width = OVERLAP + count * step_x
            spots, (wide, high) = shelved(sizes, width)
            touched = {
                (i, j)
                for (x, y), (w, h) in zip(spots, sizes, strict=True)
                for i in range(int(x / step_x), math.ceil((x + w - OVERLAP) / step_x) or 1)
                for j in range(int(y / step_y), math.ceil((y + h - OVERLAP) / step_y) or 1)
            }
            found.append((len(touched), wide * high, width))
            if wide <= width and count > 1 and len({y for _, y in spots}) == 1:
                break
    return min(found)[2]


def _widths(sizes: Sequence[Size]) -> list[float]:
    """Widths worth trying: from the widest alone to all in one row."""
    widest = max(w for w, _ in sizes)
    whole = sum(w + GAP for w, _ in sizes)
    return [widest + (whole - widest) * i / 24 for i in range(25)]


def _squareness(size: Size) -> float:
    wide, high = size
    return max(wide, 1.5 * high) ** 2

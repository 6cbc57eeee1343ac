"""A form for a fitting: each piece small, and boxes for what is to be changed, where, and from where to nothing.

One page to lie beside the mirror. What is written on it goes back to the draft as amendments.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from tapewright.drawing import (
    INK,
    SOFT,
    Box,
    Drawing,
    Line,
    Mark,
    Stroke,
    from_cubics,
    rectangle,
    set_text,
    straight,
    words_at,
)
from tapewright.pages.dress import heading
from tapewright.pages.layout import Page
from tapewright.pages.paper import MARGIN
from tapewright.pages.paper_piece import PaperPiece

WIDE, HIGH = 210.0, 297.0
ROWS: Final = 11
_ROW, _HEAD = 9.5, 6.0
_COLUMNS: Final = (
    ("piece", 32.0),
    ("edge", 38.0),
    ("how much, in or out", 38.0),
    ("from where", 40.0),
    ("to nothing where", 46.0),
)
_TOLD = 3.4


def fitting_form(title: str, wearer_line: str, pieces: Sequence[PaperPiece], warning: str = "") -> Page:
    """The form for some pieces; they are drawn as large as all of them fit in the upper half."""
    wide = WIDE - 2 * MARGIN
    head = heading(
        f"{title}, a fitting", wearer_line, wide, 6.6, "Date of the fitting:                  ", warning
    )
    marks: list[Mark] = list(head.at(MARGIN, MARGIN))
    top = MARGIN + head.height + 4.0
    table = HIGH - MARGIN - _HEAD - ROWS * _ROW - 16.0
    marks += _pieces(pieces, Box(MARGIN, top, WIDE - MARGIN, table - 4.0))
    y = table
    x = MARGIN
    for name, column in _COLUMNS:
        marks.append(words_at(set_text(name, "hand-bold", _TOLD), x + 1.5, y + 4.2))
        x += column
    for k in range(ROWS + 1):
        line = y + _HEAD + k * _ROW
        marks.append(Stroke(straight(MARGIN, line, WIDE - MARGIN, line), Line(0.2, SOFT)))
    x = MARGIN
    for _, column in (*_COLUMNS, ("", 0.0)):
        marks.append(Stroke(straight(x, y, x, y + _HEAD + ROWS * _ROW), Line(0.2, SOFT)))
        x += column
    foot = y + _HEAD + ROWS * _ROW
    for k, told in enumerate(
        (
            "Pin on the body, over what was measured over. Mark the pins on both layers before they come out.",
            "Say how much in or out at one place, and from there to nothing where: so it becomes an amendment.",
        )
    ):
        marks.append(words_at(set_text(told, "hand", _TOLD), MARGIN, foot + 5.5 + k * 5.0, ink=SOFT))
    return Page(Drawing(WIDE, HIGH, tuple(marks), "the fitting form"), "the fitting form")


def _pieces(pieces: Sequence[PaperPiece], room: Box) -> list[Mark]:
    """Every piece in a cell of its own, all at one scale, its name beneath it."""
    count = len(pieces)
    boxes = []
    for piece in pieces:
        places = np.concatenate([e.net.reshape(-1, 2) for e in piece.edges])
        boxes.append((places.min(axis=0), places.max(axis=0)))
    best = (0.0, 1)
    for across in range(1, count + 1):
        down = -(-count // across)
        cell = room.width / across - 6.0, room.height / down - 10.0
        scale = min(min(cell[0] / float(b[0] - a[0]), cell[1] / float(b[1] - a[1])) for a, b in boxes)
        best = max(best, (scale, across))
    scale, across = best
    down = -(-count // across)
    wide, high = room.width / across, room.height / down
    marks: list[Mark] = []
    for k, (piece, (low, top)) in enumerate(zip(pieces, boxes, strict=True)):
        left, upper = room.left + (k % across) * wide, room.top + (k // across) * high
        middle = (low + top) / 2.0 * scale
        move = np.array([left + wide / 2.0 - middle[0], upper + (high - 8.0) / 2.0 - middle[1]])
        for edge in piece.edges:
            dash = (2.0, 1.2) if edge.fold else ()
            marks.append(Stroke(from_cubics(edge.net * scale + move), Line(0.45, INK, dash)))
        for _, line in piece.lines:
            marks.append(Stroke(from_cubics(line * scale + move), Line(0.2, SOFT, (1.6, 0.8, 0.4, 0.8))))
        for n in piece.notches:
            spot = np.array([n.x, n.y]) * scale + move
            end = spot + 2.0 * np.array([n.out_x, n.out_y])
            marks.append(
                Stroke(straight(float(spot[0]), float(spot[1]), float(end[0]), float(end[1])), Line(0.3))
            )
        marks.append(
            words_at(
                set_text(piece.name, "hand", _TOLD), left + wide / 2.0, upper + high - 2.0, side="middle"
            )
        )
    frame = Stroke(rectangle(room), Line(0.2, SOFT))
    return [frame, *marks]

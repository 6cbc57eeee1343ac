"""What each piece is called and how it is cut, written inside its outline where the paper is empty.

Level, in the middle of the piece as far as its lines and letters leave room; smaller where the piece is
small. A piece without room for it gets none, and the caller tells it beside the plate.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tapewright.drawing import Box, Setting, set_lines, set_text
from tapewright.pages.lettering import CLEARANCE, Label, kept_clear
from tapewright.pages.room import Floats, boxes_touch, inside, lengths_inside, middle_of, near, squared

# Sizes tried, of the letters' own; the name of the piece against what is told of it; one line under the other.
_SIZES = (1.0, 0.8)
_NAME = 1.35
_LEADING = 1.35
# In ems: widths at which what is told is broken into lines, widest first.
_WIDTHS = (40.0, 12.0, 8.0)
_AROUND = 0.5  # bare paper kept round the whole, in ems
_CELLS = 240  # squares in which room is looked for, along the longer side of a piece
_LEAST_CELL = 0.3  # of the em


@dataclass(frozen=True, slots=True, eq=False)
class Titled:
    """A piece: its outline as straight pieces (n, 4) on the paper, closed; its name; how it is cut."""

    name: str
    told: str
    outline: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Busy:
    """What a caption keeps clear of: pieces (n, 4) of lines, leaders and ties; boxes (k, 4) of labels and
    insets."""

    pieces: Floats
    boxes: Floats


def place_captions(pieces: Sequence[Titled], busy: Busy, size: float) -> list[tuple[Label, ...]]:
    """The lines of each piece's caption, in the order given; none where it has no room."""
    placed: list[tuple[Label, ...]] = []
    for one in pieces:
        taken = np.array([_row(label.box) for lines in placed for label in lines]).reshape(-1, 4)
        held = Busy(busy.pieces, np.concatenate([busy.boxes, taken]))
        placed.append(_caption(one, held, size))
    return placed


def _row(box: Box) -> tuple[float, float, float, float]:
    return box.left, box.top, box.right, box.bottom


def _caption(one: Titled, busy: Busy, size: float) -> tuple[Label, ...]:
    if not len(one.outline):
        return ()
    for em in (size * part for part in _SIZES):
        last = 0
        for width in _WIDTHS:
            told = set_lines(one.told, "hand", em, width * em)
            if len(told) == last:
                continue
            last = len(told)
            lines = [set_text(one.name, "book", em * _NAME), *told]
            spot = _room_for(lines, one.outline, busy, em)
            if spot is not None:
                return _written(lines, spot, em)
    return ()


def _size(lines: Sequence[Setting], em: float) -> tuple[float, float]:
    """Width and height of some lines, with bare paper round them."""
    height = (_NAME + (len(lines) - 1) * _LEADING + 2 * _AROUND) * em
    return max(line.width for line in lines) + 2 * _AROUND * em, height


def _room_for(lines: Sequence[Setting], outline: Floats, busy: Busy, em: float) -> tuple[float, float] | None:
    """The middle of an empty rectangle inside the outline, nearest to the middle of the piece."""
    width, height = _size(lines, em)
    xs, ys = outline[:, [0, 2]], outline[:, [1, 3]]
    region = np.array([xs.min(), ys.min(), xs.max(), ys.max()])
    cell = max(float(max(region[2] - region[0], region[3] - region[1])) / _CELLS, _LEAST_CELL * em)
    corners = squared(region, near(busy.pieces, region), busy.boxes, cell).free(width, height)
    if not len(corners):
        return None
    middles = corners + np.array([width, height]) / 2
    middles = middles[inside(middles, outline)]
    order = np.argsort(np.hypot(*(middles - middle_of(outline)).T), kind="stable")
    for k in order:
        half = np.array([width, height]) / 2
        box = np.concatenate([middles[k] - half, middles[k] + half])[None, :]
        if lengths_inside(box, near(busy.pieces, box[0]))[0].any() or boxes_touch(box, busy.boxes).any():
            continue
        return float(middles[k, 0]), float(middles[k, 1])
    return None


def _written(lines: Sequence[Setting], spot: tuple[float, float], em: float) -> tuple[Label, ...]:
    """The lines of a caption, one under the other and each in the middle, round (x, y)."""
    x, y = spot
    _, height = _size(lines, em)
    foot = y - height / 2 + (_AROUND + _NAME) * em - CLEARANCE * em
    labels: list[Label] = []
    for i, line in enumerate(lines):
        left, base = x - line.width / 2, foot + i * _LEADING * em
        corners = kept_clear(line, em).moved(left, base).corners()
        labels.append(Label(line.said, line, left, base, 0.0, corners, spot))
    return tuple(labels)

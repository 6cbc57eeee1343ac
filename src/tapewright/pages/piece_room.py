"""Where there is room inside a piece for words and signs, level or turned.

What is already there is told as straight pieces; a box of words as the lines of a hatching, so close that
nothing fits between them. Everything is asked in a frame turned with the line of writing, where a box is
upright.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np

from tapewright.drawing import Box, Setting, Transform
from tapewright.pages.lettering import CLEARANCE, Label
from tapewright.pages.room import Floats, Squared, inside, lengths_inside, near, no_pieces, squared

_CELLS = 240  # squares in which room is looked for, along the longer side of a piece
_LEAST_CELL, _MOST_CELL = 0.5, 2.0  # mm
_HATCH = 0.8  # between the lines that stand for a box, mm


@dataclass(slots=True, eq=False)
class PieceRoom:
    """The inside of a piece. `outline`: its net line as straight pieces (n, 4), closed; `busy` what is in the way."""

    outline: Floats
    busy: Floats = field(default_factory=no_pieces)
    _frames: dict[float, Squared] = field(default_factory=dict)

    def take(self, pieces: Floats) -> None:
        """From now on these lines are in the way as well."""
        if len(pieces):
            self.busy = np.concatenate([self.busy, pieces])
            self._frames.clear()

    def forget(self) -> None:
        """After `busy` was changed from without."""
        self._frames.clear()

    def take_box(self, corners: Iterable[tuple[float, float]]) -> None:
        """From now on nothing may stand in this rectangle."""
        self.take(hatched(np.array(list(corners))))

    def spot(
        self, width: float, height: float, turn: float, toward: Floats, pad: float = 0.0
    ) -> tuple[float, float] | None:
        """The middle of a free box of this size, turned, nearest to a place (2,); None where there is none."""
        outline, busy = turned(self.outline, turn), turned(self.busy, turn)
        grid = self._squares(turn, outline, busy)
        w, h = width + 2 * pad, height + 2 * pad
        corners = grid.free(w, h)
        if not len(corners):
            return None
        half = np.array([w, h]) / 2
        middles = corners + half
        middles = middles[inside(middles, outline)]
        aim = turned(toward, turn)
        order = np.argsort(np.hypot(*(middles - aim).T), kind="stable")
        every = np.concatenate([outline, busy])
        for k in order:
            box = np.concatenate([middles[k] - half, middles[k] + half])[None, :]
            if not lengths_inside(box, near(every, box[0]))[0].any():
                back = turned(middles[k], -turn)
                return float(back[0]), float(back[1])
        return None

    def free(self, corners: Floats) -> bool:
        """Whether a rectangle, given by its corners in order, lies inside and touches nothing."""
        side = corners[1] - corners[0]
        turn = math.atan2(side[1], side[0])
        flat = turned(corners, turn)
        box = np.concatenate([flat.min(axis=0), flat.max(axis=0)])[None, :]
        middle = (box[:, :2] + box[:, 2:]) / 2
        outline = turned(self.outline, turn)
        if not inside(middle, outline)[0]:
            return False
        every = np.concatenate([outline, turned(self.busy, turn)])
        return not lengths_inside(box, near(every, box[0]))[0].any()

    def _squares(self, turn: float, outline: Floats, busy: Floats) -> Squared:
        if turn not in self._frames:
            xs, ys = outline[:, [0, 2]], outline[:, [1, 3]]
            region = np.array([xs.min(), ys.min(), xs.max(), ys.max()])
            longer = float(max(region[2] - region[0], region[3] - region[1]))
            cell = min(max(longer / _CELLS, _LEAST_CELL), _MOST_CELL)
            every = np.concatenate([outline, near(busy, region)])
            self._frames[turn] = squared(region, every, no_pieces(), cell)
        return self._frames[turn]


def turned(places: Floats, turn: float) -> Floats:
    """Places (..., 2) or pieces (n, 4) as seen along a line of writing turned by `turn` about the origin."""
    if not turn:
        return places
    cos, sin = math.cos(turn), math.sin(turn)
    flat = places.reshape(-1, 2)
    x, y = flat[:, 0], flat[:, 1]
    return np.stack([x * cos + y * sin, y * cos - x * sin], axis=1).reshape(places.shape)


def hatched(corners: Floats) -> Floats:
    """A rectangle (4, 2) as lines so close that nothing is set between them."""
    a, b, c, d = corners
    count = max(int(np.hypot(*(d - a)) / _HATCH) + 1, 2)
    t = np.linspace(0.0, 1.0, count)[:, None]
    return np.concatenate([a + t * (d - a), b + t * (c - b)], axis=1)


def set_label(
    setting: Setting, x: float, y: float, turn: float, size: float, point: tuple[float, float]
) -> Label:
    """A label whose line of writing starts at (x, y), with the corners that it keeps clear."""
    how = Transform.turning(turn).then(Transform.moving(x, y))
    box: Box = setting.ink.padded(CLEARANCE * size / 2)
    return Label(setting.said, setting, x, y, turn, tuple(how(*c) for c in box.corners()), point)


def kept_round(label: Label, more: float) -> tuple[tuple[float, float], ...]:
    """The corners of a label and of so much bare paper round it, mm."""
    a, b, c, d = (np.array(corner) for corner in label.corners)
    u, v = (b - a) / max(float(np.hypot(*(b - a))), more), (d - a) / max(float(np.hypot(*(d - a))), more)
    places = (a - more * (u + v), b + more * (u - v), c + more * (u + v), d - more * (u - v))
    return tuple((float(p[0]), float(p[1])) for p in places)

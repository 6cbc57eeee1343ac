"""Where there is room: boxes, straight pieces of lines, and what they touch.

Plain questions asked many at a time, so that a label can try forty places in one go. Boxes are rows of
left, top, right, bottom; pieces are rows of x0, y0, x1, y1; all in mm on the paper, y down. Touching
counts as touching: nothing here is widened by a tolerance, the callers pad what they ask about.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


def no_pieces() -> Floats:
    return np.zeros((0, 4))


# How far a curve may stray from the straight pieces that stand for it, in mm: well under the bare paper
# kept round a label even when an inset makes it twenty times as large.
_STRAY = 0.01
_MOST = 256


def pieces_of(cubics: Floats) -> Floats:
    """Cubics (n, 4, 2) as straight pieces (m, 4) within 0.01 mm of them; those of no length left out.

    For asking what a label covers; never used to draw. The number of pieces follows from how far the
    handles stand from where a straight line would have them (the second differences of the cubic).
    """
    rows = np.asarray(cubics, dtype=np.float64).reshape(-1, 4, 2)
    found = [no_pieces()]
    for row in rows:
        bends = row[:-2] - 2 * row[1:-1] + row[2:]
        bend = float(np.hypot(bends[:, 0], bends[:, 1]).max())
        each = min(max(math.ceil(math.sqrt(0.75 * bend / _STRAY)), 1), _MOST)
        t = np.linspace(0.0, 1.0, each + 1)[:, None]
        s = 1.0 - t
        places = s * s * s * row[0] + 3 * s * s * t * row[1] + 3 * s * t * t * row[2] + t * t * t * row[3]
        found.append(np.concatenate([places[:-1], places[1:]], axis=1))
    pieces = np.concatenate(found)
    return np.asarray(pieces[np.any(pieces[:, :2] != pieces[:, 2:], axis=1)])


def ring_pieces(x: float, y: float, radius: float, count: int = 48) -> Floats:
    """A circle as straight pieces that stand on it."""
    angles = np.linspace(0.0, 2 * np.pi, count + 1)
    places = np.stack([x + radius * np.cos(angles), y + radius * np.sin(angles)], axis=1)
    return np.concatenate([places[:-1], places[1:]], axis=1)


def near(pieces: Floats, box: Floats) -> Floats:
    """The pieces whose own box touches the box (4,)."""
    left = np.minimum(pieces[:, 0], pieces[:, 2])
    right = np.maximum(pieces[:, 0], pieces[:, 2])
    top = np.minimum(pieces[:, 1], pieces[:, 3])
    bottom = np.maximum(pieces[:, 1], pieces[:, 3])
    keep = (left <= box[2]) & (right >= box[0]) & (top <= box[3]) & (bottom >= box[1])
    return np.asarray(pieces[keep])


def lengths_inside(boxes: Floats, pieces: Floats) -> tuple[Bools, Floats]:
    """For boxes (k, 4) and pieces (n, 4): whether each touches each, and how much of it lies inside, (k, n).

    Each piece is cut by the box's four sides in turn (the way of Liang and Barsky).
    """
    k, n = len(boxes), len(pieces)
    start = np.zeros((k, n))
    end = np.ones((k, n))
    touches = np.ones((k, n), dtype=bool)
    for axis in (0, 1):
        origin = pieces[:, axis]
        step = pieces[:, axis + 2] - origin
        moving = np.broadcast_to(step != 0, (k, n))
        for side, sign in ((boxes[:, axis], 1.0), (boxes[:, axis + 2], -1.0)):
            room = (side[:, None] - origin[None, :]) * sign  # more than 0: the piece starts outside
            touches &= moving | (room <= 0)
            at = np.zeros((k, n))
            np.divide(room * sign, np.broadcast_to(step, (k, n)), out=at, where=moving)
            entering = moving & (step * sign > 0)
            leaving = moving & (step * sign < 0)
            np.maximum(start, at, out=start, where=entering)
            np.minimum(end, at, out=end, where=leaving)
    touches &= start <= end
    length = np.hypot(pieces[:, 2] - pieces[:, 0], pieces[:, 3] - pieces[:, 1])
    return touches, np.where(touches, end - start, 0.0) * length[None, :]


def boxes_touch(boxes: Floats, others: Floats) -> Bools:
    """For boxes (k, 4) and others (n, 4): whether they share a place, (k, n)."""
    a, b = boxes[:, None, :], others[None, :, :]
    return np.asarray(
        (a[..., 0] <= b[..., 2])
        & (b[..., 0] <= a[..., 2])
        & (a[..., 1] <= b[..., 3])
        & (b[..., 1] <= a[..., 3])
    )


def box_distances(boxes: Floats, places: Floats) -> Floats:
    """For boxes (k, 4) and places (n, 2): how far each place lies from each box, 0 inside, (k, n)."""
    x, y = places[None, :, 0], places[None, :, 1]
    dx = np.maximum(np.maximum(boxes[:, None, 0] - x, x - boxes[:, None, 2]), 0.0)
    dy = np.maximum(np.maximum(boxes[:, None, 1] - y, y - boxes[:, None, 3]), 0.0)
    return np.asarray(np.hypot(dx, dy))


def piece_distances(pieces: Floats, places: Floats) -> Floats:
    """For pieces (k, 4) and places (n, 2): how far each place lies from each piece, (k, n)."""
    start, along = pieces[:, None, :2], (pieces[:, 2:] - pieces[:, :2])[:, None, :]
    to = places[None, :, :] - start
    square = np.sum(along * along, axis=2)
    share = np.sum(to * along, axis=2)
    t = np.zeros_like(share)
    np.divide(share, np.broadcast_to(square, share.shape), out=t, where=square > 0)
    t = np.clip(t, 0.0, 1.0)
    away = to - t[..., None] * along
    return np.asarray(np.hypot(away[..., 0], away[..., 1]))


def pieces_cross(pieces: Floats, others: Floats) -> Bools:
    """For pieces (k, 4) and others (n, 4): whether they share a place, (k, n).

    Two that run along each other on one line are taken to cross only where an end of one lies on the
    other; which is always so if they overlap.
    """

    def side(a: Floats, b: Floats, c: Floats) -> Floats:
        return np.asarray(
            (b[..., 0] - a[..., 0]) * (c[..., 1] - a[..., 1])
            - (b[..., 1] - a[..., 1]) * (c[..., 0] - a[..., 0])
        )

    a, b = pieces[:, None, :2], pieces[:, None, 2:]
    c, d = others[None, :, :2], others[None, :, 2:]
    parted = (side(a, b, c) * side(a, b, d) > 0) | (side(c, d, a) * side(c, d, b) > 0)
    low = np.minimum(a, b) <= np.maximum(c, d)
    high = np.maximum(a, b) >= np.minimum(c, d)
    return np.asarray(~parted & np.all(low & high, axis=2))


def inside(places: Floats, outline: Floats) -> Bools:
    """Which places (n, 2) lie inside a closed outline: a line to the right crosses it an odd number of times."""
    found = np.zeros(len(places), dtype=bool)
    for x0, y0, x1, y1 in outline:
        if y0 == y1:
            continue
        between = (places[:, 1] < y0) != (places[:, 1] < y1)
        x = x0 + (places[:, 1] - y0) / (y1 - y0) * (x1 - x0)
        found ^= between & (places[:, 0] < x)
    return found


def middle_of(outline: Floats) -> Floats:
    """The centre of gravity of what an outline encloses; of its corners, where it encloses nothing."""
    x0, y0, x1, y1 = outline.T
    cross = x0 * y1 - x1 * y0
    twice = float(cross.sum())
    if abs(twice) < 1.0:
        return np.array([outline[:, [0, 2]].mean(), outline[:, [1, 3]].mean()])
    return np.array([((x0 + x1) * cross).sum(), ((y0 + y1) * cross).sum()]) / (3 * twice)


@dataclass(frozen=True, slots=True)
class Squared:
    """The paper in squares of `cell` mm, each with or without something on it.

    `sums[i, j]` counts the squares with something in the first i rows and j columns, so that any
    rectangle is asked about with four look-ups.
    """

    left: float
    top: float
    cell: float
    sums: NDArray[np.int64]

    def free(self, width: float, height: float) -> Floats:
        """Upper left corners (n, 2) of every empty rectangle of this size that starts on a square."""
        across, down = int(np.ceil(width / self.cell)), int(np.ceil(height / self.cell))
        rows, columns = self.sums.shape[0] - 1, self.sums.shape[1] - 1
        if across > columns or down > rows:
            return np.zeros((0, 2))
        s = self.sums
        full = s[down:, across:] - s[:-down, across:] - s[down:, :-across] + s[:-down, :-across]
        i, j = np.nonzero(full == 0)
        return np.stack([self.left + j * self.cell, self.top + i * self.cell], axis=1)


def squared(region: Floats, pieces: Floats, boxes: Floats, cell: float) -> Squared:
    """Which squares of a region (4,) the pieces (n, 4) and the boxes (k, 4) lie on."""
    columns = max(int((region[2] - region[0]) / cell), 1)
    rows = max(int((region[3] - region[1]) / cell), 1)
    marked = np.zeros((rows, columns), dtype=np.int64)
    # Every piece is sampled at half a square, so none slips between two samples by more than a corner.
    for piece in pieces:
        count = int(np.hypot(piece[2] - piece[0], piece[3] - piece[1]) / cell * 2) + 2
        t = np.linspace(0.0, 1.0, count)
        j = np.floor((piece[0] + t * (piece[2] - piece[0]) - region[0]) / cell).astype(int)
        i = np.floor((piece[1] + t * (piece[3] - piece[1]) - region[1]) / cell).astype(int)
        inside = (i >= 0) & (i < rows) & (j >= 0) & (j < columns)
        marked[i[inside], j[inside]] = 1
    for box in boxes:
        j0, j1 = int(np.floor((box[0] - region[0]) / cell)), int(np.floor((box[2] - region[0]) / cell))
        i0, i1 = int(np.floor((box[1] - region[1]) / cell)), int(np.floor((box[3] - region[1]) / cell))
        marked[max(i0, 0) : max(i1 + 1, 0), max(j0, 0) : max(j1 + 1, 0)] = 1
    sums = np.zeros((rows + 1, columns + 1), dtype=np.int64)
    sums[1:, 1:] = marked.cumsum(axis=0).cumsum(axis=1)
    return Squared(float(region[0]), float(region[1]), cell, sums)

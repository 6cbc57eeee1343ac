"""Names of lines, set along them: level ones over the line, upright ones reading upward.

A name stands near the first end of its line, where the line is straight enough to carry it; on the
other side, or further along, where something is in the way; and, where no stretch has room, level and
clear of it with a leader.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tapewright.drawing import Box, Setting, Transform
from tapewright.pages.leaders import lead
from tapewright.pages.lettering import CLEARANCE, Label, Letter, kept_clear, upright
from tapewright.pages.room import (
    Bools,
    Floats,
    box_distances,
    boxes_touch,
    lengths_inside,
    near,
    pieces_of,
)
from tapewright.pages.sides import Ground

# In ems of the name's type.
_OFF = 0.38  # from the line to the foot of the name
_STEP = 0.8  # between two places tried along the line
_BOW = 0.32  # a line that bows more than this under its name is not straight enough to carry it
_SOFT_COST = 4.0  # for an em of a guide line covered
_STEP_COST = 0.5
_SECOND_SIDE = 3.0
_TRIED = 60


@dataclass(frozen=True, slots=True, eq=False)
class NamedLine:
    """A line (n, 4, 2) of cubics on the paper, in the way it was drawn, and its name set."""

    name: str
    setting: Setting
    cubics: Floats


@dataclass(frozen=True, slots=True, eq=False)
class _Place:
    x: float
    y: float
    turn: float
    cost: float


def place_names(lines: Sequence[NamedLine], ground: Ground, labels: Sequence[Label]) -> tuple[Label, ...]:
    """A label for each named line, in the order given.

    `ground.size` is the em of the names; `labels` are the letters already placed, whose boxes and
    leaders are kept clear. A line for whose name there is no place at all gets none, and the caller
    counts.
    """
    placed: list[Label] = []
    for line in lines:
        label = _along(line, ground, [*labels, *placed]) or _clear_of(line, ground, [*labels, *placed])
        if label is not None:
            placed.append(label)
    return tuple(placed)


def _walk(line: NamedLine) -> tuple[Floats, Floats]:
    """Places (m, 2) along a line and how far along each lies (m,), jumps between cubics left out."""
    pieces = pieces_of(line.cubics)
    if not len(pieces):
        return np.zeros((0, 2)), np.zeros(0)
    places = np.concatenate([pieces[:1, :2], pieces[:, 2:]])
    far = np.concatenate([[0.0], np.cumsum(np.hypot(*(pieces[:, 2:] - pieces[:, :2]).T))])
    return places, far


def _at(far: Floats, places: Floats, distance: float) -> Floats:
    """The place (2,) that far along a line."""
    return np.array([np.interp(distance, far, places[:, axis]) for axis in (0, 1)])


def readable(angle: float) -> float:
    """The angle turned about, if need be, so that words along it read from the left or upward."""
    if angle > math.pi / 2 - 0.01:
        return angle - math.pi
    if angle <= -math.pi / 2 - 0.01:
        return angle + math.pi
    return angle


def _turned(pieces: Floats, x: float, y: float, turn: float) -> Floats:
    """Pieces (n, 4) or places (n, 2) as seen from (x, y) along a line of writing turned by `turn`."""
    cos, sin = math.cos(turn), math.sin(turn)
    shape = pieces.shape
    flat = pieces.reshape(-1, 2) - np.array([x, y])
    return np.stack([flat @ np.array([cos, sin]), flat @ np.array([-sin, cos])], axis=1).reshape(shape)


def _corners(box: Box, x: float, y: float, turn: float) -> Floats:
    """The corners (4, 2) of a box round a line of writing that starts at (x, y), turned."""
    how = Transform.turning(turn).then(Transform.moving(x, y))
    return np.array([how(*corner) for corner in box.corners()])


def _apart(quad: Floats, others: Floats) -> Bools:
    """For a quad (4, 2) and others (n, 4, 2), all convex: whether a straight line parts each from it."""
    parted = np.zeros(len(others), dtype=bool)
    for side in (0, 1):
        # The sides of a rectangle run two ways; those of each of the others too.
        for edges in (
            np.broadcast_to(quad[side + 1] - quad[side], (len(others), 2)),
            others[:, side + 1] - others[:, side],
        ):
            mine = np.einsum("nk,vk->nv", edges, quad)
            theirs = np.einsum("nk,nvk->nv", edges, others)
            parted |= (mine.max(axis=1) < theirs.min(axis=1)) | (theirs.max(axis=1) < mine.min(axis=1))
    return parted


class _Around:
    """What a name has to keep clear of near one place, asked in the name's own turned frame."""

    def __init__(self, ground: Ground, labels: Sequence[Label]) -> None:
        self.ground = ground
        quads = [np.array(label.corners) for label in labels]
        quads += [np.array([(b[0], b[1]), (b[2], b[1]), (b[2], b[3]), (b[0], b[3])]) for b in ground.boxes]
        self.quads = np.array(quads).reshape(-1, 4, 2)
        leaders = [label.leader for label in labels if label.leader]
        self.thin = np.concatenate([ground.ties, np.array(leaders).reshape(-1, 4)])

    def cost(self, setting: Setting, place: _Place) -> float:
        """What the place costs; endless where the name may not stand."""
        ground, size = self.ground, self.ground.size
        placed = setting.ink.padded(CLEARANCE * size)
        corners = _corners(placed, place.x, place.y, place.turn)
        low, high = corners.min(axis=0), corners.max(axis=0)
        r = ground.region
        if (low < r[:2]).any() or (high > r[2:]).any():
            return math.inf
        reach = np.concatenate([low, high])
        box = np.array([[placed.left, placed.top, placed.right, placed.bottom]])
        seen = (place.x, place.y, place.turn)
        for pieces in (ground.hard, self.thin):
            close = near(pieces, reach)
            if len(close) and lengths_inside(box, _turned(close, *seen))[0].any():
                return math.inf
        if (box_distances(box, _turned(ground.points, *seen)) <= ground.dot * 1.3).any():
            return math.inf
        if len(ground.discs):
            discs = _turned(ground.discs[:, :2], *seen)
            if (box_distances(box, discs)[0] <= ground.discs[:, 2]).any():
                return math.inf
        upright_boxes = np.concatenate([self.quads.min(axis=1), self.quads.max(axis=1)], axis=1)
        touching = boxes_touch(reach[None, :], upright_boxes)[0]
        if touching.any() and not _apart(corners, self.quads[touching]).all():
            return math.inf
        soft = near(ground.soft, reach)
        covered = lengths_inside(box, _turned(soft, *seen))[1].sum() if len(soft) else 0.0
        return place.cost + float(covered) / size * _SOFT_COST


def _along(line: NamedLine, ground: Ground, labels: Sequence[Label]) -> Label | None:
    """The name along its line, at the cheapest place that has room; None if there is none."""
    around = _Around(ground, labels)
    best: _Place | None = None
    lowest = math.inf
    for place in _places(line, ground.size):
        if place.cost >= lowest:
            continue
        cost = around.cost(line.setting, place)
        if cost < lowest:
            best, lowest = place, cost
    if best is None:
        return None
    kept = kept_clear(line.setting, ground.size)
    corners = _corners(kept, best.x, best.y, best.turn)
    return Label(
        line.name,
        line.setting,
        best.x,
        best.y,
        best.turn,
        tuple((float(x), float(y)) for x, y in corners),
        (best.x, best.y),
    )


def _places(line: NamedLine, size: float) -> list[_Place]:
    """Where a name may stand along its line: further and further from the first end, on either side."""
    places, far = _walk(line)
    width = line.setting.width
    if not len(far) or far[-1] < width:
        return []
    found: list[_Place] = []
    start = min(1.2 * size, (far[-1] - width) / 2)
    step = max(_STEP * size, (far[-1] - width) / _TRIED)
    for k in range(int((far[-1] - width - start) / step) + 1):
        begin = start + k * step
        ends = [
            np.array([np.interp(at, far, places[:, axis]) for axis in (0, 1)])
            for at in (begin, begin + width)
        ]
        turn = math.atan2(ends[1][1] - ends[0][1], ends[1][0] - ends[0][0])
        upright = readable(turn)
        first = ends[0] if upright == turn else ends[1]
        inside = places[(far >= begin) & (far <= begin + width)]
        bow = _turned(np.concatenate([inside, first[None, :]]), float(first[0]), float(first[1]), upright)[
            :, 1
        ]
        if max(float(bow.max()), -float(bow.min())) > _BOW * size:
            continue
        # Over the line the descenders keep off it, under it the capitals.
        over = float(bow.min()) - _OFF * size - max(line.setting.ink.bottom, 0.0)
        under = float(bow.max()) + _OFF * size - line.setting.ink.top
        for side, lift in ((0, over), (1, under)):
            found.append(
                _Place(
                    float(first[0]) - lift * math.sin(upright),
                    float(first[1]) + lift * math.cos(upright),
                    upright,
                    k * _STEP_COST + side * _SECOND_SIDE,
                )
            )
    return sorted(found, key=lambda place: place.cost)


def _clear_of(line: NamedLine, ground: Ground, labels: Sequence[Label]) -> Label | None:
    """The name level and clear of its line, with a leader to a place on it; None if nowhere is room."""
    places, far = _walk(line)
    if not len(far):
        return None
    boxes = [np.array([label.box.left, label.box.top, label.box.right, label.box.bottom]) for label in labels]
    leaders = [np.array(label.leader) for label in labels if label.leader]
    best: Label | None = None
    shortest = math.inf
    for share in (0.5, 0.35, 0.65, 0.2, 0.8):
        x, y = (float(v) for v in _at(far, places, far[-1] * share))
        letter = Letter(line.name, x, y, 4, line.setting)
        led = lead(letter, ground, boxes, leaders)
        if led is None:
            continue
        x0, y0, x1, y1 = (float(v) for v in led.leader)
        if math.hypot(x1 - x0, y1 - y0) < shortest:
            shortest = math.hypot(x1 - x0, y1 - y0)
            best = upright(letter, led.box, ground.size, (x0, y0, x1, y1))
    return best

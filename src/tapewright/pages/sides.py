"""Labels close to their points: forty places each, the cheapest that touches nothing.

Eight sides at five distances. What a place costs: the ink it covers, standing nearer to another point
than to its own, leaving the side where such labels usually stand, distance. What it may never do:
touch an outline, a point, another label, a leader, or leave the paper. Labels are placed by rank and
then, a few times round, each is asked whether it would rather stand elsewhere now that the others are
there. The same input gives the same places: ties go to the earlier side and distance.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from tapewright.pages.lettering import CLEARANCE, Letter
from tapewright.pages.room import (
    Bools,
    Floats,
    box_distances,
    boxes_touch,
    lengths_inside,
    near,
    no_pieces,
    pieces_cross,
)

# Distances of the five rings and the dot's radius, in ems of the letter.
_RINGS = (0.39, 0.61, 0.89, 1.22, 1.56)
DOT = 0.15
# Eight sides, from upper right, the way of the clock: right and down are more than 0.
_DIAGONAL = 0.5**0.5
_SIDES = np.array(
    [
        (_DIAGONAL, -_DIAGONAL),
        (1, 0),
        (_DIAGONAL, _DIAGONAL),
        (0, 1),
        (-_DIAGONAL, _DIAGONAL),
        (-1, 0),
        (-_DIAGONAL, -_DIAGONAL),
        (0, -1),
    ]
)
_SOFT_COST = 7.2  # for an em of a guide line covered
_FOREIGN_COST = 14.0  # for standing nearer to another point than to its own
_UNSURE_COST = 6.0  # for another point nearly as near
_BEHIND_COST = 4.0  # for each outline between a label and its point
_SIDE_COST = 0.9  # for each eighth of a turn off the usual side
_RING_COST = 1.6  # for each ring further out
_TOUCH_COST = 1000.0  # for each label touched, while places are still being exchanged
_ROUNDS = 6
# A label is doubtful unless every other point is this many times as far from it as its own.
_SURE = 1.2


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """What labels of one size stand on: lines, points, things in the way, and the paper's edge.

    `disc` (x, y, radius), where given, is the round window everything must stay inside; `region` (4,)
    the upright one. `discs` (n, 3) and `boxes` (k, 4) are places taken; `ties` pieces that a label may
    not touch, as hard lines, but that a leader may not cross either.
    """

    size: float
    hard: Floats
    soft: Floats
    points: Floats
    region: Floats
    disc: tuple[float, float, float] | None = None
    boxes: Floats = field(default_factory=no_pieces)
    discs: Floats = field(default_factory=lambda: np.zeros((0, 3)))
    ties: Floats = field(default_factory=no_pieces)

    @property
    def dot(self) -> float:
        return DOT * self.size

    def clear(self, boxes: Floats) -> Bools:
        """For boxes (k, 4): whether each touches nothing it may not."""
        r = self.region
        good = np.asarray(
            (boxes[:, 0] >= r[0]) & (boxes[:, 1] >= r[1]) & (boxes[:, 2] <= r[2]) & (boxes[:, 3] <= r[3])
        )
        if self.disc is not None:
            x, y, radius = self.disc
            across = np.maximum(np.abs(boxes[:, 0] - x), np.abs(boxes[:, 2] - x))
            down = np.maximum(np.abs(boxes[:, 1] - y), np.abs(boxes[:, 3] - y))
            good &= np.hypot(across, down) <= radius
        reach = np.array([*boxes[:, :2].min(axis=0), *boxes[:, 2:].max(axis=0)])
        for pieces in (self.hard, self.ties):
            touched, _ = lengths_inside(boxes, near(pieces, reach))
            good &= ~touched.any(axis=1)
        good &= ~(box_distances(boxes, self.points) <= self.dot * 1.3).any(axis=1)
        good &= ~boxes_touch(boxes, self.boxes).any(axis=1)
        if len(self.discs):
            good &= ~(box_distances(boxes, self.discs[:, :2]) <= self.discs[None, :, 2]).any(axis=1)
        return good

    def covered(self, boxes: Floats) -> Floats:
        """For boxes (k, 4): what the guide lines under each cost."""
        reach = np.array([*boxes[:, :2].min(axis=0), *boxes[:, 2:].max(axis=0)])
        _, lengths = lengths_inside(boxes, near(self.soft, reach))
        return np.asarray(lengths.sum(axis=1) / self.size * _SOFT_COST)


def places_round(letter: Letter, sides: Floats, distances: Sequence[float], size: float) -> Floats:
    """Padded boxes (sides x distances, 4) round a point, its nearest edge that far from the point."""
    pad = CLEARANCE * size
    width, height = letter.setting.ink.width + 2 * pad, letter.setting.ink.height + 2 * pad
    rings = np.asarray(distances)[:, None, None] * sides[None, :, :]
    # Which part of the box is nearest: its edge where the side lies square to it, its corner between.
    share = np.sign(np.where(np.abs(sides) * 4 > 1, sides, 0.0))
    middle = np.array([letter.x, letter.y]) + rings + share[None, :, :] * np.array([width, height]) / 2
    half = np.array([width, height]) / 2
    return np.concatenate([middle - half, middle + half], axis=2).reshape(-1, 4)


def sight_lines(at: Floats, boxes: Floats, dot: float) -> Floats:
    """Straight pieces (k, 4) from the edge of a dot to the nearest place of each box (k, 4)."""
    nearest = np.clip(at[None, :], boxes[:, :2], boxes[:, 2:])
    away = nearest - at
    far = np.maximum(np.hypot(away[:, 0], away[:, 1]), dot)
    return np.concatenate([at + away * (dot / far)[:, None], nearest], axis=1)


def _side_costs(letter: Letter, centre: Floats) -> Floats:
    """Cost of each of the forty places for its side and its distance.

    The usual side is away from the middle of the drawing, where there is most bare paper.
    """
    away = np.array([letter.x, letter.y]) - centre
    usual = int(np.argmax(_SIDES @ away)) if away.any() else 0
    off = np.abs((np.arange(8) - usual + 4) % 8 - 4)
    rings = np.arange(len(_RINGS))
    return np.asarray((rings[:, None] * _RING_COST + off[None, :] * _SIDE_COST).reshape(-1))


def settle(letters: Sequence[Letter], ground: Ground, centre: Floats) -> list[Floats | None]:
    """A padded box (4,) for each letter, or None for one that no place is free for.

    No box touches another, nor anything that the ground forbids.
    """
    order = sorted(range(len(letters)), key=lambda i: (letters[i].rank, i))
    boxes: list[Floats] = []
    costs: list[Floats] = []
    for letter in letters:
        forty = places_round(letter, _SIDES, [ring * ground.size for ring in _RINGS], ground.size)
        cost = _side_costs(letter, centre) + ground.covered(forty)
        place = np.array([[letter.x, letter.y]])
        sight = sight_lines(place[0], forty, ground.dot)
        reach = np.array([*forty[:, :2].min(axis=0), *forty[:, 2:].max(axis=0)])
        cost += _BEHIND_COST * pieces_cross(sight, near(ground.hard, reach)).sum(axis=1)
        others = ground.points[np.any(ground.points != place, axis=1)]
        if len(others):
            own = box_distances(forty, place)
            nearest = box_distances(forty, others).min(axis=1, keepdims=True)
            cost += (_FOREIGN_COST * (nearest < own) + _UNSURE_COST * (nearest < own * _SURE * 1.2))[:, 0]
        costs.append(np.where(ground.clear(forty), cost, np.inf))
        boxes.append(forty)
    chosen = _exchange(order, boxes, costs)
    return _without_touching(order, chosen, boxes)


def _exchange(order: list[int], boxes: list[Floats], costs: list[Floats]) -> dict[int, int]:
    """Which of its places each letter takes; a few may still touch."""
    chosen: dict[int, int] = {}
    for _ in range(_ROUNDS):
        moved = False
        for i in order:
            if not np.isfinite(costs[i]).any():
                continue
            cost = costs[i].copy()
            others = [boxes[j][k] for j, k in chosen.items() if j != i]
            if others:
                cost += _TOUCH_COST * boxes_touch(boxes[i], np.array(others)).sum(axis=1)
            best = int(np.argmin(cost))
            if chosen.get(i) != best:
                chosen[i] = best
                moved = True
        if not moved:
            break
    return chosen


def _without_touching(order: list[int], chosen: dict[int, int], boxes: list[Floats]) -> list[Floats | None]:
    """The chosen boxes; of those that still touch, the one that touches most, then the last, gives way."""
    left = [i for i in order if i in chosen]
    while left:
        taken = np.array([boxes[i][chosen[i]] for i in left])
        touching = boxes_touch(taken, taken).sum(axis=1) - 1
        worst = max(range(len(left)), key=lambda k: (touching[k], k))
        if touching[worst] == 0:
            break
        left.pop(worst)
    kept = set(left)
    return [boxes[i][chosen[i]] if i in kept else None for i in range(len(boxes))]


def doubtful(letters: Sequence[Letter], boxes: Sequence[Floats | None], points: Floats) -> list[int]:
    """The letters without a place, and those whose label another point might as well claim.

    Points that lie on the same spot raise no doubt against each other: no place would settle it.
    """
    found: list[int] = []
    for i, (letter, box) in enumerate(zip(letters, boxes, strict=True)):
        if box is None:
            found.append(i)
            continue
        place = np.array([[letter.x, letter.y]])
        others = points[np.any(points != place, axis=1)]
        if len(others):
            own = float(box_distances(box[None, :], place)[0, 0])
            if float(box_distances(box[None, :], others).min()) < own * _SURE:
                found.append(i)
    return found

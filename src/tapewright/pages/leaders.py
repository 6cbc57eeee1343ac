"""Labels that stand clear of their points, tied to them by a leader.

Tried further and further out, all the way round, until a place is free. A leader is a straight thin
line: it never crosses a label or another leader, and passes no other point; an outline it may cross,
at a cost.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tapewright.pages.lettering import Letter
from tapewright.pages.room import Bools, Floats, lengths_inside, near, piece_distances, pieces_cross
from tapewright.pages.sides import Ground, places_round, sight_lines

_WAYS = 48
_OUT = tuple(0.9 * 1.18**k for k in range(28))  # 0.9 to 79 ems
_DIRECTIONS = np.array(
    [(math.sin(k * math.tau / _WAYS), -math.cos(k * math.tau / _WAYS)) for k in range(_WAYS)]
)
# In ems of length: what crossing a heavy line, and a guide line, is worth going round for.
_HARD_CROSSED = 2.5
_SOFT_CROSSED = 0.6


@dataclass(frozen=True, slots=True, eq=False)
class Led:
    """A padded box (4,) that stands clear, and the leader (4,) from the point to it."""

    box: Floats
    leader: Floats


def _passes(leaders: Floats, ground: Ground, taken: Floats, drawn: Floats, others: Floats) -> Bools:
    """Whether each leader keeps off labels, other leaders, other points and discs."""
    good = ~pieces_cross(leaders, np.concatenate([drawn, ground.ties])).any(axis=1)
    boxes = np.concatenate([taken, ground.boxes])
    if len(boxes):
        good &= ~lengths_inside(boxes, leaders)[0].any(axis=0)
    good &= ~(piece_distances(leaders, others) <= ground.dot * 1.5).any(axis=1)
    distances = piece_distances(leaders, ground.discs[:, :2])
    return np.asarray(good & ~(distances <= ground.discs[None, :, 2]).any(axis=1))


def lead(
    letter: Letter,
    ground: Ground,
    taken: Sequence[Floats],
    drawn: Sequence[Floats],
    least: float = 0.0,
) -> Led | None:
    """A place and a leader for one letter, the other labels (4,) and leaders (4,) being where they are.

    `least` is how far out it must stand, in ems, so that others have room to pass. None where the
    ground leaves no place within 80 ems.
    """
    rings = [out * ground.size for out in _OUT if out >= least]
    boxes = places_round(letter, _DIRECTIONS, rings, ground.size)
    held = np.array(taken).reshape(-1, 4)
    lines = np.array(drawn).reshape(-1, 4)
    leaders = sight_lines(np.array([letter.x, letter.y]), boxes, ground.dot)
    away = np.hypot(*(ground.points - np.array([letter.x, letter.y])).T)
    # A leader can keep off every point but those whose dots all but cover its own.
    apart = ground.points[away > ground.dot * 3]
    beside = ground.points[(away > 0) & (away <= ground.dot * 3)]
    good = ground.clear(boxes) & _passes(leaders, ground, held, lines, apart)
    if len(held):
        reach = np.array([*boxes[:, :2].min(axis=0), *boxes[:, 2:].max(axis=0)])
        for box in held:
            if (box[:2] <= reach[2:]).all() and (box[2:] >= reach[:2]).all():
                good &= ~((boxes[:, :2] <= box[2:]).all(axis=1) & (boxes[:, 2:] >= box[:2]).all(axis=1))
    if len(lines):
        good &= ~lengths_inside(boxes, lines)[0].any(axis=1)
    if not good.any():
        return None
    kept = np.flatnonzero(good)
    length = np.hypot(*(leaders[kept, 2:] - leaders[kept, :2]).T) / ground.size
    around = np.array([*boxes[kept, :2].min(axis=0), *boxes[kept, 2:].max(axis=0)])
    around[:2] = np.minimum(around[:2], [letter.x, letter.y])
    around[2:] = np.maximum(around[2:], [letter.x, letter.y])
    crossed = pieces_cross(leaders[kept], near(ground.hard, around)).sum(axis=1)
    guides = pieces_cross(leaders[kept], near(ground.soft, around)).sum(axis=1)
    passed = (piece_distances(leaders[kept], beside) <= ground.dot).sum(axis=1)
    cost = length + _HARD_CROSSED * (crossed + passed) + _SOFT_CROSSED * guides
    cost += ground.covered(boxes[kept]) / 4
    best = kept[int(np.argmin(cost))]
    return Led(boxes[best], leaders[best])

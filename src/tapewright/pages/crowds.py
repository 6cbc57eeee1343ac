"""Crowds: places where several letters have no room, and how many times larger they would have it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from tapewright.pages.leaders import lead
from tapewright.pages.lettering import Label, Letter, Lines, upright
from tapewright.pages.room import Floats, piece_distances
from tapewright.pages.sides import Ground, doubtful, settle

# In ems of the letters.
_REACH = 2.2  # letters this near to one that found no place belong to the same crowd
_RING_PAD = 0.8  # bare paper inside the ring, round its points
_RING_AWAY = 0.45  # a point nearer to the ring than this is taken into it
GAP = 0.8  # between a ring or a window and anything else
_LARGEST = 11.0  # of a window's radius, unless no smaller one gives every letter a place
# What once more as large must save in doubtful letters: two points that all but touch never part.
_DEARER = 0.7
_TIMES = (2, 3, 4, 5, 6, 8, 12, 16)


@dataclass(frozen=True, slots=True, eq=False)
class Crowd:
    """Letters (their positions in the list) that go into one inset, and the ring round them."""

    members: tuple[int, ...]
    x: float
    y: float
    radius: float


@dataclass(frozen=True, slots=True, eq=False)
class Enlarged:
    """A crowd's letters placed in a window round (0, 0), `times` as large."""

    crowd: Crowd
    times: int
    radius: float
    labels: tuple[Label, ...]


def _ring(letters: Sequence[Letter], members: set[int], size: float) -> Crowd:
    """The ring round some letters, grown until no other point lies in it or just outside it."""
    while True:
        places = np.array([(letters[i].x, letters[i].y) for i in sorted(members)])
        x, y = (places.min(axis=0) + places.max(axis=0)) / 2
        radius = float(np.hypot(places[:, 0] - x, places[:, 1] - y).max()) + _RING_PAD * size
        near = radius + _RING_AWAY * size
        more = {i for i, one in enumerate(letters) if math.hypot(one.x - x, one.y - y) <= near}
        if more <= members:
            return Crowd(tuple(sorted(members)), float(x), float(y), radius)
        members = members | more


def crowds(letters: Sequence[Letter], homeless: Sequence[int], size: float) -> list[Crowd]:
    """Where several letters crowd. `homeless` are those that found no place by their points.

    Two alone are no crowd: for them a leader serves better. Rings that would touch are made one.
    """
    groups: list[set[int]] = []
    for i in homeless:
        here = letters[i]
        group = {
            j
            for j, other in enumerate(letters)
            if math.hypot(other.x - here.x, other.y - here.y) <= _REACH * size
        }
        for joining in [g for g in groups if g & group]:
            groups.remove(joining)
            group |= joining
        groups.append(group)
    rings: list[Crowd] = []
    for group in groups:
        if len(group) < 3:
            continue
        ring = _ring(letters, group, size)
        while touching := [r for r in rings if _rings_meet(r, ring, size)]:
            for other in touching:
                rings.remove(other)
                ring = _ring(letters, set(ring.members) | set(other.members), size)
        rings.append(ring)
    return sorted(rings, key=lambda r: (r.y, r.x))


def _rings_meet(a: Crowd, b: Crowd, size: float) -> bool:
    return math.hypot(a.x - b.x, a.y - b.y) <= a.radius + b.radius + GAP * size


def enlarge(crowd: Crowd, letters: Sequence[Letter], lines: Lines, size: float) -> Enlarged | None:
    """The crowd's letters placed in a window, as little enlarged as leaves few of them doubtful.

    None if no enlargement gives every letter a place, with or without a leader.
    """
    best: tuple[float, Enlarged] | None = None
    for times in _TIMES:
        radius = crowd.radius * times
        if radius > _LARGEST * size and best is not None:
            break
        members = [letters[i] for i in crowd.members]
        moved = [replace(m, x=(m.x - crowd.x) * times, y=(m.y - crowd.y) * times) for m in members]
        ground = Ground(
            size=size,
            hard=_enlarged(lines.hard, crowd, times),
            soft=_enlarged(lines.soft, crowd, times),
            points=np.array([(m.x, m.y) for m in moved]),
            region=np.array([-radius, -radius, radius, radius]),
            disc=(0.0, 0.0, radius - 0.2 * size),
        )
        labels, unsure = _place(moved, ground)
        if labels is None:
            continue
        worth = unsure + _DEARER * times
        if best is None or worth < best[0]:
            best = (worth, Enlarged(crowd, times, radius, tuple(labels)))
        if unsure == 0:
            break
    return best[1] if best else None


def _enlarged(pieces: Floats, crowd: Crowd, times: int) -> Floats:
    """The pieces near a ring, as they lie in its window round (0, 0)."""
    middle = np.array([crowd.x, crowd.y])
    close = piece_distances(pieces, middle[None, :])[:, 0] <= crowd.radius
    return np.asarray((pieces[close] - np.tile(middle, 2)) * times)


def _place(letters: list[Letter], ground: Ground) -> tuple[list[Label] | None, int]:
    """Labels of all the letters on one ground, and of how many it is doubtful which point they name.

    Those get a leader where there is room for one. None if a letter has no place at all.
    """
    boxes = settle(letters, ground, np.zeros(2))
    unsure = set(doubtful(letters, boxes, ground.points))
    taken = {i: box for i, box in enumerate(boxes) if box is not None}
    drawn: list[Floats] = []
    labels: list[Label] = []
    for i, letter in enumerate(letters):
        box = boxes[i]
        led = lead(letter, ground, [b for j, b in taken.items() if j != i], drawn) if i in unsure else None
        if led is not None:
            taken[i] = led.box
            drawn.append(led.leader)
            x0, y0, x1, y1 = (float(v) for v in led.leader)
            labels.append(upright(letter, led.box, ground.size, (x0, y0, x1, y1)))
        elif box is not None:
            labels.append(upright(letter, box, ground.size))
        else:
            return None, 0
    return labels, len(unsure)

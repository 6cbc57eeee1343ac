"""Insets: a crowded place drawn again, larger, in an empty corner, with a ring round what it shows.

A window goes where the paper is empty, near its ring; where that would be far, or nowhere, the paper
grows on one side. The thin tie from ring to window crosses no other ring, window or tie.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from tapewright.drawing import Setting, set_text
from tapewright.pages.crowds import GAP, Enlarged
from tapewright.pages.lettering import Inset, Label, Lines
from tapewright.pages.room import Floats, piece_distances, pieces_cross, squared
from tapewright.pages.sides import DOT

# In ems of the letters.
_SQUARE = 0.6  # of the grid in which empty paper is looked for
_FOR_LABELS = 1.4  # room left round every point for its own label
_WORDS_SIZE = 0.72
_SLACK = 3.2  # added to a window where the paper grows for it: its gaps, and a square to stand on
# What a place for a window costs, in ems of distance from its ring: its tie's crossing of a heavy line,
# its passing over a point, its crossing of a ring, window or tie; and making the paper larger.
_CROSSED, _PASSES, _BARRED, _GROWN, _WHOLE_PAPER = 0.8, 6.0, 500.0, 9.0, 24.0
_NEAREST, _MORE = 80, 160  # how many places are tried: all near ones, a selection of the rest


class NoRoom(RuntimeError):
    """No place was found for a letter though the paper may grow: a fault of ours, not of the draft."""


def words_by(times: int, size: float) -> Setting:
    """What is written at a window."""
    names = {2: "twice", 3: "three times", 4: "four times", 5: "five times", 6: "six times"}
    return set_text(f"{names.get(times, f'{times} times')} as large", "hand", size * _WORDS_SIZE)


def window_size(one: Enlarged, size: float) -> tuple[float, float]:
    """Width and height of a window with room for its words over and under it."""
    words = words_by(one.times, size)
    return max(2 * one.radius, words.width), 2 * (one.radius + 1.5 * _WORDS_SIZE * size)


def _ring_box(one: Enlarged) -> list[float]:
    x, y, r = one.crowd.x, one.crowd.y, one.crowd.radius
    return [x - r, y - r, x + r, y + r]


def _window_box(inset: Inset) -> list[float]:
    x, y, r = inset.into_x, inset.into_y, inset.into_radius
    words = inset.words.ink.moved(inset.words_x, inset.words_y)
    return [min(x - r, words.left), min(y - r, words.top), max(x + r, words.right), max(y + r, words.bottom)]


@dataclass(frozen=True, slots=True, eq=False)
class _Spot:
    """Where a window's middle goes, the tie (4,) from its ring, what it costs, and the paper with it."""

    x: float
    y: float
    tie: Floats
    cost: float
    paper: Floats


@dataclass(frozen=True, slots=True, eq=False)
class _Taken:
    """Boxes (k, 4) no window may touch; discs (n, 3) and ties (m, 4) no tie may cross."""

    boxes: Floats
    discs: Floats
    ties: Floats


def place_insets(
    crowds: Sequence[Enlarged],
    lines: Lines,
    points: Floats,
    paper: Floats,
    size: float,
    within: tuple[float, float] | None,
) -> tuple[tuple[Inset, ...], dict[int, Label], Floats]:
    """A window for every crowd; the labels in them, by the letters' positions; the paper as it then is."""
    insets: list[Inset] = []
    labels: dict[int, Label] = {}
    for one in crowds:
        others = [(c.crowd.x, c.crowd.y, c.crowd.radius) for c in crowds if c is not one]
        windows = [(i.into_x, i.into_y, i.into_radius) for i in insets]
        taken = _Taken(
            boxes=np.array([_ring_box(c) for c in crowds] + [_window_box(i) for i in insets]),
            discs=np.array(others + windows).reshape(-1, 3),
            ties=np.array([inset.tie for inset in insets]).reshape(-1, 4),
        )
        spot = _best_spot(one, lines, points, taken, paper, size, within)
        paper = spot.paper
        inset, inside = _finished(one, spot, len(insets), size)
        insets.append(inset)
        labels.update(zip(one.crowd.members, inside, strict=True))
    return tuple(insets), labels, paper


def _best_spot(
    one: Enlarged,
    lines: Lines,
    points: Floats,
    taken: _Taken,
    paper: Floats,
    size: float,
    within: tuple[float, float] | None,
) -> _Spot:
    """The cheapest place on the paper as it is, or as it would be, larger on one side."""
    width, height = window_size(one, size)
    papers = [(0.0, paper), *_larger(paper, width + _SLACK * size, height + _SLACK * size, within)]
    best: _Spot | None = None
    for dearer, larger in papers:
        if best is not None and best.cost <= dearer:
            continue
        spot = _spot_on(one, lines, points, taken, larger, size)
        if spot is not None and (best is None or spot.cost + dearer < best.cost):
            best = replace(spot, cost=spot.cost + dearer)
    if best is None:
        raise NoRoom("no empty corner was found for an inset")
    return best


def _larger(
    paper: Floats, width: float, height: float, within: tuple[float, float] | None
) -> list[tuple[float, Floats]]:
    """The paper grown to the right, to the left, above or below, with what each costs.

    Larger than `within` it gets only where nothing else will do.
    """
    wide, high = float(paper[2] - paper[0]), float(paper[3] - paper[1])
    more_high, more_wide = max(height - high, 0.0), max(width - wide, 0.0)
    costs: list[tuple[float, Floats]] = []
    for by in (
        (0.0, 0.0, width, more_high),
        (-width, 0.0, 0.0, more_high),
        (0.0, -height, more_wide, 0.0),
        (0.0, 0.0, more_wide, height),
    ):
        larger = paper + np.array(by)
        new_wide, new_high = float(larger[2] - larger[0]), float(larger[3] - larger[1])
        cost = _GROWN + _WHOLE_PAPER * (new_wide * new_high / (wide * high) - 1)
        if within is not None and (new_wide > within[0] or new_high > within[1]):
            cost += _BARRED
        costs.append((cost, larger))
    return sorted(costs, key=lambda one: one[0])


def _spot_on(
    one: Enlarged, lines: Lines, points: Floats, taken: _Taken, paper: Floats, size: float
) -> _Spot | None:
    """The cheapest empty place for a window on some paper; None if it has none."""
    width, height = window_size(one, size)
    gap, dots = GAP * size, _FOR_LABELS * size
    ground = squared(
        paper,
        np.concatenate([lines.hard, lines.soft, taken.ties]),
        np.concatenate(
            [
                np.concatenate([points - dots, points + dots], axis=1),
                taken.boxes + np.array([-gap, -gap, gap, gap]),
            ]
        ),
        _SQUARE * size,
    )
    corners = ground.free(width + 2 * gap, height + 2 * gap)
    if not len(corners):
        return None
    middles = corners + np.array([gap + width / 2, gap + height / 2])
    ring = np.array([one.crowd.x, one.crowd.y])
    away = np.hypot(*(middles - ring).T)
    order = np.argsort(away, kind="stable")
    rest = order[_NEAREST:]
    tried = np.concatenate([order[:_NEAREST], rest[:: max(len(rest) // _MORE, 1)]])
    ties = np.array([_tie(ring, one.crowd.radius, middles[k], one.radius) for k in tried])
    cost = away[tried] / size + _CROSSED * pieces_cross(ties, lines.hard).sum(axis=1)
    others = np.delete(points, list(one.crowd.members), axis=0)
    cost += _PASSES * (piece_distances(ties, others) <= size * DOT * 2).sum(axis=1)
    barred = pieces_cross(ties, taken.ties).any(axis=1)
    distances = piece_distances(ties, taken.discs[:, :2])
    barred |= (distances <= taken.discs[None, :, 2] + gap / 2).any(axis=1)
    cost += _BARRED * barred
    best = int(np.argmin(cost))
    x, y = (float(v) for v in middles[tried[best]])
    return _Spot(x, y, ties[best], float(cost[best]), paper)


def _tie(a: Floats, a_radius: float, b: Floats, b_radius: float) -> Floats:
    """A straight piece (4,) from the edge of one circle to the edge of another, centre to centre."""
    way = b - a
    far = max(float(np.hypot(way[0], way[1])), a_radius + b_radius)
    unit = way / far
    return np.concatenate([a + unit * a_radius, b - unit * b_radius])


def _finished(one: Enlarged, spot: _Spot, number: int, size: float) -> tuple[Inset, list[Label]]:
    """The inset where it will be drawn, and its labels there."""
    words = words_by(one.times, size)
    x0, y0, x1, y1 = (float(v) for v in spot.tie)
    inset = Inset(
        one.crowd.x,
        one.crowd.y,
        one.crowd.radius,
        spot.x,
        spot.y,
        one.radius,
        one.times,
        (x0, y0, x1, y1),
        words,
        spot.x - words.width / 2,
        # Away from the ring, so that the tie never runs through them.
        spot.y + one.radius + 1.15 * _WORDS_SIZE * size
        if spot.y >= one.crowd.y
        else spot.y - one.radius - 0.5 * _WORDS_SIZE * size,
    )
    return inset, [_moved(label, spot.x, spot.y, number) for label in one.labels]


def _moved(label: Label, dx: float, dy: float, number: int) -> Label:
    leader = label.leader
    return replace(
        label,
        x=label.x + dx,
        y=label.y + dy,
        corners=tuple((x + dx, y + dy) for x, y in label.corners),
        point=(label.point[0] + dx, label.point[1] + dy),
        leader=leader and (leader[0] + dx, leader[1] + dy, leader[2] + dx, leader[3] + dy),
        inset=number,
    )


def in_the_way(inset: Inset, size: float) -> tuple[Floats, Floats, Floats]:
    """What an inset takes of the paper: discs (2, 3), the box of its words (1, 4), its tie (1, 4)."""
    gap = GAP * size / 2
    discs = np.array(
        [
            (inset.x, inset.y, inset.radius + gap / 2),
            (inset.into_x, inset.into_y, inset.into_radius + gap),
        ]
    )
    words = inset.words.ink.padded(gap / 2).moved(inset.words_x, inset.words_y)
    box = np.array([[words.left, words.top, words.right, words.bottom]])
    return discs, box, np.array([inset.tie])

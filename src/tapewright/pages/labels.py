"""Placing the letters of a drawing so that every point keeps its own.

First every letter tries the forty places close to its point (`sides.py`). Where several find none, that
place is drawn again, larger, in an inset (`insets.py`), and the rest try again round it. One alone
that finds none stands clear with a leader (`leaders.py`). What comes out always holds: as many labels
as points; no label touches a label, a point or an outline; no leader crosses a label.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from tapewright.drawing import Box
from tapewright.pages.crowds import crowds, enlarge
from tapewright.pages.heaps import heap_letter, heaped, parted
from tapewright.pages.insets import NoRoom, in_the_way, place_insets
from tapewright.pages.leaders import Led, lead
from tapewright.pages.lettering import Inset, Label, Letter, Lettering, Lines, upright
from tapewright.pages.room import Floats, no_pieces
from tapewright.pages.sides import Ground, doubtful, settle

# How often a place is looked for again, on larger paper each time.
_ATTEMPTS = 6


def place_labels(
    letters: Sequence[Letter],
    lines: Lines,
    region: Box,
    size: float,
    *,
    within: tuple[float, float] | None = None,
) -> Lettering:
    """A place for the name of every point, on paper `region` that may grow to any side.

    `size` is the type's em in mm, which every setting must have been set at. The region grows only
    when an inset finds no empty corner near its ring, or a leader no way out; beyond `within` (width and
    height, mm) only where nothing else will do. Names may repeat; each letter gets a label, in the order
    given. Points that lie on each other have their names side by side.
    """
    if not letters:
        return Lettering((), (), region)
    heaps = heaped(letters, size)
    found = _place_apart([heap_letter(letters, heap, size) for heap in heaps], lines, region, size, within)
    labels: dict[int, Label] = {}
    for heap, label in zip(heaps, found.labels, strict=True):
        labels.update(zip(heap, parted(label, [letters[i] for i in heap], size), strict=True))
    return Lettering(tuple(labels[i] for i in range(len(letters))), found.insets, found.region)


def _place_apart(
    letters: Sequence[Letter],
    lines: Lines,
    region: Box,
    size: float,
    within: tuple[float, float] | None,
) -> Lettering:
    """`place_labels` for points of which no two lie on each other."""
    points = np.array([(one.x, one.y) for one in letters])
    paper = np.array([region.left, region.top, region.right, region.bottom])
    centre = (points.min(axis=0) + points.max(axis=0)) / 2
    first = settle(letters, Ground(size, lines.hard, lines.soft, points, paper), centre)
    larger = [
        one
        for crowd in crowds(letters, doubtful(letters, first, points), size)
        if (one := enlarge(crowd, letters, lines, size)) is not None
    ]
    insets, placed, paper = place_insets(larger, lines, points, paper, size, within)
    rest = [i for i in range(len(letters)) if i not in placed]
    far: dict[int, float] = {}
    for attempt in range(_ATTEMPTS):
        ground = _ground_with(insets, lines, points, paper, size)
        found = _by_their_points(rest, letters, ground, centre, far)
        if not isinstance(found, int):
            placed.update(found)
            break
        if attempt == _ATTEMPTS - 1:
            raise NoRoom(f"no place was found for the letter {letters[found].name}")
        # It goes first from now on. Those that share its place hem it in: all of them step back.
        close = [i for i in rest if i != found and np.hypot(*(points[i] - points[found])) <= 2 * size]
        back = {i: 2 * far.get(i, 1.5) for i in close}
        far = {found: 2 * far.get(found, 1.5) if close else far.get(found, 0.0), **back} | {
            i: least for i, least in far.items() if i != found and i not in back
        }
        paper = paper + np.array([-1.0, -1.0, 1.0, 1.0]) * 1.5 * 2**attempt * size
    left, top, right, bottom = (float(v) for v in paper)
    return Lettering(tuple(placed[i] for i in range(len(letters))), insets, Box(left, top, right, bottom))


def _by_their_points(
    which: Sequence[int],
    letters: Sequence[Letter],
    ground: Ground,
    centre: Floats,
    far: dict[int, float],
) -> dict[int, Label] | int:
    """Labels close to their points; those that find no place, or a doubtful one, get a leader.

    `far` are letters that are placed first, in its order, and at least so many ems away. If a letter
    finds no place, which.
    """
    placed: dict[int, Label] = {}
    taken: list[Floats] = []
    drawn: list[Floats] = []

    def put(i: int, led: Led) -> None:
        taken.append(led.box)
        drawn.append(led.leader)
        x0, y0, x1, y1 = (float(v) for v in led.leader)
        placed[i] = upright(letters[i], led.box, ground.size, (x0, y0, x1, y1))

    for i, least in far.items():
        led = lead(letters[i], ground, taken, drawn, least)
        if led is None:
            return i
        put(i, led)
    held = replace(
        ground,
        boxes=np.concatenate([ground.boxes, np.array(taken).reshape(-1, 4)]),
        ties=np.concatenate([ground.ties, np.array(drawn).reshape(-1, 4)]),
    )
    close = [i for i in which if i not in far]
    some = [letters[i] for i in close]
    boxes = settle(some, held, centre)
    unsure = set(doubtful(some, boxes, ground.points))
    for k, (i, box) in enumerate(zip(close, boxes, strict=True)):
        if box is not None:
            taken.append(box)
            if k not in unsure:
                placed[i] = upright(letters[i], box, ground.size)
    for k in sorted(unsure, key=lambda k: (some[k].rank, k)):
        box = boxes[k]
        led = lead(some[k], ground, [b for b in taken if b is not box], drawn)
        if led is not None:
            taken = [b for b in taken if b is not box]
            put(close[k], led)
        elif box is not None:
            # A doubtful place by the point is still a place.
            placed[close[k]] = upright(some[k], box, ground.size)
        else:
            return close[k]
    return placed


def _ground_with(insets: Sequence[Inset], lines: Lines, points: Floats, paper: Floats, size: float) -> Ground:
    """The plate as the other letters find it, once the insets are drawn."""
    if not insets:
        return Ground(size, lines.hard, lines.soft, points, paper)
    parts = [in_the_way(inset, size) for inset in insets]
    return Ground(
        size,
        lines.hard,
        lines.soft,
        points,
        paper,
        boxes=np.concatenate([no_pieces(), *(box for _, box, _ in parts)]),
        discs=np.concatenate([discs for discs, _, _ in parts]),
        ties=np.concatenate([tie for _, _, tie in parts]),
    )

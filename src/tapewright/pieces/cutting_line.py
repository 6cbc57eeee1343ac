"""The cutting line of a piece: the parallels of its edges, its corners, and the mouths of its darts.

All bodies at once, bodies last. What cannot be cut as asked (a turning wider than a hollow allows, two cutting
lines that never come together) is told, not mended.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tapewright.geometry import (
    Array,
    Drawn,
    Mask,
    Offset,
    Stretch,
    area,
    curve_of,
    end_point,
    offsets,
    start_point,
    whole,
)
from tapewright.pieces.corners import (
    Corner,
    Side,
    crossed,
    live,
    mitred,
    reversed_corner,
    squared,
    turned,
    turned_about,
)
from tapewright.pieces.dart_mouth import dart_mouth
from tapewright.pieces.edge import Corners, Lies, PieceEdge
from tapewright.pieces.hollows import Tight, around, tight_hollow


@dataclass(frozen=True, slots=True, eq=False)
class CuttingLine:
    """The closed line along which a piece is cut.

    `runs` follow one another end to end, straight lines and curves; `edges` tells of each run which edge of
    the piece it is the parallel of, -1 at a corner. `tight` are turnings wider than a hollow allows; `lost`
    the corners (by the edge before them) at which two cutting lines do not come together; `swallowed` the
    edges that are shorter than what their two corners cut off them.
    """

    runs: tuple[Drawn, ...]
    edges: tuple[int, ...]
    tight: tuple[Tight, ...]
    lost: tuple[tuple[int, Mask], ...]
    swallowed: tuple[tuple[int, Mask], ...]


def outward_of(edges: tuple[PieceEdge, ...]) -> Array:
    """+1 where the outside of a piece lies to the right as its edges are run, else -1, `(bodies,)`."""
    return np.where(area([e.net for e in edges]) > 0.0, -1.0, 1.0)


def cutting_line(edges: tuple[PieceEdge, ...], outward: Array) -> CuttingLine:
    """The cutting line outside the net line, edge by edge, each at its own turning."""
    cut = [k for k, e in enumerate(edges) if e.lies is not Lies.DART]
    sides: dict[int, Side] = {}
    tight: list[Tight] = []
    for k, found in zip(cut, _parallels(edges, cut, outward), strict=True):
        if found.tight.any():
            tight.append(tight_hollow(k, found))
        # An edge that is sewn with nothing outside it is cut where it is sewn, to the last bit.
        bare = bool((edges[k].turning == 0.0).all())
        sides[k] = Side(edges[k].net, edges[k].net if bare else live(found.curve), edges[k].turning)
    corners = [_between(edges, sides, k, cut[(i + 1) % len(cut)], outward) for i, k in enumerate(cut)]
    for i, k in enumerate(cut):
        after = cut[(i + 1) % len(cut)]
        bent: Mask = np.zeros(outward.shape, dtype=np.bool_)
        for t in tight:
            if t.edge in (k, after):
                bent = bent | (t.rows & ~t.mended)
        if bent.any():
            corners[i] = crossed(sides[k], sides[after], corners[i], bent)
    runs: list[Drawn] = []
    whose: list[int] = []
    lost, swallowed = [], []
    for i, k in enumerate(cut):
        line = whole(sides[k].cut)
        start, end = corners[i - 1].joins, corners[i].leaves
        forward = line.end >= line.start
        over = np.where(forward, start > end, start < end)
        if over.any():
            swallowed.append((k, over))
        bend = next((t for t in tight if t.edge == k), None)
        for run in around(Stretch(line.curve, start, end), bend):
            runs.append(run)
            whose.append(k)
        if corners[i].lost.any():
            lost.append((k, corners[i].lost))
        for part in corners[i].between:
            runs.append(part)
            whose.append(-1)
    return CuttingLine(tuple(runs), tuple(whose), tuple(tight), tuple(lost), tuple(swallowed))


def _parallels(edges: tuple[PieceEdge, ...], cut: list[int], outward: Array) -> list[Offset]:
    return offsets([edges[k].net for k in cut], [outward * edges[k].turning for k in cut])


def _between(
    edges: tuple[PieceEdge, ...], sides: dict[int, Side], k: int, after: int, outward: Array
) -> Corner:
    """The corner after an edge, as the turnings on its two sides ask."""
    one, two = edges[k], edges[after]
    first, second = sides[k], sides[after]
    if (k + 1) % len(edges) != after:
        legs = edges[(k + 1) % len(edges)], edges[(k + 2) % len(edges)]
        return dart_mouth(first, second, legs[0].net, legs[1].net, outward)
    if one.corners is Corners.TURNED and two.corners is not Corners.TURNED:
        return reversed_corner(turned(turned_about(second), turned_about(first), -outward))
    if two.corners is Corners.TURNED and one.corners is not Corners.TURNED:
        return turned(first, second, outward)
    if one.corners is Corners.SQUARED:
        return squared(first, second, outward)
    if two.corners is Corners.SQUARED:
        return reversed_corner(squared(turned_about(second), turned_about(first), -outward))
    blunt = Corners.BLUNTED in (one.corners, two.corners)
    return mitred(first, second, outward, blunt=blunt)


def closed_gaps(runs: tuple[Drawn, ...]) -> Array:
    """The widest gap between one run and the next, mm `(bodies,)`: nought but for rounding."""
    worst = np.zeros(curve_of(runs[0]).bodies)
    for one, two in zip(runs, (*runs[1:], runs[0]), strict=True):
        a, b = end_point(one), start_point(two)
        worst = np.maximum(worst, np.hypot(a.x - b.x, a.y - b.y))
    return worst

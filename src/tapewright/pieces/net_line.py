"""The net line of a piece whose draft holds its seams: so far inside the line that was drawn.

Edges that hold no seam stay as they were drawn, and are only cut off, or carried on, where their neighbour moved.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tapewright.draft.rows import Edge
from tapewright.geometry import (
    Array,
    Curve,
    Drawn,
    Stretch,
    area,
    distance,
    end_point,
    joined,
    offsets,
    start_point,
    straight,
    trimmed,
    whole,
)
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.pieces.corners import Side, live, mitred

#: A net line runs right into its corners, however sharp they are.
NEVER_BLUNTED = 1e6


def net_edges(edges: Sequence[Edge], held: Sequence[Array]) -> tuple[Drawn, ...]:
    """Each edge where it is sewn; `held` is how wide a seam the draft holds at it, mm `(bodies,)`."""
    drawn = [edge.drawn for edge in edges]
    if not any(h.any() for h in held):
        return tuple(drawn)
    inward = np.where(area(drawn) > 0.0, 1.0, -1.0)
    moved = offsets(drawn, [inward * h for h in held])
    sides = [Side(d, live(m.curve) if h.any() else d, -h) for d, m, h in zip(drawn, moved, held, strict=True)]
    corners = [
        mitred(one, two, -inward, longest=NEVER_BLUNTED)
        for one, two in zip(sides, [*sides[1:], sides[0]], strict=True)
    ]
    found: list[Drawn] = []
    for k, side in enumerate(sides):
        line = whole(side.cut)
        before, after = corners[k - 1], corners[k]
        parts = [before.between[-1], Stretch(line.curve, before.joins, after.leaves), after.between[0]]
        kept = [p for p in parts if bool((distance(start_point(p), end_point(p)) > SAME_POINT).any())]
        curves = [trimmed(p) for p in kept]
        found.append(curves[0] if len(curves) == 1 else _as_one(curves))
    return tuple(found)


def _as_one(curves: list[Curve]) -> Curve:
    """Lines that follow one another as one; straight where they all lie along one straight line."""
    if all(c.is_straight for c in curves):
        return straight(start_point(curves[0]), end_point(curves[-1]))
    return joined(curves)

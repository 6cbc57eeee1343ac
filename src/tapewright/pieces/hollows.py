"""Hollows that bend tighter than a turning is wide: there a parallel runs back on itself, and is cut short.

The cutting line then comes to a corner in the hollow, where the two parts that can be cut cross. Found body by body,
for there are few: by chords first, then by Newton's method on the parallel itself.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from tapewright.geometry import Array, Curve, Drawn, Mask, Offset, Point, Stretch, at, tangent
from tapewright.geometry.rows import Indices
from tapewright.geometry.tolerance import CONVERGED, SAME_POINT
from tapewright.pieces.corners import live

PLACES: Final = 12
"""How many chords stand for one piece of a parallel while its crossing is looked for."""
STEPS: Final = 12
"""Newton's steps at the most: from chords this short three or four do."""


@dataclass(frozen=True, slots=True, eq=False)
class Tight:
    """An edge whose hollow bends tighter than its turning is wide: on which bodies, and where on its parallel.

    The parallel crosses itself there; between its parameters `leaves` and `joins`, `(crossings, bodies)`, it is
    left out, so that the cutting line comes to a corner in the hollow. Where there are fewer crossings both are
    the parallel's end. Where `mended` is False none was found within the edge. `at` is the middle of the bend.
    """

    edge: int
    rows: Mask
    leaves: Array
    joins: Array
    mended: Mask
    at: Point


def tight_hollow(edge: int, found: Offset) -> Tight:
    """Where a parallel that runs back on itself is to be left, and where joined again."""
    rows: Mask = np.logical_or.reduce(found.tight, axis=0)
    line = live(found.curve)
    first = found.tight.argmax(axis=0)
    loops: dict[int, list[tuple[float, float]]] = {}
    for row in np.flatnonzero(rows):
        one = Curve(np.ascontiguousarray(line.curve.ctrl[..., row : row + 1]))
        loops[int(row)] = _loops(one, float(line.start[row]), float(line.end[row]))
    most = max(1, *(len(found) for found in loops.values()))
    leaves = np.repeat(line.end[None], most, axis=0)
    joins = leaves.copy()
    mended = np.zeros_like(rows)
    for body, mine in loops.items():
        for k, (u, v) in enumerate(mine):
            leaves[k, body], joins[k, body], mended[body] = u, v, True
    return Tight(edge, rows, leaves, joins, mended, at(line.curve, first + 0.5))


def around(run: Stretch, bend: Tight | None) -> tuple[Drawn, ...]:
    """A run along a parallel, without the parts that run back on themselves."""
    if bend is None:
        return (run,)
    parts: list[Drawn] = []
    start = run.start
    for leaves, joins in zip(bend.leaves, bend.joins, strict=True):
        good = bend.mended & (leaves > start) & (joins < run.end)
        parts.append(Stretch(run.curve, start, np.where(good, leaves, run.end)))
        start = np.where(good, joins, run.end)
    return (*parts, Stretch(run.curve, start, run.end))


def _loops(curve: Curve, start: float, end: float) -> list[tuple[float, float]]:
    """The pairs of parameters at which a parallel crosses itself, in order; none within another."""
    t = np.linspace(start, end, max(2, round((end - start) * PLACES)) + 1)
    p = at(Curve(np.repeat(curve.ctrl, t.shape[0], axis=3)), t)
    ax, ay, bx, by = p.x[:-1], p.y[:-1], p.x[1:], p.y[1:]
    i, j = np.triu_indices(ax.shape[0], 2)

    def side(k: Indices, x: Array, y: Array) -> Array:
        return (bx[k] - ax[k]) * (y - ay[k]) - (by[k] - ay[k]) * (x - ax[k])

    one = side(i, ax[j], ay[j]) * side(i, bx[j], by[j])
    two = side(j, ax[i], ay[i]) * side(j, bx[i], by[i])
    crossing = np.flatnonzero((one < 0.0) & (two < 0.0))
    found: list[tuple[float, float]] = []
    for k in crossing[np.argsort(-(j[crossing] - i[crossing]), kind="stable")]:
        met = _newton(curve, float(t[i[k]] + t[i[k] + 1]) / 2.0, float(t[j[k]] + t[j[k] + 1]) / 2.0)
        if met is not None and all(met[1] <= u or v <= met[0] for u, v in found):
            found.append(met)
    return sorted(found)


def _newton(curve: Curve, u: float, v: float) -> tuple[float, float] | None:
    """The crossing of a curve with itself, from two parameters near it."""
    step = 1e-2 / PLACES
    for _ in range(STEPS):
        one, two = np.array([u]), np.array([v])
        p, q = at(curve, one), at(curve, two)
        dx, dy = float(q.x[0] - p.x[0]), float(q.y[0] - p.y[0])
        if np.hypot(dx, dy) < SAME_POINT * SAME_POINT:
            break
        a, b = _speed(curve, one, step), _speed(curve, two, step)
        det = a[1] * b[0] - a[0] * b[1]
        if abs(det) < CONVERGED:
            return None
        u += (b[0] * dy - b[1] * dx) / det
        v += (a[0] * dy - a[1] * dx) / det
    p, q = at(curve, np.array([u])), at(curve, np.array([v]))
    met = float(np.hypot(p.x - q.x, p.y - q.y)[0]) < SAME_POINT and u < v
    return (u, v) if met else None


def _speed(curve: Curve, t: Array, step: float) -> tuple[float, float]:
    """How a place moves with its parameter: along the line's direction, as fast as it goes just there."""
    way = tangent(curve, t)
    p, q = at(curve, t - step), at(curve, t + step)
    moved_x, moved_y = float(q.x[0] - p.x[0]), float(q.y[0] - p.y[0])
    fast = (moved_x * float(way.dx[0]) + moved_y * float(way.dy[0])) / (2.0 * step)
    return fast * float(way.dx[0]), fast * float(way.dy[0])

"""What a curve is held against: a straight line or a circle, as a signed distance along the curve's segments.

Both cut a segment at the turning points of its distance (`nodes`), give the distance and its slope along it
(`course`), and say where a ray meets them (`beyond`). A circle of no radius is a point, which is how the
nearest place on a curve is found. Written once for floats and arrays; used inside the geometry.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Generic, TypeAlias

import numpy as np

from tapewright.geometry.curve import cubic
from tapewright.geometry.meets_plain import Ruler, on_ruler
from tapewright.geometry.rows import (
    Array,
    Indices,
    Mask,
    N,
    held,
    larger,
    over,
    pick,
    root,
    smaller,
)
from tapewright.geometry.segments import Segment, bracketed, place, speed, taken
from tapewright.geometry.tolerance import FLAT_ANGLE, TOUCH

_CELLS: Final = (0.0, 1 / 64, 1 / 8, 2 / 8, 3 / 8, 4 / 8, 5 / 8, 6 / 8, 7 / 8, 63 / 64, 1.0)
"""The cells of a segment in which its distance from a circle's centre may turn.

Those at the ends are small, for a segment whose handle has no length stands still there and turns right after.
"""

Hit: TypeAlias = tuple[N, bool | Mask]


@dataclass(frozen=True, slots=True, eq=False)
class Line(Generic[N]):
    """The straight line a curve is to meet."""

    r: Ruler[N]

    def off(self, x: N, y: N) -> N:
        """The signed distance of a place from the line carried on."""
        return self.r.ux * (y - self.r.y) - self.r.uy * (x - self.r.x)

    def controls(self, s: Segment[N]) -> tuple[N, N, N, N]:
        """The signed distances of a segment's control points: those of its whole course as a cubic."""
        return self.off(s.ax, s.ay), self.off(s.bx, s.by), self.off(s.cx, s.cy), self.off(s.dx, s.dy)

    def taken(self, index: tuple[Indices, ...], shape: tuple[int, ...]) -> Line[Array]:
        """The same for the rows at flat indices into segments of a shape."""
        return Line(Ruler(*(np.broadcast_to(np.asarray(f), shape)[index] for f in self.r)))

    def clear(self, s: Segment[N]) -> bool | Mask:
        """Whether a segment surely keeps to one side."""
        a, b, c, d = self.controls(s)
        return ((a > TOUCH) & (b > TOUCH) & (c > TOUCH) & (d > TOUCH)) | (
            (a < -TOUCH) & (b < -TOUCH) & (c < -TOUCH) & (d < -TOUCH)
        )

    def nodes(self, s: Segment[N]) -> tuple[list[N], list[N]]:
        """The ends and turning points of a segment's distance: parameters in order, and the distances there."""
        f0, f1, f2, f3 = self.controls(s)
        e0, e1, e2 = f1 - f0, f2 - f1, f3 - f2
        a, b = e0 - 2.0 * e1 + e2, e1 - e0
        under = b * b - a * e0
        turns = under > 0.0
        q = root(pick(turns, under, under * 0.0))
        q = -(b + pick(b < 0.0, -q, q))
        one, two = held(over(q, a, 0.0), 0.0, 1.0), held(over(e0, q, 0.0), 0.0, 1.0)
        low, high = pick(turns, smaller(one, two), f0 * 0.0), pick(turns, larger(one, two), f0 * 0.0)
        at_low, at_high = cubic(f0, f1, f2, f3, low), cubic(f0, f1, f2, f3, high)
        return [f0 * 0.0, low, high, f0 * 0.0 + 1.0], [f0, at_low, at_high, f3]

    def course(self, s: Segment[N]) -> Callable[[N], tuple[N, N]]:
        """The distance and its slope along a segment."""
        f0, f1, f2, f3 = self.controls(s)
        g0, g1, g2 = 3.0 * (f1 - f0), 3.0 * (f2 - f1), 3.0 * (f3 - f2)

        def value(u: N) -> tuple[N, N]:
            v = 1.0 - u
            return cubic(f0, f1, f2, f3, u), v * v * g0 + 2.0 * (u * v) * g1 + u * u * g2

        return value

    def beyond(self, x: N, y: N, tx: N, ty: N) -> list[Hit[N]]:
        """Where a ray from a place in a unit direction meets the line, as lengths."""
        rate = self.r.ux * ty - self.r.uy * tx
        slanted = (rate > FLAT_ANGLE) | (rate < -FLAT_ANGLE)
        s = -self.off(x, y) / pick(slanted, rate, rate * 0.0 + 1.0)
        return [(s, slanted & (s > 0.0))]


@dataclass(frozen=True, slots=True, eq=False)
class Round(Generic[N]):
    """The circle a curve is to meet."""

    x: N
    y: N
    radius: N

    def off(self, x: N, y: N) -> N:
        """The distance of a place outside the circle, negative inside."""
        dx, dy = x - self.x, y - self.y
        return root(dx * dx + dy * dy) - self.radius

    def taken(self, index: tuple[Indices, ...], shape: tuple[int, ...]) -> Round[Array]:
        """The same for the rows at flat indices into segments of a shape."""
        return Round(*(np.broadcast_to(np.asarray(f), shape)[index] for f in (self.x, self.y, self.radius)))

    def clear(self, s: Segment[N]) -> bool | Mask:
        """Whether a segment surely keeps inside, or beyond one straight edge of the circle."""
        a, b, c, d = self.off(s.ax, s.ay), self.off(s.bx, s.by), self.off(s.cx, s.cy), self.off(s.dx, s.dy)
        inside = (a < -TOUCH) & (b < -TOUCH) & (c < -TOUCH) & (d < -TOUCH)
        mx, my = (s.ax + s.dx) * 0.5 - self.x, (s.ay + s.dy) * 0.5 - self.y
        m = root(mx * mx + my * my)
        ux, uy = over(mx, m, 0.0), over(my, m, 0.0)
        least = self.radius + TOUCH
        outside = (
            (ux * (s.ax - self.x) + uy * (s.ay - self.y) > least)
            & (ux * (s.bx - self.x) + uy * (s.by - self.y) > least)
            & (ux * (s.cx - self.x) + uy * (s.cy - self.y) > least)
            & (ux * (s.dx - self.x) + uy * (s.dy - self.y) > least)
        )
        return inside | outside

    def nodes(self, s: Segment[N]) -> tuple[list[N], list[N]]:
        """The ends of a segment's cells and the turning points between them: parameters, and distances there."""
        if isinstance(s.ax, float):
            rates = [self._rate(s, u) for u in _CELLS]
            nodes = [0.0]
            for k, (low, high) in enumerate(pairwise(_CELLS)):
                if (rates[k] > 0.0) != (rates[k + 1] > 0.0):
                    nodes.append(bracketed(self._slopes_of(s), low, high, rates[k], rates[k + 1], False))
                nodes.append(high)
            return nodes, [self.off(*place(s, u)) for u in nodes]
        shape = s.ax.shape
        cells = np.array(_CELLS).reshape(-1, *(1 for _ in shape))
        found = self._rate(s, cells)
        turns = np.nonzero((found[:-1] > 0.0) != (found[1:] > 0.0))
        own: tuple[Indices, ...] = turns[1:]
        course = self.taken(own, shape)._slopes_of(taken(s, own))
        ends = (cells.ravel()[turns[0]], cells.ravel()[turns[0] + 1], found[:-1][turns], found[1:][turns])
        settled = np.zeros(turns[0].size, dtype=np.bool_)
        # Cell by cell its start and its turning point; where it has none, its start again.
        us = np.repeat(np.broadcast_to(cells, found.shape), 2, axis=0)[:-1]
        us[(turns[0] * 2 + 1, *own)] = bracketed(course, *ends, settled)
        return list(us), list(self.off(*place(s, us)))

    def _rate(self, s: Segment[N], u: N) -> N:
        """Half the slope of the square of the distance from the centre."""
        (x, y), (dx, dy) = place(s, u), speed(s, u)
        return (x - self.x) * dx + (y - self.y) * dy

    def _slopes_of(self, s: Segment[N]) -> Callable[[N], tuple[N, N]]:
        """`_rate` and its own slope along a segment."""

        def value(u: N) -> tuple[N, N]:
            (x, y), (dx, dy) = place(s, u), speed(s, u)
            x, y, v = x - self.x, y - self.y, 1.0 - u
            ex = 6.0 * (v * (s.ax - 2.0 * s.bx + s.cx) + u * (s.bx - 2.0 * s.cx + s.dx))
            ey = 6.0 * (v * (s.ay - 2.0 * s.by + s.cy) + u * (s.by - 2.0 * s.cy + s.dy))
            return x * dx + y * dy, x * ex + y * ey + (dx * dx + dy * dy)

        return value

    def course(self, s: Segment[N]) -> Callable[[N], tuple[N, N]]:
        """The distance and its slope along a segment."""

        def value(u: N) -> tuple[N, N]:
            (x, y), (dx, dy) = place(s, u), speed(s, u)
            x, y = x - self.x, y - self.y
            far = root(x * x + y * y)
            return far - self.radius, over(x * dx + y * dy, far, 0.0)

        return value

    def beyond(self, x: N, y: N, tx: N, ty: N) -> list[Hit[N]]:
        """Where a ray from a place in a unit direction meets the circle, as lengths."""
        ray = Ruler(x, y, tx, ty, tx * 0.0 + 1.0, tx * 0.0, tx * 0.0 + 1.0)
        (s1, real1), (s2, real2), _, _ = on_ruler(ray, self.x, self.y, self.radius)
        return [(s1, real1 & (s1 > 0.0)), (s2, real2 & (s2 > 0.0))]


Aim: TypeAlias = Line[N] | Round[N]

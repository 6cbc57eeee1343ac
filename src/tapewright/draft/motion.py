"""Rigid motions on rows: a turn, a turning over, a shift, and one after another.

A motion is x' = a x + b y + e, y' = c x + d y + f, each number `(bodies,)`. Curves are moved by their control
points, which for a rigid motion is exact.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tapewright.draft.bodies import Array
from tapewright.geometry import Curve, Point, Stretch


@dataclass(frozen=True, slots=True, eq=False)
class Motion:
    """A rigid motion, one for each body."""

    a: Array
    b: Array
    c: Array
    d: Array
    e: Array
    f: Array

    def point(self, p: Point) -> Point:
        """A point moved."""
        return Point(self.a * p.x + self.b * p.y + self.e, self.c * p.x + self.d * p.y + self.f)

    def curve(self, curve: Curve) -> Curve:
        """A curve moved."""
        x, y = curve.ctrl[:, 0], curve.ctrl[:, 1]
        moved = np.stack([self.a * x + self.b * y + self.e, self.c * x + self.d * y + self.f], axis=1)
        return Curve(moved, curve.is_straight)

    def line(self, drawn: Curve | Stretch) -> Curve | Stretch:
        """A curve, or a piece of one, moved."""
        if isinstance(drawn, Stretch):
            return Stretch(self.curve(drawn.curve), drawn.start, drawn.end)
        return self.curve(drawn)

    def then(self, other: Motion) -> Motion:
        """This motion, and then another."""
        return Motion(
            other.a * self.a + other.b * self.c,
            other.a * self.b + other.b * self.d,
            other.c * self.a + other.d * self.c,
            other.c * self.b + other.d * self.d,
            other.a * self.e + other.b * self.f + other.e,
            other.c * self.e + other.d * self.f + other.f,
        )


def shift(dx: Array, dy: Array) -> Motion:
    """Moved without turning."""
    one, nought = np.ones_like(dx), np.zeros_like(dx)
    return Motion(one, nought, nought, one, dx, dy)


def turn(centre: Point, angle: Array) -> Motion:
    """Turned about a point, clockwise on the paper."""
    c, s = np.cos(angle), np.sin(angle)
    return Motion(c, -s, s, c, centre.x - c * centre.x + s * centre.y, centre.y - s * centre.x - c * centre.y)


def mirror(on: Point, ux: Array, uy: Array) -> Motion:
    """Turned over on the line through a point along a unit vector."""
    a, b, d = ux * ux - uy * uy, 2 * ux * uy, uy * uy - ux * ux
    return Motion(a, b, b, d, on.x - a * on.x - b * on.y, on.y - b * on.x - d * on.y)

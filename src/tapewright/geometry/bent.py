"""Arcs by their start, length and turn: sound where they are nearly straight, since no centre is built on.

A circle's centre runs off to infinity as the arc straightens; these functions use the chord and the turn, with
sin(x)/x in its limit.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from tapewright.geometry.curve import Curve
from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array
from tapewright.geometry.tolerance import FLAT_ANGLE

SEGMENTS: Final = 24


def _part(x: Array) -> Array:
    """sin(x)/x, and 1 where x is nought."""
    small = np.abs(x) < FLAT_ANGLE
    safe = np.where(small, 1.0, x)
    return np.where(small, 1.0, np.sin(safe) / safe)


def bent_end(start: Point, way: Array, long: Array, turn: Array) -> Point:
    """Where an arc ends that sets out along `way` (radians), is `long` mm, and turns by `turn` in all."""
    chord = long * _part(turn * 0.5)
    along = way + turn * 0.5
    return Point(start.x + chord * np.cos(along), start.y + chord * np.sin(along))


def bent_arc(start: Point, way: Array, long: Array, turn: Array) -> Curve:
    """An arc of given length and turn as cubics; of 24 segments, within 0.00001 mm at a metre.

    `way` is its direction at the start, radians; `turn` is positive clockwise on the paper and may be nought.
    A length of nought is a curve of no length.
    """
    share = (np.arange(SEGMENTS + 1) / SEGMENTS)[:, None]
    knots = bent_end(start, way, long * share, turn * share)
    x, y = knots.x, knots.y
    angle = way + turn * share
    step = turn / SEGMENTS
    # The handle of a cubic that follows an arc of angle d and length s is s (4/3) tan(d/4) / d.
    quarter = step * 0.25
    flat = np.abs(quarter) < FLAT_ANGLE
    safe = np.where(flat, 1.0, quarter)
    handle = long / SEGMENTS / 3.0 * np.where(flat, 1.0, np.tan(safe) / safe)
    dx, dy = np.cos(angle) * handle, np.sin(angle) * handle
    ctrl = np.stack(
        [
            np.stack([x[:-1], y[:-1]]),
            np.stack([x[:-1] + dx[:-1], y[:-1] + dy[:-1]]),
            np.stack([x[1:] - dx[1:], y[1:] - dy[1:]]),
            np.stack([x[1:], y[1:]]),
        ]
    )
    return Curve(ctrl)

"""Places, boxes, transforms and paths, in millimetres with y down the paper.

A path is a tuple of steps (move, straight, cubic, close) and draws itself on to anything that has the
four pen movements. It is a value: moving it gives another path. Nothing here is flattened, weighed or
written; that is for the writers.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple, Protocol

import numpy as np
from numpy.typing import ArrayLike


class Move(NamedTuple):
    """Lift the pen and set it down at (x, y)."""

    x: float
    y: float


class To(NamedTuple):
    """Straight to (x, y)."""

    x: float
    y: float


class Bend(NamedTuple):
    """A cubic to (x, y), its two handles given in place."""

    x1: float
    y1: float
    x2: float
    y2: float
    x: float
    y: float


class Close(NamedTuple):
    """Straight back to where the pen was last set down."""


Step = Move | To | Bend | Close


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle: left, top, right, bottom, in mm; right >= left and bottom >= top."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    @property
    def middle(self) -> tuple[float, float]:
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    def moved(self, dx: float, dy: float) -> Box:
        return Box(self.left + dx, self.top + dy, self.right + dx, self.bottom + dy)

    def scaled(self, by: float) -> Box:
        """Every side `by` times as far from the origin; `by` more than 0."""
        return Box(self.left * by, self.top * by, self.right * by, self.bottom * by)

    def padded(self, by: float) -> Box:
        """Larger by `by` on every side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def joined(self, other: Box) -> Box:
        """The smallest box round both."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )

    def shared(self, other: Box) -> Box:
        """What two boxes that touch have in common."""
        return Box(
            max(self.left, other.left),
            max(self.top, other.top),
            min(self.right, other.right),
            min(self.bottom, other.bottom),
        )

    def touches(self, other: Box) -> bool:
        """Whether the two share a place; an edge in common counts."""
        return (
            self.left <= other.right
            and other.left <= self.right
            and self.top <= other.bottom
            and other.top <= self.bottom
        )

    def holds(self, other: Box) -> bool:
        """Whether the other lies wholly inside; on the edge counts."""
        return (
            self.left <= other.left
            and self.top <= other.top
            and self.right >= other.right
            and self.bottom >= other.bottom
        )

    def corners(self) -> tuple[tuple[float, float], ...]:
        """Four corners, from the upper left, clockwise on the paper."""
        return (
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        )


def box_round(boxes: Iterable[Box]) -> Box | None:
    """The smallest box round them all; None when there are none."""
    found: Box | None = None
    for box in boxes:
        found = box if found is None else found.joined(box)
    return found


@dataclass(frozen=True, slots=True)
class Transform:
    """Turning and scaling without stretching, then moving: x' = a x - b y + dx, y' = b x + a y + dy.

    Only these, so that lettering stays lettering: it is never sheared or seen in a mirror.
    """

    a: float = 1.0
    b: float = 0.0
    dx: float = 0.0
    dy: float = 0.0

    @staticmethod
    def moving(dx: float, dy: float) -> Transform:
        return Transform(1.0, 0.0, dx, dy)

    @staticmethod
    def scaling(by: float, about: tuple[float, float] = (0.0, 0.0)) -> Transform:
        """Larger by `by` (more than 0) about a place."""
        if not by > 0:
            raise ValueError("a drawing can only be scaled by more than nothing")
        return Transform(by, 0.0, about[0] * (1 - by), about[1] * (1 - by))

    @staticmethod
    def turning(angle: float) -> Transform:
        """Turned about the origin; a positive angle (radians) is clockwise, because y runs down."""
        return Transform(math.cos(angle), math.sin(angle))

    @property
    def scale(self) -> float:
        return math.hypot(self.a, self.b)

    @property
    def angle(self) -> float:
        return math.atan2(self.b, self.a)

    def __call__(self, x: float, y: float) -> tuple[float, float]:
        return self.a * x - self.b * y + self.dx, self.b * x + self.a * y + self.dy

    def then(self, after: Transform) -> Transform:
        """This one first, `after` next."""
        dx, dy = after(self.dx, self.dy)
        return Transform(after.a * self.a - after.b * self.b, after.b * self.a + after.a * self.b, dx, dy)


class PathPen(Protocol):
    """The four movements a path is drawn with."""

    def move(self, x: float, y: float) -> None: ...

    def to(self, x: float, y: float) -> None: ...

    def bend(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None: ...

    def close(self) -> None: ...


def _turns_of(p0: float, p1: float, p2: float, p3: float) -> Iterator[float]:
    """Where one co-ordinate of a cubic turns back, as parameters strictly between 0 and 1."""
    a = p3 - 3 * p2 + 3 * p1 - p0
    b = 2 * (p2 - 2 * p1 + p0)
    c = p1 - p0
    if a == 0:
        if b != 0:
            yield from (t for t in (-c / b,) if 0 < t < 1)
        return
    inside = b * b - 4 * a * c
    if inside < 0:
        return
    # The form without cancellation: q never subtracts nearly equal numbers.
    q = -(b + math.copysign(math.sqrt(inside), b)) / 2
    roots = [q / a] + ([c / q] if q != 0 else [])
    yield from (t for t in roots if 0 < t < 1)


def _at(t: float, p0: float, p1: float, p2: float, p3: float) -> float:
    s = 1 - t
    return s * s * s * p0 + 3 * s * s * t * p1 + 3 * s * t * t * p2 + t * t * t * p3


@dataclass(frozen=True, slots=True)
class Path:
    """Steps of a pen. The first step is a `Move`; a `Move` later begins another stretch."""

    steps: tuple[Step, ...]

    def draw(self, pen: PathPen) -> None:
        """Play the steps on a pen, in order."""
        for step in self.steps:
            match step:
                case Move(x, y):
                    pen.move(x, y)
                case To(x, y):
                    pen.to(x, y)
                case Bend(x1, y1, x2, y2, x, y):
                    pen.bend(x1, y1, x2, y2, x, y)
                case _:
                    pen.close()

    def placed(self, how: Transform) -> Path:
        """The same path, transformed."""
        new: list[Step] = []
        for step in self.steps:
            match step:
                case Move(x, y):
                    new.append(Move(*how(x, y)))
                case To(x, y):
                    new.append(To(*how(x, y)))
                case Bend(x1, y1, x2, y2, x, y):
                    new.append(Bend(*how(x1, y1), *how(x2, y2), *how(x, y)))
                case _:
                    new.append(step)
        return Path(tuple(new))

    def __add__(self, other: Path) -> Path:
        return Path(self.steps + other.steps)

    def box(self) -> Box | None:
        """The true box of the line itself, without its width; None for a path with no place."""
        xs: list[float] = []
        ys: list[float] = []
        px = py = 0.0
        for step in self.steps:
            if isinstance(step, Close):
                continue
            if isinstance(step, Bend):
                across, down = (px, step.x1, step.x2, step.x), (py, step.y1, step.y2, step.y)
                xs.extend(_at(t, *across) for t in _turns_of(*across))
                ys.extend(_at(t, *down) for t in _turns_of(*down))
            px, py = step.x, step.y
            xs.append(px)
            ys.append(py)
        if not xs:
            return None
        return Box(min(xs), min(ys), max(xs), max(ys))

    def flat(self, a_bend: int = 16) -> list[list[tuple[float, float]]]:
        """Corners of a broken line along each stretch; a cubic gives `a_bend` equal steps of its parameter.

        For asking what lies where, never for drawing.
        """
        stretches: list[list[tuple[float, float]]] = []
        for step in self.steps:
            match step:
                case Move(x, y):
                    stretches.append([(x, y)])
                case To(x, y):
                    stretches[-1].append((x, y))
                case Bend(x1, y1, x2, y2, x, y):
                    px, py = stretches[-1][-1]
                    for i in range(1, a_bend + 1):
                        t = i / a_bend
                        stretches[-1].append((_at(t, px, x1, x2, x), _at(t, py, y1, y2, y)))
                case _:
                    stretches[-1].append(stretches[-1][0])
        return stretches


def through(points: Iterable[tuple[float, float]], closed: bool = False) -> Path:
    """Straight from point to point; at least one point."""
    places = list(points)
    if not places:
        raise ValueError("a path needs a place to begin")
    steps: list[Step] = [Move(*places[0]), *(To(x, y) for x, y in places[1:])]
    if closed:
        steps.append(Close())
    return Path(tuple(steps))


def straight(x0: float, y0: float, x1: float, y1: float) -> Path:
    """One straight line."""
    return Path((Move(x0, y0), To(x1, y1)))


def rectangle(box: Box) -> Path:
    """Round a box, clockwise on the paper from its upper left."""
    return through(box.corners(), closed=True)


# Where the handle of a quarter circle stands, in radii: 4/3 tan(pi/8), the usual cubic, which strays
# from the circle by 27 parts in 100,000 of the radius (0.03 mm on one of 100 mm).
_QUARTER = 4 / 3 * math.tan(math.pi / 8)


def circle(x: float, y: float, radius: float) -> Path:
    """Round (x, y), as four cubics."""
    h = _QUARTER * radius
    r = radius
    return Path(
        (
            Move(x + r, y),
            Bend(x + r, y + h, x + h, y + r, x, y + r),
            Bend(x - h, y + r, x - r, y + h, x - r, y),
            Bend(x - r, y - h, x - h, y - r, x, y - r),
            Bend(x + h, y - r, x + r, y - h, x + r, y),
            Close(),
        )
    )


def from_cubics(cubics: ArrayLike) -> Path:
    """A path from an array (n, 4, 2): n cubics of four places each.

    A cubic that is straight to the eye of the numbers (handles at the thirds) is still written as a
    cubic: the line drawn is the line computed. One of no length is left out. Where one cubic does not
    begin where the last ended, the pen is lifted.
    """
    rows = np.asarray(cubics, dtype=float)
    if rows.ndim != 3 or rows.shape[1:] != (4, 2):
        raise ValueError(f"cubics are wanted as (n, 4, 2), not {rows.shape}")
    steps: list[Step] = []
    at: tuple[float, float] | None = None
    for row in rows.tolist():
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = row
        if all(place == [x0, y0] for place in row):
            continue
        if at != (x0, y0):
            steps.append(Move(x0, y0))
        steps.append(Bend(x1, y1, x2, y2, x3, y3))
        at = (x3, y3)
    return Path(tuple(steps))

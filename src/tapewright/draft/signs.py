"""The small signs that a plate bears beside lines and letters: what a drafter pencils in and never cuts.

A right angle, a stroke where a line is divided, the pin that something turns round, notches, the grain and
the fold. A kind of sentence that has a sign says so in its twin file, by `@signs`; what is recorded with a
piece or a balance mark is read from there. Nothing here is drawn until a plate asks for it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any, TypeVar

import numpy as np

from tapewright.draft.on_line import run_of
from tapewright.draft.result import Draft
from tapewright.draft.rows import DrawnLine
from tapewright.geometry import Point, nearest, tangent
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.language.clause import Clause
from tapewright.language.tree import Path, PointRef
from tapewright.plan.plan import Straight, each

F = TypeVar("F", bound=Callable[[Any, Draft, int], Iterator["Sign"]])
Spot = tuple[float, float]


class SignKind(StrEnum):
    """What a sign says."""

    SQUARE = "square"
    DIVISION = "division"
    PIN = "pin"
    NOTCH = "notch"
    GRAIN = "grain"
    FOLD = "fold"


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign at a place in mm of the pattern.

    `along` is the direction of the line that it stands on, in radians; `other` that of the second arm of a
    right angle, or the side of a fold on which the piece lies; `far` is how long the grain or the fold runs
    from here; `count` how many notches; `sentence` the item that it belongs to.
    """

    kind: SignKind
    x: float
    y: float
    along: float
    other: float = 0.0
    far: float = 0.0
    count: int = 1
    sentence: int = 0


Signing = Callable[[Any, Draft, int], Iterator[Sign]]

SIGNS: dict[str, Signing] = {}


def signs(*kinds: type[Clause]) -> Callable[[F], F]:
    """Enter a function under the kinds of clause whose signs it gives, for one body of a draft."""

    def enter(function: F) -> F:
        for kind in kinds:
            SIGNS[kind.kind] = function
        return function

    return enter


def signs_of(draft: Draft, row: int = 0) -> tuple[Sign, ...]:
    """Every sign of one body's draft, in the order of the sentences; none for what could not be drawn."""
    found: dict[Sign, None] = {}
    for step in each(draft.plan.steps):
        signing = SIGNS.get(step.clause.kind)
        if signing is not None and all(draft.alive(key, row) for key in step.makes):
            found |= dict.fromkeys(
                replace(s, sentence=step.sentence) for s in signing(step.clause, draft, row)
            )
    for mark in draft.marks():
        x, y, along = float(mark.at.x[row]), float(mark.at.y[row]), float(mark.along[row])
        if np.isfinite((x, y, along)).all():
            found[Sign(SignKind.NOTCH, x, y, along, count=mark.notches, sentence=mark.sentence)] = None
    return (*found, *_lying(draft, row))


def _lying(draft: Draft, row: int) -> Iterator[Sign]:
    """The grain and the fold of the pieces; a line that two pieces share has its sign once."""
    given: set[tuple[float, float, float, float]] = set()
    lines = [(piece, line) for piece in draft.pieces() if piece.on != "cross" for line in piece.lying]
    for piece, line in lines:
        (ax, ay), (bx, by) = (place(p, row) for p in line)
        far = float(np.hypot(bx - ax, by - ay))
        ends = (ax, ay, bx, by)
        if far <= SAME_POINT or ends in given:
            continue
        given.add(ends)
        letters = [place(draft.point(edge.start), row) for edge in piece.outline.edges]
        mx, my = (float(np.mean(values)) for values in zip(*letters, strict=True))
        along = float(np.arctan2(by - ay, bx - ax))
        left = (bx - ax) * (my - ay) - (by - ay) * (mx - ax) > 0
        inward = along + (np.pi / 2 if left else -np.pi / 2)
        yield Sign(SignKind(piece.on), ax, ay, along, inward, far, sentence=piece.sentence)


def place(point: Point, row: int) -> Spot:
    """A point of one body."""
    return float(point.x[row]), float(point.y[row])


def line_of(draft: Draft, path: Path, row: int) -> DrawnLine | tuple[Point, Point] | None:
    """The line that a path stands for, or the two points of a straight way; None where it was not drawn."""
    key = draft.plan.path(path)
    if isinstance(key, Straight):
        if not all(draft.alive(f"point {name}", row) for name in (key.a, key.b)):
            return None
        return draft.point(key.a), draft.point(key.b)
    return draft.line(key) if draft.alive(f"line {key}", row) else None


def direction_at(draft: Draft, path: Path, ref: PointRef | str, row: int) -> float | None:
    """Which way a line runs where a letter lies on it, in radians; None if it has no way there."""
    line = line_of(draft, path, row)
    if line is None:
        return None
    if isinstance(line, tuple):
        (ax, ay), (bx, by) = (place(p, row) for p in line)
        return float(np.arctan2(by - ay, bx - ax)) if np.hypot(bx - ax, by - ay) > SAME_POINT else None
    run = run_of(line)
    if run is None:
        return None
    found = tangent(run, nearest(run, draft.point(ref if isinstance(ref, str) else ref.name)).t)
    return float(np.arctan2(found.dy[row], found.dx[row]))

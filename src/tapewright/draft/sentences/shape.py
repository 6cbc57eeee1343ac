"""Shapes on squares, and curve rules: a table of points copied at a size, or laid between two letters."""

from itertools import pairwise

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.kinds import draws
from tapewright.draft.ways import toward
from tapewright.geometry import Curve, Point, joined, midpoint, spline
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.language.lesson import ShapeEntry
from tapewright.language.sentences import CurveRule, Shape


@draws(Shape)
def shape(said: Shape, board: Board) -> None:
    """The curve, and the letters of its table."""
    entry = _entry(board, said.title)
    start, square = board.point(said.start), board.amount(said.square)
    span = said.square.span
    board.fail(square > 0.0, lambda row: asking.negative("The square", float(square[row]), span))
    points = [
        Point(start.x + square * float(p.right), start.y + square * float(p.down)) for p in entry.points
    ]
    for p, point in zip(entry.points, points, strict=True):
        if p.letter:
            board.put_point(p.letter, point)
    board.put_line(_through(board, entry, points, said))


@draws(CurveRule)
def curve_rule(said: CurveRule, board: Board) -> None:
    """The shape turned and scaled so that its ends fall on two letters, hollow to the side said."""
    entry = _entry(board, said.title)
    a, b = board.point(said.start), board.point(said.stop)
    first, last = entry.points[0], entry.points[-1]
    cx, cy = float(last.right - first.right), float(last.down - first.down)
    chord = cx * cx + cy * cy
    if chord <= SAME_POINT:
        board.stop(lambda row: asking.closed_rule(said.title, said.span))
    dx, dy = b.x - a.x, b.y - a.y
    far = np.sqrt(dx * dx + dy * dy)
    name = f"{said.start.name}-{said.stop.name}"
    board.fail(far > SAME_POINT, lambda row: asking.no_direction(name, said.span))
    # Along the chord and off it, as shares of the chord's length.
    along, off = [], []
    for p in entry.points:
        x, y = float(p.right - first.right), float(p.down - first.down)
        along.append((x * cx + y * cy) / chord)
        off.append((y * cx - x * cy) / chord)
    bulge = sum(off)
    side = toward(board, said.toward, midpoint(a, b))
    dot = -dy * side.dx + dx * side.dy
    span = said.toward.span
    board.fail(np.abs(dot) > SAME_POINT, lambda row: asking.side_unclear(span))
    flip: Array = np.where((dot < 0.0) == (bulge < 0.0), 1.0, -1.0)
    points = [
        Point(a.x + dx * u - dy * v * flip, a.y + dy * u + dx * v * flip)
        for u, v in zip(along, off, strict=True)
    ]
    board.put_line(_through(board, entry, points, said))


def _entry(board: Board, title: str) -> ShapeEntry:
    found = next((s for s in board.plan.lesson.shapes if s.name == title.lower()), None)
    if found is None:
        raise TypeError("the plan lets no shape through that the lesson does not have")
    return found


def _through(board: Board, entry: ShapeEntry, points: list[Point], said: Shape | CurveRule) -> Curve:
    """A smooth curve through the points, broken at corners."""
    cuts = [0, *(i for i in range(1, len(points) - 1) if entry.points[i].corner), len(points) - 1]
    parts = []
    for low, high in pairwise(cuts):
        found = spline(points[low : high + 1])
        board.fail(found.ok, lambda row: asking.points_of_shape_one(said.title, said.span))
        parts.append(found.curve)
    return parts[0] if len(parts) == 1 else joined(parts)

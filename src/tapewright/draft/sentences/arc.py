"""Arcs: through three points, by a height, square to two lines; and the quarter round in a corner."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.crossing import choose
from tapewright.draft.kinds import draws
from tapewright.draft.sentences.from_ import ray
from tapewright.draft.ways import line_direction, toward, unit
from tapewright.geometry import (
    Carried,
    Point,
    Vector,
    arc_through,
    bent_arc,
    distance,
    meets,
    midpoint,
    spline,
)
from tapewright.geometry.rows import Why
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.language.saying import show_path
from tapewright.language.sentences import Arc, ArcSquare, QuarterRound


@draws(Arc)
def arc(said: Arc, board: Board) -> None:
    """The piece of the one circle through three points."""
    a, c = board.point(said.start), board.point(said.stop)
    if said.middle is not None:
        b = board.point(said.middle)
        letters = [said.start.name, said.middle.name, said.stop.name]
    else:
        if said.height is None or said.toward is None:
            raise TypeError("an arc has a third point or a height")
        b = _raised(said, board, a, c)
        letters = [said.start.name, said.stop.name]
    found = arc_through(a, b, c)
    board.fail(found.ok, lambda row: asking.arc_unclear(letters, Why(int(found.why[row])), said.span))
    board.put_line(found.value)


def _raised(said: Arc, board: Board, a: Point, c: Point) -> Point:
    """The top of an arc of a given height, to the side said."""
    if said.height is None or said.toward is None:
        raise TypeError("an arc of a height has a side")
    height = board.amount(said.height)
    middle = midpoint(a, c)
    name = f"{said.start.name}-{said.stop.name}"
    along = unit(board, Vector(c.x - a.x, c.y - a.y), said.span, name)
    side = toward(board, said.toward, middle)
    dot = -along.dy * side.dx + along.dx * side.dy
    span = said.toward.span
    board.fail(np.abs(dot) > SAME_POINT, lambda row: asking.side_unclear(span))
    far = height * np.where(dot < 0.0, -1.0, 1.0)
    return Point(middle.x - along.dy * far, middle.y + along.dx * far)


@draws(ArcSquare)
def arc_square(said: ArcSquare, board: Board) -> None:
    """An arc square to two lines: its chord stands across the line half-way between them.

    It is never built on the point where the two lines meet, which runs off where they are nearly parallel.
    """
    start = board.point(said.start)
    one = line_direction(board, said.one, start, said.one.span)
    other = line_direction(board, said.other, start, said.other.span)
    same = np.where(one.dx * other.dx + one.dy * other.dy < 0.0, -1.0, 1.0)
    other = Vector(other.dx * same, other.dy * same)
    half = unit(board, Vector(one.dx + other.dx, one.dy + other.dy), said.span, "half-way between the lines")
    chord = Vector(-half.dy, half.dx)
    shown = show_path(said.line)
    span = said.line.span
    met = meets(ray(start, chord), board.line(said.line), Carried.BOTH)
    end, _, _ = choose(
        board, met, None, said.span,
        lambda m, row: asking.never_meets(f"The arc from {said.start.name}", shown, m, row, span), start,
    )  # fmt: skip
    # The arc sets out square to the first line, to the side on which it ends.
    ahead = Vector(-one.dy, one.dx)
    sense = np.where(ahead.dx * (end.x - start.x) + ahead.dy * (end.y - start.y) < 0.0, -1.0, 1.0)
    way = np.arctan2(ahead.dy * sense, ahead.dx * sense)
    toward_end = np.arctan2(end.y - start.y, end.x - start.x)
    turn = 2.0 * _wrapped(toward_end - way)
    half_turn = turn * 0.5
    bend = np.where(np.abs(half_turn) < SAME_POINT, 1.0, half_turn)
    stretch = np.where(np.abs(half_turn) < SAME_POINT, 1.0, bend / np.sin(bend))
    board.put_point(said.new, end)
    board.put_line(bent_arc(start, way, distance(start, end) * stretch, turn))


def _wrapped(angle: Array) -> Array:
    """An angle brought to between -pi and pi."""
    wrapped: Array = np.arctan2(np.sin(angle), np.cos(angle))
    return wrapped


@draws(QuarterRound)
def quarter_round(said: QuarterRound, board: Board) -> None:
    """Leaving along the first arm of the corner and reaching along the second."""
    start, stop, corner = board.point(said.start), board.point(said.stop), board.point(said.corner.b)
    b = said.corner.b.name
    one = unit(board, Vector(corner.x - start.x, corner.y - start.y), said.span, f"{said.start.name}-{b}")
    two = unit(board, Vector(stop.x - corner.x, stop.y - corner.y), said.span, f"{b}-{said.stop.name}")
    ways = {0: np.arctan2(one.dy, one.dx), 1: np.arctan2(two.dy, two.dx)}
    found = spline([start, stop], ways)
    board.fail(found.ok, lambda row: asking.curve_points_one(said.start.name, said.stop.name, said.span))
    board.put_line(found.curve)

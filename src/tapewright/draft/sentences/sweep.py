"""Sweep: whole circles until they are cut, and arcs to a line, to a point, through an angle."""

import numpy as np

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.crossing import choose
from tapewright.draft.kinds import draws
from tapewright.draft.sentences.from_ import carried
from tapewright.draft.ways import toward
from tapewright.geometry import Arc, Circle, Point, Vector, arc_about, arc_between, distance, meets, rotated
from tapewright.geometry.tolerance import LENGTH_AGREES, SAME_POINT
from tapewright.language.saying import show_path
from tapewright.language.sentences import Sweep


@draws(Sweep)
def sweep(said: Sweep, board: Board) -> None:
    """The arc, and the point where it ends if it makes one."""
    pivot = board.point(said.pivot)
    if said.radius is not None:
        radius = board.amount(said.radius)
        ok = radius > SAME_POINT
        span = said.radius.span
        board.fail(ok, lambda row: asking.negative("The sweep's length", float(radius[row]), span))
        circle = Circle(pivot, np.where(ok, radius, 1.0))
        if said.new is not None:
            board.put_point(said.new, _cut(said, board, circle))
        board.put_line(circle)
        return
    if said.start is None:
        raise TypeError("a sweep has a radius or a start")
    start = board.point(said.start)
    radius = distance(pivot, start)
    name = f"{said.pivot.name}-{said.start.name}"
    board.fail(radius > SAME_POINT, lambda row: asking.no_direction(name, said.span))
    radius = np.where(radius > SAME_POINT, radius, 1.0)
    if said.angle is not None and said.new is not None:
        _through(said, board, pivot, start)
        return
    if said.new is not None:
        end = _cut(said, board, Circle(pivot, radius))
        board.put_point(said.new, end)
    elif said.stop is not None:
        end = board.point(said.stop)
        off = distance(pivot, end) - radius
        stop = said.stop
        board.fail(
            np.abs(off) <= LENGTH_AGREES,
            lambda row: asking.not_so_far(said.pivot.name, name, stop.name, float(off[row]), said.span),
        )
    else:
        raise TypeError("a sweep from a start has an end")
    board.put_line(arc_between(pivot, start, end))


def _cut(said: Sweep, board: Board, circle: Circle) -> Point:
    """Where the sweep meets its line."""
    if said.end is None:
        raise TypeError("a sweep to a new letter has a line")
    end = said.end
    met = meets(circle, board.line(end.line.path), carried_b=carried(end.line))
    shown = show_path(end.line.path)
    point, _, _ = choose(
        board, met, end.crossing, end.span,
        lambda m, row: asking.ruler_short(f"The sweep about {said.pivot.name}", shown, m, row, end.span),
    )  # fmt: skip
    return point


def _through(said: Sweep, board: Board, pivot: Point, start: Point) -> None:
    """An arc through an angle, toward the side said."""
    if said.angle is None or said.toward is None or said.new is None:
        raise TypeError("a sweep through an angle says which way and makes a letter")
    angle = board.amount(said.angle) * turning_sign(
        board, pivot, start, toward(board, said.toward, start), said.span
    )
    arc: Arc = arc_about(pivot, start, angle)
    board.put_point(said.new, rotated(start, pivot, angle))
    board.put_line(arc)


def turning_sign(board: Board, pivot: Point, p: Point, wanted: Vector, span: Span) -> Array:
    """1 where a point turned clockwise about a pivot sets out toward the wanted side, else -1."""
    dot = -(p.y - pivot.y) * wanted.dx + (p.x - pivot.x) * wanted.dy
    board.fail(np.abs(dot) > SAME_POINT, lambda row: asking.side_unclear(span))
    return np.where(dot < 0.0, -1.0, 1.0)

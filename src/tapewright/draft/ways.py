"""Which way a sentence goes: every way as a unit vector on rows."""

from __future__ import annotations

import numpy as np

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.on_line import found_on, run_of
from tapewright.geometry import Point, Stretch, Vector, displacement, nearest, tangent
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.language.tree import (
    AlongLine,
    AtAngle,
    BareWay,
    Compass,
    IntoCorner,
    NameRef,
    Path,
    PointRef,
    Ruler,
    SquareTo,
    Toward,
    Unknown,
    Way,
)

COMPASS = {"up": (0.0, -1.0), "down": (0.0, 1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}


def compass(board: Board, word: str, span: Span) -> Vector:
    """A direction of the paper; `across` is away from the first edge."""
    if word == "across":
        word = board.plan.across
        if not word:
            board.stop(lambda row: asking.no_first_edge(span))
    dx, dy = COMPASS[word]
    return Vector(board.constant(dx), board.constant(dy))


def unit(board: Board, v: Vector, span: Span, what: str) -> Vector:
    """A displacement as a unit vector; rows where it is nothing stop."""
    far = np.sqrt(v.dx * v.dx + v.dy * v.dy)
    ok = far > SAME_POINT
    if np.count_nonzero(ok) == board.count:
        return Vector(v.dx / far, v.dy / far)
    board.fail(ok, lambda row: asking.no_direction(what, span))
    safe = np.where(ok, far, 1.0)
    return Vector(np.where(ok, v.dx / safe, 1.0), np.where(ok, v.dy / safe, 0.0))


def direction_of(board: Board, way: Way, start: Point, name: str) -> Vector:
    """The unit vector of a way from a start; `name` is the start's letter."""
    match way:
        case Compass(word, span):
            return compass(board, word, span)
        case Toward():
            return toward(board, way, start)
        case SquareTo(path, side, span):
            return _square_to(board, path, side, start, span)
        case AtAngle():
            return _at_angle(board, way, start)
        case IntoCorner(corner, span):
            b = board.point(corner.b)
            one = unit(
                board, displacement(b, board.point(corner.a)), span, f"{corner.a.name}-{corner.b.name}"
            )
            two = unit(
                board, displacement(b, board.point(corner.c)), span, f"{corner.b.name}-{corner.c.name}"
            )
            half = Vector(one.dx + two.dx, one.dy + two.dy)
            return unit(board, half, span, "the middle of a flat corner")
        case AlongLine(line, _, span):
            run = run_of(board.line(line.path))
            if run is None:
                board.stop(lambda row: asking.whole_circle(span))
            return _running(run, start)
        case BareWay():
            raise TypeError("the plan lets no bare way through")


def toward(board: Board, way: Toward, start: Point) -> Vector:
    """The unit vector toward a point, a place, a line (the shortest way to it) or a compass word."""
    match way.target:
        case PointRef(name):
            return unit(board, displacement(start, board.point(name)), way.span, f"the way toward {name}")
        case Compass(word, span):
            return compass(board, word, span)
        case NameRef(name, span) if name in board.plan.places:
            return compass(board, board.plan.places[name], span)
        case NameRef() | Ruler() as path:
            run = run_of(board.line(path))
            if run is None:
                board.stop(lambda row: asking.whole_circle(way.span))
            near = nearest(run, start).point
            return unit(board, displacement(start, near), way.span, "the way toward that line")
        case Unknown():
            raise TypeError("the plan lets no unknown name through")


def line_direction(board: Board, path: Path, start: Point, span: Span) -> Vector:
    """Which way a line runs, as drawn, where a start is nearest to it."""
    if isinstance(path, Ruler):
        return unit(
            board,
            displacement(board.point(path.a), board.point(path.b)),
            span,
            f"{path.a.name}-{path.b.name}",
        )
    run = run_of(board.line(path))
    if run is None:
        board.stop(lambda row: asking.whole_circle(span))
    return _running(run, start)


def _running(run: Stretch, start: Point) -> Vector:
    """Which way a line runs where a point is nearest to it."""
    return tangent(run, run.start if run.curve.is_straight else found_on(run, start)[0])


def _square_to(board: Board, path: Path, side: Toward | None, start: Point, span: Span) -> Vector:
    """Square to a line, to the side said."""
    along = line_direction(board, path, start, span)
    across = Vector(-along.dy, along.dx)
    if side is None:
        return across
    return _turned_to(board, across, toward(board, side, start), side.span)


def _turned_to(board: Board, across: Vector, wanted: Vector, span: Span) -> Vector:
    """A vector, turned round where it points away from the wanted side."""
    dot = across.dx * wanted.dx + across.dy * wanted.dy
    board.fail(np.abs(dot) > SAME_POINT, lambda row: asking.side_unclear(span))
    sign = np.where(dot < 0.0, -1.0, 1.0)
    return Vector(across.dx * sign, across.dy * sign)


def _at_angle(board: Board, way: AtAngle, start: Point) -> Vector:
    """At an angle from a line, turned toward the side said."""
    along = line_direction(board, way.path, start, way.span)
    angle = board.amount(way.angle)
    sign = board.constant(1.0)
    if way.toward is not None:
        wanted = toward(board, way.toward, start)
        cross = along.dx * wanted.dy - along.dy * wanted.dx
        board.fail(np.abs(cross) > SAME_POINT, lambda row: asking.side_unclear(way.span))
        sign = np.where(cross < 0.0, -1.0, 1.0)
    return turned(along, angle * sign)


def turned(v: Vector, angle: Array) -> Vector:
    """A vector turned by an angle, clockwise on the paper."""
    c, s = np.cos(angle), np.sin(angle)
    return Vector(v.dx * c - v.dy * s, v.dx * s + v.dy * c)


def stepped(p: Point, v: Vector, far: Array) -> Point:
    """A point moved by a length along a unit vector."""
    return Point(p.x + v.dx * far, p.y + v.dy * far)

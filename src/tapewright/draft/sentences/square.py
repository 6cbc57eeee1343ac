"""Square: a half-line at right angles until it meets, the foot on a line, the corner of a rectangle."""

from collections.abc import Iterator

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.crossing import choose
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import run_of
from tapewright.draft.result import Draft
from tapewright.draft.sentences.from_ import meet_from
from tapewright.draft.signs import Sign, SignKind, Spot, direction_at, place, signs
from tapewright.draft.ways import direction_of, stepped
from tapewright.geometry import (
    Carried,
    Point,
    at,
    curve_of,
    foot,
    meets,
    nearest,
    straight,
)
from tapewright.geometry.tolerance import LENGTH_AGREES, SAME_POINT
from tapewright.language.saying import show_path
from tapewright.language.sentences import Square
from tapewright.language.tree import End, NewPoint, Path, PointRef, SquareTo


@draws(Square)
def square(said: Square, board: Board) -> None:
    """The new point and the line, or two lines, to it."""
    if said.start is None:
        raise TypeError("the plan lets no Square through without a start")
    here = board.point(said.start)
    if said.start2 is not None and said.way is not None and said.way2 is not None:
        point = _corner(said, board, here, said.start2)
        board.put_point(said.new, point)
        board.put_line(straight(here, point), 0)
        board.put_line(straight(board.point(said.start2), point), 1)
        return
    if said.way is None:
        if said.end is None:
            raise TypeError("the plan lets no Square through without an end")
        point = _foot(said, board, said.start, here, said.end)
    else:
        way = direction_of(board, said.way, here, said.start.name)
        if said.end is not None:
            point = meet_from(board, here, way, said.end, f"The square from {said.start.name}", said.new)
        elif said.reach is not None:
            point = stepped(here, way, board.amount(said.reach))
        else:
            raise TypeError("the plan lets no Square through without an end")
    board.put_point(said.new, point)
    board.put_line(straight(here, point))


@signs(Square)
def square_signs(said: Square, draft: Draft, row: int) -> Iterator[Sign]:
    """A right angle at the foot on a line, or where the line that was squared to is left.

    What is square to the edges of the paper bears none: the paper says so itself.
    """
    if said.start is None or said.start2 is not None:
        return
    start, new = place(draft.point(said.start.name), row), place(draft.point(said.new.name), row)
    if said.way is None and said.end is not None and not said.end.line.carried_on:
        yield from right_angle(draft, said.end.line.path, said.new, new, start, row)
    elif isinstance(said.way, SquareTo):
        yield from right_angle(draft, said.way.path, said.start, start, new, row)


def right_angle(
    draft: Draft, path: Path, ref: PointRef | NewPoint, corner: Spot, arm: Spot, row: int
) -> Iterator[Sign]:
    """The sign at `corner`, on a line and along an arm; none where the arm has no length."""
    along = direction_at(draft, path, ref.name, row)
    if along is not None and np.hypot(arm[0] - corner[0], arm[1] - corner[1]) > SAME_POINT:
        other = float(np.arctan2(arm[1] - corner[1], arm[0] - corner[0]))
        yield Sign(SignKind.SQUARE, *corner, along, other)


def _corner(said: Square, board: Board, here: Point, second: PointRef) -> Point:
    """Where two lines meet; the words name the lines, not which way along them."""
    there = board.point(second)
    if said.way is None or said.way2 is None or said.start is None:
        raise TypeError("a rectangle has two ways")
    one = direction_of(board, said.way, here, said.start.name)
    two = direction_of(board, said.way2, there, second.name)
    first = straight(here, stepped(here, one, board.constant(100.0)))
    other = straight(there, stepped(there, two, board.constant(100.0)))
    met = meets(first, other, Carried.BOTH, Carried.BOTH)
    what, line = f"The line from {said.start.name}", f"the line from {second.name}"
    point, _, _ = choose(
        board, met, None, said.span, lambda m, row: asking.never_meets(what, line, m, row, said.span)
    )
    return point


def _foot(said: Square, board: Board, start: PointRef, here: Point, end: End) -> Point:
    """Square to a line: the corner falls on it."""
    run = run_of(board.line(end.line.path))
    if run is None:
        board.stop(lambda row: asking.whole_circle(end.span))
    if not curve_of(run).is_straight:
        return nearest(run, here).point
    a, b = at(run.curve, run.start), at(run.curve, run.end)
    found = foot(here, a, b)
    board.fail(found.ok, lambda row: asking.no_direction(show_path(end.line.path), end.span))
    if not end.line.carried_on:
        long = np.hypot(b.x - a.x, b.y - a.y)
        beyond = np.maximum(found.along - long, -found.along)
        board.fail(
            beyond <= LENGTH_AGREES,
            lambda row: asking.foot_beyond(
                start.name, show_path(end.line.path), float(beyond[row]), end.span
            ),
        )
    return found.point

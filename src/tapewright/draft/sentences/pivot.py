"""Pivot: points turned round a point; the copies are primed, the old ones stay."""

from collections.abc import Iterator

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.kinds import draws
from tapewright.draft.motion import turn
from tapewright.draft.result import Draft
from tapewright.draft.sentences.moved import put_moved
from tapewright.draft.sentences.sweep import turning_sign
from tapewright.draft.signs import Sign, SignKind, place, signs
from tapewright.draft.ways import toward
from tapewright.geometry import Point, distance, rotated, turning
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.language.sentences import Pivot, PivotOutline


@draws(Pivot)
def pivot(said: Pivot, board: Board) -> None:
    """Each point's copy, all turned by one angle."""
    centre = board.point(said.pivot)
    angle = _angle(said, board, centre)
    for ref in said.points:
        board.put_point(ref.name + "'", rotated(board.point(ref), centre, angle))


@draws(PivotOutline)
def pivot_outline(said: PivotOutline, board: Board) -> None:
    """The whole outline turned."""
    if board.moving is None:
        raise TypeError("the plan says what a pivot moves")
    centre = board.point(said.pivot)
    motion = turn(centre, _angle(said, board, centre))
    put_moved(board, board.moving, lambda by: motion)


def _angle(said: Pivot | PivotOutline, board: Board, centre: Point) -> Array:
    if said.angle is not None and said.toward is not None:
        first = _first(said, board)
        return board.amount(said.angle) * turning_sign(
            board, centre, first, toward(board, said.toward, first), said.span
        )
    if said.moving is None or said.line is None:
        raise TypeError("a pivot has an angle, or a point that comes to lie on a line")
    far = said.line.b if said.line.a.name == said.pivot.name else said.line.a
    moving, aim = board.point(said.moving), board.point(far)
    name = f"{said.pivot.name}-{said.moving.name}"
    apart = np.minimum(distance(centre, moving), distance(centre, aim))
    board.fail(apart > SAME_POINT, lambda row: asking.no_direction(name, said.span))
    found = turning(moving, centre, aim)
    board.fail(found.ok, lambda row: asking.no_direction(name, said.span))
    return found.value


def _first(said: Pivot | PivotOutline, board: Board) -> Point:
    """The point whose setting out tells which way to turn."""
    if isinstance(said, Pivot):
        return board.point(said.points[0])
    if board.moving is None:
        raise TypeError("the plan says what a pivot moves")
    pivot = said.pivot.name
    return board.point(next(x.old for x in board.moving.letters if x.old != pivot))


@signs(Pivot, PivotOutline)
def pivot_signs(said: Pivot | PivotOutline, draft: Draft, row: int) -> Iterator[Sign]:
    """The pin that it turns about."""
    yield Sign(SignKind.PIN, *place(draft.point(said.pivot.name), row), 0.0)

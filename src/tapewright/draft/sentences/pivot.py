"""Pivot: points turned round a point; the copies are primed, the old ones stay."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.kinds import draws
from tapewright.draft.sentences.sweep import turning_sign
from tapewright.draft.ways import toward
from tapewright.geometry import Point, distance, rotated, turning
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.language.sentences import Pivot


@draws(Pivot)
def pivot(said: Pivot, board: Board) -> None:
    """Each point's copy, all turned by one angle."""
    centre = board.point(said.pivot)
    angle = _angle(said, board, centre)
    for ref in said.points:
        board.put_point(ref.name + "'", rotated(board.point(ref), centre, angle))


def _angle(said: Pivot, board: Board, centre: Point) -> Array:
    if said.angle is not None and said.toward is not None:
        first = board.point(said.points[0])
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

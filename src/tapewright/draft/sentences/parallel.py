"""Draw C-D parallel to A-B."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.ways import direction_of, unit
from tapewright.geometry import Point, Vector, straight
from tapewright.geometry.tolerance import FLAT_ANGLE
from tapewright.language.sentences import Parallel
from tapewright.language.tree import Offset


@draws(Parallel)
def parallel(said: Parallel, board: Board) -> None:
    """A straight line as long as the other, at a distance from it, to the side said."""
    if not isinstance(said.reach, Offset):
        raise TypeError("the plan lets no parallel through without a side")
    a, b = board.point(said.line.a), board.point(said.line.b)
    name = f"{said.line.a.name}-{said.line.b.name}"
    along = unit(board, Vector(b.x - a.x, b.y - a.y), said.line.span, name)
    way = direction_of(board, said.reach.way, a, said.line.a.name)
    square = Vector(-along.dy, along.dx)
    dot = square.dx * way.dx + square.dy * way.dy
    span = said.reach.span
    board.fail(np.abs(dot) > FLAT_ANGLE, lambda row: asking.along_itself(name, span))
    far = board.amount(said.reach.amount) * np.where(dot < 0.0, -1.0, 1.0)
    moved = [Point(p.x + square.dx * far, p.y + square.dy * far) for p in (a, b)]
    board.put_point(said.new.a, moved[0])
    board.put_point(said.new.b, moved[1])
    board.put_line(straight(*moved))

"""A cone unrolled: an arc of the length said at either end of the slant, and the other edge.

A frustum of slant s whose ends measure p and q round (of what is unrolled) is a piece of a ring that turns by
(q - p) / s. The arcs are built from their length and turn, so that a tube, which turns by nothing, is one too.
Source of the method: any sheet metal drafting text, such as Longfield 1921, and elementary geometry.
"""

from math import pi

import numpy as np

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.ways import direction_of, unit
from tapewright.geometry import Vector, bent_arc, bent_end, distance, straight
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.language.sentences import Cone


@draws(Cone)
def cone(said: Cone, board: Board) -> None:
    """Two points, two arcs, and the edge between the new points."""
    a, b = board.point(said.slant.a), board.point(said.slant.b)
    near, far = board.amount(said.near), board.amount(said.far)
    if said.a.name == said.slant.b.name:
        near, far = far, near
    name = f"{said.slant.a.name}-{said.slant.b.name}"
    slant = distance(a, b)
    along = unit(board, Vector(b.x - a.x, b.y - a.y), said.slant.span, name)
    for one, node in ((near, said.near), (far, said.far)):
        _positive(board, one, node.span)
    turn = (far - near) / np.where(slant > SAME_POINT, slant, 1.0)
    board.fail(
        np.abs(turn) < 2 * pi,
        lambda row: asking.cone_too_wide(float(near[row]), float(far[row]), float(slant[row]), said.span),
    )
    wanted = direction_of(board, said.way, a, said.slant.a.name)
    across = Vector(-along.dy, along.dx)
    sense = np.where(across.dx * wanted.dx + across.dy * wanted.dy < 0.0, -1.0, 1.0)
    way = np.arctan2(across.dy * sense, across.dx * sense)
    # It bends toward the narrow end: the middle of the ring lies beyond A where B is the wider.
    bend = turn * sense
    ends = [bent_end(p, way, long, bend) for p, long in ((a, near), (b, far))]
    board.put_point(said.new.a, ends[0])
    board.put_point(said.new.b, ends[1])
    board.put_line(bent_arc(a, way, near, bend), 0)
    board.put_line(bent_arc(b, way, far, bend), 1)
    board.put_line(straight(*ends), 2)


def _positive(board: Board, amount: np.ndarray, span: object) -> None:

    assert isinstance(span, Span)
    board.fail(amount > 0.0, lambda row: asking.negative("The end of the cone", float(amount[row]), span))

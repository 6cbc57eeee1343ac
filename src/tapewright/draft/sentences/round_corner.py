"""Round a corner: so much cut off each arm, and a curve between that leaves and reaches along the arms."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.ways import stepped, unit
from tapewright.geometry import displacement, distance, spline
from tapewright.language.sentences import RoundCorner


@draws(RoundCorner)
def round_corner(said: RoundCorner, board: Board) -> None:
    """The two ends and the curve between them."""
    a, b, c = (board.point(p) for p in (said.corner.a, said.corner.b, said.corner.c))
    reach = board.amount(said.reach)
    span = said.reach.span
    shorter = np.minimum(distance(a, b), distance(b, c))
    board.fail(reach > 0.0, lambda row: asking.negative("The rounding", float(reach[row]), span))
    board.fail(
        reach <= shorter, lambda row: asking.arm_too_short(float(reach[row]), float(shorter[row]), span)
    )
    name = f"{said.corner.a.name}-{said.corner.b.name}-{said.corner.c.name}"
    one = unit(board, displacement(b, a), said.corner.span, name)
    two = unit(board, displacement(b, c), said.corner.span, name)
    first, second = stepped(b, one, reach), stepped(b, two, reach)
    ways = {0: np.arctan2(-one.dy, -one.dx), 1: np.arctan2(two.dy, two.dx)}
    found = spline([first, second], ways)
    board.fail(found.ok, lambda row: asking.flat_corner(name, said.corner.span))
    letters = said.ends()
    board.put_point(letters[0], first)
    board.put_point(letters[1], second)
    board.put_line(found.curve)

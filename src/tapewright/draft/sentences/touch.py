"""Draw a plumb or level line touching a curve where it goes farthest to a side."""

from math import pi

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import run_of
from tapewright.draft.ways import toward
from tapewright.geometry import Point, farthest, start_point, straight
from tapewright.geometry.tolerance import FLAT_ANGLE
from tapewright.language.saying import show_path
from tapewright.language.sentences import Touch


@draws(Touch)
def touch(said: Touch, board: Board) -> None:
    """The point, and the line through it as long as the curve is high or wide."""
    run = run_of(board.line(said.line))
    if run is None:
        board.stop(lambda row: asking.whole_circle(said.line.span))
    if said.toward is None:
        raise TypeError("the plan lets no Touch through without a side")
    side = toward(board, said.toward, start_point(run))
    plumb = said.way == "plumb"
    across = side.dx if plumb else side.dy
    span = said.toward.span
    board.fail(np.abs(across) > FLAT_ANGLE, lambda row: asking.side_unclear(span))
    right = np.where(across > 0.0, 0.0, pi) if plumb else np.where(across > 0.0, pi / 2, -pi / 2)
    found = farthest(run, right)
    board.remark(found.at_end, lambda row: asking.touches_at_end(show_path(said.line), said.line.span))
    one, other = (farthest(run, board.constant(a)).point for a in _ways(plumb))
    if plumb:
        line = straight(Point(found.point.x, one.y), Point(found.point.x, other.y))
    else:
        line = straight(Point(one.x, found.point.y), Point(other.x, found.point.y))
    board.put_point(said.new, found.point)
    board.put_line(line)


def _ways(plumb: bool) -> tuple[float, float]:
    """Up and down, or left and right, as angles."""
    return (-pi / 2, pi / 2) if plumb else (pi, 0.0)

"""Open: slash and spread, and moving a dart. Each slash opens at its first letter and turns on its second."""

from math import pi

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array, Mask
from tapewright.draft.kinds import draws
from tapewright.draft.motion import Motion, turn
from tapewright.draft.sentences.moved import put_moved
from tapewright.geometry import Point, area, distance, turning
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.language.sentences import Open
from tapewright.plan.plan import Slash


@draws(Open)
def open_(said: Open, board: Board) -> None:
    """The opened outline."""
    if board.moving is None:
        raise TypeError("the plan says what an Open moves")
    moving = board.moving
    run = board.outline_of(moving.shape.key)
    clockwise = area([edge.drawn for edge in run.edges]) > 0.0
    turns = [turn(board.point(one.hinge), _angle(said, board, one, clockwise)) for one in moving.slashes]

    def motion(by: tuple[int, ...]) -> Motion:
        found = turns[by[0]]
        for k in by[1:]:
            found = found.then(turns[k])
        return found

    put_moved(board, moving, motion)


def _angle(said: Open, board: Board, slash: Slash, clockwise: Mask) -> Array:
    """How far the part beyond a slash turns about its hinge."""
    at, hinge = board.point(slash.at), board.point(slash.hinge)
    if slash.closing is not None:
        return _closing(said, board, slash, hinge)
    if said.amount is None:
        raise TypeError("an Open has an amount or a dart")
    far, span = board.amount(said.amount), said.amount.span
    long = distance(at, hinge)
    name = f"{slash.at}-{slash.hinge}"
    board.fail(long > SAME_POINT, lambda row: asking.no_direction(name, said.span))
    ok = (far >= 0.0) & (far < 2.0 * long)
    board.fail(ok, lambda row: asking.opens_too_far(name, float(far[row]), float(long[row]), span))
    share = np.where(ok, far / np.where(long > SAME_POINT, 2.0 * long, 1.0), 0.0)
    # The part that follows the slash in a clockwise outline lies on the left of one looking to the hinge.
    leftward = np.where(clockwise, 1.0, -1.0) * (1.0 if slash.onward else -1.0)
    return 2.0 * np.arcsin(share) * leftward


def _closing(said: Open, board: Board, slash: Slash, hinge: Point) -> Array:
    """The turn that brings one side of a dart to the other."""
    if slash.closing is None:
        raise TypeError("a dart has two sides")
    moving, still = (board.point(x) for x in slash.closing)
    found = turning(moving, hinge, still)
    board.fail(found.ok, lambda row: asking.no_direction("the dart", said.span))
    board.fail(np.abs(found.value) < pi, lambda row: asking.no_direction("the dart", said.span))
    return found.value

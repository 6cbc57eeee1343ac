"""Draw C-D parallel to a line: straight beside a straight one; beside a bent one the true parallel."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.sentences.edges import edge_run
from tapewright.draft.ways import direction_of, unit
from tapewright.geometry import (
    Point,
    Stretch,
    Vector,
    at,
    curve_of,
    end_point,
    offset,
    start_point,
    straight,
    tangent,
    trimmed,
)
from tapewright.geometry.tolerance import FLAT_ANGLE, SEAMS_MATCH
from tapewright.language.edges import show_edge
from tapewright.language.pattern import Style
from tapewright.language.sentences import Parallel
from tapewright.language.tree import Offset

_PLAIN = Style()


@draws(Parallel)
def parallel(said: Parallel, board: Board) -> None:
    """The line at its distance, to the side said; its ends beside the ends of the other, square to it."""
    if not isinstance(said.reach, Offset):
        raise TypeError("the plan lets no parallel through without a side")
    run = edge_run(board, said.line, said.line.span)
    if curve_of(run).is_straight:
        _straight(said, said.reach, board, run)
    else:
        _bent(said, said.reach, board, run)


def _straight(said: Parallel, reach: Offset, board: Board, run: Stretch) -> None:
    a, b = start_point(run), end_point(run)
    name = board.worded(said, lambda: show_edge(said.line, _PLAIN))
    along = unit(board, Vector(b.x - a.x, b.y - a.y), said.line.span, name)
    way = direction_of(board, reach.way, a, name)
    square = Vector(-along.dy, along.dx)
    dot = square.dx * way.dx + square.dy * way.dy
    board.fail(np.abs(dot) > FLAT_ANGLE, lambda row: asking.along_itself(name, reach.span))
    far = board.amount(reach.amount) * np.where(dot < 0.0, -1.0, 1.0)
    moved = [Point(p.x + square.dx * far, p.y + square.dy * far) for p in (a, b)]
    board.put_point(said.new.a, moved[0])
    board.put_point(said.new.b, moved[1])
    board.put_line(straight(*moved))


def _bent(said: Parallel, reach: Offset, board: Board, run: Stretch) -> None:
    """The side is told in the middle of the line, where it is plain for any curve that a cutter draws."""
    name = board.worded(said, lambda: show_edge(said.line, _PLAIN))
    half = (run.start + run.end) / 2
    way = direction_of(board, reach.way, at(run.curve, half), name)
    along = tangent(run, half)
    dot = -along.dy * way.dx + along.dx * way.dy
    board.fail(np.abs(dot) > FLAT_ANGLE, lambda row: asking.along_itself(name, reach.span))
    wanted = board.amount(reach.amount)
    # To the right hand as the line is run, y being down: the way (-dy, dx) of the tangent.
    found = offset(trimmed(run), wanted * np.where(dot < 0.0, -1.0, 1.0))
    board.fail(found.ok, lambda row: asking.no_direction(name, said.line.span))
    board.fail(
        ~np.any(found.tight, axis=0),
        lambda row: asking.bends_tighter(name, float(abs(wanted[row])), reach.span),
    )
    ctrl = found.curve.ctrl
    gap = np.abs(ctrl[0, :, 1:] - ctrl[3, :, :-1]).max(axis=(0, 1), initial=0.0)
    board.fail(gap <= SEAMS_MATCH, lambda row: asking.has_a_corner(name, said.line.span))
    board.put_point(said.new.a, start_point(found.curve))
    board.put_point(said.new.b, end_point(found.curve))
    board.put_line(found.curve)

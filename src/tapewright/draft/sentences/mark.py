"""Mark: balance marks on edges."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import ON_THE_LINE
from tapewright.draft.records import BalanceMark, InnerMark
from tapewright.draft.sentences.edges import edge_at, edge_name, edge_run, edge_spot
from tapewright.geometry import (
    Point,
    Stretch,
    at,
    curve_of,
    distance,
    end_point,
    length,
    nearest,
    parameter_at_length,
    start_point,
    tangent,
)
from tapewright.language.sentences import Mark, MarkOn
from tapewright.language.tree import MarkAt, PointRef


@draws(Mark)
def mark(said: Mark, board: Board) -> None:
    """Each mark where it falls."""
    for one in said.marks:
        point = _place(board, one)
        on = edge_at(board, one.edge)
        way = tangent(on.drawn, nearest(on.drawn, point).t)
        notches = 0 if said.notches is None else 2 if said.notches.startswith("two") else 1
        board.records.append(BalanceMark(on, point, np.arctan2(way.dy, way.dx), notches, board.sentence))


@draws(MarkOn)
def mark_on(said: MarkOn, board: Board) -> None:
    """Each line or letter, on its piece."""
    name = getattr(said.outline, "name", "")
    for thing in said.things:
        if isinstance(thing, PointRef):
            board.records.append(InnerMark(name, thing.name, None, board.point(thing), board.sentence))
        else:
            line = edge_at(board, thing)
            board.records.append(InnerMark(name, line.name, line, None, board.sentence))


def _place(board: Board, one: MarkAt) -> Point:
    run = edge_run(board, one.edge, one.span)
    point = board.point(one.point)
    name = edge_name(board, one.edge)
    here, away = edge_spot(board, one.edge, run, one.point.name)
    board.fail(
        away <= ON_THE_LINE,
        lambda row: asking.off_the_line(one.point.name, name, float(away[row]), one.span),
    )
    if one.distance is None:
        return point
    far = board.amount(one.distance)
    start, end = start_point(run), end_point(run)
    # From an end the tape runs along the edge; from a letter within it, the way the edge was drawn.
    at_end = distance(point, end) <= ON_THE_LINE
    at_start = distance(point, start) <= ON_THE_LINE
    curve = curve_of(run)
    on = parameter_at_length(Stretch(curve, here, run.end), far)
    back = parameter_at_length(Stretch(curve, here, run.start), far)
    backward = at_end & ~at_start
    have = np.where(backward, length(Stretch(curve, here, run.start)), length(Stretch(curve, here, run.end)))
    board.fail(
        np.where(backward, back.ok, on.ok),
        lambda row: asking.line_too_short(float(have[row]), float(far[row]), one.span),
    )
    return at(curve, np.where(backward, back.value, on.value))

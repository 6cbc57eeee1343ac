"""Carry: a line goes straight on beyond an end, to a line or by a length."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import run_of
from tapewright.draft.sentences.from_ import meet_from
from tapewright.draft.ways import stepped, unit
from tapewright.geometry import Vector, curve_of, end_point, start_point, straight, tangent
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.language.saying import show_path
from tapewright.language.sentences import Carry
from tapewright.language.tree import Ruler


@draws(Carry)
def carry(said: Carry, board: Board) -> None:
    """The new point and the line to it, straight on as the line left its end."""
    if said.past is None:
        raise TypeError("the plan fills in the end that is carried on")
    end = board.point(said.past)
    name = show_path(said.line)
    if isinstance(said.line, Ruler):
        a, b = board.point(said.line.a), board.point(said.line.b)
        sign = 1.0 if said.past.name == said.line.b.name else -1.0
        way = unit(board, Vector((b.x - a.x) * sign, (b.y - a.y) * sign), said.line.span, name)
    else:
        run = run_of(board.line(said.line))
        if run is None:
            board.stop(lambda row: asking.whole_circle(said.line.span))
        last, first = end_point(run), start_point(run)
        at_last = np.hypot(last.x - end.x, last.y - end.y) <= SAME_POINT
        at_first = np.hypot(first.x - end.x, first.y - end.y) <= SAME_POINT
        letter = said.past
        board.fail(at_last | at_first, lambda row: asking.no_end(letter.name, name, letter.span))
        t = tangent(curve_of(run), np.where(at_last, run.end, run.start))
        # A run backwards goes against its curve, and beyond the first end is against the run.
        sense = np.where((run.start <= run.end) == at_last, 1.0, -1.0)
        way = Vector(t.dx * sense, t.dy * sense)
    if said.end is not None:
        point = meet_from(board, end, way, said.end, f"{name[:1].upper()}{name[1:]} carried on")
    elif said.reach is not None:
        point = stepped(end, way, board.amount(said.reach))
    else:
        raise TypeError("the plan lets no Carry through without an end")
    board.put_point(said.new, point)
    board.put_line(straight(end, point))

"""Take out: a dart on a line, lost at a point."""

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array, Mask
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import place_on, run_of
from tapewright.draft.sentences.from_ import straight_way
from tapewright.draft.ways import stepped
from tapewright.geometry import Point, Stretch, at, curve_of, distance, length, parameter_at_length, straight
from tapewright.geometry.tolerance import LENGTH_AGREES
from tapewright.language.sentences import TakeOut
from tapewright.language.tree import Ruler


@draws(TakeOut)
def take_out(said: TakeOut, board: Board) -> None:
    """Two points on the line, half the amount to either side, and the two legs."""
    amount = board.amount(said.amount)
    span = said.amount.span
    board.fail(amount >= 0.0, lambda row: asking.negative("What is taken out", float(amount[row]), span))
    half = amount if said.where != "at" else amount * 0.5
    first, second = _both_sides(said, board, half)
    lost = board.point(said.lost)
    board.put_point(said.first, first)
    board.put_point(said.second, second)
    board.put_line(straight(first, lost), 0)
    board.put_line(straight(lost, second), 1)
    board.remark(amount <= LENGTH_AGREES, lambda row: asking.nothing_taken_out(span))
    wide, deep = half * 2.0, distance(board.point(said.at), lost)
    board.remark(wide > deep, lambda row: asking.wider_than_deep(float(wide[row]), float(deep[row]), span))


def _both_sides(said: TakeOut, board: Board, half: Array) -> tuple[Point, Point]:
    """The points on either side, in the order in which the line runs."""
    path = said.line.path
    centre = board.point(said.at)
    run = run_of(board.line(path))
    if run is None:
        board.stop(lambda row: asking.whole_circle(said.line.span))
    if isinstance(path, Ruler) or curve_of(run).is_straight:
        if not isinstance(path, Ruler):
            place_on(board, run, board.line_index(path), said.at.name, said.line.span)
        way = straight_way(board, run, said.line.span)
        return stepped(centre, way, -half), stepped(centre, way, half)
    place = place_on(board, run, board.line_index(path), said.at.name, said.line.span)
    back, on = Stretch(run.curve, place, run.start), Stretch(run.curve, place, run.end)
    places = []
    for side in (back, on):
        found = parameter_at_length(side, half)
        _long_enough(board, found.ok, length(side), half, said.span)
        places.append(found.value)
    board.put_spot(said.first, path, places[0])
    board.put_spot(said.second, path, places[1])
    return at(run.curve, places[0]), at(run.curve, places[1])


def _long_enough(board: Board, ok: Mask, have: Array, want: Array, span: Span) -> None:
    board.fail(ok, lambda row: asking.line_too_short(float(have[row]), float(want[row]), span))

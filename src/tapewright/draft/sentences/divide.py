"""Divide: points at equal parts of a line, by the tape where it is curved."""

from collections.abc import Iterator

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import run_of
from tapewright.draft.result import Draft
from tapewright.draft.signs import Sign, SignKind, direction_at, place, signs
from tapewright.geometry import at, between, curve_of, length, parameter_at_length
from tapewright.language.sentences import Divide


@draws(Divide)
def divide(said: Divide, board: Board) -> None:
    """The points in the order of the line."""
    run = run_of(board.line(said.line))
    if run is None:
        board.stop(lambda row: asking.whole_circle(said.line.span))
    parts = said.parts or 2
    straight = curve_of(run).is_straight
    whole = board.constant(0.0) if straight else length(run)
    for k, new in enumerate(said.points(), 1):
        share = board.constant(k / parts)
        if straight:
            point = between(at(run.curve, run.start), at(run.curve, run.end), share)
        else:
            found = parameter_at_length(run, whole * share)
            point = at(run.curve, found.value)
            board.put_spot(new, said.line, found.value)
        board.put_point(new, point)


@signs(Divide)
def divide_signs(said: Divide, draft: Draft, row: int) -> Iterator[Sign]:
    """A stroke across the line at each new letter."""
    for new in said.points():
        along = direction_at(draft, said.line, new.name, row)
        if along is not None:
            yield Sign(SignKind.DIVISION, *place(draft.point(new.name), row), along)

"""Edges as seams, turnings and marks name them."""

from __future__ import annotations

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.on_line import piece, run_of
from tapewright.geometry import Stretch, straight, whole
from tapewright.language.edges import show_edge
from tapewright.language.pattern import Style
from tapewright.language.tree import Along, Edge, Ruler, Unknown

_PLAIN = Style()


def edge_name(edge: Edge) -> str:
    """What an edge is called in the lesson, without its article."""
    return show_edge(edge, _PLAIN).removeprefix("the ")


def edge_run(board: Board, edge: Edge, span: Span) -> Stretch:
    """An edge as it runs."""
    match edge:
        case Ruler(a, b):
            return whole(straight(board.point(a), board.point(b)))
        case Along(path, start, end):
            index = board.line_index(path)
            if index < 0:
                return whole(straight(board.point(start), board.point(end)))
            return piece(board, index, start.name, end.name, span)
        case Unknown():
            raise TypeError("the plan lets no unknown edge through")
        case _:
            run = run_of(board.line(edge))
            if run is None:
                board.stop(lambda row: asking.whole_circle(span))
            return run

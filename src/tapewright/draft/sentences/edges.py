"""Edges as seams, turnings and marks name them."""

from __future__ import annotations

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.on_line import along_between, found_on, line_length, piece, run_length, run_of, spot_on
from tapewright.draft.records import EdgeAt
from tapewright.geometry import Stretch, straight, whole
from tapewright.language.edges import show_edge
from tapewright.language.pattern import Style
from tapewright.language.tree import Along, Edge, Ruler, Unknown

_PLAIN = Style()


def edge_name(board: Board, edge: Edge) -> str:
    """What an edge is called in the lesson, without its article."""
    return board.worded(edge, lambda: show_edge(edge, _PLAIN).removeprefix("the "))


def edge_at(board: Board, edge: Edge) -> EdgeAt:
    """An edge as a sentence names it."""
    run = edge_run(board, edge, edge.span)
    match edge:
        case Ruler(a, b):
            return EdgeAt(edge_name(board, edge), run, -1, (a.name, b.name))
        case Along(path, start, end):
            return EdgeAt(edge_name(board, edge), run, board.line_index(path), (start.name, end.name))
        case Unknown():
            raise TypeError("the plan lets no unknown edge through")
        case _:
            return EdgeAt(edge_name(board, edge), run, board.line_index(edge), ("", ""))


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


def edge_length(board: Board, edge: Edge, run: Stretch) -> Array:
    """The length of an edge by the tape; `run` is the edge as it runs."""
    if isinstance(edge, Ruler | Unknown):
        return run_length(run)
    if isinstance(edge, Along):
        index = board.line_index(edge.path)
        return (
            run_length(run)
            if index < 0
            else along_between(board, index, edge.start.name, edge.end.name, edge.span)
        )
    return line_length(board, board.line_index(edge))


def edge_spot(board: Board, edge: Edge, run: Stretch, letter: str) -> tuple[Array, Array]:
    """Where on an edge a letter stands: the parameter, and how far off; `run` is the edge as it runs."""
    if isinstance(edge, Ruler | Unknown | Along):
        return found_on(run, board.point(letter))
    return spot_on(board, run, board.line_index(edge), letter)

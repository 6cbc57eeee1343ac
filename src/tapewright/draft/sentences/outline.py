"""Outline: a closed run of edges, each by a drawn line or a piece of one, else straight."""

from tapewright.diagnostics import Span
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import piece
from tapewright.draft.rows import Edge, OutlineRun
from tapewright.geometry import Curve, Stretch, backward, straight
from tapewright.language.sentences import Outline


@draws(Outline)
def outline(said: Outline, board: Board) -> None:
    """The edges in order."""
    edges: list[Edge] = []
    here = said.start.name
    for run in said.runs:
        there = run.to.name
        index = -1 if run.by is None else board.line_index(run.by)
        if index < 0:
            known = _named_straight(board, here, there)
            line, name = known if known is not None else (-1, "")
            edges.append(Edge(here, there, straight(board.point(here), board.point(there)), line, name))
        else:
            drawn = _run(board, index, here, there, run.span)
            edges.append(Edge(here, there, drawn, index, board.plan.lines[index].name))
        here = there
    board.put_name(said.name, OutlineRun(tuple(edges)))


def _run(board: Board, index: int, here: str, there: str, span: Span) -> Curve | Stretch:
    """A drawn line from letter to letter: the line itself where they are its ends, else a piece of it."""
    run = piece(board, index, here, there, span)
    line, ends = board.drawn(index), board.plan.lines[index].ends
    if isinstance(line, Curve) and here != there and ends in {(here, there), (there, here)}:
        return line if ends == (here, there) else backward(line)
    return run


def _named_straight(board: Board, a: str, b: str) -> tuple[int, str] | None:
    """The named straight line between two letters, if one was drawn: the edge goes by its name."""
    for line in board.plan.lines:
        if line.sort == "straight" and line.name and line.ends in {(a, b), (b, a)}:
            return line.index, line.name
    return None

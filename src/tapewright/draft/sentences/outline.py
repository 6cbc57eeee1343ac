"""Outline: a closed run of edges, each by a drawn line or a piece of one, else straight."""

import numpy as np

from tapewright.diagnostics import Query, Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import piece
from tapewright.draft.rows import Edge, OutlineRun
from tapewright.geometry import Curve, Point, Stretch, backward, crosses_itself, straight
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
    _ask_if_it_crosses(said, board, edges)
    board.put_name(said.name, OutlineRun(tuple(edges)))


def _ask_if_it_crosses(said: Outline, board: Board, edges: list[Edge]) -> None:
    """An outline has one inside: rows on which it crosses itself are asked about."""
    tangle = crosses_itself([edge.drawn for edge in edges])
    if not np.count_nonzero(tangle.crosses):
        return

    def word(row: int) -> Query:
        one, other = edges[int(tangle.first[row])], edges[int(tangle.second[row])]
        places = [board.point(edge.start) for edge in edges]
        order = [said.start.name, *(run.to.name for run in said.runs[:-1])]
        round_ = [] if any(run.by for run in said.runs) else _round(order, places, row)
        span = said.start.span.to(said.runs[-1].span)
        return asking.outline_crosses(_said(one), _said(other), round_, span)

    board.fail(~tangle.crosses, word)


def _said(edge: Edge) -> str:
    return f"the {edge.name}" if edge.name else f"{edge.start}-{edge.end}"


def _round(order: list[str], places: list[Point], row: int) -> list[str]:
    """The letters in the order in which they lie round their middle, from the first on and in its sense."""
    x = np.array([float(p.x[row]) for p in places])
    y = np.array([float(p.y[row]) for p in places])
    angles = np.arctan2(y - y.mean(), x - x.mean())
    found = [order[k] for k in np.argsort(angles, kind="stable")]
    at = found.index(order[0])
    return found[at:] + found[:at]


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

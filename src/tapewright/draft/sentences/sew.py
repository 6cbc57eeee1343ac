"""Sew: a seam, and whether its two sides are as long as they should be."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.kinds import draws
from tapewright.draft.records import Seam, SeamEdge
from tapewright.draft.sentences.edges import edge_at, edge_length, edge_name
from tapewright.language.pattern import listed
from tapewright.language.sentences import Sew
from tapewright.language.tree import Edge

#: What a seam may differ by before it is asked about, mm (design, section 9).
ALLOWED = 0.5


@draws(Sew)
def sew(said: Sew, board: Board) -> None:
    """The seam; edges that differ by other than the ease said are a question."""
    first = tuple(_edge(board, e) for e in said.first)
    second = tuple(_edge(board, e) for e in said.second)
    difference = _sum(first, board) - _sum(second, board)
    ease = None if said.amount is None else board.amount(said.amount)
    eased = "" if said.eased is None else edge_name(board, said.eased)
    wanted = board.constant(0.0)
    names = listed([e.name for e in first]), listed([e.name for e in second])
    one, two = _sum(first, board), _sum(second, board)
    if said.how is not None:
        on_first = eased in {e.name for e in first}
        over = difference if on_first == (said.how != "stretching") else -difference
        how = said.how
        if ease is None:
            # Whatever is over is taken up; there must be something.
            board.fail(
                over > -ALLOWED,
                lambda row: asking.nothing_over(
                    how, eased, names, (float(one[row]), float(two[row])), said.span
                ),
            )
            ease = np.maximum(over, 0.0)
        wanted = np.where(over == difference, ease, -ease)
    off = np.abs(difference - wanted)
    # The seam is kept whether or not it agrees: running it shows where.
    board.records.append(Seam(first, second, said.how or "", eased, ease, difference, board.sentence))
    board.fail(
        off <= ALLOWED,
        lambda row: asking.seam_differs(
            names[0], names[1], float(one[row]), float(two[row]), float(wanted[row]), said.span
        ),
    )


def _edge(board: Board, edge: Edge) -> SeamEdge:
    at = edge_at(board, edge)
    return SeamEdge(at, edge_length(board, edge, at.drawn))


def _sum(edges: tuple[SeamEdge, ...], board: Board) -> Array:
    total = board.constant(0.0)
    for edge in edges:
        total = total + edge.length
    return total

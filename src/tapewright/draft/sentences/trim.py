"""Trim: what is set along edges."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.records import SeamEdge, Trimming
from tapewright.draft.sentences.edges import edge_at, edge_length
from tapewright.language.sentences import Trim


@draws(Trim)
def trim(said: Trim, board: Board) -> None:
    """The ware, on its edges."""
    edges = []
    for edge in said.edges:
        at = edge_at(board, edge)
        edges.append(SeamEdge(at, edge_length(board, edge, at.drawn)))
    apart = None if said.apart is None else board.amount(said.apart)
    if apart is not None:
        far = np.asarray(apart)
        board.fail(far >= 1.0, lambda row: asking.too_close_together(said.ware, float(far[row]), said.span))
    board.records.append(Trimming(tuple(edges), said.ware, said.count or 0, apart, board.sentence, said.once))

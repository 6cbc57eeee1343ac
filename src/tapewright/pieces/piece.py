"""Pieces of a pattern: net line, cutting line, what they are cut of and how they lie. All bodies at once.

A piece here is one shape of paper. What a draft's `Cut` said of it is kept; marks, seams and measures are found
elsewhere and refer to pieces and their edges by number.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tapewright.draft import Draft, Piece
from tapewright.geometry import Array, Drawn, Point, area
from tapewright.pieces.cutting_line import CuttingLine, cutting_line, outward_of
from tapewright.pieces.edge import PieceEdge
from tapewright.pieces.turnings import Untold, darts, told_edges


@dataclass(frozen=True, slots=True, eq=False)
class PatternPiece:
    """One piece of a pattern.

    `edges` run round it in the order of its outline; `outward` is +1 where the outside lies to the right of
    that way, else -1, `(bodies,)`. `cut` is its cutting line. `darts` are pairs of edges, by number.
    """

    number: int
    said: Piece
    edges: tuple[PieceEdge, ...]
    outward: Array
    cut: CuttingLine
    darts: tuple[tuple[int, int], ...]
    untold: Untold

    @property
    def name(self) -> str:
        """What its sentence calls it."""
        return self.said.name

    @property
    def lying(self) -> tuple[tuple[Point, Point], ...]:
        """The line on the grain or the cross, or those on the fold."""
        return self.said.lying

    @property
    def net(self) -> tuple[Drawn, ...]:
        """Where it is sewn, edge by edge."""
        return tuple(e.net for e in self.edges)

    @property
    def outer(self) -> bool:
        """Whether it is the outside of the garment, and not an inner layer lying under another piece."""
        return not self.said.under

    def net_area(self) -> Array:
        """The area within the net line, mm2 `(bodies,)`."""
        return np.abs(area(self.net))

    def cut_area(self) -> Array:
        """The area within the cutting line, mm2 `(bodies,)`."""
        return np.abs(area(self.cut.runs))


def pieces_of(draft: Draft, elsewhere: Array | None = None) -> tuple[PatternPiece, ...]:
    """Every piece of a draft, in the order of its sentences.

    `elsewhere` is what is left outside the edges of a piece whose sentence says nothing of turnings, mm
    `(bodies,)`; None leaves nothing.
    """
    return tuple(_piece(draft, number, said, elsewhere) for number, said in enumerate(draft.pieces()))


def _piece(draft: Draft, number: int, said: Piece, elsewhere: Array | None) -> PatternPiece:
    edges, untold = told_edges(draft, said, elsewhere)
    outward = outward_of(edges)
    return PatternPiece(
        number,
        said,
        edges,
        outward,
        cutting_line(edges, outward),
        tuple(darts(said.outline.edges)),
        untold,
    )

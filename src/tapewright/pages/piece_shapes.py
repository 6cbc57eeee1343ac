"""Pieces on paper become shapes for a file to cut from: the same lines, without the drawing of them."""

from __future__ import annotations

from collections.abc import Sequence

from tapewright.drawing.shapes import PieceShape, ShapeNotch
from tapewright.pages.paper_piece import PaperPiece, turned_over
from tapewright.pages.piece_from import is_whole, paper_piece, side_drawn
from tapewright.pages.piece_words import count_for, pairs_in
from tapewright.pieces import Pattern, PatternPiece


def shapes_of(
    patterns: Sequence[tuple[str, Pattern]], row: int = 0, *, wearer_line: str = ""
) -> tuple[PieceShape, ...]:
    """Every piece of one body's pattern, or of the left's and the right's by their sides."""
    found = []
    for side, pattern in patterns:
        over = side != "" and side != side_drawn(pattern)
        for piece in pattern.pieces:
            if is_whole(piece, row):
                made = paper_piece(pattern, piece, row, side=side, wearer_line=wearer_line)
                found.append(_shape(turned_over(made) if over else made, piece, side))
    return tuple(found)


def _shape(made: PaperPiece, piece: PatternPiece, side: str) -> PieceShape:
    cloths = piece.said.cloths
    first = cloths[0] if cloths else None
    count = 1 if first is None else count_for(first.count, side)
    mirrored = 0 if first is None else pairs_in(piece, first.count, side)
    told = made.told[0] if made.told else ()
    return PieceShape(
        made.name,
        made.cut,
        tuple((e.name, e.net) for e in made.edges),
        made.lines,
        made.points,
        tuple(ShapeNotch(n.x, n.y, n.out_x, n.out_y, n.turning, n.count) for n in made.notches),
        made.on,
        made.lying,
        "" if first is None else first.name,
        count - mirrored,
        mirrored,
        tuple(line.replace("\u00a0", " ") for line in told),
    )

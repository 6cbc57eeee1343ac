"""Pieces on paper become shapes for a file to cut from: the same lines, without the drawing of them.

Only the line on the grain or the cross may stand elsewhere: a lesson may name one that runs past the piece.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tapewright.drawing.shapes import PieceShape, ShapeNotch
from tapewright.pages.paper_piece import PaperPiece, turned_over
from tapewright.pages.piece_from import is_whole, paper_piece, side_drawn
from tapewright.pages.piece_words import count_for, pairs_in
from tapewright.pages.room import Floats, pieces_of
from tapewright.pieces import Pattern, PatternPiece

Line = tuple[float, float, float, float]
#: How many places across a piece are tried for its grain, and how much of what is free there the line takes.
_TRIED = 65
_SHARE = 0.8


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
        made.lying if made.on == "fold" else tuple(lying_within(line, made.cut) for line in made.lying),
        "" if first is None else first.name,
        count - mirrored,
        mirrored,
        tuple(line.replace("\u00a0", " ") for line in told),
    )


def lying_within(line: Line, cut: Floats) -> Line:
    """A straight line if it lies within a closed line, cubics (n, 4, 2); else one along it where there is most room.

    Either is in mm; a line of no length, or round which nothing is closed, is left as it is.
    """
    start, end = np.array(line[:2]), np.array(line[2:])
    long = float(np.hypot(*(end - start)))
    if not long > 0.0:
        return line
    u = (end - start) / long
    n = np.array([-u[1], u[0]])
    ring = pieces_of(cut).reshape(-1, 2, 2)
    along, off = ring @ u, ring @ n
    first = float(start @ u)
    if any(a < first and first + long < b for a, b in _free(along, off, float(start @ n))):
        return line
    levels = np.linspace(float(off.min()), float(off.max()), _TRIED + 2)[1:-1]
    free = [(b - a, a, b, level) for level in levels for a, b in _free(along, off, float(level))]
    if not free:
        return line
    room, a, b, level = max(free, key=lambda one: one[0])
    half = min(long, _SHARE * room) / 2.0
    middle = (a + b) / 2.0 * u + level * n
    (x0, y0), (x1, y1) = middle - half * u, middle + half * u
    return float(x0), float(y0), float(x1), float(y1)


def _free(along: Floats, off: Floats, level: float) -> list[tuple[float, float]]:
    """The stretches of a level within a ring, of whose straight pieces each has its two ends in a row."""
    hit = (off[:, 0] <= level) != (off[:, 1] <= level)
    share = (level - off[hit, 0]) / (off[hit, 1] - off[hit, 0])
    places = np.sort(along[hit, 0] + share * (along[hit, 1] - along[hit, 0])).tolist()
    return list(zip(places[::2], places[1::2], strict=True))

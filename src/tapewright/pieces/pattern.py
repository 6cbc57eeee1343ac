"""A pattern: everything that is cut and sewn of a draft, all bodies at once."""

from __future__ import annotations

from dataclasses import dataclass

from tapewright.draft import Draft
from tapewright.geometry import Array
from tapewright.pieces.marks import InnerLine, InnerPoint, Notch, inner_of, notches_of
from tapewright.pieces.piece import PatternPiece, pieces_of
from tapewright.pieces.seams import PatternSeam, seams_of


@dataclass(frozen=True, slots=True, eq=False)
class Pattern:
    """The pieces of a draft with their seams and marks; numbers in seams and marks are places in `pieces`."""

    draft: Draft
    pieces: tuple[PatternPiece, ...]
    seams: tuple[PatternSeam, ...]
    notches: tuple[Notch, ...]
    lines: tuple[InnerLine, ...]
    points: tuple[InnerPoint, ...]


def pattern_of(draft: Draft, elsewhere: Array | None = None) -> Pattern:
    """The pattern of a draft.

    `elsewhere` mm `(bodies,)`, if given, is left in place of what sentences leave at edges that they do not
    name; where that is nothing it stays nothing.
    """
    pieces = pieces_of(draft, elsewhere)
    seams = seams_of(draft, pieces)
    lines, points = inner_of(draft, pieces)
    return Pattern(draft, pieces, seams, notches_of(draft, pieces, seams), lines, points)

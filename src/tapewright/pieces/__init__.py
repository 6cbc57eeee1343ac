"""Pieces of a draft: net lines and cutting lines, corners, marks, seams. Bodies last; no pictures, no words.

A draft says what is cut; here it becomes shapes that can go under the shears. Inspections belong to `truing`,
paper to `pages`.
"""

from tapewright.pieces.corners import Corner, Side, mitred, squared, turned
from tapewright.pieces.cutting_line import CuttingLine, closed_gaps, cutting_line, outward_of
from tapewright.pieces.edge import Corners, Lies, PieceEdge
from tapewright.pieces.hollows import Tight
from tapewright.pieces.marks import InnerLine, InnerPoint, Notch
from tapewright.pieces.pattern import Pattern, pattern_of
from tapewright.pieces.piece import PatternPiece, pieces_of
from tapewright.pieces.seams import PatternSeam, SeamPart, SeamSide, seams_of
from tapewright.pieces.turnings import Untold, edge_words

__all__ = [
    "Corner",
    "Corners",
    "CuttingLine",
    "InnerLine",
    "InnerPoint",
    "Lies",
    "Notch",
    "Pattern",
    "PatternPiece",
    "PatternSeam",
    "PieceEdge",
    "SeamPart",
    "SeamSide",
    "Side",
    "Tight",
    "Untold",
    "closed_gaps",
    "cutting_line",
    "edge_words",
    "mitred",
    "outward_of",
    "pattern_of",
    "pieces_of",
    "seams_of",
    "squared",
    "turned",
]

"""The evaluator: plan and measures become points, lines and curves, with what each sentence asks."""

from tapewright.draft.bodies import Bodies, from_arrays, from_sheets
from tapewright.draft.evaluate import evaluate, redraw
from tapewright.draft.records import BalanceMark, Check, Piece, Seam
from tapewright.draft.result import Draft
from tapewright.draft.sides import TwoSides, both_sides
from tapewright.draft.signs import Sign, SignKind, signs_of
from tapewright.draft.suits import worn_beneath

__all__ = [
    "BalanceMark",
    "Bodies",
    "Check",
    "Draft",
    "Piece",
    "Seam",
    "Sign",
    "SignKind",
    "TwoSides",
    "both_sides",
    "evaluate",
    "from_arrays",
    "from_sheets",
    "redraw",
    "signs_of",
    "worn_beneath",
]

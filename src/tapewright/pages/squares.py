"""The measuring squares: a true 100 mm and a true 4 in on every print, whatever its scale.

Printing dialogues shrink pages to fit. Whoever lays a ruler on either square sees it at once. The two
lie over each other, one inch-made and one centimetre-made, so that they take little room.
"""

from __future__ import annotations

from tapewright.drawing import (
    INK,
    SOFT,
    Box,
    Group,
    Line,
    Mark,
    Stroke,
    rectangle,
    set_text,
    words_at,
)
from tapewright.pages.block import Block, lines_of, stacked
from tapewright.pages.paper import Scale

TEN_CM = 100.0
FOUR_IN = 101.6
# How far the second lies down and to the right of the first: a band wide enough for a line of words.
_SHIFT = 11.0
_EDGE = 0.25
SIDE = _SHIFT + FOUR_IN + _EDGE


def measuring_squares(scale: Scale) -> Block:
    """Both squares, labelled, with the scale of the drawing in words inside them."""
    ten = Box(_EDGE / 2, _EDGE / 2, TEN_CM + _EDGE / 2, TEN_CM + _EDGE / 2)
    start = _SHIFT + _EDGE / 2
    four = Box(start, start, start + FOUR_IN, start + FOUR_IN)
    line = Line(_EDGE, INK, join="mitre")
    inner = lines_of(scale.words, "book", 4.2, 74)
    print_true = lines_of(
        "Lay a ruler on both squares before you draw or cut. If they are out, "
        "print again at 100 %, with nothing fitted to the page.",
        "hand",
        3.3,
        74,
        ink=SOFT,
    )
    middle = stacked([inner, print_true], 3.5)
    overlap_middle = (start + ten.bottom) / 2
    marks: tuple[Mark, ...] = (
        Group("square of 10 cm", (Stroke(rectangle(ten), line),)),
        Group("square of 4 in", (Stroke(rectangle(four), line),)),
        words_at(set_text("10 cm each way", "hand", 3.8), ten.left + 3, ten.top + 6.8),
        words_at(set_text("4 in each way", "hand", 3.8), four.right - 3, four.bottom - 4.2, side="right"),
        *middle.at(start + 7, overlap_middle - middle.height / 2),
    )
    return Block(SIDE, SIDE, marks)

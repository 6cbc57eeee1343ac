"""The graduating fan on paper, with what to do, what to check, and the measuring squares.

On a roll or on one page it is a single sheet, with words and squares in the corners that the fan leaves
free. On A4, A3 or Letter it lies over several pages that join edge to edge (`tiles.py`), after a page with
the squares, the words and a map.
"""

from __future__ import annotations

import math

from tapewright.drawing import Drawing, Mark
from tapewright.pages.block import Block, lines_of, stacked
from tapewright.pages.counting import listed
from tapewright.pages.dress import heading
from tapewright.pages.fan_lines import HEAD, SIDES, checks_of, draw_fan
from tapewright.pages.first_page import column_width
from tapewright.pages.layout import Cover, Page, Pages
from tapewright.pages.paper import FULL, Paper
from tapewright.pages.squares import SIDE, measuring_squares
from tapewright.pages.tiles import tile
from tapewright.tapes import Fan
from tapewright.units import show_cm, show_in

TITLE = "The graduating fan"

_CLEAR = 14.0
_GAP = 7.0
# On a sheet wider than this the words are larger, to be read from where one stands.
_WIDE = 900.0


def subtitle(fan: Fan) -> str:
    """What it takes: `For any strip from 10 cm to 133 cm long (4 to 52 in), in 48 parts`."""
    low, high = (_whole_cm(mm) for mm in (fan.shortest, fan.longest))
    inches = f"{math.ceil(fan.shortest / 25.4)} to {math.floor(fan.longest / 25.4)} in"
    said = f"For any strip from {low} to {high} long ({inches}), in {fan.parts} parts"
    return f"{said}, folded in half" if fan.folded else said


def _whole_cm(mm: float) -> str:
    return show_cm(mm).replace(".0 cm", " cm")


def how_to(fan: Fan) -> tuple[str, ...]:
    """What to do, one paragraph for a step."""
    if fan.folded:
        return (
            (
                "1. Cut a strip of strong paper or plain tape as long as the measure, its ends square; fold it end "
                "to end and crease it. Write on it what it is and whose."
            ),
            (
                "2. Lay it along the dotted rules and slide it up or down until it just spans: both ends on the "
                "first line, the crease on the last. Its own middle must lie on the line of 1/4; if not, it lies "
                "aslant."
            ),
            (
                "3. Mark it at every line, through both layers: long for the heavy lines, short for the fine. Write "
                "the fractions."
            ),
            "4. Open it. Beyond the crease the fellow of 1/4 is 3/4.",
        )
    return (
        (
            "1. Cut a strip of strong paper or plain tape as long as the measure, its ends square; fold it end to "
            "end, crease it, open it again. Write on it what it is and whose."
        ),
        (
            "2. Lay it along the dotted rules and slide it up or down until it just spans: its beginning on the "
            "first line, its end on the last. The crease must lie on the line of 1/2; if not, the strip lies aslant."
        ),
        "3. Mark it at every line: long for the heavy lines, short for the fine. Write the fractions.",
        "4. Fold it again on the crease. Every mark must meet its fellow.",
    )


def check_words(fan: Fan) -> str:
    """How the printed sheet is checked with a ruler."""
    said = [f"{check.words} apart" for check in checks_of(fan)]
    if not said:
        return "Check the sheet: lay a ruler on the measuring squares."
    return f"First check the sheet with a ruler: along the dashed rules the parts stand {listed(said)}."


def fan_pages(fan: Fan, paper: Paper) -> Pages:
    """The fan on pages of a paper, with the measuring squares on the first."""
    drawn = draw_fan(fan)
    if not paper.cut_sheet:
        return _one_sheet(fan, drawn, paper)
    lying = paper if (paper.width or 0) > (paper.height or 0) else paper.turned()
    best = min((lying, lying.turned()), key=lambda on: len(_tiled(fan, drawn, on).pages))
    return _tiled(fan, drawn, best)


def _tiled(fan: Fan, drawn: Block, paper: Paper) -> Pages:
    across = paper.room[0] or 0.0

    def words(width: float) -> tuple[Block, ...]:
        return tuple(lines_of(said, "hand", 3.6, width) for said in (check_words(fan), *how_to(fan)))

    narrow = across if across >= 2 * SIDE + _GAP else column_width(across)
    cover = Cover(TITLE, subtitle(fan), TITLE, words(narrow), words(across))
    return tile(drawn, paper, FULL, cover)


def _one_sheet(fan: Fan, drawn: Block, paper: Paper) -> Pages:
    """All on one sheet; on a roll the fan lies along it where it is wider than the roll."""
    margin = paper.margin
    room = paper.room[0]
    if room is not None and drawn.width > room:
        paper = paper.turned()
    squares = measuring_squares(FULL)
    told, lift = _corner(fan, drawn, squares)
    width, height = drawn.width + 2 * margin, drawn.height + lift + 2 * margin
    if paper.width is not None:
        width = paper.width
    if paper.height is not None:
        if height > paper.height + 0.01:
            raise NoRoomForFan(f"the fan is {show_cm(height)} ({show_in(height)}) across its lines")
        height = paper.height
    left = (width - drawn.width) / 2
    marks: tuple[Mark, ...] = (
        *drawn.at(left, margin + lift),
        *told.at(margin, margin),
        *squares.at(width - margin - SIDE, margin),
    )
    page = Page(Drawing(width, height, marks, TITLE), TITLE)
    return Pages((page,), (), TITLE, ("One page.",))


class NoRoomForFan(ValueError):
    """A roll too narrow for the fan to lie along it."""


def _corner(fan: Fan, drawn: Block, squares: Block) -> tuple[Block, float]:
    """The words for the corner at the left, and how much lower the fan must lie for both corners' sake.

    The words are set as wide as they stand clear of the first line.
    """
    tries: list[tuple[float, Block]] = []
    for width in range(110, 60 * int(_size(fan)), 10):
        told = _told(fan, float(width))
        lift = max(
            0.0,
            _over(fan, width + _CLEAR, told.height + _CLEAR / 2),
            _over(fan, SIDE + _CLEAR, squares.height + _CLEAR / 2),
        )
        tries.append((lift, told))
    least = min(lift for lift, _ in tries)
    lift, told = next((lift, told) for lift, told in reversed(tries) if lift <= least + 1.0)
    return told, lift


def _over(fan: Fan, width: float, height: float) -> float:
    """How far the fan must be let down for a block of this size to stand in its upper corner."""
    # At the y where the first line comes as far to the left as the block is wide.
    y = (fan.foot / 2 + SIDES - width) / fan.foot * 2 * fan.depth
    return height - (HEAD + max(y, fan.top) - fan.top)


def _size(fan: Fan) -> float:
    """The size of the words, mm."""
    return 5.6 if fan.foot > _WIDE else 4.2


def _told(fan: Fan, width: float) -> Block:
    size = _size(fan)
    said = [lines_of(one, "hand", size, width) for one in (check_words(fan), *how_to(fan))]
    return stacked([heading(TITLE, subtitle(fan), width, 2.4 * size), *said], 0.7 * size)

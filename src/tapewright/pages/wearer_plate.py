"""The plate of a wearer: the line figures with the tapes that were laid, each led to its name and value.

The front's measures stand at the left and the others at the right, from above down. What is only estimated
is set in italic behind the word about, with two broken edges for its tape, and says so in the foot.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import zip_longest

from tapewright.drawing import (
    SOFT,
    Box,
    Drawing,
    Line,
    Mark,
    Stroke,
    Transform,
    set_text,
    straight,
    words_at,
)
from tapewright.figures import Lie, View, lies_of, on_side
from tapewright.measures import GROUPS, catalogue, in_turn
from tapewright.pages.block import Block, lines_of
from tapewright.pages.counting import in_words
from tapewright.pages.dress import heading
from tapewright.pages.figure import Laid, crop_round, figure_marks, leads, led_out
from tapewright.pages.layout import Page, Pages
from tapewright.pages.paper import Paper

_ROWS = 13  # to a side of a page: more, and the leads lie so steep that none is followed
_ROW = 9.4
_COLUMN = 62.0  # width of a column of names and values
_NAME, _VALUE, _SMALL = 3.7, 4.3, 2.8
_LARGEST = 0.95  # mm to a unit of the figure
_GAP = 6.0


@dataclass(frozen=True, slots=True)
class PlateRow:
    """A measure on the plate: its name, its value in words, a small line under it.

    `about` marks what was not taken and is only estimated; `side` is left or right where it was taken there.
    """

    name: str
    value: str
    under: str = ""
    about: bool = False
    side: str = ""


ABOUT = "What stands in italic behind “about” was not taken: it is estimated from the other measures."


def wearer_plate(title: str, wearer_line: str, rows: Sequence[PlateRow], paper: Paper) -> Pages:
    """The plate on paper of a fixed size, lying, on as many pages as its rows want.

    A name may stand twice, for two sides. ValueError without rows, or for a paper without a size.
    """
    if not rows:
        raise ValueError("a plate of a wearer wants a measure")
    if paper.width is None or paper.height is None:
        raise ValueError("a plate of a wearer wants paper of a fixed size")
    if paper.width < paper.height:
        paper = paper.turned()
    assert paper.width is not None
    assert paper.height is not None
    turn = {name: i for i, name in enumerate(in_turn(row.name for row in rows))}
    ordered = sorted(rows, key=lambda row: turn[row.name])
    left, right = _chunks(ordered)
    plain = [row for row in ordered if not lies_of(row.name)]
    width, height = paper.width - 2 * paper.margin, paper.height - 2 * paper.margin
    says = ABOUT if any(row.about for row in rows) else ""
    told = "; ".join(f"{row.name} {'about ' if row.about else ''}{row.value}" for row in plain)
    pages: list[Page] = []
    halves = list(zip_longest(left, right)) or [(None, None)]
    for i, (front, other) in enumerate(halves, 1):
        label = title if len(halves) == 1 else f"{title}, {i} of {len(halves)}"
        head = heading(label, wearer_line, width, 7.0)
        foot_words = " ".join(part for part in (f"Also: {told}." if told and i == 1 else "", says) if part)
        foot = lines_of(foot_words, "hand", 3.2, width, ink=SOFT)
        top, bottom = head.height + _GAP, height - foot.height - _GAP
        marks: list[Mark] = [*head.marks, *foot.at(0.0, height - foot.height)]
        for half, side in ((front, -1), (other, 1)):
            if half is not None:
                marks += _half(half[0], half[1], side, width, top, bottom)
        drawing = Drawing(
            paper.width,
            paper.height,
            Block(width, height, tuple(marks)).at(paper.margin, paper.margin),
            label,
        )
        pages.append(Page(drawing, label))
    count = in_words(len(pages)).capitalize()
    return Pages(tuple(pages), (), "", (f"{count} page{'' if len(pages) == 1 else 's'}.",))


Half = tuple[View, list[tuple[Lie, PlateRow]]]


def _chunks(rows: Sequence[PlateRow]) -> tuple[list[Half], list[Half]]:
    """Halves of pages: those of the front, for the left, and those of the back and the side.

    Groups of the measuring day stay together where they can, so that tapes of one kind lie on one figure.
    """
    cut: dict[View, list[Half]] = {view: [] for view in View}
    for view in View:
        for group in GROUPS:
            some = [
                (on_side(lie, row.side), row)
                for row in rows
                for lie in lies_of(row.name)[:1]
                if lie.view is view and catalogue()[row.name].group == group
            ]
            halves = cut[view]
            if halves and len(halves[-1][1]) + len(some) <= _ROWS:
                halves[-1][1].extend(some)
                continue
            halves += [(view, some[i : i + _ROWS]) for i in range(0, len(some), _ROWS)]
    left, right = cut[View.FRONT], [*cut[View.BACK], *cut[View.SIDE]]
    # Where the front alone goes on, it takes the right of the page as well.
    spare = max(0, (len(left) - len(right)) // 2)
    return left[: len(left) - spare], [*right, *left[len(left) - spare :]]


def _half(
    view: View, members: list[tuple[Lie, PlateRow]], side: int, width: float, top: float, bottom: float
) -> list[Mark]:
    """One figure and its column of names: at the left for side -1, at the right for 1."""
    tapes = [Laid(lie, str(i), row.about) for i, (lie, row) in enumerate(members)]
    crop = crop_round([laid.lie for laid in tapes], view)
    middle = width / 2 + side * (width / 2 - _COLUMN) / 2
    k = min((bottom - top - 7) / crop.height, _LARGEST, (width / 2 - _COLUMN) / crop.width)
    up = top + (bottom - top - 7 - crop.height * k) / 2
    how = Transform(k, 0.0, middle - (crop.left + crop.right) / 2 * k, up - crop.top * k)
    column = Box(0.0, top, _COLUMN, bottom) if side < 0 else Box(width - _COLUMN, top, width, bottom)
    edge = column.right if side < 0 else column.left
    found = led_out(tapes, how, top + 6.0, bottom - 4.0, (edge, edge), _ROW, only=side)
    marks: list[Mark] = [*figure_marks(view, tapes, how, crop), *leads(found, (edge, edge), k)]
    name = set_text(str(view), "book-italic", 4.2)
    marks.append(words_at(name, middle, up + crop.height * k + 5.5, side="middle", ink=SOFT))
    for led in found:
        row = members[int(led.laid.sign)][1]
        marks += _written(row, column, led.y)
    return marks


def _written(row: PlateRow, column: Box, y: float) -> list[Mark]:
    """Name and value on a line that the lead runs on from, and what stands under it."""
    value_face = "book-italic" if row.about else "book"
    value = set_text(f"about {row.value}" if row.about else row.value, value_face, _VALUE)
    room = column.width - value.width - 2.0
    name = set_text(row.name, "hand", _NAME)
    if name.width > room:
        name = name.scaled(room / name.width)
    line = Line(0.2, SOFT, (1.0, 0.8) if row.about else ())
    marks: list[Mark] = [
        words_at(name, column.left, y - 1.3),
        words_at(value, column.right, y - 1.3, side="right"),
        Stroke(straight(column.left, y, column.right, y), line),
    ]
    if row.under:
        marks.append(words_at(set_text(row.under, "hand", _SMALL), column.left, y + 3.1, ink=SOFT))
    return marks

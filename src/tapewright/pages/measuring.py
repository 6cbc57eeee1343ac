"""Blank sheets for a measuring day: what is still to take, in the order one takes it, with the figures.

A sheet holds nobody's values, only names of measures and empty boxes, so that it may lie about in a room.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from tapewright.drawing import (
    FAINT,
    INK,
    SOFT,
    Box,
    Drawing,
    Line,
    Mark,
    Stroke,
    rectangle,
    set_text,
    straight,
    words_at,
)
from tapewright.figures import shown_on
from tapewright.measures import CARE, GROUPS, Measure, catalogue, in_turn
from tapewright.pages.block import Block, lines_of, stacked
from tapewright.pages.counting import in_words
from tapewright.pages.dress import heading
from tapewright.pages.figure import Laid, numbered_figure
from tapewright.pages.layout import Page, Pages
from tapewright.pages.paper import Paper
from tapewright.units import UnitKind, show_cm, show_degrees, show_kg

OWN = "of the lessons' own"
"""The last group: measures that a lesson made up, and the catalogue has no figure for."""

TITLES = {
    "to begin": "To begin",
    "round": "Round",
    "back": "The back",
    "front": "The front and the shoulder",
    "arms": "The arms",
    "legs": "The legs",
    "how one stands": "How one stands",
    OWN: "Of the lessons’ own",
}

_FIGURE = 56.0  # width of the column with the figures
_GAP = 5.0
_NUMBER = 7.5
_BOX = (19.0, 7.6)
_BOX_GAP = 1.6
_SIDE_WORD = 9.0
_SMALL_ENOUGH = 52.0  # a column of figures no higher than this is never made smaller
_NAME, _HOW = 4.0, 3.05
_ROW_GAP = 2.6
_GROUP_GAP = 7.0

HOW = (
    "Tie a tape round the waist before anything else, let it settle, and leave it there: every length uses "
    "it. Mark the nape, the shoulder ends and the sides of the neck. Take each measure twice; where the two "
    "lie further apart than is said, take it a third time and keep the two that agree."
)


@dataclass(frozen=True, slots=True)
class ToTake:
    """One wearer's blank sheet: the measures to take, what is worn beneath, and what it is for.

    `own` says how the measures that no catalogue has are taken, in the words of the lesson that asks.
    `wearer` and `over` may be empty: then there is a line to write them on.
    """

    wearer: str
    names: tuple[str, ...]
    over: str = ""
    needed_for: tuple[str, ...] = ()
    own: Mapping[str, str] = field(default_factory=dict)


def _apart(measure: Measure) -> str:
    match measure.kind:
        case UnitKind.LENGTH:
            return show_cm(measure.apart).replace(".0 cm", " cm")
        case UnitKind.ANGLE:
            return show_degrees(measure.apart)
        case UnitKind.WEIGHT:
            return show_kg(measure.apart)


def _box(x: float, y: float) -> Mark:
    width, height = _BOX
    return Stroke(rectangle(Box(x, y, x + width, y + height)), Line(0.2, SOFT, join="mitre"))


def _row(number: int, name: str, own: Mapping[str, str], width: float) -> Block:
    """Number, name, how it is taken, and the boxes for its readings."""
    measure = catalogue().get(name)
    sides = () if measure is None or measure.side == "right" else measure.sides
    how = own.get(name, "") if measure is None else f"{measure.how} Twice within {_apart(measure)}."
    boxes_at = width - 2 * _BOX[0] - _BOX_GAP
    text = stacked(
        [
            lines_of(name, "book", _NAME, boxes_at - _NUMBER - 2),
            lines_of(how, "hand", _HOW, boxes_at - _NUMBER - (_SIDE_WORD if sides else 0) - 2, ink=SOFT),
        ],
        1.5,
    )
    marks: list[Mark] = [
        words_at(set_text(str(number), "book-bold", 3.5), 0, 2.7),
        *text.at(_NUMBER, 0.0),
    ]
    y = 0.0
    for side in sides or ("",):
        if side:
            word = set_text(side, "hand", _HOW)
            marks.append(words_at(word, boxes_at - 1.5, y + 0.68 * _BOX[1], side="right", ink=SOFT))
        marks += [_box(boxes_at, y), _box(boxes_at + _BOX[0] + _BOX_GAP, y)]
        y += _BOX[1] + _BOX_GAP
    return Block(width, max(text.height, y - _BOX_GAP), tuple(marks))


def _groups(names: Sequence[str]) -> list[tuple[str, list[str]]]:
    known = catalogue()
    found: dict[str, list[str]] = {group: [] for group in (*GROUPS, OWN)}
    for name in in_turn(names):
        found[known[name].group if name in known else OWN].append(name)
    return [(group, members) for group, members in found.items() if members]


@dataclass(slots=True)
class _Flow:
    """Pages being filled, one block after the other."""

    paper: Paper
    width: float
    height: float
    running: str
    pages: list[list[Mark]] = field(default_factory=list)
    y: float = 0.0

    def begin(self, block: Block) -> None:
        """A new page with this at its head."""
        self.pages.append(list(block.at(self.paper.margin, self.paper.margin)))
        self.y = block.height + _GROUP_GAP

    def new_page(self) -> None:
        words = lines_of(self.running, "hand", 3.6, self.width, ink=SOFT)
        rule = Block(self.width, 0.0, (Stroke(straight(0, 0, self.width, 0), Line(0.15, FAINT)),))
        self.begin(stacked([words, rule], 1.5))

    @property
    def left(self) -> float:
        return self.height - self.y

    def put(self, block: Block) -> None:
        self.pages[-1].extend(block.at(self.paper.margin, self.paper.margin + self.y))
        self.y += block.height + _GROUP_GAP


def _group_block(
    title: str, rows: Sequence[Block], names: Sequence[str], numbers: Mapping[str, int], width: float
) -> Block:
    """A heading, the figures at the left and the rows at the right.

    Beside few rows the figures are drawn smaller, so that a stature does not take a page.
    """
    listed = stacked(rows, _ROW_GAP)
    for share in (1.0, 0.8, 0.62, 0.48):
        figures = [
            numbered_figure(view, [Laid(lie, str(numbers[lie.measure])) for lie in lies], _FIGURE * share)
            for view, lies in shown_on(names).items()
        ]
        column = stacked(figures, 3.0)
        if column.height <= max(listed.height, _SMALL_ENOUGH):
            break
    right = _FIGURE + _GAP
    boxes_at = width - 2 * _BOX[0] - _BOX_GAP
    head = (
        words_at(set_text(title, "book-bold", 4.6), 0, 3.4),
        words_at(set_text("first", "hand", _HOW), boxes_at + _BOX[0] / 2, 3.4, side="middle", ink=SOFT),
        words_at(
            set_text("second", "hand", _HOW),
            boxes_at + 1.5 * _BOX[0] + _BOX_GAP, 3.4, side="middle", ink=SOFT,
        ),
        Stroke(straight(0, 5.2, width, 5.2), Line(0.2, INK)),
    )  # fmt: skip
    body = 7.8
    height = body + max(column.height, listed.height)
    return Block(width, height, (*head, *column.at(0.0, body), *listed.at(right, body)))


def _flow_group(
    flow: _Flow, group: str, names: list[str], numbers: Mapping[str, int], own: Mapping[str, str]
) -> None:
    rows = {name: _row(numbers[name], name, own, flow.width - _FIGURE - _GAP) for name in names}
    left = list(names)
    first = True
    while left:
        for count in range(len(left), 0, -1):
            some = left[:count]
            title = TITLES[group] if first else f"{TITLES[group]}, continued"
            if 7.8 + stacked([rows[n] for n in some], _ROW_GAP).height > flow.left:
                continue
            block = _group_block(title, [rows[n] for n in some], some, numbers, flow.width)
            if block.height <= flow.left:
                break
        else:
            count, block = 0, None
        # Two rows at the foot of a page, and the rest overleaf, are soon overlooked.
        if block is None or (count < min(3, len(left)) and flow.y > _GROUP_GAP + 12):
            flow.new_page()
            continue
        flow.put(block)
        left = left[count:]
        first = False


def _field(word: str, value: str, width: float) -> Block:
    """A word and what stands behind it, or a line to write it on."""
    label = set_text(word, "hand", 3.4)
    marks: list[Mark] = [words_at(label, 0, 4.6, ink=SOFT)]
    start = label.width + 1.8
    if value:
        marks.append(words_at(set_text(value, "book", 4.2), start, 4.6))
    else:
        marks.append(Stroke(straight(start, 5.2, width, 5.2), Line(0.2, SOFT)))
    return Block(width, 6.4, tuple(marks))


def _head(sheet: ToTake, width: float) -> Block:
    half = (width - 8) / 2
    names = Block(
        width,
        6.4,
        (
            *_field("Wearer", sheet.wearer, half).marks,
            *_field("Worn beneath", sheet.over, half).at(half + 8, 0),
        ),
    )
    rest = (
        *_field("Day", "", half).marks,
        *_field("Taken by", "", half - 34).at(half + 8, 0),
        *_field("in", "", 10).at(width - 32, 0),
        words_at(set_text("cm or inches", "hand", 3.4), width - 20, 4.6, ink=SOFT),
    )
    words = [lines_of(HOW, "hand", 3.3, width)]
    if sheet.needed_for:
        words.append(lines_of(f"Asked for by: {'; '.join(sheet.needed_for)}.", "hand", 3.3, width, ink=SOFT))
    if any(word in sheet.over.casefold() for word in ("stays", "corset")):
        words.append(lines_of(CARE, "hand-bold", 3.3, width))
    return stacked(
        [
            heading("To measure", "", width, 8.0),
            stacked([names, Block(width, 6.4, rest)], 2.2),
            stacked(words, 2.0),
        ],
        3.4,
    )


def measuring_pages(sheets: Sequence[ToTake], paper: Paper) -> Pages:
    """Blank sheets on paper of a fixed size, upright; at least one sheet with at least one measure.

    Each wearer's begins on a page of its own. ValueError for a paper without a size.
    """
    if not sheets or not all(sheet.names for sheet in sheets):
        raise ValueError("there is nothing to take")
    if paper.width is None or paper.height is None:
        raise ValueError("a blank sheet wants paper of a fixed size")
    if paper.width > paper.height:
        paper = paper.turned()
    assert paper.width is not None
    assert paper.height is not None
    width, height = paper.width - 2 * paper.margin, paper.height - 2 * paper.margin
    pages: list[Page] = []
    for sheet in sheets:
        running = ", ".join(
            part for part in ("To measure", sheet.wearer, sheet.over and f"over {sheet.over}") if part
        )
        flow = _Flow(paper, width, height, running)
        flow.begin(_head(sheet, width))
        numbers = {name: i for i, name in enumerate(in_turn(sheet.names), 1)}
        for group, names in _groups(sheet.names):
            _flow_group(flow, group, names, numbers, sheet.own)
        for i, marks in enumerate(flow.pages, 1):
            label = running if len(flow.pages) == 1 else f"{running}, {i} of {len(flow.pages)}"
            foot = words_at(
                set_text(label, "hand", 2.8), paper.width / 2, paper.height - paper.margin / 2, side="middle", ink=SOFT
            )  # fmt: skip
            pages.append(Page(Drawing(paper.width, paper.height, (*marks, foot), label), label))
    count = in_words(len(pages)).capitalize()
    return Pages(tuple(pages), (), "", (f"{count} page{'' if len(pages) == 1 else 's'}.",))

"""The crib: the language on one page for the wall, in two columns, as large as the paper allows.

Plain values in, one drawing out. What stands on it is chosen elsewhere (`app/crib.py`).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from tapewright.drawing import (
    INK,
    SOFT,
    Drawing,
    Line,
    Mark,
    Stroke,
    Transform,
    place,
    set_text,
    straight,
    words_at,
)
from tapewright.pages.block import Block, lines_of, stacked
from tapewright.pages.dress import tape_rule
from tapewright.pages.paper import Paper
from tapewright.pages.wording import as_printed


@dataclass(frozen=True, slots=True)
class CribSaid:
    """A sentence as an example of its kind, and what it makes."""

    words: str
    makes: str


@dataclass(frozen=True, slots=True)
class CribWord:
    """A leading word and its sentences."""

    lead: str
    said: tuple[CribSaid, ...]


@dataclass(frozen=True, slots=True)
class CribBox:
    """A box of short phrases under a title; `running` sets them one after the other, else each on a line."""

    title: str
    phrases: tuple[str, ...]
    running: bool = True


@dataclass(frozen=True, slots=True)
class Crib:
    """Everything on the page: its title, its rules, a plate, the leading words in order, and the boxes.

    `plate` is a drawn field, which is made smaller until it is no wider than a column.
    """

    title: str
    rules: tuple[str, ...]
    plate: Block
    words: tuple[CribWord, ...]
    boxes: tuple[CribBox, ...]


class NoRoomForCrib(ValueError):
    """The paper is too small for the crib at the least size that can be read."""


# Sizes of the hand in mm, largest first; under 2 mm (5 1/2 pt) nobody reads it from where one stands.
SIZES = tuple(float(s) for s in np.arange(6.0, 1.95, -0.05))
_GAP = 2.4  # between the columns and between blocks, in ems
_LEAD = 1.06  # of a leading word, against the sentences
_HAIR = Line(0.15, SOFT)


def crib_page(crib: Crib, paper: Paper) -> Drawing:
    """The crib on one page of a paper, in the largest type that fits. NoRoomForCrib if none does."""
    if paper.width is None or paper.height is None:
        raise NoRoomForCrib("the crib wants a paper with a width and a height")
    width, height = paper.width - 2 * paper.margin, paper.height - 2 * paper.margin
    for size in SIZES:
        page = _laid_out(crib, width, height, size)
        if page is not None:
            return Drawing(paper.width, paper.height, page.at(paper.margin, paper.margin), crib.title)
    raise NoRoomForCrib(f"{paper.name} is too small for the crib")


def _laid_out(crib: Crib, width: float, height: float, size: float) -> Block | None:
    """The whole page in one size of type, or None where it does not fit."""
    gap = _GAP * size
    head = _head(crib, width, size)
    column = (width - gap) / 2
    gutter = max(set_text(w.lead, "book-bold", _LEAD * size).width for w in crib.words) + 0.9 * size
    blocks = [
        _plate(crib.plate, column, size),
        *(_word(w, column, gutter, size) for w in crib.words),
        *(_box(b, column, size) for b in crib.boxes),
    ]
    room = height - head.height - gap
    both = _two_columns(blocks, room, 0.75 * size)
    if both is None:
        return None
    left, right = both
    tall = max(left.height, right.height)
    y = head.height + gap * 0.8
    rule = Stroke(straight(column + gap / 2, y, column + gap / 2, y + tall), _HAIR)
    marks: tuple[Mark, ...] = (*head.marks, rule, *left.at(0, y), *right.at(column + gap, y))
    return Block(width, y + tall, marks)


def _two_columns(blocks: Sequence[Block], room: float, gap: float) -> tuple[Block, Block] | None:
    """The blocks in two columns much of a height, neither higher than the room; None where they are."""
    best: tuple[float, int] | None = None
    for cut in range(1, len(blocks)):
        tall = max(stacked(blocks[:cut], gap).height, stacked(blocks[cut:], gap).height)
        if best is None or tall < best[0]:
            best = (tall, cut)
    if best is None or best[0] > room:
        return None
    return stacked(blocks[: best[1]], gap), stacked(blocks[best[1] :], gap)


def _head(crib: Crib, width: float, size: float) -> Block:
    title = lines_of(crib.title, "book", 2.5 * size, width, leading=1.15)
    # An l stands a little higher than a capital, and the margin is the margin.
    rise = 0.25 * size
    title = Block(title.width, title.height + rise, title.at(0.0, rise))
    rules = [lines_of(rule, "hand", 1.06 * size, width, leading=1.3) for rule in crib.rules]
    return stacked([title, tape_rule(width), *rules], 0.45 * size)


def _plate(plate: Block, width: float, size: float) -> Block:
    """The plate, no wider than a column and its letters no larger than the words."""
    by = min(width / plate.width, 1.15 * size / _PLATE_LETTER)
    marks = tuple(place(mark, Transform.scaling(by)) for mark in plate.marks)
    return Block(width, plate.height * by, Block(0, 0, marks).at((width - plate.width * by) / 2, 0.0))


#: The size of the letters on a plate at a quarter, mm.
_PLATE_LETTER = 3.2


def _word(word: CribWord, width: float, gutter: float, size: float) -> Block:
    """A leading word in its own column, its sentences beside it, what each makes under it."""
    rows: list[Block] = []
    for i, said in enumerate(word.said):
        sentence = lines_of(_quotes(said.words), "hand", size, width - gutter, leading=1.22)
        rows.append(
            replace(sentence, space=0.5 * size if i and word.said[i - 1].makes != said.makes else 0.0)
        )
        if i + 1 == len(word.said) or word.said[i + 1].makes != said.makes:
            rows.append(
                lines_of(said.makes, "book-italic", 0.8 * size, width - gutter, ink=SOFT, leading=1.2)
            )
    beside = stacked(rows, 0.16 * size)
    lead = set_text(as_printed(word.lead), "book-bold", _LEAD * size)
    top = -lead.ink.top
    return Block(width, beside.height, (words_at(lead, 0.0, top, ink=INK), *beside.at(gutter, 0.0)))


def _box(box: CribBox, width: float, size: float) -> Block:
    """A title with a rule, and its phrases."""
    title = lines_of(box.title, "book-bold", _LEAD * size, width)
    rule = Block(width, 0.0, (Stroke(straight(0, 0, width, 0), _HAIR),))
    if box.running:
        said = "\u00a0\u00a0\u00b7  ".join(box.phrases)
        phrases = [lines_of(_quotes(said), "hand", size, width, leading=1.28)]
    else:
        phrases = [lines_of(_quotes(one), "hand", size, width, leading=1.2) for one in box.phrases]
    return replace(stacked([title, rule, *phrases], 0.42 * size), space=1.5 * size)


def _quotes(words: str) -> str:
    """Typed quotation marks as printed ones."""
    return re.sub(r'"([^"]*)"', "\u201c\\1\u201d", words)

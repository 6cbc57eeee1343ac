"""A ruler to print, centimetres along one edge and inches along the other, for laying a snipped strip against.

The old way of measuring was a strip of paper and a snip for each measure. Laid on this ruler it is read off
in either unit. At full scale only, with the measuring squares, in pieces to glue where the paper is short.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from tapewright.drawing import (
    INK,
    PAPER,
    SOFT,
    WELD_WASH,
    Box,
    Drawing,
    Fill,
    Group,
    Line,
    Mark,
    Stroke,
    framed,
    rectangle,
    set_text,
    straight,
    through,
    words_at,
)
from tapewright.pages.block import Block, lines_of, stacked
from tapewright.pages.counting import in_words
from tapewright.pages.dress import heading
from tapewright.pages.layout import Page, Pages
from tapewright.pages.paper import FULL, Paper
from tapewright.pages.squares import SIDE, measuring_squares

WIDTH = 22.0
TAB = 10.0
_GAP = 5.0
_EIGHTH = 25.4 / 8
_EDGE = Line(0.2, INK, join="mitre")
_MEETS = Line(0.2, INK, (0.0, 0.9), cap="round")

TITLE = "A ruler for strips"
HOW = (
    "Cut a strip of strong paper for each wearer, write the name at one end, and snip its edge at each "
    "measure: one snip for the first, two for the second, with its name beside it. Lay the strip along this "
    "ruler, its end at 0, and read off each snip. Glue each hatched tab under the piece that follows it, up to "
    "the dotted line."
)


@dataclass(frozen=True, slots=True)
class RulerPiece:
    """A stretch of the ruler printed in one, `start` to `end` in mm; `number` from 1 `of` so many."""

    start: float
    end: float
    number: int
    of: int

    @property
    def length(self) -> float:
        return self.end - self.start

    @property
    def tab(self) -> float:
        return TAB if self.number < self.of else 0.0


def ruler_pieces(length: float, room: float) -> tuple[RulerPiece, ...]:
    """The ruler in as few pieces as go in `room` mm, each but the last cut between two centimetres.

    So no stroke falls on a cut, and every figure stands whole. ValueError when there is no room for a piece.
    """
    if length <= room:
        return (RulerPiece(0.0, length, 1, 1),)
    longest = math.floor((room - TAB - 5.5) / 10) * 10.0
    if longest <= TAB:
        raise ValueError("there is no room for a piece of ruler")
    count = math.ceil((length - 5.5) / longest)
    cuts = [0.0, *(k * longest + 5.5 for k in range(1, count)), length]
    return tuple(RulerPiece(cuts[k], cuts[k + 1], k + 1, count) for k in range(count))


def _centimetres(piece: RulerPiece) -> list[Mark]:
    marks: list[Mark] = []
    for mm in range(math.ceil(piece.start), math.floor(piece.end) + 1):
        x = mm - piece.start
        tall = 6.4 if mm % 10 == 0 else 4.4 if mm % 5 == 0 else 2.6
        marks.append(Stroke(straight(x, 0, x, tall), Line(0.25 if mm % 10 == 0 else 0.15, INK)))
        if mm % 10 == 0:
            _figure(marks, str(mm // 10), x, piece, 9.6)
    return marks


def _inches(piece: RulerPiece) -> list[Mark]:
    marks: list[Mark] = []
    for k in range(math.ceil(piece.start / _EIGHTH), math.floor(piece.end / _EIGHTH) + 1):
        x = k * _EIGHTH - piece.start
        share = Fraction(k, 8)
        tall = {1: 6.4, 2: 5.0, 4: 3.8, 8: 2.6}[share.denominator]
        marks.append(
            Stroke(straight(x, WIDTH, x, WIDTH - tall), Line(0.25 if share.denominator == 1 else 0.15, INK))
        )
        if share.denominator == 1:
            _figure(marks, str(int(share)), x, piece, WIDTH - 7.2)
    return marks


def _figure(marks: list[Mark], said: str, x: float, piece: RulerPiece, y: float) -> None:
    """A figure behind its stroke, where it stands whole on the piece."""
    words = set_text(said, "book", 3.4)
    start = x - words.width / 2
    if start < 0.4:
        start = x + 0.5
    if start + words.width > piece.length - 0.4:
        start = x - 0.5 - words.width
    if start > 0:
        marks.append(words_at(words, start, y))


def draw_ruler_piece(piece: RulerPiece) -> Block:
    """A piece at full scale, its start at the left edge, its tab at the right."""
    body = Box(0.0, 0.0, piece.length, WIDTH)
    band = Box(0.0, 10.6, piece.length, 11.8)
    marks: list[Mark] = [Fill(rectangle(band), WELD_WASH)]
    if piece.tab:
        marks += _tab(piece)
    marks += [Group("centimetres", tuple(_centimetres(piece))), Group("inches", tuple(_inches(piece)))]
    corners = [
        (body.right, body.top),
        (body.left, body.top),
        (body.left, body.bottom),
        (body.right, body.bottom),
    ]
    marks.append(Group("cut", (Stroke(through(corners, closed=not piece.tab), _EDGE),)))
    return Block(piece.length + piece.tab, WIDTH, (Group(f"ruler {piece.number}", tuple(marks)),))


def _tab(piece: RulerPiece) -> list[Mark]:
    left, right = piece.length, piece.length + TAB
    box = Box(left, 1.0, right, WIDTH - 1.0)
    hatch = [
        Stroke(straight(left + d, box.bottom, left + d + WIDTH, box.bottom - WIDTH), Line(0.12, SOFT))
        for d in (2.5 * k - 22.5 for k in range(14))
    ]
    words = set_text(f"glue under {piece.number + 1}", "hand", 2.7)
    middle = (left + right) / 2 + 0.95
    patch = Box(middle - 2.9, WIDTH / 2 - words.width / 2 - 1, middle + 1.1, WIDTH / 2 + words.width / 2 + 1)
    return [
        framed(box, tuple(hatch)),
        Fill(rectangle(patch), PAPER),
        words_at(words, middle, WIDTH / 2, side="middle", turn=-math.pi / 2),
        Stroke(through([(left, box.top), (right, box.top), (right, box.bottom), (left, box.bottom)]), _EDGE),
        Stroke(straight(left, 0.0, left, WIDTH), _MEETS),
    ]


def ruler_pages(length: float, paper: Paper) -> Pages:
    """A ruler `length` mm long (more than nothing) on pages of the paper, lying, with the measuring squares."""
    if not 0 < length < math.inf:
        raise ValueError("a ruler needs some length")
    if paper.width is not None and paper.height is not None:
        paper = paper.turned() if paper.height > paper.width else paper
        across, down = paper.room[0] or 0.0, paper.room[1]
    else:
        # On a roll, and on one page, the ruler is in one piece; along the roll where it is too narrow.
        room = paper.room[0]
        across, down = room if room is not None and length <= room else max(length, 2 * SIDE), None
    pieces = ruler_pieces(length, across)
    words = HOW if len(pieces) > 1 else HOW.partition(" Glue")[0]
    head = stacked(
        [
            heading(TITLE, "centimetres above, inches below", across, 6.6),
            lines_of(words, "hand", 3.6, across, ink=SOFT),
        ],
        3.0,
    )
    blocks = [*(draw_ruler_piece(piece) for piece in pieces), measuring_squares(FULL)]
    sheets: list[list[Mark]] = [list(head.at(paper.margin, paper.margin))]
    y = head.height + _GAP
    for block in blocks:
        if down is not None and y + block.height > down:
            sheets.append([])
            y = 0.0
        sheets[-1].extend(block.at(paper.margin, paper.margin + y))
        y += block.height + _GAP
    width = across + 2 * paper.margin
    height = (y if down is None else down) + 2 * paper.margin
    pages = []
    for i, marks in enumerate(sheets, 1):
        label = TITLE if len(sheets) == 1 else f"{TITLE}, {i} of {len(sheets)}"
        pages.append(Page(Drawing(width, height, tuple(marks), label), label))
    count = in_words(len(pages)).capitalize()
    return Pages(tuple(pages), (), pages[-1].label, (f"{count} page{'' if len(pages) == 1 else 's'}.",))

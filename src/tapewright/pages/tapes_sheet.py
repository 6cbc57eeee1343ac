"""The wearer's tapes to print and cut out, at full scale, with the measuring squares beside them.

A tape longer than the paper is printed in pieces with tabs to glue. On a roll, and on one page, every
tape is in one piece, lying along the paper.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tapewright.drawing import SOFT, Drawing, Mark
from tapewright.pages.block import Block, lines_of, stacked
from tapewright.pages.counting import in_words
from tapewright.pages.dress import heading
from tapewright.pages.layout import Page, Pages
from tapewright.pages.paper import FULL, Paper
from tapewright.pages.squares import SIDE, measuring_squares
from tapewright.pages.tape import WIDTH, Piece, PrintedTape, draw_piece, pieces_of, rows_of

_GAP = 6.0


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """Where a piece lies: the page's index, and the upper left of the piece on it, in mm."""

    piece: Piece
    page: int
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class TapeSheet:
    """The pages of some tapes, and where each piece lies on them."""

    pages: Pages
    pieces: tuple[PlacedPiece, ...]


def tapes_sheet(
    tapes: Sequence[PrintedTape], paper: Paper, *, title: str, wearer_line: str = ""
) -> TapeSheet:
    """The tapes on pages of the paper, at full scale; at least one tape.

    `wearer_line` (whose they are, and when) stands on the first page and on every piece.
    """
    if not tapes:
        raise ValueError("there are no tapes to print")
    longest = max(tape.whole_mm for tape in tapes)
    paper = _lying(paper, longest)
    room_x, room_y = paper.room
    across = room_x if room_x is not None else max(longest, 2 * SIDE + _GAP)
    pieces = [piece for tape in tapes for piece in pieces_of(tape, across)]
    cut = any(piece.of > 1 for piece in pieces)
    head = _head(title, wearer_line, across, cut)
    rows = rows_of(pieces, across, _GAP)
    down = room_y if room_y is not None else head.height + _rows_height(len(rows)) + 2 * _GAP + SIDE
    return _on_pages(rows, paper, across, down, head, title, wearer_line)


def _lying(paper: Paper, longest: float) -> Paper:
    """The paper as the tapes lie on it: a sheet's long side across; a roll's width, if that takes the
    longest tape whole, else its length."""
    if paper.width is None:
        return paper
    if paper.height is None:
        room = paper.room[0]
        return paper if room is not None and longest <= room else paper.turned()
    return paper.turned() if paper.height > paper.width else paper


def _rows_height(count: int) -> float:
    return count * (WIDTH + _GAP)


def _head(title: str, wearer_line: str, width: float, cut: bool) -> Block:
    how = "Cut along the outer lines."
    if cut:
        how += " Glue each hatched tab under the piece that follows it, up to the dotted line."
    return stacked(
        [
            heading(title, wearer_line, width, 6.6, ticked=False),
            lines_of(how, "hand", 3.6, width, ink=SOFT),
        ],
        3.0,
    )


def _on_pages(
    rows: list[list[Piece]],
    paper: Paper,
    across: float,
    down: float,
    head: Block,
    title: str,
    wearer_line: str,
) -> TapeSheet:
    margin = paper.margin
    sheets: list[list[Mark]] = [list(head.at(margin, margin))]
    placed: list[PlacedPiece] = []
    y = margin + head.height + _GAP
    for row in rows:
        if y + WIDTH > margin + down:
            sheets.append([])
            y = margin
        x = margin
        for piece in row:
            block = draw_piece(piece, wearer_line)
            sheets[-1].extend(block.at(x, y))
            placed.append(PlacedPiece(piece, len(sheets) - 1, x, y))
            x += block.width + _GAP
        y += WIDTH + _GAP
    if y + SIDE > margin + down:
        sheets.append([])
        y = margin
    sheets[-1].extend(measuring_squares(FULL).at(margin, y))
    width, height = across + 2 * margin, down + 2 * margin
    pages = []
    for i, marks in enumerate(sheets):
        name = title if len(sheets) == 1 else f"{title}, {i + 1} of {len(sheets)}"
        pages.append(Page(Drawing(width, height, tuple(marks), name), name))
    count = in_words(len(pages)).capitalize()
    says = (f"{count} page{'' if len(pages) == 1 else 's'}.",)
    return TapeSheet(Pages(tuple(pages), (), pages[-1].label, says), tuple(placed))

"""Tapes to print and cut out, with the measuring squares beside them, and the key of their notation.

Two layouts. *Strips* for paper: a tape longer than the page is printed in pieces with tabs to glue. A *roll*
for cloth tape: one long page, every tape in one piece, with bare ends to turn under.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from tapewright.drawing import SOFT, Drawing, Mark
from tapewright.pages.block import NOTHING, Block, lines_of, stacked
from tapewright.pages.counting import in_words
from tapewright.pages.dress import heading
from tapewright.pages.layout import Page, Pages
from tapewright.pages.paper import FULL, Paper
from tapewright.pages.squares import SIDE, measuring_squares
from tapewright.pages.tape import Piece, PrintedTape, pieces_of
from tapewright.pages.tape_face import ENDS, draw_piece, width_of
from tapewright.pages.tape_key import explanation, key_block

_GAP = 6.0
# How wide the words beside the squares must be able to be; and may be.
_LEAST_BESIDE, _WIDEST_WORDS = 130.0, 190.0


class TapeLayout(StrEnum):
    """How tapes lie on what they are printed on."""

    STRIPS = "strips"
    ROLL = "roll"


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """Where a piece lies: the page's index, and the upper left of its graduated stretch on it, in mm."""

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
    tapes: Sequence[PrintedTape],
    paper: Paper,
    *,
    title: str,
    wearer_line: str = "",
    layout: TapeLayout = TapeLayout.STRIPS,
    key: bool = False,
) -> TapeSheet:
    """The tapes on pages of the paper; at least one tape, all of one scale and notation.

    First come the measuring squares and how a tape is read. `wearer_line` (whose they are, and when) stands
    on the first page and on every piece. `key` adds the key of the notation: a page of its own, after the
    others; on a roll or on one page above the tapes. A roll layout wants a paper as long as it needs to be.
    """
    if not tapes:
        raise ValueError("there are no tapes to print")
    if len({tape.scale for tape in tapes}) > 1:
        raise ValueError("tapes of several scales are not printed together")
    if len({tape.notation.name for tape in tapes}) > 1:
        raise ValueError("tapes of several notations are not printed together")
    if layout is TapeLayout.ROLL and paper.cut_sheet:
        raise ValueError(f"a roll layout does not go on {paper.name}")
    ends = ENDS if layout is TapeLayout.ROLL else 0.0
    longest = max(tape.paper_mm for tape in tapes) + 2 * ends
    paper = _lying(paper, longest)
    room_x, room_y = paper.room
    across = room_x if room_x is not None else max(longest, 2 * SIDE + _GAP)
    pieces = [piece for tape in tapes for piece in pieces_of(tape, across - 2 * ends)]
    cut = any(piece.of > 1 for piece in pieces)
    head = _head(title, wearer_line, across, cut, ends, tapes[0])
    rows = rows_of(pieces, across, _GAP, ends)
    front = _front(tapes, across)
    told = key_block(tapes[0].notation, tapes[0].parts, across) if key else NOTHING
    if not paper.cut_sheet:
        front = stacked([front, told], 2 * _GAP)
    down = room_y if room_y is not None else head.height + front.height + 3 * _GAP + _rows_height(rows)
    sheet = _Sheet(paper, across, down, ends)
    placed = _on_pages(sheet, rows, stacked([head, front], _GAP), title, wearer_line)
    return _with_key(placed, sheet, told) if key and paper.cut_sheet else placed


def _front(tapes: Sequence[PrintedTape], width: float) -> Block:
    """The measuring squares, and how a tape is read: beside them, or under them where there is no room."""
    squares = measuring_squares(tapes[0].scale)
    beside = width - SIDE - _GAP
    if beside < _LEAST_BESIDE:
        return stacked([squares, explanation(tapes, width)], _GAP)
    told = explanation(tapes, min(beside, _WIDEST_WORDS))
    marks = (*squares.marks, *told.at(SIDE + _GAP, 0.0))
    return Block(SIDE + _GAP + told.width, max(squares.height, told.height), marks)


def _with_key(placed: TapeSheet, sheet: _Sheet, told: Block) -> TapeSheet:
    """A page with the key after the others."""
    margin = sheet.paper.margin
    name = "the key"
    width, height = sheet.across + 2 * margin, max(sheet.down, told.height) + 2 * margin
    page = Page(Drawing(width, height, told.at(margin, margin), name), name)
    pages = placed.pages
    says = (*pages.says, "The last is the key.")
    return TapeSheet(replace(pages, pages=(*pages.pages, page), says=says), placed.pieces)


@dataclass(frozen=True, slots=True)
class _Sheet:
    """What is printed on: its room across and down, and the bare ends of its tapes."""

    paper: Paper
    across: float
    down: float
    ends: float


def _lying(paper: Paper, longest: float) -> Paper:
    """The paper as the tapes lie on it: a sheet's long side across; a roll's width, if that takes the
    longest tape whole, else its length."""
    if paper.width is None:
        return paper
    if paper.height is None:
        room = paper.room[0]
        return paper if room is not None and longest <= room else paper.turned()
    return paper.turned() if paper.height > paper.width else paper


def _high(row: Sequence[Piece]) -> float:
    return max(width_of(piece.tape) for piece in row)


def _rows_height(rows: Sequence[Sequence[Piece]]) -> float:
    return sum(_high(row) + _GAP for row in rows)


def _head(title: str, wearer_line: str, width: float, cut: bool, ends: float, first: PrintedTape) -> Block:
    how = "Cut along the outer lines."
    if cut:
        how += " Glue each hatched tab under the piece that follows it, up to the dotted line."
    if ends:
        how += " Turn the bare ends under at the dotted lines; the tape begins and ends there."
    if first.scale != FULL:
        how += f" {first.scale.name}: for drafts printed at the same size."
    if not first.centimetres:
        how += " No figures are printed."
    return stacked(
        [
            heading(title, wearer_line, width, 6.6),
            lines_of(how, "hand", 3.6, width, ink=SOFT),
        ],
        3.0,
    )


def _on_pages(
    sheet: _Sheet, rows: Sequence[Sequence[Piece]], head: Block, title: str, wearer_line: str
) -> TapeSheet:
    margin = sheet.paper.margin
    sheets: list[list[Mark]] = [list(head.at(margin, margin))]
    placed: list[PlacedPiece] = []
    y = margin + head.height + _GAP
    for row in rows:
        if y + _high(row) > margin + sheet.down:
            sheets.append([])
            y = margin
        x = margin
        for piece in row:
            block = draw_piece(piece, wearer_line, bare_ends=bool(sheet.ends))
            sheets[-1].extend(block.at(x, y))
            placed.append(PlacedPiece(piece, len(sheets) - 1, x + sheet.ends, y))
            x += block.width + _GAP
        y += _high(row) + _GAP
    width, height = sheet.across + 2 * margin, sheet.down + 2 * margin
    pages = []
    for i, marks in enumerate(sheets):
        name = title if len(sheets) == 1 else f"{title}, {i + 1} of {len(sheets)}"
        pages.append(Page(Drawing(width, height, tuple(marks), name), name))
    count = in_words(len(pages)).capitalize()
    says = (f"{count} page{'' if len(pages) == 1 else 's'}.",)
    return TapeSheet(Pages(tuple(pages), (), pages[0].label, says), tuple(placed))


def rows_of(pieces: Sequence[Piece], room: float, gap: float, ends: float = 0.0) -> list[list[Piece]]:
    """Pieces in rows no longer than `room`, in order, several short ones in one row."""
    rows: list[list[Piece]] = []
    used = 0.0
    for piece in pieces:
        length = piece.length + piece.tab + 2 * ends
        if rows and used + gap + length <= room:
            rows[-1].append(piece)
            used += gap + length
        else:
            rows.append([piece])
            used = length
    return rows

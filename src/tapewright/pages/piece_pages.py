"""The pieces of a wearer as pages: on one where they fit, on a roll, or joined from several.

Every print bears the measuring squares, the key of its lines, and a list of the pieces.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from tapewright.drawing import INK, Box, Drawing, Line, Stroke, set_text, straight, words_at
from tapewright.pages.block import Block, flowed, lines_of, stacked
from tapewright.pages.counting import in_words
from tapewright.pages.dress import TELLING, heading
from tapewright.pages.first_page import column_width, words_pages
from tapewright.pages.layout import Cover, Page, Pages
from tapewright.pages.paper import Paper, Scale
from tapewright.pages.paper_piece import PieceLines, PieceSheet
from tapewright.pages.piece_drawn import DrawnPiece, cutting_style, draw_piece, marked_style, sewing_style
from tapewright.pages.piece_shelves import Windows, fair_width, fewest_pages, laid, shelved
from tapewright.pages.piece_signs import NOTCH_LINE
from tapewright.pages.squares import SIDE, measuring_squares
from tapewright.pages.tiles import tile

_TITLE = {1: 9.0, 2: 7.5, 4: 6.6}
_GAP = 7.0
_PARAGRAPH = 5.0
_COLUMN = 60.0
_EDGE = 3.0  # bare paper round a piece that stands alone


def drawn_pieces(sheet: PieceSheet, scale: Scale) -> tuple[DrawnPiece, ...]:
    """Every piece of a sheet drawn at a scale, in the order of the lesson."""
    return tuple(draw_piece(piece, scale, sheet.lines, letters=sheet.letters) for piece in sheet.pieces)


def piece_pages(
    sheet: PieceSheet, paper: Paper, scale: Scale, drawn: Sequence[DrawnPiece] | None = None
) -> Pages:
    """The pages of all the pieces; `drawn` are they as `drawn_pieces` has them at this scale.

    ValueError where there is no piece.
    """
    if not sheet.pieces:
        raise ValueError("there is no piece to print")
    drawn = drawn_pieces(sheet, scale) if drawn is None else drawn
    sizes = [one.size for one in drawn]
    across, down = paper.room
    if across is None:
        content = laid(drawn, shelved(sizes, fair_width(sizes))[0])
        return _one(sheet, content, scale, paper, (max(content.width, SIDE + _GAP + _COLUMN), None))
    if down is None:
        content = laid(drawn, shelved(sizes, across)[0])
        if content.width <= across:
            return _one(sheet, content, scale, paper, (across, None))
        return tile(content, paper, scale, _cover(sheet, scale, across))
    for way in (paper, paper.turned()):
        page = _one_sheet(sheet, drawn, scale, way)
        if page is not None:
            return page
    way, spots = fewest_pages(sizes, paper)
    windows = Windows.of(way)
    again = [
        _clear_of_joins(one, sheet, scale, windows, spot) for one, spot in zip(drawn, spots, strict=True)
    ]
    cover = _cover(sheet, scale, way.room[0] or 0.0)
    return tile(laid(again, spots), way, scale, cover, laid=True)


def _clear_of_joins(
    drawn: DrawnPiece, sheet: PieceSheet, scale: Scale, windows: Windows, spot: tuple[float, float]
) -> DrawnPiece:
    """The piece with its words and signs where no page ends; as it is where that would make it larger."""
    x, y = spot
    joins = windows.joins(Box(x, y, x + drawn.box.width, y + drawn.box.height))
    if not len(joins):
        return drawn
    dx, dy = drawn.box.left - x, drawn.box.top - y
    moved = joins + np.array([dx, dy, dx, dy])
    again = draw_piece(drawn.piece, scale, sheet.lines, letters=sheet.letters, joins=moved)
    return drawn if again.outside else again


def _cover(sheet: PieceSheet, scale: Scale, across: float) -> Cover:
    return Cover(
        f"{sheet.title}, the pieces",
        sheet.wearer_line,
        "  ".join(part for part in (sheet.title, sheet.wearer_line) if part),
        tuple(tellings(sheet, scale, column_width(across))),
        tuple(tellings(sheet, scale, across)),
        sheet.drafted,
        sheet.warning,
        "the list of pieces",
    )


def _one_sheet(sheet: PieceSheet, drawn: Sequence[DrawnPiece], scale: Scale, paper: Paper) -> Pages | None:
    """Everything on one cut sheet, if it goes on one."""
    across, down = paper.room
    assert across is not None
    assert down is not None
    content = laid(drawn, shelved([one.size for one in drawn], across)[0])
    if content.width > across:
        return None
    head = _head(sheet, scale, across)
    if head.height + 2 * _GAP + content.height + SIDE > down:
        return None
    return _one(sheet, content, scale, paper, (across, down))


def _head(sheet: PieceSheet, scale: Scale, width: float) -> Block:
    return heading(
        f"{sheet.title}, the pieces",
        sheet.wearer_line,
        width,
        _TITLE[scale.factor.denominator],
        sheet.drafted,
        sheet.warning,
    )


def _one(
    sheet: PieceSheet, content: Block, scale: Scale, paper: Paper, room: tuple[float, float | None]
) -> Pages:
    """Title, pieces, and at the foot the squares with what is told beside them, on one page."""
    wide, high = room
    squares = measuring_squares(scale)
    above = [_head(sheet, scale, wide), content]
    beside = wide - SIDE - _GAP
    if beside >= _COLUMN:
        used = stacked(above, _GAP).height + _GAP
        deep = math.inf if high is None else max(high - used, squares.height)
        told, rest = flowed(tellings(sheet, scale, beside), deep, 2.2)
        foot = Block(wide, max(squares.height, told.height), (*squares.marks, *told.at(SIDE + _GAP, 0.0)))
        whole = stacked([*above, foot], _GAP)
    else:
        upper = stacked([*above, squares], _GAP)
        deep = math.inf if high is None else high - upper.height - _GAP
        told, rest = flowed(tellings(sheet, scale, wide), deep, 2.2)
        whole = stacked([upper, told], _GAP)
    margin = paper.margin
    width = wide + 2 * margin
    height = whole.height + 2 * margin if high is None else high + 2 * margin
    name = f"{sheet.title}, the pieces"
    blocks = tellings(sheet, scale, wide)
    further = blocks[len(blocks) - len(rest) :]
    more = words_pages(further, width, height, margin, name, sheet.wearer_line, sheet.warning)
    says = "One page." if not more else f"One page, and {in_words(len(more))} more for the list of pieces."
    first = Page(Drawing(width, height, whole.at(margin, margin), name), name)
    return Pages((first, *more), (), name, (says,))


def piece_alone(drawn: DrawnPiece) -> Drawing:
    """One piece on paper of its own size."""
    content = laid([drawn], [(0.0, 0.0)])
    width, height = content.width + 2 * _EDGE, content.height + 2 * _EDGE
    return Drawing(width, height, content.at(_EDGE, _EDGE), drawn.piece.name)


def tellings(sheet: PieceSheet, scale: Scale, width: float) -> list[Block]:
    """The key, the notes and the list of pieces as blocks no wider than `width`."""
    blocks = [replace(_key(sheet, scale), space=_PARAGRAPH)]
    blocks += [replace(lines_of(note, "hand", TELLING, width), space=_PARAGRAPH) for note in sheet.notes]
    count = len(sheet.told)
    head = "One piece" if count == 1 else f"{in_words(count).capitalize()} pieces"
    blocks.append(replace(lines_of(head, "book", 4.2, width), space=_PARAGRAPH))
    for told in sheet.told:
        cut = told.cut[:1].lower() + told.cut[1:]
        turnings = f" {told.turnings}." if told.turnings and sheet.lines is not PieceLines.NET else ""
        blocks.append(lines_of(f"{told.name}: {cut}.{turnings}", "hand", TELLING, width))
    return [block for block in blocks if block.marks]


def _key(sheet: PieceSheet, scale: Scale) -> Block:
    """A short stretch of each kind of line, with what it means."""
    rows: list[tuple[Line, str]] = []
    if sheet.lines is PieceLines.NET:
        rows.append((sewing_style(scale, alone=True), "where you sew; add the turnings when you cut"))
    else:
        rows.append((cutting_style(scale), "where you cut"))
        inner = any(edge.dart for piece in sheet.pieces for edge in piece.edges)
        if sheet.lines is PieceLines.BOTH or inner:
            rows.append((sewing_style(scale), "where you sew"))
    if any(piece.lines for piece in sheet.pieces):
        rows.append((marked_style(scale), "marked within"))
    found = []
    for line, words in rows:
        setting = set_text(words, "hand", TELLING)
        marks = (Stroke(straight(0, 1.3, 15, 1.3), line), words_at(setting, 18.5, 2.4, ink=INK))
        found.append(Block(18.5 + setting.width, 3.2, marks))
    if any(piece.notches for piece in sheet.pieces):
        setting = set_text("a balance mark", "hand", TELLING)
        strokes = tuple(Stroke(straight(x, 0.0, x, 2.6), NOTCH_LINE) for x in (6.4, 8.6))
        found.append(Block(18.5 + setting.width, 3.2, (*strokes, words_at(setting, 18.5, 2.4, ink=INK))))
    return stacked(found, 1.9)


__all__ = ["drawn_pieces", "piece_alone", "piece_pages", "tellings"]

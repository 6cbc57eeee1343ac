"""A plate as pages: on one sheet where it fits, upright or lying; else joined from several."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tapewright.drawing import Drawing
from tapewright.pages.block import Block
from tapewright.pages.counting import in_words
from tapewright.pages.dress import by_itself, figure_room, squares_follow, tellings, with_column, with_foot
from tapewright.pages.first_page import column_width, words_pages
from tapewright.pages.layout import Cover, Page, Pages, better_way
from tapewright.pages.paper import Paper, Scale
from tapewright.pages.plate import Field, Plate, draw_field, least_size
from tapewright.pages.squares import SIDE, measuring_squares
from tapewright.pages.tiles import tile

# On one page the foot has room for a column of words beside the squares.
_ONE_PAGE_WIDTH = SIDE + 90.0


def plate_pages(plate: Plate, paper: Paper, scale: Scale) -> Pages:
    """The pages of a plate. Every print bears both measuring squares, its scale, its title and wearer.

    On cut sheets the plate, its title and the squares go on one page if they fit; or the plate on one
    and the squares on the next; otherwise the bare plate is laid over several, with a first page for
    the rest. On one page and on a roll everything stands together; a roll narrower than the plate is
    joined from strips.
    """
    free = draw_field(plate, scale)
    if paper.width is None:
        whole = with_foot(plate, free, scale, max(free.block.width, _ONE_PAGE_WIDTH), None)
        if whole is not None:
            return _one(plate, whole, paper, whole[0].width + 2 * paper.margin, None)
    for arrange in (_foot, _column, _squares_apart):
        for sheet in _sheets(paper):
            pages = arrange(plate, free, scale, sheet)
            if pages is not None:
                return pages
    way = better_way(free.block, paper)
    room = way.room[0] or free.block.width
    blocks = tuple(tellings(plate, free, scale, column_width(room)))
    wide = tuple(tellings(plate, free, scale, room))
    foot = "  ".join(part for part in (plate.title, plate.wearer_line) if part)
    return tile(
        free.block,
        way,
        scale,
        Cover(plate.title, plate.wearer_line, foot, blocks, wide, plate.drafted, plate.warning),
    )


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A paper with a width; its height may be as long as needed."""

    paper: Paper
    width: float
    height: float | None

    @property
    def room(self) -> float:
        return self.width - 2 * self.paper.margin

    @property
    def room_high(self) -> float | None:
        return None if self.height is None else self.height - 2 * self.paper.margin


def _sheets(paper: Paper) -> list[_Sheet]:
    """The paper upright and lying; a roll only the way it is."""
    ways = (paper, paper.turned()) if paper.cut_sheet else (paper,)
    return [_Sheet(way, way.width, way.height) for way in ways if way.width is not None]


def _fitted(plate: Plate, free: Field, scale: Scale, room: tuple[float, float]) -> Field | None:
    """The field with its insets kept within the room; None if the drawing itself is larger."""
    if free.block.width <= room[0] and free.block.height <= room[1]:
        return free
    least = least_size(plate, scale)
    if least[0] > room[0] or least[1] > room[1]:
        return None
    return draw_field(plate, scale, within=room)


def _foot(plate: Plate, free: Field, scale: Scale, sheet: _Sheet) -> Pages | None:
    """Squares and tellings under the plate; on a roll always so."""
    wide, high = sheet.room, sheet.room_high
    room = (wide, math.inf) if high is None else figure_room(plate, scale, wide, high, under=SIDE)
    field = _fitted(plate, free, scale, room)
    found = field and with_foot(plate, field, scale, wide, high)
    return _one(plate, found, sheet.paper, sheet.width, sheet.height) if found else None


def _column(plate: Plate, free: Field, scale: Scale, sheet: _Sheet) -> Pages | None:
    """Squares and tellings at the right of the plate."""
    wide, high = sheet.room, sheet.room_high
    if high is None:
        return None
    field = _fitted(plate, free, scale, figure_room(plate, scale, wide, high, beside=SIDE))
    found = field and with_column(plate, field, scale, wide, high)
    return _one(plate, found, sheet.paper, sheet.width, sheet.height) if found else None


def _one(
    plate: Plate, found: tuple[Block, tuple[Block, ...]], paper: Paper, width: float, height: float | None
) -> Pages:
    """The dressed plate on a page of its own, and further pages for words that found no room on it."""
    whole, rest = found
    if height is None:
        height = whole.height + 2 * paper.margin
    name = plate.title or "the plate"
    drawing = Drawing(width, height, whole.at(paper.margin, paper.margin), name)
    more = words_pages(rest, width, height, paper.margin, plate.title, plate.wearer_line, plate.warning)
    says = ["One page." if not more else f"One page, and {in_words(len(more))} more for the checks."]
    return Pages((Page(drawing, name), *more), (), name, tuple(says))


def _squares_apart(plate: Plate, free: Field, scale: Scale, sheet: _Sheet) -> Pages | None:
    """The plate on a page of its own, and on the next the squares and what there is to tell."""
    wide, high, margin = sheet.room, sheet.room_high, sheet.paper.margin
    if high is None or sheet.height is None:
        return None
    field = _fitted(plate, free, scale, figure_room(plate, scale, wide, high, further=squares_follow(scale)))
    if field is None:
        return None
    figure = by_itself(plate, field, scale, wide, high)
    if figure is None:
        return None
    name = plate.title or "the plate"
    first = Page(Drawing(sheet.width, sheet.height, figure.at(margin, margin), name), name)
    blocks = [
        measuring_squares(scale),
        *tellings(plate, field, scale, wide),
    ]
    rest = words_pages(
        blocks, sheet.width, sheet.height, margin, plate.title, plate.wearer_line, plate.warning
    )
    count = in_words(1 + len(rest)).capitalize()
    says = (f"{count} pages; the measuring squares stand on the second.",)
    return Pages((first, *rest), (), rest[0].label, says)

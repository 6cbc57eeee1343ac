"""The first page of a drawing that is joined from several: map, measuring squares, what to do."""

from __future__ import annotations

from collections.abc import Sequence

from tapewright.drawing import (
    FAINT,
    PAPER,
    SOFT,
    Box,
    Clip,
    Drawing,
    Fill,
    Group,
    Line,
    Mark,
    Stroke,
    Transform,
    rectangle,
    set_text,
    words_at,
)
from tapewright.pages.block import Block, flowed, lines_of, stacked
from tapewright.pages.dress import heading
from tapewright.pages.layout import Layout, Page
from tapewright.pages.squares import SIDE, measuring_squares

COLUMN_GAP = 7.0
_LARGEST_LETTER = 5.0


def column_width(room: float) -> float:
    """How wide the blocks of words on a first page should be, on paper with so much room across."""
    return SIDE if room >= 2 * SIDE + COLUMN_GAP else room - SIDE - COLUMN_GAP


def first_pages(layout: Layout, says: Sequence[str]) -> list[Page]:
    """Title, squares, how to join, and the map; further pages for words that find no room on it."""
    width, height = layout.size
    margin, cover = layout.paper.margin, layout.cover
    inside = Box(margin, margin, width - margin, height - margin)
    head = heading(cover.title, cover.wearer_line, inside.width, 8.0)
    top = inside.top + head.height + COLUMN_GAP
    beside = inside.left + SIDE + COLUMN_GAP
    squares = measuring_squares(layout.scale)
    marks: list[Mark] = [*head.at(inside.left, inside.top), *squares.at(inside.left, top)]
    if inside.width >= 2 * SIDE + COLUMN_GAP:
        # Lying: the map beside the squares, the words under them.
        told = stacked([lines_of(line, "hand", 3.6, inside.right - beside) for line in says], 2.2)
        map_top = top + told.height + 6
        drawn = page_map(layout, inside.right - beside, inside.bottom - map_top)
        marks += [*told.at(beside, top), *drawn.at(beside, map_top)]
        below = top + SIDE + COLUMN_GAP
        column, rest = flowed(cover.blocks, inside.bottom - below, 2.2)
        marks += column.at(inside.left, below)
    else:
        joins = [lines_of(line, "hand", 3.6, inside.right - beside) for line in says]
        column, rest = flowed([*joins, *cover.blocks], SIDE, 2.2)
        marks += column.at(beside, top)
        map_top = top + SIDE + COLUMN_GAP
        drawn = page_map(layout, inside.width, inside.bottom - map_top)
        marks += drawn.at(inside.left + (inside.width - drawn.width) / 2, map_top)
    name = "the map"
    first = Page(Drawing(width, height, tuple(marks), name), name)
    further = cover.wide[len(cover.wide) - len(rest) :]
    return [first, *words_pages(further, width, height, margin, cover.title, cover.wearer_line)]


def page_map(layout: Layout, width: float, height: float) -> Block:
    """The pages as they lie when joined, small, with the drawing's lines on them and their names."""
    grid = layout.grid
    whole = grid.window((grid.down - 1, grid.across - 1))
    k = min(width / whole.right, height / whole.bottom)
    lines = _lines_only(layout.content.marks, Transform.scaling(k))
    edges: list[Mark] = []
    names: list[Mark] = []
    for at in grid.places():
        seen = grid.joined(at).scaled(k)
        here = at in layout.here
        line = Line(0.2, SOFT) if here else Line(0.2, FAINT, (1.2, 1.0))
        edges.append(Stroke(rectangle(seen), line))
        size = min(_LARGEST_LETTER, seen.width / 4, seen.height / 4)
        label = words_at(
            set_text(layout.name(at), "hand-bold", size), seen.left + size / 2, seen.top + size * 1.15
        )
        ground = label.setting.ink.padded(size / 6).moved(label.x, label.y)
        names += [Fill(rectangle(ground), PAPER), label]
        if not here:
            says = set_text("left out", "hand", size * 0.75)
            names.append(words_at(says, seen.left + size / 2, seen.top + 2.2 * size, ink=SOFT))
    return Block(whole.right * k, whole.bottom * k, (Group("map", (*lines, *edges, *names)),))


def _lines_only(marks: Sequence[Mark], how: Transform) -> tuple[Mark, ...]:
    """The lines of a drawing, small and thin; no lettering, no names."""
    small: list[Mark] = []
    for mark in marks:
        match mark:
            case Stroke(path, line):
                small.append(Stroke(path.placed(how), Line(max(line.width / 3, 0.1), line.ink)))
            case Group(_, inner):
                small.extend(_lines_only(inner, how))
            case Clip(path, inner):
                small.append(Clip(path.placed(how), _lines_only(inner, how)))
    return tuple(small)


def words_pages(
    blocks: Sequence[Block], width: float, height: float, margin: float, title: str, wearer_line: str
) -> list[Page]:
    """Further pages for blocks of words that found no room beside a drawing, in as many as needed."""
    head = heading(title, wearer_line, width - 2 * margin, 6.6)
    top = margin + head.height + COLUMN_GAP
    pages: list[Page] = []
    left = list(blocks)
    while left:
        column, rest = flowed(left, height - margin - top, 2.2)
        if not column.marks:
            # One block higher than a page: it is put down all the same, and runs over the foot.
            column, rest = left[0], tuple(left[1:])
        name = "the words" if not pages else f"the words, {len(pages) + 1}"
        marks = (*head.at(margin, margin), *column.at(margin, top))
        pages.append(Page(Drawing(width, height, marks, name), name))
        left = list(rest)
    return pages

"""The first page of a drawing that is joined from several: map, measuring squares, what to do."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tapewright.drawing import (
    FAINT,
    SOFT,
    Box,
    Clip,
    Drawing,
    Group,
    Line,
    Mark,
    Setting,
    Stroke,
    Transform,
    rectangle,
    set_text,
    words_at,
)
from tapewright.pages.block import Block, flowed, lines_of, stacked
from tapewright.pages.dress import heading
from tapewright.pages.layout import Layout, Page, stroked_pieces
from tapewright.pages.room import Floats, lengths_inside, near
from tapewright.pages.squares import SIDE, measuring_squares

COLUMN_GAP = 7.0
_LARGEST_LETTER = 5.0
_LEAST_MAP = 80.0  # mm of height that the map keeps


def column_width(room: float) -> float:
    """How wide the blocks of words on a first page should be, on paper with so much room across."""
    return SIDE if room >= 2 * SIDE + COLUMN_GAP else room - SIDE - COLUMN_GAP


def first_pages(layout: Layout, says: Sequence[str]) -> list[Page]:
    """Title, squares, how to join, and the map; further pages for words that find no room on it.

    On a roll it is as long as what stands on it, and never needs a further one.
    """
    width, height = layout.size
    margin, cover = layout.paper.margin, layout.cover
    inside = Box(margin, margin, width - margin, height - margin)
    head = heading(cover.title, cover.wearer_line, inside.width, 8.0, cover.drafted, cover.warning)
    top = inside.top + head.height + COLUMN_GAP
    roll = layout.paper.height is None
    lying = inside.width >= 2 * SIDE + COLUMN_GAP
    if roll:
        # No higher than wide, so that neither paper nor map is longer than it need be.
        inside = Box(inside.left, inside.top, inside.right, top + 2 * SIDE + COLUMN_GAP + 6)
    marks, bottom, rest = (_lying if lying else _upright)(layout, says, inside, top)
    marks = [*head.at(inside.left, inside.top), *marks]
    further = cover.wide[len(cover.wide) - rest :]
    if roll:
        column = stacked(further, 2.2)
        below = bottom + COLUMN_GAP if further else bottom
        marks += column.at(inside.left, below)
        height = below + column.height + margin
        further = ()
    name = "the map"
    first = Page(Drawing(width, height, tuple(marks), name), name)
    more = words_pages(further, width, height, margin, cover.title, cover.wearer_line, cover.warning)
    return [first, *more]


def _lying(layout: Layout, says: Sequence[str], inside: Box, top: float) -> tuple[list[Mark], float, int]:
    """The map beside the squares, the words under them; where they end, and how many found no room."""
    beside = inside.left + SIDE + COLUMN_GAP
    joins = stacked([lines_of(line, "hand", 3.6, inside.right - beside) for line in says], 2.2)
    map_top = top + joins.height + 6
    drawn = page_map(layout, inside.right - beside, inside.bottom - map_top)
    below = top + SIDE + COLUMN_GAP
    column, rest = flowed(layout.cover.blocks, inside.bottom - below, 2.2)
    marks = [
        *measuring_squares(layout.scale).at(inside.left, top),
        *joins.at(beside, top),
        *drawn.at(beside, map_top),
        *column.at(inside.left, below),
    ]
    return marks, max(map_top + drawn.height, below + column.height), len(rest)


def _upright(layout: Layout, says: Sequence[str], inside: Box, top: float) -> tuple[list[Mark], float, int]:
    """The words beside the squares, the map under both; where they end, and how many found no room."""
    beside = inside.left + SIDE + COLUMN_GAP
    joins = [lines_of(line, "hand", 3.6, inside.right - beside) for line in says]
    column, rest = flowed([*joins, *layout.cover.blocks], SIDE, 2.2)
    map_top = top + max(SIDE, column.height) + COLUMN_GAP
    wide = stacked(layout.cover.wide[len(layout.cover.wide) - len(rest) :], 2.2)
    if len(rest) <= len(layout.cover.wide) and inside.bottom - map_top - wide.height >= _LEAST_MAP:
        # What found no room beside the squares stands under both, where the map can spare it.
        rest = ()
        below = wide.at(inside.left, map_top)
        map_top += wide.height + (COLUMN_GAP if wide.marks else 0.0)
    else:
        below = ()
    drawn = page_map(layout, inside.width, inside.bottom - map_top)
    marks = [
        *measuring_squares(layout.scale).at(inside.left, top),
        *column.at(beside, top),
        *below,
        *drawn.at(inside.left + (inside.width - drawn.width) / 2, map_top),
    ]
    return marks, map_top + drawn.height, len(rest)


def page_map(layout: Layout, width: float, height: float) -> Block:
    """The pages as they lie when joined, small, with the drawing's lines on them and their names.

    A name stands where no line runs, so that nothing of the drawing is hidden.
    """
    grid = layout.grid
    whole = grid.window((grid.down - 1, grid.across - 1)).moved(-grid.left, -grid.top)
    k = min(width / whole.right, height / whole.bottom)
    how = Transform.moving(-grid.left, -grid.top).then(Transform.scaling(k))
    lines = _lines_only(layout.content.marks, how)
    pieces = stroked_pieces(lines)
    edges: list[Mark] = []
    names: list[Mark] = []
    for at in grid.places():
        seen = grid.joined(at).moved(-grid.left, -grid.top).scaled(k)
        here = at in layout.here
        line = Line(0.2, SOFT) if here else Line(0.2, FAINT, (1.2, 1.0))
        edges.append(Stroke(rectangle(seen), line))
        size = min(_LARGEST_LETTER, seen.width / 4, seen.height / 4)
        label = set_text(layout.name(at), "hand-bold", size)
        x, y = _clear_place(label, seen, pieces, size)
        names.append(words_at(label, x, y))
        if not here:
            says = set_text("left out", "hand", size * 0.75)
            names.append(words_at(says, x, y + size, ink=SOFT))
    return Block(whole.right * k, whole.bottom * k, (Group("map", (*lines, *edges, *names)),))


_TRIED = 9  # places for a name across a page of the map, and down


def _clear_place(label: Setting, seen: Box, pieces: Floats, size: float) -> tuple[float, float]:
    """Where the writing of a page's name starts: nearest its upper left, of the places under which least
    is drawn."""
    ink = label.ink.padded(size / 6)
    gap = size / 4
    xs = np.linspace(seen.left + gap, max(seen.right - gap - ink.width, seen.left + gap), _TRIED)
    ys = np.linspace(seen.top + gap, max(seen.bottom - gap - ink.height, seen.top + gap), _TRIED)
    corners = np.array([(x, y) for y in ys for x in xs])
    boxes = np.concatenate([corners, corners + np.array([ink.width, ink.height])], axis=1)
    reach = np.array([seen.left, seen.top, seen.right, seen.bottom])
    covered = lengths_inside(boxes, near(pieces, reach))[1].sum(axis=1)
    away = np.hypot(*(corners - corners[0]).T)
    best = int(np.lexsort((away, np.round(covered, 3)))[0])
    return float(corners[best, 0] - ink.left), float(corners[best, 1] - ink.top)


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
    blocks: Sequence[Block],
    width: float,
    height: float,
    margin: float,
    title: str,
    wearer_line: str,
    warning: str = "",
) -> list[Page]:
    """Further pages for blocks of words that found no room beside a drawing, in as many as needed."""
    head = heading(title, wearer_line, width - 2 * margin, 6.6, warning=warning)
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

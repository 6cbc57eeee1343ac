"""A drawing larger than the paper, laid over several pages that join edge to edge.

Pages are numbered by row and column, 1-1, 1-2, 2-1: a letter and a figure would be a point's name. Each
overlaps its neighbours; the one to the right, and the one below, is cut along its edge line and laid
over the dotted edge of the one before it. Crosses stand on that edge, half on the one page and half on
the other, so that they close when the pages meet (`joins.py`). The first page is a map of the rest and
bears the measuring squares (`first_page.py`). A page on which nothing would be drawn is left out, and
named.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from tapewright.drawing import (
    INK,
    SOFT,
    Box,
    Drawing,
    FaceName,
    Group,
    Line,
    Mark,
    Setting,
    Stroke,
    Transform,
    Words,
    box_of,
    framed,
    place,
    set_text,
    straight,
    within,
    words_at,
)
from tapewright.pages.block import Block
from tapewright.pages.counting import in_words, listed, ordinal
from tapewright.pages.first_page import first_pages
from tapewright.pages.joins import ARM, best_start, cross_spots, words_boxes
from tapewright.pages.layout import At, Cover, Grid, Layout, Page, Pages, anything_in, grid_over
from tapewright.pages.paper import Paper, Scale
from tapewright.pages.room import Floats
from tapewright.pages.wording import as_printed

_EDGE = Line(0.2, SOFT, (0.0, 1.1), cap="round")
_CUT = Line(0.15, SOFT)
_CROSS = Line(0.2, INK)


def tile(content: Block, paper: Paper, scale: Scale, cover: Cover, *, laid: bool = False) -> Pages:
    """Lay a drawing, already at its scale, over pages of the paper, with a first page that maps them.

    With `laid` the drawing was laid out for pages that begin at its upper left corner, and they do.
    """
    plain = grid_over(content, paper)
    ways = (plain,) if laid else (best_start(content, plain), plain)
    # Edges that cut through fewer names are never worth another page.
    layout = min(
        (Layout.over(content, paper, scale, cover, grid) for grid in ways), key=lambda way: len(way.here)
    )
    words = words_boxes(content.marks)
    further = 0
    while True:
        says = _says(layout.grid, len(layout.here), layout.left_out, further, cover.told)
        first = first_pages(layout, says)
        if len(first) - 1 <= further:
            break
        further = len(first) - 1
    rest = [_page(layout, at, words) for at in layout.grid.places() if at in layout.here]
    return Pages((*first, *rest), layout.left_out, first[0].label, says)


# More pages than these that are left out are counted; the map shows which.
_NAMED_LEFT_OUT = 8


def _says(grid: Grid, count: int, left_out: tuple[str, ...], further: int, told: str) -> tuple[str, ...]:
    """What there is to know about the pages; `further` are those for words (`told`) that found no room."""
    more = f", and {in_words(further)} more for {told}" if further else ""
    lines = [f"{in_words(count).capitalize()} page{'' if count == 1 else 's'} besides this one{more}."]
    if grid.across * grid.down > 1:
        row, column = (2, 3) if grid.down > 1 and grid.across > 2 else (grid.down, grid.across)
        lines.append(
            f"They are named by row and column: {row}-{column} is the {ordinal(row)} row, "
            f"{ordinal(column)} column."
        )
    if len(left_out) > _NAMED_LEFT_OUT:
        lines.append(f"{in_words(len(left_out)).capitalize()} would be blank and are left out; see the map.")
    elif left_out:
        why = "so it is left out" if len(left_out) == 1 else "so they are left out"
        lines.append(f"{listed(left_out)} would be blank, {why}.")
    edges = []
    if grid.across > 1:
        edges.append("each column over the one on its left")
    if grid.down > 1:
        edges.append("each row over the one above it")
    if edges:
        lines.append(
            "Where a page has a thin edge line, cut along it. Lay "
            + ", and ".join(edges)
            + ", to the dotted edge, so that the crosses close."
        )
    return tuple(lines)


def _page(layout: Layout, at: At, words: Floats) -> Page:
    """One page: its window on the drawing, its edges and crosses, its name in the strip below."""
    margin, grid = layout.paper.margin, layout.grid
    width, height = layout.size
    window = grid.window(at)
    onto = Transform.moving(margin - window.left, margin - window.top)
    frame = Box(margin, margin, margin + grid.width, margin + grid.height)
    drawn = tuple(place(mark, onto) for mark in within(layout.content.marks, window))
    crosses = tuple(place(cross(x, y), onto) for x, y in cross_spots(layout, at, words))
    foot = frame.bottom + 6.4
    label = layout.name(at)
    big = set_text(label, "hand-bold", 6.4)
    # The edge line runs down past the frame: the name stands clear of it.
    start = frame.left + 3.0
    size_said = set_text(layout.scale.name, "hand", 3.2)
    told = start + big.width + 4
    warned = _fitting(layout.cover.warning, "hand-bold", 3.6, (frame.right - told) * 0.75)
    room = frame.right - told - size_said.width - 4 - (warned.width + 4 if warned.runs else 0.0)
    whose = _fitting(layout.cover.foot, "hand", 3.2, room)
    marks: tuple[Mark, ...] = (
        framed(frame, drawn),
        Group("edges", _edges(layout, at, frame, (*drawn, *crosses))),
        Group("crosses", crosses),
        words_at(big, start, foot),
        words_at(warned, told, foot),
        words_at(whose, told + (warned.width + 4 if warned.runs else 0.0), foot, ink=SOFT),
        words_at(size_said, frame.right, foot, side="right", ink=SOFT),
    )
    return Page(Drawing(width, height, marks, label), label, window, (frame.left, frame.top))


def _fitting(words: str, name: FaceName, size: float, room: float) -> Setting:
    """Words in one line, made smaller where they are wider than the room."""
    setting = set_text(as_printed(words), name, size)
    return setting.scaled(room / setting.width) if setting.width > room else setting


def _edges(layout: Layout, at: At, frame: Box, drawn: Sequence[Mark]) -> tuple[Mark, ...]:
    """Dotted where the next page is laid over, thin where this one is cut, with words that say so."""
    row, column = at
    sx, sy = layout.grid.step
    marks: list[Mark] = []
    if (beyond := (row, column + 1)) in layout.here:
        x = frame.left + sx
        marks.append(Stroke(straight(x, frame.top, x, frame.bottom), _EDGE))
        tries = [
            Words(_lay_over(layout.name(beyond)), x + out, y, -math.pi / 2, SOFT)
            for out in _OUT
            for y in _along(frame.top + 60, frame.bottom - ARM)
        ]
        marks.append(_clearest(tries, drawn))
    if (below := (row + 1, column)) in layout.here:
        y = frame.top + sy
        marks.append(Stroke(straight(frame.left, y, frame.right, y), _EDGE))
        tries = [
            Words(_lay_over(layout.name(below)), x, y + out, 0.0, SOFT)
            for out in _OUT
            for x in _along(frame.left + 8, frame.right - 60)
        ]
        marks.append(_clearest(tries, drawn))
    if (row, column - 1) in layout.here:
        marks.append(Stroke(straight(frame.left, frame.top - ARM, frame.left, frame.bottom + ARM), _CUT))
    if (row - 1, column) in layout.here:
        marks.append(Stroke(straight(frame.left - ARM, frame.top, frame.right + ARM, frame.top), _CUT))
    return tuple(marks)


# Lines of writing beyond the dotted edge, mm: the middle of what is laid over, then nearer its edges.
_OUT = (6.2, 8.8, 3.6)


def _lay_over(name: str) -> Setting:
    return set_text(f"lay {name} over, to the dotted edge", "hand", 3.0)


def _along(start: float, end: float) -> list[float]:
    """Places from start to end, 9 mm apart; at least the start."""
    return [start + 9.0 * i for i in range(max(int((end - start) / 9.0) + 1, 1))]


def _clearest(tries: Sequence[Words], drawn: Sequence[Mark]) -> Words:
    """The first of the tries under which nothing is drawn; else the first."""
    for words in tries:
        box = box_of(words)
        if box is not None and not anything_in(drawn, box.padded(1.0)):
            return words
    return tries[0]


def cross(x: float, y: float) -> Stroke:
    """A registration cross round (x, y)."""
    path = straight(x - ARM, y, x + ARM, y) + straight(x, y - ARM, x, y + ARM)
    return Stroke(path, _CROSS)

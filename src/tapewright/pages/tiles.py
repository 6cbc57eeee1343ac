"""A drawing larger than the paper, laid over several pages that join edge to edge.

Pages are lettered by row and numbered by column: A1, A2, B1. Each overlaps its neighbours; the one to
the right, and the one below, is cut along its edge line and laid over the dotted edge of the one before
it. Crosses stand on that edge, half on the one page and half on the other, so that they close when the
pages meet. The first page is a map of the rest and bears the measuring squares (`first_page.py`). A
page on which nothing would be drawn is left out, and named.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from tapewright.drawing import (
    INK,
    SOFT,
    Box,
    Drawing,
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
from tapewright.pages.counting import in_words, listed
from tapewright.pages.first_page import first_pages
from tapewright.pages.layout import At, Cover, Grid, Layout, Page, Pages, anything_in
from tapewright.pages.paper import Paper, Scale
from tapewright.pages.wording import as_printed

ARM = 4.0  # half of a cross
_EDGE = Line(0.2, SOFT, (0.0, 1.1), cap="round")
_CUT = Line(0.15, SOFT)
_CROSS = Line(0.2, INK)


def tile(content: Block, paper: Paper, scale: Scale, cover: Cover) -> Pages:
    """Lay a drawing, already at its scale, over pages of the paper, with a first page that maps them."""
    layout = Layout.over(content, paper, scale, cover)
    says = _says(layout.grid, len(layout.here), layout.left_out)
    first = first_pages(layout, says)
    rest = [_page(layout, at) for at in layout.grid.places() if at in layout.here]
    return Pages((*first, *rest), layout.left_out, first[0].label, says)


def _says(grid: Grid, count: int, left_out: tuple[str, ...]) -> tuple[str, ...]:
    lines = [f"{in_words(count).capitalize()} page{'' if count == 1 else 's'} besides this one."]
    if left_out:
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


def _page(layout: Layout, at: At) -> Page:
    """One page: its window on the drawing, its edges and crosses, its name in the strip below."""
    margin, grid = layout.paper.margin, layout.grid
    width, height = layout.size
    window = grid.window(at)
    onto = Transform.moving(margin - window.left, margin - window.top)
    frame = Box(margin, margin, margin + grid.width, margin + grid.height)
    drawn = tuple(place(mark, onto) for mark in within(layout.content.marks, window))
    foot = frame.bottom + 6.4
    label = layout.name(at)
    big = set_text(label, "hand-bold", 6.4)
    size_said = set_text(layout.scale.name, "hand", 3.2)
    whose = set_text(as_printed(layout.cover.foot), "hand", 3.2)
    room = grid.width - big.width - size_said.width - 10
    if whose.width > room:
        whose = whose.scaled(room / whose.width)
    marks: tuple[Mark, ...] = (
        framed(frame, drawn),
        Group("edges", _edges(layout, at, frame, drawn)),
        Group("crosses", _crosses(layout, at, frame)),
        words_at(big, frame.left, foot),
        words_at(whose, frame.left + big.width + 4, foot, ink=SOFT),
        words_at(size_said, frame.right, foot, side="right", ink=SOFT),
    )
    return Page(Drawing(width, height, marks, label), label, window, (frame.left, frame.top))


def _edges(layout: Layout, at: At, frame: Box, drawn: Sequence[Mark]) -> tuple[Mark, ...]:
    """Dotted where the next page is laid over, thin where this one is cut, with words that say so."""
    row, column = at
    sx, sy = layout.grid.step
    marks: list[Mark] = []
    if (beyond := (row, column + 1)) in layout.here:
        x = frame.left + sx
        marks.append(Stroke(straight(x, frame.top, x, frame.bottom), _EDGE))
        tries = [
            Words(_lay_over(layout.name(beyond)), x + 6.2, y, -math.pi / 2, SOFT)
            for y in _along(frame.top + 60, frame.bottom)
        ]
        marks.append(_clearest(tries, drawn))
    if (below := (row + 1, column)) in layout.here:
        y = frame.top + sy
        marks.append(Stroke(straight(frame.left, y, frame.right, y), _EDGE))
        tries = [
            Words(_lay_over(layout.name(below)), x, y + 6.2, 0.0, SOFT)
            for x in _along(frame.left + 8, frame.right - 60)
        ]
        marks.append(_clearest(tries, drawn))
    if (row, column - 1) in layout.here:
        marks.append(Stroke(straight(frame.left, frame.top - ARM, frame.left, frame.bottom + ARM), _CUT))
    if (row - 1, column) in layout.here:
        marks.append(Stroke(straight(frame.left - ARM, frame.top, frame.right + ARM, frame.top), _CUT))
    return tuple(marks)


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


def _crosses(layout: Layout, at: At, frame: Box) -> tuple[Mark, ...]:
    """Crosses on every edge shared with a neighbour: at both ends of the edge and in its middle."""
    row, column = at
    sx, sy = layout.grid.step
    seen = layout.grid.joined(at)
    low_x, high_x = frame.left, frame.left + seen.width
    low_y, high_y = frame.top, frame.top + seen.height
    spots: set[tuple[float, float]] = set()
    for neighbour, x in (((row, column - 1), frame.left), ((row, column + 1), frame.left + sx)):
        if neighbour in layout.here:
            spots |= {(x, low_y), (x, (low_y + high_y) / 2), (x, high_y)}
    for neighbour, y in (((row - 1, column), frame.top), ((row + 1, column), frame.top + sy)):
        if neighbour in layout.here:
            spots |= {(low_x, y), ((low_x + high_x) / 2, y), (high_x, y)}
    return tuple(cross(x, y) for x, y in sorted(spots))

"""How a drawing lies over several pages: the grid of windows, which of them show anything, their names."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tapewright.drawing import PAPER, Box, Clip, Drawing, Fill, Group, Mark, Path, Stroke, box_of, every
from tapewright.pages.block import Block
from tapewright.pages.paper import Paper, Scale
from tapewright.pages.room import Floats, lengths_inside, no_pieces

OVERLAP = 10.0
FOOT = 9.0  # the strip under a window for the page's name


@dataclass(frozen=True, slots=True)
class Page:
    """A page to print. `window` is what it shows of the drawing, in the drawing's own mm; `corner` where
    the window's upper left lies on the paper. Both None for a page that shows none of it."""

    drawing: Drawing
    label: str
    window: Box | None = None
    corner: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Pages:
    """Pages in printing order; the labels of those left out; the label of the one with the squares.

    `says` are sentences about them for whoever prints: how many, what was left out, how they join.
    """

    pages: tuple[Page, ...]
    left_out: tuple[str, ...]
    squares_on: str
    says: tuple[str, ...]

    @property
    def drawings(self) -> tuple[Drawing, ...]:
        """What the PDF writer takes."""
        return tuple(page.drawing for page in self.pages)


@dataclass(frozen=True, slots=True)
class Cover:
    """What the first page says beside the map: title, whose it is, and blocks of words.

    `foot` is a short line for the strip of every page. `wide` are the same blocks set as wide as a
    page, for those that find no room on the first. `drafted` says how it was drafted, `warning` what
    must not be overlooked: that stands on every page. `told` is what most of the blocks are.
    """

    title: str
    wearer_line: str
    foot: str
    blocks: tuple[Block, ...]
    wide: tuple[Block, ...]
    drafted: str = ""
    warning: str = ""
    told: str = "the checks"

    def __post_init__(self) -> None:
        if len(self.blocks) != len(self.wide):
            raise ValueError("every block of a cover is wanted in both widths")


At = tuple[int, int]  # row and column, from 0


@dataclass(frozen=True, slots=True)
class Grid:
    """Windows over the drawing: `across` x `down`, each `width` x `height`, `step` apart.

    `left`, `top`: where the first begins, at or before the drawing's own upper left corner.
    """

    across: int
    down: int
    width: float
    height: float
    left: float = 0.0
    top: float = 0.0

    @property
    def step(self) -> tuple[float, float]:
        return self.width - OVERLAP, self.height - OVERLAP

    def window(self, at: At) -> Box:
        row, column = at
        sx, sy = self.step
        left, top = self.left + column * sx, self.top + row * sy
        return Box(left, top, left + self.width, top + self.height)

    def own(self, at: At) -> Box:
        """What this window shows and none before it does. Together they fill the whole, none twice."""
        row, column = at
        box = self.window(at)
        return Box(
            box.left + (OVERLAP if column else 0), box.top + (OVERLAP if row else 0), box.right, box.bottom
        )

    def joined(self, at: At) -> Box:
        """What is still seen of this page when all are joined: up to where the next are laid over it."""
        row, column = at
        box = self.window(at)
        sx, sy = self.step
        return Box(
            box.left,
            box.top,
            box.left + sx if column < self.across - 1 else box.right,
            box.top + sy if row < self.down - 1 else box.bottom,
        )

    def places(self) -> list[At]:
        """Every row and column, row by row."""
        return [(row, column) for row in range(self.down) for column in range(self.across)]


def grid_over(content: Block, paper: Paper) -> Grid:
    """The fewest windows of a paper that cover a drawing. ValueError if the paper is hardly larger
    than the overlap."""
    room_x, room_y = paper.room
    width = content.width if room_x is None else room_x
    height = content.height if room_y is None else room_y - FOOT
    if min(width, height) <= 3 * OVERLAP:
        raise ValueError(f"{paper.name} is too small to join pages of it")
    across = 1 if content.width <= width else math.ceil((content.width - OVERLAP) / (width - OVERLAP))
    down = 1 if content.height <= height else math.ceil((content.height - OVERLAP) / (height - OVERLAP))
    return Grid(across, down, width, height)


def better_way(content: Block, paper: Paper) -> Paper:
    """The paper upright or lying, whichever needs fewer pages; as given if both need as many."""
    if not paper.cut_sheet:
        return paper
    one, other = grid_over(content, paper), grid_over(content, paper.turned())
    return paper.turned() if other.across * other.down < one.across * one.down else paper


def anything_in(marks: Sequence[Mark], box: Box) -> bool:
    """Whether something of the marks is seen in a box: a line through it, some lettering, some ink."""
    for mark in marks:
        own = box_of(mark)
        if own is None or not own.touches(box) or (isinstance(mark, Fill) and mark.ink == PAPER):
            continue
        if isinstance(mark, Group):
            if anything_in(mark.marks, box):
                return True
        elif isinstance(mark, Clip):
            if anything_in(mark.marks, own.shared(box)):
                return True
        elif not isinstance(mark, Stroke) or box.holds(own) or _runs_through(mark.path, box):
            return True
    return False


def path_pieces(path: Path) -> Floats:
    """A path as straight pieces (n, 4)."""
    found = [no_pieces()]
    for stretch in path.flat():
        corners = np.array(stretch)
        found.append(np.concatenate([corners[:-1], corners[1:]], axis=1))
    return np.concatenate(found)


def stroked_pieces(marks: Sequence[Mark]) -> Floats:
    """Every line of some marks as straight pieces (n, 4); of clips those too that are not seen."""
    return np.concatenate(
        [no_pieces(), *(path_pieces(m.path) for m in every(tuple(marks)) if isinstance(m, Stroke))]
    )


def _runs_through(path: Path, box: Box) -> bool:
    row = np.array([[box.left, box.top, box.right, box.bottom]])
    return bool(lengths_inside(row, path_pieces(path))[0].any())


@dataclass(frozen=True, slots=True)
class Layout:
    """A drawing over pages: the grid, the windows that show anything (`here`), and their names."""

    content: Block
    paper: Paper
    scale: Scale
    cover: Cover
    grid: Grid
    here: frozenset[At]

    @staticmethod
    def over(content: Block, paper: Paper, scale: Scale, cover: Cover, grid: Grid) -> Layout:
        """The drawing over the windows of a grid; those that would show nothing are left out."""
        here = frozenset(at for at in grid.places() if anything_in(content.marks, grid.own(at)))
        return Layout(content, paper, scale, cover, grid, here)

    @staticmethod
    def name(at: At) -> str:
        """`2-3`: the second row, third column. Letters are the points' own."""
        return f"{at[0] + 1}-{at[1] + 1}"

    @property
    def left_out(self) -> tuple[str, ...]:
        return tuple(self.name(at) for at in self.grid.places() if at not in self.here)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the paper."""
        p, g = self.paper, self.grid
        return (
            p.width if p.width is not None else g.width + 2 * p.margin,
            p.height if p.height is not None else g.height + FOOT + 2 * p.margin,
        )

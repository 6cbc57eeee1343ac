"""What a draft yields besides points and lines: pieces, seams, marks, checks. Rows last; no pictures."""

from __future__ import annotations

from dataclasses import dataclass

from tapewright.diagnostics import Span
from tapewright.draft.bodies import Array, Mask
from tapewright.draft.rows import Edge, OutlineRun
from tapewright.geometry import Point, Stretch


@dataclass(frozen=True, slots=True)
class Cloth:
    """How many are cut of which cloth."""

    count: int
    name: str


@dataclass(frozen=True, slots=True, eq=False)
class EdgeAt:
    """An edge as a sentence names it: its words, how it runs, the line that it is (of), -1 for a ruler.

    `ends` are the letters between which it runs; two empty ones for the whole of a drawn line.
    """

    name: str
    drawn: Stretch
    line: int
    ends: tuple[str, str]


@dataclass(frozen=True, slots=True, eq=False)
class TurningAt:
    """A turning in mm on some edges; `at` is empty for all that are named nowhere else.

    `finish` are the words that stand after the amount (squared, turned up, to whip), if any. `width` is None
    where the finish or the `table` (a named table of turnings, by its title) says how much; with neither
    it is nought.
    """

    width: Array | None
    at: tuple[EdgeAt, ...]
    finish: str = ""
    table: str = ""

    @property
    def edges(self) -> tuple[str, ...]:
        """The edges by their words."""
        return tuple(edge.name for edge in self.at)


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """A piece as it is cut: its outline, its cloths, how it lies, what is left outside its edges.

    `lying` are the ends of the line on the grain or the cross, or of each line on the fold (`on`). `nap` is
    down or up the paper where the cloth has one.
    """

    name: str
    outline: OutlineRun
    cloths: tuple[Cloth, ...]
    under: str
    on: str
    lying: tuple[tuple[Point, Point], ...]
    turnings: tuple[TurningAt, ...]
    sentence: int
    nap: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class SeamEdge:
    """One edge of a seam: what it is called, how it runs, its length on the net line."""

    at: EdgeAt
    length: Array

    @property
    def name(self) -> str:
        """What the edge is called."""
        return self.at.name

    @property
    def drawn(self) -> Stretch:
        """How it runs, as it was drawn."""
        return self.at.drawn


@dataclass(frozen=True, slots=True, eq=False)
class Seam:
    """Two runs of edges sewn together; `difference` is first less second, in mm.

    `how` is easing, gathering, stretching or nothing, `eased` the name of that edge, `by` its amount.
    """

    first: tuple[SeamEdge, ...]
    second: tuple[SeamEdge, ...]
    how: str
    eased: str
    by: Array | None
    difference: Array
    sentence: int


@dataclass(frozen=True, slots=True, eq=False)
class BalanceMark:
    """A balance mark on an edge: where, which way the edge runs there in radians, and how many notches.

    `notches` is 0 where the lesson leaves it to the cutter: one in front, two behind.
    """

    on: EdgeAt
    at: Point
    along: Array
    notches: int
    sentence: int

    @property
    def edge(self) -> str:
        """The edge by its words."""
        return self.on.name


@dataclass(frozen=True, slots=True, eq=False)
class InnerMark:
    """A line or a point that is marked on a piece, within it: `outline` is the piece's name.

    Of `line` and `at` one is None. `name` is the line's name or words, or the point's letter.
    """

    outline: str
    name: str
    line: EdgeAt | None
    at: Point | None
    sentence: int


@dataclass(frozen=True, slots=True, eq=False)
class Landmark:
    """A place of the body, such as the nape, and the letters that stand for it on the pattern."""

    name: str
    letters: tuple[str, ...]
    points: tuple[Point, ...]
    sentence: int


@dataclass(frozen=True, slots=True, eq=False)
class Trimming:
    """What is set along edges: braid, bones, buttons.

    `count` is how many are set evenly, 0 where none is said; `apart` is how far apart in mm, None where it
    is not said. With neither it runs along the whole of the edges. `once` where one side alone has it.
    """

    edges: tuple[SeamEdge, ...]
    ware: str
    count: int
    apart: Array | None
    sentence: int
    once: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Check:
    """A `See that`: both sides, their difference, and on which bodies it holds.

    Amounts are in mm, or in radians where `angle` is True. `within` is the difference allowed. A relation
    other than `is` holds or not; its difference is what is missing, 0 where it holds.
    """

    claim: str
    left: Array
    right: Array
    difference: Array
    within: Array
    holds: Mask
    angle: bool
    relation: str
    sentence: int
    source: str
    where: Span


__all__ = [
    "BalanceMark",
    "Check",
    "Cloth",
    "Edge",
    "EdgeAt",
    "InnerMark",
    "Landmark",
    "Piece",
    "Seam",
    "SeamEdge",
    "Trimming",
    "TurningAt",
]

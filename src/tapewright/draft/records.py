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
class TurningAt:
    """A turning in mm on some edges; `edges` is empty for all that are named nowhere else."""

    width: Array
    edges: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """A piece as it is cut: its outline, its cloths, how it lies, what is left outside its edges.

    `lying` are the ends of the line on the grain or the cross, or of each line on the fold (`on`).
    """

    name: str
    outline: OutlineRun
    cloths: tuple[Cloth, ...]
    under: str
    on: str
    lying: tuple[tuple[Point, Point], ...]
    turnings: tuple[TurningAt, ...]
    sentence: int


@dataclass(frozen=True, slots=True, eq=False)
class SeamEdge:
    """One edge of a seam: what it is called, how it runs, its length on the net line."""

    name: str
    drawn: Stretch
    length: Array


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
    """A balance mark on an edge: where, which way the edge runs there in radians, and how many notches."""

    edge: str
    at: Point
    along: Array
    notches: int
    sentence: int


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
    "Piece",
    "Seam",
    "SeamEdge",
    "TurningAt",
]

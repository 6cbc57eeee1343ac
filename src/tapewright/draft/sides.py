"""A body with two sides: the half draft drawn twice, and what must agree between left and right.

The centre lines must agree in length and shape, which is checked unasked; `See that ... is the same on both sides`
checks anything else.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from tapewright.draft.bodies import Array, from_sheets
from tapewright.draft.evaluate import evaluate
from tapewright.draft.records import Check
from tapewright.draft.result import Draft
from tapewright.draft.rows import Edge
from tapewright.geometry import distance, end_point, length, start_point, tangent, whole
from tapewright.geometry.tolerance import SEAMS_MATCH
from tapewright.measures import Sheet
from tapewright.plan import Plan

SIDES = ("left", "right")
#: The cosine of the turn at which two edges no longer run on: 45 degrees. Ours, no source.
CORNER = 0.7


@dataclass(frozen=True, slots=True, eq=False)
class TwoSides:
    """A draft of either side, and the checks between them."""

    left: Draft
    right: Draft
    checks: tuple[Check, ...]


def both_sides(plan: Plan, sheet: Sheet) -> TwoSides:
    """Draw a plan for the left and for the right of one wearer."""
    left, right = (evaluate(plan, from_sheets([sheet], plan.measures(), side)) for side in SIDES)
    return TwoSides(left, right, (*_asked(left, right), *_centre_lines(left, right)))


def _asked(left: Draft, right: Draft) -> Iterator[Check]:
    """The claims that something is the same on both sides."""
    for one, other in zip(left.checks(), right.checks(), strict=False):
        if one.relation == "both sides" and one.claim == other.claim:
            difference = one.left - other.left
            holds = np.abs(difference) <= one.within
            yield replace(one, right=other.left, difference=difference, holds=holds)


def _centre_lines(left: Draft, right: Draft) -> Iterator[Check]:
    """The edges that meet in the middle, behind and in front, left against right: as long, and as round."""
    others = {(e.start, e.end): e for e in _in_the_middle(right)}
    for edge in _in_the_middle(left):
        other = others.get((edge.start, edge.end))
        if other is None:
            continue
        one, two = length(edge.drawn), length(other.drawn)
        # Two curves as long as each other are alike when their ends are as far apart, too.
        straight = _apart(edge) - _apart(other)
        off = np.where(np.abs(straight) > np.abs(one - two), straight, one - two)
        within = np.full(one.shape, SEAMS_MATCH)
        yield Check(
            claim=f"the centre line {edge.start}-{edge.end} is the same on both sides",
            left=one, right=two, difference=off, within=within, holds=np.abs(off) <= within,
            angle=False, relation="both sides", sentence=0, source=left.plan.lesson.source.name,
            where=left.plan.lesson.header.span,
        )  # fmt: skip


def _apart(edge: Edge) -> Array:
    return distance(start_point(edge.drawn), end_point(edge.drawn))


def _in_the_middle(draft: Draft) -> Iterator[Edge]:
    """The edges of pieces that lie on the middle of the body, where the draft says which is where.

    No seam takes them up, they stand more upright than level, and of all such they lie farthest out to that
    side of the draft; with each go the like that follow it round its piece.
    """
    sewn = {(e.at.line, *e.at.ends) for seam in draft.seams() for e in (*seam.first, *seam.second)}
    lines = {line for line, *ends in sewn if line >= 0 and ends == ["", ""]}
    rulers = {frozenset(ends) for _, *ends in sewn if ends != ["", ""]}
    found: set[tuple[str, str]] = set()
    for side in set(draft.plan.places.values()):
        way = -1.0 if side == "left" else 1.0
        free = [
            (way * _middle(edge), k, edges)
            for edges in (piece.outline.edges for piece in draft.pieces() if not piece.under)
            for k, edge in enumerate(edges)
            if edge.line not in lines and frozenset((edge.start, edge.end)) not in rulers and _stands(edge)
        ]
        if not free:
            continue
        _, first, edges = max(free, key=lambda f: f[0])
        mine = {k for _, k, whose in free if whose is edges}
        chain = {first}
        for step in (1, -1):
            before, k = first, (first + step) % len(edges)
            while (
                k in mine and k not in chain and _runs_on(edges, *((before, k) if step > 0 else (k, before)))
            ):
                chain.add(k)
                before, k = k, (k + step) % len(edges)
        for k in sorted(chain):
            name = edges[k].start, edges[k].end
            if name not in found:
                found.add(name)
                yield edges[k]


def _runs_on(edges: tuple[Edge, ...], one: int, next_: int) -> bool:
    """Whether an edge goes on in the next without a corner, on the first body: a neckline is no middle."""
    a, b = whole(edges[one].drawn), whole(edges[next_].drawn)
    end, start = tangent(a, a.end), tangent(b, b.start)
    return float(end.dx[0] * start.dx[0] + end.dy[0] * start.dy[0]) > CORNER


def _middle(edge: Edge) -> float:
    """How far across an edge lies, half-way between its ends, on the first body."""
    return float((start_point(edge.drawn).x[0] + end_point(edge.drawn).x[0]) / 2.0)


def _stands(edge: Edge) -> bool:
    """Whether an edge is more upright than level, on the first body."""
    p, q = start_point(edge.drawn), end_point(edge.drawn)
    return abs(float(q.y[0] - p.y[0])) > abs(float(q.x[0] - p.x[0]))

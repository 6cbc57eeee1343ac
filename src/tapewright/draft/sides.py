"""A body with two sides: the half draft drawn twice, and what must agree between left and right.

The centre lines must agree in length, which is checked unasked; `See that ... is the same on both sides`
checks anything else.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from tapewright.draft.bodies import from_sheets
from tapewright.draft.evaluate import evaluate
from tapewright.draft.records import Check
from tapewright.draft.result import Draft
from tapewright.draft.rows import Edge
from tapewright.geometry import length
from tapewright.geometry.tolerance import SEAMS_MATCH
from tapewright.measures import Sheet
from tapewright.plan import Plan

SIDES = ("left", "right")


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
    """The edges that lie on the centre back or the centre front, left against right."""
    others = {(e.start, e.end): e for e in _on_a_centre(right)}
    for edge in _on_a_centre(left):
        other = others.get((edge.start, edge.end))
        if other is None:
            continue
        one, two = length(edge.drawn), length(other.drawn)
        within = np.full(one.shape, SEAMS_MATCH)
        yield Check(
            claim=f"the centre line {edge.start}-{edge.end} is the same on both sides",
            left=one, right=two, difference=one - two, within=within, holds=np.abs(one - two) <= within,
            angle=False, relation="both sides", sentence=0, source=left.plan.lesson.source.name,
            where=left.plan.lesson.header.span,
        )  # fmt: skip


def _on_a_centre(draft: Draft) -> Iterator[Edge]:
    """Edges of pieces that lie upright on the outer sides of the draft, where the centres were put."""
    letters = [(x, name) for name, x, _, _ in draft.points()]
    if not letters or not draft.plan.places:
        return
    sides = {"left": min(x for x, _ in letters), "right": max(x for x, _ in letters)}
    at = {sides[side] for side in draft.plan.places.values()}
    by_name = {name: x for x, name in letters}
    for piece in draft.pieces():
        for edge in piece.outline.edges:
            xs = [by_name.get(edge.start), by_name.get(edge.end)]
            if any(all(x is not None and abs(x - c) <= SEAMS_MATCH for x in xs) for c in at):
                yield edge

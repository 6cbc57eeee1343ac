"""Outlines that cross themselves on one body: asked about when its queries are wanted, for looking takes its time.

Such an outline is drawn all the same, so that it can be seen where it crosses; what was to be cut from it waits.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from tapewright.diagnostics import Query
from tapewright.draft import asking
from tapewright.draft.board import Value
from tapewright.draft.rows import Edge, OutlineRun, some
from tapewright.geometry import crosses_itself, start_point
from tapewright.language.sentences import Outline
from tapewright.plan import Plan
from tapewright.plan.plan import Key, each


def tangled(plan: Plan, made: Mapping[Key, Value], row: int) -> Iterator[Query]:
    """A question for each outline of the plan that crosses itself on a body, with its sentence."""
    for step in each(plan.steps):
        said = step.clause
        if not isinstance(said, Outline):
            continue
        value = made.get(f"name {said.name.name}")
        if value is None or value.sentence != step.sentence:
            continue
        if value.alive is not None and not value.alive[row]:
            continue
        run = value.thing
        if isinstance(run, OutlineRun):
            run = run if value.alive is None and _rows(run) == 1 else some(run, np.array([row]))
            assert isinstance(run, OutlineRun)
            query = _crossing(said, run.edges)
            if query is not None:
                yield query.at(step.source, step.sentence)


def _rows(run: OutlineRun) -> int:
    return int(start_point(run.edges[0].drawn).x.size)


def _crossing(said: Outline, edges: tuple[Edge, ...]) -> Query | None:
    tangle = crosses_itself([edge.drawn for edge in edges])
    if not tangle.crosses[0]:
        return None
    one, other = edges[int(tangle.first[0])], edges[int(tangle.second[0])]
    order = [] if any(run.by is not None for run in said.runs) else _round(edges)
    span = said.start.span.to(said.runs[-1].span)
    return asking.outline_crosses(_said(one), _said(other), order, span)


def _said(edge: Edge) -> str:
    return f"the {edge.name}" if edge.name else f"{edge.start}-{edge.end}"


def _round(edges: tuple[Edge, ...]) -> list[str]:
    """The letters in the order in which they lie round their middle, from the first of them on."""
    places = [start_point(edge.drawn) for edge in edges]
    x = np.array([float(p.x[0]) for p in places])
    y = np.array([float(p.y[0]) for p in places])
    around = np.argsort(np.arctan2(y - y.mean(), x - x.mean()), kind="stable")
    found = [edges[int(k)].start for k in around]
    at = found.index(edges[0].start)
    return found[at:] + found[:at]

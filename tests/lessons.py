"""Small lessons for tests: a head that declares what is needed, and the sentences to try."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from tapewright.diagnostics import Query, Source
from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.language import Lesson, read_lesson
from tapewright.measures import Figure
from tapewright.plan import Plan, build_plan

HEAD = """# A trial
On the half. Drafted net. Taken over: a shift.

## Measures
{measures}

## Tapes
- bust tape: the bust in 48 parts; the usual tape

## By eye
{by_eye}

## The frame
"""

#: The measures of the trial figure, mm: round numbers, no person's.
TRIAL = {"bust": 960.0, "waist": 720.0, "nape to waist": 400.0}


def lesson_text(
    *items: str, measures: Sequence[str] = tuple(TRIAL), by_eye: Sequence[str] = ("ease: 2 in all round",)
) -> str:
    """A lesson of some numbered items."""
    head = HEAD.format(
        measures="\n".join(f"- {m}" for m in measures), by_eye="\n".join(f"- {b}" for b in by_eye)
    )
    return head + "\n".join(f"{i}. {item}" for i, item in enumerate(items, 1)) + "\n"


def read(*items: str, **lists: Sequence[str]) -> Lesson:
    """The tree of a small lesson."""
    return read_lesson(Source("trial.md", lesson_text(*items, **lists)))


def plan(*items: str, **lists: Sequence[str]) -> Plan:
    """The plan of a small lesson."""
    return build_plan(read(*items, **lists))


def draw(
    *items: str,
    values: Mapping[str, float | Sequence[float]] | None = None,
    figure: Figure = Figure.WOMAN,
    **lists: Sequence[str],
) -> Draft:
    """A small lesson drawn for the trial figure, or for the given values (several: so many bodies)."""
    given = {**TRIAL, **(values or {})}
    count = max(len(v) if isinstance(v, Sequence) else 1 for v in given.values())
    arrays = {
        name: np.asarray(v if isinstance(v, Sequence) else [v] * count, dtype=np.float64)
        for name, v in given.items()
    }
    return evaluate(plan(*items, **lists), from_arrays(arrays, figure))


def at(draft: Draft, name: str, row: int = 0) -> tuple[float, float]:
    """Where a letter stands."""
    point = draft.point(name)
    return float(point.x[row]), float(point.y[row])


def names(queries: Sequence[Query]) -> list[str]:
    """The names of queries, in order."""
    return [q.name for q in queries]

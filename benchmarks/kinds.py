"""How long each kind of sentence takes to draw, one clause at a time."""

from __future__ import annotations

import sys
import time
from collections import defaultdict
from collections.abc import Iterable, Iterator
from pathlib import Path

import numpy as np
from tests.handbooks.drafts import drawn_entry, entries

from tapewright.draft import Bodies
from tapewright.draft.amounts import value_of
from tapewright.draft.board import Desk
from tapewright.draft.evaluate import evaluate, run_step
from tapewright.plan import Plan, Step

RUNS = 12
sys.path.insert(0, str(Path(__file__).parent.parent / "docs"))
import fences  # noqa: E402


def drafts() -> Iterator[tuple[Plan, Bodies]]:
    """The drafts whose clauses are timed: those of the handbooks, and the examples of the manual."""
    for entry in entries():
        one = drawn_entry(entry)
        yield one.alone.plan, one.alone.bodies
    text = fences.MANUAL.read_text(encoding="utf-8")
    for example in fences.examples(text):
        if example.fence.kind in {"lesson", "sentences"}:
            found = fences.run(example)
            yield found.draft.plan, found.draft.bodies


def each_kind(subjects: Iterable[tuple[Plan, Bodies]]) -> list[tuple[str, ...]]:
    """Kind, how many clauses, and the ms of the middle and the slowest of them, slowest kind first."""
    found: dict[str, list[float]] = defaultdict(list)
    for plan, bodies in subjects:
        made = dict(evaluate(plan, bodies).outcomes[0].made)
        times: dict[int, list[float]] = defaultdict(list)
        for _ in range(RUNS):
            desk = Desk(plan, bodies, value_of, dict(made))
            for k, step in enumerate(plan.steps):
                began = time.perf_counter()
                outcome = run_step(desk, step)
                times[k].append((time.perf_counter() - began) * 1e3)
                desk.made.update(outcome.made)
        for k, step in enumerate(plan.steps):
            if isinstance(step, Step):
                found[step.clause.kind].append(float(np.median(times[k])))
    rows = sorted(found.items(), key=lambda pair: -max(pair[1]))
    return [(kind, str(len(t)), f"{np.median(t):.3f}", f"{max(t):.3f}") for kind, t in rows]

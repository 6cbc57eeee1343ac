"""How long each kind of sentence takes to draw, one clause at a time."""

from __future__ import annotations

import time
from collections import defaultdict

import numpy as np

from benchmarks.subjects import Subject
from tapewright.draft.amounts import value_of
from tapewright.draft.board import Desk
from tapewright.draft.evaluate import evaluate, run_step
from tapewright.plan import Step

RUNS = 40


def each_kind(subjects: tuple[Subject, ...]) -> list[tuple[str, ...]]:
    """Kind, how many clauses, and the ms of the middle and the slowest of them, slowest kind first."""
    found: dict[str, list[float]] = defaultdict(list)
    for subject in subjects:
        bodies = subject.bodies(1)
        made = dict(evaluate(subject.plan, bodies).outcomes[0].made)
        times: dict[int, list[float]] = defaultdict(list)
        for _ in range(RUNS):
            desk = Desk(subject.plan, bodies, value_of, dict(made))
            for k, step in enumerate(subject.plan.steps):
                began = time.perf_counter()
                outcome = run_step(desk, step)
                times[k].append((time.perf_counter() - began) * 1e3)
                desk.made.update(outcome.made)
        for k, step in enumerate(subject.plan.steps):
            if isinstance(step, Step):
                found[step.clause.kind].append(float(np.median(times[k])))
    rows = sorted(found.items(), key=lambda pair: -max(pair[1]))
    return [(kind, str(len(t)), f"{np.median(t):.3f}", f"{max(t):.3f}") for kind, t in rows]

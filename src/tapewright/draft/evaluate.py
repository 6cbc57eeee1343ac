"""The evaluator: a plan is drawn on bodies, one forward pass.

Steps run in the order of the plan. A step whose things wait is passed over; a branch runs each way on the
rows that go that way; a finding settles its unknown (`solving.py`). A later run with one choice changed
re-runs only the steps that read something changed and takes all else over by identity (`redraw`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np

from tapewright.draft import asking
from tapewright.draft import sentences as _sentences  # noqa: F401 - fills the table of meanings
from tapewright.draft.amounts import value_of
from tapewright.draft.board import SPOT, Board, Desk, Failure, Remark, Value, Waits
from tapewright.draft.bodies import Array, Bodies, Mask
from tapewright.draft.branching import branch
from tapewright.draft.kinds import DRAWS
from tapewright.draft.placed import place
from tapewright.draft.result import Draft, Outcome
from tapewright.draft.rows import same
from tapewright.draft.solving import find
from tapewright.geometry.tolerance import ROUNDING
from tapewright.plan import Branch, Finding, Plan, Step
from tapewright.plan.plan import AnyStep, Key


def evaluate(plan: Plan, bodies: Bodies, chosen: Mapping[str, float | Array] | None = None) -> Draft:
    """Draw a plan on bodies.

    `chosen` gives values by eye outright, in mm (or radians), one for all bodies or `(bodies,)`; a value
    not in it is the lesson's usual one.
    """
    return _run(plan, bodies, _rows(chosen, bodies), None, None)


def redraw(before: Draft, chosen: Mapping[str, float | Array]) -> tuple[Draft, frozenset[Key]]:
    """Draw again with other choices; what does not depend on them is the same object as before.

    Returns the draft and the keys of what changed.
    """
    now = _rows({**before.chosen, **chosen}, before.bodies)
    changed = {f"eye {name}" for name in chosen}
    draft = _run(before.plan, before.bodies, now, before, changed)
    return draft, frozenset(key for key, value in draft.made.items() if before.made.get(key) is not value)


def _rows(chosen: Mapping[str, float | Array] | None, bodies: Bodies) -> dict[str, Array]:
    return {
        name: np.broadcast_to(np.asarray(value, dtype=np.float64), (bodies.count,)).copy()
        for name, value in (chosen or {}).items()
    }


def _run(
    plan: Plan, bodies: Bodies, chosen: dict[str, Array], before: Draft | None, changed: set[Key] | None
) -> Draft:
    desk = Desk(plan, bodies, value_of)
    if before is not None:
        desk.filled.update(before.filled)
    outcomes: list[Outcome] = [_lists(desk, chosen, before, changed)]
    for i, step in enumerate(plan.steps):
        if before is not None and changed is not None:
            old = before.outcomes[i + 1]
            if changed.isdisjoint(step.reads):
                outcomes.append(old)
                desk.made.update(old.made)
                desk.undrawn.update(old.undrawn)
                continue
            new = run_step(desk, step)
            kept = _kept(new, old, changed)
            outcomes.append(kept)
            desk.made.update(kept.made)
            desk.undrawn.update(kept.undrawn)
        else:
            outcome = run_step(desk, step)
            outcomes.append(outcome)
            desk.made.update(outcome.made)
            desk.undrawn.update(outcome.undrawn)
    # Where letters were put on lines is the evaluator's own, kept with the outcomes.
    made = {key: value for key, value in desk.made.items() if not key.startswith(SPOT)}
    return Draft(plan, bodies, made, tuple(outcomes), desk.filled, chosen)


def _kept(new: Outcome, old: Outcome, changed: set[Key]) -> Outcome:
    """The new outcome, with what came out the same taken over; what differs is marked changed."""
    made: dict[Key, Value] = {}
    for key, value in new.made.items():
        was = old.made.get(key)
        if was is not None and _masks_agree(was.alive, value.alive) and same(was.thing, value.thing):
            made[key] = was
        else:
            made[key] = value
            changed.add(key)
    changed.update(key for key in old.made if key not in new.made)
    return Outcome(made, new.records, new.failures, new.remarks, new.undrawn)


def _masks_agree(one: Mask | None, other: Mask | None) -> bool:
    if one is None or other is None:
        return one is other
    return bool((one == other).all())


def run_step(desk: Desk, step: AnyStep) -> Outcome:
    """Draw one step of any sort."""
    if isinstance(step, Step):
        return _draw(desk, step)
    if isinstance(step, Branch):
        return branch(desk, step, run_steps)
    return find(desk, step, run_steps) if isinstance(step, Finding) else place(desk, step, evaluate)


def run_steps(desk: Desk, steps: Iterable[AnyStep]) -> list[Outcome]:
    """Draw several steps on a desk of their own, in order."""
    outcomes = []
    for step in steps:
        outcome = run_step(desk, step)
        desk.made.update(outcome.made)
        desk.undrawn.update(outcome.undrawn)
        outcomes.append(outcome)
    return outcomes


def _draw(desk: Desk, step: Step) -> Outcome:
    board = Board(desk, step.sentence, step.source, step.where, step.lines, step.makes, step.moving)
    try:
        DRAWS[step.clause.kind](step.clause, board)
    except Waits:
        # What was made before the last row was lost is not made: the sentence stands or waits as a whole.
        return Outcome({}, tuple(board.records), tuple(board.failures), tuple(board.remarks))
    alive = None if board.ok is None or np.count_nonzero(board.ok) == board.count else board.ok
    made = {key: Value(thing, step.sentence, alive) for key, thing in board.made.items()}
    return Outcome(made, tuple(board.records), tuple(board.failures), tuple(board.remarks))


def _lists(desk: Desk, chosen: dict[str, Array], before: Draft | None, changed: set[Key] | None) -> Outcome:
    """Tapes and values by eye, as the first outcome of every draft."""
    plan, source = desk.plan, desk.plan.lesson.source.name
    made: dict[Key, Value] = {}
    failures: list[Failure] = []
    remarks: list[Remark] = []
    old = before.outcomes[0] if before is not None else None
    own = [n for n, tape in plan.tapes.items() if not tape.placed]
    for key, name in [(f"tape {n}", n) for n in own] + [(f"eye {n}", n) for n in plan.by_eye]:
        if old is not None and changed is not None and key not in changed:
            if key in old.made:
                made[key] = desk.made[key] = old.made[key]
            continue
        tape, eye = plan.tapes.get(name), plan.by_eye.get(name)
        board = Board(desk, 0, source, (tape or plan.by_eye[name]).where)
        try:
            if key.startswith("tape") and tape is not None:
                value = value_of(board, tape.whole, tape.where)
                _above_nothing(board, name, value)
            elif eye is not None:
                value = chosen[name] if name in chosen else value_of(board, eye.usual, eye.where)
                _in_range(board, name, value)
            else:
                continue
        except Waits:
            failures += board.failures
            continue
        board.put(key, value)
        alive = None if board.ok is None or np.count_nonzero(board.ok) == board.count else board.ok
        made[key] = desk.made[key] = Value(board.made[key], 0, alive)
        failures += board.failures
        remarks += board.remarks
    return Outcome(made, (), tuple(failures), tuple(remarks))


def _above_nothing(board: Board, name: str, whole: Array) -> None:
    """A tape whose whole is nothing or less on a body cannot be read there."""
    tape = board.plan.tapes[name]
    board.fail(
        whole > 0, lambda row: asking.negative(f"The whole of the {name}", float(whole[row]), tape.where)
    )


def _in_range(board: Board, name: str, value: Array) -> None:
    """A caution where a value by eye is beyond the range of its line."""
    eye = board.plan.by_eye[name]
    if eye.low is None or eye.high is None:
        return
    low, high = value_of(board, eye.low, eye.where), value_of(board, eye.high, eye.where)
    board.remark(
        (value < low - ROUNDING) | (value > high + ROUNDING),
        lambda row: asking.out_of_range(
            name, float(value[row]), (float(low[row]), float(high[row])), eye.usual.dimension, eye.where
        ),
    )

"""Settling an unknown: the one thing in a draft that is drawn more than once.

The range is looked over at a few even places for a change of sign, row by row, then narrowed by
Chandrupatla's bracketing method (T. R. Chandrupatla, Advances in Engineering Software 28, 1997). A row
that has settled keeps its answer whatever its neighbours still do, so its bits never depend on them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from tapewright.diagnostics import Query
from tapewright.draft import asking
from tapewright.draft.amounts import value_of
from tapewright.draft.board import Board, Desk, Value, Waits
from tapewright.draft.bodies import Array, Mask
from tapewright.draft.result import Outcome
from tapewright.geometry.tolerance import SETTLED
from tapewright.plan import Finding
from tapewright.plan.plan import AnyStep

Runner = Callable[[Desk, Iterable[AnyStep]], list[Outcome]]

#: Places of the range looked at before narrowing, and the parts looked at more closely where the sign does
#: not change between them; two answers nearer than a twentieth of the range may be missed.
PLACES = 6
CLOSER = 12
MOST_ROUNDS = 80


@dataclass(slots=True)
class _Try:
    """One value of the unknown on every row: by how much the left side is over, and where it can be told.

    `left` is what the left side comes to there.
    """

    x: Array
    over: Array
    ok: Mask
    left: Array


def find(desk: Desk, step: Finding, run: Runner) -> Outcome:
    """Settle the unknown on every row that has an answer, then draw the block with it."""
    board = Board(desk, step.sentence, step.source, step.where)
    try:
        low, high = value_of(board, step.low, step.where), value_of(board, step.high, step.where)
        x, ok = _settle(desk, step, run, board, low, high)
        board.fail(ok, lambda row: asking.never(step.unknown, step.where))
    except Waits:
        return Outcome({}, (), tuple(board.failures), tuple(board.remarks))
    alive = board.ok
    inner = _with(desk, step.unknown, x, alive, step.sentence)
    outcomes = run(inner, step.steps)
    made = {key: value for o in outcomes for key, value in o.made.items()}
    made[f"name {step.unknown}"] = inner.made[f"name {step.unknown}"]
    return Outcome(
        made,
        tuple(r for o in outcomes for r in o.records),
        (*board.failures, *(f for o in outcomes for f in o.failures)),
        (*board.remarks, *(r for o in outcomes for r in o.remarks)),
    )


def _with(desk: Desk, name: str, x: Array, alive: Mask | None, sentence: int) -> Desk:
    if alive is not None and alive.all():
        alive = None
    made = dict(desk.made)
    made[f"name {name}"] = Value(x, sentence, alive)
    return Desk(desk.plan, desk.bodies, desk.reckon, made, desk.filled)


def _settle(
    desk: Desk, step: Finding, run: Runner, board: Board, low: Array, high: Array
) -> tuple[Array, Mask]:
    def attempt(x: Array) -> _Try:
        inner = _with(desk, step.unknown, x, board.ok, step.sentence)
        run(inner, step.steps)
        probe = Board(inner, step.sentence, step.source, step.where)
        try:
            left = value_of(probe, step.left, step.where)
            over = left - value_of(probe, step.right, step.where)
        except Waits:
            nothing = board.constant(0.0)
            return _Try(x, nothing, np.zeros(board.count, dtype=np.bool_), nothing)
        ok = np.ones(board.count, dtype=np.bool_) if probe.ok is None else probe.ok
        return _Try(x, np.where(ok, over, 0.0), ok, np.where(ok, left, 0.0))

    tries = [attempt(low + (high - low) * (k / (PLACES - 1))) for k in range(PLACES)]
    a, b, fa, fb, changes = _bracket(tries, board)
    if (changes == 0).any():
        closer = _look_closer(attempt, tries)
        again = _bracket(closer, board)
        unseen = changes == 0
        a, b, fa, fb, changes = (
            np.where(unseen, new, old) for new, old in zip(again, (a, b, fa, fb, changes), strict=True)
        )
    first, last = tries[0], tries[-1]
    name, span = step.unknown, step.where

    def none(row: int) -> Query:
        ends = [t for t in tries if t.ok[row]]
        if not ends:
            return asking.never(name, span)
        one, two = ends[0], ends[-1]
        whole = one is first and two is last
        return asking.not_found(
            name, step.sides, _at_end(one, row), _at_end(two, row), span,
            whole=whole, dimensions=(step.low.dimension, step.left.dimension),
        )  # fmt: skip

    board.fail(changes > 0, none)
    board.fail(changes < 2, lambda row: asking.found_twice(name, span))
    return _narrow(attempt, a, b, fa, fb)


def _at_end(end: _Try, row: int) -> tuple[float, float, float]:
    """The unknown on one row, and what the two sides come to there."""
    return float(end.x[row]), float(end.left[row]), float(end.left[row] - end.over[row])


def _look_closer(attempt: Callable[[Array], _Try], tries: list[_Try]) -> list[_Try]:
    """More places round the one that came nearest: two answers may lie close together there."""
    over = np.stack([np.where(t.ok, np.abs(t.over), np.inf) for t in tries])
    nearest = np.argmin(over, axis=0)
    x = np.stack([t.x for t in tries])
    rows = np.arange(x.shape[1])
    low = x[np.maximum(nearest - 1, 0), rows]
    high = x[np.minimum(nearest + 1, len(tries) - 1), rows]
    return [attempt(low + (high - low) * (k / CLOSER)) for k in range(CLOSER + 1)]


def _bracket(tries: list[_Try], board: Board) -> tuple[Array, Array, Array, Array, Array]:
    """The first places between which the sign changes, row by row, and how often it changes."""
    a, b = tries[0].x, tries[-1].x
    fa, fb = tries[0].over, tries[-1].over
    changes = board.constant(0.0)
    for one, two in pairwise(tries):
        here = one.ok & two.ok & (one.over != 0.0) & (np.sign(one.over) != np.sign(two.over))
        here |= one.ok & (one.over == 0.0) & (changes == 0)
        first = here & (changes == 0)
        a, b = np.where(first, one.x, a), np.where(first, two.x, b)
        fa, fb = np.where(first, one.over, fa), np.where(first, two.over, fb)
        changes = changes + here
    return a, b, fa, fb, changes


def _narrow(attempt: Callable[[Array], _Try], a: Array, b: Array, fa: Array, fb: Array) -> tuple[Array, Mask]:
    """Chandrupatla's method on rows; a settled row keeps its answer."""
    ok = np.ones(a.shape, dtype=np.bool_)
    answer = np.where(np.abs(fa) < np.abs(fb), a, b)
    done = (fa == 0.0) | (fb == 0.0) | (fa * fb > 0.0)
    c, fc = a, fa
    t = np.full(a.shape, 0.5)
    for _ in range(MOST_ROUNDS):
        if done.all():
            break
        x = np.where(done, answer, a + t * (b - a))
        tried = attempt(x)
        ok &= tried.ok | done
        fx = np.where(done, 0.0, tried.over)
        same = np.sign(fx) == np.sign(fa)
        c, fc = np.where(done, c, np.where(same, a, b)), np.where(done, fc, np.where(same, fa, fb))
        b, fb = np.where(done | same, b, a), np.where(done | same, fb, fa)
        a, fa = np.where(done, a, x), np.where(done, fa, fx)
        best = np.where(np.abs(fa) < np.abs(fb), a, b)
        answer = np.where(done, answer, best)
        wide = np.abs(b - a)
        settled = (wide <= SETTLED) | (fa == 0.0) | ~tried.ok
        done = done | settled
        t = _next(a, b, c, fa, fb, fc, wide)
    return answer, ok


def _next(a: Array, b: Array, c: Array, fa: Array, fb: Array, fc: Array, wide: Array) -> Array:
    """The next place within the bracket: inverse quadratic where it is safe, else the middle."""

    def apart(one: Array, other: Array) -> tuple[Array, Mask]:
        gap = one - other
        return np.where(gap != 0.0, gap, 1.0), gap != 0.0

    (cb, ok1), (ba, ok2), (fcb, ok3), (fba, ok4), (fca, ok5) = (
        apart(c, b), apart(b, a), apart(fc, fb), apart(fb, fa), apart(fc, fa),
    )  # fmt: skip
    xi, phi = (a - b) / cb, (fa - fb) / fcb
    safe = (phi * phi < xi) & ((1.0 - phi) * (1.0 - phi) < 1.0 - xi) & ok1 & ok2 & ok3 & ok4 & ok5
    t = fa / fba * fc / -fcb + (c - a) / ba * fa / fca * fb / fcb
    least = np.minimum(SETTLED / np.where(wide > 0.0, wide, 1.0), 0.5)
    return np.clip(np.where(safe, t, 0.5), least, 1.0 - least)

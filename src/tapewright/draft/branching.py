"""A conditional sentence: the rows are split by its outcome, each part runs straight through, and what
either branch made is put together by name."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import numpy as np

from tapewright.draft.amounts import value_of
from tapewright.draft.board import Board, Desk, Failure, Remark, Value, Waits
from tapewright.draft.bodies import Array, Mask, Rows
from tapewright.draft.records import Check
from tapewright.draft.result import Outcome
from tapewright.draft.rows import Thing, some, together
from tapewright.geometry.tolerance import ROUNDING
from tapewright.plan import Branch
from tapewright.plan.plan import AnyStep, Comparison, Key

Runner = Callable[[Desk, Iterable[AnyStep]], list[Outcome]]


def holds(relation: str, left: Array, right: Array) -> Mask:
    """Whether a comparison holds, `(bodies,)`; an amount exactly at its bound is not lost to rounding."""
    match relation:
        case "at least":
            return np.greater_equal(left, right - ROUNDING)
        case "at most":
            return np.less_equal(left, right + ROUNDING)
        case "more than":
            return np.greater(left, right + ROUNDING)
        case "less than":
            return np.less(left, right - ROUNDING)
        case _:
            return np.less_equal(np.abs(left - right), ROUNDING)


def branch(desk: Desk, step: Branch, run: Runner) -> Outcome:
    """Draw a conditional."""
    board = Board(desk, step.sentence, step.source, step.where)
    try:
        outcome = _decide(board, step.condition)
    except Waits:
        return Outcome({}, (), tuple(board.failures), tuple(board.remarks))
    living = np.ones(board.count, dtype=np.bool_) if board.ok is None else board.ok
    parts = [
        (np.flatnonzero(living & outcome), step.then),
        (np.flatnonzero(living & ~outcome), step.otherwise),
    ]
    failures, remarks = list(board.failures), list(board.remarks)
    records: list[object] = []
    found: dict[Key, list[tuple[Value, Rows]]] = {}
    for rows, steps in parts:
        if not len(rows):
            continue
        part = Desk(desk.plan, desk.bodies.some(rows), desk.reckon, _some(desk.made, rows))
        for result in run(part, steps):
            for key, value in result.made.items():
                found.setdefault(key, []).append((value, rows))
            failures += [_spread_failure(f, rows, board.count) for f in result.failures]
            remarks += [_spread_remark(r, rows, board.count) for r in result.remarks]
            records += [_spread_check(r, rows, board.count) for r in result.records]
        for name, mask in part.filled.items():
            full = desk.filled.setdefault(name, np.zeros(board.count, dtype=np.bool_))
            full[rows] |= mask
    for one, other in step.twins:
        both = found.pop(f"line {one}", []) + found.pop(f"line {other}", [])
        if both:
            found[f"line {one}"] = found[f"line {other}"] = both
    made = {key: _merged(pieces, living, board.count, step.sentence) for key, pieces in found.items()}
    # What only the other branch would have drawn: whoever uses it is told so.
    made_by = {k for s in (*step.then, *step.otherwise) for k in s.makes}
    taken = [s for rows, steps in parts if len(rows) for s in steps]
    undrawn = dict.fromkeys(made_by - {k for s in taken for k in s.makes}, step.sentence)
    return Outcome(made, tuple(records), tuple(failures), tuple(remarks), undrawn)


def _decide(board: Board, condition: Comparison) -> Mask:
    left = value_of(board, condition.left, board.where)
    right = value_of(board, condition.right, board.where)
    return holds(condition.relation, left, right)


def _some(made: dict[Key, Value], rows: Rows) -> dict[Key, Value]:
    """Everything made so far, on some rows; things with no living row among them are left out."""
    out: dict[Key, Value] = {}
    for key, value in made.items():
        alive = None if value.alive is None else value.alive[rows]
        if alive is not None and not alive.any():
            continue
        absent = None if value.absent is None else value.absent[rows]
        if alive is not None and alive.all():
            alive = None
        out[key] = Value(some(value.thing, rows), value.sentence, alive, absent)
    return out


def _merged(pieces: list[tuple[Value, Rows]], living: Mask, count: int, sentence: int) -> Value:
    things: list[tuple[Thing, Rows]] = [(value.thing, rows) for value, rows in pieces]
    alive = np.zeros(count, dtype=np.bool_)
    drawn = np.zeros(count, dtype=np.bool_)
    for value, rows in pieces:
        drawn[rows] = True
        alive[rows] = True if value.alive is None else value.alive
    absent = living & ~drawn
    return Value(
        together(things, count),
        sentence,
        None if alive.all() else alive,
        absent if absent.any() else None,
    )


def _full(mask: Mask, rows: Rows, count: int) -> Mask:
    out = np.zeros(count, dtype=np.bool_)
    out[rows] = mask
    return out


def _spread_failure(f: Failure, rows: Rows, count: int) -> Failure:
    place = {int(r): i for i, r in enumerate(rows)}
    return Failure(f.sentence, f.source, _full(f.rows, rows, count), lambda row: f.word(place[row]))


def _spread_remark(r: Remark, rows: Rows, count: int) -> Remark:
    place = {int(x): i for i, x in enumerate(rows)}
    return Remark(r.sentence, r.source, _full(r.rows, rows, count), lambda row: r.word(place[row]))


def _spread_check(record: object, rows: Rows, count: int) -> object:
    """A check made on some rows, on all: it holds where it was not made."""
    if not isinstance(record, Check):
        return record
    zero = np.zeros(count)

    def full(a: Array) -> Array:
        out = zero.copy()
        out[rows] = a
        return out

    held = np.ones(count, dtype=np.bool_)
    held[rows] = record.holds
    return Check(
        record.claim, full(record.left), full(record.right), full(record.difference), full(record.within),
        held, record.angle, record.relation, record.sentence, record.source, record.where,
    )  # fmt: skip

"""A draft that another begins from: drawn whole, and its things handed on under the outer draft's keys."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy as np

from tapewright.draft.amounts import value_of
from tapewright.draft.board import Board, Desk, Value, Waits
from tapewright.draft.bodies import Array, Bodies, Mask
from tapewright.draft.result import Draft, Outcome
from tapewright.draft.rows import OutlineRun, Thing
from tapewright.plan import Plan
from tapewright.plan.plan import Key, Place

Drawer = Callable[[Plan, Bodies, Mapping[str, Array]], Draft]


def place(desk: Desk, step: Place, draw: Drawer) -> Outcome:
    """Draw the placed draft on the same bodies.

    Its questions are handed on, since what rests on them waits here too, and its letters stand for the same
    places of the body. Its pieces, seams and marks are not
    cut again, and what its checks come to belongs to it and not to the draft begun from it.
    """
    board = Board(desk, step.sentence, step.source, step.where)
    try:
        chosen = {name: value_of(board, form, step.where) for name, form in step.chosen.items()}
    except Waits:
        return Outcome({}, (), tuple(board.failures), tuple(board.remarks))
    inner = draw(step.plan, desk.bodies, chosen)
    for name, rows in inner.filled.items():
        desk.filled[name] = desk.filled.get(name, np.zeros(board.count, dtype=np.bool_)) | rows
    made: dict[Key, Value] = {}
    for key, value in inner.made.items():
        for outer in _keys(key, step):
            made[outer] = _value(value, step, board.ok)
    for name, shape in step.plan.outlines.items():
        if shape.key in inner.made:
            made[f"name {name}"] = _value(inner.made[shape.key], step, board.ok)
    failures = (*board.failures, *inner.failures())
    return Outcome(made, inner.landmarks(), failures, tuple(board.remarks))


def _keys(key: Key, step: Place) -> list[Key]:
    """Under which keys an inner thing is known here."""
    sort, name = key.split(" ", 1)
    match sort:
        case "line":
            return [f"line {step.offset + int(name)}"]
        case "point":
            return [key, f"point {step.name}'s {name}"] if step.name else [key]
        case "eye":
            return [f"name {name}"]
        case "moved":
            return []
        case _:
            return [key]


def _value(value: Value, step: Place, ok: Mask | None) -> Value:
    alive = value.alive
    if ok is not None:
        alive = ok if alive is None else alive & ok
    return replace(value, thing=_shifted(value.thing, step.offset), sentence=step.sentence, alive=alive)


def _shifted(thing: Thing, offset: int) -> Thing:
    """An outline's edges with their lines counted as they are counted here."""
    if not isinstance(thing, OutlineRun):
        return thing
    edges = tuple(replace(e, line=e.line + offset) if e.line >= 0 else e for e in thing.edges)
    return OutlineRun(edges)

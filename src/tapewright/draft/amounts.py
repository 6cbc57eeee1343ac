"""The value of a bound amount on rows: exact coefficients, summed in the order of the form."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import pi
from typing import Any

import numpy as np

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import Board, Waits
from tapewright.draft.bodies import Array, Mask
from tapewright.draft.on_line import along_between, line_length
from tapewright.draft.tables import look_up
from tapewright.geometry import corner, distance
from tapewright.measures import Figure, key_of
from tapewright.plan.form import (
    AlongBase,
    Base,
    Bounded,
    CornerBase,
    Dimension,
    EyeBase,
    Form,
    Linear,
    LineBase,
    MeasureBase,
    NamedBase,
    NestedBase,
    SpanBase,
    TableLookup,
    Taken,
    TapeBase,
    bases,
)

_RADIANS = pi / 180


def value_of(board: Board, form: Form, span: Span) -> Array:
    """A form's value, `(bodies,)`, in mm or radians; rows that lack something it needs stop."""
    if isinstance(form, Linear):
        start, terms = _numbers(board, form)
        if not terms:
            return board.constant(start)
        total: Array | None = board.constant(start) if start else None
        for base, factor in terms:
            value = _BASES[type(base)](board, base, span)
            if factor != 1.0:
                value = value * factor
            total = value if total is None else total + value
        assert total is not None
        return total
    return _taken(board, form, span) if isinstance(form, Taken) else _bounded(board, form, span)


def _numbers(board: Board, form: Linear) -> tuple[float, tuple[tuple[Base, float], ...]]:
    """A form's constant and factors as the floats that they are drawn with, found once for all drawings."""
    kept = board.desk.plan.numbers.get(id(form))
    if kept is None:
        unit = _RADIANS if form.dimension is Dimension.ANGLE else 1.0
        terms = tuple((base, float(factor)) for base, factor in form.terms)
        # The form is kept with them, so that no other can come to stand under its number.
        kept = board.desk.plan.numbers[id(form)] = (form, float(form.constant) * unit, terms)
    return kept[1], kept[2]


def _span(board: Board, base: SpanBase, span: Span) -> Array:
    return distance(board.point(base.a), board.point(base.b))


def _corner(board: Board, base: CornerBase, span: Span) -> Array:
    a, b, c = base.a, base.b, base.c
    found = corner(board.point(a), board.point(b), board.point(c))
    board.fail(found.ok, lambda row: asking.flat_corner(f"{a}-{b}-{c}", span))
    return found.value


def _looked_up(board: Board, base: TableLookup, span: Span) -> Array:
    table = next(t for t in board.plan.lesson.tables if t.name == base.table)
    return look_up(board, table, base.column, value_of(board, base.by, span), span)


#: How the value of each sort of base is found.
_BASES: dict[type[Base], Callable[[Board, Any, Span], Array]] = {
    MeasureBase: lambda board, base, span: _measure(board, base.name, span),
    TapeBase: lambda board, base, span: board.number(f"tape {base.name}"),
    EyeBase: lambda board, base, span: board.number(f"eye {base.name}"),
    NamedBase: lambda board, base, span: board.number(f"name {base.name}"),
    SpanBase: _span,
    LineBase: lambda board, base, span: line_length(board, base.line),
    AlongBase: lambda board, base, span: along_between(board, base.line, base.a, base.b, span),
    CornerBase: _corner,
    NestedBase: lambda board, base, span: value_of(board, base.form, span),
    TableLookup: _looked_up,
}


def _measure(board: Board, name: str, span: Span) -> Array:
    """A measure of the sheet; asked about where it was not taken, or where the word is not the figure's."""
    bodies = board.bodies
    if name in bodies.waiting:
        raise Waits
    if (word := key_of(name)) in {"chest", "bust"}:
        other = Figure.WOMAN if word == "chest" else Figure.MAN
        clear = np.array([figure is not other for figure in bodies.figures], dtype=np.bool_)
        board.fail(clear, lambda row: asking.bust_or_chest(bodies, word, row, span))
    taken = bodies.taken.get(name)
    if taken is None:
        taken = np.zeros(bodies.count, dtype=np.bool_)
    if not taken.all():
        board.fail(taken, lambda row: asking.not_taken(board.plan, name, span))
    return bodies.values[name]


def _taken(board: Board, form: Taken, span: Span) -> Array:
    """The measured value where its measures were taken, the filled one elsewhere."""
    bodies = board.bodies
    names = [b.name for b in bases(form.first) if isinstance(b, MeasureBase)]
    mask: Mask = np.ones(bodies.count, dtype=np.bool_)
    for name in names:
        mask = mask & bodies.taken.get(name, np.zeros(bodies.count, dtype=np.bool_))
        if name in bodies.waiting:
            raise Waits
    if mask.all():
        return value_of(board, form.first, span)
    for name in names:
        not_there = ~bodies.taken.get(name, np.zeros(bodies.count, dtype=np.bool_))
        board.desk.filled[name] = (
            board.desk.filled.get(name, np.zeros(bodies.count, dtype=np.bool_)) | not_there
        )
    if not np.count_nonzero(mask):
        return value_of(board, form.otherwise, span)
    first, first_ok = _apart(board, form.first, span, mask)
    other, other_ok = _apart(board, form.otherwise, span, ~mask)
    board.need(np.where(mask, first_ok, other_ok))
    return np.where(mask, first, other)


def _apart(board: Board, form: Form, span: Span, rows: Mask) -> tuple[Array, Mask]:
    """A form's value where only `rows` matter: rows it lacks elsewhere do not stop the sentence."""
    inner = Board(board.desk, board.sentence, board.source, board.where)
    inner.ok = rows
    try:
        value = value_of(inner, form, span)
    except Waits:
        board.failures += inner.failures
        return board.constant(0.0), np.zeros(board.count, dtype=np.bool_)
    board.failures += inner.failures
    board.remarks += inner.remarks
    return value, inner.ok


def _bounded(board: Board, form: Bounded, span: Span) -> Array:
    """A value held within its limits; a note tells where a limit other than nothing bites."""
    value = value_of(board, form.form, span)
    free, kind = value, form.dimension
    if form.most is not None:
        most = value_of(board, form.most, span)
        board.remark(value > most, lambda row: asking.limit_bites(free[row], most[row], "more", kind, span))
        value = np.minimum(value, most)
    if form.least is not None:
        least = value_of(board, form.least, span)
        bites = (value < least) & (least != 0.0)
        board.remark(bites, lambda row: asking.limit_bites(free[row], least[row], "less", kind, span))
        value = np.maximum(value, least)
    return value


def exact(form: Form, known: dict[str, Fraction]) -> Fraction | None:
    """A linear form's exact value, given the exact value of each base by its name; None if one is missing.

    Bases are named as in a plan's keys without their sort: `bust`, `breast tape`.
    """
    if not isinstance(form, Linear):
        return None
    total = form.constant
    for base, factor in form.terms:
        value = known.get(getattr(base, "name", ""))
        if value is None:
            return None
        total += factor * value
    return total

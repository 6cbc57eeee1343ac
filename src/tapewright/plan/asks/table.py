"""The table of what kinds of sentence ask of themselves: one short function a kind."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeVar

from tapewright.diagnostics import Query
from tapewright.language.clause import Clause
from tapewright.plan.scope import Scope

C = TypeVar("C", bound=Clause)
Asker = Callable[[Clause, Scope], Iterator[Query]]

ASKS: dict[str, Asker] = {}


def asks(
    kind: type[C],
) -> Callable[[Callable[[C, Scope], Iterator[Query]]], Callable[[C, Scope], Iterator[Query]]]:
    """Enter a function under its kind of sentence."""

    def enter(function: Callable[[C, Scope], Iterator[Query]]) -> Callable[[C, Scope], Iterator[Query]]:
        ASKS[kind.kind] = function  # type: ignore[assignment]
        return function

    return enter


def ask_about(clause: Clause, scope: Scope) -> list[Query]:
    """All that a clause asks of itself."""
    asker = ASKS.get(clause.kind)
    return [] if asker is None else list(asker(clause, scope))

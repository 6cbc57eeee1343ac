"""The table of meanings: which function draws which kind of clause."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from tapewright.draft.board import Board
from tapewright.language.clause import Clause

C = TypeVar("C", bound=Clause)
Drawing = Callable[[Any, Board], None]

DRAWS: dict[str, Drawing] = {}


def draws(kind: type[C]) -> Callable[[Callable[[C, Board], None]], Callable[[C, Board], None]]:
    """Enter a function under the kind of clause that it draws."""

    def enter(function: Callable[[C, Board], None]) -> Callable[[C, Board], None]:
        if kind.kind in DRAWS:
            raise ValueError(f"two functions draw a {kind.kind}")
        DRAWS[kind.kind] = function
        return function

    return enter

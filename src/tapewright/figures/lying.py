"""Where each measure's tape lies on the line figures, from `lies.csv`, whose head explains its columns."""

from __future__ import annotations

import csv
from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import TypeAlias

Place: TypeAlias = tuple[float, float]
_MIDDLE = 1.5


class View(StrEnum):
    """The three figures."""

    FRONT = "front"
    BACK = "back"
    SIDE = "side"


@dataclass(frozen=True, slots=True)
class Lie:
    """How one measure's tape lies on one figure, in the figure's units.

    `sort` is band (a tape on the body), rod (straight: a plumb, a gap) or angle (arm, corner, arm). `over`
    is where it is seen; `behind` where it goes on unseen, or the level it is taken at.
    """

    measure: str
    view: View
    sort: str
    over: tuple[Place, ...]
    behind: tuple[Place, ...] = ()

    @property
    def ends(self) -> tuple[Place, Place]:
        """The two ends of what is seen."""
        return self.over[0], self.over[-1]


def _places(text: str) -> tuple[Place, ...]:
    pairs = (pair.split(",") for pair in text.split())
    return tuple((float(x), float(y)) for x, y in pairs)


@cache
def _lies() -> MappingProxyType[str, tuple[Lie, ...]]:
    text = (files("tapewright.figures") / "lies.csv").read_text(encoding="utf-8")
    found: dict[str, tuple[Lie, ...]] = {}
    for row in csv.DictReader(line for line in text.splitlines() if not line.startswith("#")):
        if row["lies"] not in {"band", "rod", "angle"}:
            raise ValueError(f"lies: {row['measure']}: no such way to lie: {row['lies']}")
        lie = Lie(
            row["measure"], View(row["view"]), row["lies"], _places(row["over"]), _places(row["behind"])
        )
        found[lie.measure] = (*found.get(lie.measure, ()), lie)
    return MappingProxyType(found)


def lies_of(measure: str) -> tuple[Lie, ...]:
    """Every way a measure is shown, the first the one to choose; none for the weight and for unknown names."""
    return _lies().get(measure, ())


def on_side(lie: Lie, side: str) -> Lie:
    """The tape on the wearer's own `left` or `right`: from the front the left is at the right of the figure.

    Tapes of the middle, of the side view and of no side stay where they are.
    """
    middle = sum(x for x, _ in lie.over) / len(lie.over)
    if side not in {"left", "right"} or lie.view is View.SIDE or abs(middle) < _MIDDLE:
        return lie
    wanted = 1 if (side == "left") == (lie.view is View.FRONT) else -1
    if middle * wanted > 0:
        return lie
    return replace(
        lie, over=tuple((-x, y) for x, y in lie.over), behind=tuple((-x, y) for x, y in lie.behind)
    )


def shown_on(measures: Iterable[str]) -> dict[View, list[Lie]]:
    """The measures by the figure each is shown on, in the order given; figures without any are left out."""
    found: dict[View, list[Lie]] = {}
    for name in measures:
        for lie in lies_of(name)[:1]:
            found.setdefault(lie.view, []).append(lie)
    return {view: found[view] for view in View if view in found}

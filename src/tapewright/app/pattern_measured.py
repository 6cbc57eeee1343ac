"""The pattern's measures beside the sheet's: what the paper comes to, what was taken, what ease was meant."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from tapewright.app.account import PLACES
from tapewright.draft import Draft
from tapewright.measures import Sheet
from tapewright.pieces import Pattern
from tapewright.pieces.measured import GIRTHS, Measured, measure_pattern
from tapewright.units import show_length


@dataclass(frozen=True, slots=True)
class Beside:
    """One measure: on the sheet and on the pattern, mm; the ease that the lesson states for it, None if none.

    `side` names the half it is of, where left and right were drawn.
    """

    found: Measured
    sheet: float | None
    ease: float | None
    side: str = ""

    @property
    def over(self) -> float | None:
        """By how much the pattern is more than the measure, mm."""
        if self.found.found is None or self.sheet is None:
            return None
        return self.found.found - self.sheet

    def words(self) -> str:
        """A line of a table."""
        name = f"{self.side} {self.found.measure}".strip()
        if self.found.found is None:
            return f"{name}: not on the pieces; {self.found.how}."
        said = f"{name}: {show_length(self.found.found)} on the pattern"
        if self.sheet is not None:
            said += f", {show_length(self.sheet)} on the sheet"
            said += f", {show_length(self.over or 0.0, signed=True)}"
        if self.ease is not None:
            said += f"; ease {show_length(self.ease)}"
        if abs(self.found.over) > 1.0:
            said += f"; lap of {show_length(self.found.over)} counted off"
        return f"{said} ({self.found.how})."

    def data(self) -> dict[str, Any]:
        """The same as plain data, mm."""

        def kept(value: float | None) -> float | None:
            return None if value is None else round(value, PLACES) + 0.0

        return {
            "measure": self.found.measure,
            **({"side": self.side} if self.side else {}),
            "pattern": kept(self.found.found),
            "sheet": kept(self.sheet),
            "ease": kept(self.ease),
            "over": kept(self.over),
            "lap": kept(self.found.over),
            "how": self.found.how,
            "parts": {name: kept(value) for name, value in self.found.parts},
        }


def beside(patterns: tuple[tuple[str, Pattern], ...], sheet: Sheet | None) -> tuple[Beside, ...]:
    """Every measure that the pieces can show; of two sides drawn, what goes round the body is of both together."""
    if len(patterns) == 2:
        return tuple(_of_both(patterns, sheet))
    return tuple(
        _beside(one, sheet, pattern.draft, side)
        for side, pattern in patterns
        for one in measure_pattern(pattern)
    )


#: Measures that both sides have a half of; all others each side has for itself.
_SHARED = (*GIRTHS, "cross back", "cross front", "neck base", "neck opening", "bust point to bust point")


def _of_both(patterns: tuple[tuple[str, Pattern], ...], sheet: Sheet | None) -> list[Beside]:
    (one, left), (other, right) = patterns
    halves = measure_pattern(left), measure_pattern(right)
    made: list[Beside] = []
    for a, b in zip(*halves, strict=False):
        if a.measure == b.measure and a.measure in _SHARED and a.found is not None and b.found is not None:
            both = Measured(
                a.measure, (a.found + b.found) / 2.0, f"{a.how}, both sides", a.parts + b.parts, a.over
            )
            made.append(_beside(both, sheet, left.draft, ""))
        else:
            made += [_beside(a, sheet, left.draft, one), _beside(b, sheet, right.draft, other)]
    return made


def _beside(one: Measured, sheet: Sheet | None, draft: Draft, side: str) -> Beside:
    taken = None if sheet is None else sheet.number(one.measure, side or None)
    return Beside(one, taken, stated_ease(draft, one.measure), side)


def stated_ease(draft: Draft, measure: str) -> float | None:
    """The ease all round that a lesson states for a girth, mm: by the measure's own name, else its only one."""
    if measure not in GIRTHS:
        return None
    eases = [name for name, eye in draft.plan.by_eye.items() if name.endswith("ease") and eye.share]
    own = f"{measure} ease"
    name = own if own in eases else eases[0] if len(eases) == 1 else None
    if name is None or not draft.alive(f"eye {name}"):
        return None
    return float(np.asarray(draft.made[f"eye {name}"].thing)[0])

"""Scyes and necks: the armhole against the arm that goes through it, the neck against the neck."""

from __future__ import annotations

from collections.abc import Iterator

from tapewright.diagnostics import Query, caution
from tapewright.pieces import Pattern
from tapewright.pieces.measured import measure_pattern
from tapewright.units import show_length

#: How much rounder than the upper arm a scye is at the least, mm: two fingers. Common practice, no source.
LEAST = 40.0


def look_at_scyes(pattern: Pattern, row: int) -> Iterator[Query]:
    """A scye that the upper arm hardly goes through; a neck that is smaller than the neck."""
    arm, neck = _taken(pattern, "upper arm", row), _taken(pattern, "neck base", row)
    if arm is None and neck is None:
        return
    for one in measure_pattern(pattern, row):
        if neck is not None and one.measure == "neck base" and one.found is not None and one.found < neck:
            yield caution(
                "neck-too-small",
                f"The neck of the pattern is {show_length(one.found)} round, the wearer's {show_length(neck)}.",
                help="Lower it in front, or widen it. What is sewn too small at the neck cannot be let out.",
            ).at(pattern.draft.plan.lesson.source.name)
        if arm is None:
            continue
        if one.measure == "scye girth" and one.found is not None and one.found < arm + LEAST:
            yield caution(
                "scye-and-arm",
                f"The scye is {show_length(one.found)} round and the upper arm {show_length(arm)}; "
                f"{show_length(LEAST)} more than the arm is the least.",
                help="Lower the scye, or hollow it more in front.",
            ).at(pattern.draft.plan.lesson.source.name)


def _taken(pattern: Pattern, measure: str, row: int) -> float | None:
    """A measure of the wearer, mm, if it was taken."""
    bodies = pattern.draft.bodies
    if measure not in bodies.values or not bool(bodies.taken[measure][row]):
        return None
    return float(bodies.values[measure][row])

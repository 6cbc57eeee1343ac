"""Scyes: the armhole against the arm that goes through it."""

from __future__ import annotations

from collections.abc import Iterator

from tapewright.diagnostics import Query, caution
from tapewright.pieces import Pattern
from tapewright.pieces.measured import measure_pattern
from tapewright.units import show_length

#: How much rounder than the upper arm a scye is at the least, mm: two fingers. Common practice, no source.
LEAST = 40.0


def look_at_scyes(pattern: Pattern, row: int) -> Iterator[Query]:
    """A scye that the upper arm hardly goes through."""
    bodies = pattern.draft.bodies
    if "upper arm" not in bodies.values or not bool(bodies.taken["upper arm"][row]):
        return
    arm = float(bodies.values["upper arm"][row])
    for one in measure_pattern(pattern, row):
        if one.measure == "scye girth" and one.found is not None and one.found < arm + LEAST:
            yield caution(
                "scye-and-arm",
                f"The scye is {show_length(one.found)} round and the upper arm {show_length(arm)}; "
                f"{show_length(LEAST)} more than the arm is the least.",
                help="Lower the scye, or hollow it more in front.",
            ).at(pattern.draft.plan.lesson.source.name)

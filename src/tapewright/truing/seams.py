"""Seams: both edges by the tape on the net line, as asked, and from mark to mark."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tapewright.diagnostics import Query, note
from tapewright.geometry import Stretch, length, nearest
from tapewright.geometry.tolerance import OFFSET_AGREES
from tapewright.pieces import Notch, Pattern, PatternSeam, SeamSide
from tapewright.truing.words import called, capital
from tapewright.units import show_length

#: What a seam may differ by before it is to be trued, mm (design, section 9).
ALLOWED = 0.5


@dataclass(frozen=True, slots=True)
class SeamRow:
    """A seam of one body: its two sides by name and length, mm; what is eased, how and by how much; what is off.

    `between` are the stretches from one balance mark to the next on both sides, where both have as many marks.
    """

    first: str
    second: str
    one: float
    other: float
    how: str
    eased: str
    by: float
    off: float
    between: tuple[tuple[float, float], ...]
    sentence: int

    @property
    def verdict(self) -> str:
        """Equal, eased (gathered, stretched), or to true."""
        if abs(self.off) > ALLOWED:
            return "to true"
        return {
            "easing": "eased",
            "gathering": "gathered",
            "pleating": "pleated",
            "stretching": "stretched",
        }.get(self.how, "equal")


def seam_rows(pattern: Pattern, row: int = 0) -> tuple[SeamRow, ...]:
    """Every seam of one body's pattern."""
    return tuple(_row(pattern, seam, row) for seam in pattern.seams)


def _row(pattern: Pattern, seam: PatternSeam, row: int) -> SeamRow:
    one, other = float(seam.first.length[row]), float(seam.second.length[row])
    by = 0.0 if seam.said.by is None else float(seam.said.by[row])
    longer = seam.said.eased in seam.first.names
    wanted = by if longer == (seam.said.how != "stretching") else -by
    marks = _stops(pattern, seam.first, row), _stops(pattern, seam.second, row)
    between: tuple[tuple[float, float], ...] = ()
    if len(marks[0]) == len(marks[1]) > 0:
        ends = [0.0, *marks[0], one], [0.0, *marks[1], other]
        between = tuple(
            (ends[0][k + 1] - ends[0][k], ends[1][k + 1] - ends[1][k]) for k in range(len(ends[0]) - 1)
        )
    return SeamRow(
        " and ".join(seam.first.names),
        " and ".join(seam.second.names),
        one,
        other,
        seam.said.how,
        seam.said.eased,
        by,
        one - other - (wanted if seam.said.how else 0.0),
        between,
        seam.said.sentence,
    )


def _stops(pattern: Pattern, side: SeamSide, row: int) -> list[float]:
    """How far along a side its balance marks stand, mm, in order; marks at its very ends are left out."""
    found = []
    far = 0.0
    for part in side.parts:
        found += [
            far + _along(part.run, notch, row)
            for notch in pattern.notches
            if (notch.piece, notch.edge) == (part.piece, part.edge)
        ]
        far += float(part.length[row])
    return sorted(p for p in set(found) if OFFSET_AGREES < p < far - OFFSET_AGREES)


def _along(run: Stretch, notch: Notch, row: int) -> float:
    spot = nearest(run, notch.at)
    return float(length(Stretch(run.curve, run.start, spot.t))[row])


def seam_words(row: SeamRow) -> str:
    """A line of a table, in the words that a maker uses."""
    said = f"{row.first} to {row.second}: {show_length(row.one)} and {show_length(row.other)}"
    if row.verdict == "to true":
        return f"{said}; {show_length(abs(row.off))} is over, to be trued"
    if row.how:
        return f"{said}; the {row.eased} {row.verdict} by {show_length(row.by)}"
    return f"{said}; equal"


def look_at_seams(pattern: Pattern, row: int) -> Iterator[Query]:
    """Edges that are sewn and belong to no piece."""
    for seam in pattern.seams:
        for name in (*seam.first.missing, *seam.second.missing):
            yield note(
                "sewn-to-no-piece",
                f"{capital(called(name))} is sewn, and no piece that is cut here has it as an edge.",
                help="It may belong to another lesson, or lie within a piece; if not, take the outline along it.",
            ).at(pattern.draft.plan.lesson.source.name, seam.said.sentence)

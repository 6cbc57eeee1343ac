"""The worked figures of printed handbooks, each marked as seen or apart.

A row is `seen` when the book gives the result itself and its author and title were seen; rows that were
worked out here (DERIVED), come from a book whose author or title page was not seen, were read at second
hand, or are remembered, stand apart and are never counted as evidence together with the others.
Provenance: `data/README.md`.
"""

from __future__ import annotations

import csv
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

_FILE = Path(__file__).parent / "data" / "check-values.csv"


@dataclass(frozen=True, slots=True)
class Row:
    """One figure: what is given, by which rule, and what the book has. `tolerance` 0 means exact."""

    id: str
    topic: str
    source: str
    page: str
    given: str
    rule: str
    expected: Fraction
    unit: str
    tolerance: Fraction
    status: str

    @property
    def why_apart(self) -> str:
        """Why the row is no evidence by itself; empty for a row that is seen."""
        if self.status == "memory":
            return "remembered"
        if "DERIVED" in self.rule:
            return "the result was worked out here"
        if "not seen" in self.source or self.source.startswith(_NO_AUTHOR):
            return "author, title or date not seen"
        if "via a modern reader" in self.source or "as quoted" in self.source:
            return "read at second hand"
        return ""

    @property
    def seen(self) -> bool:
        """Whether the book, its author and title seen, gives this result itself."""
        return not self.why_apart

    def holds(self, value: Fraction | float) -> bool:
        """Whether a value is the expected one within the row's tolerance; exactly so where that is 0."""
        return abs(Fraction(value) - self.expected) <= self.tolerance


# Cited without their authors in the table; the list of works says that no author was shown.
_NO_AUTHOR = (
    "School Sewing",
    "Hand Sewing Lessons",
    "Justices digest",
    "Castilian standard",
    "elementary geometry",
)


def _tolerance(text: str) -> Fraction:
    return Fraction(0) if text == "exact" else Fraction(text)


@cache
def rows() -> tuple[Row, ...]:
    """All rows, in the order of the file."""
    with _FILE.open(encoding="utf-8", newline="") as file:
        return tuple(
            Row(
                id=r["id"],
                topic=r["topic"],
                source=r["source"],
                page=r["page"],
                given=r["given"],
                rule=r["rule"],
                expected=Fraction(r["expected"]),
                unit=r["unit"],
                tolerance=_tolerance(r["tolerance"]),
                status=r["status"],
            )
            for r in csv.DictReader(file)
        )


def row(id_: str) -> Row:
    """One row by its number; KeyError when there is none."""
    found = {r.id: r for r in rows()}
    return found[id_]


def of_topics(*topics: str) -> tuple[Row, ...]:
    """The rows whose topic begins with one of these, such as `scale` or `unit.nail`."""
    return tuple(r for r in rows() if any(r.topic == t or r.topic.startswith(f"{t}.") for t in topics))


@dataclass(frozen=True, slots=True)
class Count:
    """How a set of rows came out: those worked and seen, those worked and apart, those not yet sayable."""

    seen: tuple[Row, ...]
    apart: tuple[Row, ...]
    waiting: tuple[Row, ...]

    def __str__(self) -> str:
        return f"{len(self.seen)} seen, {len(self.apart)} apart, {len(self.waiting)} not yet expressible"


def counted(of: tuple[Row, ...], worked: dict[str, Callable[[], Fraction]]) -> Count:
    """Sorts rows by whether they are worked, and if so whether they are seen."""
    done = [r for r in of if r.id in worked]
    return Count(
        tuple(r for r in done if r.seen),
        tuple(r for r in done if not r.seen),
        tuple(r for r in of if r.id not in worked),
    )

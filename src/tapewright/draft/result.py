"""A draft: everything a plan yields on some bodies, with what it asks, row by row."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

import numpy as np

from tapewright.diagnostics import Kind, Query, in_order
from tapewright.draft.board import Failure, Remark, Value
from tapewright.draft.bodies import Array, Bodies, Mask
from tapewright.draft.records import BalanceMark, Check, InnerMark, Landmark, Piece, Seam, Trimming
from tapewright.draft.rows import DrawnLine
from tapewright.draft.tangles import tangled
from tapewright.geometry import Point
from tapewright.plan import Plan
from tapewright.plan.plan import Key


@dataclass(frozen=True, slots=True, eq=False)
class Outcome:
    """What one step of the plan yielded: things by key, records, failures and remarks."""

    made: Mapping[Key, Value]
    records: tuple[object, ...]
    failures: tuple[Failure, ...]
    remarks: tuple[Remark, ...]
    undrawn: Mapping[Key, int] = field(default_factory=dict)


@dataclass(frozen=True, eq=False)
class Draft:
    """A plan drawn on bodies.

    `made` holds every point, line and amount by its key; `outcomes` the same step by step, which is what
    a later run reuses. `filled` tells, measure by measure, on which bodies the lesson filled it.
    """

    plan: Plan
    bodies: Bodies
    made: Mapping[Key, Value]
    outcomes: tuple[Outcome, ...]
    filled: Mapping[str, Mask]
    chosen: Mapping[str, Array]

    # --- what was made ------------------------------------------------------------------------------

    def alive(self, key: Key, row: int = 0) -> bool:
        """Whether a thing was drawn on a body."""
        value = self.made.get(key)
        return value is not None and (value.alive is None or bool(value.alive[row]))

    def point(self, name: str) -> Point:
        """A point on all rows; KeyError when no row has it."""
        thing = self.made[f"point {name}"].thing
        assert isinstance(thing, Point)
        return thing

    def line(self, index: int) -> DrawnLine:
        """A drawn line by its number in the plan; KeyError when no row has it."""
        return self.made[f"line {index}"].thing  # type: ignore[return-value]

    def amount(self, name: str) -> Array:
        """A named amount, `(bodies,)`; KeyError when no row has it."""
        return np.asarray(self.made[f"name {name}"].thing)

    def points(self, row: int = 0) -> Iterator[tuple[str, float, float, int]]:
        """Letter, x, y and sentence of every point drawn on a body, in the order of the draft."""
        for name, sentence in self.plan.points.items():
            if self.alive(f"point {name}", row):
                p = self.point(name)
                yield name, float(p.x[row]), float(p.y[row]), sentence

    def _records(self) -> Iterator[object]:
        for outcome in self.outcomes:
            yield from outcome.records

    def checks(self) -> tuple[Check, ...]:
        """Every check that could be made."""
        return tuple(r for r in self._records() if isinstance(r, Check))

    def pieces(self) -> tuple[Piece, ...]:
        """Every piece that could be made."""
        return tuple(r for r in self._records() if isinstance(r, Piece))

    def seams(self) -> tuple[Seam, ...]:
        """Every seam that could be made."""
        return tuple(r for r in self._records() if isinstance(r, Seam))

    def marks(self) -> tuple[BalanceMark, ...]:
        """Every balance mark that could be made."""
        return tuple(r for r in self._records() if isinstance(r, BalanceMark))

    def inner_marks(self) -> tuple[InnerMark, ...]:
        """Every line and letter that is marked within a piece."""
        return tuple(r for r in self._records() if isinstance(r, InnerMark))

    def landmarks(self) -> tuple[Landmark, ...]:
        """The places of the body that letters stand for; of several sentences about one, the last."""
        found = {r.name: r for r in self._records() if isinstance(r, Landmark)}
        return tuple(found.values())

    def trimmings(self) -> tuple[Trimming, ...]:
        """What is set along edges."""
        return tuple(r for r in self._records() if isinstance(r, Trimming))

    # --- what it asks -------------------------------------------------------------------------------

    def failures(self) -> tuple[Failure, ...]:
        """Every sentence that could not be drawn on some body."""
        return tuple(f for outcome in self.outcomes for f in outcome.failures)

    def remarks(self) -> tuple[Remark, ...]:
        """Every caution and note on some body."""
        return tuple(r for outcome in self.outcomes for r in outcome.remarks)

    def queries(self, row: int = 0) -> tuple[Query, ...]:
        """All queries about one body: the plan's, and what could not be drawn or deserves a word on it."""
        found = list(self.plan.queries)
        told: list[Failure | Remark] = [*self.failures(), *self.remarks()]
        found += [one.word(row).at(one.source, one.sentence or None) for one in told if one.rows[row]]
        found += tangled(self.plan, self.made, row)
        # One thing that is wanting is asked for once, where it is first read.
        first: dict[tuple[str, str], Query] = {}
        for query in in_order(found):
            once = query.name in {"measure-not-taken", "bust-or-chest"}
            first.setdefault((query.name, query.message if once else f"{query.span} {query.message}"), query)
        return tuple(first.values())

    def drawn(self) -> Mask:
        """The bodies on which every sentence was drawn."""
        whole = np.ones(self.bodies.count, dtype=np.bool_)
        for failure in self.failures():
            whole &= ~failure.rows
        if any(q.kind is Kind.QUESTION for q in self.plan.queries):
            whole &= False
        return whole

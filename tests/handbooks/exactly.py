"""Amounts of a draft as exact fractions, where the plan knows them so.

A plan holds every amount as a Fraction of each thing it is taken of. Where those things are measures of the
sheet, tapes, values by eye or amounts of the same kind, the result is a Fraction too; where a drawn line
comes in, it is not, and there is no answer here. A straight way drawn outright (`From A across to B: half
the bust`) counts as the amount it was drawn by. This is no second evaluator: it adds up the plan's own forms.
"""

from __future__ import annotations

from fractions import Fraction

from tapewright.draft.amounts import exact
from tapewright.language.sentences import From, Let, Share
from tapewright.language.tree import AlongLine, Amount, BareWay, Offset
from tapewright.measures import Sheet
from tapewright.plan import Plan, each
from tapewright.plan.form import (
    Bounded,
    Dimension,
    Form,
    Linear,
    NamedBase,
    NestedBase,
    SpanBase,
    Taken,
    bases,
)
from tapewright.units import Angle, Length


class Exactly:
    """The exact amounts of a plan on one sheet; lengths in mm, angles in degrees."""

    def __init__(self, plan: Plan, sheet: Sheet) -> None:
        self.sheet = sheet
        self.known: dict[str, Fraction] = {}
        self.spans: dict[frozenset[str], Fraction] = {}
        for name in plan.measures():
            value = sheet.value(name)
            if isinstance(value, Length):
                self.known[name] = value.mm
            elif isinstance(value, Angle):
                self.known[name] = value.degrees
        for eye in plan.by_eye.values():
            self._keep(eye.name, eye.usual)
        for tape in plan.tapes.values():
            self._keep(tape.name, tape.whole)
        for step in each(plan.steps):
            clause = step.clause
            if isinstance(clause, Let):
                self._keep(clause.name.name, self._form(plan, clause.amount))
            elif isinstance(clause, Share):
                for portion in clause.portions:
                    self._keep(portion.name.name, self._form(plan, portion.share))
            elif isinstance(clause, From):
                self._ways(plan, clause)

    def named(self, name: str) -> Fraction | None:
        """An amount by its name; None where a drawn line comes into it."""
        return self.known.get(name)

    @staticmethod
    def _form(plan: Plan, amount: Amount) -> Form | None:
        return plan.forms.get(id(amount))

    def _keep(self, name: str, form: Form | None) -> None:
        value = None if form is None else self.value(form)
        if value is not None:
            self.known[name] = value

    def _ways(self, plan: Plan, clause: From) -> None:
        """The straight ways that a From draws outright."""
        if clause.end is not None or clause.way is None or isinstance(clause.way, AlongLine | BareWay):
            return
        for i, (start, new) in enumerate(clause.pairs()):
            reach = clause.reach[i if len(clause.reach) == len(clause.news) else 0]
            form = None if isinstance(reach, Offset) else self._form(plan, reach)
            value = None if form is None else self.value(form)
            if value is not None:
                self.spans[frozenset((start.name, new.name))] = abs(value)

    def value(self, form: Form) -> Fraction | None:
        """A form's exact value."""
        match form:
            case Taken(first, otherwise):
                names = [base.name for base in bases(first) if not isinstance(base, NestedBase | NamedBase)
                         and hasattr(base, "name")]  # fmt: skip
                return self.value(first if all(n in self.known for n in names) else otherwise)
            case Bounded(inner, most, least):
                value = self.value(inner)
                for bound, choose in ((most, min), (least, max)):
                    limit = None if bound is None else self.value(bound)
                    if bound is not None:
                        value = None if value is None or limit is None else choose(value, limit)
                return value
            case Linear():
                return self._linear(form)

    def _linear(self, form: Linear) -> Fraction | None:
        plain: list[tuple[NamedBase, Fraction]] = []
        extra = Fraction(0)
        for base, factor in form.terms:
            value: Fraction | None
            if isinstance(base, NestedBase):
                value = self.value(base.form)
            elif isinstance(base, SpanBase):
                value = self.spans.get(frozenset((base.a, base.b)))
            else:
                plain.append((base, factor))  # type: ignore[arg-type]
                continue
            if value is None:
                return None
            extra += factor * value
        rest = exact(Linear(Dimension.LENGTH, tuple(plain), form.constant), self.known)
        return None if rest is None else rest + extra

"""Amounts of one clause, bound: from the tree to exact linear forms."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tapewright.diagnostics import Query, Span, did_you_mean, question
from tapewright.language import numbers, tree
from tapewright.language.tree import Along, CurveBetween, NameRef, PointRef, Ruler, Unknown
from tapewright.plan.form import (
    AlongBase,
    Base,
    Bounded,
    CornerBase,
    Dimension,
    EyeBase,
    Form,
    Linear,
    LineBase,
    MeasureBase,
    NamedBase,
    SpanBase,
    TableLookup,
    Taken,
    TapeBase,
    as_linear,
    bases,
)
from tapewright.plan.lookup import Lookup
from tapewright.plan.plan import Straight, Tape
from tapewright.units import unit_called

ANGLE_UNIT = "degrees"


@dataclass(slots=True)
class AmountBinder(Lookup):
    """Amounts on top of letters and names."""

    def amount(self, node: tree.Amount, wanted: Dimension | None = None) -> Form | None:
        """An amount as a form; None when something in it is asked about or waits."""
        form = self._form(node)
        if form is None:
            return None
        if wanted is not None and form.dimension is not wanted:
            if isinstance(form, Linear) and not form.terms and form.constant == 0:
                form = Linear(wanted)
            else:
                self.ask(
                    question(
                        "length-or-angle",
                        f"This is {_an(form.dimension)}; here the table expects {_an(wanted)}.",
                        node.span,
                        help=f"Such as {'15 degrees' if wanted is Dimension.ANGLE else '5 cm'}.",
                    )
                )
                return None
        self.forms[id(node)] = form
        return form

    def unlike(self, one: tree.Amount, other: tree.Amount) -> Query | None:
        """The question about two amounts of which one is a length and one an angle; None when they agree."""
        first, second = self.forms.get(id(one)), self.forms.get(id(other))
        if first is None or second is None or first.dimension is second.dimension:
            return None
        return question(
            "length-or-angle",
            f"The first is {_an(first.dimension)} and the second {_an(second.dimension)}.",
            other.span,
            help="Make both lengths, or both angles.",
        )

    def _form(self, node: tree.Amount) -> Form | None:
        match node:
            case tree.Constant(number, unit):
                return constant(number, unit)
            case tree.Bare(number, span):
                return self._bare(number, span)
            case tree.Parts(number, tape, goes_on, span):
                named = getattr(tape, "name", "")
                if goes_on and named not in self.tapes and named not in self.scope.waiting_names:
                    tape = None
                return self._parts(number, tape, span)
            case tree.Times(factor, thing):
                inner = self._form(thing)
                return None if inner is None else as_linear(inner).times(factor)
            case tree.Total(signs, terms):
                return self._total(signs, terms)
            case tree.IfTaken(first, otherwise):
                return self._if_taken(first, otherwise)
            case tree.Limited(inner, most, least):
                return self._limited(inner, most, least)
            case Along(path, start, end):
                return self._along(path, start, end)
            case tree.LookedUp():
                return self._looked_up(node)
            case tree.Share() | tree.Rest():
                factor, span = getattr(node, "factor", Fraction(1)), node.span
                if self.dividing is not None:
                    return self.dividing.times(factor)
                share = numbers.say_fraction(factor) or numbers.show(factor)
                said = (
                    "The rest of what?"
                    if isinstance(node, tree.Rest)
                    else f"{share[:1].upper()}{share[1:]} of what?"
                )
                help_ = "Name what it is taken of, such as half the waist."
                self.ask(question("share-of-what", said, span, help=help_))
                return None
            case tree.CornerRef(a, b, c):
                self.corner(node)
                return Linear(Dimension.ANGLE, ((CornerBase(a.name, b.name, c.name), Fraction(1)),))
            case Ruler(a, b):
                self.point(a)
                self.point(b)
                return length(SpanBase(a.name, b.name))
            case CurveBetween(a, b, span):
                key = self.curve_between(a, b, span)
                return length(LineBase(key)) if isinstance(key, int) else None
            case NameRef():
                return self._named_amount(node)
            case Unknown():
                self.unknown(node, ("measure", "amount", "tape", "by eye", "line"))
                return None

    def _bare(self, number: Fraction, span: Span) -> Form | None:
        if number == 0:
            return Linear(Dimension.LENGTH)
        usual = self.usual_tape()
        shown = numbers.show(number)
        answers = [f"{shown} cm", f"{shown} in"]
        if usual is not None:
            answers.append(f"{shown} parts of the {usual.name}")
        self.ask(
            question(
                "no-unit",
                f"{shown} what? A length needs a unit or a tape.",
                span,
                help=f"Try {', '.join(answers[:-1])} or {answers[-1]}.",
                answers=answers,
            )
        )
        return None

    def usual_tape(self) -> Tape | None:
        """The tape that `parts` alone belongs to: the usual one, or the only one."""
        usual = [t for t in self.tapes.values() if t.usual]
        if len(usual) == 1:
            return usual[0]
        return next(iter(self.tapes.values())) if len(self.tapes) == 1 else None

    def _parts(self, number: Fraction, tape: NameRef | Unknown | None, span: Span) -> Form | None:
        if tape is None:
            usual = self.usual_tape()
            if self.scope.tape_waits and (usual is None or not usual.usual):
                self.waits = True
                return None
            if usual is None:
                names = list(self.tapes)
                self.ask(
                    question(
                        "which-tape",
                        "Parts of which tape? No tape of this lesson is the usual one.",
                        span,
                        help="Name the tape after the parts, or mark one tape in the list as the usual tape.",
                        answers=[f"{numbers.show(number)} parts of the {n}" for n in names],
                    )
                )
                return None
        elif isinstance(tape, Unknown):
            self.unknown(tape, ("tape",))
            return None
        else:
            found = self.named(tape, ("tape",))
            if found is None:
                return None
            usual = self.tapes[found.name]
        self.reads[f"tape {usual.name}"] = None
        return length(TapeBase(usual.name), number / usual.parts)

    def _total(self, signs: tuple[int, ...], terms: tuple[tree.Amount, ...]) -> Form | None:
        forms = [self._form(t) for t in terms]
        total: Linear | None = None
        for sign, form, node in zip(signs, forms, terms, strict=True):
            if form is None:
                total = None
                break
            one = as_linear(form)
            if total is None:
                total = one if sign > 0 else one.times(Fraction(-1))
            elif one.dimension is not total.dimension and (one.terms or one.constant):
                if not total.terms and not total.constant:
                    total = Linear(one.dimension).plus(one, sign)
                    continue
                self.ask(
                    question(
                        "length-or-angle",
                        f"{_an(total.dimension).capitalize()} and {_an(one.dimension)} cannot be put together.",
                        node.span,
                        help="Take lengths with lengths, and angles with angles.",
                    )
                )
                return None
            else:
                total = total.plus(Linear(total.dimension, one.terms, one.constant), sign)
        return total

    def _if_taken(self, first: tree.Amount, otherwise: tree.Amount) -> Form | None:
        one, other = self._form(first), self._form(otherwise)
        if one is None or other is None:
            return None
        if not any(isinstance(b, MeasureBase) for b in bases(one)) and not self.questioned():
            self.ask(
                question(
                    "nothing-taken",
                    "Before “if taken” stands what comes from the measure sheet, and nothing here does.",
                    first.span,
                    help="Such as: the scye depth if taken, otherwise 20 cm.",
                )
            )
            return None
        return Taken(one, other)

    def _limited(
        self, inner: tree.Amount, most: tree.Amount | None, least: tree.Amount | None
    ) -> Form | None:
        form = self._form(inner)
        if form is None:
            return None
        bounds: list[Form | None] = []
        for bound in (most, least):
            found = None if bound is None else self.amount(bound, form.dimension)
            if bound is not None and found is None:
                return None
            bounds.append(found)
        return Bounded(form, bounds[0], bounds[1])

    def _along(self, path: tree.Path, start: PointRef, end: PointRef) -> Form | None:
        key = self.path(path)
        self.point(start)
        self.point(end)
        if key is None:
            return None
        if isinstance(key, Straight):
            return length(SpanBase(start.name, end.name))
        return length(AlongBase(key, start.name, end.name))

    def _looked_up(self, node: tree.LookedUp) -> Form | None:
        found = self.named(node.table, ("table",))
        by = self.amount(node.by, Dimension.LENGTH)
        if found is None or by is None:
            return None
        table = self.tables[found.name]
        key = table.columns[0]
        if node.column not in table.columns[1:]:
            near = did_you_mean(node.column, table.columns[1:]) or table.columns[1:]
            said = f"The {found.name} have no column “{node.column}”; they go by the {key}."
            self.ask(question("table-column", said, node.span, answers=near))
            return None
        return length(TableLookup(found.name, table.columns.index(node.column), by))

    def _named_amount(self, ref: NameRef) -> Form | None:
        found = self.named(ref, ("measure", "amount", "unknown", "tape", "by eye", "line"))
        if found is None:
            return None
        match found.sort:
            case "measure":
                self.reads[f"measure {found.name}"] = None
                dimension = self.dimensions.get(found.name, Dimension.LENGTH)
                return Linear(dimension, ((MeasureBase(found.name), Fraction(1)),))
            case "tape":
                self.reads[f"tape {found.name}"] = None
                return length(TapeBase(found.name))
            case "by eye":
                self.reads[f"eye {found.name}"] = None
                return Linear(
                    self.dimensions.get(found.name, Dimension.LENGTH), ((EyeBase(found.name), Fraction(1)),)
                )
            case "line":
                self.reads[f"line {found.line}"] = None
                return length(LineBase(found.line))
            case _:
                dimension = self.dimensions.get(found.name, Dimension.LENGTH)
                return Linear(dimension, ((NamedBase(found.name), Fraction(1)),))


def length(base: Base, factor: Fraction = Fraction(1)) -> Linear:
    """A length that is one base, or a fraction of it."""
    return Linear(Dimension.LENGTH, ((base, factor),))


def constant(number: Fraction, unit: str) -> Linear:
    """A constant in mm, or in degrees."""
    if unit == ANGLE_UNIT:
        return Linear(Dimension.ANGLE, (), number)
    known = unit_called(unit)
    if known is None:
        raise ValueError(f"the parser let through a unit that the table does not know: {unit}")
    return Linear(Dimension.LENGTH, (), number * known.mm)


def _an(dimension: Dimension) -> str:
    return "an angle" if dimension is Dimension.ANGLE else "a length"

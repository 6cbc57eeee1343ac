"""Binding one clause: every letter, name and amount in it is looked up, every slip is asked about.

A `Binder` works on one clause at a time. It notes what the clause reads and makes, turns amounts into
forms and paths into lines, and collects queries; `waits` is set when the clause rests on something that
itself waits, in which case nothing is asked.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from tapewright.diagnostics import Answer, Query, Span, did_you_mean, question
from tapewright.language import tree
from tapewright.language.read import KNOWN_PLACES
from tapewright.language.tree import (
    Along,
    CurveBetween,
    NameRef,
    NewName,
    NewPoint,
    PointRef,
    Ruler,
    Unknown,
)
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
    Taken,
    TapeBase,
    as_linear,
    bases,
)
from tapewright.plan.plan import Key, LineKey, Straight, Tape
from tapewright.plan.scope import SORTS, Named, Scope
from tapewright.units import unit_called

ANGLE_UNIT = "degrees"

_AMOUNTS = (
    tree.Constant
    | tree.Bare
    | tree.Parts
    | tree.Times
    | tree.Total
    | tree.IfTaken
    | tree.Limited
    | tree.Along
    | tree.Rest
    | tree.Share
    | tree.CornerRef
)


@dataclass(slots=True)
class Binder:
    """The binding of one clause."""

    scope: Scope
    tapes: dict[str, Tape]
    forms: dict[int, Form]
    paths: dict[int, LineKey]
    queries: list[Query] = field(default_factory=list)
    reads: dict[Key, None] = field(default_factory=dict)
    new_points: list[NewPoint] = field(default_factory=list)
    new_names: list[NewName] = field(default_factory=list)
    waits: bool = False
    dividing: Linear | None = None
    dimensions: dict[str, Dimension] = field(default_factory=dict)

    # --- walking ------------------------------------------------------------------------------------

    def visit(self, node: Any, role: str = "amount") -> None:
        """Look up everything in a node; `role` says what a bare name or ruler stands for there."""
        match node:
            case None | str() | int() | bool():
                return
            case tuple():
                for one in node:
                    self.visit(one, role)
            case PointRef():
                self.point(node)
            case NewPoint():
                self.new_point(node)
            case NewName():
                self.new_names.append(node)
            case tree.NewRuler(a, b):
                self.new_point(a)
                self.new_point(b)
            case tree.LineRef(path):
                self.path(path)
            case tree.End(line, crossing):
                self.path(line.path)
                self.visit(crossing)
            case tree.Crossing(_, point):
                self.visit(point)
            case tree.Toward(target):
                self.target(target)
            case tree.AlongLine(line):
                self.path(line.path)
            case tree.SquareTo(path, toward):
                self.path(path)
                self.visit(toward)
            case tree.AtAngle(angle, path, toward):
                self.amount(angle, Dimension.ANGLE)
                self.path(path)
                self.visit(toward)
            case tree.IntoCorner(corner):
                self.corner(corner)
            case tree.BareWay(word, span):
                self.bare_way(word, span)
            case tree.Compass() | tree.Place():
                return
            case tree.Offset(amount, way):
                self.amount(amount, Dimension.LENGTH)
                self.visit(way)
            case tree.Leaning(_, point, how):
                self.point(point)
                self.visit(how)
            case tree.EdgeRun(to, by):
                self.point(to)
                if by is not None:
                    self.path(by)
            case tree.Portion(share, name):
                self.amount(share)
                self.new_names.append(name)
            case tree.Cutting(_, cloth):
                self.named(cloth, ("cloth",))
            case tree.Turning(amount, at):
                self.visit(amount)
                self.visit(at, "edge")
            case tree.MarkAt(edge, point, distance):
                self.visit(edge, "edge")
                self.point(point)
                self.visit(distance)
            case tree.Along(path, start, end) if role in {"edge", "line"}:
                self.path(path)
                self.point(start)
                self.point(end)
            case Ruler() | NameRef() | CurveBetween() | Unknown() if role in {"edge", "line"}:
                self.path(node)
            case NameRef() | Unknown() if role not in {"amount", "edge", "line"}:
                self.named(node, (role,))
            case tree.Compared() | tree.InRange() | tree.LongerBy() | tree.SquareCorner() | tree.LiesOn():
                self.claim(node)
            case tree.RunsOn(edges, points):
                self.visit(edges, "edge")
                self.visit(points)
            case tree.SameBothSides(amount):
                self.amount(amount)
            case tree.ChoiceIs(name):
                self.named(name, ("choice",))
            case Ruler() | NameRef() | CurveBetween() | Unknown():
                self.amount(node)
            case _ if isinstance(node, _AMOUNTS):
                self.amount(node)
            case _:
                raise TypeError(f"nothing binds a {type(node).__name__}")

    def claim(self, node: tree.Claim) -> None:
        """The amounts of a claim, both sides of one dimension."""
        match node:
            case tree.Compared(left, _, right, within):
                first = self.amount(left)
                self.amount(right, first.dimension if first else None)
                if within is not None:
                    self.amount(within, first.dimension if first else None)
            case tree.InRange(amount, low, high):
                first = self.amount(amount)
                for end in (low, high):
                    self.amount(end, first.dimension if first else None)
            case tree.LongerBy(longer, shorter, low, high):
                for one in (longer, shorter, low, high):
                    if one is not None:
                        self.amount(one, Dimension.LENGTH)
            case tree.SquareCorner(corner):
                self.corner(corner)
            case tree.LiesOn(point, line):
                self.point(point)
                self.path(line.path)

    # --- letters ------------------------------------------------------------------------------------

    def point(self, ref: PointRef) -> None:
        """A letter used."""
        name = ref.name
        if name in self.scope.waiting_points:
            self.waits = True
        elif name in self.scope.points:
            self.reads[f"point {name}"] = None
        elif not any(new.name == name for new in self.new_points):
            near = did_you_mean(name, self.scope.points) if len(name) > 1 else ()
            self.ask(
                question(
                    "letter-unknown",
                    f"There is no {name} yet.",
                    ref.span,
                    help="A letter is made before it is used.",
                    answers=[Answer(f"Did you mean {p}?", p) for p in near],
                )
            )

    def new_point(self, new: NewPoint) -> None:
        """A letter made here; a letter is made once and never moves."""
        made = self.scope.points.get(new.name)
        if made is not None or any(n.name == new.name for n in self.new_points):
            free = next(
                (
                    p
                    for p in (f"{new.name[0]}{i}" for i in range(1, 100))
                    if p not in self.scope.points and p not in self.scope.waiting_points
                ),
                "",
            )
            by = f"was made by sentence {made} and stays where it is" if made else "is made twice here"
            self.ask(
                question(
                    "letter-made-twice",
                    f"{new.name} {by}.",
                    new.span,
                    help=f"Try a new letter, such as {free}." if free else "Try a new letter.",
                    answers=[free] if free else [],
                )
            )
        self.new_points.append(new)

    # --- names and lines ----------------------------------------------------------------------------

    def named(self, ref: NameRef | Unknown, sorts: tuple[str, ...]) -> Named | None:
        """A name that must be of one of some sorts."""
        if isinstance(ref, Unknown):
            self.unknown(ref, sorts)
            return None
        if ref.name in self.scope.waiting_names:
            self.waits = True
            return None
        found = self.scope.names.get(ref.name)
        if found is None:
            self.unknown(Unknown(ref.name, ref.span), sorts)
            return None
        if found.sort not in sorts:
            wanted = " or ".join(SORTS[s] for s in sorts)
            self.ask(
                question(
                    "another-sort",
                    f"The {ref.name} is {SORTS[found.sort]}; here stands {wanted}.",
                    ref.span,
                    answers=[
                        Answer(f"the {n}", n) for n in did_you_mean(ref.name, self.scope.known_names(sorts))
                    ],
                )
            )
            return None
        self.reads[f"name {ref.name}"] = None
        return found

    def unknown(self, ref: Unknown, sorts: tuple[str, ...]) -> None:
        """Words that are no known name: asked about, with the nearest names of the fitting sorts."""
        if ref.words in self.scope.waiting_names:
            self.waits = True
            return
        near = did_you_mean(ref.words, self.scope.known_names(sorts))
        length = set(sorts) & {"measure", "amount", "tape", "by eye"}
        what = "length" if length else SORTS[sorts[0]].split(" ", 1)[1]
        help_ = "" if near else f"A {what} is named before it is used."
        if length and not near:
            help_ = "Name a measure of the list, a tape, a value by eye, or an amount made by Let."
        self.ask(
            question(
                "name-unknown",
                f"I know no such {what} as “the {ref.words}”.",
                ref.span,
                help=help_,
                answers=[Answer(f"Did you mean the {n}?", n) for n in near],
            )
        )

    def path(self, node: tree.Path) -> LineKey | None:
        """A line used: a ruler, the one curve between two letters, or a name."""
        key: LineKey | None = None
        match node:
            case Ruler(a, b):
                self.point(a)
                self.point(b)
                key = Straight(a.name, b.name)
            case CurveBetween(a, b, span):
                key = self.curve_between(a, b, span)
            case NameRef():
                found = self.named(node, ("line",))
                if found is not None:
                    key = found.line
                    self.reads[f"line {key}"] = None
            case Unknown():
                self.unknown(node, ("line",))
        if key is not None:
            self.paths[id(node)] = key
        return key

    def curve_between(self, a: PointRef, b: PointRef, span: Span) -> LineKey | None:
        """`the curve A-B`: the one curve with those ends."""
        self.point(a)
        self.point(b)
        found = self.scope.curves_between(a.name, b.name)
        if len(found) == 1:
            self.reads[f"line {found[0].index}"] = None
            return found[0].index
        if (a.name, b.name) in self.scope.waiting_ends or (b.name, a.name) in self.scope.waiting_ends:
            self.waits = True
        elif not found:
            self.ask(question("no-such-curve", f"No curve was drawn from {a.name} to {b.name}.", span))
        else:
            self.ask(
                question(
                    "several-curves",
                    f"{len(found)} curves run from {a.name} to {b.name}.",
                    span,
                    help="Name the one you mean.",
                    answers=[Answer(f"the {x.name}", f"the {x.name}") for x in found if x.name],
                )
            )
        return None

    def target(self, node: PointRef | NameRef | Ruler | tree.Compass | Unknown) -> None:
        """What `toward` points at."""
        match node:
            case PointRef():
                self.point(node)
            case Ruler():
                self.path(node)
            case NameRef(name, span) if name in KNOWN_PLACES and name not in self.scope.names:
                self.ask(
                    question(
                        "place-unset",
                        f"Begin does not say on which side the {name} lies.",
                        span,
                        help=f"Such as: Begin at A, with the {name} on the left.",
                    )
                )
            case NameRef() | Unknown():
                found = self.named(node, ("place", "line"))
                if found is not None and found.sort == "line":
                    self.paths[id(node)] = found.line
                    self.reads[f"line {found.line}"] = None

    def corner(self, node: tree.CornerRef) -> None:
        """The three letters of a corner."""
        for ref in (node.a, node.b, node.c):
            self.point(ref)

    def bare_way(self, word: str, span: Span) -> None:
        """`in`, `out`, `back`, `forward`: which way is that?"""
        places = [n.name for n in self.scope.names.values() if n.sort == "place"]
        said = {
            "back": "“Back” could mean toward the centre back, or back along the way you came.",
            "in": "Which way is in? No piece has been cut here yet.",
            "out": "Which way is out? No piece has been cut here yet.",
        }
        self.ask(
            question(
                "which-way",
                said.get(word, f"Which way is {word}?"),
                span,
                help="Say up, down, left or right on this paper, or toward a place.",
                answers=[f"toward the {p}" for p in places],
            )
        )

    # --- amounts ------------------------------------------------------------------------------------

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
                        f"This is {_an(form.dimension)}; here stands {_an(wanted)}.",
                        node.span,
                    )
                )
                return None
        self.forms[id(node)] = form
        return form

    def _form(self, node: tree.Amount) -> Form | None:
        match node:
            case tree.Constant(number, unit):
                return constant(number, unit)
            case tree.Bare(number, span):
                return self._bare(number, span)
            case tree.Parts(number, tape, span):
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
            case tree.Share() | tree.Rest():
                factor, span = getattr(node, "factor", Fraction(1)), node.span
                if self.dividing is not None:
                    return self.dividing.times(factor)
                self.ask(
                    question("share-of-what", "A share of what?", span, help="Name what it is taken of.")
                )
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
        shown = number.numerator if number.denominator == 1 else number
        answers = [f"{shown} cm", f"{shown} in"]
        if usual is not None:
            answers.append(f"{shown} parts of the {usual.name}")
        self.ask(
            question(
                "no-unit",
                f"{shown} what? A length needs a unit or a tape.",
                span,
                help=f"Try {answers[0]}, or {answers[-1]}.",
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
            if usual is None:
                names = list(self.tapes)
                self.ask(
                    question(
                        "which-tape",
                        "Parts of which tape? No tape of this lesson is the usual one.",
                        span,
                        help="Name the tape after the parts, or mark one tape in the list as the usual tape.",
                        answers=[f"{number} parts of the {n}" for n in names],
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
                        f"{_an(total.dimension).capitalize()} and {_an(one.dimension)} cannot be added.",
                        node.span,
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
        if not any(isinstance(b, MeasureBase) for b in bases(one)):
            self.ask(
                question(
                    "nothing-taken",
                    "Before “if taken” stands what comes from the measure sheet, and nothing here does.",
                    first.span,
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

    def ask(self, query: Query) -> None:
        """Note a query about this clause."""
        self.queries.append(query)


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

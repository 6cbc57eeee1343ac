"""Lesson and amendments become a plan.

One pass in the order of the lesson: each clause is completed (a start left out after a semicolon), bound,
asked about, and entered with what it reads and makes. What cannot be bound waits, silently with all that
rests on it; the rest of the plan stands.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from tapewright.diagnostics import Kind, Query, did_you_mean, question
from tapewright.language import sentences as s
from tapewright.language.amendments import Amendment
from tapewright.language.clause import BY_KIND, Clause, Unread, slot_kinds
from tapewright.language.lesson import IfSentence, Lesson, Sentence
from tapewright.language.read import KNOWN_CLOTHS, walk
from tapewright.language.tree import ChoiceIs, NewName, NewPoint, PointRef, Rest
from tapewright.measures import measure_called
from tapewright.plan.amend import Amended, Change, amend
from tapewright.plan.asks import ask_about
from tapewright.plan.binding import Binder
from tapewright.plan.ease import ask_about_ease
from tapewright.plan.form import Dimension, Form, as_linear
from tapewright.plan.plan import (
    AnyStep,
    Branch,
    ByEye,
    Choice,
    Comparison,
    Finding,
    Key,
    Line,
    LineKey,
    Plan,
    Step,
    Tape,
)
from tapewright.plan.scope import Named, Scope
from tapewright.units import UnitKind

_SLOTS = {kind: slot_kinds(cls) for kind, cls in BY_KIND.items()}


@dataclass(slots=True)
class _Open:
    """An unknown between its Let and its Make: the steps that depend on it so far."""

    clause: s.LetFound
    low: Form
    high: Form
    steps: list[AnyStep] = field(default_factory=list)
    tainted: set[Key] = field(default_factory=set)


@dataclass(slots=True)
class _Builder:
    lesson: Lesson
    scope: Scope = field(default_factory=Scope)
    tapes: dict[str, Tape] = field(default_factory=dict)
    by_eye: dict[str, ByEye] = field(default_factory=dict)
    choices: dict[str, Choice] = field(default_factory=dict)
    places: dict[str, str] = field(default_factory=dict)
    forms: dict[int, Form] = field(default_factory=dict)
    paths: dict[int, LineKey] = field(default_factory=dict)
    dimensions: dict[str, Dimension] = field(default_factory=dict)
    defined: dict[str, Form] = field(default_factory=dict)
    queries: list[Query] = field(default_factory=list)
    waiting: list[int] = field(default_factory=list)
    steps: list[AnyStep] = field(default_factory=list)
    unknown: _Open | None = None
    begun: bool = False
    last_point: PointRef | None = None
    last_drawn: list[Line] = field(default_factory=list)
    last_dart: s.TakeOut | None = None
    darts: dict[str, tuple[str, str, str]] = field(default_factory=dict)
    number: int = 0
    source: str = ""

    # --- the lists ----------------------------------------------------------------------------------

    def declare_lists(self) -> None:
        """Measures, tapes, values by eye, choices, cloths, places."""
        lesson = self.lesson
        self.source = lesson.source.name
        for measure in lesson.measures:
            known = measure_called(measure.name)
            angle = known.kind is UnitKind.ANGLE if known else measure.note.startswith("in degrees")
            self.dimensions[measure.name] = Dimension.ANGLE if angle else Dimension.LENGTH
            self.enter(Named(measure.name, "measure", measure.span))
        for entry in lesson.tapes:
            binder = self.binder()
            whole = binder.amount(entry.whole, Dimension.LENGTH)
            self.take(binder)
            if whole is None:
                self.scope.waiting_names.add(entry.name)
                continue
            self.enter(Named(entry.name, "tape", entry.span))
            self.tapes[entry.name] = Tape(entry.name, whole, entry.parts, entry.usual, entry.span)
        for eye in lesson.by_eye:
            binder = self.binder()
            usual = binder.amount(eye.usual)
            kind = usual.dimension if usual is not None else None
            low = None if eye.low is None else binder.amount(eye.low, kind)
            high = None if eye.high is None else binder.amount(eye.high, kind)
            self.take(binder)
            if usual is None:
                self.scope.waiting_names.add(eye.name)
                continue
            self.dimensions[eye.name] = usual.dimension
            self.enter(Named(eye.name, "by eye", eye.span))
            self.by_eye[eye.name] = ByEye(eye.name, usual, low, high, eye.share, eye.span)
        for choice in lesson.choices:
            self.enter(Named(choice.name, "choice", choice.span))
            self.choices[choice.name] = Choice(choice.name, choice.options, choice.options[0])
        for cloth in lesson.cloths:
            if cloth.amount is None:
                self.enter(Named(cloth.name, "cloth", cloth.span))
                continue
            binder = self.binder()
            form = binder.amount(cloth.amount, Dimension.LENGTH)
            self.take(binder)
            if form is not None:
                self.enter(Named(cloth.name, "by eye", cloth.span))
                self.by_eye[cloth.name] = ByEye(cloth.name, form, None, None, "", cloth.span)
            else:
                self.scope.waiting_names.add(cloth.name)
        for name in KNOWN_CLOTHS:
            self.scope.names.setdefault(name, Named(name, "cloth", lesson.header.span))

    def enter(self, named: Named) -> None:
        """Declare a name; a name is declared once."""
        before = self.scope.names.get(named.name)
        if before is not None:
            by = f"by sentence {before.sentence}" if before.sentence else "in the lists"
            self.ask(
                question(
                    "name-made-twice",
                    f"The {named.name} was named {by} already.",
                    named.where,
                    help="Try another name.",
                ),
                named.sentence or None,
            )
            return
        self.scope.names[named.name] = named

    def binder(self) -> Binder:
        """A binder for one more clause."""
        return Binder(self.scope, self.tapes, self.forms, self.paths, dimensions=self.dimensions)

    def take(self, binder: Binder) -> None:
        """The queries of a binder become the plan's."""
        for query in binder.queries:
            self.ask(query)

    def ask(self, query: Query, number: int | None = None) -> None:
        """Note a query, with the sentence it concerns."""
        self.queries.append(query.at(self.source, number or self.number or None))

    # --- sentences ----------------------------------------------------------------------------------

    def sentence(self, said: Sentence | IfSentence) -> None:
        """One sentence; nothing is implied across its full stop."""
        self.last_point, self.last_drawn, self.last_dart = None, [], None
        if isinstance(said, IfSentence):
            self.conditional(said)
            return
        for clause in said.clauses:
            step = self.clause(clause)
            if step is not None:
                self.place(step)

    def clause(self, clause: Clause | Unread) -> Step | None:
        """One clause, bound; None when it waits or makes no step of its own."""
        if isinstance(clause, Unread):
            self.wait(clause)
            return None
        if clause.then and self.last_point is not None:
            clause = clause.starting(self.last_point)
        if isinstance(clause, s.CallIt):
            self.call_it(clause)
            return None
        binder = self.binder()
        if isinstance(clause, s.Share):
            self.visit_share(clause, binder)
        else:
            for slot, kind in _SLOTS[clause.kind].items():
                role = {"line": "line", "path": "line", "ruler": "line", "end": "line", "edge": "edge"}.get(
                    kind
                )
                if kind == "name":
                    role = clause.wants.get(slot, "amount")
                binder.visit(getattr(clause, slot), role or "amount")
        own = [] if any(q.kind is Kind.QUESTION for q in binder.queries) else ask_about(clause, self.scope)
        own += self.special(clause)
        for query in own:
            binder.ask(query)
        self.take(binder)
        stopped = binder.waits or any(q.kind is Kind.QUESTION for q in binder.queries)
        if stopped:
            self.wait_for(clause, binder)
            return None
        for query in ask_about_ease(clause, self.forms, self.by_eye, self.defined, self.lesson.header.body):
            self.ask(query)
        return self.enter_step(clause, binder)

    def visit_share(self, clause: s.Share, binder: Binder) -> None:
        """A Divide among names: its shares are of the whole, the rest is what they leave."""
        whole = binder.amount(clause.whole)
        if whole is None:
            binder.visit(clause.portions)
            return
        binder.dividing = as_linear(whole)
        rest = binder.dividing
        rests = []
        for portion in clause.portions:
            binder.new_names.append(portion.name)
            if isinstance(portion.share, Rest):
                rests.append(portion.share)
                continue
            share = binder.amount(portion.share, whole.dimension)
            if share is not None:
                rest = rest.plus(as_linear(share), -1)
        for node in rests:
            self.forms[id(node)] = rest

    def special(self, clause: Clause) -> list[Query]:
        """What depends on where in the lesson a clause stands."""
        if isinstance(clause, s.Begin):
            if self.begun:
                return [question("begin", "The draft has begun already.", clause.span)]
            self.begun = True
            for place in clause.places:
                if place.name not in self.scope.names:
                    self.scope.names[place.name] = Named(place.name, "place", place.span, self.number)
                self.places[place.name] = place.side
            return []
        if isinstance(clause, s.LetFound) and self.unknown is not None:
            return [
                question(
                    "one-unknown",
                    f"The {self.unknown.clause.name.name} is still to be found; one unknown at a time.",
                    clause.span,
                )
            ]
        if isinstance(clause, s.Make) and self.unknown is None:
            return [
                question(
                    "no-unknown",
                    "Nothing is to be found here.",
                    clause.unknown.span,
                    help="Before it stands: Let ... be found between ... and ...",
                )
            ]
        return []

    def enter_step(self, clause: Clause, binder: Binder) -> Step | None:
        """Declare what a bound clause makes and make its step."""
        makes: list[Key] = []
        for new in self.made_points(clause, binder):
            self.scope.points[new.name] = self.number
            makes.append(f"point {new.name}")
            self.last_point = PointRef(new.name, new.span)
        for name in binder.new_names:
            self.enter(Named(name.name, clause.naming or "amount", name.span, self.number))
            self.dimension_of(clause, name)
            makes.append(f"name {name.name}")
        drawn: list[Line] = []
        for one in clause.drawn():
            index = len(self.scope.lines)
            line = Line(index, one.sort, one.ends, self.number, clause.span)
            self.scope.lines.append(line)
            drawn.append(line)
            makes.append(f"line {index}")
        if drawn:
            self.last_drawn = drawn
            self.last_dart = clause if isinstance(clause, s.TakeOut) else None
        if isinstance(clause, s.LetFound):
            low, high = clause.range
            self.unknown = _Open(clause, self.forms[id(low)], self.forms[id(high)])
            self.unknown.tainted.add(f"name {clause.name.name}")
            return None
        step = Step(
            clause,
            self.number,
            self.source,
            clause.span,
            tuple(binder.reads),
            tuple(makes),
            tuple(x.index for x in drawn),
        )
        if isinstance(clause, s.Make):
            self.settle(clause, step)
            return None
        return step

    def made_points(self, clause: Clause, binder: Binder) -> list[NewPoint]:
        """The points a clause makes; a pivot makes primed copies."""
        if not isinstance(clause, s.Pivot):
            return binder.new_points
        copies = [NewPoint(p.name + "'", p.span) for p in clause.points]
        for copy in copies:
            if copy.name in self.scope.points:
                self.ask(question("letter-made-twice", f"{copy.name} was made already.", copy.span))
        return copies

    def dimension_of(self, clause: Clause, name: NewName) -> None:
        """What an amount named here is an amount of, and how it was made."""
        form: Form | None = None
        if isinstance(clause, s.Let):
            form = self.forms.get(id(clause.amount))
        elif isinstance(clause, s.LetFound):
            form = self.forms.get(id(clause.range[0]))
        elif isinstance(clause, s.Share):
            form = next((self.forms.get(id(p.share)) for p in clause.portions if p.name == name), None)
        if form is not None:
            self.dimensions[name.name] = form.dimension
            if not isinstance(clause, s.LetFound):
                self.defined[name.name] = form

    def call_it(self, clause: s.CallIt) -> None:
        """Name the last line drawn, or the dart taken out."""
        if self.last_dart is not None:
            dart = self.last_dart
            self.darts[clause.name.name] = (dart.first.name, dart.second.name, dart.lost.name)
            self.enter(Named(clause.name.name, dart.called, clause.name.span, self.number))
            return
        if len(self.last_drawn) == 1:
            line = self.last_drawn[0]
            self.scope.lines[line.index] = replace(line, name=clause.name.name)
            self.enter(Named(clause.name.name, "line", clause.name.span, self.number, line.index))
            return
        if self.last_drawn:
            self.ask(
                question(
                    "which-line",
                    f"{len(self.last_drawn)} lines were drawn just before.",
                    clause.span,
                    help="Draw the one you mean in a sentence of its own, and name it there.",
                )
            )
        elif not self.waiting or self.waiting[-1] != self.number:
            self.ask(question("which-line", "No line was drawn just before.", clause.span))
        self.scope.waiting_names.add(clause.name.name)

    # --- unknowns and branches ----------------------------------------------------------------------

    def place(self, step: AnyStep) -> None:
        """Put a step into the plan: into the open block when it depends on the unknown."""
        if self.unknown is not None and self.unknown.tainted & set(step.reads):
            self.unknown.steps.append(step)
            self.unknown.tainted |= set(step.makes)
        else:
            self.steps.append(step)

    def settle(self, clause: s.Make, step: Step) -> None:
        """Close the block of the unknown."""
        found = self.unknown
        assert found is not None
        named = getattr(clause.unknown, "name", "")
        if named != found.clause.name.name:
            self.ask(
                question(
                    "no-unknown",
                    f"What is to be found is the {found.clause.name.name}.",
                    clause.unknown.span,
                    answers=[f"the {found.clause.name.name}"],
                )
            )
            return
        left, right = self.forms[id(clause.left)], self.forms[id(clause.right)]
        reads = {k for x in (*found.steps, step) for k in x.reads}
        makes = {k for x in found.steps for k in x.makes} | {f"name {named}"}
        self.unknown = None
        if not found.tainted & set(step.reads) - {f"name {named}"} and f"name {named}" not in {
            k for k in step.reads if k != f"name {named}"
        } | {k for x in found.steps for k in x.reads}:
            self.ask(
                question(
                    "no-effect",
                    f"The {named} changes neither side, so it cannot be found from them.",
                    clause.span,
                )
            )
            self.scope.waiting_names.add(named)
            return
        self.steps.append(
            Finding(
                named,
                found.low,
                found.high,
                tuple(found.steps),
                left,
                right,
                self.number,
                self.source,
                clause.span,
                tuple(sorted(reads - makes)),
                tuple(sorted(makes)),
            )
        )

    def conditional(self, said: IfSentence) -> None:
        """`If ..., ...; otherwise ...`: both branches are bound against the same beginning."""
        binder = self.binder()
        binder.visit(said.condition)
        self.take(binder)
        stopped = binder.waits or bool(binder.queries)
        before = (dict(self.scope.points), dict(self.scope.names), len(self.scope.lines))
        then = self.branch(said.then)
        named = {n.name: n.line for n in self.scope.names.values() if n.sort == "line"}
        made = {k for x in then for k in x.makes if k.startswith(("point", "name"))}
        after = (self.scope.points, self.scope.names)
        # The second branch may make the same letters: they are not yet made there.
        self.scope.points, self.scope.names = dict(before[0]), dict(before[1])
        otherwise = self.branch(said.otherwise)
        twins = tuple(
            (named[n.name], n.line)
            for n in self.scope.names.values()
            if n.sort == "line" and n.name in named and n.line != named[n.name]
        )
        self.scope.points = {**after[0], **self.scope.points}
        self.scope.names = {**after[1], **self.scope.names}
        if stopped:
            for key in made | {k for x in otherwise for k in x.makes}:
                sort, name = key.split(" ", 1)
                if sort == "point":
                    self.scope.waiting_points.add(name)
                elif sort == "name":
                    self.scope.waiting_names.add(name)
            self.waiting.append(self.number)
            return
        if isinstance(said.condition, ChoiceIs):
            self.by_choice(said.condition, then, otherwise)
            return
        condition = Comparison(
            self.forms[id(said.condition.left)], said.condition.relation, self.forms[id(said.condition.right)]
        )
        reads = dict.fromkeys([*binder.reads, *(k for x in (*then, *otherwise) for k in x.reads)])
        makes = dict.fromkeys(k for x in (*then, *otherwise) for k in x.makes)
        self.place(
            Branch(
                condition,
                tuple(then),
                tuple(otherwise),
                self.number,
                self.source,
                said.span,
                tuple(k for k in reads if k not in makes),
                tuple(makes),
                twins,
            )
        )

    def by_choice(self, said: ChoiceIs, then: list[Step], otherwise: list[Step]) -> None:
        """A branch that the By eye list decides: known before any body."""
        choice = self.choices[getattr(said.name, "name", "")]
        if said.choice not in choice.options:
            near = did_you_mean(said.choice, choice.options)
            self.ask(
                question(
                    "no-such-choice",
                    f"The {choice.name} is {' or '.join(choice.options)}.",
                    said.span,
                    answers=near or choice.options,
                )
            )
        for step in then if said.choice == choice.taken else otherwise:
            self.place(step)

    def branch(self, clauses: Iterable[Clause | Unread]) -> list[Step]:
        """The steps of one branch."""
        self.last_point, self.last_drawn = None, []
        return [step for step in map(self.clause, clauses) if step is not None]

    # --- waiting ------------------------------------------------------------------------------------

    def wait(self, unread: Unread) -> None:
        """A clause that could not be read: its letters and names wait."""
        self.scope.waiting_points.update(p for p in unread.points if p not in self.scope.points)
        self.scope.waiting_names.update(n for n in unread.names if n not in self.scope.names)
        self.waiting.append(self.number)
        if unread.points:
            self.last_point = PointRef(unread.points[-1], unread.span)

    def wait_for(self, clause: Clause, binder: Binder) -> None:
        """A clause that waits: what it would have made waits with it."""
        for new in (
            self.made_points(clause, binder) if not binder.queries or binder.waits else binder.new_points
        ):
            if new.name not in self.scope.points:
                self.scope.waiting_points.add(new.name)
            self.last_point = PointRef(new.name, new.span)
        if isinstance(clause, s.Pivot):
            self.scope.waiting_points.update(p.name + "'" for p in clause.points)
        for name in (n for n in walk(clause) if isinstance(n, NewName)):
            if name.name not in self.scope.names:
                self.scope.waiting_names.add(name.name)
        for one in clause.drawn():
            if one.ends is not None:
                self.scope.waiting_ends.add(one.ends)
        self.last_drawn = []
        self.waiting.append(self.number)


def build_plan(lesson: Lesson, amendments: Iterable[Amendment] = ()) -> Plan:
    """The plan of a lesson with its amendments. Never raises on what a lesson may hold."""
    builder = _Builder(lesson)
    builder.queries.extend(lesson.queries)
    builder.declare_lists()
    amended: Amended = amend(lesson, tuple(amendments))
    builder.queries.extend(amended.queries)
    for name, change in amended.by_eye.items():
        builder.source = change.source
        builder.number = 0
        _choose(builder, name, change)
    for line in amended.lines:
        builder.number, builder.source = line.number, line.source
        builder.sentence(line.said)
    builder.number, builder.source = 0, lesson.source.name
    if builder.unknown is not None:
        lost = builder.unknown.clause.name
        builder.ask(
            question(
                "never-found",
                f"The {lost.name} is never found.",
                lost.span,
                help=f"A later sentence settles it: Make ... by finding the {lost.name}.",
            )
        )
    return Plan(
        lesson,
        tuple(builder.steps),
        tuple(builder.scope.lines),
        builder.tapes,
        builder.by_eye,
        builder.choices,
        builder.places,
        _across(builder.places),
        dict(builder.scope.points),
        {n.name: n.sort for n in builder.scope.names.values()},
        builder.darts,
        tuple(builder.queries),
        tuple(dict.fromkeys(builder.waiting)),
        builder.forms,
        builder.paths,
    )


def _across(places: dict[str, str]) -> str:
    """The side away from the first edge; nothing when no edge was stated."""
    first = next(iter(places.values()), "")
    return {"left": "right", "right": "left"}.get(first, "")


def _choose(builder: _Builder, name: str, change: Change) -> None:
    """A value by eye chosen by an amendment."""
    eye = builder.by_eye.get(name)
    if eye is None:
        near = did_you_mean(name, [*builder.by_eye, *builder.choices])
        builder.ask(
            question(
                "not-by-eye",
                f"The {name} is not among the values by eye of this lesson.",
                change.span,
                help="Only what the By eye list names can be chosen so.",
                answers=[f"the {n}" for n in near],
            )
        )
        return
    binder = builder.binder()
    form = binder.amount(change.amount, eye.usual.dimension)
    builder.take(binder)
    if form is not None:
        builder.by_eye[name] = replace(eye, usual=form, chosen=True)

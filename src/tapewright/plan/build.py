"""Lesson and amendments become a plan.

One pass in the order of the lesson: each clause is completed (a start left out after a semicolon), bound,
asked about, and entered with what it reads and makes. What cannot be bound waits, silently with all that
rests on it; the rest of the plan stands.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from tapewright.diagnostics import Answer, Query, Span, did_you_mean, question
from tapewright.language import sentences as s
from tapewright.language.amendments import Amendment, makes
from tapewright.language.clause import BY_KIND, Clause, Drawn, Unread, slot_kinds
from tapewright.language.lesson import IfSentence, Lesson, Sentence
from tapewright.language.tree import Along, Amount, NewName, NewPoint, PointRef, Rest, Ruler
from tapewright.language.walking import walk
from tapewright.plan.amend import Amended, Change, amend
from tapewright.plan.asks import ask_about
from tapewright.plan.binding import Binder
from tapewright.plan.cutting import ask_about_cut
from tapewright.plan.ease import ask_about_ease
from tapewright.plan.form import Dimension, Form, as_linear
from tapewright.plan.lists import declare_lists
from tapewright.plan.making import Open
from tapewright.plan.moving import Failed, moving_of
from tapewright.plan.placing import Placing
from tapewright.plan.plan import (
    Key,
    Line,
    Place,
    Plan,
    Step,
)
from tapewright.plan.scope import Named

_LINES = {"line", "path", "ruler", "end"}
_THING = "thing"


#: Kinds of clause whose amounts may be lengths or angles; elsewhere only a slot called `angle` is an angle.
_EITHER = {s.Let.kind, s.LetFound.kind, s.Make.kind, s.SeeThat.kind}


def _roles(cls: type[Clause]) -> tuple[tuple[str, str, Dimension | None], ...]:
    """Each slot of a kind of clause, what a bare name or ruler stands for there, and length or angle."""

    def role(slot: str, kind: str) -> str:
        if kind == "name":
            return cls.wants.get(slot, "amount")
        if kind == "marked":
            return "edge"
        return "line" if kind in _LINES else kind if kind in {"edge", _THING} else "amount"

    def wanted(slot: str, kind: str) -> Dimension | None:
        if cls.kind in _EITHER or kind == "corner":
            return None
        return Dimension.ANGLE if slot == "angle" else Dimension.LENGTH

    return tuple(
        (slot, role(slot, kind), wanted(slot, kind))
        for slot, kind in slot_kinds(cls).items()
        if kind != "flag"
    )


_ROLES = {kind: _roles(cls) for kind, cls in BY_KIND.items()}


@dataclass(slots=True)
class Builder(Placing):
    """Clause after clause."""

    def sentence(self, said: Sentence | IfSentence) -> None:
        """One sentence; nothing is implied across its full stop."""
        self.before, self.said = (self.last_drawn, *self.said), (said.span, self.source, self.number)
        self.last_point, self.last_drawn, self.last_dart, self.last_moved = None, [], None, None
        self.last_placed = False
        if isinstance(said, IfSentence):
            self.conditional(said)
            return
        for clause in said.clauses:
            step = self.clause(clause)
            if step is not None:
                self.place(step)

    def clause(self, clause: Clause | Unread) -> Step | Place | None:
        """One clause, bound; None when it waits or makes no step of its own."""
        if isinstance(clause, Unread):
            self.scope.begun |= clause.lead == "begin"
            self.wait(clause)
            return None
        if clause.then and self.last_point is not None:
            clause = clause.starting(self.last_point)
        if isinstance(clause, s.Carry) and clause.past is None:
            clause = replace(clause, past=self.last_end(clause.line))
        if isinstance(clause, s.CallIt):
            self.call_it(clause)
            return None
        if isinstance(clause, s.Repeat):
            # What it says again was read as sentences of its own.
            return None
        binder = self.binder()
        if isinstance(clause, s.Share):
            self.visit_share(clause, binder)
        else:
            for slot, role, wanted in _ROLES[clause.kind]:
                node = getattr(clause, slot)
                binder.wanted = wanted
                if role == _THING:
                    binder.line_or_outline(node)
                elif node is not None:
                    binder.visit(node, role)
        if not binder.questioned():
            for query in (*ask_about(clause, self.scope), *self.special(clause, binder)):
                binder.ask(query)
        if not binder.waits and not binder.questioned():
            try:
                self.moving = moving_of(clause, self.outlines, self.darts, self.scope)
            except Failed as failed:
                binder.ask(failed.query)
        self.take(binder)
        if binder.waits or binder.questioned():
            self.wait_for(clause, binder)
            return None
        for query in ask_about_ease(clause, self.forms, self.by_eye, self.defined, self.lesson.header.body):
            self.ask(query)
        return self.enter_step(clause, binder)

    def visit_share(self, clause: s.Share, binder: Binder) -> None:
        """A Divide among names: its shares are of the whole, the rest is what they leave."""
        whole = binder.amount(clause.whole)
        if whole is None:
            for portion in clause.portions:
                binder.new_names.append(portion.name)
                if not isinstance(portion.share, Rest):
                    binder.visit(portion.share)
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

    def special(self, clause: Clause, binder: Binder) -> list[Query]:
        """What depends on where in the lesson a clause stands."""
        if isinstance(clause, s.Shape | s.CurveRule):
            shape = next((x for x in self.lesson.shapes if x.name == clause.title.lower()), None)
            if shape is None and ("shape", clause.title.lower()) in self.lesson.unread:
                binder.waits = True
                return []
            if shape is None:
                near = did_you_mean(clause.title, [x.name for x in self.lesson.shapes])
                help_ = "Its points stand in a table under a heading: ## Shape: " + clause.title
                said = f"This lesson has no shape “{clause.title}”."
                return [question("no-such-shape", said, clause.span, help=help_, answers=near)]
            again = [p.letter for p in shape.points if p.letter and p.letter in self.scope.points]
            if again and isinstance(clause, s.Shape):
                return [self.again(again[0], clause, "Give the shape's table another letter there.")]
        again = [name for name in clause.also_makes() if name in self.scope.points]
        if again:
            return [self.again(again[0], clause)]
        if isinstance(clause, s.BeginFrom):
            return self.begin_from(clause, binder)
        if isinstance(clause, s.Begin):
            if self.begun:
                return [self.begun_again(clause)]
            self.begun = True
            for place in clause.places:
                if place.name not in self.scope.names:
                    self.scope.names[place.name] = Named(place.name, "place", place.span, self.number)
                self.places[place.name] = place.side
            return []
        if isinstance(clause, s.Cut) and not binder.waits:
            piece = self.outlines.get(getattr(clause.outline, "name", ""))
            return list(ask_about_cut(clause, piece, self.scope, self.paths, self.lesson.header))
        pair: tuple[Amount, ...] = ()
        if isinstance(clause, s.LetFound | s.Make):
            pair = clause.range if isinstance(clause, s.LetFound) else (clause.left, clause.right)
        if pair:
            unlike = binder.unlike(*pair)
            if unlike is not None:
                return [unlike]
        if isinstance(clause, s.LetFound) and self.unknown is not None:
            return [
                question(
                    "one-unknown",
                    f"The {self.unknown.clause.name.name} is still to be found; one unknown at a time.",
                    clause.name.span,
                    help=f"First: Make ... by finding the {self.unknown.clause.name.name}.",
                )
            ]
        if isinstance(clause, s.Make) and self.unknown is None and not binder.waits:
            return [
                question(
                    "no-unknown",
                    "Nothing is to be found here.",
                    clause.unknown.span,
                    help="Before it stands a sentence such as: Let the crown height be found between 4 cm and 15 cm.",
                )
            ]
        return []

    def begun_again(self, clause: s.Begin) -> Query:
        """The question about a second Begin: other letters are made from those there are."""
        first, number = next(iter(self.scope.points.items()), ("A", 0))
        new = next((n.name for n in walk(clause) if isinstance(n, NewPoint)), "B")
        said = f" by sentence {number}, at {first}" if number else ""
        free = new not in self.scope.points
        return question(
            "begin",
            f"The draft was begun already{said}.",
            clause.span,
            help="A draft begins once; every other letter is made from one that is there"
            + ("." if free and number else f", such as: From {first} down to B: 40 cm."),
            answers=[f"From {first} {way} to {new}" for way in ("down", "across") if free and number],
        )

    def again(self, name: str, clause: Clause, help_: str = "") -> Query:
        """A letter that a sentence makes without its being written, and that is made already."""
        return question(
            "letter-made-twice",
            f"This makes {name}, and {name} was made by sentence {self.scope.points[name]} and stays where it is.",
            clause.span,
            help=help_ or "What is moved gets a prime. To move it once more, begin from the moved letters.",
        )

    def sort_of(self, drawn: Drawn) -> str:
        """The sort of a line that is drawn: straight beside a straight one, bent beside a bent one."""
        if drawn.like is None or isinstance(drawn.like, Ruler):
            return drawn.sort
        key = self.paths.get(id(drawn.like.path if isinstance(drawn.like, Along) else drawn.like))
        bent = isinstance(key, int) and self.scope.lines[key].sort != "straight"
        return "curve" if bent else drawn.sort

    def enter_step(self, clause: Clause, binder: Binder) -> Step | Place | None:
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
            line = Line(index, self.sort_of(one), one.ends, self.number, clause.span)
            self.scope.lines.append(line)
            drawn.append(line)
            makes.append(f"line {index}")
        if drawn:
            self.last_drawn = drawn
            self.last_dart = clause if isinstance(clause, s.TakeOut) else None
        if isinstance(clause, s.LetFound):
            low, high = clause.range
            self.unknown = Open(clause, self.forms[id(low)], self.forms[id(high)])
            self.unknown.tainted.add(f"name {clause.name.name}")
            return None
        placed = self.take_over(clause, makes)
        if placed is not None:
            self.last_placed = True
            return replace(placed, reads=(*binder.reads, *placed.reads))
        moving = self.enter_moving(clause, makes, drawn)
        step = Step(
            clause,
            self.number,
            self.source,
            clause.span,
            tuple(binder.reads),
            tuple(makes),
            tuple(x.index for x in drawn),
            moving,
        )
        if isinstance(clause, s.Outline):
            self.outlines[clause.name.name] = self.shape_of(clause)
        if isinstance(clause, s.Make):
            self.settle(clause, step)
            return None
        return step

    def made_points(self, clause: Clause, binder: Binder) -> list[NewPoint]:
        """The points a clause makes, copies that it primes included."""
        found = [*binder.new_points, *(NewPoint(name, clause.span) for name in clause.also_makes())]
        if isinstance(clause, s.Shape):
            shape = next((x for x in self.lesson.shapes if x.name == clause.title.lower()), None)
            found += [NewPoint(p.letter, clause.span) for p in (shape.points if shape else ()) if p.letter]
        return found

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
        """Name the last line drawn, the dart taken out, the outline moved, or the draft begun from."""
        if self.last_placed:
            self.last_placed = False
            self.name_draft(clause.name.name)
            return
        if self.last_moved is not None:
            shape, self.last_moved = self.last_moved, None
            self.outlines[clause.name.name] = shape
            self.enter(Named(clause.name.name, "outline", clause.name.span, self.number, key=shape.key))
            return
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
                    f"{len(self.last_drawn)} lines were drawn just before; which is the {clause.name.name}?",
                    clause.span,
                    help="Draw the one you mean in a sentence of its own, and name it there.",
                )
            )
        elif (across := self.across_a_stop(clause)) is not None:
            self.ask(across)
        elif not self.waiting or self.waiting[-1] != self.number:
            help_ = (
                "“call it” names what its own sentence drew. Join the two letters there, and name that line."
            )
            self.ask(question("which-line", "No line was drawn just before.", clause.span, help=help_))
        self.scope.waiting_names.add(clause.name.name)

    def across_a_stop(self, clause: s.CallIt) -> Query | None:
        """The question about a `call it` that begins a sentence, where the one before it drew one line."""
        drawn, before, source, number = self.before
        here, now, _ = self.said
        named = bool(drawn) and bool(self.scope.lines[drawn[0].index].name)
        elsewhere = (source, number) != (now, self.number) or source != self.lesson.source.name
        if len(drawn) != 1 or named or elsewhere or clause.span.start != here.start:
            return None
        text = self.lesson.source.text
        between = Span(before.start + len(text[before.start : before.end].rstrip(" .\n")), here.start)
        ends = drawn[0].ends
        line = f"{ends[0]}-{ends[1]}" if ends is not None else "the line"
        word = len("call")
        return question(
            "which-line",
            "Nothing is carried over a full stop, so “call it” has no line to name; "
            f"{line} was drawn by the sentence before.",
            Span(between.start, between.end + word),
            help="Write a semicolon for the full stop.",
            answers=[Answer(f"; call it the {clause.name.name}", "; call")],
        )

    def plan_of(self, lesson: Lesson) -> Plan:
        """The plan of a draft that this one begins from."""
        return build_plan(lesson)

    def wait(self, unread: Unread) -> None:
        """A clause that could not be read: its letters and names wait."""
        self.scope.waiting_points.update(p for p in unread.points if p not in self.scope.points)
        self.scope.waiting_names.update(n for n in unread.names if n not in self.scope.names)
        self.waiting.append(self.number)
        if unread.lead == "make" and self.unknown is not None:
            self.give_up(self.unknown)
        if unread.points:
            self.last_point = PointRef(unread.points[-1], unread.span)

    def wait_for(self, clause: Clause, binder: Binder) -> None:
        """A clause that waits: what it would have made waits with it."""
        for new in (
            self.made_points(clause, binder) if not binder.queries or binder.waits else binder.new_points
        ):
            # A letter made twice waits as well: whoever uses it now may mean the new one.
            self.scope.waiting_points.add(new.name)
            self.last_point = PointRef(new.name, new.span)
        self.scope.waiting_points.update(clause.also_makes())
        if clause.called == "outline":
            self.scope.primes_wait = True
        for name in (n for n in walk(clause) if isinstance(n, NewName)):
            if name.name not in self.scope.names:
                self.scope.waiting_names.add(name.name)
        for one in clause.drawn():
            if one.ends is not None:
                self.scope.waiting_ends.add(one.ends)
        if isinstance(clause, s.Make) and self.unknown is not None:
            # It was to be found here; that it is never found is not asked as well.
            self.give_up(self.unknown)
        self.last_drawn = []
        self.waiting.append(self.number)


def build_plan(lesson: Lesson, amendments: Iterable[Amendment] = ()) -> Plan:
    """The plan of a lesson with its amendments. Never raises on what a lesson may hold."""
    builder = Builder(lesson)
    builder.queries.extend(lesson.queries)
    declare_lists(builder)
    amended: Amended = amend(lesson, tuple(amendments))
    builder.queries.extend(amended.queries)
    for name, change in amended.by_eye.items():
        builder.source = change.source
        builder.number = 0
        _choose(builder, name, change)
    builder.scope.net = lesson.header.seams is None
    for line in amended.lines:
        for name in makes(line.said):
            builder.scope.first_made.setdefault(name, line.number)
    for line in amended.lines:
        builder.number, builder.source = line.number, line.source
        builder.scope.now = line.number
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
        builder.outlines,
        tuple(builder.queries),
        tuple(dict.fromkeys(builder.waiting)),
        builder.dimensions,
        tuple(builder.measured),
        builder.forms,
        builder.paths,
    )


def _across(places: dict[str, str]) -> str:
    """The side away from the first edge; nothing when no edge was stated."""
    first = next(iter(places.values()), "")
    return {"left": "right", "right": "left"}.get(first, "")


def _choose(builder: Builder, name: str, change: Change) -> None:
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

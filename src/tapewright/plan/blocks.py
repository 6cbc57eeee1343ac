"""Solving blocks and branches: the sentences that are not drawn straight through."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterable
from dataclasses import dataclass

from tapewright.diagnostics import Span, did_you_mean, question
from tapewright.language import sentences as s
from tapewright.language.clause import Clause, Unread
from tapewright.language.lesson import IfSentence
from tapewright.language.pattern import Style
from tapewright.language.saying import show
from tapewright.language.tree_claims import ChoiceIs
from tapewright.plan.making import Making, Open
from tapewright.plan.plan import (
    AnyStep,
    Branch,
    Comparison,
    Finding,
    OutlineShape,
    Place,
    Step,
)
from tapewright.plan.scope import SORTS, Named


@dataclass(slots=True)
class Blocks(Making):
    """Placing steps: straight on, into an open block, into a branch."""

    @abstractmethod
    def clause(self, clause: Clause | Unread) -> Step | Place | None:
        """One clause, bound; None when it waits or makes no step of its own."""

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
            self.give_up(found)
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
                    clause.unknown.span,
                    help="What is to be found must be used in the sentences before, or in one of the two amounts.",
                )
            )
            self.scope.waiting_names.add(named)
            return
        style = Style(frozenset(self.tapes))
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
                (show(clause.left, style), show(clause.right, style)),
            )
        )

    def give_up(self, found: Open) -> None:
        """Leave an unknown that was not settled, and all that depends on it, to wait."""
        self.unknown = None
        for key in found.tainted:
            sort, name = key.split(" ", 1)
            if sort == "point":
                self.scope.waiting_points.add(name)
            elif sort == "name":
                self.scope.waiting_names.add(name)

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
        outlines = dict(self.outlines)
        # The second branch may make the same letters: they are not yet made there.
        self.scope.points, self.scope.names = dict(before[0]), dict(before[1])
        otherwise = self.branch(said.otherwise)
        twins = tuple(
            (named[n.name], n.line)
            for n in self.scope.names.values()
            if n.sort == "line" and n.name in named and n.line != named[n.name]
        )
        unlike = self.unlike(outlines, after[1], said.span)
        self.scope.points = {**after[0], **self.scope.points}
        self.scope.names = {**after[1], **self.scope.names}
        self.scope.waiting_names |= unlike
        keys = {f"name {name}" for name in unlike}
        then = [step for step in then if not keys & set(step.makes)]
        otherwise = [step for step in otherwise if not keys & set(step.makes)]
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

    def unlike(self, outlines: dict[str, OutlineShape], names: dict[str, Named], span: Span) -> set[str]:
        """Names that both branches make, but not alike: they cannot be one thing on many bodies."""
        found: set[str] = set()
        for name, here in self.scope.names.items():
            there = names.get(name)
            one, other = outlines.get(name), self.outlines.get(name)
            if there is None or there is here:
                continue
            if there.sort != here.sort:
                message = f"The {name} is {SORTS[there.sort]} one way and {SORTS[here.sort]} the other way."
            elif one and other and one is not other and len(one.edges) != len(other.edges):
                message = (
                    f"One way the {name} has {len(one.edges)} edges, the other way {len(other.edges)}, so it would "
                    "not be the same piece."
                )
            else:
                continue
            found.add(name)
            self.ask(
                question(
                    "branches-unlike", message, span, help="Call it by another name in one of the two ways."
                )
            )
        return found

    def by_choice(self, said: ChoiceIs, then: list[Step | Place], otherwise: list[Step | Place]) -> None:
        """A branch that the By eye list decides: known before any body."""
        choice = self.choices[getattr(said.name, "name", "")]
        if said.choice not in choice.options:
            near = did_you_mean(said.choice, choice.options)
            self.ask(
                question(
                    "no-such-choice",
                    f"The {choice.name} is {' or '.join(choice.options)}; “{said.choice}” is none of these.",
                    said.span,
                    answers=near or choice.options,
                )
            )
        for step in then if said.choice == choice.taken else otherwise:
            self.place(step)

    def branch(self, clauses: Iterable[Clause | Unread]) -> list[Step | Place]:
        """The steps of one branch."""
        self.last_point, self.last_drawn = None, []
        return [step for step in map(self.clause, clauses) if step is not None]

"""A plan in the making: what a lesson has declared so far, and where it is being read."""

from __future__ import annotations

from dataclasses import dataclass, field

from tapewright.diagnostics import Query, Span, question
from tapewright.language import sentences as s
from tapewright.language.lesson import Lesson, TableEntry
from tapewright.language.tree import PointRef
from tapewright.plan.binding import Binder
from tapewright.plan.form import Dimension, Form
from tapewright.plan.plan import (
    AnyStep,
    ByEye,
    Choice,
    Key,
    Line,
    LineKey,
    Moving,
    OutlineShape,
    Plan,
    Tape,
)
from tapewright.plan.scope import Named, Scope


@dataclass(slots=True)
class Open:
    """An unknown between its Let and its Make: the steps that depend on it so far."""

    clause: s.LetFound
    low: Form
    high: Form
    steps: list[AnyStep] = field(default_factory=list)
    tainted: set[Key] = field(default_factory=set)


@dataclass(slots=True)
class Making:
    """Everything declared and bound so far; `number` and `source` say which sentence is being read."""

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
    unknown: Open | None = None
    begun: bool = False
    #: The sentence being read: where it stands, in which text, in which item; and the one before, with its lines.
    said: tuple[Span, str, int] = (Span(0, 0), "", 0)
    before: tuple[list[Line], Span, str, int] = field(default_factory=lambda: ([], Span(0, 0), "", 0))
    last_point: PointRef | None = None
    last_drawn: list[Line] = field(default_factory=list)
    last_dart: s.TakeOut | None = None
    last_moved: OutlineShape | None = None
    last_placed: bool = False
    moving: Moving | None = None
    outlines: dict[str, OutlineShape] = field(default_factory=dict)
    placed: list[tuple[s.BeginFrom, Plan, dict[str, Form]]] = field(default_factory=list)
    measured: dict[str, None] = field(default_factory=dict)
    tables: dict[str, TableEntry] = field(default_factory=dict)
    darts: dict[str, tuple[str, str, str]] = field(default_factory=dict)
    number: int = 0
    source: str = ""

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
        return Binder(
            self.scope,
            self.tapes,
            self.forms,
            self.paths,
            dimensions=self.dimensions,
            tables=self.tables,
            text=self.lesson.source if self.source == self.lesson.source.name else None,
        )

    def take(self, binder: Binder) -> None:
        """The queries of a binder become the plan's."""
        for query in binder.queries:
            self.ask(query)

    def ask(self, query: Query, number: int | None = None) -> None:
        """Note a query, with the sentence it concerns."""
        self.queries.append(query.at(self.source, number or self.number or None))

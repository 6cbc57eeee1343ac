"""The plan of a draft: bound steps in order, with what each reads and makes. No body, no numbers.

A key names one thing that can be read or made: `point A`, `line 7`, `name the depth`, `eye bust ease`,
`measure waist`, `tape bust tape`. Steps know their keys, so that a changed choice re-runs only what
depends on it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from tapewright.diagnostics import Query, Span
from tapewright.language.clause import Clause
from tapewright.language.lesson import Lesson
from tapewright.language.tree import Amount, Path
from tapewright.plan.form import Base, Dimension, Form, Linear

Key = str


@dataclass(frozen=True, slots=True)
class Line:
    """A drawn line as the plan knows it: its sort, the letters at its ends, its name, who drew it.

    `sort` is straight, curve, arc or circle. `where` is the span of the clause.
    """

    index: int
    sort: str
    ends: tuple[str, str] | None
    sentence: int
    where: Span
    name: str = ""


@dataclass(frozen=True, slots=True)
class Straight:
    """The straight way between two points, drawn or not."""

    a: str
    b: str


LineKey = Straight | int


@dataclass(frozen=True, slots=True)
class OutlineEdge:
    """One edge of an outline as the plan knows it; `line` is -1 for the straight way."""

    start: str
    end: str
    line: int


@dataclass(frozen=True, slots=True)
class OutlineShape:
    """An outline: its key among the things made, and its edges in order."""

    key: Key
    edges: tuple[OutlineEdge, ...]

    def letters(self) -> tuple[str, ...]:
        """Its letters in order, each edge's start."""
        return tuple(edge.start for edge in self.edges)


@dataclass(frozen=True, slots=True)
class MovedLetter:
    """A letter moved: the old one, the new one, and the slashes that move it, the innermost first."""

    old: str
    new: str
    by: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class MovedEdge:
    """An edge of an outline that is moved: which one, its letters then, and the slashes that move it."""

    index: int
    start: str
    end: str
    by: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Slash:
    """One slash: it opens at `at` and is hinged at `hinge`; `beyond` and `edges` are what moves.

    `onward` tells that the moved part follows the slash in the outline's own order. `closing` holds the
    dart's letter that moves and the one it comes to lie on.
    """

    at: str
    hinge: str
    beyond: tuple[str, ...]
    edges: tuple[int, ...]
    onward: bool
    closing: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Moving:
    """What a clause moves of an outline: old and new letters, edges, and the slashes if it opens it."""

    shape: OutlineShape
    letters: tuple[MovedLetter, ...]
    edges: tuple[MovedEdge, ...]
    slashes: tuple[Slash, ...]


@dataclass(frozen=True, slots=True)
class Tape:
    """A tape: its whole as a form, its number of parts."""

    name: str
    whole: Form
    parts: int
    usual: bool
    where: Span
    placed: bool = False


@dataclass(frozen=True, slots=True)
class ByEye:
    """A value settled by eye: usual or chosen form, the range, and how an ease is counted."""

    name: str
    usual: Form
    low: Form | None
    high: Form | None
    share: str
    where: Span
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class Choice:
    """A choice among words; `taken` is the one in force."""

    name: str
    options: tuple[str, ...]
    taken: str


@dataclass(frozen=True, slots=True)
class Step:
    """One clause, ready to be drawn."""

    clause: Clause
    sentence: int
    source: str
    where: Span
    reads: tuple[Key, ...]
    makes: tuple[Key, ...]
    lines: tuple[int, ...] = ()
    moving: Moving | None = None


@dataclass(frozen=True, slots=True)
class Branch:
    """A conditional: two runs of steps; bodies go one way or the other.

    `twins` pairs lines of one name, one drawn in each branch.
    """

    condition: Comparison
    then: tuple[AnyStep, ...]
    otherwise: tuple[AnyStep, ...]
    sentence: int
    source: str
    where: Span
    reads: tuple[Key, ...]
    makes: tuple[Key, ...]
    twins: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two forms and the relation between them."""

    left: Form
    relation: str
    right: Form


@dataclass(frozen=True, slots=True)
class Finding:
    """A solving block: the steps that depend on the unknown, and what must agree.

    `sides` are the words of the two amounts that must agree.
    """

    unknown: str
    low: Form
    high: Form
    steps: tuple[AnyStep, ...]
    left: Form
    right: Form
    sentence: int
    source: str
    where: Span
    reads: tuple[Key, ...]
    makes: tuple[Key, ...]
    sides: tuple[str, str] = ("", "")


@dataclass(frozen=True, slots=True)
class Place:
    """Another draft drawn first: its plan, the values by eye it is given, and where its lines begin here.

    `name` is what the draft is called here, if anything: each letter is known by it too.
    """

    plan: Plan
    chosen: Mapping[str, Form]
    offset: int
    clause: Clause
    sentence: int
    source: str
    where: Span
    reads: tuple[Key, ...]
    makes: tuple[Key, ...]
    name: str = ""


AnyStep = Step | Branch | Finding | Place


@dataclass(frozen=True)
class Plan:
    """A whole draft, bound.

    `places` maps a place (`centre back`) to left or right; `across` is the side the draft grows toward.
    `forms` and `paths` are keyed by the identity of tree nodes, which the lesson keeps alive.
    """

    lesson: Lesson
    steps: tuple[AnyStep, ...]
    lines: tuple[Line, ...]
    tapes: Mapping[str, Tape]
    by_eye: Mapping[str, ByEye]
    choices: Mapping[str, Choice]
    places: Mapping[str, str]
    across: str
    points: Mapping[str, int]
    names: Mapping[str, str]
    darts: Mapping[str, tuple[str, str, str]]
    outlines: Mapping[str, OutlineShape]
    queries: tuple[Query, ...]
    waiting: tuple[int, ...]
    dimensions: Mapping[str, Dimension]
    measured: tuple[str, ...]
    forms: Mapping[int, Form] = field(repr=False)
    paths: Mapping[int, LineKey] = field(repr=False)
    #: Claims and edges as they are written, by the identity of their nodes; filled when first wanted.
    words: dict[int, str] = field(default_factory=dict, repr=False, compare=False)
    #: What linear forms come to as floats, by their identity; filled when first drawn.
    numbers: dict[int, tuple[Linear, float, tuple[tuple[Base, float], ...]]] = field(
        default_factory=dict, repr=False, compare=False
    )

    def form(self, node: Amount) -> Form:
        """The bound form of an amount in the tree."""
        return self.forms[id(node)]

    def path(self, node: Path) -> LineKey:
        """The line that a path in the tree stands for."""
        return self.paths[id(node)]

    def measures(self) -> tuple[str, ...]:
        """The measures the lesson lists, in order, and those of drafts that it begins from."""
        own = [entry.name for entry in self.lesson.measures]
        return tuple(dict.fromkeys([*own, *self.measured]))


def each(steps: tuple[AnyStep, ...]) -> Iterator[Step]:
    """Every plain step, those inside branches and findings included, in order."""
    for step in steps:
        if isinstance(step, Branch):
            yield from each(step.then)
            yield from each(step.otherwise)
        elif isinstance(step, Finding):
            yield from each(step.steps)
        elif isinstance(step, Place):
            continue
        else:
            yield step

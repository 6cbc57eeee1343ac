"""A lesson as a tree: its header, its lists, its items, and what the table asks about their wording.

Frozen records only. Reading is in `read.py`; what names stand for is the plan's business.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tapewright.diagnostics import Query, Source, Span
from tapewright.language.clause import Clause, Unread
from tapewright.language.tree import Amount, where
from tapewright.language.tree_claims import Condition


@dataclass(frozen=True, slots=True)
class Seams:
    """`Drafted with seams of 1/4 in at the shoulders and the sides`: the amount and the edges, as named."""

    amount: Amount
    at: tuple[str, ...]
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Header:
    """The paragraph under the title.

    `body` is `half`, `both sides` or `whole`; `seams` is None for a draft that is net; `over` holds the
    layers worn beneath, None when the header does not say; `years` are first and last.
    """

    body: str = "half"
    seams: Seams | None = None
    over: tuple[str, ...] | None = None
    years: tuple[int, int] | None = None
    span: Span = where()


@dataclass(frozen=True, slots=True)
class MeasureEntry:
    """A measure the lesson needs; `note` is the lesson's own word on how it is taken."""

    name: str
    note: str = ""
    sides: bool = False
    span: Span = where()


@dataclass(frozen=True, slots=True)
class TapeEntry:
    """`bust tape: the bust in 48 parts; the usual tape`."""

    name: str
    whole: Amount
    parts: int
    usual: bool = False
    span: Span = where()


@dataclass(frozen=True, slots=True)
class ByEyeEntry:
    """`bust ease: 2 in all round, between 0 and 4 in`.

    `share` is `all round`, `on the half` or nothing.
    """

    name: str
    usual: Amount
    low: Amount | None = None
    high: Amount | None = None
    share: str = ""
    span: Span = where()


@dataclass(frozen=True, slots=True)
class ChoiceEntry:
    """`figure: usual or stout`; the first is usual."""

    name: str
    options: tuple[str, ...]
    span: Span = where()


@dataclass(frozen=True, slots=True)
class ClothEntry:
    """`cloth width: 150 cm`, or a cloth by its name alone."""

    name: str
    amount: Amount | None = None
    span: Span = where()


@dataclass(frozen=True, slots=True)
class TableEntry:
    """A table of lengths in mm, one tuple a row; `between` says what holds between two rows, if it is said."""

    name: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Fraction, ...], ...]
    between: str = ""
    span: Span = where()


@dataclass(frozen=True, slots=True)
class ShapePoint:
    """A point of a shape, in squares; a corner is not smoothed."""

    right: Fraction
    down: Fraction
    letter: str = ""
    corner: bool = False


@dataclass(frozen=True, slots=True)
class ShapeEntry:
    """A shape on squares."""

    name: str
    points: tuple[ShapePoint, ...]
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; `level` 1 is the title."""

    text: str
    level: int
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence: clauses joined by semicolons."""

    clauses: tuple[Clause | Unread, ...]
    span: Span = where()


@dataclass(frozen=True, slots=True)
class IfSentence:
    """`If ..., ...; otherwise ...`, to the full stop."""

    condition: Condition
    then: tuple[Clause | Unread, ...]
    otherwise: tuple[Clause | Unread, ...] = ()
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Item:
    """A numbered item; `number` counts straight through the lesson, `heading` is the index of its heading."""

    number: int
    sentences: tuple[Sentence | IfSentence, ...]
    heading: int
    span: Span = where()
    copies: tuple[Sentence | IfSentence, ...] = ()

    def all(self) -> tuple[Sentence | IfSentence, ...]:
        """Its sentences, and those that a Repeat in it says again."""
        return (*self.sentences, *self.copies)


@dataclass(frozen=True, slots=True)
class Lesson:
    """A whole lesson, with the queries that its wording alone gives rise to."""

    source: Source
    title: str
    header: Header
    measures: tuple[MeasureEntry, ...] = ()
    tapes: tuple[TapeEntry, ...] = ()
    by_eye: tuple[ByEyeEntry, ...] = ()
    choices: tuple[ChoiceEntry, ...] = ()
    cloths: tuple[ClothEntry, ...] = ()
    tables: tuple[TableEntry, ...] = ()
    shapes: tuple[ShapeEntry, ...] = ()
    headings: tuple[Heading, ...] = ()
    items: tuple[Item, ...] = ()
    queries: tuple[Query, ...] = ()
    placed: tuple[tuple[str, Lesson], ...] = ()
    #: Names of list lines and tables that could not be read, each with its list.
    unread: tuple[tuple[str, str], ...] = ()

    def draft_called(self, title: str) -> Lesson | None:
        """The lesson of a title that this one begins from, if it could be found."""
        return next((lesson for name, lesson in self.placed if name == title), None)

    def made(self) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """The letters and the names that its sentences make, those of drafts it begins from included."""
        from tapewright.language.making import made_by

        points: dict[str, None] = {}
        names: dict[str, None] = {}
        for _, lesson in self.placed:
            more = lesson.made()
            points |= dict.fromkeys(more[0])
            names |= dict.fromkeys((*lesson.listed(), *more[1]))
        for item in self.items:
            for said in item.all():
                clauses = said.clauses if isinstance(said, Sentence) else (*said.then, *said.otherwise)
                for clause in clauses:
                    for name in made_by(clause):
                        (points if name[:1].isupper() else names)[name] = None
        return tuple(points), tuple(names)

    def listed(self) -> tuple[str, ...]:
        """The names that the lists declare, in order."""
        measures = (m.name for m in self.measures)
        tapes = (t.name for t in self.tapes)
        eyes = (e.name for e in self.by_eye)
        rest = (
            *(c.name for c in self.choices),
            *(c.name for c in self.cloths),
            *(t.name for t in self.tables),
        )
        return (*measures, *tapes, *eyes, *rest)

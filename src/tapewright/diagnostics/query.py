"""A query: what the table answers.

Three kinds. A *question* waits: its line, and what rests on it, is not drawn until it is answered. A
*caution* draws and warns. A *note* only tells. None of them says that somebody did wrong.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

from tapewright.diagnostics.source import Span


class Kind(StrEnum):
    """How much a query asks of the maker."""

    QUESTION = "question"
    CAUTION = "caution"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer offered: what its button says, and what would stand in place of the query's span.

    `replace` is None where the answer is advice that no single replacement carries out. `where` is the
    stretch it stands in place of, where that is another than the query's: a line added to a list above.
    """

    say: str
    replace: str | None = None
    where: Span | None = None


@dataclass(frozen=True, slots=True)
class Query:
    """One thing the table says about a text.

    `name` is the word for `tapewright why`; `message` stands alone; `help` says what to try. `span` is
    the smallest stretch that shows it, None when it concerns the whole. `source` is the name of the
    text the span is in, filled in by whoever read that text. `sentence` is the item's number.
    """

    kind: Kind
    name: str
    message: str
    span: Span | None = None
    help: str = ""
    answers: tuple[Answer, ...] = ()
    source: str = ""
    sentence: int | None = None

    def at(self, source: str, sentence: int | None = None) -> Query:
        """The same query, said of a named text and, if given, an item of it."""
        return replace(self, source=source, sentence=self.sentence if sentence is None else sentence)


def _query(
    kind: Kind, name: str, message: str, span: Span | None, help: str, answers: Iterable[Answer | str]
) -> Query:
    offered = tuple(a if isinstance(a, Answer) else Answer(a, a) for a in answers)
    return Query(kind, name, message, span, help, offered)


def question(
    name: str, message: str, span: Span | None = None, *, help: str = "", answers: Iterable[Answer | str] = ()
) -> Query:
    """A query that its line waits for. A bare string among the answers is its own replacement."""
    return _query(Kind.QUESTION, name, message, span, help, answers)


def caution(
    name: str, message: str, span: Span | None = None, *, help: str = "", answers: Iterable[Answer | str] = ()
) -> Query:
    """A query that draws and warns."""
    return _query(Kind.CAUTION, name, message, span, help, answers)


def note(
    name: str, message: str, span: Span | None = None, *, help: str = "", answers: Iterable[Answer | str] = ()
) -> Query:
    """A query that only tells."""
    return _query(Kind.NOTE, name, message, span, help, answers)

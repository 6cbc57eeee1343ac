"""What has been declared so far: letters, names, lines; and which of them wait for an answer.

A letter or name whose sentence could not be bound is *waiting*: whoever uses it waits too, and is not asked
about.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from tapewright.diagnostics import Span
from tapewright.plan.plan import Line

#: What a name may stand for, with the words a query uses for it.
SORTS = {
    "measure": "a measure",
    "tape": "a tape",
    "by eye": "a value by eye",
    "choice": "a choice",
    "amount": "an amount",
    "unknown": "an unknown",
    "line": "a line",
    "dart": "a dart",
    "outline": "an outline",
    "table": "a table",
    "cloth": "a cloth",
    "place": "a place",
}


@dataclass(frozen=True, slots=True)
class Named:
    """A declared name: its sort, where, by which sentence (0: a list), and its line if it is one."""

    name: str
    sort: str
    where: Span
    sentence: int = 0
    line: int = -1
    key: str = ""


@dataclass(slots=True)
class Scope:
    """Everything declared so far."""

    points: dict[str, int] = field(default_factory=dict)
    names: dict[str, Named] = field(default_factory=dict)
    lines: list[Line] = field(default_factory=list)
    waiting_points: set[str] = field(default_factory=set)
    waiting_names: set[str] = field(default_factory=set)
    waiting_ends: set[tuple[str, str]] = field(default_factory=set)
    #: A piece that waits was to be moved: any primed letter may be one of its.
    primes_wait: bool = False
    #: A draft that was to be begun from is not to be had: any letter or name may be one of its.
    anything_waits: bool = False
    #: A line of the tapes could not be read: it may be the usual tape.
    tape_waits: bool = False
    #: Letters and names that two placed drafts both have.
    shared: set[str] = field(default_factory=set)
    #: Letters that nobody has made and that have been asked for.
    asked: set[str] = field(default_factory=set)
    #: The sentence that first makes each letter and name of the lesson, wherever it stands.
    first_made: dict[str, int] = field(default_factory=dict)
    #: The sentence being read.
    now: int = 0
    #: Whether a sentence was to begin the draft and could not be read.
    begun: bool = False
    #: Whether the draft is net, or holds its seams.
    net: bool = True

    def made_below(self, name: str) -> int:
        """The sentence below the one being read that makes a letter or name; 0 when there is none."""
        found = self.first_made.get(name, 0)
        return found if found > self.now else 0

    def curves_between(self, a: str, b: str) -> list[Line]:
        """The drawn lines that are not straight and have these two ends, either way round."""
        return [x for x in self.lines if x.sort != "straight" and x.ends in {(a, b), (b, a)}]

    def straight_between(self, a: str, b: str) -> Line | None:
        """A straight line drawn between two points, the last of them."""
        found = [x for x in self.lines if x.sort == "straight" and x.ends in {(a, b), (b, a)}]
        return found[-1] if found else None

    def known_names(self, sorts: Iterable[str]) -> list[str]:
        """The names of some sorts."""
        wanted = set(sorts)
        return [n.name for n in self.names.values() if n.sort in wanted]

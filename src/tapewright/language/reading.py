"""What has been read so far of a lesson, and what everything that reads one shares."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from tapewright.diagnostics import Query, Source, Span, question
from tapewright.language.clause import BY_LEAD
from tapewright.language.lesson import Lesson, ShapeEntry, TableEntry
from tapewright.language.memory import Memory
from tapewright.language.tokens import Names

#: Gives the text of a draft by its title.
Finder = Callable[[str], Source | None]

KNOWN_CLOTHS = ("cloth", "lining", "interlining", "canvas", "calico", "toile")
KNOWN_PLACES = ("centre back", "centre front")


@dataclass(slots=True)
class Reading:
    """What has been read so far."""

    source: Source
    names: Names = field(default_factory=lambda: Names((*KNOWN_CLOTHS, *KNOWN_PLACES)))
    points: set[str] = field(default_factory=set)
    queries: list[Query] = field(default_factory=list)
    find: Finder | None = None
    within: tuple[str, ...] = ()
    placed: dict[str, Lesson] = field(default_factory=dict)
    tables: list[TableEntry] = field(default_factory=list)
    shapes: list[ShapeEntry] = field(default_factory=list)
    memory: Memory | None = None
    #: Names of list lines and tables that could not be read, each with its list: whoever uses them waits.
    unread: list[tuple[str, str]] = field(default_factory=list)
    #: The headings there are, in small letters.
    heads: set[str] = field(default_factory=set)

    def ask(self, query: Query, number: int | None = None) -> None:
        self.queries.append(query.at(self.source.name, number))


def free(reading: Reading, name: str, span: Span, number: int | None) -> bool:
    """Whether a name may be used; asks when it could never be told from the language's own words."""
    words = name.split()
    first = words[0]
    if first in BY_LEAD or first in {"if", "when"} or first[0].isdigit():
        why = f"A name may not begin with “{first}”, since a sentence could not be told from it."
        help_ = "Try another name, or another word before it."
    elif len(words) == 1 and (first in RESERVED):
        why = f"“{first}” is a word of the language and cannot be a name by itself."
        help_ = "Try another name, or a second word with it."
    else:
        return True
    reading.ask(question("name-not-free", why, span, help=help_), number)
    return False


RESERVED = frozenset(
    (
        "up down left right across toward along from to on at by with of half third quarter and plus "
        "less part parts times twice once rest level plumb square corner curve outline between within "
        "grain fold cross nothing everywhere elsewhere"
    ).split()
)

"""Looking up letters, names and lines for one clause; every slip is asked about.

What the clause reads and makes is noted as it goes. `waits` is set when it rests on something that itself
waits, in which case nothing is asked.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from tapewright.diagnostics import Answer, Kind, Query, Source, Span, did_you_mean, question
from tapewright.language import tree
from tapewright.language.lesson import TableEntry
from tapewright.language.list_lines import list_line, unlisted
from tapewright.language.reading import KNOWN_PLACES
from tapewright.language.references import UNIT_WORDS
from tapewright.language.tree import CurveBetween, NameRef, NewName, NewPoint, PointRef, Ruler, Unknown
from tapewright.plan.form import Dimension, Form, Linear
from tapewright.plan.plan import Key, LineKey, Straight, Tape
from tapewright.plan.scope import SORTS, Named, Scope

#: How a name of each sort comes to be, for one that is not known.
HOW_NAMED = {
    "length": "Name a measure of the list, a tape, a value by eye, or an amount made by Let.",
    "line": "A line gets its name where it is drawn: Join A to B; call it the hem.",
    "place": "A place is said by Begin: Begin at A, with the centre back on the left.",
    "tape": "A tape stands in the list of tapes: - bust tape: the bust in 48 parts",
    "table": "A table stands under a heading of its own: ## Table: the boys' sizes",
    "choice": "A choice stands in the By eye list: - figure: usual or stout",
    "cloth": "A cloth stands in the Cloth list by its name alone: - wool. Its width is a line of its own.",
    "outline": "An outline is made by Let: Let the back be the outline A to B, to C, to A.",
    "dart": "A dart gets its name where it is taken out: Take out ...; call it the front dart.",
    "unknown": "What is to be found is said first: Let the crown height be found between 4 cm and 15 cm.",
}


def _within(words: str, known: Iterable[str]) -> tuple[str, ...]:
    """The known names that stand in some words, or in which the words stand, the longest first."""
    padded = f" {words} "
    found = [n for n in known if f" {n} " in padded or padded in f" {n} "]
    return tuple(sorted(found, key=len, reverse=True)[:4])


def _lettered(name: str) -> str:
    """A letter with its article, as it is read aloud: `a B`, `an A`."""
    return f"{'an' if name[0] in 'AEFHILMNORSX' else 'a'} {name}"


def _line_start(text: Source, at: int) -> Span:
    """The place where the sentences of an item's first line begin, behind its number."""
    start = text.text.rfind("\n", 0, at) + 1
    number = re.match(r"\s*\d+[.)]\s+", text.text[start:at])
    start += number.end() if number is not None else 0
    return Span(start, start)


@dataclass(slots=True)
class Lookup:
    """Letters, names and lines of one clause."""

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
    tables: dict[str, TableEntry] = field(default_factory=dict)
    #: The text of the lesson, if it is that which is being read; lines may be added to its lists.
    text: Source | None = None
    #: What an amount in the slot being read must be; None where it may be either.
    wanted: Dimension | None = None

    def ask(self, query: Query) -> None:
        """Note a query about this clause."""
        self.queries.append(query)

    def questioned(self) -> bool:
        """Whether anything asked so far waits for an answer."""
        return bool(self.queries) and any(q.kind is Kind.QUESTION for q in self.queries)

    def point(self, ref: PointRef) -> None:
        """A letter used."""
        name = ref.name
        if name in self.scope.waiting_points or (name.endswith("'") and self._prime_waits(name)):
            self.waits = True
        elif name in self.scope.shared:
            self.ask(
                question(
                    "which-draft",
                    f"Two of the drafts begun from have {_lettered(name)}.",
                    ref.span,
                    help="Say whose is meant, by the name of its draft.",
                    answers=[
                        Answer(f"the {p}", f"the {p}") for p in self.scope.points if p.endswith(f"'s {name}")
                    ],
                )
            )
        elif name in self.scope.points:
            self.reads[f"point {name}"] = None
        elif self.scope.anything_waits or name in self.scope.asked:
            # A letter that is wanting is asked for once, where it is first used.
            self.waits = True
        elif not any(new.name == name for new in self.new_points):
            self.scope.asked.add(name)
            if not (self.scope.points or self.scope.waiting_points or self.scope.made_below(name)):
                # That nothing was begun is asked once, not letter by letter.
                if self.scope.begun or self.scope.asked != {name}:
                    self.waits = True
                else:
                    self.ask(self._not_begun(ref))
                return
            near = did_you_mean(name, self.scope.points) if len(name) > 1 else ()
            below = self.scope.made_below(name)
            said = f" It is first made by sentence {below}, below." if below else ""
            help_ = "A letter is made before it is used."
            if below:
                help_ = f"Try moving this below sentence {below}, or take another letter."
            self.ask(
                question(
                    "letter-unknown",
                    f"There is no {name} yet.{said}",
                    ref.span,
                    help=help_,
                    answers=[Answer(f"Did you mean {p}?", p) for p in near],
                )
            )

    def _not_begun(self, ref: PointRef) -> Query:
        """The question about the first letter of a draft that no sentence begins."""
        first = f"Begin at {ref.name}, with the centre back on the left."
        place = None if self.text is None else _line_start(self.text, ref.span.start)
        return question(
            "begin",
            f"No sentence has begun the draft yet, so there is no {ref.name}.",
            ref.span,
            help="The first sentence puts the first letter on the paper, and says what lies on which side of it.",
            answers=[Answer(first, None if place is None else f"{first} ", place)],
        )

    def _prime_waits(self, name: str) -> bool:
        return self.scope.primes_wait and name not in self.scope.points

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
            near = did_you_mean(ref.name, self.scope.known_names(sorts))
            wanted = "a length" if "amount" in sorts else " or ".join(SORTS[s] for s in sorts)
            help_ = HOW_NAMED["length" if "amount" in sorts else sorts[0]]
            if sorts == ("tape",) and found.sort in {"measure", "amount"}:
                help_ = f"A tape of it stands in the list under Tapes: - {ref.name} tape: the {ref.name} in 48 parts"
            self.ask(
                question(
                    "another-sort",
                    f"The {ref.name} is {SORTS[found.sort]}; here the table expects {wanted}.",
                    ref.span,
                    help="" if near else help_,
                    answers=[Answer(f"Did you mean the {n}?", n) for n in near],
                )
            )
            return None
        self.reads[found.key or f"name {ref.name}"] = None
        return found

    def line_or_outline(self, node: tree.Path) -> None:
        """A line, or a piece: what another is laid against."""
        named = self.scope.names.get(getattr(node, "name", ""))
        if isinstance(node, NameRef) and named is not None and named.sort == "outline":
            self.named(node, ("outline",))
        else:
            self.path(node)

    def unknown(self, ref: Unknown, sorts: tuple[str, ...]) -> None:
        """Words that are no known name: asked about, with the nearest names of the fitting sorts."""
        if ref.words in self.scope.waiting_names or self.scope.anything_waits:
            self.waits = True
            return
        known = self.scope.known_names(sorts)
        near = did_you_mean(ref.words, known) or _within(ref.words, known)
        length = bool(set(sorts) & {"measure", "amount", "tape", "by eye"})
        what = "length" if length else SORTS[sorts[0]].split(" ", 1)[1]
        message = f"I know no such {what} as “the {ref.words}”."
        help_ = "" if near else HOW_NAMED["length" if length else sorts[0]]
        below = self.scope.made_below(ref.words)
        if length and ref.words.split()[-1] in UNIT_WORDS:
            message = f"I cannot read the number in “{ref.words}”."
            help_ = "Write it in figures, such as 13 cm or 1 1/2 in; in words as far as twelve."
        elif below:
            message = f"There is no {ref.words} yet. It is first made by sentence {below}, below."
            help_, near = f"Try moving this below sentence {below}.", ()
        answers = [Answer(f"Did you mean the {n}?", n) for n in near]
        if not below and (line := unlisted(ref.words, sorts)) is not None:
            message, under, said = line
            help_ = f"If it is meant, add a line to the list under {under}: “{said}”."
            if self.text is not None:
                answers.append(list_line(self.text, under, said))
        self.ask(question("name-unknown", message, ref.span, help=help_, answers=answers))

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
        ends = {(a.name, b.name), (b.name, a.name)}
        if ends & self.scope.waiting_ends or self._prime_waits(a.name) or self._prime_waits(b.name):
            self.waits = True
        elif not found:
            straight = f"{a.name}-{b.name}"
            help_ = f"The straight way between them is {straight}; a curve is drawn by: Draw a curve from"
            self.ask(
                question(
                    "no-such-curve",
                    f"No curve was drawn from {a.name} to {b.name}.",
                    span,
                    help=f"{help_} {a.name} to {b.name}.",
                )
            )
        else:
            self.ask(
                question(
                    "several-curves",
                    f"{len(found)} curves run from {a.name} to {b.name}.",
                    span,
                    help="Say the one you mean by its name.",
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
                help="Say up, down, left or right on this paper, or toward a letter or a place.",
                answers=[f"toward the {p}" for p in places],
            )
        )

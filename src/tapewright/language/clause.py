"""A clause: one thing said, and the table of kinds it may be.

Each kind is a small frozen class in `sentences/`, one file a kind: its leading words, its template, its
slots as fields. `@sentence` compiles the template and enters the kind under its leading words. What a
clause *means* lives in its twin in `draft/sentences/`; a test matches the two registries.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from types import MappingProxyType
from typing import Any, ClassVar, TypeVar

from tapewright.diagnostics import Span
from tapewright.language.pattern import (
    Choice,
    Element,
    Expected,
    Flag,
    Maybe,
    Row,
    Several,
    Slot,
    Stream,
    Style,
    joined,
)
from tapewright.language.rewording import reworded
from tapewright.language.slots import KINDS
from tapewright.language.templates import compile_template
from tapewright.language.tokens import Sort, Token, name_of
from tapewright.language.tree import Edge, PointRef, where


@dataclass(frozen=True, slots=True)
class Drawn:
    """A line that a clause draws: what sort it is and the letters at its ends.

    `ends` is None for a line without ends, such as a whole circle. `sort` is straight, curve, arc or
    circle; where it is drawn `like` another line, a curve if that one is bent.
    """

    sort: str
    ends: tuple[str, str] | None
    like: Edge | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Clause:
    """What every clause has. `then` tells that it followed a semicolon."""

    kind: ClassVar[str] = ""
    leads: ClassVar[tuple[str, ...]] = ()
    template: ClassVar[str] = ""
    yields: ClassVar[str] = ""
    carries_on: ClassVar[bool] = False
    #: What the names it makes stand for, and what the names in its name slots must stand for.
    naming: ClassVar[str] = ""
    #: What `call it` names after this clause: the line it drew, or the dart as a whole.
    called: ClassVar[str] = "line"
    wants: ClassVar[Mapping[str, str]] = MappingProxyType({})
    pattern: ClassVar[Element]

    span: Span = where()
    then: bool = False

    def drawn(self) -> tuple[Drawn, ...]:
        """The lines this clause draws, in order; the start is filled in by then."""
        return ()

    def also_makes(self) -> tuple[str, ...]:
        """Letters made without being written: copies, primed."""
        return ()

    def starting(self, last: PointRef) -> Clause:
        """The clause with its start filled in by the last point made; only those that carry on have one."""
        return self


K = TypeVar("K", bound=type[Clause])

BY_LEAD: dict[str, list[type[Clause]]] = {}
BY_KIND: dict[str, type[Clause]] = {}


def sentence(cls: K) -> K:
    """Enter a kind of clause: compile its template and list it under its leading words."""
    cls.pattern = compile_template(cls.template, KINDS)
    if cls.kind in BY_KIND:
        raise ValueError(f"two kinds of sentence are called {cls.kind}")
    BY_KIND[cls.kind] = cls
    for lead in cls.leads:
        BY_LEAD.setdefault(lead.lower(), []).append(cls)
    return cls


def slot_kinds(cls: type[Clause]) -> dict[str, str]:
    """Each slot of a kind of clause and the kind of that slot, in order of the template."""
    found: dict[str, str] = {}

    def walk(element: Element) -> None:
        match element:
            case Slot(name, kind_name) | Several(name, kind_name):
                found[name] = kind_name
            case Row(pieces) | Choice(pieces):
                for piece in pieces:
                    walk(piece)
            case Maybe(piece):
                walk(piece)
            case Flag(name):
                found[name] = "flag"

    walk(cls.pattern)
    return found


@dataclass(frozen=True, slots=True)
class Unread:
    """A clause that could not be read: where reading stuck, what was wanted, and what it would have made.

    `stuck` is the token in the way, None at the end of the clause. `points` and `names` are declared all
    the same, so that one slip does not make ten.
    """

    span: Span
    lead: str
    stuck: Token | None
    read: Span
    wanted: tuple[Expected, ...]
    points: tuple[str, ...]
    names: tuple[str, ...]


def read_clause(
    tokens: list[Token], *, then: bool, known_points: frozenset[str] | set[str]
) -> Clause | Unread:
    """One clause from its tokens (closing mark taken off, names merged). Never raises on user text."""
    start = 1 if tokens and tokens[0].text == "then" and tokens[0].sort is Sort.WORD and then else 0
    body = reworded(tokens[start:])
    span = _span(tokens)
    lead = body[0].text if body and body[0].sort is Sort.WORD else ""
    kinds = list(BY_LEAD.get(lead, ()))
    if then:
        kinds += [k for k in BY_KIND.values() if k.carries_on and k not in kinds]
    best: Stream | None = None
    for kind in kinds:
        stream = Stream(body)
        values = _match(kind, stream)
        if values is not None:
            return kind(span=span, then=then, **values)
        if best is None or stream.farthest > best.farthest:
            best = stream
        elif stream.farthest == best.farthest:
            best.wanted += [w for w in stream.wanted if w not in best.wanted]
    return unread_from(body, span, lead if kinds else "", best, known_points)


def expected_next(tokens: list[Token], *, then: bool) -> list[Expected]:
    """What could stand after the tokens of a clause that is being written, names merged; all kinds together."""
    start = 1 if tokens and tokens[0].text == "then" and tokens[0].sort is Sort.WORD and then else 0
    body = tokens[start:]
    lead = body[0].text if body and body[0].sort is Sort.WORD else ""
    kinds = list(BY_LEAD.get(lead, ()))
    if then:
        kinds += [k for k in BY_KIND.values() if k.carries_on and k not in kinds]
    found: dict[Expected, None] = {}
    for kind in kinds:
        stream = Stream(body)
        _match(kind, stream)
        if stream.farthest == len(body):
            found |= dict.fromkeys(stream.wanted)
    if then and not body:
        found |= {Expected(words=lead): None for lead in ("then", *BY_LEAD)}
    return list(found)


def _match(kind: type[Clause], stream: Stream) -> dict[str, Any] | None:
    """The slots of a clause of a kind, if all of it can be read so."""
    out: list[tuple[str, Any]] = []
    tokens = stream.tokens
    end = kind.pattern.match(stream, 0, out)
    if end < 0:
        return None
    if end < len(tokens):
        stream.want(end, Expected(words="."))
        return None
    # Only completion reads this: where a whole clause ends, it may end.
    stream.want(end, Expected(words="."))
    return dict(out)


def _span(tokens: list[Token]) -> Span:
    if not tokens:
        return Span(0, 0)
    return tokens[0].span.to(tokens[-1].span)


def unread_from(
    body: list[Token], span: Span, lead: str, best: Stream | None, known: frozenset[str] | set[str]
) -> Unread:
    """What could not be read of a clause, with what it would have made."""
    stuck = best.token(best.farthest) if best is not None else (body[0] if body else None)
    at = body.index(stuck) if stuck is not None and stuck in body else len(body)
    read = body[0].span.to(body[at - 1].span) if at > 0 else Span(span.start, span.start)
    points = tuple(
        dict.fromkeys(t.points[0] for t in body if t.sort is Sort.POINT and t.points[0] not in known)
    )
    wanted = tuple(best.wanted) if best is not None else ()
    return Unread(span, lead, stuck, read, wanted, points, tuple(_declared(body)))


def _declared(body: list[Token]) -> list[str]:
    """The names a clause would have made, found by the words that make names."""
    found: list[str] = []

    def run(at: int, stop: frozenset[str]) -> str:
        start = at
        while at < len(body):
            token = body[at]
            if token.sort not in {Sort.WORD, Sort.NAME, Sort.NUMBER} or token.text in stop:
                break
            at += 1
        return name_of(body[start:at])

    none: frozenset[str] = frozenset()
    for i, token in enumerate(body):
        if token.sort is not Sort.WORD:
            continue
        if token.text == "call" and i + 1 < len(body) and body[i + 1].text == "it":
            found.append(run(i + 2, none))
        elif token.text == "let" and (i == 0 or body[0].text in {"if", "when"}):
            found.append(run(i + 1, frozenset({"be"})))
        elif token.text == "as" and body[0].text == "divide":
            found.append(run(i + 1, frozenset({"and"})))
    return [name for name in found if name]


def show_clause(clause: Clause, style: Style) -> str:
    """A clause in house style, without its closing mark."""
    values = {f.name: getattr(clause, f.name) for f in fields(clause)}
    words = clause.pattern.show(values, style)
    if words is None:
        raise ValueError(f"a {clause.kind} clause cannot be printed: its slots do not fill its template")
    return joined(words).replace("a easy ", "an easy ")


Printer = Callable[[Clause, Style], str]

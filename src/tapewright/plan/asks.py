"""What a kind of sentence asks of itself, beyond its letters and names: one short function a kind.

These need no body: how many letters go with how many lengths, a side that was not said, an outline that
does not close. Each returns queries; a question among them makes the sentence wait.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import TypeVar

from tapewright.diagnostics import Answer, Query, Span, question
from tapewright.language import sentences as s
from tapewright.language.clause import Clause
from tapewright.language.saying import show_path
from tapewright.language.tree import (
    AlongLine,
    AtAngle,
    Compass,
    Constant,
    Offset,
    Rest,
    Ruler,
    Share,
    SquareTo,
    Times,
    Way,
)
from tapewright.plan.scope import Scope

C = TypeVar("C", bound=Clause)
Asker = Callable[[Clause, Scope], Iterator[Query]]

ASKS: dict[str, Asker] = {}


def asks(
    kind: type[C],
) -> Callable[[Callable[[C, Scope], Iterator[Query]]], Callable[[C, Scope], Iterator[Query]]]:
    """Enter a function under its kind of sentence."""

    def enter(function: Callable[[C, Scope], Iterator[Query]]) -> Callable[[C, Scope], Iterator[Query]]:
        ASKS[kind.kind] = function  # type: ignore[assignment]
        return function

    return enter


def ask_about(clause: Clause, scope: Scope) -> list[Query]:
    """All that a clause asks of itself."""
    asker = ASKS.get(clause.kind)
    return [] if asker is None else list(asker(clause, scope))


def _side(way: Way | None) -> Iterator[Query]:
    if isinstance(way, SquareTo | AtAngle) and way.toward is None:
        word = "square to it" if isinstance(way, SquareTo) else "at that angle"
        yield question(
            "which-side",
            f"Two ways lie {word}, one to each side.",
            way.span,
            help="Say toward which letter or place.",
        )


@asks(s.From)
def _from(clause: s.From, scope: Scope) -> Iterator[Query]:
    way, reach, news = clause.way, clause.reach, clause.news
    yield from _side(way)
    offsets = [r for r in reach if isinstance(r, Offset)]
    both = isinstance(way, AlongLine) and way.both
    if len(clause.starts) > 1 and len(clause.starts) != len(news):
        yield question(
            "letters-and-lengths",
            f"{len(clause.starts)} letters to start from, {len(news)} new ones.",
            clause.span,
        )
        return
    if offsets:
        yield from _offsets(clause, offsets)
        return
    if both and len(news) != 2:
        yield question("both-ways", "Both ways make two points; give two letters.", clause.span)
        return
    if way is None and clause.end is None:
        yield question(
            "no-way",
            f"Which way from {clause.starts[0].name if clause.starts else 'here'} to {news[0].name}?",
            clause.span,
            help="Say down, across, toward a letter, or along a line.",
        )
        return
    if not reach and clause.end is None:
        yield question(
            "how-far",
            f"How far is {news[0].name}?",
            clause.span,
            help="End the sentence with a length (`: 5 cm`) or a line (`on the hem line`).",
        )
        return
    if reach and len(reach) not in {1, len(news)}:
        if (
            len(news) == 1
            and len(reach) == 2
            and isinstance(reach[0], Times)
            and isinstance(reach[1], Constant)
        ):
            yield question(
                "and-after-a-reading",
                "After a reading, “and” adds parts of the same tape.",
                reach[1].span,
                help="Try plus in place of and, or give the second in parts.",
                answers=[Answer("plus", None)],
            )
            return
        yield question(
            "letters-and-lengths",
            f"{len(news)} {'letter' if len(news) == 1 else 'letters'}, but {len(reach)} lengths.",
            clause.span,
            help="Give one length for all, or one for each letter in their order.",
        )
    if clause.end is not None and len(news) != 1:
        yield question("letters-and-lengths", "One line is met in one point; give one letter.", clause.span)


def _offsets(clause: s.From, offsets: list[Offset]) -> Iterator[Query]:
    if (
        len(offsets) != len(clause.reach)
        or len(offsets) > 2
        or len(clause.news) != 1
        or clause.way is not None
    ):
        yield question(
            "two-offsets",
            "A point by two offsets has two lengths, each with its own way.",
            clause.span,
            help="Such as: From A to B: 1/2 in left and 1 in down.",
        )
        return
    ways = [o.way.word for o in offsets if isinstance(o.way, Compass)]
    level = [w for w in ways if w in {"left", "right", "across"}]
    if len(level) > 1 or len(ways) - len(level) > 1:
        yield question("two-offsets", "Both lengths go along one direction.", clause.span)


@asks(s.Square)
def _square(clause: s.Square, scope: Scope) -> Iterator[Query]:
    yield from _side(clause.way)
    if clause.start2 is not None:
        if clause.way is None or clause.end is not None or clause.reach is not None:
            yield question(
                "square", "The corner of a rectangle is made by two lines and needs no more.", clause.span
            )
        return
    if clause.way is None and clause.end is None:
        yield question("no-way", "Square which way, or to which line?", clause.span)
    elif clause.end is None and clause.reach is None:
        yield question(
            "how-far",
            f"Where does the square end at {clause.new.name}?",
            clause.span,
            help="Say on which line, or how far.",
        )


@asks(s.Carry)
def _carry(clause: s.Carry, scope: Scope) -> Iterator[Query]:
    if clause.past is None:
        yield question("no-end", "Beyond which end is it carried on?", clause.line.span)
    elif isinstance(clause.line, Ruler) and clause.past.name not in {clause.line.a.name, clause.line.b.name}:
        yield question(
            "no-end", f"{clause.past.name} is no end of {show_path(clause.line)}.", clause.past.span
        )
    elif clause.end is None and clause.reach is None:
        yield question("how-far", f"How far is {clause.new.name}?", clause.span)


@asks(s.Touch)
def _touch(clause: s.Touch, scope: Scope) -> Iterator[Query]:
    if clause.toward is None:
        yield question(
            "which-side", "On which side does it touch?", clause.span, help="Such as: toward the centre back."
        )


@asks(s.QuarterRound)
def _quarter_round(clause: s.QuarterRound, scope: Scope) -> Iterator[Query]:
    corner = clause.corner
    if {clause.start.name, clause.stop.name} != {corner.a.name, corner.c.name}:
        yield question(
            "corner-ends",
            f"A quarter round in that corner goes from {corner.a.name} to {corner.c.name}.",
            corner.span,
        )


@asks(s.Cone)
def _cone(clause: s.Cone, scope: Scope) -> Iterator[Query]:
    if {clause.a.name, clause.b.name} != {clause.slant.a.name, clause.slant.b.name}:
        yield question(
            "cone-ends",
            f"The two lengths stand at {clause.slant.a.name} and {clause.slant.b.name}, the ends of the slant.",
            clause.span,
        )


@asks(s.LetOut)
def _let_out(clause: s.LetOut, scope: Scope) -> Iterator[Query]:
    if clause.at.name == clause.nothing.name:
        yield question("one-point", "An edge is moved at one letter and left at another.", clause.at.span)


@asks(s.Divide)
def _divide(clause: s.Divide, scope: Scope) -> Iterator[Query]:
    if clause.parts is None:
        return
    wanted = clause.parts - 1
    if clause.parts < 2 or len(clause.news) != wanted:
        given = len(clause.news)
        yield question(
            "letters-and-parts",
            f"{clause.parts} parts need {wanted} {'letter' if wanted == 1 else 'letters'}; you gave {given}.",
            clause.span,
        )


@asks(s.Share)
def _share(clause: s.Share, scope: Scope) -> Iterator[Query]:
    total = Fraction(0)
    rests = 0
    plain = True
    for portion in clause.portions:
        match portion.share:
            case Share(factor):
                total += factor
            case Rest():
                rests += 1
            case _:
                plain = False
    if rests > 1:
        yield question("shares", "Only one share can be the rest.", clause.span)
    elif total > 1:
        yield question("shares", "These shares come to more than the whole.", clause.span)
    elif rests and plain and total == 1:
        yield question("shares", "Nothing is left for the rest.", clause.span)
    elif not rests and plain and total < 1:
        yield question(
            "shares", "These shares come to less than the whole.", clause.span, help="Give the rest a name."
        )


@asks(s.Curve)
def _curve(clause: s.Curve, scope: Scope) -> Iterator[Query]:
    letters = [k.name for k in clause.knots()]
    for leaning in clause.leanings:
        name = leaning.point.name
        place = {"leaving": letters[0], "reaching": letters[-1]}.get(leaning.verb)
        if place is not None and name != place:
            yield question(
                "leaning",
                f"The curve {'leaves' if leaning.verb == 'leaving' else 'reaches'} {place}, not {name}.",
                leaning.span,
            )
        elif leaning.verb == "passing" and name not in letters[1:-1]:
            yield question("leaning", f"The curve does not pass through {name}.", leaning.span)
    if len(set(letters)) != len(letters):
        yield question("letter-twice-in-curve", "The curve comes to one letter twice.", clause.span)


@asks(s.Hollow)
def _hollow(clause: s.Hollow, scope: Scope) -> Iterator[Query]:
    if clause.toward is None:
        yield question(
            "which-side",
            "To which side?",
            clause.depth.span,
            help="Say toward a letter that lies on that side.",
        )


@asks(s.Parallel)
def _parallel(clause: s.Parallel, scope: Scope) -> Iterator[Query]:
    if not isinstance(clause.reach, Offset):
        yield question(
            "which-side",
            "To which side, and which way?",
            clause.reach.span,
            help="Such as: Draw C-D parallel to A-B, 4 in down.",
        )


@asks(s.Outline)
def _outline(clause: s.Outline, scope: Scope) -> Iterator[Query]:
    first, last = clause.start.name, clause.runs[-1].to.name
    if first != last:
        yield question(
            "outline-open",
            f"The outline begins at {first} and ends at {last}; it does not close.",
            clause.span,
            help=f"End it with: to {first}.",
        )
        return
    at = first
    for run in clause.runs:
        if run.by is None:
            yield from _straight_or_curve(at, run.to.name, run.span, scope)
        at = run.to.name


def _straight_or_curve(a: str, b: str, span: Span, scope: Scope) -> Iterator[Query]:
    """The straight way, where a curve of the same ends was drawn and no straight line was named."""
    curves = scope.curves_between(a, b)
    straight = scope.straight_between(a, b)
    if not curves or (straight is not None and straight.name):
        return
    names = [c.name for c in curves if c.name]
    by = [f"to {b} by the {n}" for n in names]
    yield question(
        "straight-or-curve",
        f"{'The ' + names[0] if names else 'A curve'} was drawn from {a} to {b}, "
        "and you have written the straight way.",
        span,
        help="If you do mean straight, join them and name that line.",
        answers=by,
    )


@asks(s.Cut)
def _cut(clause: s.Cut, scope: Scope) -> Iterator[Query]:
    if not clause.turnings:
        yield question(
            "how-much-outside",
            "How much outside the line?",
            clause.outline.span,
            help="Say what is left for the turnings, or leaving nothing everywhere.",
            answers=[Answer("leaving 1.5 cm everywhere", None), Answer("leaving nothing everywhere", None)],
        )


@asks(s.Pivot)
def _pivot(clause: s.Pivot, scope: Scope) -> Iterator[Query]:
    names = [p.name for p in clause.points]
    if clause.pivot.name in names:
        yield question("pivot", f"{clause.pivot.name} is the pivot and stays.", clause.pivot.span)
    if clause.moving is not None and clause.moving.name not in names:
        yield question(
            "pivot", f"{clause.moving.name} is not among the points that turn.", clause.moving.span
        )
    if clause.line is not None and clause.pivot.name not in {clause.line.a.name, clause.line.b.name}:
        yield question(
            "pivot",
            f"A point turned about {clause.pivot.name} comes to a line through {clause.pivot.name}; "
            f"{show_path(clause.line)} does not begin there.",
            clause.line.span,
        )


@asks(s.Sweep)
def _sweep(clause: s.Sweep, scope: Scope) -> Iterator[Query]:
    if clause.start is not None and clause.start.name == clause.pivot.name:
        yield question("sweep", "The sweep begins at its own pivot.", clause.start.span)

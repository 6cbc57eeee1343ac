"""What a sentence that draws or bends a line asks of itself: its ends, its letters, its side."""

from __future__ import annotations

from collections.abc import Iterator

from tapewright.diagnostics import Query, question
from tapewright.language import sentences as s
from tapewright.language.tree import (
    Offset,
)
from tapewright.plan.asks.table import asks
from tapewright.plan.scope import Scope


@asks(s.QuarterRound)
def _quarter_round(clause: s.QuarterRound, scope: Scope) -> Iterator[Query]:
    corner = clause.corner
    if {clause.start.name, clause.stop.name} != {corner.a.name, corner.c.name}:
        yield question(
            "corner-ends",
            f"A quarter round in that corner goes from {corner.a.name} to {corner.c.name}, "
            f"not from {clause.start.name} to {clause.stop.name}.",
            corner.span,
            help="It begins at the end of one arm of the corner and ends at the end of the other.",
        )


@asks(s.Cone)
def _cone(clause: s.Cone, scope: Scope) -> Iterator[Query]:
    if {clause.a.name, clause.b.name} != {clause.slant.a.name, clause.slant.b.name}:
        yield question(
            "cone-ends",
            f"The two lengths stand at {clause.slant.a.name} and {clause.slant.b.name}, the ends of the slant, "
            f"not at {clause.a.name} and {clause.b.name}.",
            clause.a.span.to(clause.b.span),
            help=f"Such as: 36 in at {clause.slant.a.name} and 56 in at {clause.slant.b.name}.",
        )


@asks(s.LetOut)
def _let_out(clause: s.LetOut, scope: Scope) -> Iterator[Query]:
    if clause.at.name == clause.nothing.name:
        yield question(
            "one-point",
            f"An edge is moved at one letter and left at another; here both are {clause.at.name}.",
            clause.nothing.span,
            help="Let it come to nothing at the other end of the edge.",
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
                help="It leaves its first letter, reaches its last, and passes those between.",
            )
        elif leaning.verb == "passing" and name not in letters[1:-1]:
            said, help_ = f"The curve does not go through {name}.", f"Add it to its letters: through {name}."
            if name in letters:
                said = f"The curve ends at {name}, and passes only what lies between its ends."
                help_ = f"Say leaving {name}, or reaching {name}."
            yield question("leaning", said, leaning.span, help=help_)
    if len(set(letters)) != len(letters):
        again = next(k for i, k in enumerate(clause.knots()) if k.name in letters[:i])
        yield question(
            "letter-twice-in-curve",
            f"The curve comes to {again.name} twice.",
            again.span,
            help="A curve goes through each of its letters once; draw a closed line as two curves.",
        )


@asks(s.Hollow)
def _hollow(clause: s.Hollow, scope: Scope) -> Iterator[Query]:
    if clause.toward is None:
        yield question(
            "which-side",
            "To which side?",
            clause.depth.span,
            help=f"Say toward a letter or a place on that side, such as: {_side_of(clause, scope)}.",
        )


def _side_of(clause: s.Hollow, scope: Scope) -> str:
    """A side that a line may be bent to: the last letter made that is no end of it, or a place."""
    ends = {clause.line.a.name, clause.line.b.name}
    letter = next((p for p in reversed(scope.points) if p not in ends), "")
    place = next(iter(scope.known_names(("place",))), "centre front")
    return f"toward {letter}" if letter else f"toward the {place}"


@asks(s.Parallel)
def _parallel(clause: s.Parallel, scope: Scope) -> Iterator[Query]:
    if not isinstance(clause.reach, Offset):
        yield question(
            "which-side",
            "To which side, and which way?",
            clause.reach.span,
            help="Such as: Draw C-D parallel to A-B, 4 in down.",
        )


@asks(s.Sweep)
def _sweep(clause: s.Sweep, scope: Scope) -> Iterator[Query]:
    if clause.start is not None and clause.start.name == clause.pivot.name:
        yield question(
            "sweep",
            f"The sweep begins at {clause.start.name}, its own pivot.",
            clause.start.span,
            help=f"Begin it at a letter that stands away from {clause.pivot.name}.",
        )

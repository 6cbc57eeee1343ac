"""What a sentence that draws or bends a line asks of itself: its ends, its letters, its side."""

from __future__ import annotations

from collections.abc import Iterator

from tapewright.diagnostics import Query, question
from tapewright.language import sentences as s
from tapewright.language.saying import show_path
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
            f"A quarter round in that corner goes from {corner.a.name} to {corner.c.name}, along its two arms.",
            corner.span,
            help=f"Write it from {corner.a.name} to {corner.c.name}, or name the corner by other letters.",
        )


@asks(s.Cone)
def _cone(clause: s.Cone, scope: Scope) -> Iterator[Query]:
    if {clause.a.name, clause.b.name} != {clause.slant.a.name, clause.slant.b.name}:
        yield question(
            "cone-ends",
            f"The two lengths stand at {clause.slant.a.name} and {clause.slant.b.name}, the ends of the slant.",
            clause.a.span.to(clause.b.span),
            help=f"Write so much at {clause.slant.a.name} and so much at {clause.slant.b.name}.",
        )


@asks(s.LetOut)
def _let_out(clause: s.LetOut, scope: Scope) -> Iterator[Query]:
    if clause.at.name == clause.nothing.name:
        yield question(
            "one-point",
            f"An edge is moved at one letter and comes to nothing at another; here both are {clause.at.name}.",
            clause.nothing.span,
            help="Name another letter of that edge after “to nothing at”.",
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
                leaning.point.span,
                help=f"Write {leaning.verb} {place}, or {'begin' if place == letters[0] else 'end'} "
                f"the curve at {name}.",
            )
        elif leaning.verb == "passing" and name not in letters[1:-1]:
            yield question(
                "leaning",
                f"The curve does not pass through {name}.",
                leaning.point.span,
                help="Name a letter it was drawn through; at its ends it leaves and reaches.",
            )
    again = next((k for i, k in enumerate(clause.knots()) if k.name in letters[:i]), None)
    if again is not None:
        yield question(
            "letter-twice-in-curve",
            f"The curve comes to {again.name} twice.",
            again.span,
            help="Leave one of the two out. A closed line is drawn as two curves with the same ends.",
        )


@asks(s.Hollow)
def _hollow(clause: s.Hollow, scope: Scope) -> Iterator[Query]:
    if clause.toward is None:
        yield question(
            "which-side",
            f"To which side of {show_path(clause.line)}?",
            clause.depth.span,
            help=f"Say toward a letter or a place on that side, such as “{_side_of(clause, scope)}”.",
        )


def _side_of(clause: s.Hollow, scope: Scope) -> str:
    """A side that a line may be bent to: the last letter made that is no end of it, or a place."""
    ends = {clause.line.a.name, clause.line.b.name}
    letter = next((p for p in reversed(scope.points) if p not in ends), "")
    place = next(iter(scope.known_names(("place",))), "centre front")
    return f"toward {letter}" if letter else f"toward the {place}"


@asks(s.RoundCorner)
def _round_corner(clause: s.RoundCorner, scope: Scope) -> Iterator[Query]:
    corner = clause.corner
    for far in (corner.a.name, corner.c.name):
        curves = scope.curves_between(corner.b.name, far)
        if curves and scope.straight_between(corner.b.name, far) is None:
            called = f"the {curves[-1].name}" if curves[-1].name else "a curve"
            yield question(
                "curved-arm",
                f"From {corner.b.name} to {far} runs {called}, and a corner is rounded along two straight arms.",
                corner.span,
                help="Let the curve end at a letter short of the corner, with a straight way on, or draw it "
                "through the round itself.",
            )


@asks(s.Parallel)
def _parallel(clause: s.Parallel, scope: Scope) -> Iterator[Query]:
    if not isinstance(clause.reach, Offset):
        yield question(
            "which-side",
            "To which side, and which way?",
            clause.reach.span,
            help="Write it like this: Draw C-D parallel to A-B, 4 in down.",
        )


@asks(s.Sweep)
def _sweep(clause: s.Sweep, scope: Scope) -> Iterator[Query]:
    if clause.start is not None and clause.start.name == clause.pivot.name:
        yield question(
            "sweep",
            f"The sweep turns about {clause.pivot.name}, so it cannot begin there.",
            clause.start.span,
            help="Let it begin at a letter away from the pivot, or say by how much: Sweep about A by 5 cm.",
        )

"""What a sentence about outlines and pieces asks of itself: whether it closes, what is left outside, what turns."""

from __future__ import annotations

from collections.abc import Iterator

from tapewright.diagnostics import Answer, Query, Span, question
from tapewright.language import sentences as s
from tapewright.language.edges import show_edge
from tapewright.language.pattern import Style
from tapewright.language.saying import show_path
from tapewright.plan.asks.table import asks
from tapewright.plan.scope import Scope


@asks(s.Outline)
def _outline(clause: s.Outline, scope: Scope) -> Iterator[Query]:
    first, last = clause.start.name, clause.runs[-1].to.name
    if first != last:
        yield question(
            "outline-open",
            f"The outline begins at {first} and ends at {last}; it does not close.",
            clause.runs[-1].span,
            help=f"Add at its end: “, to {first}”.",
            answers=[Answer(f", to {first}", f", to {first}", Span(clause.span.end, clause.span.end))],
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
    by = [f"to {b} by the {n}" for n in names] or [f"to {b} by the curve {a}-{b}"]
    yield question(
        "straight-or-curve",
        f"{'The ' + names[0] if names else 'A curve'} was drawn from {a} to {b}, "
        "and you have written the straight way.",
        span,
        help="If you do mean straight, join them and name that line.",
        answers=by,
    )


@asks(s.Sew)
def _sew(clause: s.Sew, scope: Scope) -> Iterator[Query]:
    first = [show_edge(e, Style()) for e in clause.first]
    second = [show_edge(e, Style()) for e in clause.second]
    twice = next((said for said in first if said in second), None)
    if twice is not None:
        yield question(
            "sewn-to-itself",
            f"Here {twice} is sewn to itself.",
            clause.span,
            help="Two edges are sewn together, of two pieces or of one. An edge cut twice, left and right, is "
            "sewn to its own other side without a sentence.",
        )
        return
    if clause.eased is not None and clause.how is not None:
        eased = show_edge(clause.eased, Style())
        if eased not in first + second:
            yield question(
                "sewn-to-itself",
                f"{eased[:1].upper()}{eased[1:]} is neither of the edges that are sewn here.",
                clause.eased.span,
                help=f"Say which of them takes up what is over, {clause.how}.",
                answers=[*first, *second],
            )


@asks(s.Cut)
def _cut(clause: s.Cut, scope: Scope) -> Iterator[Query]:
    if not clause.turnings:
        drafted = "net" if scope.net else "with seams in it; what is left stands outside them"
        yield question(
            "how-much-outside",
            f"How much outside the line? The draft is {drafted}.",
            clause.outline.span,
            help="Say at the end what is left for the turnings.",
            answers=[
                Answer(one, f", {one}", Span(clause.span.end, clause.span.end))
                for one in ("leaving 1.5 cm everywhere", "leaving nothing everywhere")
            ],
        )


@asks(s.Pivot)
def _pivot(clause: s.Pivot, scope: Scope) -> Iterator[Query]:
    names = [p.name for p in clause.points]
    if clause.pivot.name in names:
        at = next(p.span for p in clause.points if p.name == clause.pivot.name)
        yield question(
            "pivot",
            f"{clause.pivot.name} is the pivot and stays where it is.",
            at,
            help="Leave it out of the letters that turn.",
        )
    if clause.moving is not None and clause.moving.name not in names:
        yield question(
            "pivot",
            f"{clause.moving.name} is not among the letters that turn.",
            clause.moving.span,
            help=f"Add {clause.moving.name} to them, or name one of them here.",
            answers=[n for n in names if n != clause.pivot.name],
        )
    if clause.line is not None and clause.pivot.name not in {clause.line.a.name, clause.line.b.name}:
        yield question(
            "pivot",
            f"A point turned about {clause.pivot.name} comes to a line through {clause.pivot.name}; "
            f"{show_path(clause.line)} does not begin there.",
            clause.line.span,
            help=f"Name a line from {clause.pivot.name}, such as {clause.pivot.name}-{clause.line.b.name}.",
        )

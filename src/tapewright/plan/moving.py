"""Outlines that are moved: which letters and edges a clause makes anew, known before any body.

A moved letter is the old one primed. Opening an outline moves only the part beyond each slash: the letters
between the slash and its hinge on the side away from the letter that stays.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tapewright.diagnostics import Query, Span, question
from tapewright.language import sentences as s
from tapewright.language.clause import Clause
from tapewright.language.tree import Ruler
from tapewright.plan.plan import MovedEdge, MovedLetter, Moving, OutlineEdge, OutlineShape, Slash
from tapewright.plan.scope import Scope

MOST_PRIMES = 2


@dataclass(slots=True)
class Failed(Exception):
    """A moving that cannot be, with the question to ask; never leaves the plan."""

    query: Query


Darts = Mapping[str, tuple[str, str, str]]


def moving_of(
    clause: Clause,
    outlines: Mapping[str, OutlineShape],
    darts: Darts,
    scope: Scope,
) -> Moving | None:
    """What a clause moves; None for a clause that moves no outline. Failed when it cannot be."""
    if isinstance(clause, s.TurnOver | s.Lay | s.PivotOutline) and clause.outline is not None:
        shape = outlines[getattr(clause.outline, "name", "")]
        new = {x: primed(x, scope, clause.span) for x in shape.letters()}
        letters = tuple(MovedLetter(old, made) for old, made in new.items())
        return Moving(shape, letters, _all_edges(shape, new), ())
    if isinstance(clause, s.Open):
        return _opened(clause, outlines[getattr(clause.outline, "name", "")], darts, scope)
    return None


def moved_shape(moving: Moving, key: str, lines: list[int]) -> OutlineShape:
    """The outline that a moving leaves: with the same edges, and the mouths of what was opened."""
    moved = {edge.index: (edge, lines[k]) for k, edge in enumerate(moving.edges)}
    edges: list[OutlineEdge] = []
    for i, edge in enumerate(moving.shape.edges):
        if i in moved:
            after, line = moved[i]
            edges.append(OutlineEdge(after.start, after.end, line))
        else:
            edges.append(edge)
    if not moving.slashes:
        return OutlineShape(key, tuple(edges))
    closed: list[OutlineEdge] = []
    for i, edge in enumerate(edges):
        closed.append(edge)
        following = edges[(i + 1) % len(edges)]
        if edge.end != following.start:
            closed += _mouth(moving, edge.end, following.start)
    return OutlineShape(key, tuple(closed))


def _mouth(moving: Moving, end: str, start: str) -> list[OutlineEdge]:
    """What joins two parts: straight across the mouth, or in to the hinge and out where a dart was moved."""
    plain = end.rstrip("'")
    for slash in moving.slashes:
        if slash.closing is not None and slash.at == plain == start.rstrip("'"):
            return [OutlineEdge(end, slash.hinge, -1), OutlineEdge(slash.hinge, start, -1)]
    return [OutlineEdge(end, start, -1)]


def primed(letter: str, scope: Scope, span: Span, also: tuple[str, ...] = ()) -> str:
    """The letter of a moved point: one prime more, or two where one is in use."""
    taken = {*scope.points, *scope.waiting_points, *also}
    name = letter + "'"
    while name in taken and name.count("'") < MOST_PRIMES:
        name += "'"
    if name in taken or name.count("'") > MOST_PRIMES:
        said = f"{letter} has been moved too often to be primed again."
        help_ = "A letter bears two primes at most. Move the piece once, the whole way."
        raise Failed(question("primes", said, span, help=help_))
    return name


def _all_edges(shape: OutlineShape, new: Mapping[str, str]) -> tuple[MovedEdge, ...]:
    return tuple(MovedEdge(i, new[e.start], new[e.end]) for i, e in enumerate(shape.edges))


def _opened(clause: s.Open, shape: OutlineShape, darts: Darts, scope: Scope) -> Moving:
    letters = shape.letters()
    if clause.still.name not in letters:
        raise Failed(_not_on(clause.still.name, clause.still.span))
    slashes = [_slash(clause, shape, ruler, darts) for ruler in clause.slashes]
    for slash in slashes:
        if clause.still.name in {slash.at, slash.hinge}:
            raise Failed(
                question(
                    "still-on-slash",
                    f"{clause.still.name} lies on a slash and cannot stay still.",
                    clause.still.span,
                    help="Name a letter of the outline that is on no slash; what lies on its side of them stays.",
                )
            )
    # The innermost part turns first, then whatever it lies in.
    slashes.sort(key=lambda one: len(one.edges))
    letters_of: dict[tuple[str, tuple[int, ...]], str] = {}
    edges: list[MovedEdge] = []
    for i, edge in enumerate(shape.edges):
        by = tuple(k for k, one in enumerate(slashes) if i in one.edges)
        ends = []
        for letter in (edge.start, edge.end):
            # A hinge stays where it is when its own slash opens.
            moves = tuple(k for k in by if slashes[k].hinge != letter)
            key = (letter, moves)
            if key not in letters_of:
                also = tuple(letters_of.values())
                letters_of[key] = primed(letter, scope, clause.span, also) if moves else letter
            ends.append(letters_of[key])
        if by:
            edges.append(MovedEdge(i, ends[0], ends[1], by))
    moved = tuple(MovedLetter(old, new, by) for (old, by), new in letters_of.items() if by)
    return Moving(shape, moved, tuple(edges), tuple(slashes))


def _slash(clause: s.Open, shape: OutlineShape, ruler: Ruler, darts: Darts) -> Slash:
    letters = shape.letters()
    at, hinge, span = ruler.a.name, ruler.b.name, ruler.span
    for letter in (at, hinge):
        if letter not in letters:
            raise Failed(_not_on(letter, span))
    n = len(letters)
    i, j = letters.index(at), letters.index(hinge)
    forward = tuple(letters[(i + k) % n] for k in range(1, (j - i) % n))
    onward = clause.still.name not in forward
    if onward:
        beyond, edges = forward, tuple((i + k) % n for k in range((j - i) % n))
    else:
        beyond = tuple(letters[(i - k) % n] for k in range(1, (i - j) % n))
        edges = tuple((j + k) % n for k in range((i - j) % n))
    return Slash(at, hinge, beyond, edges, onward, _closing(clause, hinge, beyond, darts, span))


def _closing(
    clause: s.Open, hinge: str, beyond: tuple[str, ...], darts: Darts, span: Span
) -> tuple[str, str] | None:
    """The dart's letter that moves, and the one it comes to lie on."""
    if clause.dart is None:
        return None
    first, second, lost = darts[getattr(clause.dart, "name", "")]
    if hinge != lost:
        raise Failed(
            question(
                "slash-at-dart",
                f"The slash must end at {lost}, where the dart is lost.",
                span,
                help=f"Such as: along {clause.slashes[0].a.name}-{lost}.",
            )
        )
    if (first in beyond) == (second in beyond):
        help_ = "Begin it on another edge, so that one side of the dart lies on either side of it."
        raise Failed(
            question("slash-at-dart", "The slash does not part the sides of the dart.", span, help=help_)
        )
    return (first, second) if first in beyond else (second, first)


def _not_on(letter: str, span: Span) -> Query:
    return question(
        "not-on-outline", f"{letter} is no letter of that outline.", span,
        help="Begin the slash, and end it, at letters that the outline goes through.",
    )  # fmt: skip

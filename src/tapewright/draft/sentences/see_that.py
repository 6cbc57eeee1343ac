"""See that: checks, each with both sides and their difference."""

from math import pi

import numpy as np

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array, Mask
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import found_on, run_of
from tapewright.draft.records import Check
from tapewright.draft.rows import Edge as OutlineEdge
from tapewright.draft.rows import OutlineRun
from tapewright.draft.sentences.edges import edge_run
from tapewright.geometry import (
    Point,
    Stretch,
    Vector,
    corner,
    distance,
    end_point,
    start_point,
    tangent,
)
from tapewright.geometry.tolerance import ROUNDING
from tapewright.language.claims import show_claim
from tapewright.language.pattern import Style
from tapewright.language.sentences import SeeThat, Sew
from tapewright.language.tree import Along, Amount, Edge, Ruler, Unknown
from tapewright.language.tree_claims import (
    Claim,
    Compared,
    InRange,
    LiesOn,
    LongerBy,
    RunsOn,
    SameBothSides,
    SquareCorner,
)
from tapewright.plan import Dimension, each

#: What two sides may differ by where the claim does not say, mm and radians.
WITHIN = 0.5
WITHIN_ANGLE = 0.5 * pi / 180
#: Two edges run on smoothly when they turn by no more than this where they join, radians.
SMOOTH = 2.0 * pi / 180


@draws(SeeThat)
def see_that(said: SeeThat, board: Board) -> None:
    """The check, and a caution where it does not come out."""
    claim = board.worded(said, lambda: show_claim(said.claim, Style(frozenset(board.plan.tapes))))
    check = _check(said.claim, board, claim, said.span)
    board.records.append(check)
    board.remark(~check.holds, lambda row: asking.check_open(check, row))


def _is_angle(board: Board, node: Amount) -> bool:
    return board.plan.form(node).dimension is Dimension.ANGLE


def _check(node: Claim, board: Board, claim: str, span: Span) -> Check:
    right: Array
    match node:
        case Compared(first, relation, second, within):
            angle = _is_angle(board, first)
            one, two = board.amount(first), board.amount(second)
            allowed = board.constant(WITHIN_ANGLE if angle else WITHIN)
            if within is not None:
                allowed = board.amount(within)
            elif relation != "is":
                allowed = board.constant(0.0)
            missing = _missing(relation, one, two)
            return _made(board, claim, (one, two, missing), allowed, angle, relation, span)
        case InRange(amount, bottom, top):
            angle = _is_angle(board, amount)
            value, least, most = board.amount(amount), board.amount(bottom), board.amount(top)
            nearest_end = np.minimum(np.maximum(value, least), most)
            return _made(
                board,
                claim,
                (value, nearest_end, value - nearest_end),
                board.constant(0.0),
                angle,
                "between",
                span,
            )
        case LongerBy(longer, shorter, low, high):
            return _longer(board, claim, (longer, shorter, low, high), span)
        case SquareCorner(ref):
            found = corner(board.point(ref.a), board.point(ref.b), board.point(ref.c))
            board.fail(
                found.ok, lambda row: asking.flat_corner(f"{ref.a.name}-{ref.b.name}-{ref.c.name}", span)
            )
            right = board.constant(pi / 2)
            return _made(
                board,
                claim,
                (found.value, right, found.value - right),
                board.constant(WITHIN_ANGLE),
                True,
                "is",
                span,
            )
        case LiesOn(letter):
            return _lies_on(board, claim, board.point(letter), node, span)
        case RunsOn():
            return _runs_on(board, claim, node, span)
        case SameBothSides(both):
            value = board.amount(both)
            zero = board.constant(0.0)
            return _made(
                board, claim, (value, value, zero), board.constant(WITHIN), False, "both sides", span
            )


def _missing(relation: str, one: Array, two: Array) -> Array:
    """What is wanting to a relation; nothing where it holds."""
    difference = one - two
    if relation in {"at least", "more than"}:
        return np.minimum(difference, 0.0)
    if relation in {"at most", "less than"}:
        return np.maximum(difference, 0.0)
    return difference


def _made(
    board: Board,
    claim: str,
    sides: tuple[Array, Array, Array],
    within: Array,
    angle: bool,
    relation: str,
    span: Span,
) -> Check:
    left, right, difference = sides
    # Rounding noise is no difference: an amount that is exactly at its bound holds.
    holds: Mask = np.abs(difference) <= within + ROUNDING
    return Check(
        claim, left, right, difference, within, holds, angle, relation, board.sentence, board.source, span
    )


def _longer(
    board: Board, claim: str, parts: tuple[Amount, Amount, Amount | None, Amount | None], span: Span
) -> Check:
    """Longer by an amount, by an amount to another, or by anything."""
    longer, shorter, low, high = parts
    one, two = board.amount(longer), board.amount(shorter)
    over = one - two
    if low is None:
        return _made(
            board, claim, (one, two, np.minimum(over, 0.0)), board.constant(0.0), False, "longer", span
        )
    least = board.amount(low)
    if high is None:
        return _made(board, claim, (one, two, over - least), board.constant(WITHIN), False, "longer", span)
    most = board.amount(high)
    off = np.where(over < least, over - least, np.where(over > most, over - most, 0.0))
    return _made(board, claim, (one, two, off), board.constant(0.0), False, "longer", span)


def _lies_on(board: Board, claim: str, point: Point, node: LiesOn, span: Span) -> Check:
    """How far a point is from a line."""
    run = run_of(board.line(node.line.path))
    if run is None:
        board.stop(lambda row: asking.whole_circle(span))
    _, off = found_on(run, point)
    return _made(
        board, claim, (off, board.constant(0.0), off), board.constant(WITHIN), False, "lies on", span
    )


def _runs_on(board: Board, claim: str, node: RunsOn, span: Span) -> Check:
    """How far from straight the edges run on, once the pieces are sewn.

    Where a seam closes at the letter, or at the two letters that come together, what counts is the angle
    each edge makes with its side of that seam: together they are a straight line where the edges run on.
    Where no seam closes there, both edges end at one letter and are taken as drawn.
    """
    letters = [p.name for p in node.points]
    runs = [edge_run(board, e, e.span) for e in node.edges]
    if len(runs) != 2 or len(letters) > 2:
        board.stop(lambda row: asking.two_edges(span))
    one, other = letters[0], letters[-1]
    sides = _seam_between(board, node, one, other)
    if sides is not None:
        gap = _between(_leaving(board, runs[0], one), _leaving(board, sides[0], one))
        gap = gap + _between(_leaving(board, runs[1], other), _leaving(board, sides[1], other))
    elif one == other:
        gap = _between(_leaving(board, runs[0], one), _leaving(board, runs[1], one))
    else:
        board.stop(lambda row: asking.no_seam_there(letters, span))
    turn = np.abs(pi - gap)
    zero = board.constant(0.0)
    return _made(board, claim, (turn, zero, turn), board.constant(SMOOTH), True, "runs on", span)


def _seam_between(board: Board, node: RunsOn, one: str, other: str) -> tuple[Stretch, Stretch] | None:
    """The two edges of the seam that closes at two letters, each on the piece of its own edge."""
    for step in each(board.plan.steps):
        if not isinstance(step.clause, Sew):
            continue
        for first, second in (
            (step.clause.first, step.clause.second),
            (step.clause.second, step.clause.first),
        ):
            for a in first:
                for b in second:
                    meets = one in _edge_ends(board, a) and other in _edge_ends(board, b)
                    if meets and _on_one_piece(board, node.edges[0], a):
                        return edge_run(board, a, a.span), edge_run(board, b, b.span)
    return None


def _on_one_piece(board: Board, edge: Edge, side: Edge) -> bool:
    """Whether two edges belong to one outline; True where no outline holds the first of them."""
    made = (board.desk.made.get(shape.key) for shape in board.plan.outlines.values())
    outlines = [value.thing for value in made if value is not None and isinstance(value.thing, OutlineRun)]
    homes = [o for o in outlines if any(_is_edge(board, edge, e) for e in o.edges)]
    return any(_is_edge(board, side, e) for o in homes for e in o.edges) or not homes


def _is_edge(board: Board, edge: Edge, drawn: OutlineEdge) -> bool:
    if isinstance(edge, Ruler):
        return {edge.a.name, edge.b.name} == {drawn.start, drawn.end}
    path = edge.path if isinstance(edge, Along) else edge
    return drawn.line >= 0 and board.line_index(path) == drawn.line


def _edge_ends(board: Board, edge: Edge) -> tuple[str, ...]:
    match edge:
        case Ruler(a, b):
            return (a.name, b.name)
        case Along(_, start, end):
            return (start.name, end.name)
        case Unknown():
            return ()
        case _:
            index = board.line_index(edge)
            return board.plan.lines[index].ends or () if index >= 0 else ()


def _leaving(board: Board, run: Stretch, letter: str) -> Vector:
    """The way a run sets out from the end that is nearer a letter."""
    point = board.point(letter)
    from_end = distance(end_point(run), point) < distance(start_point(run), point)
    t = tangent(run.curve, np.where(from_end, run.end, run.start))
    # A stretch run backwards goes against its curve, and so does one seen from its end.
    sense = np.where((run.start <= run.end) == from_end, -1.0, 1.0)
    return Vector(t.dx * sense, t.dy * sense)


def _between(one: Vector, other: Vector) -> Array:
    """The angle between two ways, 0 to pi."""
    cross = one.dx * other.dy - one.dy * other.dx
    dot = one.dx * other.dx + one.dy * other.dy
    return np.abs(np.arctan2(cross, dot))

"""Draw a curve: a bounded Hobby spline through letters, leaving, passing and reaching them as said."""

from collections.abc import Callable
from itertools import pairwise
from math import acos, cos, degrees, pi, radians

import numpy as np

from tapewright.diagnostics import Query, Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.kinds import draws
from tapewright.draft.ways import line_direction, toward
from tapewright.geometry import Point, Vector, spline
from tapewright.geometry.rows import Why
from tapewright.language.sentences import Curve
from tapewright.language.tree import AlongLine, Leaning, SquareTo, Toward

#: Tensions of the three kinds: easy is 1; a flat curve keeps nearer its chords, a full one swings wider.
TENSION = {"flat": 1.5, "easy": 1.0, "full": 0.8}

#: Up to this from the straight way on, the sense of a leaning is taken from the letters; beyond it is asked.
CLEAR = 80.0
LEAST = cos(radians(CLEAR))

#: An end angle above this is a bulge, a turn above this nearly turns back, degrees. A neck square to a flat
#: shoulder stands at 60 to 64 on one man of the survey in four and is well cut; from about 74 it hooks.
BULGE, BACK = 68.0, 150.0
#: The wrong way by less than this is no bend anybody sees, degrees.
BEND = 1.0


@draws(Curve)
def curve(said: Curve, board: Board) -> None:
    """The curve, and what its solved end angles give cause to say."""
    letters = [k.name for k in said.knots()]
    points = [board.point(k) for k in said.knots()]
    directions: dict[int, Array] = {}
    for leaning in said.leanings:
        at = {"leaving": 0, "reaching": len(points) - 1}.get(leaning.verb)
        k = letters.index(leaning.point.name) if at is None else at
        directions[k] = _angle(board, leaning, points, k)
    found = spline(points, directions, TENSION[said.tension or "easy"])
    board.fail(found.ok, lambda row: _coincident(letters, points, row, said.span))
    if Why.SAME_POINT not in found.why:
        _remark(board, said, letters, found.theta, found.phi)
    board.put_line(found.curve)


def _straight_on(points: list[Point], k: int) -> Vector:
    """The straight way on at a letter: to the next from the first, from the last but one at the end."""
    a, b = points[max(0, k - 1)], points[min(len(points) - 1, k + 1)]
    return Vector(b.x - a.x, b.y - a.y)


def _angle(board: Board, leaning: Leaning, points: list[Point], k: int) -> Array:
    """The direction of a curve at a letter, as an angle; the sense is the one near the straight way on."""
    how = leaning.how
    on = _straight_on(points, k)
    if isinstance(how, Toward):
        v = toward(board, how, points[k])
        return np.arctan2(v.dy, v.dx)
    if isinstance(how, SquareTo):
        line = line_direction(board, how.path, points[k], how.span)
        v = Vector(-line.dy, line.dx)
        if how.toward is not None:
            side = toward(board, how.toward, points[k])
            flip = np.where(v.dx * side.dx + v.dy * side.dy < 0.0, -1.0, 1.0)
            return np.arctan2(v.dy * flip, v.dx * flip)
    elif isinstance(how, AlongLine):
        v = line_direction(board, how.line.path, points[k], how.span)
    else:
        level = how == "level"
        v = Vector(board.constant(1.0 if level else 0.0), board.constant(0.0 if level else 1.0))
    return _with_sense(board, v, on, leaning)


def _with_sense(board: Board, v: Vector, on: Vector, leaning: Leaning) -> Array:
    far = np.sqrt(on.dx * on.dx + on.dy * on.dy)
    dot = v.dx * on.dx + v.dy * on.dy

    def unclear(row: int) -> Query:
        cosine = min(1.0, abs(float(dot[row])) / float(far[row]))
        return asking.leaning_unclear(leaning.point.name, degrees(acos(cosine)), leaning.span)

    # Where the letters are one there is no straight way on, and the curve says so itself.
    board.fail(np.abs(dot) >= far * LEAST, unclear)
    sign = np.where(dot < 0.0, -1.0, 1.0)
    return np.arctan2(v.dy * sign, v.dx * sign)


def _coincident(letters: list[str], points: list[Point], row: int, span: Span) -> Query:
    gaps = [float(np.hypot(q.x[row] - p.x[row], q.y[row] - p.y[row])) for p, q in pairwise(points)]
    k = int(np.argmin(gaps))
    return asking.curve_points_one(letters[k], letters[k + 1], span)


def _remark(board: Board, said: Curve, letters: list[str], theta: Array, phi: Array) -> None:
    """Bulge, uncalled bend and turning back, each between two letters."""
    if board.count == 1:
        # One wearer: plain numbers are quicker, and most curves give no cause for a word.
        worst = max(abs(float(a[0])) for a in (*theta, *phi)) * 180 / pi
        if worst < BULGE and not any(float(t[0] * f[0]) < 0.0 for t, f in zip(theta, phi, strict=True)):
            return
    both, knots = said.both_ways, said.knots()
    for k in range(theta.shape[0]):
        pair = (letters[k], letters[k + 1])
        at = knots[k].span.to(knots[k + 1].span)
        t, f = np.degrees(theta[k]), np.degrees(phi[k])
        most = np.maximum(np.abs(t), np.abs(f))
        turn = np.abs(t + f)
        board.remark((most > BULGE) & (turn <= BACK), _worded(asking.bulge, pair, most, at))
        if not both:
            wrong = np.where(t * f < 0.0, np.minimum(np.abs(t), np.abs(f)), 0.0)
            board.remark(wrong > BEND, _worded(asking.bends_both, pair, wrong, at))
        board.remark(turn > BACK, _worded(asking.turns_back, pair, turn, at))


def _worded(
    word: Callable[[tuple[str, str], float, Span], Query], pair: tuple[str, str], degrees: Array, span: Span
) -> Callable[[int], Query]:
    return lambda row: word(pair, float(degrees[row]), span)

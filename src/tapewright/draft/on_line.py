"""Places on lines: where a letter stands on a line, and going along it by the tape."""

from __future__ import annotations

from math import pi

import numpy as np

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import SPOT, Board
from tapewright.draft.bodies import Array
from tapewright.draft.rows import DrawnLine
from tapewright.geometry import (
    Arc,
    Circle,
    Curve,
    Point,
    Stretch,
    arc_curve,
    arc_length,
    curve_of,
    end_point,
    length,
    nearest,
    start_point,
    whole,
)

#: A letter this near a line lies on it, mm: a tenth of what a pencil can show.
ON_THE_LINE = 0.05


def run_of(line: DrawnLine) -> Stretch | None:
    """A line as a run from its start to its end; None for a whole circle."""
    if isinstance(line, Circle):
        return None
    if isinstance(line, Arc):
        return whole(arc_curve(line))
    return whole(line) if isinstance(line, Curve) else line


def ends_of(board: Board, index: int) -> tuple[str, str] | None:
    """The letters at the ends of a drawn line."""
    return board.plan.lines[index].ends if index >= 0 else None


def place_on(board: Board, line: Stretch, index: int, letter: str, span: Span) -> Array:
    """The parameter at which a letter stands on a line, `(bodies,)`; rows where it is off the line stop.

    `line` is the whole of the drawn line of that number; -1 is a straight way that was not drawn.
    """
    ends = ends_of(board, index)
    if ends is not None and letter in ends and ends[0] != ends[1]:
        board.point(letter)
        return line.start if letter == ends[0] else line.end
    t, away = spot_on(board, line, index, letter)
    name = board.plan.lines[index].name if index >= 0 else ""
    board.fail(away <= ON_THE_LINE, lambda row: asking.off_the_line(letter, name, float(away[row]), span))
    return t


def spot_on(board: Board, line: Stretch, index: int, letter: str) -> tuple[Array, Array]:
    """Where on a line a letter stands: the parameter, and how far off it is; looked for once in a drawing."""
    point = board.point(letter)
    found = board.desk.spots.get((index, letter))
    if found is not None:
        return found
    put = board.desk.made.get(f"{SPOT}{index} {letter}")
    if put is None:
        found = found_on(line, point)
    else:
        found = np.asarray(put.thing), board.constant(0.0)
        if put.absent is not None:
            t, away = found_on(line, point)
            found = np.where(put.absent, t, found[0]), np.where(put.absent, away, 0.0)
    if index >= 0:
        board.desk.spots[index, letter] = found
    return found


def found_on(line: Stretch, point: Point) -> tuple[Array, Array]:
    """The parameter of a line nearest to a point, and how far off the point stands, `(bodies,)` each.

    A letter the curve was drawn through is one of its joints, bit for bit, and is not searched for.
    """
    if line.curve.is_straight:
        return _on_straight(line, point)
    c = line.curve.ctrl
    joint = np.empty((c.shape[2] + 1, c.shape[3]), dtype=np.bool_)
    joint[:-1] = (c[0, 0] == point.x) & (c[0, 1] == point.y)
    joint[-1] = (c[3, 0, -1] == point.x) & (c[3, 1, -1] == point.y)
    k = joint.argmax(axis=0)
    t = k.astype(np.float64)
    hit = joint[k, np.arange(t.size)] & (t >= np.minimum(line.start, line.end))
    hit &= t <= np.maximum(line.start, line.end)
    if np.count_nonzero(hit) == t.size:
        return t, np.zeros(t.size)
    near = nearest(line, point)
    return np.where(hit, t, near.t), np.where(hit, 0.0, near.distance)


def _on_straight(line: Stretch, point: Point) -> tuple[Array, Array]:
    """As `found_on`, for a straight line: the foot of the square from the point, held within the line."""
    a, b = start_point(line.curve), end_point(line.curve)
    ux, uy = b.x - a.x, b.y - a.y
    square = ux * ux + uy * uy
    t = ((point.x - a.x) * ux + (point.y - a.y) * uy) / np.where(square > 0.0, square, 1.0)
    t = np.minimum(np.maximum(t, np.minimum(line.start, line.end)), np.maximum(line.start, line.end))
    return t, np.hypot(a.x + ux * t - point.x, a.y + uy * t - point.y)


def run_length(line: Curve | Stretch) -> Array:
    """The length of a line by the tape, as `length` has it, bit for bit; from joint to joint only what lies between."""
    if isinstance(line, Stretch) and not line.curve.is_straight:
        low, high = np.minimum(line.start, line.end), np.maximum(line.start, line.end)
        first, last = float(low[0]), float(high[0])
        if first.is_integer() and last.is_integer() and (low == first).all() and (high == last).all():
            line = Curve(line.curve.ctrl[:, :, max(0, int(first)) : int(last)])
            if not line.segments:
                return np.zeros(line.bodies)
    return length(line)


def line_length(board: Board, index: int) -> Array:
    """The length of a drawn line by the tape; it is run once in a drawing."""
    line = board.drawn(index)
    found = board.desk.lengths.get((index, "", ""))
    if found is None:
        if isinstance(line, Circle):
            found = line.radius * (2 * pi)
        else:
            found = arc_length(line) if isinstance(line, Arc) else run_length(line)
        board.desk.lengths[index, "", ""] = found
    return found


def along_between(board: Board, index: int, a: str, b: str, span: Span) -> Array:
    """The length of a line between two letters on it, by the tape; it is run once in a drawing."""
    line = run_of(board.drawn(index))
    if line is None:
        board.stop(lambda row: asking.whole_circle(span))
    start = place_on(board, line, index, a, span)
    end = place_on(board, line, index, b, span)
    found = board.desk.lengths.get((index, a, b))
    if found is None:
        found = board.desk.lengths[index, a, b] = run_length(Stretch(line.curve, start, end))
    return found


def piece(board: Board, index: int, a: str, b: str, span: Span) -> Stretch:
    """The piece of a drawn line from letter a to letter b, run that way."""
    line = run_of(board.drawn(index))
    if line is None:
        board.stop(lambda row: asking.whole_circle(span))
    start = place_on(board, line, index, a, span)
    end = place_on(board, line, index, b, span)
    return Stretch(line.curve, start, end)


def base_curve(line: DrawnLine) -> Curve:
    """The curve under a line with ends."""
    run = run_of(line)
    if run is None:
        raise ValueError("a whole circle has no ends")
    return curve_of(run)


def point_row(point: Point, row: int) -> tuple[float, float]:
    """One body's point."""
    return float(point.x[row]), float(point.y[row])

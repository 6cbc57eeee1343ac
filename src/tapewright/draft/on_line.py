"""Places on lines: where a letter stands on a line, and going along it by the tape."""

from __future__ import annotations

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array, Mask
from tapewright.draft.rows import DrawnLine
from tapewright.geometry import (
    Arc,
    Circle,
    Curve,
    Point,
    Stretch,
    arc_curve,
    curve_of,
    length,
    nearest,
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
    """The parameter at which a letter stands on a line, `(bodies,)`; rows where it is off the line stop."""
    ends = ends_of(board, index)
    if ends is not None and letter in ends and ends[0] != ends[1]:
        board.point(letter)
        return line.start if letter == ends[0] else line.end
    point = board.point(letter)
    found = nearest(line, point)
    on: Mask = found.distance <= ON_THE_LINE
    name = board.plan.lines[index].name if index >= 0 else ""
    board.fail(on, lambda row: asking.off_the_line(letter, name, float(found.distance[row]), span))
    return found.t


def along_between(board: Board, index: int, a: str, b: str, span: Span) -> Array:
    """The length of a line between two letters on it, by the tape."""
    line = run_of(board.drawn(index))
    if line is None:
        board.stop(lambda row: asking.whole_circle(span))
    start = place_on(board, line, index, a, span)
    end = place_on(board, line, index, b, span)
    return length(Stretch(line.curve, start, end))


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

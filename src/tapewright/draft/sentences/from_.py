"""From: new points by a length some way, by a meeting, by a ruler laid to a line, by two offsets."""

import numpy as np

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.crossing import choose
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import ON_THE_LINE, place_on, run_of
from tapewright.draft.ways import direction_of, stepped, unit
from tapewright.geometry import (
    Carried,
    Circle,
    Curve,
    Point,
    Stretch,
    Vector,
    at,
    curve_of,
    distance,
    foot,
    length,
    meets,
    parameter_at_length,
    straight,
)
from tapewright.geometry.tolerance import LENGTH_AGREES
from tapewright.language.saying import show_path
from tapewright.language.sentences import From
from tapewright.language.tree import AlongLine, Amount, End, LineRef, NewPoint, Offset, PointRef, Ruler


@draws(From)
def from_(said: From, board: Board) -> None:
    """Each new point in turn, and the thin line to it."""
    for i, (start, new) in enumerate(said.pairs()):
        reach = said.reach[i if len(said.reach) == len(said.news) else 0] if said.reach else None
        here = board.point(start)
        point = _point(said, board, start, here, reach, i)
        board.put_point(new, point)
        if not said.by_offsets():
            board.put_line(straight(here, point), i)


def _point(
    said: From, board: Board, start: PointRef, here: Point, reach: Amount | Offset | None, i: int
) -> Point:
    if isinstance(reach, Offset):
        return _offsets(said, board, here, start.name)
    if said.end is not None:
        if reach is not None:
            return _ruler(said, board, start, here, reach, said.end)
        return _until(said, board, start, here, said.end)
    if reach is None:
        raise TypeError("the plan lets no From through without an end")
    far = board.amount(reach)
    if isinstance(said.way, AlongLine):
        back = said.way.both and i == 0
        return _along(board, said.way.line, start, here, far, said.news[i], said.way.span, back=back)
    if said.way is None:
        raise TypeError("the plan lets no From through without a way")
    return stepped(here, direction_of(board, said.way, here, start.name), far)


def _offsets(said: From, board: Board, here: Point, name: str) -> Point:
    point = here
    for one in said.reach:
        if isinstance(one, Offset):
            way = direction_of(board, one.way, here, name)
            point = stepped(point, way, board.amount(one.amount))
    return point


def carried(line: LineRef) -> Carried:
    """Which ends of a line may be carried on."""
    return Carried.BOTH if line.carried_on else Carried.NOT


def ray(here: Point, way: Vector) -> Curve:
    """A straight line that sets out some way; carried on at its end it is a half-line."""
    return straight(here, Point(here.x + way.dx * 100.0, here.y + way.dy * 100.0))


def _until(said: From, board: Board, start: PointRef, here: Point, end: End) -> Point:
    """Some way until it meets a line."""
    if said.way is None:
        raise TypeError("the plan lets no From through without a way")
    way = direction_of(board, said.way, here, start.name)
    return meet_from(board, here, way, end, f"The line from {start.name}", said.news[0])


def meet_from(
    board: Board, here: Point, way: Vector, end: End, what: str, new: NewPoint | None = None
) -> Point:
    """Where a half-line meets the line said, and what letter is put there."""
    line = board.line(end.line.path)
    met = meets(ray(here, way), line, Carried.END, carried(end.line))
    shown = show_path(end.line.path)
    span = end.span
    point, _, t = choose(
        board, met, end.crossing, span, lambda m, row: asking.never_meets(what, shown, m, row, span), here
    )
    if new is not None and not end.line.carried_on:
        board.put_spot(new, end.line.path, t)
    return point


def _ruler(said: From, board: Board, start: PointRef, here: Point, reach: Amount, end: End) -> Point:
    """A ruler of a given length, from a point to a line."""
    far = board.amount(reach)
    board.fail(far > 0.0, lambda row: asking.negative("The ruler", float(far[row]), reach.span))
    line = board.line(end.line.path)
    met = meets(Circle(here, np.where(far > 0.0, far, 1.0)), line, Carried.NOT, carried(end.line))
    shown = show_path(end.line.path)
    what = f"The ruler from {start.name}"
    point, _, t = choose(
        board, met, end.crossing, end.span, lambda m, row: asking.ruler_short(what, shown, m, row, end.span)
    )
    if not end.line.carried_on:
        board.put_spot(said.news[0], end.line.path, t)
    return point


def _along(
    board: Board,
    line: LineRef,
    start: PointRef,
    here: Point,
    far: Array,
    new: NewPoint,
    span: Span,
    *,
    back: bool,
) -> Point:
    """Along a line by the tape: the way it was drawn, from its last end back along it."""
    if isinstance(line.path, Ruler):
        return _along_ruler(board, line.path, start, here, far, new, span, back=back)
    index = board.line_index(line.path)
    run = run_of(board.line(line.path))
    if run is None:
        board.stop(lambda row: asking.whole_circle(span))
    ends = board.plan.lines[index].ends
    from_last = ends is not None and start.name == ends[1] and ends[0] != ends[1]
    backward = from_last != back
    place = place_on(board, run, index, start.name, span)
    if curve_of(run).is_straight:
        way = straight_way(board, run, span)
        sign = -1.0 if backward else 1.0
        point = stepped(here, way, far * sign)
        beyond = distance(here, Point(*_end(run, backward))) - np.abs(far)
        _note_beyond(board, beyond, new, span)
        return point
    rest = Stretch(run.curve, place, run.start if backward else run.end)
    found = parameter_at_length(rest, far)
    have = length(rest)
    board.fail(found.ok, lambda row: asking.line_too_short(float(have[row]), float(far[row]), span))
    board.put_spot(new, line.path, found.value)
    return at(run.curve, found.value)


def _end(run: Stretch, backward: bool) -> tuple[Array, Array]:
    end = at(run.curve, run.start if backward else run.end)
    return end.x, end.y


def straight_way(board: Board, run: Stretch, span: Span) -> Vector:
    """Which way a straight line runs."""
    a, b = at(run.curve, run.start), at(run.curve, run.end)
    return unit(board, Vector(b.x - a.x, b.y - a.y), span, "that line")


def _along_ruler(
    board: Board,
    path: Ruler,
    start: PointRef,
    here: Point,
    far: Array,
    new: NewPoint,
    span: Span,
    *,
    back: bool,
) -> Point:
    """Along A-B, from A toward B as written; from B back toward A."""
    a, b = board.point(path.a), board.point(path.b)
    way = unit(board, Vector(b.x - a.x, b.y - a.y), span, f"{path.a.name}-{path.b.name}")
    if start.name not in {path.a.name, path.b.name}:
        off = foot(here, a, b)
        board.fail(
            np.abs(off.away) <= ON_THE_LINE,
            lambda row: asking.off_the_line(start.name, "", float(abs(off.away[row])), span),
        )
    backward = (start.name == path.b.name) != back
    _note_beyond(board, distance(here, a if backward else b) - np.abs(far), new, span)
    return stepped(here, way, -far if backward else far)


def _note_beyond(board: Board, left: Array, new: NewPoint, span: Span) -> None:
    board.remark(left < -LENGTH_AGREES, lambda row: asking.runs_past(new.name, float(-left[row]), span))

"""Let out, take in: an edge moved at one letter and left where it is at another, evenly between by the tape."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import place_on, run_of
from tapewright.draft.ways import toward, unit
from tapewright.geometry import Curve, Point, Stretch, Vector, midpoint, trimmed
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.language.saying import show_path
from tapewright.language.sentences import LetOut
from tapewright.language.tree import Ruler


@draws(LetOut)
def let_out(said: LetOut, board: Board) -> None:
    """The moved letter, primed, and the edge to it."""
    nothing, at = board.point(said.nothing), board.point(said.at)
    index = board.line_index(said.line)
    run = run_of(board.line(said.line))
    if run is None:
        board.stop(lambda row: asking.whole_circle(said.line.span))
    if isinstance(said.line, Ruler):
        places = [run.start, run.end]
        if said.nothing.name != said.line.a.name:
            places.reverse()
    else:
        places = [place_on(board, run, index, p.name, said.line.span) for p in (said.nothing, said.at)]
    edge = trimmed(Stretch(run.curve, places[0], places[1]))
    name = show_path(said.line)
    along = unit(board, Vector(at.x - nothing.x, at.y - nothing.y), said.line.span, name)
    square = Vector(-along.dy, along.dx)
    outward = _outward(said, board, index, midpoint(nothing, at), square)
    far = board.amount(said.amount) * outward
    moved = _sheared(edge, nothing, along, square, far)
    board.put_point(said.at.name + "'", Point(at.x + square.dx * far, at.y + square.dy * far))
    board.put_line(moved)


def _outward(said: LetOut, board: Board, index: int, middle: Point, square: Vector) -> Array:
    """1 or -1: which way the edge goes."""
    if said.toward is not None:
        side = toward(board, said.toward, middle)
        dot = square.dx * side.dx + square.dy * side.dy
        span = said.toward.span
        board.fail(np.abs(dot) > SAME_POINT, lambda row: asking.side_unclear(span))
        return np.where(dot < 0.0, -1.0, 1.0)
    inside = board.inside_of(index, said.nothing.name, said.at.name)
    if inside is None:
        board.stop(lambda row: asking.no_piece_yet(said.verb, said.line.span))
    dot = square.dx * (inside.x - middle.x) + square.dy * (inside.y - middle.y)
    board.fail(np.abs(dot) > SAME_POINT, lambda row: asking.side_unclear(said.span))
    into = np.where(dot < 0.0, -1.0, 1.0)
    return into if said.verb == "take in" else -into


def _sheared(edge: Curve, nothing: Point, along: Vector, square: Vector, far: Array) -> Curve:
    """Every point of the edge moved square to its chord, as far as it lies along it."""
    x, y = edge.ctrl[:, 0], edge.ctrl[:, 1]
    end = edge.ctrl[3, :, -1]
    long = (end[0] - nothing.x) * along.dx + (end[1] - nothing.y) * along.dy
    share = ((x - nothing.x) * along.dx + (y - nothing.y) * along.dy) / np.where(long != 0.0, long, 1.0)
    return Curve(
        np.stack([x + square.dx * far * share, y + square.dy * far * share], axis=1), edge.is_straight
    )

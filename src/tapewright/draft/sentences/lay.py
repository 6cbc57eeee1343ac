"""Lay: an outline moved and turned so that a letter falls on another and a line lies as said."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.kinds import draws
from tapewright.draft.motion import Motion, mirror, shift, turn
from tapewright.draft.sentences.moved import put_moved
from tapewright.draft.ways import compass, unit
from tapewright.geometry import Point, Vector, displacement
from tapewright.language.sentences import Lay


@draws(Lay)
def lay(said: Lay, board: Board) -> None:
    """The moved outline."""
    if board.moving is None:
        raise TypeError("the plan says what a Lay moves")
    moving, place = board.point(said.moving), board.point(said.place)
    own, wanted = _ways(said, board, moving, place)
    if said.face_down:
        flat: Motion = mirror(moving, own.dx, own.dy)
    else:
        flat = shift(board.constant(0.0), board.constant(0.0))
    angle = np.arctan2(wanted.dy, wanted.dx) - np.arctan2(own.dy, own.dx)
    motion = flat.then(turn(moving, angle)).then(shift(place.x - moving.x, place.y - moving.y))
    if said.by is not None:
        motion = motion.then(_joined(said, board, motion, place, wanted))
    put_moved(board, board.moving, lambda by: motion)


def _ways(said: Lay, board: Board, moving: Point, place: Point) -> tuple[Vector, Vector]:
    """Which way the piece's own line runs, and which way it is to run."""
    if said.side is not None and said.way is not None:
        a, b = board.point(said.side.a), board.point(said.side.b)
        name = f"{said.side.a.name}-{said.side.b.name}"
        own = unit(board, displacement(a, b), said.side.span, name)
        return own, compass(board, said.way.word, said.way.span)
    if said.second is None:
        raise TypeError("a Lay says how the piece is turned")
    name = f"{said.moving.name}-{said.second.name}"
    own = unit(board, displacement(moving, board.point(said.second)), said.span, name)
    if said.mark is not None:
        wanted = displacement(place, board.point(said.mark))
        return own, unit(board, wanted, said.mark.span, f"{said.place.name}-{said.mark.name}")
    if said.ruler is None:
        raise TypeError("a Lay says what its second letter falls on")
    one, two = said.ruler.a, said.ruler.b
    # Along the ruler as it is written; from its far end back along it.
    first, last = (two, one) if said.place.name == two.name else (one, two)
    wanted = displacement(board.point(first), board.point(last))
    return own, unit(board, wanted, said.ruler.span, f"{one.name}-{two.name}")


def _joined(said: Lay, board: Board, motion: Motion, place: Point, wanted: Vector) -> Motion:
    """Lapped or parted: moved square to the line, over the other piece or away from it."""
    if said.by is None or board.moving is None:
        raise TypeError("a lap has an amount")
    far = board.amount(said.by)
    side: Array = board.constant(0.0)
    for letter in board.moving.letters:
        p = motion.point(board.point(letter.old))
        side = side + (-wanted.dy * (p.x - place.x) + wanted.dx * (p.y - place.y))
    board.fail(side != 0.0, lambda row: asking.side_unclear(said.span))
    away = np.where(side < 0.0, -1.0, 1.0) * (1.0 if said.join == "parted" else -1.0) * far
    return shift(-wanted.dy * away, wanted.dx * away)

"""Hollow and Round: a curve that leaves a straight line by an amount at one place."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.ways import stepped, toward
from tapewright.geometry import between, distance
from tapewright.geometry import hollow as bow
from tapewright.geometry.tolerance import SAME_POINT
from tapewright.language.sentences import Hollow


@draws(Hollow)
def hollow(said: Hollow, board: Board) -> None:
    """The curve; which of the two words was used matters only where a piece lies beside it."""
    if said.toward is None:
        raise TypeError("the plan lets no hollow through without a side")
    a, b = board.point(said.line.a), board.point(said.line.b)
    depth = board.amount(said.depth)
    span = said.depth.span
    board.fail(depth >= 0.0, lambda row: asking.negative("The hollow", float(depth[row]), span))
    long = distance(a, b)
    name = f"{said.line.a.name}-{said.line.b.name}"
    board.fail(long > SAME_POINT, lambda row: asking.no_direction(name, said.line.span))
    place = board.constant(0.5)
    if said.place is not None and said.origin is not None:
        share = board.amount(said.place) / np.where(long > SAME_POINT, long, 1.0)
        place = share if said.origin.name == said.line.a.name else 1.0 - share
        at = said.place.span
        board.fail((place > 0.0) & (place < 1.0), lambda row: asking.off_its_line(name, at))
    middle = between(a, b, place)
    side = toward(board, said.toward, middle)
    found = bow(a, b, depth, np.clip(place, 0.01, 0.99), stepped(middle, side, board.constant(100.0)))
    board.fail(
        found.ok,
        lambda row: asking.cannot_bow(name, float(depth[row]), float(long[row]), int(found.why[row]), span),
    )
    board.put_line(found.value)

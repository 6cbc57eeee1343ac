"""Turn over: points or an outline mirrored on a line; the copies are primed."""

from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.motion import mirror
from tapewright.draft.sentences.moved import put_moved
from tapewright.draft.ways import unit
from tapewright.geometry import displacement
from tapewright.language.sentences import TurnOver


@draws(TurnOver)
def turn_over(said: TurnOver, board: Board) -> None:
    """Each copy as far beyond the line as the thing is before it."""
    a, b = board.point(said.line.a), board.point(said.line.b)
    along = unit(board, displacement(a, b), said.line.span, f"{said.line.a.name}-{said.line.b.name}")
    motion = mirror(a, along.dx, along.dy)
    for ref in said.points:
        board.put_point(ref.name + "'", motion.point(board.point(ref)))
    if board.moving is not None:
        put_moved(board, board.moving, lambda by: motion)

"""Join: a straight line."""

from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.geometry import straight
from tapewright.language.sentences import Join


@draws(Join)
def join(said: Join, board: Board) -> None:
    """The straight line between two points; of no length where they are one."""
    board.put_line(straight(board.point(said.a), board.point(said.b)))

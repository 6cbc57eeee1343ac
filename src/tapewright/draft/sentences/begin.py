"""Begin: the first point is the corner of the paper's own reckoning, and never shown as numbers."""

from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.geometry import fixed
from tapewright.language.sentences import Begin


@draws(Begin)
def begin(said: Begin, board: Board) -> None:
    """The first point."""
    board.put_point(said.new, fixed(0.0, 0.0, board.count))

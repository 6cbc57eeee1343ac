"""Let: an amount gets a name."""

from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.language.sentences import Let


@draws(Let)
def let(said: Let, board: Board) -> None:
    """The amount, kept under its name."""
    board.put_name(said.name, board.amount(said.amount))

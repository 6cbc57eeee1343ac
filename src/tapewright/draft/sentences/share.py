"""Divide an amount among names."""

from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.language.sentences import Share


@draws(Share)
def share(said: Share, board: Board) -> None:
    """Each name gets its share."""
    for portion in said.portions:
        board.put_name(portion.name, board.amount(portion.share))

"""Stand for: letters that are a place of the body."""

from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.records import Landmark
from tapewright.language.sentences import StandFor


@draws(StandFor)
def stand_for(said: StandFor, board: Board) -> None:
    """The place, and where its letters are."""
    letters = tuple(p.name for p in said.points)
    points = tuple(board.point(p) for p in said.points)
    board.records.append(Landmark(said.landmark, letters, points, board.sentence))

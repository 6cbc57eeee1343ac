"""Cut: a piece."""

from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.records import Cloth, Piece, TurningAt
from tapewright.draft.sentences.edges import edge_at, edge_run
from tapewright.geometry import Point, end_point, start_point
from tapewright.language.sentences import Cut


@draws(Cut)
def cut(said: Cut, board: Board) -> None:
    """The piece as it is to be cut; what it looks like with its turnings is for the pieces to say."""
    name = getattr(said.outline, "name", "")
    runs = [edge_run(board, edge, edge.span) for edge in said.lying]
    lying: tuple[tuple[Point, Point], ...] = tuple((start_point(run), end_point(run)) for run in runs)
    turnings = tuple(
        TurningAt(
            board.constant(0.0) if t.amount is None else board.amount(t.amount),
            tuple(edge_at(board, e) for e in t.at),
        )
        for t in said.turnings
    )
    board.records.append(
        Piece(
            name,
            board.outline(name),
            tuple(Cloth(c.count, getattr(c.cloth, "name", "")) for c in said.cuttings),
            getattr(said.under, "name", ""),
            said.on or "",
            lying,
            turnings,
            board.sentence,
        )
    )

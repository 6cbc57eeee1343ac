"""Cut: a piece."""

from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.draft.kinds import draws
from tapewright.draft.records import Cloth, Piece, TurningAt
from tapewright.draft.sentences.edges import edge_at, edge_run
from tapewright.geometry import Point, end_point, start_point
from tapewright.language.sentences import Cut
from tapewright.language.tree import Turning


def _width(turning: Turning, board: Board) -> Array | None:
    """How wide a turning is; None where its finish or a table says so."""
    if turning.amount is not None:
        return board.amount(turning.amount)
    return None if turning.finish or turning.table else board.constant(0.0)


@draws(Cut)
def cut(said: Cut, board: Board) -> None:
    """The piece as it is to be cut; what it looks like with its turnings is for the pieces to say."""
    name = getattr(said.outline, "name", "")
    runs = [edge_run(board, edge, edge.span) for edge in said.lying]
    lying: tuple[tuple[Point, Point], ...] = tuple((start_point(run), end_point(run)) for run in runs)
    turnings = tuple(
        TurningAt(
            _width(t, board),
            tuple(edge_at(board, e) for e in t.at),
            t.finish,
            t.table,
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
            said.nap or "",
        )
    )

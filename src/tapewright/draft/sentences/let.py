"""Let: an amount gets a name."""

import numpy as np

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.kinds import draws
from tapewright.draft.on_line import line_length
from tapewright.language.sentences import Let
from tapewright.language.tree import Ruler

#: A curve that differs from its ruler by more than this share of it is worth a word.
WORTH_A_WORD = 0.02


@draws(Let)
def let(said: Let, board: Board) -> None:
    """The amount, kept under its name."""
    amount = board.amount(said.amount)
    board.put_name(said.name, amount)
    if isinstance(said.amount, Ruler):
        _or_by_the_tape(said.amount, amount, board)


def _or_by_the_tape(span: Ruler, straight: np.ndarray, board: Board) -> None:
    """A note where the one curve with the same ends is longer than the ruler's way."""
    ends = {(span.a.name, span.b.name), (span.b.name, span.a.name)}
    curves = [x for x in board.plan.lines if x.sort != "straight" and x.ends in ends]
    if len(curves) != 1 or f"line {curves[0].index}" not in board.desk.made:
        return
    tape, name = line_length(board, curves[0].index), curves[0].name
    letters = f"{span.a.name}-{span.b.name}"
    board.remark(
        np.abs(tape - straight) > WORTH_A_WORD * straight,
        lambda row: asking.ruler_or_tape(letters, float(straight[row]), float(tape[row]), name, span.span),
    )

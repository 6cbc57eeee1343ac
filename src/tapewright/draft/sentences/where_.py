"""Where two lines meet."""

from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.crossing import choose
from tapewright.draft.kinds import draws
from tapewright.draft.sentences.from_ import carried
from tapewright.geometry import meets
from tapewright.language.saying import show_path
from tapewright.language.sentences import Where


@draws(Where)
def where(said: Where, board: Board) -> None:
    """The point where they meet, the crossing chosen if there is more than one."""
    one, other = board.line(said.one.path), board.line(said.other.path)
    met = meets(one, other, carried(said.one), carried(said.other))
    first, second = show_path(said.one.path), show_path(said.other.path)
    point, on_one, on_other = choose(
        board, met, said.crossing, said.span,
        lambda m, row: asking.lines_apart(first, second, m, row, said.span),
    )  # fmt: skip
    board.put_point(said.new, point)
    for line, t in ((said.one, on_one), (said.other, on_other)):
        if not line.carried_on:
            board.put_spot(said.new, line.path, t)

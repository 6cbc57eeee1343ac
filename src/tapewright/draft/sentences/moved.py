"""What a moved outline puts on the board: its new letters, its edges as lines, and the outline itself."""

from collections.abc import Callable
from itertools import pairwise

from tapewright.draft.board import Board
from tapewright.draft.motion import Motion
from tapewright.draft.rows import Edge, OutlineRun
from tapewright.geometry import Point, straight
from tapewright.plan.plan import Moving

By = Callable[[tuple[int, ...]], Motion]


def put_moved(board: Board, moving: Moving, motion: By) -> None:
    """Move everything; `motion` gives the motion of what certain slashes move (none: of the whole)."""
    for letter in moving.letters:
        board.put_point(letter.new, motion(letter.by).point(board.point(letter.old)))
    run = board.outline_of(moving.shape.key)
    after: list[Edge] = []
    changed = {edge.index: (k, edge) for k, edge in enumerate(moving.edges)}
    for i, edge in enumerate(run.edges):
        if i not in changed:
            after.append(edge)
            continue
        k, moved = changed[i]
        drawn = motion(moved.by).line(edge.drawn)
        board.put_line(drawn, k)
        after.append(Edge(moved.start, moved.end, drawn, board.lines[k], ""))
    board.put(_key(board), OutlineRun(tuple(_closed(board, moving, after))))


def _key(board: Board) -> str:
    return next(k for k in board.makes if k.startswith("moved "))


def _closed(board: Board, moving: Moving, edges: list[Edge]) -> list[Edge]:
    """The edges with the mouths of an opening between them, in the order that the plan laid down."""
    if not moving.slashes:
        return edges
    closed: list[Edge] = []
    for i, edge in enumerate(edges):
        closed.append(edge)
        following = edges[(i + 1) % len(edges)]
        if edge.end == following.start:
            continue
        hinge = _hinge(moving, edge.end, following.start)
        stops = [edge.end, *([hinge] if hinge else []), following.start]
        for one, two in pairwise(stops):
            closed.append(Edge(one, two, straight(_point(board, one), _point(board, two))))
    return closed


def _point(board: Board, name: str) -> Point:
    """A letter that this sentence has just made, or one that was there."""
    made = board.made.get(f"point {name}")
    return made if isinstance(made, Point) else board.point(name)


def _hinge(moving: Moving, end: str, start: str) -> str:
    plain = end.rstrip("'")
    for slash in moving.slashes:
        if slash.closing is not None and slash.at == plain == start.rstrip("'"):
            return slash.hinge
    return ""

"""Running on: whether neck, scye, waist and hem go on as one line where a seam that ends in them is sewn.

At the end of a seam the two pieces lie edge to edge, and their corners there add up. Where the neighbouring edges go on
as one, they add to half a turn; what they are short of it, or over, is the corner that will be seen.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from tapewright.diagnostics import Query, note
from tapewright.geometry import Stretch, end_point, start_point, tangent, whole
from tapewright.geometry.tolerance import OFFSET_AGREES
from tapewright.pieces import Lies, Pattern, SeamPart
from tapewright.truing.words import called

#: A corner of fewer degrees than this is smoothed by the shears. Common practice, no source.
SMOOTH = 10.0
#: Where the neighbouring edges turn by more than this there was never meant to be one line: a slit, a step, a point.
MEANT = 50.0


@dataclass(frozen=True, slots=True)
class Corner:
    """Where a seam ends in an edge: the edges that should run on, the letter, and by how many degrees they do not.

    More than nought: they stand up in a peak; less: they fall in.
    """

    one: str
    other: str
    letter: str
    degrees: float
    sentence: int


def corners(pattern: Pattern, row: int = 0) -> tuple[Corner, ...]:
    """Both ends of every seam between two pieces."""
    found = []
    for seam in pattern.seams:
        if not (seam.first.parts and seam.second.parts):
            continue
        for end in (0, -1):
            a, b = seam.first.parts[end], seam.second.parts[end]
            here, there = _corner(pattern, a, row, end), _corner(pattern, b, row, end)
            if here is None or there is None or a.piece == b.piece:
                continue
            (one, letter, first), (other, _, second) = here, there
            found.append(Corner(one, other, letter, 180.0 - first - second, seam.said.sentence))
    return tuple(found)


def _corner(pattern: Pattern, part: SeamPart, row: int, end: int) -> tuple[str, str, float] | None:
    """The edge that a seam ends in on one piece, the letter, and the corner of the piece there in degrees."""
    piece = pattern.pieces[part.piece]
    edge = piece.edges[part.edge]
    run = whole(edge.net)
    at_end = part.forward == (end == -1)
    place = end_point(part.run) if end == -1 else start_point(part.run)
    own = end_point(run) if at_end else start_point(run)
    if float(np.hypot(place.x[row] - own.x[row], place.y[row] - own.y[row])) > OFFSET_AGREES:
        return None
    step = 1 if at_end else -1
    beside = piece.edges[(part.edge + step) % len(piece.edges)]
    if beside.lies is not Lies.CUT or float(beside.length[row]) < 5.0:
        return None
    here, there = _leaving(run, row, from_end=at_end), _leaving(whole(beside.net), row, from_end=not at_end)
    turn = np.degrees(there - here) * (1.0 if at_end else -1.0) * float(piece.outward[row])
    return beside.name, edge.end if at_end else edge.start, float(turn % 360.0)


def _leaving(run: Stretch, row: int, *, from_end: bool) -> float:
    """The direction in which an edge sets out from one of its ends, radians."""
    way = tangent(run, run.end if from_end else run.start)
    sign = -1.0 if from_end else 1.0
    return float(np.arctan2(sign * way.dy[row], sign * way.dx[row]))


def look_at_corners(pattern: Pattern, row: int) -> Iterator[Query]:
    """Where two edges that should be one line make a corner."""
    for corner in corners(pattern, row):
        if SMOOTH < abs(corner.degrees) < MEANT:
            how = "stands up in a peak of" if corner.degrees > 0 else "falls in by"
            yield note(
                "does-not-run-on",
                f"Sewn, {called(corner.one)} and {called(corner.other)} do not run on at {corner.letter}: "
                f"the line {how} {abs(corner.degrees):.0f} degrees.",
                help="If they should, let each leave the seam square to it, and add: "
                f"“See that {called(corner.one)} and {called(corner.other)} run on smoothly at {corner.letter}.”",
            ).at(pattern.draft.plan.lesson.source.name, corner.sentence)

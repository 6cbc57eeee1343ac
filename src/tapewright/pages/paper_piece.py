"""What a piece is on paper: its lines as cubics in mm of the pattern, its marks, and the words that go with it.

Neutral, as a plate is: `piece_from.py` makes it of a pattern, `piece_drawn.py` draws it at a scale. One
wearer's; x to the right, y down.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from tapewright.geometry.tolerance import OFFSET_AGREES
from tapewright.pages.room import Floats


class PieceLines(StrEnum):
    """Which of the two lines of a piece are drawn."""

    BOTH = "both"
    NET = "net"
    CUT = "cut"


#: The parts of a drawn piece, which are groups of an SVG and layers of a PDF.
PARTS = ("net", "cut", "marks", "grain", "words")


@dataclass(frozen=True, slots=True, eq=False)
class PaperEdge:
    """An edge where it is sewn, cubics (n, 4, 2); `told` is what may stand along it, the longest first."""

    name: str
    net: Floats
    told: tuple[str, ...] = ()
    fold: bool = False
    dart: bool = False


@dataclass(frozen=True, slots=True)
class PaperNotch:
    """A balance mark: where on the net line, the unit way out, how wide the turning is there, how many strokes."""

    x: float
    y: float
    out_x: float
    out_y: float
    turning: float
    count: int


@dataclass(frozen=True, slots=True, eq=False)
class PaperPiece:
    """One piece of one wearer.

    `told` are the words of its label, line by line; each further run of lines is a shorter way of saying
    it, for a piece that is too small. `cut` is its cutting line, closed, cubics (n, 4, 2). `on` is the
    grain, the cross or the fold, and `lying` its line or lines as x0, y0, x1, y1. `lines` and `points` are
    marked within it, `corners` the letters of its outline.
    """

    name: str
    told: tuple[tuple[str, ...], ...]
    edges: tuple[PaperEdge, ...]
    cut: Floats
    on: str = ""
    lying: tuple[tuple[float, float, float, float], ...] = ()
    notches: tuple[PaperNotch, ...] = ()
    lines: tuple[tuple[str, Floats], ...] = ()
    points: tuple[tuple[str, float, float], ...] = ()
    corners: tuple[tuple[str, float, float], ...] = ()
    nap: str = ""


def turned_over(piece: PaperPiece) -> PaperPiece:
    """The piece as it lies when the paper is turned over: right for left, its words still to be read."""

    def flat(cubics: Floats) -> Floats:
        return np.asarray(cubics * np.array([-1.0, 1.0]))

    return replace(
        piece,
        edges=tuple(replace(e, net=flat(e.net)) for e in piece.edges),
        cut=flat(piece.cut),
        lying=tuple((-a, b, -c, d) for a, b, c, d in piece.lying),
        notches=tuple(replace(n, x=-n.x, out_x=-n.out_x) for n in piece.notches),
        lines=tuple((name, flat(line)) for name, line in piece.lines),
        points=tuple((name, -x, y) for name, x, y in piece.points),
        corners=tuple((name, -x, y) for name, x, y in piece.corners),
    )


@dataclass(frozen=True, slots=True)
class PieceTold:
    """What is told of a piece beside the pieces: its name, how it is cut, what is left outside its edges."""

    name: str
    cut: str
    turnings: str


@dataclass(frozen=True, slots=True, eq=False)
class PieceSheet:
    """All the pieces of a print: `wearer_line` says whose, over what and when; `drafted` how it was drafted.

    `warning` is what must not be overlooked; `notes` what else there is to say.
    """

    title: str
    pieces: tuple[PaperPiece, ...]
    told: tuple[PieceTold, ...]
    wearer_line: str = ""
    drafted: str = ""
    warning: str = ""
    notes: tuple[str, ...] = ()
    lines: PieceLines = PieceLines.BOTH
    letters: bool = False


def closed_cubics(runs: Sequence[Floats]) -> Floats:
    """Runs that follow one another as cubics (n, 4, 2) of which each begins at the very place the last ended.

    They agree but for rounding; where they do not, the gap is closed by a straight line and seen.
    """
    rows = np.concatenate([np.zeros((0, 4, 2)), *(run for run in runs if len(run))])
    found: list[Floats] = []
    for i, row in enumerate(rows):
        after = rows[(i + 1) % len(rows)][0]
        gap = after - row[3]
        made = row.copy()
        if float(np.hypot(*gap)) <= OFFSET_AGREES:
            made[3] = after
            found.append(made)
        else:
            found += [made, np.array([row[3] + gap * t for t in (0.0, 1 / 3, 2 / 3, 1.0)])]
            found[-1][3] = after
    return np.array(found).reshape(-1, 4, 2)

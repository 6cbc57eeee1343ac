"""An edge of a piece: how it is sewn, how it is cut, what is left outside it, how its corners are cut.

No geometry but the edge's own; which turning falls to which edge stands in `turnings.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tapewright.draft.rows import Edge
from tapewright.geometry import Array, Drawn


class Lies(StrEnum):
    """What an edge of a piece is: an edge that is cut, one on a fold of the cloth, or a leg of a dart."""

    CUT = "cut"
    FOLD = "fold"
    DART = "dart"


class Corners(StrEnum):
    """How the turning of an edge ends at its corners.

    Mitred: the two cutting lines run on until they meet. Squared: square to the seam, so that the turnings of
    two pieces lie alike when the seam is opened. Blunted: the point of the mitre is cut off. Turned: the
    turning repeats, as in a glass, the shape that it is turned on to.
    """

    MITRED = "mitred"
    SQUARED = "squared"
    BLUNTED = "blunted"
    TURNED = "turned"


@dataclass(frozen=True, slots=True, eq=False)
class PieceEdge:
    """One edge of a piece, in the order in which its outline runs.

    `drawn` is the line of the draft, `net` where it is sewn: the same unless the draft holds its seams.
    `turning` is what is left outside the net line, mm `(bodies,)`, and `finish` the words said with it.
    """

    edge: Edge
    name: str
    lies: Lies
    net: Drawn
    length: Array
    turning: Array
    corners: Corners
    finish: str

    @property
    def start(self) -> str:
        """The letter that it runs from."""
        return self.edge.start

    @property
    def end(self) -> str:
        """The letter that it runs to."""
        return self.edge.end

    @property
    def line(self) -> int:
        """The line of the draft that it is, or is a piece of; -1 for the straight way between its letters."""
        return self.edge.line

    @property
    def drawn(self) -> Drawn:
        """How the draft has it."""
        return self.edge.drawn

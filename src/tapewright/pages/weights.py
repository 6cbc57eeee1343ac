"""What each kind of line looks like on paper: weight, dash, grey.

The house's weights, the same on the screen and in print, turned into millimetres. A line is known by
weight and dash together, so that a plate reads the same from the plainest black printer.
"""

from __future__ import annotations

from enum import StrEnum

from tapewright.drawing import FAINT, INK, SOFT, Line
from tapewright.pages.paper import Scale


class Role(StrEnum):
    """What a line of the plate is for."""

    FRAME = "frame"
    CONSTRUCTION = "construction"
    OUTLINE = "outline"
    DART = "dart"
    BENEATH = "beneath"


# What a key under the plate says of each.
MEANING = {
    Role.OUTLINE: "the outline",
    Role.DART: "taken out",
    Role.FRAME: "the frame",
    Role.CONSTRUCTION: "squared, found or laid out",
    Role.BENEATH: "what lies beneath",
}

# Lines no lettering may touch; the others may run under a letter, and then give way to it.
HEAVY = frozenset({Role.OUTLINE, Role.DART})

LEADER = Line(0.15, SOFT)
RING = Line(0.2, SOFT)
WINDOW = Line(0.3, INK)
HAIR = Line(0.15, FAINT)


def line_for(role: Role, scale: Scale) -> Line:
    """How a line of that role is drawn; a little lighter on a small plate."""
    k = {1: 1.0, 2: 0.88, 4: 0.76}[scale.factor.denominator]
    match role:
        case Role.OUTLINE:
            return Line(0.66 * k, INK)
        case Role.DART:
            return Line(0.45 * k, INK, (4.4 * k, 1.3 * k))
        case Role.FRAME:
            return Line(0.26 * k, INK)
        case Role.CONSTRUCTION:
            return Line(0.26 * k, SOFT, (1.9 * k, 1.1 * k))
        case Role.BENEATH:
            return Line(0.42 * k, SOFT, (0.0, 1.4 * k), cap="round")

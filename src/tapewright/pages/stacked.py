"""Drawings one below the other on one sheet, as the left and the right of a wearer."""

from __future__ import annotations

from collections.abc import Sequence

from tapewright.drawing import Drawing, Transform


def stacked(drawings: Sequence[Drawing]) -> Drawing:
    """One drawing as wide as the widest and as high as all together; one alone is itself."""
    if len(drawings) == 1:
        return drawings[0]
    marks = []
    down = 0.0
    for drawing in drawings:
        marks += list(drawing.placed(Transform.moving(0.0, down)))
        down += drawing.height
    return Drawing(max(d.width for d in drawings), down, tuple(marks), drawings[0].name)

"""Closed outlines made of drawn lines: their area, whether they go round a point, whether they cross themselves.

An outline is a sequence of drawn lines run end to end; a last gap, if any, is closed straight. Areas are exact for
cubics. What an outline means, and how it is mended, belong to the pieces.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from tapewright.geometry.curve import Drawn, trimmed
from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array, Mask, total
from tapewright.geometry.tolerance import SAME_POINT


def area(outline: Sequence[Drawn]) -> Array:
    """The area inside a closed outline, mm2, positive if it is run clockwise as the paper is seen.

    Exact for cubics, by Green's formula on their control points. An outline that crosses itself counts each part
    with its own sign. No lines, or lines of no length, give nought.
    """

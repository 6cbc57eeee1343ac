"""A piece as shapes alone, for files that other tools cut from: lines as cubics in mm, and the words that go along.

x to the right and y down, as everywhere; a writer that wants y upward turns it over.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class ShapeNotch:
    """A balance mark: a place on the sewing line, the unit way out, how far the cutting line is, how many strokes."""

    x: float
    y: float
    out_x: float
    out_y: float
    deep: float
    count: int


@dataclass(frozen=True, slots=True, eq=False)
class PieceShape:
    """One piece: `cut` is its closed cutting line, `net` its sewing lines by name, all cubics `(n, 4, 2)`.

    `lines` and `points` are marked within it; `lying` are straight lines on the grain, the cross or the fold,
    which `on` says. `alike` and `mirrored` are how many are cut as drawn and turned over. `words` go with it.
    """

    name: str
    cut: Floats
    net: tuple[tuple[str, Floats], ...]
    lines: tuple[tuple[str, Floats], ...] = ()
    points: tuple[tuple[str, float, float], ...] = ()
    notches: tuple[ShapeNotch, ...] = ()
    on: str = ""
    lying: tuple[tuple[float, float, float, float], ...] = ()
    cloth: str = ""
    alike: int = 1
    mirrored: int = 0
    words: tuple[str, ...] = ()

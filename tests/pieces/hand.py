"""Patterns made by hand for the tests of pieces: polygons and single curves, one body."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
from shapely import Polygon

from tapewright.draft.rows import Edge
from tapewright.geometry import Drawn, cubics, fixed, length, straight
from tapewright.pieces import Corners, CuttingLine, Lies, PieceEdge, cutting_line, outward_of

#: How many places are looked at on each cubic when a line is handed to shapely.
PLACES = 64

Spot = tuple[float, float]


def polygon_edges(
    corners: Sequence[Spot], turnings: Sequence[float], styles: Mapping[int, Corners] | None = None
) -> tuple[PieceEdge, ...]:
    """The edges of a polygon, each with its turning."""
    lines = [straight(fixed(*p), fixed(*q)) for p, q in zip(corners, [*corners[1:], corners[0]], strict=True)]
    return edges_of(lines, turnings, styles)


def edges_of(
    lines: Sequence[Drawn], turnings: Sequence[float], styles: Mapping[int, Corners] | None = None
) -> tuple[PieceEdge, ...]:
    """Edges along lines that follow one another."""
    return tuple(
        PieceEdge(
            Edge(f"P{k}", f"P{(k + 1) % len(lines)}", line),
            f"edge {k}",
            Lies.CUT,
            line,
            length(line),
            np.array([float(wide)]),
            (styles or {}).get(k, Corners.MITRED),
            "",
        )
        for k, (line, wide) in enumerate(zip(lines, turnings, strict=True))
    )


def cut_of(edges: tuple[PieceEdge, ...]) -> CuttingLine:
    """Their cutting line."""
    return cutting_line(edges, outward_of(edges))


def as_dart(edges: tuple[PieceEdge, ...], first: int) -> tuple[PieceEdge, ...]:
    """The same with two edges made the legs of a dart."""
    nought = np.zeros(1)
    return tuple(
        replace(e, lies=Lies.DART, turning=nought) if k in (first, first + 1) else e
        for k, e in enumerate(edges)
    )


def spots(runs: Sequence[Drawn], row: int = 0, places: int = PLACES) -> list[Spot]:
    """Places along lines that follow one another, close enough for a polygon."""
    found: list[Spot] = []
    u = np.arange(places) / places
    for run in runs:
        for c in cubics(run, row):
            v = 1.0 - u
            p = (
                np.outer(v**3, c[0]) + np.outer(3 * u * v * v, c[1])
                + np.outer(3 * u * u * v, c[2]) + np.outer(u**3, c[3])
            )  # fmt: skip
            found += [(float(x), float(y)) for x, y in p]
    return found


def vertices(runs: Sequence[Drawn]) -> list[Spot]:
    """The corners of a line made of straight runs, to a ten-thousandth of a millimetre, repeated ones left out."""
    found: list[Spot] = []
    for run in runs:
        for c in cubics(run, 0):
            p = (round(float(c[0][0]), 4) + 0.0, round(float(c[0][1]), 4) + 0.0)
            if not found or found[-1] != p:
                found.append(p)
    kept = []
    for k, p in enumerate(found):
        a, b = found[k - 1], found[(k + 1) % len(found)]
        turn = (p[0] - a[0]) * (b[1] - p[1]) - (p[1] - a[1]) * (b[0] - p[0])
        if abs(turn) > 0.01:
            kept.append(p)
    return kept


def shape(runs: Sequence[Drawn], row: int = 0, places: int = PLACES) -> Polygon:
    """A closed line as shapely's polygon."""
    return Polygon(spots(runs, row, places))

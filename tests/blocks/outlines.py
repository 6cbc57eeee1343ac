"""Outlines of pieces as a cutter has them: darts that came to nothing closed, curves as many short rulers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from tapewright.draft import Draft
from tapewright.draft.bodies import Rows
from tapewright.draft.rows import Edge, OutlineRun, some
from tapewright.geometry import Curve, Stretch, distance, end_point, start_point, trimmed
from tapewright.geometry.tolerance import SAME_POINT
from tests.blocks.drafts import Array

#: Short rulers to a segment of a curve.
RULERS = 24


def closed_up(outline: OutlineRun) -> Iterator[tuple[Rows, tuple[Edge, ...]]]:
    """The outline without darts that came to nothing, for each run of bodies that have the same darts left.

    A dart is two straight edges out and back; it came to nothing where they end as they began.
    """
    edges = outline.edges
    count = start_point(edges[0].drawn).x.shape[0]
    gone = np.zeros((len(edges), count), dtype=np.bool_)
    for i in range(len(edges) - 1):
        mouth = distance(start_point(edges[i].drawn), end_point(edges[i + 1].drawn))
        straight = edges[i].line < 0 and edges[i + 1].line < 0
        if straight:
            gone[i : i + 2] |= mouth <= SAME_POINT
    for pattern in np.unique(gone, axis=1).T:
        rows = np.nonzero((gone == pattern[:, None]).all(axis=0))[0]
        yield rows, tuple(edge for edge, out in zip(edges, pattern, strict=True) if not out)


def drawn_on(edges: Sequence[Edge], rows: Rows) -> list[Curve | Stretch]:
    """Some bodies of a run of edges."""
    found = [some(edge.drawn, rows) for edge in edges]
    return [drawn for drawn in found if isinstance(drawn, Curve | Stretch)]


def flattened(outline: Sequence[Curve | Stretch]) -> Array:
    """The outline's corners and points along its curves, `(points, 2, bodies)`; the last is not the first."""
    t = np.linspace(0.0, 1.0, RULERS, endpoint=False)[:, None, None, None]
    parts = []
    for drawn in outline:
        a, b, c, d = trimmed(drawn).ctrl
        at = ((1 - t) ** 3) * a + (3 * t * (1 - t) ** 2) * b + (3 * t**2 * (1 - t)) * c + t**3 * d
        if curve_is_straight(drawn):
            at = at[:1]
        # (steps, 2, segments, bodies) to one run of points after another, segment by segment.
        parts.append(np.moveaxis(at, 2, 0).reshape(-1, 2, at.shape[3]))
    return np.concatenate(parts)


def curve_is_straight(drawn: Curve | Stretch) -> bool:
    """Whether a drawn line is one straight ruler."""
    return drawn.is_straight if isinstance(drawn, Curve) else drawn.curve.is_straight


def pieces(draft: Draft) -> dict[str, OutlineRun]:
    """The outlines of a draft's pieces by their names."""
    return {piece.name: piece.outline for piece in draft.pieces()}

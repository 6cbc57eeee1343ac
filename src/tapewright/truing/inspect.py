"""All inspections of one body's pattern together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tapewright.diagnostics import Query
from tapewright.pieces import Lies, Pattern
from tapewright.truing.outlines import look_at_outlines
from tapewright.truing.running_on import Corner, corners, look_at_corners
from tapewright.truing.scyes import look_at_scyes
from tapewright.truing.seams import SeamRow, look_at_seams, seam_rows
from tapewright.truing.turnings import look_at_turnings


@dataclass(frozen=True, slots=True)
class Truing:
    """What an inspection found: queries; every seam; the ends of seams; the edges that no seam takes up, by piece."""

    queries: tuple[Query, ...]
    seams: tuple[SeamRow, ...]
    corners: tuple[Corner, ...]
    free: tuple[tuple[str, tuple[str, ...]], ...]


def inspect(
    pattern: Pattern,
    row: int = 0,
    *,
    cloth_widths: Mapping[str, float] | None = None,
    paper_width: float | None = None,
) -> Truing:
    """Look over one body's pattern; widths of named cloths, and of a roll of paper, are in mm where they are known."""
    queries = (
        *look_at_seams(pattern, row),
        *look_at_turnings(pattern, row),
        *look_at_outlines(pattern, row, cloth_widths or {}, paper_width),
        *look_at_corners(pattern, row),
        *look_at_scyes(pattern, row),
    )
    return Truing(queries, seam_rows(pattern, row), corners(pattern, row), _free(pattern))


def _free(pattern: Pattern) -> tuple[tuple[str, tuple[str, ...]], ...]:
    sewn = {
        (part.piece, part.edge)
        for seam in pattern.seams
        for side in (seam.first, seam.second)
        for part in side.parts
    }
    return tuple(
        (
            piece.name,
            tuple(
                e.name
                for k, e in enumerate(piece.edges)
                if e.lies is Lies.CUT and (piece.number, k) not in sewn
            ),
        )
        for piece in pattern.pieces
        if piece.outer
    )

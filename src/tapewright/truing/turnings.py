"""Turnings: whether they can be cut as they were said, and whether what they name is there."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from tapewright.diagnostics import Query, caution, note
from tapewright.geometry import curvature, whole
from tapewright.pieces import Pattern, PatternPiece
from tapewright.truing.words import called, capital
from tapewright.units import show_length


def look_at_turnings(pattern: Pattern, row: int) -> Iterator[Query]:
    """Every turning that cannot be cut as asked on one body."""
    source = pattern.draft.plan.lesson.source.name
    for piece in pattern.pieces:
        for query in (*_said(piece), *_wide(piece, row)):
            yield query.at(source, piece.said.sentence)


def _said(piece: PatternPiece) -> Iterator[Query]:
    for name in piece.untold.off_piece:
        yield caution(
            "no-edge-of-it",
            f"Turnings are said for {called(name)}, which is no edge of the {piece.name}.",
            help=f"Its edges are {', '.join(e.name for e in piece.edges)}.",
        )
    for table, name in piece.untold.not_in_table:
        yield note(
            "not-in-the-table",
            f"“{table}” says nothing of {called(name)} of the {piece.name}; nothing is left there.",
            help="If something should be, say how much, and there.",
        )


def _wide(piece: PatternPiece, row: int) -> Iterator[Query]:
    for tight in piece.cut.tight:
        if tight.rows[row]:
            edge = piece.edges[tight.edge]
            wide = float(edge.turning[row])
            goes = tightest(piece, tight.edge, row)
            yield caution(
                "turning-too-wide",
                f"{capital(called(edge.name))} of the {piece.name} bends more tightly than its turning of "
                f"{show_length(wide)} allows"
                + ("; it is cut to a corner in the hollow." if tight.mended[row] else "."),
                help=f"Up to {show_length(goes)} would go there, or soften the curve."
                if 1.0 < goes < wide
                else "Leave less there, or soften the curve.",
            )
    for k, rows in (*piece.cut.lost, *piece.cut.swallowed):
        if rows[row]:
            yield caution(
                "cutting-lines-part",
                f"At the end of {called(piece.edges[k].name)} of the {piece.name} "
                "the cutting lines do not come together.",
                help="Leave less on one side of that corner, or look at the letters there.",
            )


def tightest(piece: PatternPiece, k: int, row: int) -> float:
    """The smallest radius of the hollows of an edge, mm: the widest turning that goes there."""
    run = whole(piece.edges[k].net)
    start, end = float(run.start[row]), float(run.end[row])
    outward = float(piece.outward[row])
    bends = []
    for t in np.linspace(start, end, 200)[1:-1]:
        bend = float(curvature(run, np.full_like(run.start, t))[row]) * outward
        bends.append(bend)
    most = max(bends, default=0.0)
    return 1.0 / most if most > 0.0 else float("inf")

"""One body's pattern as plain data: what `tapewright pieces --json` prints. Millimetres throughout."""

from __future__ import annotations

from typing import Any

from tapewright.app.account import PLACES
from tapewright.geometry import cubics, length
from tapewright.pages.paper_piece import closed_cubics
from tapewright.pages.piece_from import is_whole, named
from tapewright.pages.piece_words import count_for, pairs_in, tape_reading
from tapewright.pages.room import Floats
from tapewright.pieces import Pattern, PatternPiece, PatternSeam, PieceEdge, SeamSide


def pattern_account(pattern: Pattern, row: int = 0, side: str = "") -> dict[str, Any]:
    """Pieces, seams and what could not be cut as asked, for one body; `side` names the pieces of one side."""
    whole = {piece.number for piece in pattern.pieces if is_whole(piece, row)}
    return {
        "pieces": [_piece(pattern, p, row, side) for p in pattern.pieces if p.number in whole],
        "seams": [_seam(pattern, seam, row, side) for seam in pattern.seams],
    }


def _round(value: float) -> float:
    return round(value, PLACES) + 0.0


def _listed(found: Floats) -> list[Any]:
    return [[[_round(float(c)) for c in p] for p in cubic] for cubic in found]


def _piece(pattern: Pattern, piece: PatternPiece, row: int, side: str) -> dict[str, Any]:
    said = piece.said
    return {
        "name": named(piece, side),
        "cut": [
            {"count": count_for(c.count, side), "of": c.name, "pairs": pairs_in(piece, c.count, side)}
            for c in said.cloths
        ],
        "under": said.under or None,
        "lies": said.on or None,
        "nap": said.nap or None,
        "lying": [[[_round(float(p.x[row])), _round(float(p.y[row]))] for p in line] for line in said.lying],
        "edges": [_edge(pattern, edge, row) for edge in piece.edges],
        "cut line": _cut_line(piece, row),
        "area": {
            "net": _round(float(piece.net_area()[row])),
            "cut": _round(float(piece.cut_area()[row])),
        },
        "darts": [list(pair) for pair in piece.darts],
        "notches": [
            {
                "edge": piece.edges[n.edge].name,
                "at": [_round(float(n.at.x[row])), _round(float(n.at.y[row]))],
                "along": _round(float(n.along[row])),
                "strokes": n.count,
                "carried": n.carried,
                "sentence": n.sentence,
            }
            for n in pattern.notches
            if n.piece == piece.number
        ],
        "lines": [
            {
                "name": one.name,
                "cubics": _listed(cubics(one.drawn, row)),
                "length": _round(float(length(one.drawn)[row])),
                "sentence": one.sentence,
            }
            for one in pattern.lines
            if one.piece == piece.number
        ],
        "points": [
            {
                "name": p.name,
                "at": [_round(float(p.at.x[row])), _round(float(p.at.y[row]))],
                "sentence": p.sentence,
            }
            for p in pattern.points
            if p.piece == piece.number
        ],
        "sentence": said.sentence,
    }


def _edge(pattern: Pattern, edge: PieceEdge, row: int) -> dict[str, Any]:
    long = float(edge.length[row])
    net = float(length(edge.net)[row])
    return {
        "name": edge.name,
        "from": edge.start,
        "to": edge.end,
        "lies": str(edge.lies),
        "length": _round(net),
        "reading": tape_reading(pattern.draft, long, row) or None,
        "turning": _round(float(edge.turning[row])),
        "corners": str(edge.corners),
        "finish": edge.finish or None,
        "cubics": _listed(cubics(edge.net, row)),
    }


def _cut_line(piece: PatternPiece, row: int) -> dict[str, Any]:
    """The closed cutting line: one run of cubics, how long it is, and what could not be cut as asked."""
    runs = piece.cut.runs
    closed = closed_cubics([cubics(run, row) for run in runs])
    return {
        "length": _round(sum(float(length(run)[row]) for run in runs)),
        "cubics": _listed(closed),
        "along": [
            {
                "edge": piece.edges[k].name if k >= 0 else None,
                "length": _round(float(length(run)[row])),
            }
            for run, k in zip(runs, piece.cut.edges, strict=True)
        ],
        "too wide": [piece.edges[t.edge].name for t in piece.cut.tight if bool(t.rows[row])],
        "corners lost": [piece.edges[k].name for k, rows in piece.cut.lost if bool(rows[row])],
        "swallowed": [piece.edges[k].name for k, rows in piece.cut.swallowed if bool(rows[row])],
    }


def _seam(pattern: Pattern, seam: PatternSeam, row: int, side: str) -> dict[str, Any]:
    return {
        "first": _side(pattern, seam.first, row, side),
        "second": _side(pattern, seam.second, row, side),
        "how": seam.said.how,
        "eased": seam.said.eased or None,
        "by": None if seam.said.by is None else _round(float(seam.said.by[row])),
        "difference": _round(float(seam.said.difference[row])),
        "sentence": seam.said.sentence,
    }


def _side(pattern: Pattern, found: SeamSide, row: int, side: str) -> dict[str, Any]:
    return {
        "edges": list(found.names),
        "length": _round(float(found.length[row])),
        "runs": [
            {
                "piece": named(pattern.pieces[part.piece], side),
                "edge": pattern.pieces[part.piece].edges[part.edge].name,
                "length": _round(float(part.length[row])),
                "forward": part.forward,
            }
            for part in found.parts
        ],
        "on no piece": list(found.missing),
    }

"""A pattern made ready for the toile: calico alone, wide inlays, no facings, both sides, and lines to fit by.

The widths are common practice, no source: an inch and more where a fitting lets out, less where a hollow must lie
flat. One body at a time.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from tapewright.draft.records import Cloth
from tapewright.geometry import Arc, Circle, Point, end_point, fixed, start_point, straight
from tapewright.pieces.across import Level, across, level_through
from tapewright.pieces.cutting_line import cutting_line
from tapewright.pieces.edge import Corners, Lies, PieceEdge
from tapewright.pieces.marks import InnerLine
from tapewright.pieces.measured import BESIDE, is_neck
from tapewright.pieces.pattern import Pattern
from tapewright.pieces.piece import PatternPiece

#: Left outside an edge, so that a fitting can let out, mm.
INLAY = 30.0
#: Left outside necks, scyes and crowns, mm.
PLAIN = 15.0
#: Lines across the body that are drawn on every piece they cross, where the draft has them.
LEVELS = (
    "bust line",
    "chest line",
    "scye line",
    "high waist line",
    "waist line",
    "high hip line",
    "hip line",
    "upper arm line",
    "elbow line",
    "knee line",
)
CALICO = "calico"


def toile_of(pattern: Pattern, inlay: float = INLAY) -> Pattern:
    """The pattern of a toile, for a pattern of one body; ValueError for more.

    Linings, interlinings and facings are left out; if no seam joins any pieces, only inner layers are. What
    the lesson leaves outside is left aside: `inlay` mm everywhere, 15 at necks, scyes and crowns, which would
    not lie flat with more; hems and facings that turn on to a piece are left plain.
    """
    if pattern.draft.bodies.count != 1:
        raise ValueError("a toile is made for one body")
    sewn = {
        (part.piece, part.edge)
        for seam in pattern.seams
        for side in (seam.first, seam.second)
        for part in side.parts
    }
    wanted = {piece for piece, _ in sewn} or {p.number for p in pattern.pieces if p.outer}
    kept = [p for p in pattern.pieces if p.number in wanted and p.outer]
    number = {p.number: k for k, p in enumerate(kept)}
    pieces = tuple(_calico(p, number[p.number], inlay) for p in kept)
    seams = tuple(
        replace(
            seam,
            first=replace(
                seam.first, parts=tuple(replace(x, piece=number[x.piece]) for x in seam.first.parts)
            ),
            second=replace(
                seam.second, parts=tuple(replace(x, piece=number[x.piece]) for x in seam.second.parts)
            ),
        )
        for seam in pattern.seams
    )
    return replace(
        pattern,
        pieces=pieces,
        seams=seams,
        notches=tuple(replace(n, piece=number[n.piece]) for n in pattern.notches if n.piece in number),
        lines=(
            *(replace(x, piece=number[x.piece]) for x in pattern.lines if x.piece in number),
            *(line for p in pieces for line in _levels(pattern, p)),
        ),
        points=tuple(replace(x, piece=number[x.piece]) for x in pattern.points if x.piece in number),
    )


def _calico(piece: PatternPiece, number: int, inlay: float) -> PatternPiece:
    edges = tuple(_left(e, PLAIN if _hollow(e.name) else inlay) for e in piece.edges)
    count = piece.said.cloths[0].count if piece.said.cloths else 1
    said = replace(piece.said, cloths=(Cloth(count, CALICO),), under="")
    return replace(piece, number=number, said=said, edges=edges, cut=cutting_line(edges, piece.outward))


def _hollow(name: str) -> bool:
    return is_neck(name) or any(word in {"scye", "crown", "armhole"} for word in name.split())


def _left(edge: PieceEdge, width: float) -> PieceEdge:
    if edge.lies is not Lies.CUT:
        return edge
    return replace(edge, turning=np.full_like(edge.turning, width), corners=Corners.MITRED, finish="")


def _levels(pattern: Pattern, piece: PatternPiece) -> Iterator[InnerLine]:
    """The lines of the body that cross a piece, and its grain from edge to edge."""
    draft = pattern.draft
    for line in draft.plan.lines:
        if line.name not in LEVELS or not draft.alive(f"line {line.index}"):
            continue
        drawn = draft.line(line.index)
        if isinstance(drawn, Circle | Arc):
            continue
        ends = _spot(start_point(drawn)), _spot(end_point(drawn))
        level = level_through(*ends)
        if level is not None:
            yield from _clipped(piece, level, -BESIDE, level.at(ends[1]) + BESIDE, line.name, line.sentence)
    for mark in draft.landmarks():
        ways = [level_through(_spot(a), _spot(b)) for a, b in piece.lying[:1]]
        if mark.name == "bust point" and ways and ways[0] is not None:
            for p in mark.points:
                x, y = _spot(p)
                square = Level(x, y, ways[0].dy, -ways[0].dx)
                yield from _clipped(piece, square, -2 * BESIDE, 2 * BESIDE, "bust line", mark.sentence)
    if piece.lying and piece.said.on != "fold":
        level = level_through(*(_spot(p) for p in piece.lying[0]))
        if level is not None:
            yield from _clipped(
                piece, _through_the_middle(piece, level), -1e5, 1e5, piece.said.on, piece.said.sentence
            )


def _clipped(
    piece: PatternPiece, level: Level, low: float, high: float, name: str, sentence: int
) -> Iterator[InnerLine]:
    for a, b in across(piece, 0, level):
        if b > low and a < high and b - a > PLAIN:
            yield InnerLine(
                piece.number, name, straight(fixed(*level.spot(a)), fixed(*level.spot(b))), sentence
            )


def _through_the_middle(piece: PatternPiece, level: Level) -> Level:
    """The level carried beside itself until it runs through the middle of a piece."""
    spots = [_spot(start_point(e.net)) for e in piece.edges]
    beside = [(x - level.x) * -level.dy + (y - level.y) * level.dx for x, y in spots]
    off = (min(beside) + max(beside)) / 2.0
    return Level(level.x - level.dy * off, level.y + level.dx * off, level.dx, level.dy)


def _spot(p: Point) -> tuple[float, float]:
    return float(p.x[0]), float(p.y[0])

"""One body's pattern becomes pieces on paper: what is drawn of each, and the words of its label."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import numpy as np

from tapewright.geometry import cubics, curve_of, end_point, start_point
from tapewright.pages.paper_piece import (
    PaperEdge,
    PaperNotch,
    PaperPiece,
    PieceLines,
    PieceSheet,
    PieceTold,
    closed_cubics,
    turned_over,
)
from tapewright.pages.piece_words import cut_words, edge_words, title_case, turning_words
from tapewright.pages.wording import as_printed
from tapewright.pieces import Lies, Pattern, PatternPiece

_DATE = re.compile(r"\b(\d{1,2}) (\w+) (\d{4})\b")


def sheet_of(
    patterns: Sequence[tuple[str, Pattern]],
    row: int = 0,
    *,
    wearer_line: str = "",
    warning: str = "",
    notes: Sequence[str] = (),
    lines: PieceLines = PieceLines.BOTH,
    letters: bool = False,
) -> PieceSheet:
    """The pieces of one wearer: `patterns` is one with no name, or the left's and the right's by their sides."""
    title = patterns[0][1].draft.plan.lesson.title if patterns else ""
    lesson = patterns[0][1].draft.plan.lesson
    pieces = []
    for side, pattern in patterns:
        # Both sides are drafted alike; on paper each lies as it will on the right side of the cloth.
        over = side != "" and side != side_drawn(pattern)
        for piece in pattern.pieces:
            if is_whole(piece, row):
                made = paper_piece(
                    pattern, piece, row, side=side, wearer_line=wearer_line, lines=lines, letters=letters
                )
                pieces.append(turned_over(made) if over else made)
    told = [
        PieceTold(title_case(named(piece, side)), cut_words(piece, side), turning_words(piece, row))
        for side, pattern in patterns
        for piece in pattern.pieces
        if is_whole(piece, row)
    ]
    drafted = " ".join(lesson.source[lesson.header.span].split())
    return PieceSheet(
        title, tuple(pieces), tuple(told), wearer_line, drafted, warning, tuple(notes), lines, letters
    )


def side_drawn(pattern: Pattern) -> str:
    """Which side of the wearer a half draft shows, seen from outside: the right, with the centre back on the left."""
    places = pattern.draft.plan.places
    back, front = places.get("centre back", ""), places.get("centre front", "")
    return "right" if back == "left" or front == "right" else "left"


def named(piece: PatternPiece, side: str) -> str:
    """What a piece is called; with its side where left and right were drawn."""
    return f"{side} {piece.name.removeprefix('the ')}".strip()


def is_whole(piece: PatternPiece, row: int) -> bool:
    """Whether every place of a piece is known on this body."""
    return all(bool(np.isfinite(curve_of(d).ctrl[..., row]).all()) for d in (*piece.net, *piece.cut.runs))


def paper_piece(
    pattern: Pattern,
    piece: PatternPiece,
    row: int,
    *,
    side: str = "",
    wearer_line: str = "",
    lines: PieceLines = PieceLines.BOTH,
    letters: bool = False,
) -> PaperPiece:
    """One piece of a pattern for one body."""
    draft = pattern.draft
    edges = tuple(
        PaperEdge(
            e.name,
            cubics(e.net, row),
            edge_words(e, draft, row, letters=letters),
            e.lies is Lies.FOLD,
            e.lies is Lies.DART,
        )
        for e in piece.edges
    )
    notches = tuple(
        PaperNotch(
            float(n.at.x[row]),
            float(n.at.y[row]),
            float(n.out_x[row]),
            float(n.out_y[row]),
            float(piece.edges[n.edge].turning[row]),
            n.count,
        )
        for n in pattern.notches
        if n.piece == piece.number
    )
    return PaperPiece(
        title_case(named(piece, side)),
        tuple(_label(pattern, piece, side, wearer_line, lines)),
        edges,
        closed_cubics([cubics(run, row) for run in piece.cut.runs]),
        piece.said.on,
        tuple(
            (float(a.x[row]), float(a.y[row]), float(b.x[row]), float(b.y[row])) for a, b in piece.said.lying
        ),
        notches,
        tuple(
            (as_printed(one.name), cubics(one.drawn, row))
            for one in pattern.lines
            if one.piece == piece.number
        ),
        tuple(
            (as_printed(p.name), float(p.at.x[row]), float(p.at.y[row]))
            for p in pattern.points
            if p.piece == piece.number
        )
        + tuple(
            ("too tight", float(t.at.x[row]), float(t.at.y[row])) for t in piece.cut.tight if t.rows[row]
        ),
        tuple(_corners(piece, row)) if letters else (),
        piece.said.nap,
    )


def _label(
    pattern: Pattern, piece: PatternPiece, side: str, wearer_line: str, lines: PieceLines
) -> Iterator[tuple[str, ...]]:
    """The words of a label, and shorter ways of saying them."""
    cut = as_printed(cut_words(piece, side))
    whose = _DATE.sub("\\1\u00a0\\2\u00a0\\3", as_printed(wearer_line.removeprefix("For ")))
    net = "Net: add turnings" if lines is PieceLines.NET else ""
    title = as_printed(pattern.draft.plan.lesson.title)
    yield tuple(line for line in (cut, net, whose, title) if line)
    if whose:
        # The name alone: over what and when stands at the head of the page as well.
        yield tuple(line for line in (cut, net, whose.split(",")[0]) if line)
    yield tuple(line for line in (cut, net) if line)
    yield ()


def _corners(piece: PatternPiece, row: int) -> Iterator[tuple[str, float, float]]:
    seen: set[str] = set()
    for edge in piece.edges:
        for letter, spot in ((edge.start, start_point(edge.net)), (edge.end, end_point(edge.net))):
            if letter and letter not in seen:
                seen.add(letter)
                yield as_printed(letter), float(spot.x[row]), float(spot.y[row])

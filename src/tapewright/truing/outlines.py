"""Outlines: that a piece has a grain, that its cutting line does not cross itself, that it goes on its cloth."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from tapewright.diagnostics import Query, caution, note
from tapewright.geometry import crosses_itself, cubics, curve_of
from tapewright.geometry.curve import Curve, trimmed
from tapewright.pieces import Pattern, PatternPiece
from tapewright.units import show_length


def look_at_outlines(
    pattern: Pattern, row: int, cloth_widths: Mapping[str, float], paper_width: float | None
) -> Iterator[Query]:
    """What a cutter would not lay on the cloth, for one body; widths of cloths by name and of the roll, mm."""
    source = pattern.draft.plan.lesson.source.name
    for piece in pattern.pieces:
        for query in (
            *_grain(piece),
            *_crossed(piece, row),
            *_too_wide(piece, row, cloth_widths),
            *_paper(piece, row, paper_width),
        ):
            yield query.at(source, piece.said.sentence)


def _grain(piece: PatternPiece) -> Iterator[Query]:
    # A gauge of paper has no grain to lie on.
    if not piece.lying and any(c.name not in {"paper", "card"} for c in piece.said.cloths):
        yield caution(
            "no-grain",
            f"Nothing says how the {piece.name} lies on the cloth.",
            help="Say it where it is cut: “with A-B on the grain”, on the cross or on the fold.",
        )


def _crossed(piece: PatternPiece, row: int) -> Iterator[Query]:
    one = [_one(run, row) for run in piece.cut.runs]
    if bool(crosses_itself(one).crosses[0]) and not any(t.rows[row] for t in piece.cut.tight):
        yield caution(
            "cutting-line-crosses",
            f"The cutting line of the {piece.name} crosses itself: two of its turnings meet.",
            help="Leave less where the piece is narrow or its edges fold back.",
        )


def _one(run: object, row: int) -> Curve:
    curve = trimmed(run)  # type: ignore[arg-type]
    return Curve(np.ascontiguousarray(curve.ctrl[..., row : row + 1]), curve_of(curve).is_straight)


def _paper(piece: PatternPiece, row: int, paper_width: float | None) -> Iterator[Query]:
    places = np.concatenate([cubics(run, row).reshape(-1, 2) for run in piece.cut.runs])
    wide = float(places[:, 0].max() - places[:, 0].min())
    if paper_width is not None and wide > paper_width:
        yield note(
            "wider-than-the-paper",
            f"The {piece.name} is {show_length(wide)} wide, and the roll has room for {show_length(paper_width)}; "
            "it is joined from strips.",
            help="Take a wider roll, or join the strips before you cut.",
        )


def _too_wide(piece: PatternPiece, row: int, cloth_widths: Mapping[str, float]) -> Iterator[Query]:
    """A piece that goes on no breadth of its cloth, measured square to its grain; on the fold, twice."""
    for cloth in piece.said.cloths:
        wide = cloth_widths.get(cloth.name)
        if wide is None or not piece.lying:
            continue
        a, b = piece.lying[0]
        way = np.array([float(b.x[row] - a.x[row]), float(b.y[row] - a.y[row])])
        if piece.said.on == "cross":
            way = np.array([-way[1], way[0]])
        long = float(np.hypot(*way))
        if long == 0.0:
            continue
        places = np.concatenate([cubics(run, row).reshape(-1, 2) for run in piece.cut.runs])
        beside = places @ np.array([-way[1], way[0]]) / long
        have = float(beside.max() - beside.min()) * (2.0 if piece.said.on == "fold" else 1.0)
        if have > wide:
            yield caution(
                "wider-than-the-cloth",
                f"The {piece.name} is {show_length(have)} wide, and the {cloth.name} {show_length(wide)}.",
                help="Piece it, turn it on the cloth, or take a wider cloth.",
            )

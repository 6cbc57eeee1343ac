"""The pieces of a lesson for one wearer or many: cut out on paper, as pictures, as data."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np

from tapewright.app.account import PLACES
from tapewright.app.beside import ranges
from tapewright.app.drafting import (
    LARGEST_DRAFT,
    MOST_PAGES,
    Print,
    Result,
    file_name,
    warning,
    wearer_line,
)
from tapewright.app.files import Trouble, write
from tapewright.app.pattern_account import pattern_account
from tapewright.app.pattern_measured import Beside, beside
from tapewright.diagnostics import Kind, Query, as_json
from tapewright.export import pdf, svg
from tapewright.export.dxf import Form, write_dxf
from tapewright.geometry import cubics
from tapewright.pages import ONE_PAGE
from tapewright.pages.block import lines_of
from tapewright.pages.counting import listed
from tapewright.pages.first_page import words_pages
from tapewright.pages.fitting_form import fitting_form
from tapewright.pages.from_draft import LACING, is_stays
from tapewright.pages.layout import Page
from tapewright.pages.paper import MARGIN
from tapewright.pages.paper_piece import PieceLines, PieceSheet
from tapewright.pages.piece_drawn import DrawnPiece, layers_of
from tapewright.pages.piece_from import is_whole, named, sheet_of
from tapewright.pages.piece_pages import drawn_pieces, piece_alone, piece_pages
from tapewright.pages.piece_shapes import shapes_of
from tapewright.pages.piece_words import cut_words, size_words, title_case
from tapewright.pieces import Pattern, PatternPiece, pattern_of
from tapewright.pieces.toile import toile_of
from tapewright.pieces.wares import Ware, wares_of
from tapewright.truing import Truing, inspect, seam_words
from tapewright.units import show_length

#: What one file of pieces can be.
WRITTEN = (".pdf", ".svg", ".dxf", ".json")


@dataclass(frozen=True, slots=True)
class HowCut:
    """How pieces are drawn: which lines, and with letters or not.

    With `toile` they are those of the calico one; `form` is how a DXF is written. `turnings`, in mm, is left in
    place of what the lesson leaves at edges that it does not name; None keeps that.
    """

    how: Print
    lines: PieceLines = PieceLines.BOTH
    letters: bool = False
    turnings: float | None = None
    toile: bool = False
    form: Form = "plain"
    cloth_widths: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, eq=False)
class Cut:
    """The pieces of one wearer: the draft's result, and its pattern or the patterns of both sides by name."""

    result: Result
    how: HowCut
    patterns: tuple[tuple[str, Pattern], ...] = field(repr=False)

    @property
    def pieces(self) -> tuple[tuple[str, PatternPiece], ...]:
        """Every piece that could be drawn whole, with its side."""
        return tuple((side, p) for side, pattern in self.patterns for p in pattern.pieces if is_whole(p, 0))

    @cached_property
    def sheet(self) -> PieceSheet:
        """The pieces as they are put on paper."""
        line = wearer_line(self.result.sheet) if self.result.sheet is not None else ""
        return sheet_of(
            self.patterns,
            wearer_line=line,
            warning=warning(self.result),
            notes=(*self._lacing(), *ranges(self.result.estimates), *self.warned()),
            lines=self.how.lines,
            letters=self.how.letters,
        )

    def _lacing(self) -> tuple[str, ...]:
        """The caution of lessons over stays, which no print of them goes without."""
        over = [
            layer
            for _, p in self.patterns
            for layer in p.draft.plan.lesson.header.over or ()
            if is_stays(layer)
        ]
        return (LACING,) if over else ()

    @cached_property
    def drawn(self) -> tuple[DrawnPiece, ...]:
        """The pieces drawn at the scale asked for."""
        return drawn_pieces(self.sheet, self.how.how.scale)

    def warned(self) -> tuple[str, ...]:
        """What the truing warns of, for the print: a cutter has no screen beside the shears."""
        return tuple(
            dict.fromkeys(q.message for _, t in self.truing for q in t.queries if q.kind is not Kind.NOTE)
        )

    def table(self) -> tuple[tuple[str, str, str], ...]:
        """A line for each piece: its name, how it is cut, how wide and high it lies net."""
        return tuple(
            (title_case(named(piece, side)), cut_words(piece, side), size_words(piece, _box(piece)))
            for side, piece in self.pieces
        )

    @cached_property
    def truing(self) -> tuple[tuple[str, Truing], ...]:
        """What looking the pattern over found, by sides."""
        across, down = self.how.how.paper.room
        # A roll is as long as it needs to be; on cut sheets and one page every width goes.
        room = across / float(self.how.how.scale.factor) if across is not None and down is None else None
        return tuple(
            (side, inspect(p, 0, cloth_widths=self.how.cloth_widths, paper_width=room))
            for side, p in self.patterns
        )

    @cached_property
    def queries(self) -> tuple[Query, ...]:
        """What the draft asks, and what the truing does; said once where both sides have it."""
        found = dict.fromkeys(q for _, truing in self.truing for q in truing.queries)
        return (*self.result.queries, *found)

    @cached_property
    def measured(self) -> tuple[Beside, ...]:
        """The pattern's measures beside the sheet's."""
        return beside(self.patterns, self.result.sheet)

    @cached_property
    def wares(self) -> tuple[tuple[str, Ware], ...]:
        """The small wares, those of either side by its name."""
        two = len(self.patterns) == 2
        whole = any(p.draft.plan.lesson.header.body == "whole" for _, p in self.patterns)
        return tuple(
            (side, ware)
            for side, p in self.patterns
            for ware in wares_of(p.draft, 0, 1 if two or whole else 2)
        )

    def data(self) -> dict[str, Any]:
        """The pieces as plain data."""
        result = self.result
        queries = [as_json(q, result.sources) for q in self.queries]
        title = "" if result.draft is None else result.draft.plan.lesson.title
        made: dict[str, Any] = {"lesson": title, "wearer": result.wearer, "unit": "mm"}
        if result.two is not None:
            made["sides"] = {side: pattern_account(p, 0, side) for side, p in self.patterns}
        else:
            found = [pattern_account(p, 0) for _, p in self.patterns]
            made |= found[0] if found else {"pieces": [], "seams": []}
        made["truing"] = [_truing_data(side, truing) for side, truing in self.truing]
        made["measured"] = [one.data() for one in self.measured]
        made["small wares"] = [_ware_data(side, ware) for side, ware in self.wares]
        return made | {"queries": queries}


def _truing_data(side: str, truing: Truing) -> dict[str, Any]:
    def kept(value: float) -> float:
        return round(value, PLACES) + 0.0

    return {
        **({"side": side} if side else {}),
        "seams": [
            {
                "first": row.first,
                "second": row.second,
                "lengths": [kept(row.one), kept(row.other)],
                "verdict": row.verdict,
                "off": kept(row.off),
                "between marks": [[kept(a), kept(b)] for a, b in row.between],
                "sentence": row.sentence,
            }
            for row in truing.seams
        ],
        "running on": [
            {"edges": [c.one, c.other], "at": c.letter, "degrees": kept(c.degrees), "sentence": c.sentence}
            for c in truing.corners
        ],
        "not sewn": {piece: list(edges) for piece, edges in truing.free},
    }


def _ware_data(side: str, ware: Ware) -> dict[str, Any]:
    return {
        "ware": ware.ware,
        **({"side": side} if side else {}),
        "edges": list(ware.edges),
        "length": round(ware.length, PLACES),
        "places": [round(p, PLACES) for p in ware.places],
        "count": ware.count or None,
        "total": round(ware.total, PLACES) or None,
        "sentence": ware.sentence,
    }


def ware_words(side: str, ware: Ware) -> str:
    """A line of the list of small wares."""
    on = f"{side} {listed(list(ware.edges))}".strip()
    if not ware.places:
        return f"{ware.ware}, {show_length(ware.total)} in all, along {on}"
    apart = f", {show_length(ware.places[1])} apart" if len(ware.places) > 1 else ""
    return f"{ware.count} {ware.ware}{apart}, on {on}"


def _box(piece: PatternPiece) -> tuple[float, float, float, float]:
    places = np.concatenate([cubics(e.net, 0).reshape(-1, 2) for e in piece.edges])
    (left, top), (right, bottom) = places.min(axis=0), places.max(axis=0)
    return float(left), float(top), float(right), float(bottom)


def cut_out(result: Result, how: HowCut) -> Cut:
    """The pieces of one wearer's draft; none where the draft could not be made or cuts nothing."""
    patterns = []
    for side, draft in result.sides():
        elsewhere = None if how.turnings is None else np.full(draft.bodies.count, how.turnings)
        pattern = pattern_of(draft, elsewhere)
        patterns.append((side, toile_of(pattern) if how.toile and pattern.pieces else pattern))
    return Cut(result, how, tuple(patterns))


def why_nothing(cut: Cut) -> str:
    """Why there is nothing to cut out, and what to do; nothing where there is something."""
    if cut.pieces or cut.result.draft is None:
        return ""
    if cut.result.waits:
        return "No piece could be drawn yet: something waits for an answer."
    outlines = list(cut.result.draft.plan.outlines)
    if outlines:
        last = outlines[-1].removeprefix("the ")
        return (
            "This lesson cuts nothing yet. Say what is to be cut, such as: "
            f"Cut the {last} twice of calico, leaving 1.5 cm everywhere."
        )
    return "This lesson has no piece. Say the outline of one (Let the back be the outline A to B, ...), and cut it."


# --- what is written -----------------------------------------------------------------------------------


def written(cut: Cut, target: Path, name: str) -> list[tuple[Path, bytes]]:
    """The files of one wearer, each whole: one by its ending, or into a folder a PDF and an SVG for each piece.

    Nothing where there is no piece. Trouble where they are too large for any paper.
    """
    ending = target.suffix.lower()
    if ending == ".json":
        return [(target, (json.dumps(cut.data(), ensure_ascii=False, indent=1) + "\n").encode())]
    if not cut.pieces:
        return []
    _fits(cut)
    if ending in _AS:
        return [(target, _AS[ending](cut))]
    made = [(target / f"{name}.pdf", _pdf(cut))]
    taken: dict[str, int] = {}
    for drawn in cut.drawn:
        called = f"{name}-{file_name(drawn.piece.name)}"
        taken[called] = taken.get(called, 0) + 1
        number = f"-{taken[called]}" if taken[called] > 1 else ""
        made.append((target / f"{called}{number}.svg", svg(piece_alone(drawn))))
    return made


def write_cut(cut: Cut, target: Path, name: str) -> list[Path]:
    """Write the files of one wearer: all are made before the first is written."""
    files = written(cut, target, name)
    for path, data in files:
        write(path, data)
    return [path for path, _ in files]


def _pdf(cut: Cut) -> bytes:
    pages = piece_pages(cut.sheet, cut.how.how.paper, cut.how.how.scale, cut.drawn)
    layers = layers_of(cut.sheet.pieces)
    further = [page.drawing for page in _told(cut)]
    if cut.how.toile:
        further.append(
            fitting_form(cut.sheet.title, cut.sheet.wearer_line, cut.sheet.pieces, cut.sheet.warning).drawing
        )
    return pdf(
        (*pages.drawings, *further),
        title=f"{cut.sheet.title}, the pieces",
        subject=cut.sheet.wearer_line,
        layers=layers,
    )


def _svg(cut: Cut) -> bytes:
    return svg(piece_pages(cut.sheet, ONE_PAGE, cut.how.how.scale, cut.drawn).drawings[0])


def _dxf(cut: Cut) -> bytes:
    return write_dxf(
        shapes_of(cut.patterns, wearer_line=cut.sheet.wearer_line), form=cut.how.form, title=cut.sheet.title
    )


def _told(cut: Cut) -> list[Page]:
    """A page on which the pattern is measured, and the small wares are listed."""
    width = 210.0 - 2 * MARGIN
    measured = [lines_of(_capital(one.words()), "hand", 3.4, width) for one in cut.measured]
    wares = [lines_of(_capital(f"{ware_words(*one)}."), "hand", 3.4, width) for one in cut.wares]
    seams = [
        lines_of(_capital(f"{side} {seam_words(row)}.".strip()), "hand", 3.4, width)
        for side, truing in cut.truing
        for row in truing.seams
    ]
    blocks = []
    if seams:
        blocks += [lines_of("Seams, on the line where they are sewn", "book", 5.0, width), *seams]
    if measured:
        blocks += [lines_of("The pattern, measured as the wearer was", "book", 5.0, width), *measured]
    if wares:
        blocks += [lines_of("Small wares", "book", 5.0, width), *wares]
    sheet = cut.sheet
    return words_pages(blocks, 210.0, 297.0, MARGIN, sheet.title, sheet.wearer_line, sheet.warning)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


_AS: dict[str, Callable[[Cut], bytes]] = {".pdf": _pdf, ".svg": _svg, ".dxf": _dxf}


def _fits(cut: Cut) -> None:
    """Trouble where a piece is so large that no paper holds it, or the paper is too small for them all."""
    factor = float(cut.how.how.scale.factor)
    sizes = []
    for _, piece in cut.pieces:
        left, top, right, bottom = _box(piece)
        sizes.append(((right - left) * factor, (bottom - top) * factor))
    large = max(max(size) for size in sizes)
    if large > LARGEST_DRAFT:
        raise Trouble(
            f"A piece for {cut.result.wearer} would be {large / 1000:,.1f} m long on paper, and "
            f"{LARGEST_DRAFT / 1000:.0f} m is the most that is printed. See which length is longer than was meant."
        )
    paper = cut.how.how.paper
    across, down = paper.room
    area = sum(w * h for w, h in sizes)
    if across is not None and down is not None and area > MOST_PAGES * across * down:
        raise Trouble(
            f"The pieces for {cut.result.wearer} would need over {MOST_PAGES} pages of {paper.name}. "
            "Try --paper one-page, a roll, or --scale 1/4."
        )


def names_of(cuts: Sequence[Cut]) -> list[str]:
    """A file name for each wearer's pieces."""
    from tapewright.app.drafting import names_in_folder

    return names_in_folder([cut.result for cut in cuts])

"""What is said of a piece: how it is cut, what is left outside its edges, how long each edge is."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import numpy as np

from tapewright.draft import Draft
from tapewright.pages.counting import in_words, listed
from tapewright.pages.wording import as_printed
from tapewright.pieces import Lies, PatternPiece, PieceEdge
from tapewright.tapes import nearest_reading, say
from tapewright.units import show_cm


def title_case(name: str) -> str:
    """A name as it stands at the head of a label: without its article, its first letter a capital."""
    plain = name.removeprefix("the ")
    return as_printed(plain[:1].upper() + plain[1:])


def count_for(count: int, side: str) -> int:
    """How many of a cloth belong to one side: of two one, of one still one."""
    return max(1, count // 2) if side else count


def pairs_in(piece: PatternPiece, count: int, side: str) -> int:
    """How many mirrored pairs there are of a piece cut so often; none on the fold, or of one side alone."""
    return 0 if side or piece.said.on == "fold" or count % 2 else count // 2


def cut_words(piece: PatternPiece, side: str = "") -> str:
    """`Cut 2 of cloth, a pair; 2 of lining, a pair; under the waistcoat front`."""
    said = []
    for cloth in piece.said.cloths:
        count = count_for(cloth.count, side)
        pairs = pairs_in(piece, cloth.count, side)
        paired = "" if not pairs else ", a\u00a0pair" if pairs == 1 else f", {in_words(pairs)}\u00a0pairs"
        said.append(f"{count}\u00a0of {cloth.name}{paired}")
    lies = {"fold": "on the\u00a0fold", "cross": "on the\u00a0cross"}.get(piece.said.on, "")
    if piece.said.nap:
        lies = f"{lies}; nap\u00a0{piece.said.nap}".removeprefix("; ")
    under = f"under the {piece.said.under.removeprefix('the ')}" if piece.said.under else ""
    return "Cut\u00a0" + "; ".join(part for part in (*said, lies, under) if part)


def turning_words(piece: PatternPiece, row: int) -> str:
    """What is left outside the edges: the width most edges have, then those that have another."""
    edges = [e for e in piece.edges if e.lies is Lies.CUT]
    widths = [
        show_cm(wide) if not (wide := float(e.turning[row])) else f"{show_cm(wide)} {e.finish}".strip()
        for e in edges
    ]
    if not widths:
        return ""
    long: dict[str, float] = {}
    for edge, width in zip(edges, widths, strict=True):
        long[width] = long.get(width, 0.0) + float(edge.length[row])
    most = max(long, key=lambda width: long[width])
    if set(long) == {"0 cm"}:
        return "No turnings"
    others = []
    for width in sorted(long):
        if width == most:
            continue
        names = list(
            dict.fromkeys(_called(e) for e, w in zip(edges, widths, strict=True) if w == width and _called(e))
        )
        if names:
            others.append(f"{'none' if width == '0 cm' else width} at {listed(names)}")
    first = "none" if most == "0 cm" else most
    return as_printed("; ".join([f"Turnings {first}", *others]))


def _called(edge: PieceEdge) -> str:
    """An edge as a sentence has it: its letters, or its name with an article."""
    plain = edge.name.removeprefix("the ")
    return f"the {plain}" if edge.edge.name else plain


def edge_words(edge: PieceEdge, draft: Draft, row: int, *, letters: bool) -> tuple[str, ...]:
    """What may stand along an edge: name, length, reading of the usual tape; then less and less."""
    if edge.lies is not Lies.CUT:
        return ()
    long = float(edge.length[row])
    if long <= 0.0:
        return ()
    shown = show_cm(long)
    name = f"{as_printed(edge.edge.name.removeprefix('the '))} " if edge.edge.name else ""
    if not name and letters:
        name = f"{as_printed(edge.name)} "
    said = []
    reading = tape_reading(draft, long, row)
    if reading:
        said.append(f"{name}{shown}, {reading}")
    said.append(f"{name}{shown}")
    return tuple(dict.fromkeys((*said, shown)))


def tape_reading(draft: Draft, long: float, row: int) -> str:
    """A length as a reading of the usual tape; nothing where there is none."""
    tapes = draft.plan.tapes
    usual = [t for t in tapes.values() if t.usual] or list(tapes.values())
    if len(usual) != 1 or not draft.alive(f"tape {usual[0].name}", row):
        return ""
    whole = float(np.asarray(draft.made[f"tape {usual[0].name}"].thing)[row])
    if not whole > 0.0:
        return ""
    reading = nearest_reading(Fraction(long), Fraction(whole), usual[0].parts)
    return as_printed(say(reading, usual[0].name))


def size_words(piece: PatternPiece, places: Sequence[float]) -> str:
    """`24.1 x 39.7 cm`: how wide and how high the net piece lies, from left, top, right, bottom in mm."""
    left, top, right, bottom = places
    return f"{(right - left) / 10:.1f} × {(bottom - top) / 10:.1f} cm"

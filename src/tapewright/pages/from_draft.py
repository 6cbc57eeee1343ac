"""A draft becomes a plate: which lines are shown, how heavily, and what stands in words beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot, pi

import numpy as np
from numpy.typing import NDArray

from tapewright.draft import Check, Draft, signs_of
from tapewright.draft.rows import DrawnLine, Edge, OutlineRun
from tapewright.geometry import Arc, Circle, arc_curve, cubics, fixed
from tapewright.geometry.tolerance import SEAMS_MATCH
from tapewright.pages.counting import listed
from tapewright.pages.plate import Plate, PlateCheck, PlateLine, PlatePiece, PlatePoint
from tapewright.pages.weights import Role
from tapewright.pages.wording import as_printed
from tapewright.plan import Line
from tapewright.units import show_angle, show_length

Floats = NDArray[np.float64]

#: A sweep that ends nowhere is shown this far to either side of the letters on it, radians.
SHOWN_OF_A_SWEEP = 8.0 * pi / 180


def plate_of(
    draft: Draft,
    row: int = 0,
    *,
    wearer_line: str = "",
    caption: str = "",
    side: str = "",
    checks: Sequence[Check] = (),
    warning: str = "",
) -> Plate:
    """The plate of one body's draft: everything that was drawn, and what its checks came to.

    `side` names it left or right where both were drawn; `checks` are those between the two; `warning` is
    what must not be overlooked.
    """
    points = [(name, x, y) for name, x, y, _ in draft.points(row)]
    lines = [*_outlines(draft, row), *_guides(draft, row, points)]
    return Plate(
        f"{draft.plan.lesson.title}, {side}" if side else draft.plan.lesson.title,
        tuple(PlatePoint(name, x, y, _rank(draft, name)) for name, x, y in points),
        tuple(lines),
        wearer_line,
        caption,
        tuple(_checks([*draft.checks(), *checks], row)),
        tuple(_notes(draft, row)),
        signs_of(draft, row),
        warning,
        _drafted(draft),
        tuple(_pieces(draft, row, points)),
    )


_TIMES = {1: "once", 2: "twice"}


def _pieces(draft: Draft, row: int, points: list[tuple[str, float, float]]) -> Iterator[PlatePiece]:
    """Every piece with what its sentence says of cutting it; its turnings are not drawn, and not told."""
    for piece in draft.pieces():
        cut = listed([f"{_TIMES.get(c.count, f'{c.count} times')} of {c.name}" for c in piece.cloths])
        told = f"Cut {cut}"
        if piece.lying:
            ends = [
                [_letter_at(float(p.x[row]), float(p.y[row]), points) for p in line] for line in piece.lying
            ]
            lines = listed([f"{a}-{b}" for a, b in ends]) if all(a and b for a, b in ends) else ""
            told += f",\n{lines} on the {piece.on}" if lines else f",\non the {piece.on}"
        found = [cubics(edge.drawn, row) for edge in piece.outline.edges]
        outline = np.concatenate([np.zeros((0, 4, 2)), *(f for f in found if len(f))])
        name = piece.name.removeprefix("the ")
        yield PlatePiece(as_printed(name[:1].upper() + name[1:]), as_printed(f"{told}."), outline)


def _letter_at(x: float, y: float, points: list[tuple[str, float, float]]) -> str:
    """The first letter that stands at a place; nothing where none does."""
    return next((name for name, px, py in points if hypot(px - x, py - y) <= SEAMS_MATCH), "")


def _drafted(draft: Draft) -> str:
    """How the draft was made: its header's own words, and that the turnings of its pieces are not drawn."""
    lesson = draft.plan.lesson
    said = " ".join(lesson.source[lesson.header.span].split())
    return f"{said} Turnings are not drawn." if any(p.turnings for p in draft.pieces()) else said


def _shown(draft: Draft) -> tuple[OutlineRun, ...]:
    """The outlines drawn heavily: of the pieces, or while nothing is cut yet of all there are."""
    pieces = draft.pieces()
    if pieces:
        return tuple(piece.outline for piece in pieces)
    things = [draft.made.get(shape.key) for shape in draft.plan.outlines.values()]
    return tuple(v.thing for v in things if v is not None and isinstance(v.thing, OutlineRun))


def _edges(draft: Draft) -> Iterator[Edge]:
    for outline in _shown(draft):
        yield from outline.edges


def _rank(draft: Draft, name: str) -> int:
    """How much a letter matters: a corner of the frame, an end of an outline, any other."""
    if any(name in (edge.start, edge.end) for edge in _edges(draft)):
        return 2
    sentence = draft.plan.points[name]
    return 1 if sentence in _frame_sentences(draft) else 4


def _frame_sentences(draft: Draft) -> frozenset[int]:
    """The items under the heading of the frame, or under the first heading that has items."""
    lesson = draft.plan.lesson
    headings = {item.heading for item in lesson.items}
    frame = next((i for i in sorted(headings) if "frame" in lesson.headings[i].text.lower()), None)
    if frame is None:
        frame = min(headings, default=-1)
    return frozenset(item.number for item in lesson.items if item.heading == frame)


def _outlines(draft: Draft, row: int) -> Iterator[PlateLine]:
    """The edges of the pieces, each once."""
    seen: set[tuple[frozenset[str], int]] = set()
    for outline in _shown(draft):
        edges = outline.edges
        drawn = [cubics(edge.drawn, row) for edge in edges]
        gone = _retraced(drawn)
        for i, edge in enumerate(edges):
            key = (frozenset((edge.start, edge.end)), edge.line)
            if key in seen or i in gone or not len(drawn[i]):
                continue
            seen.add(key)
            yield PlateLine(edge.name, drawn[i], Role.OUTLINE, show_name=bool(edge.name))


def _retraced(drawn: list[Floats]) -> set[int]:
    """The edges of a dart that came to nothing: the outline runs out along a line and straight back."""
    gone: set[int] = set()
    for i in range(len(drawn)):
        j = (i + 1) % len(drawn)
        one, other = drawn[i], drawn[j]
        if one.shape == other.shape and len(one):
            back = other[::-1, ::-1]
            if float(np.abs(one - back).max()) <= SEAMS_MATCH:
                gone |= {i, j}
    return gone


def _guides(draft: Draft, row: int, points: list[tuple[str, float, float]]) -> Iterator[PlateLine]:
    """The lines that are not cut: the frame thin and full, all else broken; none drawn twice."""
    cut_lines = {edge.line for edge in _edges(draft) if edge.line >= 0}
    cut_spans = [(edge.start, edge.end) for edge in _edges(draft)]
    straights: list[Floats] = [
        d[0, [0, 3]] for e in _edges(draft) if e.line < 0 and len(d := cubics(e.drawn, row)) == 1
    ]
    frame = _frame_sentences(draft)
    # Named lines first, so that an unnamed one lying along them is the one left out.
    for line in sorted(draft.plan.lines, key=lambda x: (not x.name, x.index)):
        if not draft.alive(f"line {line.index}", row) or line.index in cut_lines:
            continue
        if line.sort == "straight" and line.ends in cut_spans and not line.name:
            continue
        role = Role.FRAME if line.sentence in frame else Role.CONSTRUCTION
        for drawn in _cubics(draft.line(line.index), line, row, points):
            if line.sort == "straight":
                ends = drawn[0, [0, 3]]
                if not line.name and any(_lies_on(ends, other) for other in straights):
                    continue
                straights.append(ends)
            yield PlateLine(line.name, drawn, role, show_name=bool(line.name) and line.sort != "circle")


def _cubics(
    drawn: DrawnLine, line: Line, row: int, points: list[tuple[str, float, float]]
) -> Iterator[Floats]:
    if isinstance(drawn, Circle):
        yield from _near_letters(drawn, row, points)
        return
    found = cubics(arc_curve(drawn) if isinstance(drawn, Arc) else drawn, row)
    if len(found):
        yield found


def _near_letters(circle: Circle, row: int, points: list[tuple[str, float, float]]) -> Iterator[Floats]:
    """A whole sweep is struck only where a letter lies on it, as it would be on paper; else all of it."""
    x, y, r = float(circle.centre.x[row]), float(circle.centre.y[row]), float(circle.radius[row])
    found = [(px, py) for _, px, py in points if abs(hypot(px - x, py - y) - r) <= SEAMS_MATCH]
    for px, py in found:
        yield _struck(x, y, r, float(np.arctan2(py - y, px - x)) - SHOWN_OF_A_SWEEP, 2 * SHOWN_OF_A_SWEEP)
    if not found:
        yield _struck(x, y, r, 0.0, 2 * pi)


def _struck(x: float, y: float, r: float, start: float, angle: float) -> Floats:
    one = Arc(fixed(x, y), np.array([r]), np.array([start]), np.array([angle]))
    return cubics(arc_curve(one), 0)


def _lies_on(ends: Floats, other: Floats) -> bool:
    """Whether a straight line lies wholly on another that is drawn already."""
    along = other[1] - other[0]
    far = float(np.hypot(*along))
    if far < SEAMS_MATCH:
        return False
    unit = along / far
    for end in ends:
        offset = end - other[0]
        t = float(offset[0] * unit[0] + offset[1] * unit[1])
        away = float(abs(offset[0] * unit[1] - offset[1] * unit[0]))
        if away > SEAMS_MATCH or t < -SEAMS_MATCH or t > far + SEAMS_MATCH:
            return False
    return True


def _checks(checks: Sequence[Check], row: int) -> Iterator[PlateCheck]:
    for check in checks:
        claim = check.claim[:1].upper() + check.claim[1:]
        yield PlateCheck(claim, bool(check.holds[row]), _out(check, row))


def _out(check: Check, row: int) -> str:
    """By how much a check is out."""
    if check.holds[row]:
        return ""
    off = abs(float(check.difference[row]))
    return f"{show_angle(off) if check.angle else show_length(off)} out"


def _notes(draft: Draft, row: int) -> Iterator[str]:
    """What was filled by proportion, and the caution of lessons drafted over stays."""
    filled = [name for name, rows in draft.filled.items() if rows[row]]
    if filled:
        yield f"Not measured, filled by proportion: {', '.join(filled)}."
    over = draft.plan.lesson.header.over or ()
    if any(is_stays(layer) for layer in over):
        yield LACING


def is_stays(layer: str) -> bool:
    """Whether a layer worn beneath laces the body."""
    return "stays" in layer or "corset" in layer


LACING = (
    "Lace only as far as is easy to breathe in. Stop at pain, numbness or short breath; "
    "ask a physician when pregnant or unwell."
)

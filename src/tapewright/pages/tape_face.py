"""A piece of tape as it is drawn: strokes, names, parts, centimetres, and the tab that joins it to the next.

Along the upper edge stand the strokes, the taller the simpler the fraction, with what the notation writes at
them. Along the lower edge the parts are counted over a ladder of dark and light, or, where the notation has
two edges, stand the strokes of the second. Between runs the tape's name and whose it is; a centimetre rule,
if there is one, is lowest.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from tapewright.drawing import (
    INK,
    PAPER,
    SOFT,
    WELD_WASH,
    Box,
    FaceName,
    Fill,
    Group,
    Line,
    Mark,
    Setting,
    Stroke,
    face,
    framed,
    joined,
    rectangle,
    set_text,
    straight,
    through,
    words_at,
)
from tapewright.pages.block import Block
from tapewright.pages.paper import FULL
from tapewright.pages.tape import TAB, Piece, PrintedTape, graduated
from tapewright.pages.wording import as_printed
from tapewright.tapes import NAMING_ORDER, EdgeTick, Rank
from tapewright.units import CM

ENDS = 20.0
"""How much bare tape is left at both ends of a tape for cloth, to be turned under."""

# How far a stroke reaches in from its edge, by rank, as a share of that edge's band.
_TALL = {
    Rank.HALF: 0.92,
    Rank.THIRD: 0.80,
    Rank.QUARTER: 0.72,
    Rank.SIXTH: 0.62,
    Rank.EIGHTH: 0.53,
    Rank.TWELFTH: 0.45,
    Rank.PART: 0.32,
    Rank.HALF_PART: 0.17,
    Rank.QUARTER_PART: 0.10,
    Rank.EIGHTH_PART: 0.07,
}
_THICK = {Rank.HALF: 0.35, Rank.THIRD: 0.3, Rank.QUARTER: 0.3}
_THIN = 0.2
_NAME_SIZE = {Rank.HALF: 5.0, Rank.THIRD: 4.4, Rank.QUARTER: 4.4}
_SMALL_NAME = 3.8
_FOOT = 1.1  # from a band's inner side to the line of writing of its names
_NAME_GAP = 0.55  # from a name to its stroke
_CLEAR = 1.2  # between two names
_BAND = 3.4  # where the tape's own name runs
_PART_TALL = 1.4
_PART_SIZE = 2.5
_COUNT_CLEAR = 1.1  # between two counted parts
_LADDER = 0.75
_LADDER_FROM = 1.4  # parts narrower than this have no ladder
_CAP = 0.8  # the dark end of a tape
_CM_BAND = 5.6
_CM_TALL = {10: 2.6, 5: 2.1, 1: 1.5}
_CM_SIZE = 2.3
_LEAST_WORDS = 0.55  # words smaller than this against their size are left out instead
_EDGE = Line(0.2, INK, join="mitre")
_MEETS = Line(0.2, INK, (0.0, 0.9), cap="round")


@dataclass(frozen=True, slots=True)
class Zones:
    """The bands of a tape from its upper edge down, in mm: upper edge, name, lower edge, centimetres."""

    upper: float
    lower: float
    rule: float

    @property
    def band(self) -> tuple[float, float]:
        return self.upper, self.upper + _BAND

    @property
    def edge(self) -> float:
        """Where the lower edge's own strokes stand: the tape's lower edge, or the top of the rule."""
        return self.upper + _BAND + self.lower

    @property
    def height(self) -> float:
        return self.edge + self.rule


def zones(tape: PrintedTape) -> Zones:
    """How a tape is divided across."""
    rule = _CM_BAND if tape.centimetres else 0.0
    return Zones(10.4, 10.2, rule) if graduated(tape).two_edged else Zones(12.0, 4.6, rule)


def width_of(tape: PrintedTape) -> float:
    """How wide the strip is, in mm."""
    return zones(tape).height


@dataclass(frozen=True, slots=True)
class Named:
    """A name at a stroke: the stroke, the words set, and where they start, in mm from the piece's left."""

    tick: EdgeTick
    setting: Setting
    start: float


def names_of(piece: Piece, *, lower: bool = False) -> list[Named]:
    """Which strokes of an edge are named on a piece.

    The simplest first (halves, quarters, thirds, eighths, sixths, twelfths); each only if it stands
    clear of those named before it. A name stands on the near side of its stroke, so that the stroke is
    read and not the name; where a piece begins too close, on the far side.
    """
    edges = graduated(piece.tape)
    wanted = [t for t in (edges.lower if lower else edges.upper) if t.name]
    found: list[Named] = []
    taken: list[tuple[float, float]] = []
    order = {rank: i for i, rank in enumerate(NAMING_ORDER)}
    signs = edges.signs
    for tick in sorted(wanted, key=lambda t: (order.get(t.rank, len(order)), t.position)):
        if not piece.start < tick.position < piece.end:
            continue
        # A notation's own letters are set apart from figures by their slope.
        name: FaceName = "book-italic" if signs and not tick.name[0].isdigit() else "book"
        setting = set_text(tick.name, name, _NAME_SIZE.get(tick.rank, _SMALL_NAME))
        x = piece.at(tick.position)
        near = x - _NAME_GAP - setting.ink.right
        start = near if near + setting.ink.left > 0.8 else x + _NAME_GAP - setting.ink.left
        low, high = start + setting.ink.left, start + setting.ink.right
        if high > piece.length - 0.5:
            continue
        if all(low - b >= _CLEAR or a - high >= _CLEAR for a, b in taken):
            taken.append((min(low, x), max(high, x)))
            found.append(Named(tick, setting, start))
    return found


def counted(piece: Piece) -> list[Named]:
    """Which parts are counted on a piece: every one, or every second, third and so on that has room."""
    ticks = graduated(piece.tape).lower
    widest = set_text("8" * len(str(piece.tape.parts)), "hand", _PART_SIZE).width + _COUNT_CLEAR
    step = next((n for n in (1, 2, 3, 4, 6, 12, 24, 48, 100, 200) if n * piece.tape.part_mm >= widest), 500)
    found = []
    for tick in ticks:
        number = set_text(tick.name, "hand", _PART_SIZE)
        start = piece.at(tick.position) - number.width / 2
        if int(tick.name) % step == 0 and start > 0.4 and start + number.width < piece.length - 0.4:
            found.append(Named(tick, number, start))
    return found


# --- the edges -----------------------------------------------------------------------------------------


def _strokes(piece: Piece, ticks: Sequence[EdgeTick], edge: float, band: float) -> Iterator[Mark]:
    """Strokes from an edge inward: down from the upper (`band` more than 0), up from the lower."""
    for tick in ticks:
        if piece.start < tick.position < piece.end:
            x = piece.at(tick.position)
            line = Line(_THICK.get(tick.rank, _THIN), INK)
            yield Stroke(straight(x, edge, x, edge + band * _TALL[tick.rank]), line)


def _upper(piece: Piece, of: Zones) -> tuple[Mark, ...]:
    names = names_of(piece)
    marks: list[Mark] = [
        Group("ticks", tuple(_strokes(piece, graduated(piece.tape).upper, 0.0, of.upper))),
        Group("fractions", tuple(words_at(n.setting, n.start, of.upper - _FOOT) for n in names)),
    ]
    if not piece.tab:
        whole = set_text("the whole", "hand", _PART_SIZE * 1.2)
        start = piece.length - 1.0 - _CAP - whole.width
        if start > 1.0 and all(n.start + n.setting.width + _CLEAR < start for n in names):
            marks.append(words_at(whole, start, of.upper - _FOOT))
    return tuple(marks)


def _second(piece: Piece, of: Zones) -> tuple[Mark, ...]:
    """The lower edge where it is read like the upper one: strokes upward, names under the band."""
    top = of.band[1]
    names = names_of(piece, lower=True)
    lines = [
        words_at(n.setting, n.start, top + 0.9 + face("book").cap_height * _NAME_SIZE[Rank.HALF])
        for n in names
    ]
    strokes = tuple(_strokes(piece, graduated(piece.tape).lower, of.edge, -of.lower))
    return Group("ticks below", strokes), Group("fractions below", tuple(lines))


def _parts(piece: Piece, of: Zones) -> tuple[Mark, ...]:
    """The parts along the lower edge, each with a small stroke, counted where there is room, on a ladder."""
    tape = piece.tape
    strokes: list[Mark] = []
    for tick in graduated(tape).lower:
        if piece.start < tick.position < piece.end:
            x = piece.at(tick.position)
            strokes.append(Stroke(straight(x, of.edge, x, of.edge - _PART_TALL), Line(_THIN, INK)))
    numbers = [words_at(n.setting, n.start, of.edge - _PART_TALL - 0.6) for n in counted(piece)]
    return (
        Group("ladder", tuple(_ladder(piece, of)) if tape.part_mm >= _LADDER_FROM else ()),
        Group("parts", (*strokes, *numbers)),
    )


def _ladder(piece: Piece, of: Zones) -> Iterator[Mark]:
    """Every second part dark, so that the eye counts in pairs."""
    parts = piece.tape.parts
    for k in range(1, parts, 2):
        low, high = max(Fraction(k, parts), piece.start), min(Fraction(k + 1, parts), piece.end)
        if low < high:
            yield Fill(rectangle(Box(piece.at(low), of.edge - _LADDER, piece.at(high), of.edge)), INK)


def _centimetres(piece: Piece, of: Zones) -> tuple[Mark, ...]:
    """A centimetre rule along the lowest edge, counted from the tape's beginning, at the tape's own scale."""
    tape = piece.tape
    each = float(CM.mm) * float(tape.scale.factor)
    whole = math.ceil(tape.whole_mm / float(CM.mm))
    widest = set_text("88", "hand", _CM_SIZE).width + _COUNT_CLEAR
    step = next(n for n in (1, 2, 5, 10, 20, 50) if n * each >= widest or n == 50)
    start = float(piece.start) * tape.paper_mm
    marks: list[Mark] = [Stroke(straight(0.0, of.edge, piece.length, of.edge), Line(0.15, INK))]
    strokes: list[Mark] = []
    for n in range(1, whole):
        x = n * each - start
        if 0.2 < x < piece.length - 0.2:
            tall = next(t for by, t in _CM_TALL.items() if n % by == 0)
            strokes.append(Stroke(straight(x, of.height, x, of.height - tall), Line(_THIN, INK)))
            number = set_text(str(n), "hand", _CM_SIZE)
            if n % step == 0 and number.width / 2 + 0.4 < x < piece.length - number.width / 2 - 0.4:
                marks.append(words_at(number, x, of.height - _CM_TALL[10] - 0.5, side="middle", ink=SOFT))
    return Group("centimetres", tuple(strokes)), *marks


# --- what it says --------------------------------------------------------------------------------------


def _own_words(piece: Piece, wearer_line: str, of: Zones) -> tuple[Mark, ...]:
    """The tape's name, what it is, whose it is and when; made smaller, or fewer, if the piece is short."""
    tape = piece.tape
    name = set_text(as_printed(tape.name), "book-bold", 3.3)
    size = "" if tape.scale == FULL else tape.scale.name
    number = f"piece {piece.number} of {piece.of}" if piece.of > 1 else ""
    room = piece.length - 4.0
    tries = (
        (tape.says, wearer_line, size, number),
        (wearer_line, size, number),
        (size, number),
        (number,),
        (),
    )
    for said in tries:
        rest = [set_text(as_printed(one), "hand", 2.9) for one in said if one]
        line = joined([name, *rest], 3.0)
        if line.width * _LEAST_WORDS <= room or not said:
            break
    if line.width > room:
        line = line.scaled(room / line.width)
    low, high = of.band
    return (words_at(line, 2.0, (low + high) / 2 + 0.35 * 3.0, ink=INK),)


def _tab(piece: Piece, of: Zones) -> tuple[Mark, ...]:
    """The hatched tab that goes under the next piece."""
    left, right = piece.length, piece.length + TAB
    box = Box(left, 1.0, right, of.height - 1.0)
    hatch = [
        Stroke(straight(left + d, box.bottom, left + d + of.height, box.bottom - of.height), Line(0.12, SOFT))
        for d in (2.5 * k - 2.5 * math.ceil(of.height / 2.5) for k in range(math.ceil(of.height / 2.5) + 5))
    ]
    words = set_text(f"glue under {piece.number + 1}", "hand", 2.7)
    middle = (left + right) / 2 + 0.95
    across = of.height / 2
    patch = Box(middle - 2.9, across - words.width / 2 - 1, middle + 1.1, across + words.width / 2 + 1)
    return (
        framed(box, tuple(hatch)),
        Fill(rectangle(patch), PAPER),
        words_at(words, middle, across, side="middle", turn=-math.pi / 2),
        Stroke(through([(left, box.top), (right, box.top), (right, box.bottom), (left, box.bottom)]), _EDGE),
        # Where the next piece comes to: not cut, only met.
        Stroke(straight(left, 0.0, left, of.height), _MEETS),
    )


def _caps(piece: Piece, of: Zones) -> Iterator[Mark]:
    """The dark ends of the whole tape: it begins and ends on their outer sides."""
    if piece.number == 1:
        yield Fill(rectangle(Box(0.0, 0.0, _CAP, of.height)), INK)
    if piece.number == piece.of:
        yield Fill(rectangle(Box(piece.length - _CAP, 0.0, piece.length, of.height)), INK)


def _bare_ends(piece: Piece, of: Zones) -> tuple[Mark, ...]:
    """Beyond both ends of a tape for cloth, what is turned under at the dotted lines."""
    words = set_text("turn under", "hand", 2.7)
    marks: list[Mark] = []
    for x, middle in ((0.0, -ENDS / 2), (piece.length, piece.length + ENDS / 2)):
        marks.append(Stroke(straight(x, 0.0, x, of.height), _MEETS))
        marks.append(
            words_at(words, middle + 0.95, of.height / 2, side="middle", turn=-math.pi / 2, ink=SOFT)
        )
    return tuple(marks)


def draw_piece(piece: Piece, wearer_line: str, *, bare_ends: bool = False) -> Block:
    """A piece of tape on the paper: 0 at its left edge, `length` mm to its right, then its tab.

    With `bare_ends` (a tape in one piece only) it begins `ENDS` mm from the left and has as much beyond its end.
    """
    of = zones(piece.tape)
    two = graduated(piece.tape).two_edged
    beyond = ENDS if bare_ends else 0.0
    body = Box(-beyond, 0.0, piece.length + beyond, of.height)
    low, high = of.band
    marks: tuple[Mark, ...] = (
        Fill(rectangle(Box(0.0, low, piece.length, high)), WELD_WASH),
        *(_tab(piece, of) if piece.tab else ()),
        *(_bare_ends(piece, of) if bare_ends else ()),
        *_upper(piece, of),
        *(_second(piece, of) if two else _parts(piece, of)),
        *(_centimetres(piece, of) if piece.tape.centimetres else ()),
        *_own_words(piece, wearer_line, of),
        Group("ends", tuple(_caps(piece, of))),
        Group("cut", (Stroke(through(_round(body), closed=not piece.tab), _EDGE),)),
    )
    name = piece.tape.name if piece.of == 1 else f"{piece.tape.name} {piece.number}"
    block = Block(body.width + piece.tab, of.height, (Group(name, marks),))
    return block if not beyond else Block(block.width, block.height, block.at(beyond, 0.0))


def _round(body: Box) -> list[tuple[float, float]]:
    """The corners of a piece from its upper right, the long way, to its lower right."""
    return [
        (body.right, body.top),
        (body.left, body.top),
        (body.left, body.bottom),
        (body.right, body.bottom),
    ]

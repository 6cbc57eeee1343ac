"""One tape as it is printed: its ticks, the names at them, its pieces and the tabs that join them.

Along the upper edge stand all the ticks, the taller the simpler the fraction, with the names of the
fractions; along the lower edge the parts, counted. Between runs the tape's name and whose it is.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from tapewright.drawing import (
    INK,
    PAPER,
    SOFT,
    WELD_WASH,
    Box,
    Fill,
    Group,
    Line,
    Mark,
    Setting,
    Stroke,
    framed,
    joined,
    rectangle,
    set_text,
    straight,
    through,
    words_at,
)
from tapewright.pages.block import Block
from tapewright.pages.wording import as_printed
from tapewright.tapes import NAMING_ORDER, Rank, Tick, ticks

WIDTH = 20.0
TAB = 10.0
# How far a tick reaches down from the upper edge, in mm, by rank.
_TALL = {
    Rank.HALF: 11.0,
    Rank.THIRD: 9.6,
    Rank.QUARTER: 8.6,
    Rank.SIXTH: 7.4,
    Rank.EIGHTH: 6.4,
    Rank.TWELFTH: 5.4,
    Rank.PART: 3.8,
    Rank.HALF_PART: 2.0,
}
_THICK = {Rank.HALF: 0.35, Rank.THIRD: 0.3, Rank.QUARTER: 0.3}
_THIN = 0.2
_NAME_SIZE = {Rank.HALF: 5.0, Rank.THIRD: 4.4, Rank.QUARTER: 4.4}
_SMALL_NAME = 3.8
_NAME_LINE = 10.9  # the line of writing of the names, under the upper edge
_NAME_GAP = 0.55  # from a name to its tick
_CLEAR = 1.2  # between two names
_BAND = (12.0, 15.4)  # where the tape's own name runs
_PART_TALL = 1.3
_PART_SIZE = 2.5
# Where parts are narrower than this their halves are not marked, in mm; below the second not counted.
_HALVES_FROM = 5.0
_COUNTED_FROM = 3.6
_EDGE = Line(0.2, INK, join="mitre")
_MEETS = Line(0.2, INK, (0.0, 0.9), cap="round")


@dataclass(frozen=True, slots=True)
class PrintedTape:
    """A tape to print: its name, its whole in mm, in how many parts, and what its whole is, in words."""

    name: str
    whole_mm: float
    parts: int
    words: str

    def __post_init__(self) -> None:
        if not (0 < self.whole_mm < math.inf and self.parts >= 1):
            raise ValueError(f"a tape needs a whole and at least one part: {self}")

    @property
    def part_mm(self) -> float:
        return self.whole_mm / self.parts


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of a tape printed in one: `number` from 1 `of` so many, `start` to `end` as shares."""

    tape: PrintedTape
    number: int
    of: int
    start: Fraction
    end: Fraction

    @property
    def length(self) -> float:
        """Without its tab, in mm."""
        return float(self.end - self.start) * self.tape.whole_mm

    @property
    def tab(self) -> float:
        return TAB if self.number < self.of else 0.0


def ticks_of(tape: PrintedTape) -> tuple[Tick, ...]:
    """The ticks that are printed: those of the tape, and the half parts where a part is wide enough."""
    return ticks(tape.parts, Rank.HALF_PART if tape.part_mm >= _HALVES_FROM else Rank.PART)


def pieces_of(tape: PrintedTape, room: float) -> tuple[Piece, ...]:
    """The tape in as few pieces as go in `room` mm, of about one length, cut between two ticks."""
    if tape.whole_mm <= room:
        return (Piece(tape, 1, 1, Fraction(0), Fraction(1)),)
    if room <= 2 * TAB:
        raise ValueError("there is no room for a piece of tape")
    longest = room - TAB
    places = [Fraction(0), *(tick.position for tick in ticks_of(tape)), Fraction(1)]
    between: list[Fraction] = []
    for a, b in pairwise(places):
        # One place in the middle of two ticks; several where they stand very far apart.
        several = math.ceil(float(b - a) * tape.whole_mm / (longest / 2))
        between += [a + (b - a) * Fraction(2 * i + 1, 2 * several) for i in range(several)]
    count = math.ceil(tape.whole_mm / longest)
    while True:
        ends = [Fraction(0), *(_nearest(between, Fraction(k, count)) for k in range(1, count)), Fraction(1)]
        if max(float(b - a) for a, b in pairwise(ends)) * tape.whole_mm <= longest:
            return tuple(Piece(tape, k + 1, count, ends[k], ends[k + 1]) for k in range(count))
        count += 1


def _nearest(places: Sequence[Fraction], to: Fraction) -> Fraction:
    return min(places, key=lambda at: (abs(at - to), at))


def names_of(piece: Piece) -> list[tuple[Tick, Setting, float]]:
    """Which fractions are named on a piece, each with its setting and where it starts, in mm.

    The simplest first (halves, quarters, thirds, eighths, sixths, twelfths); each only if it stands
    clear of those named before it. A name stands on the near side of its tick, so that the tick is
    read and not the name; where a piece begins too close, on the far side.
    """
    whole = piece.tape.whole_mm
    named: list[tuple[Tick, Setting, float]] = []
    taken: list[tuple[float, float]] = []
    wanted = [tick for tick in ticks_of(piece.tape) if tick.rank in NAMING_ORDER]
    for tick in sorted(wanted, key=lambda tick: (NAMING_ORDER.index(tick.rank), tick.position)):
        if not piece.start < tick.position < piece.end:
            continue
        size = _NAME_SIZE.get(tick.rank, _SMALL_NAME)
        said = f"{tick.position.numerator}/{tick.position.denominator}"
        setting = set_text(said, "book", size)
        x = float(tick.position - piece.start) * whole
        near = x - _NAME_GAP - setting.ink.right
        start = near if near + setting.ink.left > 0.8 else x + _NAME_GAP - setting.ink.left
        low, high = start + setting.ink.left, start + setting.ink.right
        if high > piece.length - 0.5:
            continue
        if all(low - b >= _CLEAR or a - high >= _CLEAR for a, b in taken):
            taken.append((min(low, x), max(high, x)))
            named.append((tick, setting, start))
    return named


def _ticks(piece: Piece) -> tuple[Mark, ...]:
    marks: list[Mark] = []
    whole = piece.tape.whole_mm
    for tick in ticks_of(piece.tape):
        if piece.start < tick.position < piece.end:
            x = float(tick.position - piece.start) * whole
            line = Line(_THICK.get(tick.rank, _THIN), INK)
            marks.append(Stroke(straight(x, 0.0, x, _TALL[tick.rank]), line))
    return tuple(marks)


def _parts(piece: Piece) -> tuple[Mark, ...]:
    """The parts along the lower edge, each with a small tick, counted where there is room."""
    tape = piece.tape
    step = next((n for n in (1, 2, 3, 4, 6, 12) if n * tape.part_mm >= _COUNTED_FROM), tape.parts)
    marks: list[Mark] = []
    for k in range(1, tape.parts):
        at = Fraction(k, tape.parts)
        if piece.start < at < piece.end:
            x = float(at - piece.start) * tape.whole_mm
            marks.append(Stroke(straight(x, WIDTH, x, WIDTH - _PART_TALL), Line(_THIN, INK)))
            number = set_text(str(k), "hand", _PART_SIZE)
            half = number.width / 2
            if k % step == 0 and x - half > 0.4 and x + half < piece.length - 0.4:
                marks.append(words_at(number, x, WIDTH - _PART_TALL - 0.6, side="middle"))
    return tuple(marks)


def _own_words(piece: Piece, wearer_line: str) -> tuple[Mark, ...]:
    """The tape's name, what it is, whose it is and when, made smaller if the piece is short."""
    parts: list[Setting] = [set_text(as_printed(piece.tape.name), "book-bold", 3.3)]
    rest = [piece.tape.words, wearer_line]
    if piece.of > 1:
        rest.append(f"piece {piece.number} of {piece.of}")
    parts += [set_text(as_printed(one), "hand", 2.9) for one in rest if one]
    line = joined(parts, 3.0)
    room = piece.length - 4.0
    if line.width > room:
        line = line.scaled(room / line.width)
    low, high = _BAND
    return (words_at(line, 2.0, (low + high) / 2 + 0.35 * 3.0, ink=INK),)


def _tab(piece: Piece) -> tuple[Mark, ...]:
    """The hatched tab that goes under the next piece."""
    left, right = piece.length, piece.length + TAB
    box = Box(left, 1.0, right, WIDTH - 1.0)
    hatch = [
        Stroke(straight(left + d, box.bottom, left + d + WIDTH, box.bottom - WIDTH), Line(0.12, SOFT))
        for d in (2.5 * k - 20.0 for k in range(13))
    ]
    words = set_text(f"glue under {piece.number + 1}", "hand", 2.7)
    middle = (left + right) / 2 + 0.95
    patch = Box(middle - 2.9, WIDTH / 2 - words.width / 2 - 1, middle + 1.1, WIDTH / 2 + words.width / 2 + 1)
    return (
        framed(box, tuple(hatch)),
        Fill(rectangle(patch), PAPER),
        words_at(words, middle, WIDTH / 2, side="middle", turn=-math.pi / 2),
        Stroke(through([(left, box.top), (right, box.top), (right, box.bottom), (left, box.bottom)]), _EDGE),
        # Where the next piece comes to: not cut, only met.
        Stroke(straight(left, 0.0, left, WIDTH), _MEETS),
    )


def draw_piece(piece: Piece, wearer_line: str) -> Block:
    """A piece of tape at full scale: 0 at its left edge, `length` mm to its right, then its tab."""
    body = Box(0.0, 0.0, piece.length, WIDTH)
    low, high = _BAND
    band = Box(0.0, low, piece.length, high)
    named = names_of(piece)
    names = [words_at(setting, x, _NAME_LINE) for _, setting, x in named]
    if not piece.tab:
        whole = set_text("the whole", "hand", _PART_SIZE * 1.2)
        start = piece.length - 1.0 - whole.width
        if all(x + setting.width + _CLEAR < start for _, setting, x in named):
            names.append(words_at(whole, start, _NAME_LINE))
    marks: tuple[Mark, ...] = (
        Fill(rectangle(band), WELD_WASH),
        *(_tab(piece) if piece.tab else ()),
        Group("ticks", _ticks(piece)),
        Group("parts", _parts(piece)),
        Group("fractions", tuple(names)),
        *_own_words(piece, wearer_line),
        Group("cut", (Stroke(through(_round(body), closed=not piece.tab), _EDGE),)),
    )
    name = piece.tape.name if piece.of == 1 else f"{piece.tape.name} {piece.number}"
    return Block(piece.length + piece.tab, WIDTH, (Group(name, marks),))


def _round(body: Box) -> list[tuple[float, float]]:
    """The corners of a piece from its upper right, the long way, to its lower right."""
    return [
        (body.right, body.top),
        (body.left, body.top),
        (body.left, body.bottom),
        (body.right, body.bottom),
    ]


def rows_of(pieces: Sequence[Piece], room: float, gap: float) -> list[list[Piece]]:
    """Pieces in rows no longer than `room`, in order, several short ones in one row."""
    rows: list[list[Piece]] = []
    used = 0.0
    for piece in pieces:
        length = piece.length + piece.tab
        if rows and used + gap + length <= room:
            rows[-1].append(piece)
            used += gap + length
        else:
            rows.append([piece])
            used = length
    return rows

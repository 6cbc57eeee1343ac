"""The graduating fan as it is drawn: its lines by weight, their names, the rules to lay a strip along.

`fan_sheet.py` puts it on paper with its instructions; the numbers are `tapes/fan.py`'s.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

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
    rectangle,
    set_text,
    straight,
    words_at,
)
from tapewright.pages.block import Block
from tapewright.tapes import NAMING_ORDER, Fan, FanLine, Rank
from tapewright.units import CM, INCH

HEAD = 7.0
"""Above the lines, for the names at their upper ends."""
FOOT = 12.5
"""Below them, for the ladder and the names at the foot."""
SIDES = 4.0
"""At either end of the foot."""

_WEIGHT = {
    Rank.HALF: 0.6,
    Rank.THIRD: 0.44,
    Rank.QUARTER: 0.44,
    Rank.SIXTH: 0.32,
    Rank.EIGHTH: 0.32,
    Rank.TWELFTH: 0.24,
}
_PART, _OUTER = 0.12, 0.6
_NAME = {Rank.HALF: 6.6, Rank.THIRD: 5.2, Rank.QUARTER: 5.2}
_SMALL = 4.4
_COUNT = 2.8
_RULES = 10.0  # between the faint rules that a strip's edge is laid along
_RULE = Line(0.15, SOFT, (0.3, 1.7))
_CHECK = Line(0.3, SOFT, (4.0, 1.2))
# How wide the fan is, against its foot, where the names are said again on the way up.
_SHELVES = (Fraction(17, 20), Fraction(7, 10), Fraction(11, 20), Fraction(2, 5), Fraction(7, 25))
# Parts narrower than this are not counted on a shelf, and names there may not be larger than a part allows.
_COUNTED = 11.0
# What may lie between two neighbouring lines where the sheet is checked with a ruler.
_STEPS = (
    ("5 cm", 5 * CM.mm),
    ("2 cm", 2 * CM.mm),
    ("1 cm", CM.mm),
    ("1/2 cm", CM.mm / 2),
    ("2 in", 2 * INCH.mm),
    ("1 in", INCH.mm),
    ("1/2 in", INCH.mm / 2),
    ("1/4 in", INCH.mm / 4),
)


@dataclass(frozen=True, slots=True)
class FanCheck:
    """A rule on which neighbouring parts stand `step_mm` apart, said as `words`; `y` as in `Fan`."""

    words: str
    step_mm: float
    y: float


def checks_of(fan: Fan) -> tuple[FanCheck, ...]:
    """Where the sheet can be checked with any ruler: at most two rules in centimetres and two in inches."""
    found: list[FanCheck] = []
    for unit in ("cm", "in"):
        fits = [
            FanCheck(words, float(step), fan.at(float(step) * fan.parts))
            for words, step in _STEPS
            if words.endswith(unit) and fan.shortest < float(step) * fan.parts < fan.longest
        ]
        found += fits[:2]
    return tuple(sorted(found, key=lambda check: check.y))


def draw_fan(fan: Fan) -> Block:
    """The fan at full size: its foot below, its lines running up together."""
    on = _On(fan)
    marks: tuple[Mark, ...] = (
        Group("rules", tuple(_rules(on))),
        Group("checks", tuple(_check_rules(on))),
        Group("lines", tuple(_line(on, line) for line in fan.lines)),
        Group("names", tuple(_names(on))),
        Group("foot", tuple(_foot(on))),
        Group("top", tuple(_top(on))),
    )
    return Block(fan.foot + 2 * SIDES, on.down(fan.depth) + FOOT, marks)


@dataclass(frozen=True, slots=True)
class _On:
    """A fan on its block: where a share of the strip is across at a y of the fan, and that y down."""

    fan: Fan

    def across(self, share: Fraction, y: float) -> float:
        return SIDES + self.fan.x(share, y)

    def down(self, y: float) -> float:
        return HEAD + y - self.fan.top

    def ends(self, y: float) -> tuple[float, float]:
        return self.across(Fraction(0), y), self.across(self.fan.lines[-1].share, y)


def _line(on: _On, line: FanLine) -> Stroke:
    fan = on.fan
    outer = line in {fan.lines[0], fan.lines[-1]}
    path = straight(
        on.across(line.share, fan.top),
        on.down(fan.top),
        on.across(line.share, fan.depth),
        on.down(fan.depth),
    )
    return Stroke(path, Line(_OUTER if outer else _WEIGHT.get(line.rank, _PART), INK))


def _level(on: _On, y: float, line: Line) -> Stroke:
    left, right = on.ends(y)
    return Stroke(straight(left, on.down(y), right, on.down(y)), line)


def _rules(on: _On) -> Iterator[Mark]:
    """Faint rules from edge to edge, evenly up the sheet."""
    y = on.fan.depth - _RULES
    while y > on.fan.top:
        yield _level(on, y, _RULE)
        y -= _RULES


def _check_rules(on: _On) -> Iterator[Mark]:
    for check in checks_of(on.fan):
        yield _level(on, check.y, _CHECK)
        left, right = on.ends(check.y)
        words = set_text(f"parts {check.words} apart", "hand", 3.2)
        for x, side in ((left - 2.5, "right"), (right + 2.5, "left")):
            if 0 <= x - (words.width if side == "right" else 0) <= on.fan.foot - words.width:
                yield words_at(words, x, on.down(check.y) + 1.0, side=side, ink=SOFT)


def _names(on: _On) -> Iterator[Mark]:
    """The names of the lines, beside them, said again at several heights."""
    fan = on.fan
    for shelf in _SHELVES:
        y = fan.depth * float(shelf)
        if y < fan.top + 20:
            return
        part = fan.spread(y) / (len(fan.lines) - 1)
        taken: list[tuple[float, float]] = []
        for line in _simplest_first(fan):
            if line.name:
                size = max(3.0, min(_NAME.get(line.rank, _SMALL), part * 0.5))
                said = set_text(line.name, "book", size)
            elif part >= _COUNTED and line.count is not None:
                said = set_text(str(line.count), "hand", _COUNT)
            else:
                continue
            x = _start(on, line, said, y)
            if _clear(taken, x, said):
                yield from _beside(on, said, x, y)


def _simplest_first(fan: Fan) -> list[FanLine]:
    """The lines between the ends, those whose names matter most first."""
    order = {rank: i for i, rank in enumerate(NAMING_ORDER)}
    return sorted(fan.lines[1:-1], key=lambda line: (order.get(line.rank, len(order)), line.share))


def _clear(taken: list[tuple[float, float]], x: float, words: Setting) -> bool:
    """Whether words that start at x stand clear of those taken before; if so they are taken too."""
    low, high = x + words.ink.left - 0.6, x + words.ink.right + 0.6
    if any(low < right and left < high for left, right in taken):
        return False
    taken.append((low, high))
    return True


def _start(on: _On, line: FanLine, words: Setting, y: float) -> float:
    """Where words at the left of a slanting line start, so that they stand clear of it."""
    fan = on.fan
    # How far the line leans into the room of the words, over half their height.
    lean = abs(fan.x(line.share, fan.depth) - fan.foot / 2) / fan.depth * -words.ink.top / 2
    return on.across(line.share, y) - 1.4 - lean - words.ink.right


def _beside(on: _On, words: Setting, x: float, y: float) -> Iterator[Mark]:
    """Words on a patch of bare paper."""
    below = on.down(y) - words.ink.top / 2
    yield Fill(rectangle(words.ink.padded(0.3).moved(x, below)), PAPER)
    yield words_at(words, x, below)


def _foot(on: _On) -> Iterator[Mark]:
    """The ladder of dark and light along the foot, with the parts counted and the fractions under it."""
    fan = on.fan
    foot = on.down(fan.depth)
    xs = [on.across(line.share, fan.depth) for line in fan.lines if line.count is not None]
    ladder = Box(xs[0], foot, xs[-1], foot + 1.6)
    yield Fill(rectangle(ladder), WELD_WASH)
    for left, right in zip(xs[1::2], xs[2::2], strict=False):
        yield Fill(rectangle(Box(left, foot, right, foot + 1.6)), INK)
    yield Stroke(rectangle(ladder), Line(0.2, INK, join="mitre"))
    counts: list[tuple[float, float]] = []
    names: list[tuple[float, float]] = []
    for line in _simplest_first(fan):
        x = on.across(line.share, fan.depth)
        if line.count is not None:
            said = set_text(str(line.count), "hand", _COUNT)
            if _clear(counts, x - said.width / 2, said):
                yield words_at(said, x, foot + 4.6, side="middle")
        if line.name:
            said = set_text(line.name, "book", min(_NAME.get(line.rank, _SMALL), 5.2))
            if _clear(names, x - said.width / 2, said):
                yield words_at(said, x, foot + 10.6, side="middle")
    first, last = ("both ends", "the crease") if fan.folded else ("the beginning", "the end")
    said = set_text(first, "hand", 3.4)
    if _clear(names, xs[0], said):
        yield words_at(said, xs[0], foot + 10.6)
    said = set_text(last, "hand", 3.4)
    if _clear(names, xs[-1] - said.width, said):
        yield words_at(said, xs[-1], foot + 10.6, side="right")


def _top(on: _On) -> Iterator[Mark]:
    """The halves, thirds and quarters named where the lines begin, and a rule across."""
    yield _level(on, on.fan.top, Line(0.2, INK))
    taken: list[tuple[float, float]] = []
    for line in _simplest_first(on.fan):
        if line.rank in {Rank.HALF, Rank.THIRD, Rank.QUARTER}:
            x = on.across(line.share, on.fan.top)
            said = set_text(line.name, "book", 4.0)
            if _clear(taken, x - said.width / 2, said):
                yield words_at(said, x, HEAD - 1.6, side="middle")

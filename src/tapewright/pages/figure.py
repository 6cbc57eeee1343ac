"""A line figure with tapes lying on it, each led out to a number or a name in the margin.

The figure shows where to measure and is nobody's body: it never changes with the wearer. A tape that was
taken lies as a band with ticks; one that is only estimated is two broken edges.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from tapewright.drawing import (
    INK,
    PAPER,
    SOFT,
    WELD,
    WELD_WASH,
    Box,
    Fill,
    Group,
    Line,
    Mark,
    Path,
    Stroke,
    Transform,
    circle,
    framed,
    set_text,
    straight,
    through,
    words_at,
)
from tapewright.figures import Lie, View, outline, smooth
from tapewright.pages.block import Block

Place = tuple[float, float]

LABEL = 3.5
MARGIN = 7.5
"""Width of the margin that the numbers stand in, on either side of the figure, in mm."""

_APART = 4.7  # between two numbers, in mm
_BAND, _EDGES = 2.0, 2.75  # of a tape on the body, in the figure's units
_BAR = 1.5  # half of the bar at the end of a rod, in units
_WIDEST = 71.0  # of the ground that a figure stands on, in units
_AROUND = 9.0  # of the figure shown round the tapes, in units
_LEAST = 34.0
_DOT = 0.55
_LEADER = Line(0.15, SOFT)


@dataclass(frozen=True, slots=True)
class Laid:
    """A tape to show: where it lies, its number or sign in the margin, and whether it is only estimated."""

    lie: Lie
    sign: str = ""
    about: bool = False


def crop_round(lies: Sequence[Lie], view: View) -> Box:
    """The part of a figure to show: all that the tapes touch and a little round it, never under a third."""
    ground = outline(view).box
    places = [p for lie in lies for p in (*lie.over, *lie.behind)]
    if not places:
        return ground
    top = min(y for _, y in places) - _AROUND
    bottom = max(y for _, y in places) + _AROUND
    if bottom - top < _LEAST:
        middle = (top + bottom) / 2
        top, bottom = middle - _LEAST / 2, middle + _LEAST / 2
    right = max(ground.right, max(x for x, _ in places) + 3)
    left = min(ground.left, min(x for x, _ in places) - 3)
    return Box(left, max(top, ground.top), right, min(bottom, ground.bottom))


def _length(path: Path) -> tuple[list[Place], list[float]]:
    """Corners along a path and how far along each stands."""
    (corners,) = path.flat()
    far = [0.0]
    for (x0, y0), (x1, y1) in pairwise(corners):
        far.append(far[-1] + math.hypot(x1 - x0, y1 - y0))
    return corners, far


def _half_way(path: Path, share: float = 0.5) -> Place:
    corners, far = _length(path)
    wanted = share * far[-1]
    i = next(i for i in range(1, len(far)) if far[i] >= wanted)
    t = (wanted - far[i - 1]) / (far[i] - far[i - 1])
    (x0, y0), (x1, y1) = corners[i - 1], corners[i]
    return x0 + t * (x1 - x0), y0 + t * (y1 - y0)


def drawn_length(lie: Lie) -> float:
    """How long a tape is as it is drawn, in the figure's units: what is seen of it, flat."""
    return _length(smooth(lie.over))[1][-1]


def _band(path: Path, k: float, about: bool) -> list[Mark]:
    if about:
        dash = (1.3 * k + 0.3, 0.9 * k + 0.3)
        return [
            Stroke(path, Line(_EDGES * k, WELD, dash, join="mitre")),
            Stroke(path, Line((_EDGES - 0.55) * k, PAPER, join="mitre")),
        ]
    return [
        Stroke(path, Line(_EDGES * k, WELD)),
        Stroke(path, Line(_BAND * k, WELD_WASH)),
        Stroke(path, Line(1.15 * k, WELD, (0.26 * k, 1.04 * k))),
    ]


def _rod(lie: Lie, how: Transform, k: float, about: bool) -> list[Mark]:
    (x0, y0), (x1, y1) = (how(*p) for p in lie.ends)
    far = math.hypot(x1 - x0, y1 - y0)
    bx, by = -(y1 - y0) / far * _BAR * k, (x1 - x0) / far * _BAR * k
    line = Line(max(0.5 * k, 0.3), WELD, (1.6 * k, 1.0 * k) if about else ())
    bars = [Stroke(straight(x - bx, y - by, x + bx, y + by), line) for x, y in ((x0, y0), (x1, y1))]
    return [Stroke(straight(x0, y0, x1, y1), line), *bars]


def _angle(lie: Lie, how: Transform, k: float, about: bool) -> list[Mark]:
    one, corner, other = (how(*p) for p in lie.over)
    line = Line(max(0.5 * k, 0.3), WELD, (1.6 * k, 1.0 * k) if about else ())
    reach = 0.7 * math.hypot(one[0] - corner[0], one[1] - corner[1])
    a = math.atan2(one[1] - corner[1], one[0] - corner[0])
    b = math.atan2(other[1] - corner[1], other[0] - corner[0])
    arc = [
        (corner[0] + reach * math.cos(t), corner[1] + reach * math.sin(t))
        for t in (a + (b - a) * i / 8 for i in range(9))
    ]
    return [Stroke(through([one, corner, other]), line), Stroke(through(arc), line)]


def _tape(laid: Laid, how: Transform, k: float) -> list[Mark]:
    lie = laid.lie
    marks: list[Mark] = []
    if lie.behind:
        path = smooth(lie.behind).placed(how)
        marks.append(Stroke(path, Line(max(0.34 * k, 0.18), WELD, (1.1 * k, 1.1 * k))))
    match lie.sort:
        case "rod":
            marks += _rod(lie, how, k, laid.about)
        case "angle":
            marks += _angle(lie, how, k, laid.about)
        case _:
            marks += _band(smooth(lie.over).placed(how), k, laid.about)
    return marks


def figure_marks(view: View, tapes: Sequence[Laid], how: Transform, crop: Box) -> tuple[Mark, ...]:
    """The figure and its tapes, placed by `how` from the figure's units; only what lies in `crop` is seen."""
    k = how.scale
    seen = outline(view)
    left, top = how(crop.left, crop.top)
    right, bottom = how(crop.right, crop.bottom)
    lines = [
        *(Stroke(p.placed(how), Line(max(0.4 * k, 0.2), INK, cap="round")) for p in seen.contour),
        *(Stroke(p.placed(how), Line(max(0.26 * k, 0.15), SOFT, cap="round")) for p in seen.fine),
    ]
    bands = [
        Group(laid.lie.measure, tuple(_tape(laid, how, k)))
        for laid in sorted(tapes, key=lambda laid: (laid.lie.sort != "rod", -drawn_length(laid.lie)))
    ]
    return (framed(Box(left, top, right, bottom), (Group(f"figure, {view}", tuple(lines)), *bands)),)


@dataclass(frozen=True, slots=True)
class Led:
    """A sign's place in a margin: which tape, on which side, where it is led to, and its height there."""

    laid: Laid
    side: int
    at: Place
    y: float


def _level(lie: Lie) -> bool:
    (x0, y0), (x1, y1) = lie.ends
    return lie.sort == "band" and abs(x1 - x0) > abs(y1 - y0)


def _anchor(lie: Lie, side: int) -> Place:
    """Where a tape is led out from: an end of one that lies across, the middle of one that hangs."""
    if lie.sort == "angle":
        return _half_way(through([lie.over[0], lie.over[2]]))
    if _level(lie):
        return max(lie.ends, key=lambda p: side * p[0])
    return _half_way(smooth(lie.over))


def led_out(
    tapes: Sequence[Laid],
    how: Transform,
    top: float,
    bottom: float,
    edges: tuple[float, float],
    apart: float,
    *,
    only: int = 0,
) -> tuple[Led, ...]:
    """A side and a height for every sign, so that signs stand `apart` mm and no two leads cross.

    `edges` are where the leads end, left and right, in mm; `only` is -1 or 1 when all go to one side. Signs
    keep the order of what they lead to.
    """
    sides: dict[int, int] = {}
    free: list[int] = []
    for i, laid in enumerate(tapes):
        (x0, _), (x1, _) = laid.lie.ends
        x = (x0 + x1) / 2 if _level(laid.lie) else _anchor(laid.lie, 1)[0]
        if only:
            sides[i] = only
        elif abs(x) < 1.5:
            free.append(i)
        else:
            sides[i] = 1 if x > 0 else -1
    for i in sorted(free, key=lambda i: tapes[i].lie.over[0][1]):
        counts = {side: sum(s == side for s in sides.values()) for side in (-1, 1)}
        sides[i] = -1 if counts[-1] <= counts[1] else 1
    found: list[Led] = []
    for side in (-1, 1):
        mine = [(tapes[i], how(*_anchor(tapes[i].lie, side))) for i in range(len(tapes)) if sides[i] == side]
        edge = edges[0] if side < 0 else edges[1]
        found += _settled(mine, side, edge, top, bottom, apart)
    return tuple(found)


def _settled(
    mine: list[tuple[Laid, Place]], side: int, edge: float, top: float, bottom: float, apart: float
) -> list[Led]:
    mine = sorted(mine, key=lambda one: (one[1][1], side * one[1][0]))
    for _ in range(len(mine)):
        ys = _spread([at[1] for _, at in mine], top, bottom, apart)
        swap = next(
            (
                i
                for i in range(len(mine) - 1)
                if _cross((edge, ys[i]), mine[i][1], (edge, ys[i + 1]), mine[i + 1][1])
            ),
            None,
        )
        if swap is None:
            break
        mine[swap], mine[swap + 1] = mine[swap + 1], mine[swap]
    ys = _spread([at[1] for _, at in mine], top, bottom, apart)
    return [Led(laid, side, at, y) for (laid, at), y in zip(mine, ys, strict=True)]


def _spread(wanted: list[float], top: float, bottom: float, apart: float) -> list[float]:
    """Heights as near as may be to those wanted, in their order, at least `apart`.

    Each crowd stands round the middle of what it wants; all stay within the bounds if they fit there.
    """
    crowds: list[list[float]] = []  # the sum of what is wanted, less the steps before; how many; their mean
    for i, y in enumerate(wanted):
        crowds.append([y - i * apart, 1.0, y - i * apart])
        while len(crowds) > 1 and crowds[-2][2] > crowds[-1][2]:
            total, count, _ = crowds.pop()
            crowds[-1] = [
                crowds[-1][0] + total,
                crowds[-1][1] + count,
                (crowds[-1][0] + total) / (crowds[-1][1] + count),
            ]
    ys = [mean for _, count, mean in crowds for _ in range(int(count))]
    ys = [y + i * apart for i, y in enumerate(ys)]
    limit = max(bottom, top + apart * (len(ys) - 1))
    for i in range(len(ys) - 1, -1, -1):
        ys[i] = min(ys[i], limit)
        limit = ys[i] - apart
    for i in range(len(ys)):
        ys[i] = max(ys[i], top if i == 0 else ys[i - 1] + apart)
    return ys


def _cross(a: Place, b: Place, c: Place, d: Place) -> bool:
    """Whether the straight ways a to b and c to d cross."""

    def turn(p: Place, q: Place, r: Place) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0


def leads(found: Sequence[Led], edges: tuple[float, float], k: float) -> list[Mark]:
    """Thin lines from the margins to the tapes, each with a dot where it ends."""
    marks: list[Mark] = []
    for led in found:
        edge = edges[0] if led.side < 0 else edges[1]
        marks.append(Stroke(straight(edge, led.y, *led.at), _LEADER))
        marks.append(Fill(circle(*led.at, _DOT * max(k, 0.6)), INK))
    return marks


def numbered_figure(view: View, tapes: Sequence[Laid], width: float) -> Block:
    """The figure with its tapes and their signs in both margins, as a block `width` mm wide.

    All three figures come out at one size in one width; what no tape touches is left out above and below.
    """
    crop = crop_round([laid.lie for laid in tapes], view)
    k = (width - 2 * MARGIN) / _WIDEST
    how = Transform(k, 0.0, width / 2 - (crop.left + crop.right) / 2 * k, -crop.top * k)
    height = crop.height * k
    edges = (MARGIN - 2.2, width - MARGIN + 2.2)
    found = led_out(tapes, how, LABEL, height - 1.0, edges, _APART)
    words: list[Mark] = []
    for led in found:
        sign = set_text(led.laid.sign, "book-bold", LABEL)
        x = edges[0] - 0.8 if led.side < 0 else edges[1] + 0.8
        words.append(words_at(sign, x, led.y + 0.36 * LABEL, side="right" if led.side < 0 else "left"))
    marks = (*figure_marks(view, tapes, how, crop), *leads(found, edges, k), Group("signs", tuple(words)))
    lowest = max([height, *(led.y + LABEL for led in found)])
    return Block(width, lowest, marks)

"""The words of a piece: its label, what stands along its edges, the names of what is marked within it.

The label stands where the piece has room for it: level if it can be, along the grain in a narrow piece,
said more shortly in a small one, and outside with a leader where nothing goes in. What stands along an edge is
set inside it, where it is straight enough, and left out where it would touch anything.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from tapewright.drawing import FaceName, Setting, set_lines, set_text
from tapewright.pages.lettering import Label
from tapewright.pages.names import readable
from tapewright.pages.paper_piece import PaperPiece
from tapewright.pages.piece_room import PieceRoom, set_label
from tapewright.pages.room import Floats, inside, middle_of, pieces_of

_NAME, _SMALL = 1.7, 0.8  # of the name and of the lesson's title, against the size of what is told
_LEADING = 1.3
_NARROW = 0.7  # the width of a piece against its length, along the grain, below which a label may turn
_AROUND = 0.7  # bare paper round a label, in ems
_SIZES = (1.25, 1.0, 0.85)  # tried level, then along the grain
_LEAST = 0.7
_WIDTHS = (40.0, 18.0, 12.0, 8.0)  # at which what is told is broken into lines, in ems
_EDGE = 0.72  # of what stands along an edge
_OFF = 0.45  # from an edge to the words along it, in their ems
_BOW = 0.8  # by which an edge may bow under its words, in ems
_STEP = 1.2  # between two places tried along an edge, in ems
_TRIED = 40


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of a label: its words set, and how far its foot lies below the label's upper edge."""

    setting: Setting
    foot: float


@dataclass(frozen=True, slots=True)
class _Stack:
    lines: tuple[_Line, ...]
    width: float
    height: float
    em: float


def _stack(name: str, told: Sequence[str], em: float, width: float) -> _Stack:
    """A label's lines one under the other, none wider than `width` ems where it can be broken."""
    lines: list[_Line] = []
    foot = 0.0
    for setting in set_lines(name, "book", _NAME * em, max(width, 9.0) * em):
        foot += (_NAME if not lines else _NAME * 1.15) * em * (0.72 if not lines else 1.0)
        lines.append(_Line(setting, foot))
    foot += 0.25 * em
    for i, words in enumerate(told):
        title = i == len(told) - 1 and len(told) > 2
        size = em * _SMALL if title else em
        face: FaceName = "book-italic" if title else "hand"
        for setting in set_lines(words, face, size, width * em):
            foot += _LEADING * size
            lines.append(_Line(setting, foot))
    return _Stack(tuple(lines), max(one.setting.width for one in lines), foot + 0.25 * em, em)


def _written(stack: _Stack, x: float, y: float, turn: float) -> tuple[Label, ...]:
    """The lines of a label round its middle (x, y), each in the middle of the label."""
    cos, sin = math.cos(turn), math.sin(turn)
    found = []
    for line in stack.lines:
        across, down = -line.setting.width / 2, line.foot - stack.height / 2
        found.append(
            set_label(
                line.setting,
                x + across * cos - down * sin,
                y + across * sin + down * cos,
                turn,
                stack.em,
                (x, y),
            )
        )
    return tuple(found)


def labels_within(piece: PaperPiece, room: PieceRoom, em: float, grain: float) -> Iterator[tuple[Label, ...]]:
    """Ways of writing a piece's label inside it, the best first; `grain` is how the grain runs, in radians.

    The whole of it large, then along the grain, then smaller; only then said more shortly.
    """
    middle = middle_of(room.outline)
    turns = (0.0, readable(grain)) if _is_narrow(room.outline, grain) else (0.0,)
    for told in piece.told:
        ways = [(size, turn) for turn in turns for size in _SIZES] + [(_LEAST, turn) for turn in turns]
        seen: set[tuple[float, float, int]] = set()
        for size, turn in ways:
            for width in _WIDTHS:
                stack = _stack(piece.name, told, em * size, width)
                if (size, turn, len(stack.lines)) in seen:
                    continue
                seen.add((size, turn, len(stack.lines)))
                spot = room.spot(stack.width, stack.height, turn, middle, _AROUND * stack.em)
                if spot is not None:
                    yield _written(stack, *spot, turn)
                    break


def _is_narrow(outline: Floats, grain: float) -> bool:
    """Whether a piece is much less wide across the grain than it is long along it."""
    places = outline.reshape(-1, 2)
    u = np.array([math.cos(grain), math.sin(grain)])
    long, wide = np.ptp(places @ u), np.ptp(places @ np.array([-u[1], u[0]]))
    return bool(wide < _NARROW * long)


def label_outside(piece: PaperPiece, room: PieceRoom, em: float, right: float) -> tuple[Label, ...]:
    """The label beside a piece that has no room for it, to the right of `right`, with a leader into the piece."""
    stack = _stack(piece.name, piece.told[0] if piece.told else (), em, _WIDTHS[1])
    x, y = _within(room.outline)
    left = right + 3.0 * em
    written = _written(stack, left + stack.width / 2, y, 0.0)
    level = y
    return tuple(
        replace(one, leader=(x, y, left - 0.6 * em, level) if i == 0 else None)
        for i, one in enumerate(written)
    )


def _within(outline: Floats) -> tuple[float, float]:
    """A place well inside an outline: its middle, or of the level through it the middle of the widest stretch."""
    middle = middle_of(outline)
    if inside(middle[None, :], outline)[0]:
        return float(middle[0]), float(middle[1])
    y = float(middle[1])
    crossed = sorted(
        x0 + (y - y0) / (y1 - y0) * (x1 - x0) for x0, y0, x1, y1 in outline if (y0 < y) != (y1 < y)
    )
    pairs = list(zip(crossed[::2], crossed[1::2], strict=False))
    if not pairs:
        return float(middle[0]), y
    a, b = max(pairs, key=lambda pair: pair[1] - pair[0])
    return float((a + b) / 2), y


def along_edges(piece: PaperPiece, room: PieceRoom, k: float, em: float) -> Iterator[Label]:
    """What stands along the edges, each put where it touches nothing; what has no room is left out."""
    size = em * _EDGE
    for edge in piece.edges:
        if not edge.told:
            continue
        pieces = pieces_of(np.asarray(edge.net) * k)
        if not len(pieces):
            continue
        for words in edge.told:
            label = _along(set_text(words, "hand", size), pieces, room, size)
            if label is not None:
                room.take_box(label.corners)
                yield label
                break


def name_along(words: str, pieces: Floats, room: PieceRoom, size: float) -> Label | None:
    """A name along a line within a piece, on whichever side and wherever it is free."""
    return _along(set_text(words, "hand", size), pieces, room, size)


def _along(setting: Setting, pieces: Floats, room: PieceRoom, size: float) -> Label | None:
    """Words along a line given as straight pieces, inside the outline; the middle of the line is tried first."""
    places = np.concatenate([pieces[:1, :2], pieces[:, 2:]])
    far = np.concatenate([[0.0], np.cumsum(np.hypot(*(pieces[:, 2:] - pieces[:, :2]).T))])
    spare = float(far[-1]) - setting.width
    if spare < 0.5 * size:
        return None
    count = min(max(int(spare / (_STEP * size)), 1), _TRIED)
    starts = np.linspace(0.25 * size, spare - 0.25 * size, count)
    for start in sorted(starts, key=lambda s: abs(s - spare / 2)):
        label = _set_along(setting, places, far, float(start), room, size)
        if label is not None:
            return label
    return None


def _set_along(
    setting: Setting, places: Floats, far: Floats, start: float, room: PieceRoom, size: float
) -> Label | None:
    steps = np.linspace(start, start + setting.width, 9)
    on = np.stack([np.interp(steps, far, places[:, axis]) for axis in (0, 1)], axis=1)
    chord = on[-1] - on[0]
    long = float(np.hypot(*chord))
    if long < 0.9 * setting.width:
        return None
    unit = chord / long
    off = (on - on[0]) @ np.array([-unit[1], unit[0]])
    if float(np.ptp(off)) > _BOW * size:
        return None
    turn = readable(math.atan2(unit[1], unit[0]))
    along = np.array([math.cos(turn), math.sin(turn)])
    below = np.array([-along[1], along[0]])
    heights = (on - on[0]) @ below
    middle = (on[0] + on[-1]) / 2
    ink = setting.ink
    # Above the line the descenders keep their distance from it, below it the capitals.
    for base in (
        float(heights.min()) - _OFF * size - ink.bottom,
        float(heights.max()) + _OFF * size - ink.top,
    ):
        at = middle - along * setting.width / 2 + below * (base + float((on[0] - middle) @ below))
        label = set_label(
            setting, float(at[0]), float(at[1]), turn, size, (float(middle[0]), float(middle[1]))
        )
        if room.free(np.array(label.corners)):
            return label
    return None


def beside(
    setting: Setting, x: float, y: float, room: PieceRoom, size: float, *, gap: float = 0.5
) -> Label | None:
    """A name beside a place, on whichever of eight sides and at whichever of three distances it is free."""
    ink = setting.ink
    for away in (gap, 2 * gap, 4 * gap):
        for dx, dy in ((1, -1), (1, 0), (1, 1), (-1, -1), (-1, 0), (-1, 1), (0, -1), (0, 1)):
            left = x + away * size * dx + (ink.width / 2) * (dx - 1) - ink.left
            top = y + away * size * dy + (ink.height / 2) * (dy - 1) - ink.top
            label = set_label(setting, left, top, 0.0, size, (x, y))
            if room.free(np.array(label.corners)):
                return label
    return None

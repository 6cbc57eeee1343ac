"""The signs of a piece: balance marks, the grain, the cross, the fold.

A balance mark is a stroke across the turning from the net line, as many as it counts. The grain is a line with
a head at both ends; the cross is the same, crossed in its middle; the fold a bracket whose heads point at the
edge that lies on it. Common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from tapewright.drawing import INK, Line, Mark, Stroke, set_text, through
from tapewright.pages.lettering import Label
from tapewright.pages.names import readable
from tapewright.pages.paper_piece import PaperEdge, PaperNotch, PaperPiece, PieceLines
from tapewright.pages.piece_room import PieceRoom, set_label
from tapewright.pages.room import Floats, inside, middle_of, no_pieces

GRAIN_LINE = Line(0.24, INK, join="mitre")
NOTCH_LINE = Line(0.4, INK)
_HEAD = 0.9  # of an arrow, in ems
_HALF_HEAD = 0.34
_INTO = 0.35  # how far a balance mark runs in from the net line, in ems
_BARE = 1.2  # how far it runs out where there is no turning
_APART = 0.55  # between two strokes of one mark, in ems
_FOLD_IN = 1.5  # from the fold to its bracket, in ems
_FREE = 0.16  # what share of the fold its bracket leaves free at either end
_LONGEST = 150.0  # of a grain line, mm
_SHARES = (0.5, 0.36, 0.26, 0.18)  # of the piece along the grain that its line takes, the longest first
_SHORTEST = 8.0
_WORDS = 0.78
_KEPT = 0.25  # bare paper round a sign, in ems


@dataclass(frozen=True, slots=True)
class Signed:
    """A sign: broken lines in mm of paper, the words that stand with it, the rectangle that it keeps to itself."""

    runs: tuple[tuple[tuple[float, float], ...], ...]
    label: Label | None = None
    corners: tuple[tuple[float, float], ...] = ()

    @property
    def pieces(self) -> Floats:
        """Its lines as straight pieces (n, 4)."""
        found = [no_pieces()]
        for run in self.runs:
            places = np.array(run)
            found.append(np.concatenate([places[:-1], places[1:]], axis=1))
        return np.concatenate(found)

    def marks(self, line: Line) -> tuple[Mark, ...]:
        """Its strokes."""
        return tuple(Stroke(through(run), line) for run in self.runs)


def _run(*places: Floats) -> tuple[tuple[float, float], ...]:
    return tuple((float(p[0]), float(p[1])) for p in places)


def notch_sign(notch: PaperNotch, k: float, em: float, lines: PieceLines) -> Signed:
    """The strokes of a balance mark, side by side along the edge."""
    out = np.array([notch.out_x, notch.out_y])
    along = np.array([-out[1], out[0]])
    at = np.array([notch.x, notch.y]) * k
    wide = notch.turning * k
    first, last = -_INTO * em, wide if wide > _BARE * em / 2 else 0.0
    if lines is PieceLines.NET:
        last = _BARE * em
    elif last == 0.0:
        # Nothing to cut across: the mark is made on the piece itself.
        first = -_BARE * em
    elif lines is PieceLines.CUT:
        first = 0.0
    runs = []
    for i in range(notch.count):
        here = at + (i - (notch.count - 1) / 2) * _APART * em * along
        runs.append(_run(here + first * out, here + last * out))
    return Signed(tuple(runs))


def grain_angle(piece: PaperPiece) -> float:
    """Which way the line on the grain or the cross runs, radians; upright where none is said."""
    for x0, y0, x1, y1 in piece.lying:
        if math.hypot(x1 - x0, y1 - y0) > 0.0:
            return math.atan2(y1 - y0, x1 - x0)
    return math.pi / 2


def grain_sign(piece: PaperPiece, room: PieceRoom, em: float) -> Signed | None:
    """The grain or the cross as a line inside the piece where there is room, along the way it runs; else None."""
    angle = grain_angle(piece)
    u = np.array([math.cos(angle), math.sin(angle)])
    ends = room.outline.reshape(-1, 2) @ u
    whole = float(ends.max() - ends.min())
    middle = middle_of(room.outline)
    words = set_text(f"{piece.on}, nap {piece.nap}" if piece.nap else piece.on, "hand", em * _WORDS)
    turn = readable(angle)
    for share in _SHARES:
        long = min(share * whole, _LONGEST)
        if long < max(_SHORTEST, 2.4 * _HEAD * em):
            break
        for told in (True, False):
            told_high = words.ink.height + 0.5 * em if told else 0.0
            if told and words.width + 2.4 * _HEAD * em > long:
                continue
            high = 2 * _HALF_HEAD * em + told_high
            spot = room.spot(long, high, turn, middle, 0.4 * em)
            if spot is not None:
                return _grain(np.array(spot), turn, long, high, em, piece.on, words if told else None)
    return None


def grain_anywhere(piece: PaperPiece, room: PieceRoom, em: float) -> Signed:
    """The grain through the middle of a piece in which nothing is free."""
    turn = readable(grain_angle(piece))
    u = np.array([math.cos(turn), math.sin(turn)])
    ends = room.outline.reshape(-1, 2) @ u
    long = max(0.4 * float(ends.max() - ends.min()), 1.0)
    return _grain(middle_of(room.outline), turn, long, 2 * _HALF_HEAD * em, em, piece.on, None)


def _grain(spot: Floats, turn: float, long: float, high: float, em: float, on: str, words: object) -> Signed:
    u = np.array([math.cos(turn), math.sin(turn)])
    below = np.array([-u[1], u[0]])
    level = spot + below * (high / 2 - _HALF_HEAD * em)
    first, last = level - u * long / 2, level + u * long / 2
    runs = [_run(first, last), _head(first, -u, em), _head(last, u, em)]
    if on == "cross":
        reach = 0.5 * em
        runs += [
            _run(level - reach * (u + below), level + reach * (u + below)),
            _run(level - reach * (u - below), level + reach * (u - below)),
        ]
    label = None
    if words is not None:
        setting = set_text(on, "hand", em * _WORDS)
        back = long / 4 if on == "cross" else 0.0
        foot = level - u * (setting.width / 2 + back) - below * (0.35 * em + setting.ink.bottom)
        label = set_label(
            setting, float(foot[0]), float(foot[1]), turn, em * _WORDS, (float(level[0]), float(level[1]))
        )
    half_long, half_high = u * (long / 2 + _KEPT * em), below * (high / 2 + _KEPT * em)
    return Signed(tuple(runs), label, _rectangle(spot, half_long, half_high))


def fold_signs(piece: PaperPiece, room: PieceRoom, k: float, em: float) -> tuple[Signed, ...]:
    """A bracket at every edge that lies on the fold."""
    return tuple(
        _fold(np.array(start) * k, np.array(end) * k, room, em) for start, end in _folds(piece.edges)
    )


def _folds(edges: tuple[PaperEdge, ...]) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    found = []
    for edge in edges:
        if edge.fold and len(edge.net):
            start, end = edge.net[0, 0], edge.net[-1, 3]
            found.append(((float(start[0]), float(start[1])), (float(end[0]), float(end[1]))))
    return found


def _fold(start: Floats, end: Floats, room: PieceRoom, em: float) -> Signed:
    long = float(np.hypot(*(end - start)))
    turn = readable(math.atan2(end[1] - start[1], end[0] - start[0]))
    u = np.array([math.cos(turn), math.sin(turn)])
    if float((end - start) @ u) < 0.0:
        start, end = end, start
    n = np.array([-u[1], u[0]])
    if not inside(((start + end) / 2 + 0.5 * n)[None, :], room.outline)[0]:
        n = -n
    deep = min(_FOLD_IN * em, long / 3)
    first, last = start + _FREE * long * u, end - _FREE * long * u
    bracket = _run(first, first + deep * n, last + deep * n, last)
    runs = (bracket, _head(first, -n, em), _head(last, -n, em))
    setting = set_text("fold", "hand", em * _WORDS)
    label = None
    if setting.width < (1 - 2 * _FREE) * long - em and deep > setting.ink.height + 0.4 * em:
        below = np.array([-u[1], u[0]])
        middle = (first + last) / 2 + deep / 2 * n
        foot = middle - u * setting.width / 2 - below * (setting.ink.top + setting.ink.bottom) / 2
        label = set_label(
            setting, float(foot[0]), float(foot[1]), turn, em * _WORDS, (float(middle[0]), float(middle[1]))
        )
    middle = (first + last) / 2 + deep / 2 * n
    half = (deep / 2 + _KEPT * em) * n
    return Signed(runs, label, _rectangle(middle, (last - first) / 2 + _HALF_HEAD * em * u, half))


def _rectangle(middle: Floats, across: Floats, down: Floats) -> tuple[tuple[float, float], ...]:
    return _run(
        middle - across - down, middle + across - down, middle + across + down, middle - across + down
    )


def _head(tip: Floats, way: Floats, em: float) -> tuple[tuple[float, float], ...]:
    """The head of an arrow: two strokes back from its tip."""
    side = np.array((-way[1], way[0]))
    back = tip - _HEAD * em * way
    return _run(back + _HALF_HEAD * em * side, tip, back - _HALF_HEAD * em * side)


__all__ = [
    "GRAIN_LINE",
    "NOTCH_LINE",
    "Signed",
    "fold_signs",
    "grain_angle",
    "grain_anywhere",
    "grain_sign",
    "notch_sign",
]

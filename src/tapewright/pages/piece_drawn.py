"""A piece drawn at a scale: where it is cut, where it is sewn, its marks, its grain, its words.

Each part is a group named after the piece, which an SVG keeps as an id and a PDF as a layer. Weights: full
where you cut, broken where you sew; with the net line alone that is full.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from tapewright.drawing import (
    INK,
    SOFT,
    Box,
    Close,
    Fill,
    Group,
    Line,
    Mark,
    Path,
    Stroke,
    Words,
    box_of,
    box_round,
    circle,
    from_cubics,
    set_text,
    straight,
)
from tapewright.pages.lettering import Label
from tapewright.pages.paper import Scale
from tapewright.pages.paper_piece import PARTS, PaperPiece, PieceLines, closed_cubics
from tapewright.pages.piece_labels import along_edges, beside, label_outside, labels_within, name_along
from tapewright.pages.piece_room import PieceRoom, kept_round
from tapewright.pages.piece_signs import (
    GRAIN_LINE,
    NOTCH_LINE,
    Signed,
    fold_signs,
    grain_angle,
    grain_anywhere,
    grain_sign,
    notch_sign,
)
from tapewright.pages.room import Floats, pieces_of
from tapewright.pages.weights import LEADER

#: The size of what is told, mm, by how many times smaller than the pattern the print is.
_EM = {1: 4.4, 2: 3.5, 4: 2.8}
_CROSS = 0.35  # half of the cross at a place marked within, in ems
_LETTER = 0.9


@dataclass(frozen=True, slots=True, eq=False)
class DrawnPiece:
    """A piece as drawn, from the pattern's own (0, 0) at the scale of the print, in mm.

    `label` are the lines of its label, and `outside` whether it found no room within; `along` what stands
    along the edges; `names` what is marked within and the letters; `grain` the signs of the grain or the fold.
    """

    piece: PaperPiece
    group: Group
    box: Box
    label: tuple[Label, ...]
    outside: bool
    along: tuple[Label, ...]
    names: tuple[Label, ...]
    grain: tuple[Signed, ...]

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of all that is drawn of it."""
        return self.box.width, self.box.height


def part_name(piece: PaperPiece, part: str) -> str:
    """What the group of a part of a piece is called."""
    return f"piece {piece.name} {part}"


def layers_of(pieces: Sequence[PaperPiece]) -> dict[str, str]:
    """Which layer each part of each piece belongs to."""
    return {part_name(piece, part): part for piece in pieces for part in PARTS}


def cutting_style(scale: Scale) -> Line:
    """The line along which one cuts."""
    return Line(0.5 * _lighter(scale), INK, join="mitre")


def sewing_style(scale: Scale, *, alone: bool = False) -> Line:
    """The line along which one sews: broken, or full where it is the only one."""
    lighter = _lighter(scale)
    if alone:
        return Line(0.5 * lighter, INK)
    return Line(0.33 * lighter, SOFT, (1.9 * lighter, 1.1 * lighter))


def marked_style(scale: Scale) -> Line:
    """A line marked within a piece, neither cut nor sewn: long and short by turns."""
    lighter = _lighter(scale)
    return Line(0.3 * lighter, SOFT, (3.0 * lighter, 0.8 * lighter, 0.6 * lighter, 0.8 * lighter))


def _lighter(scale: Scale) -> float:
    return {1: 1.0, 2: 0.88, 4: 0.76}[scale.factor.denominator]


def draw_piece(
    piece: PaperPiece,
    scale: Scale,
    lines: PieceLines,
    *,
    letters: bool = False,
    joins: Floats | None = None,
) -> DrawnPiece:
    """Draw one piece. Every word and sign but the balance marks stands inside the net line, or outside with a
    leader; nothing touches anything else, nor any of the `joins`, straight pieces (n, 4) along which pages meet."""
    k, em = float(scale.factor), _EM[scale.factor.denominator]
    # Ends that agree but for rounding are made one: else a place beside a corner might count as inside.
    net = pieces_of(closed_cubics([e.net for e in piece.edges]) * k)
    cut = pieces_of(np.asarray(piece.cut) * k)
    room = PieceRoom(net)
    # Beyond a sharp hollow the cutting line may come in over the net line.
    room.take(cut)
    if joins is not None:
        room.take(joins)
    notches = [notch_sign(n, k, em, lines) for n in piece.notches]
    for sign in notches:
        room.take(sign.pieces)
    within = [pieces_of(np.asarray(run) * k) for _, run in piece.lines]
    for run in within:
        room.take(run)
    names = list(_inner_names(piece, room, k, em, within))
    folds = fold_signs(piece, room, k, em) if piece.on == "fold" else ()
    for sign in folds:
        _taken(sign, room)
    label, outside, grain = _label_and_grain(piece, room, em, cut if lines is not PieceLines.NET else net)
    signs = (*folds, *((grain,) if grain is not None else ()))
    if letters:
        names += list(_letters(piece, room, k, em))
    along = tuple(along_edges(piece, room, k, em))
    # One along an edge that lies on the fold says nothing: it is neither cut nor sewn.
    groups = _groups(piece, scale, lines, notches, signs, (*label, *along, *names), k)
    group = Group(f"piece {piece.name}", groups)
    box = box_round(b for b in (box_of(group),) if b is not None)
    return DrawnPiece(piece, group, box or Box(0, 0, 0, 0), label, outside, along, tuple(names), signs)


def _taken(sign: Signed, room: PieceRoom) -> None:
    """From now on nothing may stand on a sign or close round it."""
    room.take(sign.pieces)
    if sign.corners:
        room.take_box(sign.corners)
    if sign.label is not None:
        room.take_box(sign.label.corners)


def _label_and_grain(
    piece: PaperPiece, room: PieceRoom, em: float, outer: Floats
) -> tuple[tuple[Label, ...], bool, Signed | None]:
    """A label and a line on the grain that both find room; else the label stands outside."""
    lies = piece.on in {"grain", "cross"} and bool(piece.lying)
    bare = room.busy
    best: tuple[Label, ...] | None = None
    for label in labels_within(piece, room, em, grain_angle(piece)):
        kept = PieceRoom(room.outline, bare)
        for line in label:
            kept.take_box(kept_round(line, 0.35 * em))
        grain = grain_sign(piece, kept, em) if lies else None
        if grain is not None or not lies:
            room.busy = kept.busy
            room.forget()
            if grain is not None:
                _taken(grain, room)
            return label, False, grain
        best = best or label
    grain = None
    if lies:
        grain = grain_sign(piece, room, em) or grain_anywhere(piece, room, em)
        _taken(grain, room)
    right = float(outer[:, [0, 2]].max())
    return label_outside(piece, room, em, right), True, grain


def _inner_names(
    piece: PaperPiece, room: PieceRoom, k: float, em: float, within: Sequence[Floats]
) -> Iterator[Label]:
    size = em * _LETTER
    for name, x, y in piece.points:
        reach = _CROSS * em
        room.take(np.array([[x * k - reach, y * k, x * k + reach, y * k]]))
        room.take(np.array([[x * k, y * k - reach, x * k, y * k + reach]]))
        if (label := beside(set_text(name, "hand", size), x * k, y * k, room, size)) is not None:
            room.take_box(label.corners)
            yield label
    for (name, _), run in zip(piece.lines, within, strict=True):
        if not name or not len(run):
            continue
        if (label := name_along(name, run, room, size * 0.85)) is not None:
            room.take_box(label.corners)
            yield label


def _letters(piece: PaperPiece, room: PieceRoom, k: float, em: float) -> Iterator[Label]:
    size = em * _LETTER
    for name, x, y in piece.corners:
        if (label := beside(set_text(name, "hand", size), x * k, y * k, room, size)) is not None:
            room.take_box(label.corners)
            yield label


def _groups(
    piece: PaperPiece,
    scale: Scale,
    lines: PieceLines,
    notches: Sequence[Signed],
    signs: Sequence[Signed],
    labels: Sequence[Label],
    k: float,
) -> tuple[Mark, ...]:
    """The parts of a piece, from below."""
    found: list[Mark] = []

    def part(name: str, marks: Sequence[Mark]) -> None:
        if marks:
            found.append(Group(part_name(piece, name), tuple(marks)))

    part("net", list(_net(piece, scale, lines, k)))
    if lines is not PieceLines.NET:
        part("cut", [Stroke(closed_path(np.asarray(piece.cut) * k), cutting_style(scale))])
    marks: list[Mark] = [stroke for sign in notches for stroke in sign.marks(NOTCH_LINE)]
    marks += [
        Stroke(from_cubics(np.asarray(run) * k), marked_style(scale)) for _, run in piece.lines if len(run)
    ]
    for _, x, y in piece.points:
        reach = _CROSS * _EM[scale.factor.denominator]
        cross = straight(x * k - reach, y * k, x * k + reach, y * k)
        marks.append(Stroke(cross + straight(x * k, y * k - reach, x * k, y * k + reach), GRAIN_LINE))
    part("marks", marks)
    part("grain", [stroke for sign in signs for stroke in sign.marks(GRAIN_LINE)])
    words: list[Mark] = []
    for label in (*labels, *(s.label for s in signs if s.label is not None)):
        if label.leader:
            words.append(Stroke(straight(*label.leader), LEADER))
            words.append(Fill(circle(label.leader[0], label.leader[1], 0.5), INK))
        words.append(Words(label.setting, label.x, label.y, label.turn))
    part("words", words)
    return tuple(found)


def _net(piece: PaperPiece, scale: Scale, lines: PieceLines, k: float) -> Iterator[Mark]:
    """The net line edge by edge; with the cutting line alone only the legs of darts, which lie within."""
    for edge in piece.edges:
        if lines is PieceLines.CUT and not edge.dart:
            continue
        path = from_cubics(np.asarray(edge.net) * k)
        if path.steps:
            alone = lines is PieceLines.NET and not edge.dart
            stroke = Stroke(path, sewing_style(scale, alone=alone))
            yield Group(part_name(piece, f"net {edge.name}"), (stroke,))


def closed_path(cubics: Floats) -> Path:
    """A closed line of cubics (n, 4, 2) as one path, each beginning where the last ended."""
    path = from_cubics(cubics)
    return Path((*path.steps, Close())) if path.steps else path


__all__ = ["DrawnPiece", "closed_path", "draw_piece", "layers_of", "part_name"]

"""The plate of a construction: points, guide lines and outlines, every point lettered.

The input is neutral: points with a place and a rank, lines as cubics with a role, all in mm of the
pattern itself. `draw_field` draws it at a scale on bare paper and letters it; titles, squares and pages
are put round it elsewhere (`dress.py`, `tiles.py`).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from tapewright.draft import Sign
from tapewright.drawing import (
    INK,
    PAPER,
    Box,
    Clip,
    Fill,
    Group,
    Mark,
    Stroke,
    Transform,
    Words,
    circle,
    from_cubics,
    set_name,
    set_text,
    straight,
    through,
)
from tapewright.pages.block import Block
from tapewright.pages.captions import Busy, Titled, place_captions
from tapewright.pages.insets import in_the_way
from tapewright.pages.labels import place_labels
from tapewright.pages.lettering import Inset, Label, Letter, Lettering, Lines
from tapewright.pages.names import NamedLine, place_names
from tapewright.pages.paper import Scale
from tapewright.pages.plate_signs import sign_marks, sign_pieces
from tapewright.pages.room import Floats, lengths_inside, no_pieces, pieces_of
from tapewright.pages.sides import DOT, Ground
from tapewright.pages.weights import HEAVY, LEADER, RING, WINDOW, Role, line_for


@dataclass(frozen=True, slots=True)
class PlatePoint:
    """A point of the draft, in mm of the pattern. `rank`: 1 a corner of the frame, 2 an end of an
    outline, 3 one that is pointed out, 4 any other."""

    name: str
    x: float
    y: float
    rank: int = 4


@dataclass(frozen=True, slots=True, eq=False)
class PlateLine:
    """A line of the draft: cubics (n, 4, 2) in mm of the pattern, in the way it was drawn."""

    name: str
    cubics: Floats
    role: Role
    show_name: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class PlatePiece:
    """A piece: its name, how it is cut in words, its closed outline (n, 4, 2) in mm of the pattern."""

    name: str
    told: str
    outline: Floats


@dataclass(frozen=True, slots=True)
class PlateCheck:
    """What a check found, in words, and whether it holds."""

    words: str
    holds: bool
    #: By how much it is out, in words; nothing where it holds.
    out: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Plate:
    """Everything a plate shows. `wearer_line` says whose it is, over what, and when, as one line."""

    title: str
    points: tuple[PlatePoint, ...]
    lines: tuple[PlateLine, ...]
    wearer_line: str = ""
    caption: str = ""
    checks: tuple[PlateCheck, ...] = ()
    notes: tuple[str, ...] = ()
    #: Right angles, divisions, notches and the like.
    signs: tuple[Sign, ...] = ()
    #: What stands in heavy type on every page: that a draft is not finished, for one.
    warning: str = ""
    #: How it was drafted: on the half, net or with seams.
    drafted: str = ""
    pieces: tuple[PlatePiece, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Field:
    """A plate drawn on bare paper. `origin` is where the pattern's (0, 0) lies in the block.

    `lettering` and `names` are as placed, before the block was moved to start at (0, 0): add `origin`.
    `unnamed` are lines whose name was to show and found no room, or that have no length. `captions` are
    the lines written inside the pieces, `untold` the pieces that had no room for theirs.
    """

    block: Block
    origin: tuple[float, float]
    lettering: Lettering
    names: tuple[Label, ...]
    unnamed: tuple[str, ...]
    letter_size: float
    captions: tuple[Label, ...] = ()
    untold: tuple[PlatePiece, ...] = ()


# Size of the letters in mm: on a full-size plate they are read from where one stands drawing.
_LETTER = {1: 5.0, 2: 4.0, 4: 3.2}
_NAME = 0.82  # of a line's name, against the letters
_BARE = 2.7  # bare paper round the drawing, in ems, for the labels outside it
_PAPER_RING = 1.55  # of the bare ring round a dot, against the dot


def _bounds(plate: Plate, k: float) -> Box:
    places = [np.asarray(line.cubics, dtype=float).reshape(-1, 2) for line in plate.lines]
    places.append(np.array([(p.x, p.y) for p in plate.points]).reshape(-1, 2))
    every = np.concatenate(places) * k
    if not len(every):
        raise ValueError("a plate needs a point or a line")
    # The handles of a cubic may stand outside it; where they do the paper is a little larger.
    (left, top), (right, bottom) = every.min(axis=0), every.max(axis=0)
    return Box(float(left), float(top), float(right), float(bottom))


def least_size(plate: Plate, scale: Scale) -> tuple[float, float]:
    """Width and height in mm of the plate with room for its letters but no insets."""
    box = _bounds(plate, float(scale.factor)).padded(_BARE * _LETTER[scale.factor.denominator])
    return box.width, box.height


def draw_field(plate: Plate, scale: Scale, *, within: tuple[float, float] | None = None) -> Field:
    """The plate at a scale, lettered, as a block of its own size.

    It grows beyond the drawing and its letters only for insets, and then, if it can, stays within a
    width and height in mm. `NoRoom` if a letter finds no place at all, which is a fault.
    """
    k = float(scale.factor)
    size = _LETTER[scale.factor.denominator]
    pieces = {role: [no_pieces()] for role in Role}
    for line in plate.lines:
        pieces[line.role].append(pieces_of(np.asarray(line.cubics, dtype=float) * k))
    hard = np.concatenate([p for role in Role if role in HEAVY for p in pieces[role]])
    soft = np.concatenate([p for role in Role if role not in HEAVY for p in pieces[role]])
    soft = np.concatenate([soft, sign_pieces(plate.signs, k, size)])
    letters = [Letter(p.name, p.x * k, p.y * k, p.rank, set_name(p.name, size)) for p in plate.points]
    region = _bounds(plate, k).padded(_BARE * size)
    lettering = place_labels(letters, Lines(hard, soft), region, size, within=within)
    names = _names(plate, k, size * _NAME, hard, soft, lettering)
    captions, untold = _captions(plate, k, size, np.concatenate([hard, soft]), lettering, names)
    marks = _marks(plate, scale, size, soft, lettering, names, captions)
    paper = lettering.region
    block = Block(paper.width, paper.height, Block(0, 0, marks).at(-paper.left, -paper.top))
    wanted = [line.name for line in plate.lines if line.show_name and line.name]
    for name in names:
        wanted.remove(name.name)
    origin = (-paper.left, -paper.top)
    return Field(block, origin, lettering, names, tuple(wanted), size, captions, untold)


def _names(
    plate: Plate, k: float, size: float, hard: Floats, soft: Floats, lettering: Lettering
) -> tuple[Label, ...]:
    """The names of the lines that show them, set along them, clear of all the letters."""
    shown = [
        NamedLine(line.name, set_text(line.name, "hand", size), np.asarray(line.cubics, dtype=float) * k)
        for line in plate.lines
        if line.show_name and line.name
    ]
    parts = [in_the_way(inset, size) for inset in lettering.insets]
    paper = lettering.region
    ground = Ground(
        size,
        hard,
        soft,
        np.array([(p.x * k, p.y * k) for p in plate.points]).reshape(-1, 2),
        np.array([paper.left, paper.top, paper.right, paper.bottom]),
        boxes=np.concatenate([no_pieces(), *(box for _, box, _ in parts)]),
        discs=np.concatenate([np.zeros((0, 3)), *(discs for discs, _, _ in parts)]),
        ties=np.concatenate([no_pieces(), *(tie for _, _, tie in parts)]),
    )
    return place_names(shown, ground, lettering.labels)


def _captions(
    plate: Plate, k: float, size: float, lines: Floats, lettering: Lettering, names: tuple[Label, ...]
) -> tuple[tuple[Label, ...], tuple[PlatePiece, ...]]:
    """What is written inside the pieces, and the pieces that have no room for it."""
    labels = [*lettering.labels, *names]
    leaders = np.array([label.leader for label in labels if label.leader]).reshape(-1, 4)
    parts = [in_the_way(inset, size) for inset in lettering.insets]
    dots = np.array([(p.x * k, p.y * k) for p in plate.points]).reshape(-1, 2)
    round_dots = DOT * size * _PAPER_RING
    rounds = [np.concatenate([d[:, :2] - d[:, 2:], d[:, :2] + d[:, 2:]], axis=1) for d, _, _ in parts]
    busy = Busy(
        np.concatenate([lines, leaders, *(tie for _, _, tie in parts)]),
        np.concatenate(
            [
                np.array([(b.left, b.top, b.right, b.bottom) for b in (x.box for x in labels)]).reshape(
                    -1, 4
                ),
                np.concatenate([dots - round_dots, dots + round_dots], axis=1),
                *(box for _, box, _ in parts),
                *rounds,
            ]
        ),
    )
    titled = [Titled(p.name, p.told, pieces_of(np.asarray(p.outline, dtype=float) * k)) for p in plate.pieces]
    placed = place_captions(titled, busy, size)
    untold = tuple(piece for piece, lines in zip(plate.pieces, placed, strict=True) if not lines)
    return tuple(label for lines in placed for label in lines), untold


def _by_role(plate: Plate, scale: Scale, roles: Iterable[Role]) -> tuple[Mark, ...]:
    """Strokes of the lines, a group for each role and in it one for each line with a name."""
    k = float(scale.factor)
    groups: list[Mark] = []
    for role in roles:
        strokes: list[Mark] = []
        for line in plate.lines:
            if line.role is role:
                path = from_cubics(np.asarray(line.cubics, dtype=float) * k)
                if path.steps:
                    stroke = Stroke(path, line_for(role, scale))
                    strokes.append(Group(line.name, (stroke,)) if line.name else stroke)
        if strokes:
            groups.append(Group(role.value, tuple(strokes)))
    return tuple(groups)


_UNDER = (Role.BENEATH, Role.FRAME, Role.CONSTRUCTION)
_OVER = (Role.DART, Role.OUTLINE)


def _giving_way(labels: Iterable[Label], soft: Floats) -> tuple[Mark, ...]:
    """Bare paper under the labels that a guide line runs through, so that each is easily read."""
    bare: list[Mark] = []
    for label in labels:
        box = label.box
        upright_box = np.array([[box.left, box.top, box.right, box.bottom]])
        if len(soft) and lengths_inside(upright_box, soft)[0].any():
            bare.append(Fill(through(label.corners, closed=True), PAPER))
    return tuple(bare)


def _dots(places: Iterable[tuple[float, float]], size: float) -> tuple[Mark, ...]:
    """Points as dots with a bare ring; all rings first, so that none eats its neighbour's dot."""
    spots = list(places)
    rings = tuple(Fill(circle(x, y, DOT * size * _PAPER_RING), PAPER) for x, y in spots)
    dots = tuple(Fill(circle(x, y, DOT * size), INK) for x, y in spots)
    return (*rings, Group("points", dots))


def _written(labels: Iterable[Label]) -> tuple[Mark, ...]:
    written: list[Mark] = []
    for label in labels:
        if label.leader:
            written.append(Stroke(straight(*label.leader), LEADER))
        written.append(Words(label.setting, label.x, label.y, label.turn))
    return tuple(written)


def _marks(
    plate: Plate,
    scale: Scale,
    size: float,
    soft: Floats,
    lettering: Lettering,
    names: tuple[Label, ...],
    captions: tuple[Label, ...],
) -> tuple[Mark, ...]:
    """Everything, from below: guide lines, outlines, points, letters, insets."""
    k = float(scale.factor)
    under = (*_by_role(plate, scale, _UNDER), *sign_marks(plate.signs, k, size))
    over = _by_role(plate, scale, _OVER)
    here = [label for label in lettering.labels if label.inset is None]
    places = [(p.x * k, p.y * k) for p in plate.points]
    return (
        *under,
        *_giving_way([*here, *names], soft),
        *over,
        *_dots(places, size),
        Group("letters", _written(here)),
        *((Group("names", _written(names)),) if names else ()),
        *((Group("pieces", _written(captions)),) if captions else ()),
        *(
            Group(f"inset {n + 1}", _inset(inset, n, under, over, soft, places, size, lettering))
            for n, inset in enumerate(lettering.insets)
        ),
    )


def _inset(
    inset: Inset,
    number: int,
    under: tuple[Mark, ...],
    over: tuple[Mark, ...],
    soft: Floats,
    places: list[tuple[float, float]],
    size: float,
    lettering: Lettering,
) -> tuple[Mark, ...]:
    """The ring, its tie, and the window with the place drawn again in it."""
    how = inset.enlarging
    labels = [label for label in lettering.labels if label.inset == number]
    window = circle(inset.into_x, inset.into_y, inset.into_radius)
    larger = soft * inset.times + np.tile(np.array([how.dx, how.dy]), 2)
    seen = [
        (x, y)
        for x, y in (how(*spot) for spot in places)
        if np.hypot(x - inset.into_x, y - inset.into_y) < inset.into_radius
    ]
    return (
        Stroke(circle(inset.x, inset.y, inset.radius), RING),
        Stroke(straight(*inset.tie), RING),
        Fill(window, PAPER),
        Clip(
            window,
            (
                *_enlarged(under, how),
                *_giving_way(labels, larger),
                *_enlarged(over, how),
                *_dots(seen, size),
            ),
        ),
        Stroke(window, WINDOW),
        *_written(labels),
        Words(inset.words, inset.words_x, inset.words_y),
    )


def _enlarged(marks: Iterable[Mark], how: Transform) -> tuple[Mark, ...]:
    """The same lines, larger, without the names of their groups: an id belongs to the plate's own."""
    larger: list[Mark] = []
    for mark in marks:
        if isinstance(mark, Group):
            larger.extend(_enlarged(mark.marks, how))
        elif isinstance(mark, Stroke):
            larger.append(Stroke(mark.path.placed(how), mark.line))
    return tuple(larger)

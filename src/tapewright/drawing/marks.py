"""A drawing: marks on a paper of known size, in millimetres from its upper left corner, y down.

Five kinds of mark: a stroke, a fill, words, a group with a name, and a clip that shows only what lies
inside a path. All are values; what moves or scales one gives another. A drawing plays itself on to a
pen (`pen.py`) and knows nothing of files or formats.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from tapewright.drawing.ink import INK, Ink, Line
from tapewright.drawing.path import Box, Path, Transform, box_round, rectangle
from tapewright.drawing.pen import Pen
from tapewright.drawing.setting import Setting


@dataclass(frozen=True, slots=True)
class Stroke:
    """A path followed by a line."""

    path: Path
    line: Line


@dataclass(frozen=True, slots=True)
class Fill:
    """The inside of a path covered with ink; where it winds round twice it is inside too."""

    path: Path
    ink: Ink


@dataclass(frozen=True, slots=True)
class Words:
    """A setting written from (x, y), turned by `turn` radians (clockwise on the paper) about there."""

    setting: Setting
    x: float
    y: float
    turn: float = 0.0
    ink: Ink = INK


@dataclass(frozen=True, slots=True)
class Group:
    """Marks that belong together, under a name; an SVG keeps the name."""

    name: str
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Clip:
    """Marks of which only what lies inside the path is seen."""

    path: Path
    marks: tuple[Mark, ...]


Mark = Stroke | Fill | Words | Group | Clip


def words_at(
    setting: Setting, x: float, y: float, *, side: str = "left", turn: float = 0.0, ink: Ink = INK
) -> Words:
    """Words whose `left`, `middle` or `right` stands at (x, y) on the line of writing."""
    share = {"left": 0.0, "middle": 0.5, "right": 1.0}[side]
    back = setting.width * share
    return Words(setting, x - back * math.cos(turn), y - back * math.sin(turn), turn, ink)


def words_corners(words: Words) -> tuple[tuple[float, float], ...]:
    """The four corners of the words' ink, turned as they are."""
    how = Transform.turning(words.turn).then(Transform.moving(words.x, words.y))
    return tuple(how(x, y) for x, y in words.setting.ink.corners())


def box_of(mark: Mark) -> Box | None:
    """The box of what a mark covers, with the width of its line; None if it covers nothing."""
    match mark:
        case Stroke(path, line):
            box = path.box()
            return box.padded(line.width / 2) if box else None
        case Fill(path, _):
            return path.box()
        case Words():
            corners = words_corners(mark)
            xs = [x for x, _ in corners]
            ys = [y for _, y in corners]
            return Box(min(xs), min(ys), max(xs), max(ys))
        case Group(_, marks):
            return box_round(box for box in map(box_of, marks) if box)
        case Clip(path, marks):
            inside, seen = path.box(), box_round(box for box in map(box_of, marks) if box)
            if inside is None or seen is None or not inside.touches(seen):
                return None
            return inside.shared(seen)


def place(mark: Mark, how: Transform) -> Mark:
    """The mark, transformed. Lettering is scaled; the widths of lines belong to the paper and stay."""
    match mark:
        case Stroke(path, line):
            return Stroke(path.placed(how), line)
        case Fill(path, ink):
            return Fill(path.placed(how), ink)
        case Words(setting, x, y, turn, ink):
            nx, ny = how(x, y)
            if how.scale != 1:
                setting = setting.scaled(how.scale)
            return Words(setting, nx, ny, turn + how.angle, ink)
        case Group(name, marks):
            return Group(name, tuple(place(one, how) for one in marks))
        case Clip(path, marks):
            return Clip(path.placed(how), tuple(place(one, how) for one in marks))


def within(marks: tuple[Mark, ...], box: Box) -> tuple[Mark, ...]:
    """The marks whose own box touches `box`; groups keep their name and lose what lies elsewhere."""
    kept: list[Mark] = []
    for mark in marks:
        if isinstance(mark, Group | Clip):
            inner = within(mark.marks, box)
            if inner:
                kept.append(replace(mark, marks=inner))
        elif (own := box_of(mark)) is not None and own.touches(box):
            kept.append(mark)
    return tuple(kept)


def every(marks: tuple[Mark, ...]) -> Iterator[Stroke | Fill | Words]:
    """Every stroke, fill and setting, groups and clips opened, in the order drawn."""
    for mark in marks:
        if isinstance(mark, Group | Clip):
            yield from every(mark.marks)
        else:
            yield mark


@dataclass(frozen=True, slots=True)
class Drawing:
    """Marks on a paper `width` by `height` mm, drawn in order, later ones over earlier ones."""

    width: float
    height: float
    marks: tuple[Mark, ...]
    name: str = ""

    def __post_init__(self) -> None:
        if not (0 < self.width < math.inf and 0 < self.height < math.inf):
            raise ValueError(f"a drawing needs a size: {self.width} by {self.height}")

    @property
    def box(self) -> Box:
        """The paper's own box."""
        return Box(0.0, 0.0, self.width, self.height)

    def placed(self, how: Transform) -> tuple[Mark, ...]:
        """Its marks, transformed, for use in another drawing."""
        return tuple(place(mark, how) for mark in self.marks)

    def missing(self) -> tuple[str, ...]:
        """Characters somewhere in its words that no face has, each once."""
        found = (mark.setting.missing for mark in every(self.marks) if isinstance(mark, Words))
        return tuple(dict.fromkeys(character for some in found for character in some))

    def play(self, pen: Pen) -> None:
        """Draw every mark on a pen, in order."""
        _play(self.marks, pen)


def _play(marks: tuple[Mark, ...], pen: Pen) -> None:
    for mark in marks:
        match mark:
            case Stroke(path, line):
                pen.stroke(path, line)
            case Fill(path, ink):
                pen.fill(path, ink)
            case Words(setting, x, y, turn, ink):
                pen.words(setting, x, y, turn, ink)
                how = Transform.turning(turn).then(Transform.moving(x, y))
                for hole in setting.holes:
                    pen.stroke(rectangle(hole).placed(how), Line(hole.height / 20, ink, join="mitre"))
            case Group(name, inner):
                pen.open_group(name)
                _play(inner, pen)
                pen.close_group()
            case Clip(path, inner):
                pen.open_clip(path)
                _play(inner, pen)
                pen.close_clip()


def framed(box: Box, marks: tuple[Mark, ...]) -> Clip:
    """Marks of which only what lies inside a box is seen."""
    return Clip(rectangle(box), marks)

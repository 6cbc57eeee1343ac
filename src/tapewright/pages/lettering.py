"""What is lettered, and what a lettering is: points to name, labels placed, insets drawn.

Only the values; how places are chosen is in `labels.py` and the modules it calls. All in mm on the
paper, y down, whatever the scale of the drawing.
"""

from __future__ import annotations

from dataclasses import dataclass

from tapewright.drawing import Box, Setting, Transform
from tapewright.pages.room import Floats

# Bare paper kept between a label's ink and anything it must not touch, in ems of its type. Half as much
# and a letter at 9 pt touches a heavy outline; twice as much and a neck at quarter size has no place.
CLEARANCE = 0.12


@dataclass(frozen=True, slots=True)
class Letter:
    """A point that wants its name beside it. `rank` 1 is placed first (corners of the frame), 4 last."""

    name: str
    x: float
    y: float
    rank: int
    setting: Setting


@dataclass(frozen=True, slots=True)
class Label:
    """A name in its place.

    `x`, `y`, `turn`: where its line of writing starts and how it is turned. `corners`: its ink, with
    half the clearance round it, turned likewise: what nothing else touches. `point`: the place it
    names, in an inset the enlarged one. `leader`: a thin line from the point to the label, when it
    stands clear of it. `inset`: which inset it stands in.
    """

    name: str
    setting: Setting
    x: float
    y: float
    turn: float
    corners: tuple[tuple[float, float], ...]
    point: tuple[float, float]
    leader: tuple[float, float, float, float] | None = None
    inset: int | None = None

    @property
    def box(self) -> Box:
        """The upright box round its corners."""
        xs = [x for x, _ in self.corners]
        ys = [y for _, y in self.corners]
        return Box(min(xs), min(ys), max(xs), max(ys))


@dataclass(frozen=True, slots=True)
class Inset:
    """A place drawn again, `times` as large: the ring round it, and the round window that shows it.

    `tie` is a thin line from the ring to the window. `words` says how much larger, from `words_x`,
    `words_y`.
    """

    x: float
    y: float
    radius: float
    into_x: float
    into_y: float
    into_radius: float
    times: int
    tie: tuple[float, float, float, float]
    words: Setting
    words_x: float
    words_y: float

    @property
    def enlarging(self) -> Transform:
        """From the plate into the window."""
        return Transform(
            float(self.times), 0.0, self.into_x - self.x * self.times, self.into_y - self.y * self.times
        )


@dataclass(frozen=True, slots=True, eq=False)
class Lines:
    """Straight pieces (n, 4) of the drawn lines: `hard` may not be touched by a label, `soft` may be."""

    hard: Floats
    soft: Floats


@dataclass(frozen=True, slots=True)
class Lettering:
    """Every label, every inset, and the region they and the drawing fill."""

    labels: tuple[Label, ...]
    insets: tuple[Inset, ...]
    region: Box


def kept_clear(setting: Setting, size: float) -> Box:
    """The box that a label promises to keep to itself: its ink and half the clearance it was placed with.

    The other half is for what is only near the truth: curves stand for by straight pieces, and sums in
    the last digit.
    """
    return setting.ink.padded(CLEARANCE * size / 2)


def upright(
    letter: Letter,
    box: Floats,
    size: float,
    leader: tuple[float, float, float, float] | None = None,
    inset: int | None = None,
) -> Label:
    """The label of a letter whose padded box was chosen."""
    pad = CLEARANCE * size
    x = float(box[0]) + pad - letter.setting.ink.left
    y = float(box[1]) + pad - letter.setting.ink.top
    corners = kept_clear(letter.setting, size).moved(x, y).corners()
    return Label(letter.name, letter.setting, x, y, 0.0, corners, (letter.x, letter.y), leader, inset)

"""What a line is drawn with: inks by name, and the width, dash and ends of a line.

Printed paper is ink on white, so that any printer sets the lines sharp: true black, two greys, and the
colour of the tape. No meaning ever rests on colour alone; a line is known by its weight and its dash.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Ink:
    """A named ink: red, green and blue from 0 to 255. Equal parts are printed as plain grey."""

    name: str
    red: int
    green: int
    blue: int

    def __post_init__(self) -> None:
        if not all(0 <= part <= 255 for part in (self.red, self.green, self.blue)):
            raise ValueError(f"the parts of an ink run from 0 to 255: {self}")

    @property
    def grey(self) -> bool:
        return self.red == self.green == self.blue


INK = Ink("ink", 0, 0, 0)
SOFT = Ink("soft", 84, 84, 84)
FAINT = Ink("faint", 168, 168, 168)
PAPER = Ink("paper", 255, 255, 255)
WELD = Ink("weld", 110, 82, 0)
WELD_WASH = Ink("weld wash", 250, 242, 216)

Cap = Literal["butt", "round", "square"]
Join = Literal["mitre", "round", "bevel"]


@dataclass(frozen=True, slots=True)
class Line:
    """How a stroke looks: `width` in mm, `dash` as lengths drawn and left out by turns, in mm.

    A dash of no length with round ends is a dot.
    """

    width: float
    ink: Ink = INK
    dash: tuple[float, ...] = ()
    cap: Cap = "butt"
    join: Join = "round"

    def __post_init__(self) -> None:
        if not self.width > 0:
            raise ValueError("a line needs some width")
        if len(self.dash) % 2 or any(part < 0 for part in self.dash) or (self.dash and not sum(self.dash)):
            raise ValueError(f"a dash is pairs of drawn and left out, none negative: {self.dash}")

"""What a drawing plays itself on to.

A writer of some format is a pen; so is a filter, so is the recorder that tests use. Neither the drawing
nor the pen knows the other's insides.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Protocol

from tapewright.drawing.ink import Ink, Line
from tapewright.drawing.path import Path
from tapewright.drawing.setting import Setting


class Pen(Protocol):
    """The seven things a drawing asks of a pen. Lengths in mm, y down, angles clockwise in radians."""

    def stroke(self, path: Path, line: Line) -> None: ...

    def fill(self, path: Path, ink: Ink) -> None: ...

    def words(self, setting: Setting, x: float, y: float, turn: float, ink: Ink) -> None: ...

    def open_group(self, name: str) -> None: ...

    def close_group(self) -> None: ...

    def open_clip(self, path: Path) -> None: ...

    def close_clip(self) -> None: ...


@dataclass(slots=True)
class RecordingPen:
    """A pen that only writes down what it was asked, in order, as (what, arguments)."""

    asked: list[tuple[str, tuple[object, ...]]] = field(default_factory=list)

    def stroke(self, path: Path, line: Line) -> None:
        self.asked.append(("stroke", (path, line)))

    def fill(self, path: Path, ink: Ink) -> None:
        self.asked.append(("fill", (path, ink)))

    def words(self, setting: Setting, x: float, y: float, turn: float, ink: Ink) -> None:
        self.asked.append(("words", (setting, x, y, turn, ink)))

    def open_group(self, name: str) -> None:
        self.asked.append(("open_group", (name,)))

    def close_group(self) -> None:
        self.asked.append(("close_group", ()))

    def open_clip(self, path: Path) -> None:
        self.asked.append(("open_clip", (path,)))

    def close_clip(self) -> None:
        self.asked.append(("close_clip", ()))

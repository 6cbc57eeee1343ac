"""The outlines of the three line figures, read from small SVG files that a drawing program can open.

Only what those files hold is read: straight moves and cubics in two groups, `contour` and `fine`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from tapewright.drawing import Bend, Box, Move, Path, Step, To
from tapewright.figures.lying import View

_GROUP = re.compile(r'<g class="(contour|fine)"[^>]*>(.*?)</g>', re.DOTALL)
_PATH = re.compile(r'<path d="([^"]+)"/>')
_STEP = re.compile(r"([MC])([^MC]*)")
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


@dataclass(frozen=True, slots=True)
class Outline:
    """A figure: `contour` round it, `fine` lines within (knees, collarbones); in its own units, y down.

    `box` is the ground it stands on, with room for what is measured beside it.
    """

    contour: tuple[Path, ...]
    fine: tuple[Path, ...]
    box: Box


def _path(d: str) -> Path:
    steps: list[Step] = []
    for letter, rest in _STEP.findall(d):
        numbers = [float(n) for n in _NUMBER.findall(rest)]
        if letter == "M":
            steps.append(Move(*numbers[:2]))
            continue
        for i in range(0, len(numbers), 6):
            x1, y1, x2, y2, x, y = numbers[i : i + 6]
            steps.append(Bend(x1, y1, x2, y2, x, y))
    return Path(tuple(steps))


@cache
def outline(view: View) -> Outline:
    """The figure seen from one side."""
    text = (files("tapewright.figures") / f"{view}.svg").read_text(encoding="utf-8")
    found = {name: tuple(_path(d) for d in _PATH.findall(body)) for name, body in _GROUP.findall(text)}
    left, top, width, height = (float(n) for n in _NUMBER.findall(text.split("viewBox=")[1])[:4])
    return Outline(found["contour"], found["fine"], Box(left, top, left + width, top + height))


def smooth(points: Sequence[tuple[float, float]]) -> Path:
    """A smooth line through places, in their order; straight through two.

    Each tangent runs from the place before to the place after, a third of the way on each side.
    """
    if len(points) < 2:
        raise ValueError("a line needs two places")
    if len(points) == 2:
        return Path((Move(*points[0]), To(*points[1])))
    before = [points[0], *points[:-1]]
    after = [*points[1:], points[-1]]
    slopes = [((b[0] - a[0]) / 6, (b[1] - a[1]) / 6) for a, b in zip(before, after, strict=True)]
    steps: list[Step] = [Move(*points[0])]
    for i in range(len(points) - 1):
        (x0, y0), (x1, y1) = points[i], points[i + 1]
        (dx0, dy0), (dx1, dy1) = slopes[i], slopes[i + 1]
        steps.append(Bend(x0 + dx0, y0 + dy0, x1 - dx1, y1 - dy1, x1, y1))
    return Path(tuple(steps))

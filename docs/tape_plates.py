"""The pictures of docs/tapes.md: an example of each notation, a page of the key, and how a strip lies on the fan."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial

from tapewright.drawing import (
    INK,
    WELD_WASH,
    Box,
    Drawing,
    Fill,
    Line,
    Mark,
    Stroke,
    rectangle,
    set_text,
    straight,
    words_at,
)
from tapewright.export import svg
from tapewright.pages.fan_lines import HEAD, SIDES, draw_fan
from tapewright.pages.tape_key import example
from tapewright.tapes import PARTS, Fan, notations

_WIDTH = 220.0
_MARGIN = 2.0


def notation_plate(name: str) -> bytes:
    """A tape in a notation, with two of its readings."""
    notation = notations()[name]
    drawn = example(notation, notation.parts or PARTS, _WIDTH)
    return svg(
        Drawing(
            drawn.width + 2 * _MARGIN, drawn.height + 2 * _MARGIN, drawn.at(_MARGIN, _MARGIN), notation.title
        )
    )


def fan_plate() -> bytes:
    """A small fan of twelve parts, and a strip that just spans it with the marks it has taken."""
    fan = Fan(parts=12, longest=330.0, shortest=60.0)
    strip, high = 240.0, 8.0
    drawn = draw_fan(fan)
    y = fan.at(strip)
    down = HEAD + y - fan.top
    left, right = SIDES + fan.x(0, y), SIDES + fan.x(Fraction(1), y)
    marks: list[Mark] = [*drawn.marks, Fill(rectangle(Box(left, down, right, down + high)), WELD_WASH)]
    marks.append(Stroke(rectangle(Box(left, down, right, down + high)), Line(0.25, INK, join="mitre")))
    for line in fan.lines[1:-1]:
        x = SIDES + fan.x(line.share, y)
        tall = {2: 4.6, 3: 3.8, 4: 3.8, 6: 3.0, 8: 2.6}.get(int(line.rank), 1.9)
        marks.append(Stroke(straight(x, down, x, down + tall), Line(0.3, INK)))
    words = set_text("a strip, laid where it just spans", "hand", 3.4)
    marks.append(words_at(words, right - 2.0, down + high - 1.2, side="right"))
    return svg(Drawing(drawn.width, drawn.height, tuple(marks), "A strip on the fan"))


def tape_plates() -> dict[str, Callable[[], bytes]]:
    """Every picture by its file."""
    found: dict[str, Callable[[], bytes]] = {
        f"docs/tapes/{name}.svg": partial(notation_plate, name) for name in notations()
    }
    return found | {"docs/tapes/fan.svg": fan_plate}

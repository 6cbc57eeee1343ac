"""Draw the figures of `docs/measuring.md`: one for each group of a measuring day, numbered as in its tables."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

from tapewright.drawing import Drawing
from tapewright.export import svg
from tapewright.figures import shown_on
from tapewright.measures import GROUPS, catalogue
from tapewright.pages.block import Block, stacked
from tapewright.pages.figure import Laid, numbered_figure

WIDTH = 84.0
"""Of one figure with its numbers, in mm."""

_EDGE = 3.0
_APART = 6.0


def figure(group: str) -> bytes:
    """The figures of one group side by side, as SVG."""
    names = [m.name for m in catalogue().values() if m.group == group]
    blocks = [
        numbered_figure(view, [Laid(lie, str(catalogue()[lie.measure].turn)) for lie in lies], WIDTH)
        for view, lies in shown_on(names).items()
    ]
    width = len(blocks) * WIDTH + (len(blocks) - 1) * _APART
    marks = [mark for i, block in enumerate(blocks) for mark in block.at(i * (WIDTH + _APART), 0.0)]
    whole = stacked([Block(width, max(block.height for block in blocks), tuple(marks))], 0.0)
    return svg(
        Drawing(width + 2 * _EDGE, whole.height + 2 * _EDGE, whole.at(_EDGE, _EDGE), f"To measure: {group}")
    )


def path_of(group: str) -> str:
    """Where the figure of a group lies."""
    return f"docs/measuring/{group.replace(' ', '-')}.svg"


FIGURES: Mapping[str, Callable[[], bytes]] = {path_of(group): partial(figure, group) for group in GROUPS}

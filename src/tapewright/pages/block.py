"""Blocks: small drawings that a page is put together from, and lines of words as blocks."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from tapewright.drawing import INK, FaceName, Ink, Mark, Setting, Transform, face, place, set_lines, words_at
from tapewright.pages.wording import as_printed


@dataclass(frozen=True, slots=True)
class Block:
    """Marks that fill `width` by `height` mm from (0, 0), y down.

    `space` is bare paper wanted above it where it follows another block.
    """

    width: float
    height: float
    marks: tuple[Mark, ...]
    space: float = 0.0

    def at(self, x: float, y: float) -> tuple[Mark, ...]:
        """Its marks with its upper left corner at (x, y)."""
        how = Transform.moving(x, y)
        return tuple(place(mark, how) for mark in self.marks)


NOTHING = Block(0.0, 0.0, ())


def lines_of(
    words: str,
    name: FaceName,
    size: float,
    width: float,
    *,
    ink: Ink = INK,
    leading: float = 1.35,
    side: str = "left",
) -> Block:
    """Words broken into lines no wider than `width`, `leading` ems apart; `side` left, middle or right.

    Typed apostrophes, primes and spans get their printed form.
    """
    if not words.strip():
        return NOTHING
    return settings_block(
        set_lines(as_printed(words), name, size, width), name, size, width, ink, leading, side
    )


def settings_block(
    lines: Sequence[Setting],
    name: FaceName,
    size: float,
    width: float,
    ink: Ink = INK,
    leading: float = 1.35,
    side: str = "left",
) -> Block:
    """Lines already set, one under the other."""
    x = {"left": 0.0, "middle": width / 2, "right": width}[side]
    top = face(name).cap_height * size
    marks = tuple(
        words_at(line, x, top + i * leading * size, side=side, ink=ink) for i, line in enumerate(lines)
    )
    used = max((line.width for line in lines), default=0.0)
    height = top + (len(lines) - 1) * leading * size + face(name).descent * size
    return Block(max(used, width) if side != "left" else used, height, marks)


def stacked(blocks: Iterable[Block], gap: float) -> Block:
    """Blocks one under the other, `gap` mm apart; empty ones take no room."""
    marks: list[Mark] = []
    y = 0.0
    width = 0.0
    for block in blocks:
        if not block.marks:
            continue
        if marks:
            y += max(gap, block.space)
        marks.extend(block.at(0.0, y))
        y += block.height
        width = max(width, block.width)
    return Block(width, y, tuple(marks))


def flowed(blocks: Sequence[Block], height: float, gap: float) -> tuple[Block, tuple[Block, ...]]:
    """As many blocks, from the first, as fit one under the other in `height`; and those left over."""
    for count in range(len(blocks), -1, -1):
        column = stacked(blocks[:count], gap)
        if column.height <= height or count == 0:
            return column, tuple(blocks[count:])
    return NOTHING, ()

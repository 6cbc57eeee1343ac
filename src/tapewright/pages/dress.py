"""What stands round a plate: its title, whose it is, the caption, the key of its lines, the checks.

Set in the house's faces: what is read as a book in the book face, what is measured or told in the hand.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from tapewright.drawing import (
    INK,
    SOFT,
    Line,
    Mark,
    Stroke,
    Words,
    circle,
    set_text,
    straight,
    through,
    words_at,
)
from tapewright.pages.block import NOTHING, Block, flowed, lines_of, stacked
from tapewright.pages.counting import listed
from tapewright.pages.paper import Scale
from tapewright.pages.plate import Field, Plate, PlateCheck
from tapewright.pages.squares import SIDE, measuring_squares
from tapewright.pages.weights import MEANING, line_for
from tapewright.pages.wording import as_printed

_TITLE = {1: 9.0, 2: 7.5, 4: 6.6}
TELLING = 3.4  # the hand's size for what is told, 9 1/2 pt
_GAP = 7.0
_PARAGRAPH = 5.0
# The least width in which a column of words beside the squares is still read with ease.
_COLUMN = 52.0


def heading(
    title: str, wearer_line: str, width: float, size: float, told: str = "", warning: str = ""
) -> Block:
    """Title and wearer, with a plain rule under them: ticks would be taken for a measure.

    `told` stands at the right of either where there is room, else in lines of its own; `warning` in
    heavy type, for nobody to overlook.
    """
    name = lines_of(title, "book", size, width, leading=1.2)
    whose = lines_of(wearer_line, "hand", 4.2, width, ink=SOFT)
    beside = lines_of(told, "hand", TELLING, width, ink=SOFT)
    for block in (whose, name):
        # Two lines of a title, and a line beside them would belong to neither.
        single = block.marks and sum(isinstance(mark, Words) for mark in block.marks) == 1
        if single and beside.marks and block.width + 2 * _GAP + beside.width <= width:
            first = next(mark for mark in block.marks if isinstance(mark, Words))
            said = words_at(
                set_text(as_printed(told), "hand", TELLING), width, first.y, side="right", ink=SOFT
            )
            joined = Block(width, block.height, (*block.marks, said))
            name, whose = (joined, whose) if block is name else (name, joined)
            beside = NOTHING
            break
    lines = stacked([name, whose, beside, lines_of(warning, "hand-bold", 4.6, width)], 2.2)
    rule = Block(width, 0.0, (Stroke(straight(0, 0, width, 0), Line(0.3)),))
    return stacked([lines, rule], 3.0)


def tape_rule(width: float) -> Block:
    """A rule across the page with ticks along it: ornament only, and shown as such by being unnamed."""
    step = width / 48
    marks: list[Mark] = [Stroke(straight(0, 0, width, 0), Line(0.3, INK))]
    for i in range(49):
        tall = 3.0 if i % 12 == 0 else 2.0 if i % 4 == 0 else 1.1
        x = min(max(i * step, 0.08), width - 0.08)
        marks.append(Stroke(straight(x, 0, x, tall), Line(0.15, INK)))
    return Block(width, 3.0, tuple(marks))


def key_of(plate: Plate, scale: Scale) -> Block:
    """A short stretch of each kind of line that the plate has, with what it means."""
    present = {line.role for line in plate.lines}
    rows: list[Block] = []
    for role in MEANING:
        if role in present:
            words = set_text(MEANING[role], "hand", TELLING)
            line = line_for(role, scale)
            marks = (
                Stroke(straight(0, 1.3, 15, 1.3), line),
                words_at(words, 18.5, 2.4, ink=INK),
            )
            rows.append(Block(18.5 + words.width, 3.2, marks))
    return stacked(rows, 1.9)


def _sign(holds: bool) -> tuple[Mark, ...]:
    """A hooked ring where a check holds, a cross where it does not."""
    heavy = Line(0.4, INK, cap="round")
    if holds:
        return (
            Stroke(circle(1.5, 1.3, 1.5), Line(0.2, INK)),
            Stroke(through([(0.85, 1.3), (1.35, 1.85), (2.2, 0.65)]), heavy),
        )
    return (Stroke(straight(0.3, 0.1, 2.7, 2.5), heavy), Stroke(straight(2.7, 0.1, 0.3, 2.5), heavy))


def checks_of(checks: Sequence[PlateCheck], width: float, *, so_far: bool = False) -> list[Block]:
    """A heading and one block for each check; none at all when there are no checks.

    `so_far`: the draft is not finished, and some of its checks could not be asked.
    """
    if not checks:
        return []
    held = sum(check.holds for check in checks)
    yet = " so far" if so_far else ""
    says = f"Checks{yet}: {held} of {len(checks)} hold" if held < len(checks) else f"Checks{yet}: all hold"
    if len(checks) == 1:
        says = f"Check{yet}: it holds" if held else f"Check{yet}: it does not hold"
    blocks = [replace(lines_of(says, "book", 4.2, width), space=_PARAGRAPH)]
    for check in checks:
        said = f"{check.words}: {check.out}" if check.out else check.words
        words = lines_of(said, "hand" if check.holds else "hand-bold", TELLING, width - 5)
        blocks.append(Block(width, words.height, (*_sign(check.holds), *words.at(5, 0))))
    return blocks


def tellings(plate: Plate, field: Field, scale: Scale, width: float) -> list[Block]:
    """The key, the notes and the checks as blocks no wider than `width`."""
    said = list(plate.notes)
    if field.unnamed:
        said.append(f"Not named on the plate, for want of room: {listed(field.unnamed)}.")
    told = [" ".join(piece.told.split("\n")) for piece in field.untold]
    said += [f"{p.name}: {t[:1].lower()}{t[1:]}" for p, t in zip(field.untold, told, strict=True)]
    notes = [lines_of(note, "hand", TELLING, width, ink=SOFT) for note in said]
    notes = [replace(note, space=_PARAGRAPH) for note in notes]
    key = replace(key_of(plate, scale), space=_PARAGRAPH)
    checks = checks_of(plate.checks, width, so_far=bool(plate.warning))
    return [block for block in (key, *notes, *checks) if block.marks]


def _head(plate: Plate, scale: Scale, width: float, further: str = "") -> Block:
    return heading(
        plate.title,
        plate.wearer_line,
        width,
        _TITLE[scale.factor.denominator],
        f"{plate.drafted} {further}".strip(),
        plate.warning,
    )


def _caption(plate: Plate, width: float) -> Block:
    return lines_of(plate.caption, "book-italic", 4.6, width, ink=SOFT, side="middle")


def _figure(plate: Plate, field: Field, width: float) -> Block:
    """The drawn field in the middle of the width, its caption under it."""
    drawn = Block(width, field.block.height, field.block.at((width - field.block.width) / 2, 0.0))
    return stacked([drawn, _caption(plate, width)], 1.0)


def figure_room(
    plate: Plate,
    scale: Scale,
    width: float,
    height: float,
    *,
    beside: float = 0.0,
    under: float = 0.0,
    further: str = "",
) -> tuple[float, float]:
    """What is left for the bare plate on paper of this room, once its title and caption stand, and
    `beside` or `under` it something of that width or height. `further` stands in the title's lines."""
    head = _head(plate, scale, width, further)
    caption = _caption(plate, width - beside)
    taken = head.height + _GAP + (caption.height + 1.0 if caption.marks else 0.0)
    return (
        width - (beside + _GAP if beside else 0.0),
        height - taken - (under + _GAP if under else 0.0),
    )


def with_foot(
    plate: Plate, field: Field, scale: Scale, width: float, height: float | None
) -> tuple[Block, tuple[Block, ...]] | None:
    """Title, plate, and at the foot the squares with the tellings beside them; what found no room.

    None if it does not fit `width` by `height` (None: as high as it likes).
    """
    if field.block.width > width or width < SIDE:
        return None
    squares = measuring_squares(scale)
    above = [_head(plate, scale, width), _figure(plate, field, width)]
    beside = width - SIDE - _GAP
    if beside >= _COLUMN:
        blocks = tellings(plate, field, scale, beside)
        told, rest = flowed(blocks, math.inf if height is None else squares.height, 2.2)
        foot = Block(width, max(squares.height, told.height), (*squares.marks, *told.at(SIDE + _GAP, 0.0)))
        whole = stacked([*above, foot], _GAP)
    else:
        upper = stacked([*above, squares], _GAP)
        room = math.inf if height is None else height - upper.height - _GAP
        told, rest = flowed(tellings(plate, field, scale, width), room, 2.2)
        whole = stacked([upper, told], _GAP)
    whole = Block(width, whole.height, whole.marks)
    further = _wider(plate, field, scale, width, len(rest))
    return (whole, further) if height is None or whole.height <= height else None


def with_column(
    plate: Plate, field: Field, scale: Scale, width: float, height: float
) -> tuple[Block, tuple[Block, ...]] | None:
    """Title and plate at the left, the squares and the tellings in a column at the right.

    None if it does not fit `width` by `height`.
    """
    left = width - SIDE - _GAP
    head = _head(plate, scale, width)
    room = height - head.height - _GAP
    if field.block.width > left or room < SIDE:
        return None
    figure = _figure(plate, field, left)
    if figure.height > room:
        return None
    squares = measuring_squares(scale)
    told, rest = flowed(tellings(plate, field, scale, SIDE), room - squares.height - _GAP, 2.2)
    column = stacked([squares, told], _GAP)
    y = head.height + _GAP
    marks = (*head.marks, *figure.at(0.0, y), *column.at(left + _GAP, y))
    whole = Block(width, y + max(figure.height, column.height), marks)
    return whole, _wider(plate, field, scale, width, len(rest))


def _wider(plate: Plate, field: Field, scale: Scale, width: float, count: int) -> tuple[Block, ...]:
    """The last tellings, set as wide as the page, for a page of their own."""
    blocks = tellings(plate, field, scale, width)
    return tuple(blocks[len(blocks) - count :])


def squares_follow(scale: Scale) -> str:
    """What a page without the squares says in their stead: its scale, and where they are."""
    return f"{scale.words} The measuring squares are on the next page."


def by_itself(plate: Plate, field: Field, scale: Scale, width: float, height: float) -> Block | None:
    """Title and plate alone, where they fit `width` by `height` without the squares; else None."""
    if field.block.width > width:
        return None
    head = _head(plate, scale, width, squares_follow(scale))
    whole = stacked([head, _figure(plate, field, width)], _GAP)
    return Block(width, whole.height, whole.marks) if whole.height <= height else None

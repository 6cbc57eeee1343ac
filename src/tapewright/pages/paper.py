"""The paper that pages are printed on, and the scales they are printed at.

A4 and A3 are ISO 216, Letter is ANSI/ASME Y14.1 (216 x 279, 8 1/2 x 11 in exactly). A roll has a width
and is as long as needed; one page is as large as the drawing asks.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from tapewright.diagnostics import did_you_mean
from tapewright.units import Trouble, read_length

# Most desk printers leave 4 to 6 mm bare at the edge; 8 is safe on all but the oldest.
MARGIN = 8.0


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper: `width` and `height` in mm, None for a side that is as long as it needs to be.

    `margin` is kept bare on every side.
    """

    name: str
    width: float | None
    height: float | None
    margin: float = MARGIN

    def turned(self) -> Paper:
        """The same paper with its long side the other way."""
        return replace(self, width=self.height, height=self.width)

    @property
    def room(self) -> tuple[float | None, float | None]:
        """Width and height inside the margins."""
        return (
            None if self.width is None else self.width - 2 * self.margin,
            None if self.height is None else self.height - 2 * self.margin,
        )

    @property
    def cut_sheet(self) -> bool:
        """Whether both sides are fixed, so that a larger drawing needs several."""
        return self.width is not None and self.height is not None


A4 = Paper("A4", 210.0, 297.0)
A3 = Paper("A3", 297.0, 420.0)
LETTER = Paper("Letter", 215.9, 279.4)
ONE_PAGE = Paper("one page", None, None)
_NAMED = {"a4": A4, "a3": A3, "letter": LETTER, "one-page": ONE_PAGE}
# A roll narrower than this has no room for the measuring squares; wider than this is no roll one buys.
_NARROWEST, _WIDEST = 200, 3000


@dataclass(frozen=True, slots=True)
class OptionTrouble:
    """Why an option's text could not be taken: what was said, what is so, what to try, answers to offer."""

    said: str
    message: str
    help: str
    answers: tuple[str, ...] = ()


_PAPER_HELP = "Try a4, a3, letter, one-page, or a roll with its width, such as roll:90cm."


def read_paper(text: str) -> Paper | OptionTrouble:
    """`a4`, `a3`, `letter`, `one-page` or `roll:90cm` (any unit of length), capitals or not."""
    said = text.strip()
    plain = re.sub(r"[\s_]+", "-", said.casefold())
    if plain in _NAMED:
        return _NAMED[plain]
    kind, colon, width = said.partition(":")
    if kind.strip().casefold() == "roll":
        if not colon or not width.strip():
            return OptionTrouble(
                said, "A roll needs its width.", "Write it after a colon, such as roll:90cm.", ("roll:90cm",)
            )
        return _roll(said, width.strip())
    meant = did_you_mean(plain, _NAMED)
    return OptionTrouble(said, f'There is no paper called "{said}".', _PAPER_HELP, meant)


def _roll(said: str, width: str) -> Paper | OptionTrouble:
    length = read_length(width)
    if isinstance(length, Trouble):
        return OptionTrouble(
            said,
            f'"{width}" is no width for a roll.',
            "Write a number and its unit, such as roll:90cm or roll:36in.",
            ("roll:90cm", "roll:36in"),
        )
    if not _NARROWEST <= length.mm <= _WIDEST:
        return OptionTrouble(
            said,
            f"A roll {width} wide cannot be used.",
            f"Its width may lie between {_NARROWEST // 10} cm and {_WIDEST // 10} cm.",
        )
    return Paper(f"roll, {width} wide", float(length.mm), None)


@dataclass(frozen=True, slots=True)
class Scale:
    """How large a drawing is printed: 1, 1/2 or 1/4 of the pattern."""

    factor: Fraction
    name: str
    meaning: str

    @property
    def words(self) -> str:
        """A sentence that says it: what one centimetre here is on the pattern."""
        return f"{self.name}: {self.meaning}." if self.meaning else f"{self.name}."


FULL = Scale(Fraction(1), "Full size", "")
HALF = Scale(Fraction(1, 2), "Half size", "1 cm here is 2 cm of the pattern")
QUARTER = Scale(Fraction(1, 4), "Quarter size", "1 cm here is 4 cm of the pattern")
_SCALES = {
    "1": FULL,
    "1/1": FULL,
    "full": FULL,
    "1/2": HALF,
    "half": HALF,
    "1/4": QUARTER,
    "quarter": QUARTER,
}


def read_scale(text: str) -> Scale | OptionTrouble:
    """`1`, `1/2` or `1/4`; `full`, `half` and `quarter` mean the same."""
    said = text.strip()
    found = _SCALES.get(said.casefold().removesuffix(" size"))
    if found is not None:
        return found
    return OptionTrouble(
        said,
        f'A drawing is printed at full, half or quarter size; "{said}" is none of them.',
        "Try 1, 1/2 or 1/4.",
        ("1", "1/2", "1/4"),
    )

"""Numbers as a lesson writes them: figures, glyphs and words, all exact.

Only the words are known here; figures and glyphs are read by `tapewright.units.read_number`.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

COUNTS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "eleven": 11, "twelve": 12,
}  # fmt: skip

# The simple fractions of the trade, by the word for one of them.
PARTS_OF_ONE = {
    "half": 2, "third": 3, "quarter": 4, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8,
    "ninth": 9, "tenth": 10, "twelfth": 12, "fifteenth": 15, "sixteenth": 16, "eighteenth": 18,
    "twentieth": 20, "twenty-fourth": 24, "thirty-second": 32, "forty-eighth": 48, "sixty-fourth": 64,
}  # fmt: skip
_PLURALS = {("halves" if word == "half" else word + "s"): n for word, n in PARTS_OF_ONE.items()}

_TRADE = (48, 64, 20, 15, 18)

# House style says fourths as quarters.
FRACTION_WORD = {n: word for word, n in PARTS_OF_ONE.items() if word != "fourth"}
COUNT_WORD = {n: word for word, n in COUNTS.items()}


def fraction_word(word: str) -> Fraction | None:
    """`third` or `thirds` as one third; None when the word is no fraction."""
    n = PARTS_OF_ONE.get(word) or _PLURALS.get(word)
    return Fraction(1, n) if n else None


def show(value: Fraction, *, metric: bool = False) -> str:
    """House style for figures: `3`, `1/2`, `1 1/2`; decimals where they end, in metric units or where the
    fraction is none of the trade's (48ths, 64ths, tenths and twentieths, and what goes into them)."""
    odd = all(base % value.denominator for base in _TRADE)
    if (metric and value.denominator not in {1, 2, 4}) or odd:
        decimal = format(Decimal(value.numerator) / Decimal(value.denominator), "f")
        if Fraction(decimal) == value:
            return decimal
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    tail = f"{rest.numerator}/{rest.denominator}"
    return f"{whole} {tail}" if whole else tail


def say_fraction(value: Fraction) -> str | None:
    """`half`, `a third`, `two thirds`: the words for a bare simple fraction, None if it has none."""
    word = FRACTION_WORD.get(value.denominator)
    if word is None or not 0 < value < 1:
        return None
    if value.numerator == 1:
        return "half" if word == "half" else f"{'an' if word == 'eighth' else 'a'} {word}"
    count = COUNT_WORD.get(value.numerator)
    return f"{count} {word}s" if count else None

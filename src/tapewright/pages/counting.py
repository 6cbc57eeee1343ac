"""Counting as a page says it: numbers in words, lists with an "and", rows as letters."""

from __future__ import annotations

from collections.abc import Sequence

_WORDS = "no one two three four five six seven eight nine ten eleven twelve".split()


def in_words(count: int) -> str:
    """A count up to twelve as a word, beyond it in figures."""
    return _WORDS[count] if 0 <= count < len(_WORDS) else str(count)


def listed(things: Sequence[str]) -> str:
    """`A`, `A and B`, `A, B and C`."""
    if len(things) < 2:
        return "".join(things)
    return f"{', '.join(things[:-1])} and {things[-1]}"


def row_letter(row: int) -> str:
    """Rows from 0 as A to Z, then AA, AB and so on."""
    letters = ""
    row += 1
    while row:
        row, rest = divmod(row - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters

"""Counting as a page says it: numbers and places in words, lists with an "and"."""

from __future__ import annotations

from collections.abc import Sequence

_PLACES = "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth".split()
_WORDS = "no one two three four five six seven eight nine ten eleven twelve".split()


def in_words(count: int) -> str:
    """A count up to twelve as a word, beyond it in figures."""
    return _WORDS[count] if 0 <= count < len(_WORDS) else str(count)


def listed(things: Sequence[str]) -> str:
    """`A`, `A and B`, `A, B and C`."""
    if len(things) < 2:
        return "".join(things)
    return f"{', '.join(things[:-1])} and {things[-1]}"


def ordinal(place: int) -> str:
    """A place in a row, from 1: `first` to `twelfth`, then `13th`, `21st`."""
    if 1 <= place <= len(_PLACES):
        return _PLACES[place - 1]
    ending = "th" if place // 10 % 10 == 1 else {1: "st", 2: "nd", 3: "rd"}.get(place % 10, "th")
    return f"{place}{ending}"

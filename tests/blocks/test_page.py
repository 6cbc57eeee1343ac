"""The page of the blocks' figures says what the lessons come to now."""

from __future__ import annotations

import re

import pytest

from tests.blocks.__main__ import PAGE
from tests.blocks.page import page

NUMBER = re.compile(r"(?<![\w.])[+-]?\d+(?:\.\d+)?")
#: Where a share or a mean falls between two roundings, another machine may take the other.
LAST_DIGIT = 1.01


def _apart(text: str) -> tuple[list[str], list[str]]:
    return NUMBER.split(text), NUMBER.findall(text)


def differences(one: str, other: str) -> list[str]:
    """What differs between two pages by more than one in the last digit shown; a word that differs is all."""
    words, numbers = _apart(one)
    other_words, other_numbers = _apart(other)
    if words != other_words:
        return [f"{a!r} / {b!r}" for a, b in zip(words, other_words, strict=False) if a != b][:3] or [
            "length"
        ]
    found = []
    for a, b in zip(numbers, other_numbers, strict=True):
        digits = len(a.partition(".")[2])
        if abs(float(a) - float(b)) > LAST_DIGIT * 10.0**-digits:
            found.append(f"{a} / {b}")
    return found


@pytest.mark.slow
def test_the_page_is_as_the_blocks_are() -> None:
    """Every figure of the committed page is, to its last digit, what comes out now."""
    assert differences(PAGE.read_text(encoding="utf-8"), page()) == [], (
        "run `python -m tests.blocks` and read it"
    )


def test_a_difference_would_be_seen() -> None:
    """A word, a digit too many and a missing row are seen; one in the last digit is not."""
    row = "| woman | +4.1 / 15.0 | 938 |\n"
    assert differences(row, row) == []
    assert differences(row, row.replace("15.0", "15.1")) == []
    assert differences(row, row.replace("15.0", "15.2")) == ["15.0 / 15.2"]
    assert differences(row, row.replace("+4.1", "-4.1")) == ["+4.1 / -4.1"]
    assert differences(row, row.replace("938", "936")) == ["938 / 936"]
    assert differences(row, row.replace("woman", "man")) != []
    assert differences(row, row + row) != []

"""Typed words and printed ones."""

from __future__ import annotations

import pytest

from tapewright.pages.wording import as_printed


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("A-B is the nape to waist", "A\u2013B is the nape to waist"),
        (
            "V-V'' plus K-K' is N2-M1",
            "V\u2013V\u2033 plus K\u2013K\u2032 is N2\u2013M1".replace("\u2033", "\u2032\u2032"),
        ),
        ("a woman's body block", "a woman\u2019s body block"),
        ("the makers' table", "the makers\u2019 table"),
        ("O'Neil's A-line", "O\u2019Neil\u2019s A-line"),
        ("half-way, 3 1/2 in", "half-way, 3 1/2 in"),
        ("the corner A-B-C", "the corner A\u2013B\u2013C"),
        ("on A4, or US-Letter", "on A4, or US-Letter"),
    ],
)
def test_the_printer_s_marks(typed: str, printed: str) -> None:
    """Spans get an en dash, points their primes, words their apostrophe; nothing else changes."""
    assert as_printed(typed) == printed

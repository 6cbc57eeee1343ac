"""Paper, scales, and the words for what cannot be taken."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tapewright.pages import FULL, HALF, QUARTER, OptionTrouble, Paper, read_paper, read_scale


@pytest.mark.parametrize(
    ("said", "width", "height"),
    [
        ("a4", 210, 297),  # ISO 216
        ("A3", 297, 420),  # ISO 216
        ("letter", 8.5 * 25.4, 11 * 25.4),  # ANSI/ASME Y14.1, size A
        (" Letter ", 215.9, 279.4),
        ("one-page", None, None),
        ("one page", None, None),
        ("roll:90cm", 900, None),
        ("Roll: 36 in", 914.4, None),
        ("roll:1.5 m", 1500, None),
        ("roll:1 yd", 914.4, None),
    ],
)
def test_papers(said: str, width: float | None, height: float | None) -> None:
    """Named papers have the standard's sizes; a roll has the width given, in any unit of length."""
    paper = read_paper(said)
    assert isinstance(paper, Paper)
    assert paper.width == pytest.approx(width) if width else paper.width is None
    assert paper.height == pytest.approx(height) if height else paper.height is None


@pytest.mark.parametrize(
    ("said", "message", "answers"),
    [
        ("a5", 'There is no paper called "a5".', ("a3", "a4")),
        ("leter", 'There is no paper called "leter".', ("letter",)),
        ("wallpaper", 'There is no paper called "wallpaper".', ()),
        ("", 'There is no paper called "".', ()),
        ("roll", "A roll needs its width.", ("roll:90cm",)),
        ("roll:", "A roll needs its width.", ("roll:90cm",)),
        ("roll:90", '"90" is no width for a roll.', ("roll:90cm", "roll:36in")),
        ("roll:wide", '"wide" is no width for a roll.', ("roll:90cm", "roll:36in")),
        ("roll:-90cm", '"-90cm" is no width for a roll.', ("roll:90cm", "roll:36in")),
        ("roll:2cm", "A roll 2cm wide cannot be used.", ()),
        ("roll:90m", "A roll 90m wide cannot be used.", ()),
    ],
)
def test_what_is_no_paper(said: str, message: str, answers: tuple[str, ...]) -> None:
    """What is so, what to try, and answers to offer; never an exception."""
    trouble = read_paper(said)
    assert isinstance(trouble, OptionTrouble)
    assert (trouble.said, trouble.message, trouble.answers) == (said, message, answers)
    assert trouble.help.endswith(".")
    assert all(isinstance(read_paper(answer), Paper) for answer in answers)


def test_a_paper_turned() -> None:
    """Lying paper has its sides exchanged and its margin kept."""
    paper = read_paper("a4")
    assert isinstance(paper, Paper)
    assert (paper.turned().width, paper.turned().height) == (297, 210)
    assert paper.turned().turned() == paper
    assert paper.cut_sheet
    assert paper.room == (194, 281)


def test_scales() -> None:
    """Full, half and quarter, as fractions or words; anything else is answered with the three."""
    for said, scale, factor in (
        ("1", FULL, 1),
        ("1/2", HALF, 2),
        ("quarter", QUARTER, 4),
        ("Full size", FULL, 1),
    ):
        assert read_scale(said) == scale
        assert scale.factor == Fraction(1, factor)
    trouble = read_scale("1/3")
    assert isinstance(trouble, OptionTrouble)
    assert trouble.answers == ("1", "1/2", "1/4")
    assert [read_scale(answer) for answer in trouble.answers] == [FULL, HALF, QUARTER]


def test_scales_say_what_they_mean() -> None:
    """The sentence beside the squares says what a centimetre stands for."""
    assert FULL.words == "Full size."
    assert HALF.words == "Half size: 1 cm here is 2 cm of the pattern."
    assert QUARTER.words == "Quarter size: 1 cm here is 4 cm of the pattern."

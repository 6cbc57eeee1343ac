"""Numbers as makers write them."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.units import read_number, scan_number, show_fraction, to_nearest

F = Fraction
mixed = st.builds(
    lambda whole, top, bottom: whole + Fraction(top % bottom, bottom),
    st.integers(0, 9999),
    st.integers(0, 999),
    st.integers(1, 99),
)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("2", F(2)),
        ("2.5", F(5, 2)),
        (".5", F(1, 2)),
        ("1/2", F(1, 2)),
        ("5/4", F(5, 4)),
        ("1 1/2", F(3, 2)),
        ("1-1/2", F(3, 2)),
        ("1½", F(3, 2)),
        ("1 ½", F(3, 2)),
        ("½", F(1, 2)),
        ("⅔", F(2, 3)),
        ("1⁄12", F(1, 12)),
        (" 27 3/8 ", F(219, 8)),
        ("0.1", F(1, 10)),
    ],
)
def test_every_accepted_form_is_read_exactly(text: str, value: Fraction) -> None:
    """The forms of numbers in the language are read, and none goes through a float."""
    assert read_number(text) == value


@pytest.mark.parametrize(
    "text",
    [
        "",
        "a",
        "1/0",
        "1 3/2",
        "1 2/2",
        "1/2/3",
        "3,5",
        "1 2",
        "1.2.3",
        "-1",
        "1e5",
        "1½½",
        "٣",
        "1234567890123",
        "½1",
        ".",
        " ",
    ],
)
def test_what_is_not_surely_a_number_is_none(text: str) -> None:
    """Nothing is guessed: an improper mixed number, a comma, two strokes, other scripts' figures."""
    assert read_number(text) is None


def test_a_decimal_comma_only_where_allowed() -> None:
    """`69,8` is a number on a sheet that allows it and none elsewhere."""
    assert read_number("69,8", decimal_comma=True) == F(349, 5)
    assert read_number("69.8", decimal_comma=True) == F(349, 5)
    assert read_number("69,8") is None


def test_scanning_stops_after_the_number_and_keeps_a_list_apart() -> None:
    """`3, 9 and 17` holds three numbers: a comma with a space behind it ends the first."""
    found = scan_number("3, 9 and 17")
    assert found is not None
    assert found == (F(3), 1)
    assert scan_number("from 1 1/2 in", 5) == (F(3, 2), 10)
    assert scan_number("2.") == (F(2), 1)
    assert scan_number("A", 0) is None
    assert scan_number("12", 2) is None


@given(mixed)
def test_shown_and_read_again_is_the_same(value: Fraction) -> None:
    """Showing a number and reading it loses nothing."""
    assert read_number(show_fraction(value)) == value


@given(st.text(max_size=40), st.booleans())
def test_any_text_is_read_or_none(text: str, comma: bool) -> None:
    """Reading never raises, whatever is typed."""
    value = read_number(text, decimal_comma=comma)
    assert value is None or value >= 0


def test_fractions_are_shown_as_mixed_numbers() -> None:
    """House style: `1 1/2`, never `3/2`; a true minus sign."""
    assert show_fraction(F(3, 2)) == "1 1/2"
    assert show_fraction(F(3, 4)) == "3/4"
    assert show_fraction(F(0)) == "0"
    assert show_fraction(F(-3, 2)) == "−1 1/2"


@given(st.fractions(-1000, 1000, max_denominator=1000), st.integers(1, 64))
def test_rounding_is_nearest_and_halves_go_away_from_nothing(value: Fraction, parts: int) -> None:
    """The rounded value is a whole number of steps, within half a step, and symmetric about 0."""
    step = F(1, parts)
    near = to_nearest(value, step)
    assert (near / step).denominator == 1
    assert abs(near - value) <= step / 2
    assert to_nearest(-value, step) == -near
    assert to_nearest(F(1, 2), F(1)) == 1

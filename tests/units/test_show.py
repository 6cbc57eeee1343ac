"""Lengths and angles as shown."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.units import (
    CM,
    Length,
    read_length,
    show_angle,
    show_cm,
    show_degrees,
    show_in,
    show_kg,
    show_length,
    show_mm,
)


@pytest.mark.parametrize(
    ("mm", "shown"),
    [
        (96, "9.6 cm (3 3/4 in)"),
        (Fraction(254, 10), "2.5 cm (1 in)"),
        (911, "91.1 cm (35 7/8 in)"),
        (5, "5 mm (3/16 in)"),
        (4.46, "4.5 mm (3/16 in)"),
        (9.96, "1.0 cm (3/8 in)"),
        (0.5, "0.5 mm"),
        (0.04, "0 cm"),
        (0, "0 cm"),
        (-96, "−9.6 cm (−3 3/4 in)"),
    ],
)
def test_a_length_is_shown_both_ways(mm: float, shown: str) -> None:
    """Centimetres to a millimetre with inches beside them; small ones never shown as 0 in."""
    assert show_length(mm) == shown


def test_differences_carry_their_sign() -> None:
    """A signed length has a plus or a true minus, and nothing has none."""
    assert show_cm(95, signed=True) == "+9.5 cm"
    assert show_cm(-95, signed=True) == "−9.5 cm"
    assert show_cm(-0.01, signed=True) == "0 cm"
    assert show_mm(-0.004, 2) == "0 mm"
    assert show_mm(0.006, 2, signed=True) == "+0.01 mm"
    assert show_in(-95.25) == "−3 3/4 in"
    assert show_in(0) == "0 in"


def test_inches_to_eighths_or_sixteenths() -> None:
    """The step is the caller's: one fifth of 18 prints as 3 5/8 (Vincent c.1903, aliquot parts)."""
    assert show_in(Fraction(18, 5) * Fraction(127, 5)) == "3 5/8 in"
    assert show_in(Fraction(18, 5) * Fraction(127, 5), 16) == "3 5/8 in"
    assert show_in(Fraction(127, 5) * Fraction(3, 16), 16) == "3/16 in"


def test_angles_and_weights() -> None:
    """Degrees to the nearest tenth, without a closing zero; one is singular."""
    assert show_angle(math.radians(26)) == "26 degrees"
    assert show_angle(math.radians(22.5)) == "22.5 degrees"
    assert show_angle(math.radians(-1), signed=True) == "−1 degree"
    assert show_degrees(Fraction(1)) == "1 degree"
    assert show_kg(61.84) == "61.8 kg"


@given(st.integers(0, 30000))
def test_what_is_shown_can_be_read_again(tenths: int) -> None:
    """A length shown in cm reads back to within half of the last figure shown."""
    mm = Fraction(tenths, 10)
    read = read_length(show_cm(mm), CM)
    assert isinstance(read, Length)
    assert abs(read.mm - mm) <= (Fraction(1, 2) if mm >= 10 else 0)


@given(st.floats(-1e6, 1e6))
def test_any_finite_length_is_shown(mm: float) -> None:
    """Showing never fails, and never shows a hyphen for a minus or `0 in` in brackets."""
    shown = show_length(mm)
    assert "-" not in shown
    assert "(0 in)" not in shown

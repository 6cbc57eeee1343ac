"""Amounts with units: lengths, angles, weights."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.units import (
    CM,
    DEGREES,
    UNITS,
    Angle,
    Length,
    Trouble,
    TroubleKind,
    UnitKind,
    Weight,
    read_angle,
    read_length,
    read_weight,
    unit_called,
    unit_words,
)

F = Fraction
K = TroubleKind


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1 in", F(254, 10)),  # the international inch of 1959 (agreement of six national laboratories)
        ("1 ft", F(3048, 10)),
        ("1 yd", F(9144, 10)),
        ("27 1/2 in", F(6985, 10)),
        ("27½ inches", F(6985, 10)),
        ('27 1/2"', F(6985, 10)),
        ("5 ft 4 in", F(16256, 10)),
        ("5'4\"", F(16256, 10)),
        ("5 ft 4 1/2 in", F(16383, 10)),
        ("1 yd 1 ft 1 in", F(12446, 10)),
        ("1 yd 3 nails", 19 * F(9144, 160)),
        ("1 m 62 cm", F(1620)),
        ("69.8 cm", F(698)),
        ("5 mm", F(5)),
        ("3 In.", F(762, 10)),
        ("40", F(400)),
        ("0", F(0)),
    ],
)
def test_lengths_are_exact(text: str, mm: Fraction) -> None:
    """A length is an exact fraction of a millimetre; a bare number takes the default unit."""
    read = read_length(text, CM)
    assert isinstance(read, Length)
    assert read.mm == mm


@pytest.mark.parametrize(
    ("text", "kind", "shows"),
    [
        ("", K.NO_NUMBER, ""),
        ("about 40 cm", K.NO_NUMBER, "about 40 cm"),
        ("69,8 cm", K.NO_NUMBER, "69,8 cm"),
        ("40", K.NO_UNIT, ""),
        ("5 ft 4", K.NO_UNIT, ""),
        ("40 cmm", K.UNKNOWN_UNIT, "cmm"),
        ("5 parts", K.UNKNOWN_UNIT, "parts"),
        ("26 degrees", K.WRONG_UNIT, "degrees"),
        ("5 in cm", K.TWO_UNITS, "cm"),
        ("5 cm 3 in", K.TWO_UNITS, "3 in"),
        ("4 in 5 ft", K.TWO_UNITS, "5 ft"),
        ("5 ft 5 ft", K.TWO_UNITS, "5 ft"),
        ("5 ft 14 in", K.TOO_MANY, "5 ft 14 in"),
        ("5.5 ft 4 in", K.TOO_MANY, "5.5 ft 4 in"),
        ("-3 cm", K.NEGATIVE, "-3 cm"),
        ("−3 cm", K.NEGATIVE, "−3 cm"),
        ("40 cm or so", K.TRAILING, "or so"),
        ("40 cm, 41 cm", K.TRAILING, ", 41 cm"),
        ("40 / cm", K.TRAILING, "/ cm"),
    ],
)
def test_what_is_no_length_says_why_and_where(text: str, kind: TroubleKind, shows: str) -> None:
    """Each kind of trouble is told apart, and its stretch shows just the words that make it."""
    read = read_length(text)
    assert isinstance(read, Trouble)
    assert (read.kind, text[read.start : read.end]) == (kind, shows)
    assert read.word == shows


def test_signs_only_where_allowed() -> None:
    """A difference between two heights may be less than nothing; a girth may not."""
    read = read_length("-1.5 cm", signed=True)
    assert isinstance(read, Length)
    assert read.mm == -15
    assert isinstance(read_length("-1.5 cm"), Trouble)


def test_a_decimal_comma_only_where_allowed() -> None:
    """`69,8 cm` is read where the caller allows the comma."""
    read = read_length("69,8 cm", decimal_comma=True)
    assert isinstance(read, Length)
    assert read.mm == 698


def test_angles_and_weights() -> None:
    """Degrees are exact and convert to the nearest radian; stones and pounds add up exactly."""
    angle = read_angle("22 1/2 degrees")
    assert angle == Angle(F(45, 2), DEGREES)
    assert isinstance(angle, Angle)
    assert angle.radians == math.pi / 8
    assert read_angle("26°") == Angle(F(26), DEGREES)
    assert read_angle("26", DEGREES) == Angle(F(26), DEGREES)
    bare = read_angle("26")
    assert isinstance(bare, Trouble)
    assert bare.kind is K.NO_UNIT
    wrong = read_angle("26 cm")
    assert isinstance(wrong, Trouble)
    assert wrong.kind is K.WRONG_UNIT
    weight = read_weight("9 st 4 lb")
    assert isinstance(weight, Weight)
    assert weight.kg == 130 * F(45359237, 100_000_000)


@given(st.text(max_size=60))
def test_any_text_is_an_amount_or_a_trouble_within_it(text: str) -> None:
    """Reading never raises, and every stretch lies in the text."""
    for read in (read_length(text), read_length(text, CM, decimal_comma=True, signed=True), read_angle(text)):
        if isinstance(read, Trouble):
            assert 0 <= read.start <= read.end <= len(text)
            assert text[read.start : read.end] == read.word


@given(st.integers(0, 3000), st.sampled_from([u for u in UNITS if u.kind is UnitKind.LENGTH]))
def test_every_unit_is_read_by_each_of_its_words(eighths: int, unit: object) -> None:
    """Whatever a unit is called, the same number of it is the same length."""
    chosen = next(u for u in UNITS if u is unit)
    for word in (chosen.name, *chosen.synonyms):
        read = read_length(f"{F(eighths, 8)} {word}")
        assert isinstance(read, Length)
        assert read.mm == F(eighths, 8) * chosen.mm


def test_no_word_means_two_units() -> None:
    """Names and synonyms of all units are different words, and are found with capitals and a full stop."""
    words = [w for u in UNITS for w in (u.name, *u.synonyms)]
    assert len(words) == len(set(words))
    assert set(unit_words()) == set(words)
    for unit in UNITS:
        assert unit_called(unit.name.upper()) is unit
        assert unit_called(unit.name + ".") is unit
    assert unit_called("parts") is None
    with pytest.raises(ValueError, match="no unit of length"):
        _ = DEGREES.mm

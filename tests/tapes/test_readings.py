"""Readings of a tape: exact values, nearest simple readings, and how they are said."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.tapes import (
    Reading,
    Tape,
    in_parts,
    length,
    nearest_reading,
    read_reading,
    say,
    say_parts,
    value,
)

F = Fraction
SIMPLE = sorted({F(k, d) for d in (1, 2, 3, 4, 6, 8, 12) for k in range(1, 2 * d + 1)})
parts_of_tapes = st.sampled_from([12, 18, 20, 24, 48, 96])
lengths = st.fractions(0, 2000, max_denominator=16)
wholes = st.fractions(100, 1500, max_denominator=4)


@st.composite
def spelled(draw: st.DrawFn) -> Reading:
    """A reading as a maker may write it: parts alone, or a simple fraction with some parts."""
    parts = F(draw(st.integers(0, 48)), 8)
    if draw(st.booleans()):
        return Reading(F(0), parts, draw(st.booleans()))
    sign = draw(st.sampled_from([1, -1]))
    return Reading(draw(st.sampled_from(SIMPLE)), sign * parts, draw(st.booleans()))


@pytest.mark.parametrize(
    ("reading", "said"),
    [
        (Reading(F(1, 6), F(3, 2)), "1/6 of the neck tape and 1 1/2 parts"),
        (Reading(F(1, 4), F(-1)), "1/4 of the neck tape less 1 part"),
        (Reading(F(1, 6), F(3, 4)), "1/6 of the neck tape and 3/4 part"),
        (Reading(F(0), F(5)), "5 parts of the neck tape"),
        (Reading(F(1)), "the neck tape"),
        (Reading(F(1), F(-2)), "the neck tape less 2 parts"),
        (Reading(F(13, 12)), "1 1/12 of the neck tape"),
        (Reading(F(0)), "0 parts of the neck tape"),
        (Reading(F(1, 6), F(11, 8), about=True), "about 1/6 of the neck tape and 1 3/8 parts"),
        (Reading(F(0), F(-3, 2)), "−1 1/2 parts of the neck tape"),
    ],
)
def test_readings_are_said_in_house_style(reading: Reading, said: str) -> None:
    """The forms of the language: figures in readings, `and` or `less` and parts of the same tape after it."""
    assert say(reading, "neck tape") == said
    assert read_reading(said) == (reading, "neck tape")


@given(spelled(), st.sampled_from(["bust tape", "front and back tape", "high bust tape", "tape 2"]))
def test_what_is_said_is_read_back(reading: Reading, name: str) -> None:
    """Saying a reading and reading it loses nothing, whatever the tape is called."""
    assert read_reading(say(reading, name)) == (reading, name)


@given(st.text(max_size=60))
def test_any_text_is_a_reading_or_none(text: str) -> None:
    """Reading never raises."""
    assert read_reading(text) is None or isinstance(read_reading(text), tuple)


@pytest.mark.parametrize(
    "text", ["", "5 cm", "1/6 of the tape plus 2 cm", "1/0 of the tape", "0 of the tape", "parts of the tape"]
)
def test_what_is_no_reading_is_none(text: str) -> None:
    """Other amounts are the language's, not a reading's."""
    assert read_reading(text) is None


def test_values_are_exact() -> None:
    """1/6 and 1 1/2 parts of 48 are 19/96 of the whole, and no float is in it."""
    reading = Reading(F(1, 6), F(3, 2))
    assert value(reading, 48) == F(19, 96)
    assert length(reading, F(351), 48) == F(351) * F(19, 96)
    assert value(Reading(F(0), F(1)), 18) == F(1, 18)
    with pytest.raises(ValueError, match="at least one part"):
        Tape("bust tape", "the bust", 0)


@pytest.mark.parametrize(
    ("parts_of_48", "said"),
    [
        (F(0), "0 parts of the tape"),
        (F(4), "1/12 of the tape"),
        (F(5), "5 parts of the tape"),
        (F(8), "1/6 of the tape"),
        (F(19, 2), "1/6 of the tape and 1 1/2 parts"),
        (F(11), "1/4 of the tape less 1 part"),
        (F(14), "1/4 of the tape and 2 parts"),
        (F(18), "3/8 of the tape"),
        (F(27), "1/2 of the tape and 3 parts"),
        (F(47), "the tape less 1 part"),
        (F(48), "the tape"),
        (F(52), "1 1/12 of the tape"),
        (F(75, 4), "3/8 of the tape and 3/4 part"),
    ],
)
def test_the_simplest_spelling_is_chosen(parts_of_48: Fraction, said: str) -> None:
    """Of the ways to say one place, the one that asks least; never 2/4 or 3/6. The order is ours."""
    assert say(nearest_reading(parts_of_48 * 10, 480), "tape") == said


@given(st.sampled_from(SIMPLE), wholes, parts_of_tapes)
def test_a_simple_fraction_is_always_found(fraction: Fraction, whole: Fraction, parts: int) -> None:
    """A length that is a simple fraction of the whole reads as just that, whatever the parts."""
    assert nearest_reading(fraction * whole, whole, parts, 0) == Reading(fraction)


@given(st.integers(0, 480), wholes, parts_of_tapes)
def test_whole_half_and_quarter_parts_are_exact(quarters: int, whole: Fraction, parts: int) -> None:
    """Every quarter part of the tape has an exact reading, in quarter parts at the finest, on 48."""
    share = F(quarters, 4 * 48)
    reading = nearest_reading(share * whole, whole, 48, 0)
    assert value(reading, 48) == share
    assert not reading.about
    assert reading.parts.denominator in {1, 2, 4}
    other = nearest_reading(share * whole, whole, parts, 0)
    assert other.about or value(other, parts) == share


@given(lengths, wholes, parts_of_tapes, st.fractions(0, 5, max_denominator=8))
def test_a_reading_stands_within_the_tolerance_or_says_about(
    long: Fraction, whole: Fraction, parts: int, tolerance: Fraction
) -> None:
    """What is not marked is within the tolerance; what is marked is the nearest eighth of a part."""
    reading = nearest_reading(long, whole, parts, tolerance)
    off = abs(length(reading, whole, parts) - long)
    if reading.about:
        assert tolerance < off <= whole / parts / 16
    else:
        assert off <= tolerance or off == 0
    assert abs(reading.parts) <= F(parts, 6)


@given(lengths, wholes, parts_of_tapes, st.fractions(0, 5, max_denominator=8))
def test_reading_a_reading_again_is_the_same(
    long: Fraction, whole: Fraction, parts: int, tolerance: Fraction
) -> None:
    """Snapping settles: the length of a reading reads as that place again, in no finer parts."""
    first = nearest_reading(long, whole, parts, tolerance)
    again = nearest_reading(length(first, whole, parts), whole, parts, 0)
    assert value(again, parts) == value(first, parts)
    assert again.parts.denominator <= first.parts.denominator


@given(lengths, wholes, st.sampled_from([F(1, 3), F(2), F(7, 5)]))
def test_readings_do_not_depend_on_the_size_of_the_body(
    long: Fraction, whole: Fraction, times: Fraction
) -> None:
    """A length and a whole grown alike have the same reading, if the tolerance grows with them."""
    small = nearest_reading(long, whole, 48, F(1))
    assert nearest_reading(long * times, whole * times, 48, times) == small


def test_a_looser_tolerance_for_simple_fractions() -> None:
    """The screen catches a simple fraction from farther off than a part."""
    assert nearest_reading(F(83), 480, 48, F(5), F(1, 2)) == Reading(F(1, 6))
    assert nearest_reading(F(83), 480, 48, F(1, 2), F(1, 2)) == Reading(F(1, 6), F(1, 4))


def test_floats_of_geometry_are_read_too() -> None:
    """A length that came out of geometry, a hair off, reads as what it is."""
    assert nearest_reading(0.1 + 0.2, 0.9, 48, F(1, 100)) == Reading(F(1, 3))
    with pytest.raises(ValueError, match="not negative"):
        nearest_reading(-1.0, 480)
    with pytest.raises(ValueError, match="above nothing"):
        nearest_reading(1, 0)


def test_counting_in_parts_alone() -> None:
    """A range counted in parts is read in parts, however many, and may be less than none."""
    assert in_parts(270, 480) == Reading(F(0), F(27))
    assert in_parts(-10, 480) == Reading(F(0), F(-1))
    assert in_parts(272, 480) == Reading(F(0), F(27), about=True)
    assert in_parts(272, 480, 48, F(1, 4)) == Reading(F(0), F(109, 4), about=True)
    assert say_parts(F(1, 2)) == "1/2 part"
    with pytest.raises(ValueError, match="above nothing"):
        in_parts(1, 0)

"""Historical units, against the figures that printed works give for them."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.units import (
    CM,
    OLD_UNITS,
    Length,
    Trouble,
    TroubleKind,
    old_unit_words,
    old_units_called,
    read_length,
    unit_called,
    unit_words,
)
from tests.handbook import of_topics, row

F = Fraction


def mm(text: str) -> Fraction:
    """A length in old units, exact."""
    read = read_length(text, old=True)
    assert isinstance(read, Length), (text, read)
    return read.mm


def of(text: str, unit: str) -> Fraction:
    """How many of a unit a length is."""
    return mm(text) / mm(f"1 {unit}")


WORKED: dict[str, Callable[[], Fraction]] = {
    "HB-040": lambda: of("3 pieds 7 pouces 8 lignes", "ligne"),
    "HB-120": lambda: of("1 nail", "in"),
    "HB-121": lambda: of("1 English ell", "in"),
    "HB-122": lambda: of("1 Flemish ell", "in"),
    "HB-123": lambda: of("1 French ell", "in"),
    "HB-124": lambda: of("27 yards", "nail"),
    "HB-125": lambda: 27 * of("27 English ells", "yd"),
    "HB-126": lambda: 12 * 25 * of("15 English ells", "yd"),
    "HB-127": lambda: mm("1 ligne"),
    "HB-128": lambda: mm("1 pied"),
    "HB-129": lambda: mm("1 Paris ell of 1748"),
    "HB-130": lambda: mm("1 Paris ell"),
    "HB-131": lambda: mm("1 ell of Abbeville"),
    "HB-132": lambda: mm("1 ell of Troyes"),
    "HB-133": lambda: of("1 vara", "m"),
    "HB-134": lambda: mm("1 pulgada"),
    "HB-135": lambda: mm("1 palmo"),
    "HB-137": lambda: of("1 vara of Portugal", "in"),
    "HB-138": lambda: of("1 covado", "in"),
    "HB-139": lambda: of("1 vara of Valencia", "vara"),
    "HB-204": lambda: mm("1 aune usuelle"),
}
"""Each row of `check-values.csv` about a unit by its number, in the row's own unit. HB-136 is a stick."""


@pytest.mark.parametrize("worked", sorted(WORKED))
def test_a_unit_is_as_long_as_the_book_says(worked: str) -> None:
    """Units of Potts, Nicholson, Rozier, Rocha Burguen, the law of year VIII, and one from memory."""
    given_ = row(worked)
    assert given_.holds(WORKED[worked]()), f"{given_.source}: {given_.rule}"


def test_every_row_of_a_unit_is_worked() -> None:
    """No row is passed over; the one left, a stick of 83.5 cm, is a length and no unit."""
    assert {r.id for r in of_topics("unit")} - set(WORKED) == {"HB-136"}


def test_the_two_ells_of_paris_are_two_units() -> None:
    """118.2 cm belongs to 3-7-8 and 118.8 to 3-7-10 5/6: writers who pair 3-7-8 with 118.84 mix them up."""
    assert round(float(mm("1 Paris ell")), 1) == 1182.1
    assert round(float(mm("1 Paris ell of 1748")), 1) == 1188.4


@pytest.mark.parametrize("word", ["ell", "Ells", "aune", "aunes"])
def test_a_word_that_named_several_lengths_is_asked_about(word: str) -> None:
    """An ell is 686, 1143, 1182, 1188 or 1372 mm: none is chosen."""
    assert len(old_units_called(word)) > 1
    read = read_length(f"1 1/2 {word}", CM, old=True)
    assert isinstance(read, Trouble)
    assert (read.kind, read.word) == (TroubleKind.WHICH_UNIT, word)


def test_old_units_are_read_only_where_they_are_asked_for() -> None:
    """A lesson's `3 times the vara` is its own word; without `old` a vara is no unit."""
    assert isinstance(read_length("1 vara"), Trouble)
    assert not set(old_unit_words()) & set(unit_words())
    assert unit_called("vara") is None


def test_old_and_new_stand_together_only_in_one_family() -> None:
    """A yard has quarters and nails, a pied pouces and lignes; a vara has no inches."""
    assert mm("1 yd 2 quarters 1 nail") == 36 * F(127, 5) + 18 * F(127, 5) + F(9, 4) * F(127, 5)
    assert mm("1 English ell 1 quarter") == mm("1 French ell")
    mixed = read_length("1 vara 2 in", old=True)
    assert isinstance(mixed, Trouble)
    assert mixed.kind is TroubleKind.TWO_UNITS


def test_every_old_unit_says_where_it_comes_from() -> None:
    """Each has a source, a size, and at least one word that means nothing else."""
    for unit in OLD_UNITS:
        assert len(unit.source) > 10
        assert unit.mm > 0
        assert old_units_called(unit.name) == (unit,)


@given(st.integers(1, 900), st.sampled_from(OLD_UNITS))
def test_every_word_that_means_one_unit_is_read_as_it(eighths: int, unit: object) -> None:
    """Whatever an old unit is called, the same number of it is the same length."""
    chosen = next(u for u in OLD_UNITS if u is unit)
    for word in (chosen.name, *chosen.synonyms):
        if len(old_units_called(word)) == 1:
            assert mm(f"{F(eighths, 8)} {word}") == F(eighths, 8) * chosen.mm


@given(st.text(max_size=40))
def test_any_text_with_old_units_is_a_length_or_a_trouble_within_it(text: str) -> None:
    """Reading never raises, and every stretch lies in the text."""
    for said in (text, f"1 {text}", f"2 Paris {text}"):
        read = read_length(said, CM, old=True)
        if isinstance(read, Trouble):
            assert said[read.start : read.end] == read.word

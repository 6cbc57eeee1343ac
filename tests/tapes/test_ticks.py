"""The ticks of a tape."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.tapes import NAMING_ORDER, SIMPLE_RANKS, Rank, ticks


def test_a_tape_of_48_has_every_division_at_its_own_rank() -> None:
    """47 ticks between the ends: 1 half, 2 thirds, 2 quarters, 2 sixths, 4 eighths, 4 twelfths, 32 parts.

    Counted by Euler's totient: a division into n has phi(n) places that no smaller one has.
    """
    found = ticks(48)
    counts = {rank: sum(t.rank is rank for t in found) for rank in Rank}
    assert counts == {
        Rank.HALF: 1,
        Rank.THIRD: 2,
        Rank.QUARTER: 2,
        Rank.SIXTH: 2,
        Rank.EIGHTH: 4,
        Rank.TWELFTH: 4,
        Rank.PART: 32,
        Rank.HALF_PART: 0,
        Rank.QUARTER_PART: 0,
        Rank.EIGHTH_PART: 0,
    }
    assert [t.position * 48 for t in found] == list(range(1, 48))


def test_the_castilian_stick() -> None:
    """Halves, thirds, quarters, sixths, eighths and twelfths, as Alcega's stick of 1580 is divided (read in
    modern reports of the book): 15 places between the ends, 24 their common denominator.
    """
    found = ticks(1, Rank.TWELFTH)
    assert len(found) == 15
    assert {24 % t.position.denominator for t in found} == {0}
    assert all((t.position * 24).denominator == 1 for t in found)


@given(st.integers(1, 120), st.sampled_from(list(Rank)))
def test_ticks_are_in_order_and_symmetric(parts: int, finest: Rank) -> None:
    """No place twice, none at or beyond the ends, and a tape reads the same from either end."""
    found = ticks(parts, finest)
    places = [t.position for t in found]
    assert places == sorted(set(places))
    assert all(0 < p < 1 for p in places)
    by_place = {t.position: t.rank for t in found}
    assert all(by_place[1 - t.position] is t.rank for t in found)
    assert all(t.rank <= finest for t in found)


@given(st.integers(1, 60))
def test_every_simple_fraction_and_every_part_has_its_tick(parts: int) -> None:
    """Whatever the parts, the named fractions are all there, each at the simplest rank it belongs to."""
    by_place = {t.position: t.rank for t in ticks(parts)}
    for rank in SIMPLE_RANKS:
        for k in range(1, int(rank)):
            place = Fraction(k, int(rank))
            assert by_place[place] == place.denominator
    assert all(Fraction(k, parts) in by_place for k in range(1, parts))
    finer = ticks(parts, Rank.EIGHTH_PART)
    assert {Fraction(k, 8 * parts) for k in range(1, 8 * parts)} <= {t.position for t in finer}


def test_names_are_set_in_a_known_order() -> None:
    """Every simple rank is named once; a tape without parts is refused."""
    assert sorted(NAMING_ORDER) == sorted(SIMPLE_RANKS)
    with pytest.raises(ValueError, match="at least one part"):
        ticks(0)

"""Notations: the shipped ones against what is printed of them, a maker's own, and round trips."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapewright.diagnostics import Source
from tapewright.tapes import (
    PLAIN,
    Notation,
    Rank,
    Unread,
    Way,
    count,
    graduation,
    notations,
    plain,
    read_back,
    read_notation,
    write,
)
from tests.handbook import Row, of_topics

F = Fraction
SHIPPED = tuple(notations().values())
LETTERS = notations()["letters-of-1580"]
ELL = notations()["ell-of-1771"]
HALF_BREAST = notations()["half-breast"]
parts_of_tapes = st.sampled_from([12, 18, 20, 24, 48, 524])
shares = st.fractions(0, 2, max_denominator=480)

# Garsault's own table (1771), as the rows have it: what part of the ell, and how he prints it.
GARSAULT = tuple(row for row in of_topics("scale.ell") if "printed as" in row.rule)
ALCEGA = tuple(row for row in of_topics("scale.notation") if row.given.startswith("symbol"))


def test_the_shipped_notations_say_where_they_come_from() -> None:
    """Plain fractions come first and are the default; every other names a printed work and its year."""
    assert next(iter(notations())) == PLAIN == plain().name
    assert set(notations()) == {"plain", "ell-of-1771", "half-breast", "letters-of-1580"}
    for notation in SHIPPED:
        assert re.search(r"1[5-9]\d\d", notation.source), notation.name
        assert notation.prose
    assert "modern" in LETTERS.source
    assert "from memory" in HALF_BREAST.source


@pytest.mark.parametrize("row", ALCEGA, ids=lambda row: str(row.id))
def test_the_letters_of_1580(row: Row) -> None:
    """Each letter, and each pair printed by the modern readers, means the share of the vara they give it, and
    that share is written with it again. HB-020 to HB-030, read at second hand."""
    found = re.match(r'symbol "(\w+)"(?:, vara (\d+) in)?', row.given)
    assert found is not None
    share = read_back(found[1], LETTERS)
    assert isinstance(share, Fraction)
    assert row.holds(share * int(found[2]) if found[2] else share)
    assert write(share, LETTERS).text == found[1]


@pytest.mark.parametrize("row", GARSAULT, ids=lambda row: str(row.id))
def test_the_ell_is_counted_as_garsault_prints_it(row: Row) -> None:
    """Pieds, pouces and lignes come out figure for figure as in the table of 1771, and are read back."""
    part = re.match(r"(\d+/\d+) of the ell", row.given)
    shown = re.search(r"pouces-lignes (.+)$", row.rule)
    assert part is not None
    assert shown is not None
    share = F(part[1])
    assert count(share, ELL).text == shown[1]
    assert count(share, ELL).exact
    assert read_back(shown[1], ELL, 524) == share
    assert row.holds(share * 524)


def test_the_half_breast_scale_counts_units() -> None:
    """On eighteen units a sixth is 3, a twelfth 1 1/2, a quarter 4 1/2, an eighth 2 1/4, two thirds 12:
    Rosenfeld's figures for a scale of 18 in, HB-007 to HB-011, where a unit is an inch."""
    for share, text in (
        (F(1, 6), "3"),
        (F(1, 12), "1 1/2"),
        (F(1, 4), "4 1/2"),
        (F(1, 8), "2 1/4"),
        (F(2, 3), "12"),
    ):
        assert write(share, HALF_BREAST, 18).text == text
        assert read_back(text, HALF_BREAST, 18) == share


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(SHIPPED), shares, parts_of_tapes)
def test_what_is_written_is_read_back(notation: Notation, share: Fraction, parts: int) -> None:
    """Whatever is written means what it says it means; what is called exact is the share itself."""
    said = write(share, notation, parts)
    assert read_back(said.text, notation, parts) == said.share
    assert read_back(str(said), notation, parts) == said.share
    assert said.exact == (said.share == share)


@settings(max_examples=200, deadline=None)
@given(st.integers(0, 48 * 2))
def test_every_finger_can_be_written_in_letters(fingers: int) -> None:
    """Every one of the 48 parts, up to twice the whole, has an exact spelling in the letters."""
    said = write(F(fingers, 48), LETTERS)
    assert said.exact
    assert read_back(said.text, LETTERS) == F(fingers, 48)


@given(st.sampled_from(SHIPPED), st.text(max_size=30), parts_of_tapes)
def test_any_text_is_read_or_told(notation: Notation, text: str, parts: int) -> None:
    """Reading never raises; it gives a share that is not negative, or says why not."""
    found = read_back(text, notation, parts)
    assert isinstance(found, Unread) or found >= 0
    if isinstance(found, Unread):
        assert found.message


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("sob", "two ways"),  # is the sixth before the whole, or before the eighth?
        ("dsm", "two ways"),
        ("x", "not made of the marks"),
        ("", "no reading here"),
    ],
)
def test_letters_that_mean_nothing_certain_are_told(text: str, says: str) -> None:
    """The rule that was handed down leaves some orders open; nobody guesses."""
    found = read_back(text, LETTERS)
    assert isinstance(found, Unread)
    assert says in found.message


def test_an_ell_in_other_parts_is_not_counted_in_lignes() -> None:
    """Lignes are of a tape in 524 parts, and a share that the ruler is not cut into is told."""
    for text in ("1-9-10", "1/5", "half"):
        assert isinstance(read_back(text, ELL, 48), Unread)
    assert read_back("5/8", ELL, 48) == F(5, 8)
    assert write(F(1, 5), ELL, 48).exact is False


@settings(max_examples=120, deadline=None)
@given(
    st.sampled_from(SHIPPED), parts_of_tapes, st.sampled_from([Rank.PART, Rank.HALF_PART]), st.integers(1, 6)
)
def test_names_along_the_edges_are_the_places_they_stand_at(
    notation: Notation, parts: int, finest: Rank, every: int
) -> None:
    """On the upper edge what is written at a stroke, read back in the notation, is where the stroke is; below
    it the parts count themselves, or a second edge reads as the first."""
    edges = graduation(notation, parts, finest, every)
    places = [tick.position for tick in edges.upper]
    assert places == sorted(set(places))
    for tick in edges.upper:
        if tick.name:
            assert read_back(tick.name, notation, parts) == tick.position
    for tick in edges.lower:
        assert 0 < tick.position < 1
        if tick.name and not edges.two_edged:
            assert F(int(tick.name), parts) == tick.position
        elif tick.name:
            assert F(tick.name) == tick.position


# --- a maker's own -------------------------------------------------------------------------------------

KNOTS = """# Knots

Source: my own, for the workshop.

A large knot is half of the cord.

- read: added
- parts: 24

| mark | share | said |
| --- | --- | --- |
| K | 1/2 | a large knot |
| k | 1/8 | a small knot |
| . | 1/24 | a stitch |
"""


def own(text: str) -> Notation:
    notation, queries = read_notation(Source("knots.md", text))
    assert queries == ()
    assert notation is not None
    return notation


def test_a_maker_adds_her_own_in_a_small_table() -> None:
    """A page with a table is a notation like the shipped ones: written, read back, graduated."""
    knots = own(KNOTS)
    assert (knots.name, knots.title, knots.way, knots.parts) == ("knots", "Knots", Way.ADDED, 24)
    assert write(F(5, 8), knots, 24).text == "Kk"
    assert write(F(17, 24), knots, 24).text == "Kk.."
    assert read_back("K..", knots, 24) == F(7, 12)
    assert write(F(1, 7), knots, 24).exact is False
    assert {t.name for t in graduation(knots, 24).upper if t.name} >= {"K", "k", "kk", "Kk"}


def test_marks_that_stand_alone() -> None:
    """A list of marks without a line on how it is read: each stands alone."""
    alone = own(KNOTS.replace("- read: added\n", ""))
    assert alone.way is Way.ALONE
    assert read_back("K", alone) == F(1, 2)
    assert isinstance(read_back("Kk", alone), Unread)


@st.composite
def tables(draw: st.DrawFn) -> str:
    """A notation's text, mostly well made."""
    signs = draw(st.lists(st.sampled_from("abcdefgh"), min_size=1, max_size=6, unique=True))
    way = draw(st.sampled_from(["alone", "added", "added and taken away"]))
    rows = [f"| {sign} | {draw(st.integers(1, 5))}/{draw(st.integers(5, 60))} |" for sign in signs]
    return (
        f"# Own\n\nSource: mine.\n\n- read: {way}\n\n| mark | share |\n| --- | --- |\n"
        + "\n".join(rows)
        + "\n"
    )


@settings(max_examples=150, deadline=None)
@given(tables(), st.fractions(0, 1, max_denominator=60))
def test_any_table_makes_a_notation_that_reads_what_it_writes(text: str, share: Fraction) -> None:
    """Whatever marks a maker thinks of, writing and reading agree, or something is asked."""
    notation, queries = read_notation(Source("own.md", text))
    if notation is None:
        assert queries
        return
    said = write(share, notation, 48)
    assert read_back(said.text, notation, 48) == said.share


@given(st.text(max_size=300))
def test_any_text_is_a_notation_or_asks(text: str) -> None:
    """Reading the text of a notation never raises, and gives nothing without a question."""
    notation, queries = read_notation(Source("any.md", text))
    assert notation is not None or any(str(q.kind) == "question" for q in queries)


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_a_damaged_table_is_a_notation_or_asks(data: st.DataObject) -> None:
    """The same with pieces of a good text cut out or doubled."""
    a, b = sorted((data.draw(st.integers(0, len(KNOTS))), data.draw(st.integers(0, len(KNOTS)))))
    text = KNOTS[:a] + KNOTS[b:] if data.draw(st.booleans()) else KNOTS[:b] + KNOTS[a:]
    notation, queries = read_notation(Source("any.md", text))
    assert notation is not None or any(str(q.kind) == "question" for q in queries)

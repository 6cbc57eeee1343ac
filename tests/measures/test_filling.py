"""Estimates that a sheet or a command asks for by name: used, told and marked; and none that was not asked for."""

from __future__ import annotations

import pytest

from tapewright.diagnostics import Source
from tapewright.measures import (
    Sheet,
    estimate,
    read_company,
    read_sheet,
    with_estimates,
    write_company,
    write_sheet,
)

HEAD = "wearer: Bess Field\nfigure: woman\nover: a shift\nunit: cm\nmeasures:\n"
FOUR = "  stature: 165\n  bust: 91\n  waist: 70\n  hip: 98\n"


def sheet(lines: str, head: str = HEAD) -> Sheet:
    """A sheet of some lines."""
    read, queries = read_sheet(Source("s", head + lines))
    assert read is not None
    assert not [q for q in queries if q.kind == "question"]
    return read


@pytest.mark.parametrize(
    "word", ["estimated", "Estimate", "to be estimated", "{taken: estimated, note: busy day}"]
)
def test_the_word_stands_in_a_values_place(word: str) -> None:
    """The sheet itself has no value by it; filled, the middle of the estimate stands there, marked, with its range told."""
    asked = sheet(f"{FOUR}  arm: {word}\n")
    assert asked.number("arm") is None
    assert "arm" not in asked.waiting
    filled = with_estimates(asked)
    made = estimate(sheet(FOUR), ["arm"])["arm"]
    assert filled.estimates == {"arm": made}
    assert abs((filled.sheet.number("arm") or 0) - made.mid) <= 0.5
    assert filled.sheet.entries["arm"].note == "estimated, not taken"
    (told,) = filled.queries
    assert (str(told.kind), told.name) == ("caution", "estimate-used")
    low, high = (f"{float(q.mm) / 10:.1f} cm" for q in made.quantities()[1:])  # type: ignore[union-attr]
    assert low in told.message
    assert high in told.message


def test_nothing_is_filled_that_was_not_asked_for() -> None:
    """A sheet that names nothing comes back as it is, whatever is wanted of it."""
    plain = sheet(FOUR)
    filled = with_estimates(plain, wanted=["arm", "leg", "scye depth"])
    assert filled.sheet is plain
    assert not filled.estimates
    assert not filled.queries


def test_by_name_from_outside_and_only_what_is_wanted() -> None:
    """The command's names fill like the sheet's, by any word for them; what the lesson does not want is left out."""
    asked = sheet(f"{FOUR}  arm: estimated\n")
    filled = with_estimates(asked, ["inside leg"], wanted=["leg"])
    assert list(filled.estimates) == ["leg"]
    assert filled.sheet.number("arm") is None


def test_what_was_taken_is_never_replaced() -> None:
    """A measure on the sheet stays, and one that waits with a question goes on waiting."""
    taken = sheet(f"{FOUR}  arm: 57\n")
    assert with_estimates(taken, ["arm"]).sheet is taken
    waits, _ = read_sheet(Source("s", f"{HEAD}{FOUR}  arm: 570\n"))
    assert waits is not None
    assert not with_estimates(waits, ["arm"]).estimates


@pytest.mark.parametrize(
    ("lines", "head", "why"),
    [
        ("  cross front: estimated\n", HEAD, "no survey"),
        ("  arm: estimated\n", HEAD.replace("woman", "child"), "children"),
        ("  under bust: estimated\n", HEAD.replace("a shift", "stays"), "worn beneath"),
        ("  my own length: estimated\n", HEAD, "no survey"),
    ],
)
def test_what_cannot_be_estimated_waits_with_one_question(lines: str, head: str, why: str) -> None:
    """No survey, no survey of children, a trunk in stays: asked once, with the reason, and the draft waits for it."""
    filled = with_estimates(sheet(FOUR + lines, head))
    (asked,) = filled.queries
    assert (str(asked.kind), asked.name) == ("question", "not-estimated")
    assert why in asked.message
    assert filled.sheet.waiting


def test_the_word_is_written_again_and_sent_out_and_brought_in() -> None:
    """In the sheet's text and in a company's table the word stands, never the number it would come to."""
    asked = sheet(f"{FOUR}  arm: estimated\n")
    assert "  arm: estimated\n" in write_sheet(asked)
    assert sheet(write_sheet(asked).split("measures:\n")[1]) == asked
    table = write_company([asked, sheet(f"{FOUR}  leg: 76\n", HEAD.replace("Bess", "Ann"))])
    again = read_company(Source("t", table)).wearers
    assert set(again[0].sheet.to_estimate) == {"arm"}
    assert not again[1].sheet.to_estimate
    assert {n: again[0].sheet.number(n) for n in asked.entries} == {n: asked.number(n) for n in asked.entries}


def test_a_mans_chest_may_be_estimated_under_his_word() -> None:
    """On a man's sheet the fullest girth is asked for as the chest; a bust there is a question, as ever."""
    head = HEAD.replace("woman", "man")
    lines = "  stature: 178\n  waist: 84\n  hip: 98\n"
    assert set(with_estimates(sheet(f"{lines}  chest: estimated\n", head)).estimates) == {"chest"}
    read, queries = read_sheet(Source("s", f"{head}{lines}  bust: estimated\n"))
    assert read is not None
    assert [q.name for q in queries] == ["bust-or-chest"]
    assert not with_estimates(read).estimates

"""Every row of `data/check-values.csv` that a draft can express, through the language, against the book."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tapewright.language.sentences import SeeThat
from tapewright.language.tree_claims import Compared
from tapewright.plan import each
from tests.handbook import rows
from tests.handbooks.drafts import (
    SIZES,
    Asked,
    Drawn,
    Entry,
    comparisons,
    drawn_entry,
    drawn_larger,
    entries,
    found,
    is_amount,
    waiting_ids,
)
from tests.tapes.test_handbooks import WORKED

COMPARISONS = comparisons()
IDS = [f"{asked.row.id}-{entry.lesson}" for entry, asked in COMPARISONS]
DEGREE = 0.017453292519943295


@pytest.mark.parametrize(("entry", "asked"), COMPARISONS, ids=IDS)
def test_the_books_figure_comes_out(entry: Entry, asked: Asked) -> None:
    """The draft has the book's figure, exactly where the row says exact and the amount is a plain one."""
    drafted = found(drawn_entry(entry), asked)
    book = asked.row
    assert drafted.holds(book), f"{float(drafted.value)} against {book}"


@pytest.mark.parametrize(("entry", "asked"), COMPARISONS, ids=IDS)
def test_fractions_and_the_paper_agree(entry: Entry, asked: Asked) -> None:
    """Where a fraction is compared, the draft that was drawn has the same length to a billionth."""
    one = drawn_entry(entry)
    fraction, paper = found(one, asked), found(one, asked, one.draft)
    assert float(paper.value) == pytest.approx(float(fraction.value), rel=1e-9)


@pytest.mark.parametrize(("entry", "asked"), COMPARISONS, ids=IDS)
def test_a_figure_that_is_out_would_be_noticed(entry: Entry, asked: Asked) -> None:
    """Each comparison fails when the book's figure is moved past its tolerance, up or down."""
    drafted = found(drawn_entry(entry), asked)
    out_by = abs(drafted.value - asked.row.expected)
    step = asked.row.tolerance + out_by + Fraction(1, 1000)
    for moved in (asked.row.expected + step, asked.row.expected - step):
        assert not drafted.holds(replace(asked.row, expected=moved))


@pytest.mark.parametrize(
    ("entry", "asked"),
    [
        pytest.param(entry, asked, id=f"{asked.row.id}-{entry.lesson}")
        for entry, asked in COMPARISONS
        if not (entry.printed or asked.unit or asked.row.unit in {"deg", "count"})
    ],
)
def test_the_figure_answers_to_what_is_given(entry: Entry, asked: Asked) -> None:
    """No lesson states its answer: a tenth more of everything given makes it another.

    Left out are angles, numbers of darts and figures counted in a unit of the lesson, which do not grow, and
    the draft whose every length is printed in the book.
    """
    one = drawn_entry(entry)
    now = float(found(one, asked).value)
    then = float(found(one, asked, drawn_larger(one, 1.1)).value)
    assert abs(then - now) > 0.01 * abs(now)


@pytest.mark.parametrize(("given", "darts"), [(4, 1), (5, 1), (6.9, 1), (7, 2), (9, 2)])
def test_the_number_of_darts_turns_at_seven_inches(given: float, darts: int) -> None:
    """Wakeman: one at four and at five, two at seven. Between them she says nothing; the lesson waits."""
    entry = next(e for e in entries() if e.lesson == "a-waist-with-darts")
    one = drawn_entry(entry)
    values = {**one.draft.bodies.values}
    values["bust"] = values["waist"] + given * 25.4
    from tapewright.draft import evaluate

    draft = evaluate(one.plan, replace(one.draft.bodies, values=values))
    assert found(one, entry.rows[0], draft).value == darts


@pytest.mark.parametrize("entry", [e for e in entries() if e.number == 0 and e.rows], ids=str)
def test_each_row_is_a_check_of_its_lesson(entry: Entry) -> None:
    """What is compared stands in the lesson as a `See that`, with the row's own figure and tolerance.

    A place, a surface and a number of darts are compared too, and no check can be made of them yet.
    """
    one = drawn_entry(entry)
    claims = _claims(one)
    for asked in entry.rows:
        if not is_amount(asked.what):
            continue
        size = _size(one, asked)
        name = one.names[asked.what]
        form = next(
            one.plan.form(step.clause.amount)  # type: ignore[attr-defined]
            for step in each(one.plan.steps)
            if f"name {name}" in step.makes
        )
        expected, allowed = float(asked.row.expected), float(asked.row.tolerance)
        said = [(right / size, within / size) for left, right, within in claims if left == form]
        assert any(
            right == pytest.approx(expected, abs=1e-9) and within == pytest.approx(allowed, abs=1e-9)
            for right, within in said
        ), f"{asked.row.id}, {asked.what}: {said}"


def _claims(one: Drawn) -> list[tuple[object, float, float]]:
    """The comparisons that a lesson makes: the form of the left side, the right side, what is allowed."""
    said = [step.clause.claim for step in each(one.plan.steps) if isinstance(step.clause, SeeThat)]
    return [
        (one.plan.form(claim.left), float(check.right[0]), float(check.within[0]))
        for claim, check in zip(said, one.draft.checks(), strict=True)
        if isinstance(claim, Compared)
    ]


def _size(one: Drawn, asked: Asked) -> float:
    if asked.unit:
        return float(one.draft.amount(one.names[asked.unit])[0])
    return DEGREE if asked.row.unit == "deg" else float(SIZES[asked.row.unit])


def test_every_row_is_compared_or_waits_with_a_reason() -> None:
    """No row is passed over, none is both, and none is compared twice in the table."""
    compared = [asked.row.id for _, asked in COMPARISONS]
    assert len(compared) == len(set(compared))
    done = {*compared, *WORKED}
    assert not done & set(waiting_ids())
    assert done | set(waiting_ids()) == {r.id for r in rows()}


def test_how_many_are_exact() -> None:
    """An amount that no drawn line comes into is compared as a fraction; so are most rows that say exact."""
    says_exact = [(entry, asked) for entry, asked in COMPARISONS if not asked.row.tolerance]
    fractions = [asked for entry, asked in says_exact if found(drawn_entry(entry), asked).exact]
    assert (len(says_exact), len(fractions)) == (78, 67)

"""The plan: names bound, kinds checked, amounts exact, slips asked about once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tapewright.diagnostics import Kind
from tapewright.plan import Finding, Linear, Plan, Step, each
from tapewright.plan.form import MeasureBase, TapeBase
from tests.lessons import names, plan

BEGIN = "Begin at A, with the centre back on the left and the centre front on the right."


def form_of(made: Plan, name: str) -> Linear:
    """The bound form of an amount named by Let."""
    for step in each(made.steps):
        if getattr(getattr(step.clause, "name", None), "name", "") == name:
            found = made.form(step.clause.amount)  # type: ignore[attr-defined]
            assert isinstance(found, Linear)
            return found
    raise AssertionError(name)


def test_amounts_stay_exact() -> None:
    """A reading with parts and a constant is Fractions of the tape and of a millimetre."""
    made = plan(BEGIN, "Let the far be 1/6 of the bust tape and 1 1/2 parts plus 1/2 in.")
    form = form_of(made, "far")
    assert form.terms == ((TapeBase("bust tape"), Fraction(1, 6) + Fraction(3, 2) / 48),)
    assert form.constant == Fraction(127, 10)


def test_a_fraction_takes_only_the_next_thing() -> None:
    """Half the bust less 1 cm is half the bust, and then less 1 cm."""
    form = form_of(plan(BEGIN, "Let the far be half the bust less 1 cm."), "far")
    assert form.terms == ((MeasureBase("bust"), Fraction(1, 2)),)
    assert form.constant == -10


def test_sums_of_fractions_add_up() -> None:
    """A third and a twenty-fourth (Wilson 1827's way of saying) is nine twenty-fourths."""
    form = form_of(plan(BEGIN, "Let the far be a third and a twenty-fourth of the bust tape."), "far")
    assert form.terms == ((TapeBase("bust tape"), Fraction(9, 24)),)


def test_the_rest_is_what_the_shares_leave() -> None:
    """Hand Sewing Lessons splits 28 into 15 and 13: half plus an inch, and the rest."""
    made = plan(BEGIN, "Divide the bust: half plus 1 in as the front bust and the rest as the back bust.")
    assert not made.queries
    step = next(s for s in each(made.steps) if s.clause.kind == "share")
    back = made.form(step.clause.portions[1].share)  # type: ignore[attr-defined]
    assert back == Linear(back.dimension, ((MeasureBase("bust"), Fraction(1, 2)),), Fraction(-127, 5))


@pytest.mark.parametrize(
    ("sentence", "query"),
    [
        ("From A down to B: 5.", "no-unit"),
        ("From A back to B: 2 cm.", "which-way"),
        ("From A in to B: 1 cm.", "which-way"),
        ("From Q down to B: 1 cm.", "letter-unknown"),
        ("From A down to A: 1 cm.", "letter-made-twice"),
        ("From A down to B: the nape to wiast.", "name-unknown"),
        ("From A down to B: the hip.", "name-unknown"),
        ("From A across to B: 1/4 of the bust tape and 2 cm.", "and-after-a-reading"),
        ("From A across to B: half the bust plus the ease.", "ease-too-much"),
        ("From A to B: 3 cm.", "no-way"),
        ("From A down to B.", "how-far"),
        ("From A down to B, C and D: 1 cm and 2 cm.", "letters-and-lengths"),
        ("From A to B: 1 cm left and 2 cm right.", "two-offsets"),
        ("From A square to A-B to C: 1 cm.", "letter-unknown"),
        ("From A toward the centre bck to B: 1 cm.", "name-unknown"),
        ("Divide the bust: a third as the one and a third as the other.", "shares"),
        ("Divide the bust: three quarters as the one and half as the other.", "shares"),
        ("Let the far be the bust plus 10 degrees.", "length-or-angle"),
        ("Let the far be 10 cm if taken, otherwise 3 cm.", "nothing-taken"),
        ("Let the far be a third.", "share-of-what"),
        ("Let the half be 3 cm.", "name-not-free"),
        ("Let the bust be 3 cm.", "name-made-twice"),
        ("Make the bust equal to 3 cm by finding the ease.", "another-sort"),
        ("Cut the back twice of calico, leaving 1 cm everywhere.", "name-unknown"),
        ("Begin at B.", "begin"),
        ("Hollow A-A by 1 cm at the middle.", "which-side"),
    ],
)
def test_a_slip_is_one_query(sentence: str, query: str) -> None:
    """Each slip gives its own query and no other."""
    made = plan(BEGIN, sentence)
    assert names(made.queries) == [query], [q.message for q in made.queries]
    assert made.queries[0].span is not None
    assert made.queries[0].message.endswith((".", "?"))


def test_what_rests_on_a_slip_waits_in_silence() -> None:
    """No query is caused by another."""
    made = plan(
        BEGIN,
        "From A down to B: the hip; call it the long line.",
        "Square across from B to C: 3 cm. Join B to C; call it the low line.",
        "Square down from A to D on the low line. Draw a curve from A to D, leaving A square to A-B.",
        "Let the back be the outline A to D, to C, to B by the low line, to A by the long line.",
        "From A across to E: 3 cm.",
    )
    assert names(made.queries) == ["name-unknown"]
    assert [s.sentence for s in each(made.steps)] == [1, 6]


def test_a_name_close_to_a_known_one_is_offered() -> None:
    """Did you mean."""
    made = plan(BEGIN, "From A down to B: the nape to wiast.")
    assert [a.replace for a in made.queries[0].answers] == ["nape to waist"]


def test_an_outline_says_by_which_line() -> None:
    """The straight way where a curve was drawn is a question that offers the curve."""
    made = plan(
        BEGIN,
        "From A down to B: 10 cm. From A across to C: 10 cm.",
        "Draw a curve from B to C; call it the hem.",
        "Let the bit be the outline A to B, to C, to A.",
    )
    assert names(made.queries) == ["straight-or-curve"]
    assert [a.replace for a in made.queries[0].answers] == ["to C by the hem"]


def test_an_outline_closes() -> None:
    """An outline ends where it begins."""
    made = plan(
        BEGIN,
        "From A down to B: 10 cm. From A across to C: 10 cm.",
        "Let the bit be the outline A to B, to C.",
    )
    assert names(made.queries) == ["outline-open"]


def test_call_it_names_the_last_line_drawn() -> None:
    """After two lines it is asked which; after none as well."""
    two = plan(
        BEGIN,
        "From A down to B: 1 cm. From A across to C: 1 cm.",
        "Square across from B and down from C to D; call it the edge.",
    )
    assert names(two.queries) == ["which-line"]
    none = plan(BEGIN, "Let the far be 3 cm; call it the edge.")
    assert names(none.queries) == ["which-line"]


def test_an_unknown_makes_a_block_of_what_depends_on_it() -> None:
    """Only the sentences that need the unknown are drawn more than once."""
    made = plan(
        BEGIN,
        "Let the rise be found between 1 cm and 20 cm.",
        "From A down to B: the rise. From A across to C: 5 cm. From B across to D: 5 cm.",
        "Make A-B plus B-D equal to 15 cm by finding the rise.",
    )
    assert not made.queries
    found = [s for s in made.steps if isinstance(s, Finding)]
    assert len(found) == 1
    assert [s.makes[0] for s in found[0].steps] == ["point B", "point D"]
    assert "point C" in [k for s in made.steps if isinstance(s, Step) for k in s.makes]


@pytest.mark.parametrize(
    ("items", "query"),
    [
        (("Let the rise be found between 1 cm and 2 cm.",), "never-found"),
        (
            ("Let the rise be found between 1 cm and 2 cm.", "Let the fall be found between 1 cm and 2 cm."),
            "one-unknown",
        ),
        (
            (
                "Let the rise be found between 1 cm and 2 cm.",
                "Make the bust equal to 3 cm by finding the rise.",
            ),
            "no-effect",
        ),
    ],
)
def test_an_unknown_is_settled_once_and_to_some_effect(items: tuple[str, ...], query: str) -> None:
    """Slips in solving are asked about."""
    assert query in names(plan(BEGIN, *items).queries)


def test_reads_and_makes_are_known() -> None:
    """Each step says what it needs and what it makes, so that a change re-runs only what depends on it."""
    made = plan(BEGIN, "From A down to B: half the ease.", "From B across to C: the bust.")
    steps = list(each(made.steps))
    assert set(steps[1].reads) == {"point A", "eye ease", "name ease"}
    assert steps[1].makes == ("point B", "line 0")
    assert set(steps[2].reads) == {"point B", "measure bust", "name bust"}


def test_questions_and_cautions_are_told_apart() -> None:
    """Too much ease draws all the same."""
    made = plan(BEGIN, "From A across to B: half the bust plus the ease.")
    assert made.queries[0].kind is Kind.CAUTION
    assert len(list(each(made.steps))) == 2


def test_two_ways_that_make_one_name_unlike() -> None:
    """Pieces of four and of three edges, or a line and an amount, under one name: asked, and drawn without."""
    frame = "Begin at A, with the centre back on the left. From A down to B: 40 cm. From A across to C: 50 cm. Square across from B and down from C to D."
    both = (
        "If the bust is at least 80 cm, let the back be the outline A to B, to D, to C, to A; "
        "otherwise let the back be the outline A to B, to D, to A."
    )
    asked = plan(frame, both, "See that A-B is 40 cm.").queries
    assert [q.name for q in asked] == ["branches-unlike"]
    assert "4 edges" in asked[0].message
    mixed = "If the bust is at least 80 cm, let the back be 3 cm; otherwise join A to D; call it the back."
    assert [q.name for q in plan(frame, mixed).queries] == ["branches-unlike"]

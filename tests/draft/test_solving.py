"""Unknowns, conditions and choices, on one body and on many."""

from __future__ import annotations

from math import pi, sqrt

import numpy as np
import pytest

from tests.lessons import at, draw, names

BEGIN = "Begin at A, with the centre back on the left and the centre front on the right."
CIRCLE = (
    BEGIN,
    "Let the radius be found between 1 cm and 60 cm.",
    "From A down to B: the radius. From A across to C: the radius. Sweep about A from B to C; call it the edge.",
    "Make the edge as long as half the waist by finding the radius.",
)


def test_a_quarter_circle_of_half_the_waist() -> None:
    """Elementary geometry: a quarter circle as long as half the waist has a radius of waist over pi."""
    draft = draw(*CIRCLE)
    assert not draft.queries()
    assert draft.amount("radius")[0] == pytest.approx(720 / pi, abs=1e-5)
    assert at(draft, "C")[0] == pytest.approx(720 / pi, abs=1e-5)


def test_settling_the_third_side() -> None:
    """Pythagoras: the height that makes a hypotenuse of 50 over a base of 30 is 40."""
    draft = draw(
        BEGIN, "From A across to B: 30 cm. Let the height be found between 1 cm and 90 cm.", "From A down to C: the height.",
        "Make B-C equal to 50 cm by finding the height.",
    )  # fmt: skip
    assert draft.amount("height")[0] == pytest.approx(400, abs=1e-6)


def test_an_unknown_out_of_reach_is_asked_with_both_ends() -> None:
    """The query gives what comes out at the least and at the most."""
    items = [i.replace("1 cm and 60 cm", "1 cm and 10 cm") for i in CIRCLE]
    draft = draw(*items)
    assert names(draft.queries()) == ["cannot-be-found"]
    message = draft.queries()[0].message
    assert "1.0 cm" in message
    assert "10.0 cm" in message
    assert message.count("short") == 2
    assert not draft.alive("point B")


def test_two_answers_are_asked_about() -> None:
    """A point going along a line past another is at one distance from it twice."""
    draft = draw(
        BEGIN, "From A across to B: 30 cm; then down to D: 4 cm. Let the way be found between 0 cm and 60 cm.",
        "From A across to C: the way.", "Make C-D equal to 5 cm by finding the way.",
    )  # fmt: skip
    assert names(draft.queries()) == ["found-twice"]


def test_settling_on_many_bodies_is_the_same_as_on_each() -> None:
    """A row alone equals the row among its neighbours, bit for bit."""
    waists = [float(w) for w in np.linspace(500, 1300, 97)]
    many = draw(*CIRCLE, values={"waist": waists})
    for row in (0, 13, 50, 96):
        alone = draw(*CIRCLE, values={"waist": waists[row]})
        assert alone.amount("radius")[0] == many.amount("radius")[row]
        assert alone.point("B").y[0] == many.point("B").y[row]


def test_a_condition_parts_the_bodies() -> None:
    """Wakeman 1898: a difference of 4 between bust and waist takes one dart, of 7 two (per front)."""
    items = (
        BEGIN, "From A across to B: 10 in.",
        "If the bust less the waist is at least 7 in, divide A-B into 3 at C and D; otherwise divide A-B in half at C.",
        "From C down to E: 1 in.",
    )  # fmt: skip
    inch = 25.4
    draft = draw(*items, values={"bust": [32 * inch, 32 * inch], "waist": [25 * inch, 28 * inch]})
    assert not draft.failures()
    assert [draft.alive("point D", row) for row in (0, 1)] == [True, False]
    assert list(draft.point("C").x) == pytest.approx([10 * inch / 3, 5 * inch])
    assert [draft.alive("point E", row) for row in (0, 1)] == [True, True]


def test_a_letter_of_one_branch_is_asked_about_where_it_is_wanting() -> None:
    """On the bodies that have it the draft goes on; on the others its use is a question."""
    items = (
        BEGIN, "From A across to B: 10 in.", "If the waist is at least 70 cm, divide A-B in half at C.", "From C down to D: 1 in.",
    )  # fmt: skip
    both = draw(*items, values={"waist": [720.0, 600.0]})
    assert names(both.queries(0)) == []
    assert names(both.queries(1)) == ["drawn-in-one-branch"]
    one = draw(*items, values={"waist": 600.0})
    assert names(one.queries()) == ["drawn-in-one-branch"]


def test_branches_may_draw_one_line_differently() -> None:
    """A line of one name, straight for some and curved for others, is one line afterwards."""
    items = (
        BEGIN, "From A down to B: 30 cm. From A across to C: 30 cm.",
        "If the waist is at least 70 cm, sweep about A from B to C; call it the edge; otherwise join B to C; call it the edge.",
        "Let the far be the edge. Divide the edge in half at D.",
    )  # fmt: skip
    draft = draw(*items, values={"waist": [720.0, 600.0, 800.0]})
    assert not draft.failures()
    expected = [300 * pi / 2, 300 * sqrt(2), 300 * pi / 2]
    assert list(draft.amount("far")) == pytest.approx(expected, abs=1e-3)
    assert list(draft.point("D").x) == pytest.approx([300 / sqrt(2), 150, 300 / sqrt(2)], abs=1e-3)


def test_a_choice_of_words() -> None:
    """The first word of a choice is usual; the branch is taken before any body is known."""
    items = (BEGIN, "If the figure is stout, from A down to B: 3 cm; otherwise from A down to B: 1 cm.")
    assert at(draw(*items, by_eye=("figure: usual or stout",)), "B") == (0, 10)
    assert at(draw(*items, by_eye=("figure: stout or usual",)), "B") == (0, 30)
    missing = draw(*items, by_eye=("figure: usual or stooping",))
    assert names(missing.queries()) == ["no-such-choice"]


def test_filled_measures_on_some_bodies() -> None:
    """Where a measure was taken it is used; where not it is filled and marked."""
    from tapewright.draft import Bodies, evaluate
    from tapewright.measures import Figure
    from tests.lessons import plan

    made = plan(
        BEGIN, "From A down to B: the scye depth if taken, otherwise half the nape to waist.",
        measures=("nape to waist", "scye depth"), by_eye=("ease: 1 in",),
    )  # fmt: skip
    bodies = Bodies(
        2, ("one", "two"), (Figure.WOMAN,) * 2,
        {"nape to waist": np.array([400.0, 410.0]), "scye depth": np.array([190.0, 190.0])},
        {"nape to waist": np.array([True, True]), "scye depth": np.array([True, False])},
    )  # fmt: skip
    draft = evaluate(made, bodies)
    assert list(draft.point("B").y) == [190.0, 205.0]
    assert list(draft.filled["scye depth"]) == [False, True]

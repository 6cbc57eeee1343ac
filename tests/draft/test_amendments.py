"""Amendments: sentences kept beside the lesson, as at a fitting."""

from __future__ import annotations

from tapewright.diagnostics import Source
from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.language import amendment_for, read_amendments, read_lesson
from tapewright.measures import Figure
from tapewright.plan import build_plan
from tests.lessons import TRIAL, at, lesson_text, names

LESSON = lesson_text(
    "Begin at A, with the centre back on the left and the centre front on the right.",
    "From A down to B: 10 cm. From A across to C: half the bust plus half the ease.",
    "Join B to C; call it the slant. From B down to D: 5 cm.",
)


def amended(text: str) -> tuple[Draft, list[str]]:
    """The lesson drawn with amendments, and the names of all queries."""
    import numpy as np

    lesson = read_lesson(Source("trial.md", LESSON))
    found, asked = read_amendments(Source("fitting.md", text), lesson)
    made = build_plan(lesson, found)
    bodies = from_arrays({k: np.array([v]) for k, v in TRIAL.items()}, Figure.WOMAN)
    draft = evaluate(made, bodies)
    return draft, names([*asked, *draft.queries()])


def test_the_three_forms() -> None:
    """A value chosen, a sentence in place of another, a sentence after another."""
    draft, queries = amended(
        "# Fitting of 3 May\n\n"
        "1. Let the ease be 4 parts of the bust tape.\n"
        "2. Instead of B: from A down to B: 12 cm.\n\n   > From A down to B: 10 cm.\n\n"
        "3. After the slant: divide the slant in half at E.\n"
    )
    assert queries == []
    assert at(draft, "B") == (0, 120)
    assert at(draft, "D") == (0, 170)
    assert at(draft, "C")[0] == 480 + 40
    assert at(draft, "E") == (260, 60)


def test_a_sentence_that_has_changed_since_is_asked_about() -> None:
    """All three are shown: what was quoted, what stands now, and the amendment's place."""
    draft, queries = amended("1. Instead of B: from A down to B: 12 cm.\n\n   > From A down to B: 9 cm.\n")
    assert queries == ["amendment-changed"]
    assert "9 cm" in draft.queries()[0].message
    assert "10 cm" in draft.queries()[0].message
    assert at(draft, "B") == (0, 100)


def test_what_the_lesson_no_longer_makes_is_asked_about() -> None:
    """Near letters are offered."""
    _, queries = amended("1. Instead of K: from A down to K: 12 cm.\n")
    assert queries == ["amendment-target"]


def test_an_amendment_makes_all_that_it_replaces() -> None:
    """The slant would be lost."""
    draft, queries = amended("1. Instead of the slant: join B to C.\n")
    assert queries == ["amendment-incomplete"]
    assert "slant" in draft.plan.names


def test_only_values_by_eye_are_chosen() -> None:
    """A measure is not a choice."""
    _, queries = amended("1. Let the bust be 90 cm.\n")
    assert queries == ["not-by-eye"]


def test_words_that_are_no_amendment() -> None:
    """A question, and nothing is changed."""
    _, queries = amended("1. From A down to B: 12 cm.\n")
    assert queries == ["amendment-unread"]


def test_a_choice_from_outside_is_an_amendment() -> None:
    """`--set "ease"="2 parts"` says: Let the ease be 2 parts."""
    lesson = read_lesson(Source("trial.md", LESSON))
    found, asked = amendment_for("2 parts", "ease", lesson)
    assert not asked
    assert [(a.form, a.target) for a in found] == [("let", "ease")]
    wrong, asked = amendment_for("2 pints", "ease", lesson)
    assert not wrong or build_plan(lesson, wrong).queries

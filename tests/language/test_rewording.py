"""Words also understood: other words of the trade and of plain English, rewritten in house style."""

from __future__ import annotations

import pytest

from tapewright.diagnostics import Source
from tapewright.language.clause import BY_LEAD
from tapewright.language.house_style import formatted
from tapewright.language.read import read_lesson
from tapewright.language.rewording import PHRASES, reworded
from tapewright.language.tokens import scan

HEAD = """# A trial

On the half. Drafted net. Taken over: a shift.

## Measures

- chest
- scye depth

## Trial

"""

#: Said otherwise, and in house style.
SAID = [
    ("Start at A, with the centre back on the left.", "Begin at A, with the centre back on the left."),
    ("Measure from A down to B: 40 cm.", "From A down to B: 40 cm."),
    ("Measure A down to B: 40 cm.", "From A down to B: 40 cm."),
    ("From A square down to B: 40 cm.", "From A down to B: 40 cm."),
    ("Come in from B toward A to C: 1 in.", "From B toward A to C: 1 in."),
    ("Go out from B left to C: 1 in.", "From B left to C: 1 in."),
    ("Raise B 1/4 in to C.", "From B up to C: 1/4 in."),
    ("Lower B by 1/4 in to C.", "From B down to C: 1/4 in."),
    ("Complete the rectangle down from A and across from B to C.", "Square down from A and across from B to C."),
    ("Erect up from A to C on D-E.", "Square up from A to C on D-E."),
    ("Continue A-B to C: 2 cm.", "Carry A-B to C: 2 cm."),
    ("Extend A-B to C on D-E.", "Carry A-B to C on D-E."),
    ("Produce A-B to C: 2 cm.", "Carry A-B to C: 2 cm."),
    ("Rule A to B.", "Join A to B."),
    ("Connect A to B; call it the side.", "Join A to B; call it the side."),
    ("Draw a line from A to B.", "Join A to B."),
    ("Draw a straight line from A to B; call it the side.", "Join A to B; call it the side."),
    ("Square a line down from A to C on D-E.", "Square down from A to C on D-E."),
    ("Share the chest: half as the back and the rest as the front.", "Divide the chest: half as the back and the rest as the front."),
    ("Distribute the chest: half as the back and the rest as the front.", "Divide the chest: half as the back and the rest as the front."),
    ("Round off the corner A-B-C by 2 cm.", "Round the corner A-B-C by 2 cm."),
    ("Take out a dart of 1 in at W on A-B, from C to D, lost at E.", "Take out 1 in at W on A-B, from C to D, lost at E."),
    ("Halve A-B at C.", "Divide A-B in half at C."),
    ("Cut A-B into 3 at C and D.", "Divide A-B into 3 at C and D."),
    ("At the crossing of A-B and C-D put E.", "Where A-B meets C-D, put E."),
    ("Strike an arc about A from B to C.", "Sweep about A from B to C."),
    ("Swing about A from B to C.", "Sweep about A from B to C."),
    ("Trace a curve from A through B to C.", "Draw a curve from A through B to C."),
    ("Curve in A-B by 1 cm toward C at the middle.", "Hollow A-B by 1 cm toward C at the middle."),
    ("Curve out A-B by 1 cm toward C at the middle.", "Round A-B by 1 cm toward C at the middle."),
    ("Remove 1 in at W on A-B, from C to D, lost at E.", "Take out 1 in at W on A-B, from C to D, lost at E."),
    ("Pinch out 1 in at W on A-B, from C to D, lost at E.", "Take out 1 in at W on A-B, from C to D, lost at E."),
    ("Call the depth 4 cm.", None),
    ("Call the depth be 4 cm.", "Let the depth be 4 cm."),
    ("When the chest is at least 90 cm, join A to B.", "If the chest is at least 90 cm, join A to B."),
    ("Swing A and B round C by 10 degrees toward D.", "Pivot A and B about C by 10 degrees toward D."),
    ("Turn A and B about C by 10 degrees toward D.", "Pivot A and B about C by 10 degrees toward D."),
    ("Mirror A and B on C-D.", "Turn over A and B on C-D."),
    ("Reflect A and B on C-D.", "Turn over A and B on C-D."),
    ("Stitch A-B to C-D.", "Sew A-B to C-D."),
    ("If the chest are more than 40 in, from A down to B: 1 in.", "If the chest is more than 40 in, from A down to B: 1 in."),
    ("Mark A-B at C with two notches.", "Mark A-B at C, two notches."),
    ("Notch A-B at C, two notches.", "Mark A-B at C, two notches."),
    ("Nick A-B at C, one notch.", "Mark A-B at C, one notch."),
    ("Check that A-B is C-D.", "See that A-B is C-D."),
    ("Prove that A-B is C-D.", "See that A-B is C-D."),
    ("Test that A-B is C-D.", "See that A-B is C-D."),
]  # fmt: skip


@pytest.mark.parametrize(("said", "house"), SAID, ids=[said for said, _ in SAID])
def test_said_otherwise_is_written_in_house_style(said: str, house: str | None) -> None:
    """Each is read without a question and written as the language says it; one that says too little asks."""
    source = Source("trial.md", f"{HEAD}1. {said}\n")
    queries = read_lesson(source).queries
    if house is None:
        assert [q.name for q in queries] == ["sentence-unread"]
        return
    assert not queries
    assert formatted(source).endswith(f"1. {house}\n")


def test_the_words_of_the_language_stay() -> None:
    """No leading word of the language is itself a word to be rewritten, but where more words tell it apart."""
    both = {phrase[0] for phrase in PHRASES if len(phrase) == 1} & set(BY_LEAD)
    assert both == {"call", "turn"}  # told apart by `it` and `over`


def test_places_are_kept() -> None:
    """Every token of a clause said otherwise has the place of a word that was written."""
    text = "Raise B2 by 1/4 in to B3"
    tokens = scan(text, 0, len(text))
    places = {t.span for t in tokens}
    assert all(t.span in places for t in reworded(tokens))


def test_the_group_above_again() -> None:
    """`The same for gores 2 and 3` repeats the group just above it, and is written with its heading."""
    text = HEAD.replace("## Trial", "## The first gore") + (
        "1. Begin at A, with the centre back on the left. From A down to B1: 10 cm.\n\n"
        "## The others\n\n2. The same for gores 2 and 3.\n"
    )
    # Begin is said once; only what has a number may be said again.
    text = text.replace("1. Begin at A, with the centre back on the left. ", "1. ")
    text = text.replace(
        "## The first gore",
        "## The frame\n\n1. Begin at A, with the centre back on the left.\n\n## The first gore",
    )
    source = Source("trial.md", text)
    lesson = read_lesson(source)
    assert not lesson.queries
    assert {"B1", "B2", "B3"} <= set(lesson.made()[0])
    assert 'Repeat "The first gore" for 2 and 3.' in formatted(source)
    ranged = Source(
        "trial.md", text.replace("The same for gores 2 and 3.", 'Repeat "The first gore" for 2 to 4.')
    )
    assert not read_lesson(ranged).queries
    assert 'Repeat "The first gore" for 2, 3 and 4.' in formatted(ranged)

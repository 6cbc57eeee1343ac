"""Each kind of sentence is read, and printed back in house style."""

from __future__ import annotations

import pytest

from tapewright.diagnostics import Source
from tapewright.language import Clause, Sentence, read_lesson, show_clause
from tapewright.language.pattern import Style

HEAD = """# A trial
On the half. Drafted net. Taken over: a shift.

## Measures
- bust
- waist
- nape to waist
- scye depth
- cross back
- shoulder
- shoulder slope
- high bust

## Tapes
- bust tape: the bust in 48 parts; the usual tape
- neck tape: half the waist in 20 parts

## By eye
- ease: 2 in all round, between 0 and 4 in
- drop: 1/2 in

## The frame
1. Begin at A, with the centre back on the left and the centre front on the right.
2. From A down to B: 40 cm. From A across to C: 50 cm. Square across from B and down from C to D. Join B to D; call it the waist line. Join A to C; call it the top line.
3. Draw a curve from A to D; call it the back scye. Draw a curve from B to C; call it the front scye. Join C to D; call it the side line. Let the depth be 3 cm. Let the excess be 4 in.
"""

#: Sentences of the language sketch and our own, each in house style already.
HOUSE = """\
From A down to E: the scye depth.
From A across to E: 1/12 of the bust tape.
From A across to E: 1/6 of the bust tape and 1 1/2 parts.
From A across to E: 1/4 of the bust tape less 1 part.
From A across to E: 1/6 of the bust tape plus 1/2 in.
From C across to E: 3 in.
From A down to E: the nape to waist plus 1/2 in.
From A down to E: half A-D.
From A along A-B to E: two thirds of A-B.
From A down to E, F and G: 3 in, 9 in and 17 in.
From A, B and C across to E, F and G: 1/8 in.
From A to E: 1/2 in left and 1 in down.
From B into the corner A-B-D to E: 2 in.
From B toward the centre front to E: 1 in.
From B both ways along the waist line to E and F: 1/2 in.
From A at 15 degrees from A-C toward D to E: 4 cm.
From A square to A-B toward D to E: 3 cm.
From A to E on the side line, the lower crossing: the shoulder.
From A along the waist line to E: half the cross back if taken, otherwise 1/8 of the bust tape plus 3 in.
From A along the waist line to E: the shoulder plus a tenth of the ease, but not more than A-B.
From A at the shoulder slope less 8 degrees from A-C toward D to E: the shoulder.
From A down to E on the waist line.
Square down from A to E on the waist line.
Square across from A to E on C-D carried on.
Square up from B to E: 3/4 in.
Square across from B and down from C to E.
Square from A to E on B-D carried on.
Join A to D.
Divide A-B in half at E.
Divide A-B into 3 at E and F.
Divide the excess: a third as the back taking and the rest as the side taking.
Divide the bust: half plus 1 in as the front bust and the rest as the back bust.
Where the side line meets the waist line, put E.
Where the back scye meets the front scye, put E, the crossing nearer B.
Sweep about A by the shoulder less A-B.
Sweep about A by 5 in to E on the side line, the crossing farther from B.
Sweep about A from D to B.
Sweep about A from B toward the right through 40 degrees to E.
Draw a curve from A through B and C to D, leaving A square to A-B, passing B level and reaching D plumb.
Draw an easy curve from A to D, leaving A toward B and reaching D along C-D.
Draw a flat curve from A through B to D, bending both ways.
Draw E-F parallel to A-B, 4 in right.
Hollow A-B by 3/4 in toward D at the middle.
Round A-B by 1 cm toward D at 4 cm from A.
Take out 1 1/2 in at D on the waist line, from E to F, lost at A.
Take out 3/4 in on each side of D on the waist line, from E to F, lost at A.
Let the far be twice A-B.
Let the far be the bust less the high bust, but not less than 0 in.
Let the far be 3 times A-B.
Let the far be half (the bust less the waist).
Let the far be along the back scye from A to D.
Let the far be the curve A-D.
Let the rise be found between 0 cm and 10 cm.
Let the rise be found between a quarter and half the waist.
Make A-B plus B-D equal to half the waist plus 1 in by finding the depth.
Make the back scye as long as the front scye plus the ease, at the height, by finding the depth.
Pivot A, B and C about D until A lies on D-B.
Pivot A and B about D by 10 degrees toward the centre front.
Let the back be the outline A to B, to D by the waist line, to A by the back scye.
Sew the back scye to the front scye.
Sew the back scye to the front scye, easing the front scye by 1/2 in.
Sew A-B and B-D to the side line.
Mark the back scye at A and the front scye at B, one notch.
Mark the side line at half the side line from C, two notches.
Mark the back scye at A.
See that A-B plus B-D is half the bust, within 1 mm.
See that the back scye is longer than the front scye by 4 mm to 7 mm.
See that the corner A-B-D is square.
See that A lies on B-D.
See that the back scye and the front scye run on smoothly at A and B.
See that A-B is at least the waist plus 1 in.
See that A-B is between 2/5 of the neck tape and half the bust.
See that A-B is the same on both sides.
"""


def clause(sentence: str) -> Clause:
    """The one clause of a sentence read in the trial lesson."""
    lesson = read_lesson(Source("trial.md", f"{HEAD}4. {sentence}\n"))
    assert not lesson.queries, [q.message for q in lesson.queries]
    said = lesson.items[3].sentences[0]
    assert isinstance(said, Sentence)
    assert isinstance(said.clauses[0], Clause)
    return said.clauses[0]


@pytest.mark.parametrize("sentence", HOUSE.splitlines())
def test_house_style_prints_as_it_was_written(sentence: str) -> None:
    """Reading a sentence in house style and printing it gives the same words."""
    style = Style(frozenset({"bust tape", "neck tape"}))
    assert show_clause(clause(sentence), style) + "." == sentence


@pytest.mark.parametrize("sentence", HOUSE.splitlines())
def test_printing_and_reading_back_gives_the_same_tree(sentence: str) -> None:
    """The printed sentence means what the written one did."""
    first = clause(sentence)
    again = clause(show_clause(first, Style(frozenset({"bust tape", "neck tape"}))) + ".")
    assert again == first


@pytest.mark.parametrize(
    ("written", "house"),
    [
        (
            "From A across to E: 1/6 and 1 1/2 parts of the bust tape.",
            "From A across to E: 1/6 of the bust tape and 1 1/2 parts.",
        ),
        ("From A down to E: A-B.", "From A down to E: as long as A-B."),
        ("From A down to E: 1½ in.", "From A down to E: 1 1/2 in."),
        ("From A down to E: 1-1/2 inches.", "From A down to E: 1 1/2 in."),
        ("from a down to E: 3 cm.", None),
        ("Join A to D.", "Join A to D."),
        ("Rule A to D.", "Join A to D."),
        ("Swing about A by 5 cm.", "Sweep about A by 5 cm."),
        ("From A toward B to E: half of A–B.", "From A toward B to E: half A-B."),
        (
            "From A down to E: a third and a twelfth of the bust tape.",
            "From A down to E: 5/12 of the bust tape.",
        ),
        ("From A down to E: 2 parts.", "From A down to E: 2 parts."),
        ("From A down to E: 2.5 cm.", "From A down to E: 2 1/2 cm."),
        ("From A down to E: 0.35 cm.", "From A down to E: 0.35 cm."),
        (
            "Let the far be found between a quarter and a half of the waist.",
            "Let the far be found between a quarter and half the waist.",
        ),
    ],
)
def test_other_ways_of_saying_are_rewritten(written: str, house: str | None) -> None:
    """What is also accepted is understood, and printed in house style."""
    if house is None:
        lesson = read_lesson(Source("trial.md", f"{HEAD}4. {written}\n"))
        assert lesson.queries
        return
    assert show_clause(clause(written), Style(frozenset({"bust tape"}))) + "." == house


def test_a_later_name_never_changes_an_earlier_sentence() -> None:
    """Longest match is over the names declared so far."""
    text = (
        HEAD
        + "4. Let the back be 3 cm. Let the waist line length be 4 cm.\n5. Square down from A to E on the waist line.\n"
    )
    lesson = read_lesson(Source("trial.md", text))
    assert not lesson.queries
    said = lesson.items[4].sentences[0]
    assert isinstance(said, Sentence)
    first = said.clauses[0]
    assert isinstance(first, Clause)
    assert show_clause(first, Style()) == "Square down from A to E on the waist line"


MORE_HEAD = (
    HEAD + "4. Let the front be the outline A to B, to D by the waist line, to C by the side line, to A.\n"
)

MORE = """\
Carry A-D to E: 2 cm.
Carry A-D beyond A to E on the side line.
Carry the back scye beyond D to E on the waist line.
Draw a plumb line touching the back scye at E, toward the centre back.
Draw an arc from A through B to D.
Draw an arc from A to D, 2 cm high toward B.
Draw an arc from A to E on the side line, square to A-B and the side line.
Draw a quarter round from A to D in the corner A-B-D.
Round the corner A-B-D by 2 cm.
Round the corner A-B-D by 2 cm, from E to F.
Draw a cone from A-B across to E-F: 36 in at A and 56 in at B.
Turn over the front on A-B.
Turn over C and D on A-B.
Lay the front against the back scye with A on C and B on C-D.
Lay the front against the back scye with A on C and B on D, lapped 1 in.
Lay the front against the side line with A on C and A-C across, parted 1 1/2 in, face down.
Open the front along B-C by 4 in, keeping A still.
Let out the side line by 2 in at D, to nothing at C.
Take in the side line by 1 cm at D, to nothing at C, toward A.
Pivot the front about A by 10 degrees toward the centre front.
Draw the shape "turnover" from A on squares of 1 nail.
Draw the curve rule "sleeve" from A to B, hollow toward D.
Mark the side line, A-D and A on the front.
Let A stand for the nape.
Let A and B stand for the neck point.
Trim the back scye with braid.
Trim the side line and the back scye with 12 covered buttons.
Trim the side line with eyelets 1 in apart.
Trim the side line with 11 buttons, on one side.
"""


def more(sentence: str) -> Clause:
    """The one clause of a sentence that may speak of a piece."""
    lesson = read_lesson(Source("trial.md", f"{MORE_HEAD}5. {sentence}\n"))
    assert not lesson.queries, [q.message for q in lesson.queries]
    said = lesson.items[4].sentences[0]
    assert isinstance(said, Sentence)
    assert isinstance(said.clauses[0], Clause)
    return said.clauses[0]


@pytest.mark.parametrize("sentence", MORE.splitlines())
def test_pieces_and_arcs_print_and_read_back(sentence: str) -> None:
    """The same law for the sentences that move pieces and draw arcs."""
    assert show_clause(more(sentence), Style()) + "." == sentence
    assert more(show_clause(more(sentence), Style()) + ".") == more(sentence)


CUTS = """\
Cut the front twice of lining, with A-B on the grain, nap down, leaving 1 cm everywhere.
Cut the front twice of lining, leaving 4 cm turned up at A-D, 1 cm squared at the side line and 1/2 in elsewhere.
Cut the front twice of lining, leaving 2 cm blunted at A-D and B-D, the depth to whip at the side line and nothing elsewhere.
Cut the front twice of lining, leaving enough to lap at A-B, enough to fell at the side line and 1 cm mitred elsewhere.
Cut the front twice of lining, leaving 2 in turned in at the side line and the turnings of "Vincent's inlays" elsewhere.
"""


@pytest.mark.parametrize("sentence", CUTS.splitlines())
def test_turnings_print_and_read_back(sentence: str) -> None:
    """How corners are cut, how edges are finished, and a table of turnings."""
    head = MORE_HEAD.replace("## The frame", "## Cloth\n- lining\n\n## The frame")
    lesson = read_lesson(Source("trial.md", f"{head}5. {sentence}\n"))
    assert not lesson.queries, [q.message for q in lesson.queries]
    said = lesson.items[4].sentences[0]
    assert isinstance(said, Sentence)
    assert show_clause(said.clauses[0], Style()) + "." == sentence  # type: ignore[arg-type]

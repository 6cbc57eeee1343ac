"""Answers that can be accepted: what is put in their place is read, and the question is gone.

The beginners' sentences are those of people who had not seen the language, as they were heard; what the table should
offer for each is our own ruling, and has no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tapewright.diagnostics import Answer, Query, Source
from tapewright.language import read_lesson
from tests.queries.bundle import HERE, Bundle, Said, read_bundle, run

HEAD = """# An apron
On the half. Drafted net. Taken over: a shift.

## Measures
- waist
- nape to waist

## The draft
1. Begin at A, with the centre front on the left and the centre back on the right.
2. From A down to B: 20 cm. From A across to C: 30 cm. Square down from C and across from B to D. Join C to D; call it the side.
"""
PIECE = "3. Let the back be the outline A to C, to D by the side, to B, to A.\n"

#: What was written, and what the table should offer to put instead.
SAID = [
    ("From point A down to point E: 3 in", "From A down to E: 3 in"),
    ("From a down to e: 3 cm", "From A down to E: 3 cm"),
    ("join b to d", "join B to D"),
    ("From A down to E: 5,5 cm", "From A down to E: 5.5 cm"),
    ("From A down to E 5 cm", "From A down to E: 5 cm"),
    ("From A down to E the waist", "From A down to E: the waist"),
    ("From A, down to E: 5 cm", "From A down to E: 5 cm"),
    ('From A down to E: 5 1/2"', "From A down to E: 5 1/2 in"),
    ("From A down to E: 1’6”", "From A down to E: 1 ft 6 in"),
    ("From from A down to E: 5 cm", "From A down to E: 5 cm"),
    ("From A down down to E: 5 cm", "From A down to E: 5 cm"),
    ("Square down from A 5 in to E", "From A down to E: 5 in"),
    ("Square down 5 in from A to E", "From A down to E: 5 in"),
    ("From A 5 cm down to E", "From A down to E: 5 cm"),
    ("Measure 5 cm down from A to E", "From A down to E: 5 cm"),
    ("Draw a line down from A to E, 5 cm", "From A down to E: 5 cm"),
    ("Mark E 5 cm below A", "From A down to E: 5 cm"),
    ("Put a point E 5 cm to the right of A", "From A right to E: 5 cm"),
    ("E is 5 cm above A", "From A up to E: 5 cm"),
    ("Point E: 5 cm down from A", "From A down to E: 5 cm"),
    ("Go down 5 cm from A", "From A down to E: 5 cm"),
    ("From A down: 5 cm", "From A down to E: 5 cm"),
    ("From A down to E: 2 to 3 in, to taste", "From A down to E: 2 in"),
    ("From A down to E: between 6 and 7 cm", "From A down to E: 6 cm"),
    ("Join A-D", "Join A to D"),
    ("Join “A” to “D”", "Join A to D"),
    ("Join A to D and B to C", "Join A to D. Join B to C"),
    ("From A down to E: 5 cm, from A down to F: 6 cm", "From A down to E: 5 cm; from A down to F: 6 cm"),
    (
        "Let the back be the outline A to C; to D; to B; to A",
        "Let the back be the outline A to C, to D, to B, to A",
    ),
    ("Draw a curve from A to D through C", "Draw a curve from A through C to D"),
    ("Join A and D", "Join A to D"),
    ("Draw a line between A and D", "Join A to D"),
    ("Draw a curve A to D", "Draw a curve from A to D"),
    ("Divide A-B in three, call them E and F", "Divide A-B into 3 at E and F"),
    ("Divide A-B into thirds", "Divide A-B into 3 at E and F"),
    ("Divide A-B in half", "Divide A-B in half at E"),
    ("Draw a circle round A with radius 5 cm", "Sweep about A by 5 cm; call it the circle"),
    (
        "Draw a rectangle 20 cm by 30 cm",
        "From A down to E: 30 cm. From A across to F: 20 cm. Square across from E and down from F to G",
    ),
    ("Let the back be A-C-D-B", "Let the back be the outline A to C, to D, to B, to A"),
    ("Let the back be the outline A-C-D-B-A", "Let the back be the outline A to C, to D, to B, to A"),
    ("Let the back be the outline A, C, D, B", "Let the back be the outline A to C, to D, to B, to A"),
]
OF_A_PIECE = [
    ("Cut two pieces of cloth", "Cut the back twice of cloth"),
    ("Cut 2", "Cut the back twice of cloth"),
    ("Cut two backs of lining", "Cut the back twice of lining"),
    (
        "Cut 2 of the back of cloth, leaving nothing everywhere",
        "Cut the back twice of cloth, leaving nothing everywhere",
    ),
    ("Cut back x2 in lining", "Cut the back twice of lining"),
    ("Cut the back 3 times", "Cut the back 3 times of cloth"),
    ("Cut the back", "Cut the back once of cloth"),
    ("Mark a notch at D", "Mark the side at D, one notch"),
    ("Mark D", "Mark the side at D, one notch"),
    ("Mark two notches on the side at D", "Mark the side at D, two notches"),
]


def asked(text: str) -> tuple[Query, ...]:
    return tuple(q for q in read_lesson(Source("lesson.md", text)).queries if q.name == "said-otherwise")


def accepted(text: str, query: Query, answer: Answer) -> str:
    """The text with an answer put where it belongs."""
    where = answer.where or query.span
    assert where is not None
    assert answer.replace is not None
    return text[: where.start] + answer.replace + text[where.end :]


@pytest.mark.parametrize(("said", "meant"), SAID)
def test_a_beginners_sentence_is_offered_in_the_tables_words(said: str, meant: str) -> None:
    """One question, whose first answer makes the sentence what it should be, and leaves nothing to read again."""
    _settles(f"{HEAD}3. {said}.\n", meant)


@pytest.mark.parametrize(("said", "meant"), OF_A_PIECE)
def test_a_beginners_piece_is_offered_in_the_tables_words(said: str, meant: str) -> None:
    """The same, where an outline was made that can be named."""
    _settles(f"{HEAD}{PIECE}4. {said}.\n", meant)


def _settles(text: str, meant: str) -> None:
    lesson = read_lesson(Source("lesson.md", text))
    assert [q.name for q in lesson.queries] == ["said-otherwise"]
    new = accepted(text, lesson.queries[0], lesson.queries[0].answers[0])
    assert new.rstrip().splitlines()[-1].partition(" ")[2] == f"{meant}."
    assert not read_lesson(Source("lesson.md", new)).queries


@pytest.mark.parametrize(
    "said",
    [
        "Join A to D; call it the hem",
        "Draw a line from A to D",
        "Divide A-B into 3 at E and F",
        "From A down to E: 5 cm",
        "Sweep about A by 5 cm; call it the circle",
        "See that A-B is 20 cm",
        "From A down to A1 and A2: 3 cm and 5 cm",
    ],
)
def test_what_can_be_read_is_never_called_a_slip(said: str) -> None:
    """Slips are looked for only where reading stopped."""
    assert not read_lesson(Source("lesson.md", f"{HEAD}3. {said}.\n")).queries


@pytest.mark.parametrize(
    "said",
    [
        "Draw a nice rectangle somewhere",
        "Draw a circle",
        "Cut 2",
        "Mark a notch at D",
        "Draw a rectangle " + "by " * 500,
        "From A " + "down " * 500 + "to E",
        "Cut two " + "of the " * 500 + "back",
        "Mark " + "a " * 2000,
        "Let the back be " + "A-" * 800 + "B",
        "Join " + "A, " * 800 + "B",
    ],
)
def test_what_cannot_be_offered_is_asked_all_the_same(said: str) -> None:
    """A slip that leaves too much open, or goes on and on, is one question, quickly said, and nothing is raised."""
    queries = read_lesson(Source("lesson.md", f"{HEAD}3. {said}.\n")).queries
    assert len(queries) == 1
    assert queries[0].message


#: Files whose questions offer something for each; accepting the first answer must leave fewer of them.
ANSWERED = [
    "begin", "begin.nothing", "bullet-unread.cloth", "header.bare", "header.missing", "header.otherwise", "header.years",
    "how-much-outside", "name-unknown.lists", "outline-crosses", "outline-open", "said-otherwise", "said-otherwise.pieces", "sheet-unit", "sheet-unit.other",
    "value-in-lesson", "which-line.after-a-stop",
]  # fmt: skip


@pytest.mark.parametrize("name", ANSWERED)
def test_accepted_answers_are_read(name: str, tmp_path: Path) -> None:
    """Each answer that can be put in place, put there alone, settles its query: it is not asked again."""
    bundle = read_bundle(HERE / f"{name}.md")
    before = _run(bundle, tmp_path / "before")
    tried = 0
    for query in before.queries:
        for k, answer in enumerate(query.answers):
            if answer.replace is None or query.source not in bundle.files:
                continue
            text = accepted(bundle.files[query.source], query, answer)
            new = Bundle(bundle.name, "", {**bundle.files, query.source: text}, "")
            after = _run(new, tmp_path / f"after {tried} {k}")
            again = [q for q in after.queries if (q.name, q.message) == (query.name, query.message)]
            assert len(again) < sum(
                (q.name, q.message) == (query.name, query.message) for q in before.queries
            )
            tried += 1
    assert tried


def _run(bundle: Bundle, folder: Path) -> Said:
    folder.mkdir()
    return run(bundle, folder)

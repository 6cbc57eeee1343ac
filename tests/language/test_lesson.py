"""A whole lesson: what runs, what belongs to the student, and where everything stands in the text."""

from __future__ import annotations

import pytest

from tapewright.diagnostics import Source, Span
from tapewright.language import Clause, Sentence, Unread, read_lesson, walk
from tests.lessons import lesson_text, names, read


def test_prose_belongs_to_the_student() -> None:
    """Prose, quotes, other bullets, second paragraphs and emphasis do not run."""
    text = lesson_text(
        "Begin at A. From A down to B: *about the length of a hand* 10 cm.\n\n   From here on it is talk. From A to nowhere.",
    )
    text += "\nSome prose.\n\n> From A down to C: 3 cm.\n\n- a bullet of no list\n\n## Making up\n\n1. Tack it.\n2. Press it.\n"
    lesson = read_lesson(Source("trial.md", text))
    assert not lesson.queries
    assert [len(item.sentences) for item in lesson.items] == [2]


def test_lists_are_read_with_their_names() -> None:
    """Measures, tapes, values by eye, choices and cloths, each with its own name."""
    text = """# A trial
On the half, left and right. Drafted with seams of 1/4 in at the shoulders and the sides. Taken over: stays and a shift. Of 1770 to 1780.

## Measures
- the bust: round the fullest part
- shoulder slope, left and right: in degrees

## Tapes
- bust tape: (half the bust plus 2 1/2 in) in 20 parts; the usual tape

## By eye
- ease: 2 in all round, between 0 and 4 in
- neck width: 3 parts, between 2 1/2 and 3 1/2
- figure: usual, stout or stooping

## Cloth
- cloth width: 150 cm
- sarcenet
"""
    lesson = read_lesson(Source("trial.md", text))
    assert [q.name for q in lesson.queries] == ["no-sentences"]
    assert lesson.listed() == (
        "bust", "shoulder slope", "bust tape", "ease", "neck width", "figure", "cloth width", "sarcenet",
    )  # fmt: skip
    assert lesson.measures[1].sides
    assert lesson.tapes[0].parts == 20
    assert lesson.tapes[0].usual
    assert lesson.by_eye[0].share == "all round"
    assert lesson.choices[0].options == ("usual", "stout", "stooping")
    assert lesson.header.body == "both sides"
    assert lesson.header.over == ("stays", "shift")
    assert lesson.header.years == (1770, 1780)
    assert lesson.header.seams is not None
    assert lesson.header.seams.at == ("shoulders", "sides")


def test_every_node_knows_its_place() -> None:
    """The span of a letter, a name and an amount is exactly its words."""
    lesson = read(
        "Begin at A, with the centre back on the left.", "From A down to B: half the nape to waist plus 2 cm."
    )
    said = lesson.items[1].sentences[0]
    assert isinstance(said, Sentence)
    clause = said.clauses[0]
    assert isinstance(clause, Clause)
    found = {type(n).__name__: lesson.source[n.span] for n in walk(clause) if hasattr(n, "span")}
    assert found["PointRef"] == "A"
    assert found["NewPoint"] == "B"
    assert found["NameRef"] == "nape to waist"
    assert found["Constant"] == "2 cm"
    assert found["Total"] == "half the nape to waist plus 2 cm"


def test_a_sentence_that_cannot_be_read_declares_its_letters_and_names() -> None:
    """One slip is one query: what the sentence would have made is known to the rest."""
    lesson = read(
        "Begin at A, with the centre back on the left.",
        "From A dwon to B: 10 cm; call it the long line.",
        "Square across from B to C: 5 cm. Square down from A to D on the long line.",
    )
    assert names(lesson.queries) == ["sentence-unread"]
    said = lesson.items[1].sentences[0]
    assert isinstance(said, Sentence)
    assert isinstance(said.clauses[0], Unread)
    assert said.clauses[0].points == ("B",)


def test_several_slips_are_all_told_at_once() -> None:
    """Reading goes on after a slip, to the end of the lesson."""
    lesson = read(
        "Begin at A.", "From A dwon to B: 1 cm.", "Sqare down from A to C: 2 cm.", "From A up to D: 3 cm."
    )
    assert names(lesson.queries) == ["sentence-unread", "no-leading-word"]
    assert [q.sentence for q in lesson.queries] == [2, 3]
    assert [a.replace for a in lesson.queries[1].answers] == ["Square"]


@pytest.mark.parametrize(
    "text",
    [
        "",
        "\n",
        "#",
        "# ",
        "1.",
        "1. .",
        "1. ;",
        "1. ;;.",
        "1. From",
        "1. If",
        "- ",
        "\x00",
        "# A\n\n1. \u2028 . ;",
        "\ufeff# A",
    ],
)
def test_scraps_of_text_are_lessons_too(text: str) -> None:
    """Nothing that a text may hold raises."""
    read_lesson(Source("scrap.md", text))


def test_a_text_too_long_is_one_question() -> None:
    """Ten megabytes are not read at all."""
    lesson = read_lesson(Source("long.md", "1. From A down to B: 3 cm.\n" * 400_000))
    assert names(lesson.queries) == ["text-too-long"]
    assert not lesson.items


def test_windows_line_ends_and_odd_spaces_read_alike() -> None:
    """Carriage returns, tabs and no-break spaces are white space."""
    plain = lesson_text("Begin at A, with the centre back on the left.", "From A down to B: 2 1/2 in.")
    odd = plain.replace("\n", "\r\n").replace("down to", "down\tto").replace("2 1/2 in", "2 1/2\u00a0in")
    first, second = (read_lesson(Source("trial.md", t)) for t in (plain, odd))
    assert first.items == second.items or [i.sentences for i in first.items] == [
        i.sentences for i in second.items
    ]
    assert not second.queries


def test_places_in_a_text() -> None:
    """Lines and columns count from one; an offset beyond the end is the end's."""
    source = Source("a", "ab\ncd\n")
    assert source.place(0) == (1, 1)
    assert source.place(3) == (2, 1)
    assert source.place(99) == (3, 1)
    assert source.line(2) == "cd"
    assert source[Span(3, 5)] == "cd"

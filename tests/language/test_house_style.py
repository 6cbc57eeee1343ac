"""The formatter: house style, idempotent, prose untouched, the same tree before and after."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapewright.app.library import lessons
from tapewright.diagnostics import Source
from tapewright.language import read_lesson
from tapewright.language.house_style import formatted
from tests.language.test_sentences import HOUSE
from tests.lessons import lesson_text


def items_of(text: str) -> list[str]:
    """The sentences of a text, without their places; those that cannot be read keep theirs unless taken out."""
    told = [repr(item.sentences) for item in read_lesson(Source("a.md", text)).items]
    return [re.sub(r"Span\(start=\d+, end=\d+\)", "", one) for one in told]


@pytest.mark.parametrize("name", sorted(lessons()))
def test_shipped_lessons_are_in_house_style(name: str) -> None:
    """What we ship is as the formatter would write it."""
    text = lessons()[name].read_text(encoding="utf-8")
    assert formatted(Source(name, text)) == text


def test_sentences_are_rewritten_and_prose_is_not() -> None:
    """Words also accepted, figures and numbering are mended; all else stays byte for byte."""
    text = (
        lesson_text("Start at A, with the centre back on the left.")
        + "5. From A down   to B: 1-1/2\n   inches; then across to C: half of A–B.\n\n   *Lay  the ruler* on A.  \n\n"
        + "Prose with  two spaces.\n\n7. If the bust is at least 90 cm, rule A to B; otherwise connect A to C.\n"
        + "8. From A dwon to Q: 3 cm.\n9. From A down to K: 3 cm *or so*.\n"
    )
    new = formatted(Source("a.md", text))
    assert "1. Begin at A, with the centre back on the left.\n" in new
    assert (
        "2. From A down to B: 1 1/2 in; then across to C: half A-B.\n\n   *Lay  the ruler* on A.  \n" in new
    )
    assert "Prose with  two spaces.\n" in new
    assert "3. If the bust is at least 90 cm, join A to B; otherwise join A to C.\n" in new
    assert "4. From A dwon to Q: 3 cm.\n5. From A down to K: 3 cm *or so*.\n" in new


def test_the_tenth_item_keeps_its_paragraphs() -> None:
    """Where the number grows wider, what belongs to the item is moved in with it."""
    text = (
        lesson_text(*["From A down to B: 3 cm."] * 9)
        + "3. From A down to C: 3 cm.\n\n   Its own paragraph.\n"
    )
    new = formatted(Source("a.md", text))
    assert "10. From A down to C: 3 cm.\n\n    Its own paragraph.\n" in new
    assert formatted(Source("a.md", new)) == new


@settings(max_examples=60)
@given(st.lists(st.sampled_from(HOUSE.splitlines()), min_size=1, max_size=6))
def test_formatting_twice_is_formatting_once(sentences: list[str]) -> None:
    """Idempotent, and the tree is the same before and after."""
    text = lesson_text("Begin at A, with the centre back on the left.", *sentences)
    once = formatted(Source("a.md", text))
    assert formatted(Source("a.md", once)) == once
    assert items_of(once) == items_of(text)


def test_a_mark_alone_is_no_sentence() -> None:
    """A stray semicolon behind the last full stop goes, and formatting twice is formatting once."""
    text = (
        "# A\n\nOn the half. Drafted net. Taken over: a shift.\n\n## B\n\n"
        "1. Begin at A, with the fold on the left.;\n"
    )
    once = formatted(Source("a.md", text))
    assert once.endswith("1. Begin at A, with the fold on the left.\n")
    assert formatted(Source("a.md", once)) == once

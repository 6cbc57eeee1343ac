"""Print-then-parse is a law: whatever the patterns can say reads back as what was printed."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from tapewright.diagnostics import Source
from tapewright.language import BY_KIND, Clause, Sentence, read_lesson, show_clause
from tapewright.language.pattern import Style
from tests.language.at_random import sentence_of
from tests.language.test_sentences import MORE_HEAD

STYLE = Style(frozenset({"bust tape", "neck tape"}))
#: Said only in company: these have their own tests.
NOT_ALONE = {"call it", "begin", "begin from", "repeat"}


def _read(sentence: str) -> tuple[Clause | None, list[str]]:
    lesson = read_lesson(Source("trial.md", f"{MORE_HEAD}5. {sentence}.\n"))
    said = lesson.items[4].sentences[0]
    one = said.clauses[0] if isinstance(said, Sentence) else None
    return (one if isinstance(one, Clause) else None), [q.message for q in lesson.queries]


@pytest.mark.parametrize("kind", sorted(set(BY_KIND) - NOT_ALONE))
@settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(data=st.data())
def test_what_the_patterns_can_say_prints_and_reads_back(kind: str, data: st.DataObject) -> None:
    """Each reads as a clause without a question; printed and read again it is the same tree, and prints alike."""
    sentence = sentence_of(BY_KIND[kind], data)
    assume(sentence[0].isupper())  # a start may be left out only after a semicolon
    first, asked = _read(sentence)
    assert first is not None, (sentence, asked)
    printed = show_clause(first, STYLE)
    again, asked = _read(printed)
    assert again == first, (sentence, printed, asked)
    assert show_clause(again, STYLE) == printed

"""Any text at all: reading and planning never raise, and take no longer than they should."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from tapewright.diagnostics import Source
from tapewright.language import BY_KIND, BY_LEAD, read_lesson
from tapewright.language.walking import walk
from tapewright.plan import build_plan
from tests.language.test_sentences import HOUSE, MORE, MORE_HEAD
from tests.lessons import lesson_text

SENTENCES = [*HOUSE.splitlines(), *MORE.splitlines()]
WORDS = sorted({w for s in SENTENCES for w in s.replace(".", " .").replace(":", " :").split()})


@settings(max_examples=150)
@given(st.text(max_size=300))
def test_any_text(text: str) -> None:
    """Plain noise."""
    build_plan(read_lesson(Source("noise.md", text)))


@settings(max_examples=150)
@given(st.lists(st.lists(st.sampled_from(WORDS), min_size=1, max_size=14), min_size=1, max_size=5))
def test_the_words_of_the_language_in_any_order(items: list[list[str]]) -> None:
    """Noise made of the language's own words, in numbered items."""
    text = lesson_text("Begin at A, with the centre back on the left.", *(" ".join(words) for words in items))
    build_plan(read_lesson(Source("noise.md", text)))


@settings(max_examples=150)
@given(st.data())
def test_sentences_with_something_missing_or_twice(data: st.DataObject) -> None:
    """Whole sentences with a word left out, doubled or exchanged."""
    items = []
    for _ in range(data.draw(st.integers(1, 4))):
        words = data.draw(st.sampled_from(SENTENCES)).split()
        at = data.draw(st.integers(0, len(words) - 1))
        change = data.draw(st.sampled_from(["out", "twice", "other"]))
        if change == "out":
            del words[at]
        elif change == "twice":
            words.insert(at, words[at])
        else:
            words[at] = data.draw(st.sampled_from(WORDS))
        items.append(" ".join(words) or "x")
    lesson = read_lesson(
        Source("noise.md", lesson_text("Begin at A, with the centre back on the left.", *items))
    )
    plan = build_plan(lesson)
    for query in plan.queries:
        if query.span is not None:
            assert 0 <= query.span.start <= query.span.end <= len(lesson.source.text)


def test_each_kind_of_sentence_has_an_example() -> None:
    """The sentences tried here use every kind that can be said in one clause."""
    lesson_kinds = set()
    for sentence in SENTENCES:
        lesson = read_lesson(Source("one.md", f"{MORE_HEAD}5. {sentence}"))
        lesson_kinds |= {n.kind for item in lesson.items for n in walk(item) if hasattr(n, "kind")}
    assert set(BY_KIND) - lesson_kinds <= {"call it", "cut", "begin from", "repeat"}
    assert all(BY_LEAD.values())

"""A text read again with a memory of the last reading gives exactly what reading it afresh gives.

The outside standard is the reading without a memory itself; that one is tested against the language.
"""

from __future__ import annotations

import random
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.diagnostics import Source
from tapewright.language import Lesson, Memory, read_lesson
from tests.lessons import lesson_text

HOME = Path(__file__).parents[2] / "src" / "tapewright" / "library"

LESSON = lesson_text(
    "Begin at A, with the centre back on the left and the centre front on the right.",
    "From A down to B: the nape to waist. From A across to C: half the bust plus half the ease.",
    "Let the gap be half the ease. Square across from B and down from C to D; call it the hem.",
    "Draw a curve from A through D to C, passing D plumb; call it the long seam.",
    "See that the long seam is at least the nape to waist.",
    "If the gap is at least 3 cm, from D up to K: 1 cm; otherwise from D up to K: 2 cm.",
    "See that A-B is the nape to waist.",
    "See that A-B is the nape to waist.",
    "Let the back be the outline A to D, to C by the long seam, to A.",
    "Cut the back twice of calico, with A-B on the grain, leaving the gap everywhere.",
    "Let the gap width be twice the gap. Mark the long seam at D, one notch.",
)

#: What is typed: pieces that come to be names, end sentences, break words, make and unmake items.
TYPED = (
    " ", "a", "the ", "gap", "hem", "long ", "seam", "; call it the hem", ". ", ";", "\n", "\n\n", "\n3. ",
    "A", "B1", "'s", "’s A", "1/2", " in", "Let the gap be 3 cm. ", "- hip\n", "## Making up\n", "*", "|", "[", "<b>",
)  # fmt: skip


def whole(node: Any) -> Any:
    """A tree as plain tuples, spans included, which equality of trees leaves out."""
    if isinstance(node, tuple | list):
        return tuple(whole(one) for one in node)
    if is_dataclass(node) and not isinstance(node, type):
        return (type(node).__name__, *(whole(getattr(node, f.name)) for f in fields(node)))
    return node


def same(remembered: Lesson, fresh: Lesson) -> None:
    """The two are alike to the last span and query."""
    assert whole(remembered) == whole(fresh)


@given(
    st.lists(
        st.tuples(st.floats(0, 1, exclude_max=True), st.integers(0, 12), st.sampled_from(TYPED)), max_size=12
    )
)
def test_any_run_of_edits_reads_as_it_would_afresh(edits: list[tuple[float, int, str]]) -> None:
    """Letters typed and wiped out anywhere, one after another: tree, spans and queries are those of no memory."""
    memory, text = Memory(), LESSON
    for place, wiped, typed in edits:
        at = int(place * len(text))
        text = text[:at] + typed + text[at + wiped :]
        same(read_lesson(Source("t", text), memory=memory), read_lesson(Source("t", text)))


@pytest.mark.parametrize("name", ["a-womans-body-block", "a-mans-body-block"])
def test_a_shipped_lesson_worked_over_reads_as_it_would_afresh(name: str) -> None:
    """Lines of a whole lesson moved, doubled, wiped out and put back, forty times."""
    rng = random.Random(1756)
    text = (HOME / f"{name}.md").read_text(encoding="utf-8")
    memory, lines = Memory(), text.split("\n")
    for _ in range(40):
        at, to = rng.randrange(len(lines)), rng.randrange(len(lines))
        match rng.randrange(4):
            case 0:
                lines.insert(to, lines.pop(at))
            case 1:
                lines.insert(to, lines[at])
            case 2:
                lines.pop(at)
            case _:
                lines = text.split("\n")
        source = Source("t", "\n".join(lines))
        same(read_lesson(source, memory=memory), read_lesson(source))


def test_a_name_that_comes_or_goes_is_noticed_in_what_stands_as_it_stood() -> None:
    """A sentence whose own text is untouched is read anew when a name in it begins or ceases to be one."""
    memory = Memory()
    plain = lesson_text("Begin at A.", "From A down to B: the back length.")
    named = plain.replace("Begin at A.", "Begin at A. Let the back length be 40 cm.")
    alone = lesson_text("Begin at A.", "From the block's A down to B: 4 cm.")
    owned = alone.replace("Begin at A.", "Begin at A. Let the block be 4 cm.")
    for text in (plain, named, plain, owned, alone, owned, named):
        same(read_lesson(Source("t", text), memory=memory), read_lesson(Source("t", text)))


def test_what_was_asked_about_is_asked_about_again() -> None:
    """A sentence that reads but gives rise to a question gives rise to it at every reading."""
    memory = Memory()
    text = lesson_text("Begin at A.", "Let the up be 4 cm.")
    first = read_lesson(Source("t", text), memory=memory)
    assert first.queries
    same(read_lesson(Source("t", text), memory=memory), first)


def test_a_doubled_declaration_outlives_the_first() -> None:
    """A name declared twice is still declared when the sentence that declared it first is wiped out."""
    memory = Memory()
    both = lesson_text(
        "Let the gap be 1 cm.", "Let the gap be 2 cm.", "Begin at A. From A down to B: the gap."
    )
    one = both.replace("1. Let the gap be 1 cm.\n", "")
    for text in (both, one, both):
        same(read_lesson(Source("t", text), memory=memory), read_lesson(Source("t", text)))


def test_an_unchanged_text_gives_the_very_same_sentences() -> None:
    """Nothing is read again that has not moved: the sentences are the same objects."""
    memory = Memory()
    first = read_lesson(Source("t", LESSON), memory=memory)
    again = read_lesson(Source("t", LESSON), memory=memory)
    kept = [a.sentences is b.sentences for a, b in zip(first.items, again.items, strict=True)]
    assert all(kept)

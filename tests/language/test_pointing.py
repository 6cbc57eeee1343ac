"""Sentences pointed together, slot by slot; the sentences are those of the handbook drafts."""

from __future__ import annotations

from pathlib import Path

import pytest

from tapewright.diagnostics import Source
from tapewright.language import BY_KIND, Lesson, Sentence, Unread, read_lesson, show_clause
from tapewright.language.pattern import Style
from tapewright.language.pointing import PRESSED, filled_from, pointed, slots_of, with_slots
from tapewright.language.slots import KINDS
from tapewright.language.standing import standing
from tapewright.language.tokens import Names

ROOT = Path(__file__).parents[2]
BOOKS = sorted((ROOT / "tests" / "handbooks").glob("*.md"))
NONE = Style()


def read(path: Path) -> Lesson:
    return read_lesson(Source(path.name, path.read_text(encoding="utf-8")))


@pytest.mark.parametrize("path", BOOKS, ids=lambda p: p.stem)
def test_every_sentence_of_a_book_can_be_pointed_together(path: Path) -> None:
    """Its slots, filled with their own words, make the sentence that the printer prints, and none before."""
    lesson = read(path)
    style = Style(frozenset(t.name for t in lesson.tapes))
    tried = 0
    for item in lesson.items:
        names = standing(lesson, item.span.start, item.span.end).names
        for said in item.sentences:
            for clause in said.clauses if isinstance(said, Sentence) else ():
                assert not isinstance(clause, Unread)
                filled = filled_from(clause, style)
                made = pointed(clause.kind, filled, names, style, then=clause.then)
                assert made == f"{show_clause(clause, style)}."
                for slot in slots_of(clause.kind, filled):
                    if slot.needed and slot.kind != "words":
                        less = {name: said for name, said in filled.items() if name != slot.name}
                        if slots_of(clause.kind, less) == slots_of(clause.kind, filled):
                            assert pointed(clause.kind, less, names, style, then=clause.then) is None
                            assert f"[{slot.label}]" in with_slots(clause.kind, less)
                            tried += 1
    assert tried


@pytest.mark.parametrize("kind", sorted(BY_KIND))
def test_every_slot_of_every_kind_says_what_may_be_pressed(kind: str) -> None:
    """Each slot has a label and something to press; every kind has a slot that it cannot do without."""
    slots = slots_of(kind)
    assert all(slot.label and slot.pressed for slot in slots)
    assert any(slot.needed for slot in slots)
    assert set(KINDS) <= set(PRESSED)


def test_slots_come_in_the_order_of_the_sentence() -> None:
    """Square: which way, from where, a new letter, and on which line; only the letter is needed."""
    slots = slots_of("square")
    assert [s.name for s in slots][:2] == ["way", "start"]
    assert [s.name for s in slots if s.needed] == ["new"]
    assert with_slots("square", {"way": "down", "start": "K"}) == "Square down from K to [a new letter]"
    named = pointed("square", {"way": "down", "start": "K", "new": "L", "reach": "5 cm"}, Names(), NONE)
    assert named == "Square down from K to L: 5 cm."


def test_the_slots_that_are_filled_choose_the_way_to_sweep() -> None:
    """A sweep by a radius, or from a point: what is filled decides which slots come next."""
    assert "radius" in {s.name for s in slots_of("sweep")}
    later = {s.name for s in slots_of("sweep", {"start": "B"})}
    assert "radius" not in later
    assert "start" in later


def test_what_is_no_reading_of_a_slot_makes_no_sentence() -> None:
    """A length that cannot be read leaves the sentence unmade, and does not raise."""
    assert pointed("square", {"start": "K", "new": "L", "reach": "so so far"}, Names(), NONE) is None
    assert pointed("square", {"start": "K", "new": "l"}, Names(), NONE) is None

"""What the last reading of a text found, so that only what has changed is read again.

An item whose text stands as it stood, and in which no name of another meaning could now be matched, gives
the same sentences as before, only moved to where it stands now. What gave rise to a query, or rests on
more than its own text, is not kept. A reading with a memory gives exactly the tree, the spans and the
queries of one without.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Any

from tapewright.diagnostics import Span
from tapewright.language.lesson import IfSentence, Sentence
from tapewright.language.tokens import Names
from tapewright.language.walking import PLAIN, parts_of


@dataclass(frozen=True, slots=True)
class Kept:
    """One item as it was read: where, its sentences, every word in it, and what it declared.

    `before` is how many names were declared before it.
    """

    at: int
    said: tuple[Sentence | IfSentence, ...]
    words: frozenset[str]
    before: int
    points: tuple[str, ...]
    names: tuple[str, ...]


class Memory:
    """The items of one text; to be given to every reading of it in turn."""

    __slots__ = ("_apart", "_items", "_met", "_names", "_now", "_old", "_old_names", "_then")

    def __init__(self) -> None:
        self._items: dict[tuple[str, int], Kept] = {}
        self._names: list[str] = []
        self.begin()

    def begin(self) -> None:
        """A reading begins: what is there is what the last one found."""
        self._old, self._items = self._items, {}
        self._old_names, self._names = self._names, []
        self._met: Counter[str] = Counter()
        # The names declared in the one reading and not in the other, up to the places now compared.
        self._apart: set[str] = set()
        self._then = self._now = 0

    def end(self, names: Names) -> None:
        """A reading has ended; these names were declared in it."""
        self._names = list(names.order)

    def find(self, text: str, at: int, names: Names) -> Kept | None:
        """The item of this text, which now begins at `at`, if it would be read as it was."""
        self._met[text] += 1
        key = (text, self._met[text])
        kept = self._old.get(key)
        if kept is None or not self._matched_alike(kept, names):
            return None
        by = at - kept.at
        said = tuple([moved(one, by) for one in kept.said]) if by else kept.said
        now = Kept(at, said, kept.words, len(names.order), kept.points, kept.names)
        self._items[key] = now
        return now

    def keep(self, text: str, kept: Kept) -> None:
        """Keep an item that was looked for and had to be read."""
        self._items[text, self._met[text]] = kept

    def _matched_alike(self, kept: Kept, names: Names) -> bool:
        """Whether no name that is declared before the item in one reading only could stand in it."""
        self._apart.symmetric_difference_update(names.order[self._now :])
        self._now = len(names.order)
        first, last = sorted((self._then, kept.before))
        self._apart.symmetric_difference_update(self._old_names[first:last])
        self._then = kept.before
        words = kept.words
        return not any(
            word in words or f"{word}'s" in words for word in {name.split()[0] for name in self._apart}
        )


def moved(node: Any, by: int) -> Any:
    """A tree with every span in it moved along the text.

    Made field by field and not through the classes: a frozen record's own way of being made takes twice as
    long, and this is done to every node of a lesson for every letter that is typed.
    """
    kind = node.__class__
    if kind is tuple:
        return tuple([moved(one, by) for one in node])
    if kind is Span:
        return Span(node.start + by, node.end + by)
    parts = parts_of(kind)
    if not parts:
        return node
    out = object.__new__(kind)
    for name in parts:
        value = getattr(node, name)
        if value.__class__ is Span:
            value = Span(value.start + by, value.end + by)
        elif value.__class__ not in PLAIN:
            value = moved(value, by)
        object.__setattr__(out, name, value)
    return out

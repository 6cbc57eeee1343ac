"""What stands before a place in a lesson: the letters, the lines, and what each name is the name of."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from string import ascii_uppercase

from tapewright.language.clause import Clause, Unread
from tapewright.language.lesson import IfSentence, Lesson, Sentence
from tapewright.language.making import made_by
from tapewright.language.reading import KNOWN_CLOTHS, KNOWN_PLACES
from tapewright.language.sentences import CallIt
from tapewright.language.tokens import Names
from tapewright.language.tree import Place
from tapewright.language.walking import walk


@dataclass(frozen=True, slots=True)
class Standing:
    """Letters in the order in which they were made; straight lines by their ends; names with their sorts.

    The sorts are those of the lists (measure, tape, by eye, choice, cloth, table, shape) and of the
    sentences (line, dart, outline, draft, amount, unknown, place).
    """

    names: Names
    letters: tuple[str, ...]
    rulers: tuple[tuple[str, str], ...]
    sorts: tuple[tuple[str, str], ...]

    def of(self, sort: str) -> Iterator[str]:
        """The names of a sort, the latest first."""
        return (name for name, its in reversed(self.sorts) if its == sort)


def standing(lesson: Lesson, item_start: int, at: int) -> Standing:
    """What stands before the sentence at `at`, in the item that begins at `item_start`.

    Lists count wherever they are; sentences only if they stand above, or before in the same item.
    """
    names = Names((*KNOWN_CLOTHS, *KNOWN_PLACES))
    sorts: dict[str, str] = dict.fromkeys(KNOWN_PLACES, "place")
    letters: dict[str, None] = {}
    rulers: dict[tuple[str, str], None] = {}
    for _, inner in lesson.placed:
        points, made = inner.made()
        letters |= dict.fromkeys(points)
        sorts |= dict.fromkeys((*inner.listed(), *made), "amount")
    sorts |= _listed(lesson)
    for table in lesson.tables:
        names.tables[table.name] = table.columns
    for clause, called in _clauses(lesson, item_start, at):
        for name in made_by(clause):
            if name[:1].isupper():
                letters[name] = None
            else:
                sorts.pop(name, None)
                sorts[name] = called if isinstance(clause, Unread | CallIt) else clause.naming or called
        if isinstance(clause, Clause):
            sorts |= {node.name: "place" for node in walk(clause) if isinstance(node, Place)}
            for drawn in clause.drawn():
                if drawn.sort == "straight" and drawn.ends is not None:
                    rulers[drawn.ends] = None
    for name in sorts:
        names.add(name)
    return Standing(names, tuple(letters), tuple(rulers), tuple(sorts.items()))


def _listed(lesson: Lesson) -> dict[str, str]:
    return {
        **dict.fromkeys((e.name for e in lesson.measures), "measure"),
        **dict.fromkeys((e.name for e in lesson.tapes), "tape"),
        **dict.fromkeys((e.name for e in lesson.by_eye), "by eye"),
        **dict.fromkeys((e.name for e in lesson.choices), "choice"),
        **dict.fromkeys((e.name for e in lesson.cloths), "cloth"),
        **dict.fromkeys((e.name for e in lesson.tables), "table"),
        **dict.fromkeys((e.name for e in lesson.shapes), "shape"),
    }


def _clauses(lesson: Lesson, item_start: int, at: int) -> Iterator[tuple[Clause | Unread, str]]:
    """The clauses before a place, each with what `call it` would name after the one before it."""
    for item in lesson.items:
        if item.span.start > item_start:
            return
        for said in item.all():
            called = "line"
            for clause in _of(said):
                if item.span.start == item_start and clause.span.end >= at:
                    break
                if isinstance(clause, CallIt):
                    yield clause, called
                else:
                    yield clause, "amount"
                    called = clause.called if isinstance(clause, Clause) else "line"


def _of(said: Sentence | IfSentence) -> tuple[Clause | Unread, ...]:
    return said.clauses if isinstance(said, Sentence) else (*said.then, *said.otherwise)


def free_letter(letters: tuple[str, ...]) -> str:
    """The first letter that no point has: A to Z without I and O, which look like figures, then A1 on."""
    taken = set(letters)
    plain = [c for c in ascii_uppercase if c not in "IO"]
    every = (*plain, *(f"{c}{n}" for n in range(1, 100) for c in plain))
    return next((one for one in every if one not in taken), "")

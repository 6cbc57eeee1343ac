"""Every amount that a lesson's drafting sentences say outright, and the lesson with one of them changed.

An amount said outright is a constant, a number of parts, a fraction or a share, or the half of `Divide ...
in half`; what a name stands for is not. The fillings of the tapes count too. The amounts of `See that` are
what catches a change and are never changed; those of the By eye list are the maker's own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from fractions import Fraction
from typing import Any

from tapewright.language import Lesson
from tapewright.language import sentences as s
from tapewright.language.tree import Constant, Parts, Ruler, Share, Times, Total, Toward

#: What a length is changed by, and an angle.
CENTIMETRE = Constant(Fraction(1), "cm")
DEGREES = 4

Way = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Said:
    """One amount: the sentence it stands in (0: the list of tapes), as it is written, and where in the
    tree. `start` tells two of the same words in one sentence apart.
    """

    sentence: int
    words: str
    start: int
    way: Way
    sort: str

    def __str__(self) -> str:
        return f"{self.sentence or 'tapes'}: {self.words}"


def amounts(lesson: Lesson) -> tuple[Said, ...]:
    """Every amount said outright, in the order of the text."""
    found = [said for i, _ in enumerate(lesson.tapes) for said in _within(lesson, ("tapes", i, "whole"), 0)]
    for i, item in enumerate(lesson.items):
        for j, sentence in enumerate(item.sentences):
            for k, clause in enumerate(getattr(sentence, "clauses", ())):
                if not isinstance(clause, s.SeeThat):
                    way = ("items", i, "sentences", j, "clauses", k)
                    found += _within(lesson, way, item.number)
    return tuple(sorted(found, key=lambda said: (said.sentence, said.start)))


def _within(lesson: Lesson, way: Way, sentence: int) -> Iterator[Said]:
    node = _at(lesson, way)
    sort = {Constant: "constant", Parts: "parts", Times: "fraction", Share: "share"}.get(type(node))
    if isinstance(node, s.Divide) and node.middle is not None:
        sort = "half"
    if sort is not None:
        words = lesson.source.text[node.span.start : node.span.end]
        yield Said(sentence, " ".join(words.split()), node.span.start, way, sort)
    for name, inner in _inside(node):
        if isinstance(inner, tuple):
            for i, one in enumerate(inner):
                if is_dataclass(one):
                    yield from _within(lesson, (*way, name, i), sentence)
        elif is_dataclass(inner):
            yield from _within(lesson, (*way, name), sentence)


def _inside(node: Any) -> Iterator[tuple[str, Any]]:
    for field in fields(node):
        if field.name != "span":
            yield field.name, getattr(node, field.name)


def _at(node: Any, way: Way) -> Any:
    for step in way:
        node = node[step] if isinstance(step, int) else getattr(node, step)
    return node


def node_of(lesson: Lesson, said: Said) -> object:
    """The node of the tree that an amount is."""
    node: object = _at(lesson, said.way)
    return node


def changed(lesson: Lesson, said: Said, sign: int) -> Lesson:
    """The lesson with one amount a centimetre (or four degrees) more, or less where `sign` is -1."""
    new: Lesson = _put(lesson, said.way, _moved(_at(lesson, said.way), sign))
    return new


def _moved(node: Any, sign: int) -> Any:
    if isinstance(node, Constant) and node.unit == "degrees":
        return replace(node, number=node.number + sign * DEGREES)
    if isinstance(node, s.Divide):
        # The middle of a straight line, a centimetre off.
        assert isinstance(node.line, Ruler)
        assert node.middle is not None
        half = Total((1, sign), (Times(Fraction(1, 2), node.line, node.span), CENTIMETRE), node.span)
        toward = Toward(node.line.b, node.span)
        return s.From(
            starts=(node.line.a,),
            way=toward,
            news=(node.middle,),
            reach=(half,),
            span=node.span,
            then=node.then,
        )
    return Total((1, sign), (node, replace(CENTIMETRE)), node.span)


def _put(node: Any, way: Way, new: Any) -> Any:
    if not way:
        return new
    step, rest = way[0], way[1:]
    if isinstance(step, int):
        return (*node[:step], _put(node[step], rest, new), *node[step + 1 :])
    return replace(node, **{step: _put(getattr(node, step), rest, new)})

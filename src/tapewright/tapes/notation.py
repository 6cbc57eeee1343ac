"""Notations: how readings of a tape are written, as data with the source each comes from.

A notation is a record read from a small text (`notation_file.py`); the shipped ones are such texts in
`notations/`. Plain fractions are the default, and no period leads. Writing a reading and reading it back is
`writing.py`; what stands along the edges of a printed tape is `graduation.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import cached_property
from itertools import groupby, pairwise
from math import lcm


class Way(StrEnum):
    """How a notation is read, in the words its text says it with."""

    PLAIN = "fractions and parts"
    FRACTIONS = "fractions"
    PARTS = "parts"
    ALONE = "alone"
    ADDED = "added"
    BOTH = "added and taken away"

    @property
    def by_marks(self) -> bool:
        """Whether readings are made of the notation's own marks."""
        return self in {Way.ALONE, Way.ADDED, Way.BOTH}


class Edge(StrEnum):
    """Which edge of a tape a mark stands on."""

    UPPER = "upper"
    LOWER = "lower"


@dataclass(frozen=True, slots=True)
class NotationMark:
    """A mark: how it is written, which share of the whole it is, what it is called, and on which edge."""

    sign: str
    share: Fraction
    said: str = ""
    edge: Edge = Edge.UPPER


@dataclass(frozen=True, slots=True)
class Counting:
    """Greater and smaller units that parts are counted in, the greatest first: 144 pied, 12 pouce, 1 ligne.

    It holds on a tape of `parts` parts only.
    """

    units: tuple[tuple[int, str], ...]
    parts: int


@dataclass(frozen=True)
class Notation:
    """A notation.

    `name` is its word on the command line, `title` what it is called, `source` where it comes from, `prose`
    what its key says. `parts` is how many parts a tape has in it where no lesson says; `finest` the smallest
    share of a part that is written; `halved` says that the usual tapes of girths are of half the girth.
    """

    name: str
    title: str
    source: str
    way: Way
    marks: tuple[NotationMark, ...] = ()
    parts: int | None = None
    finest: Fraction = Fraction(1, 4)
    counting: Counting | None = None
    halved: bool = False
    prose: tuple[str, ...] = ()

    @cached_property
    def letters(self) -> tuple[NotationMark, ...]:
        """The marks that are not put together of others, the largest first."""
        found = [m for m in self.marks if made_of(m.sign, [o.sign for o in self.marks if o != m]) is None]
        return tuple(sorted(found, key=lambda m: (-m.share, m.sign)))

    @cached_property
    def examples(self) -> tuple[NotationMark, ...]:
        """The marks that are put together of others: written out in the source, and true by its rule."""
        return tuple(m for m in self.marks if m not in self.letters)

    @cached_property
    def common(self) -> int:
        """The common denominator of the marks' shares."""
        return lcm(*(m.share.denominator for m in self.marks)) if self.marks else 1

    @cached_property
    def denominators(self) -> frozenset[int]:
        """What a whole is divided into by the marks: 4, 2, 8, 16, 3, 6 and 12 on the ell ruler."""
        return frozenset(m.share.denominator for m in self.marks)


def made_of(text: str, signs: list[str]) -> tuple[str, ...] | None:
    """A text as signs side by side, the longest first at each place; spaces between them are nothing.

    None where it cannot be made of them.
    """
    ordered = sorted((s for s in signs if s), key=lambda s: (-len(s), s))
    found: list[str] = []
    at = 0
    while at < len(text):
        if text[at] == " ":
            at += 1
            continue
        sign = next((s for s in ordered if text.startswith(s, at)), None)
        if sign is None:
            return None
        found.append(sign)
        at += len(sign)
    return tuple(found) or None


@dataclass(frozen=True, slots=True)
class Value:
    """What marks side by side come to; `why` says why they come to nothing certain, empty where they do."""

    share: Fraction
    why: str = ""


TWO_WAYS = "two ways"
BELOW = "below nothing"
SEVERAL = "several alone"


def value_of(marks: list[NotationMark], way: Way) -> Value:
    """What marks side by side come to by the notation's rule.

    *Alone*: one mark. *Added*: their sum. *Added and taken away*: marks of one size in a row are one
    amount; such an amount directly before a larger one is taken away, else it is added. That is all the
    rule that was handed down says (`sob` it leaves open: is the sixth before the whole, or after nothing?),
    so wherever "before a larger one" could mean the next or any later one, and these differ, or where two
    in succession would be taken away, it is `TWO_WAYS`, and nobody guesses.
    """
    if way is Way.ALONE:
        return Value(marks[0].share, "" if len(marks) == 1 else SEVERAL)
    if way is Way.ADDED:
        return Value(sum((m.share for m in marks), Fraction(0)))
    runs = [(size, size * len(list(same))) for size, same in groupby(marks, key=lambda m: m.share)]
    sizes = [size for size, _ in runs]
    next_larger = [a < b for a, b in pairwise(sizes)] + [False]
    later_larger = [any(b > a for b in sizes[i + 1 :]) for i, a in enumerate(sizes)]
    total = sum(
        (-run if away else run for (_, run), away in zip(runs, next_larger, strict=True)), Fraction(0)
    )
    twice = any(a and b for a, b in pairwise(next_larger))
    if next_larger != later_larger or twice:
        return Value(total, TWO_WAYS)
    return Value(total, "" if total >= 0 else BELOW)

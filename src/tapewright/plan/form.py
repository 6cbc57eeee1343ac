"""Bound amounts: exact linear forms over what is measured, chosen and drawn.

An amount such as `1/6 of the neck tape and 3/4 part plus 1/2 in` is a Fraction of each base plus a Fraction
of a millimetre (or of a degree), and stays exact until geometry begins. What is not linear (a limit, a
filled measure) is a node of its own over such forms.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction


class Dimension(StrEnum):
    """What an amount is an amount of."""

    LENGTH = "length"
    ANGLE = "angle"


# --- bases ---------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class MeasureBase:
    """A measure of the sheet."""

    name: str


@dataclass(frozen=True, slots=True)
class TapeBase:
    """The whole of a tape."""

    name: str


@dataclass(frozen=True, slots=True)
class EyeBase:
    """A value of the By eye list."""

    name: str


@dataclass(frozen=True, slots=True)
class NamedBase:
    """An amount named by the draft: by Let, by Divide, or found by a Make."""

    name: str


@dataclass(frozen=True, slots=True)
class SpanBase:
    """The straight distance between two points."""

    a: str
    b: str


@dataclass(frozen=True, slots=True)
class LineBase:
    """The length of a drawn line by the tape."""

    line: int


@dataclass(frozen=True, slots=True)
class AlongBase:
    """The length of a drawn line between two points on it."""

    line: int
    a: str
    b: str


@dataclass(frozen=True, slots=True)
class CornerBase:
    """The angle of a corner."""

    a: str
    b: str
    c: str


@dataclass(frozen=True, slots=True)
class TableLookup:
    """A column of a table, by an amount."""

    table: str
    column: int
    by: Form


@dataclass(frozen=True, slots=True)
class NestedBase:
    """An amount in brackets that is not linear in itself."""

    form: Form


Base = (
    MeasureBase
    | TapeBase
    | EyeBase
    | NamedBase
    | SpanBase
    | LineBase
    | AlongBase
    | CornerBase
    | TableLookup
    | NestedBase
)


# --- forms ---------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Linear:
    """A Fraction of each base plus a constant, in mm or in degrees; bases in order of first mention."""

    dimension: Dimension
    terms: tuple[tuple[Base, Fraction], ...] = ()
    constant: Fraction = Fraction(0)

    def times(self, factor: Fraction) -> Linear:
        """The form, each term multiplied."""
        terms = tuple((base, k * factor) for base, k in self.terms)
        return Linear(self.dimension, terms, self.constant * factor)

    def plus(self, other: Linear, sign: int = 1) -> Linear:
        """The sum of two forms of one dimension."""
        found = dict(self.terms)
        for base, k in other.terms:
            found[base] = found.get(base, Fraction(0)) + sign * k
        terms = tuple((base, k) for base, k in found.items() if k)
        return Linear(self.dimension, terms, self.constant + sign * other.constant)

    @property
    def is_constant(self) -> bool:
        """True for a length that does not grow with the body."""
        return not self.terms


@dataclass(frozen=True, slots=True)
class Taken:
    """The first where its measures were taken, the other where not."""

    first: Form
    otherwise: Form

    @property
    def dimension(self) -> Dimension:
        return self.first.dimension


@dataclass(frozen=True, slots=True)
class Bounded:
    """A form held at most, at least."""

    form: Form
    most: Form | None = None
    least: Form | None = None

    @property
    def dimension(self) -> Dimension:
        return self.form.dimension


Form = Linear | Taken | Bounded


def as_linear(form: Form) -> Linear:
    """The form itself if linear, else one nested term of it."""
    if isinstance(form, Linear):
        return form
    return Linear(form.dimension, ((NestedBase(form), Fraction(1)),))


def bases(form: Form) -> Iterator[Base]:
    """Every base a form may read, nested ones included."""
    match form:
        case Linear(_, terms):
            for base, _ in terms:
                if isinstance(base, NestedBase):
                    yield from bases(base.form)
                elif isinstance(base, TableLookup):
                    yield from bases(base.by)
                else:
                    yield base
        case Taken(first, otherwise):
            yield from bases(first)
            yield from bases(otherwise)
        case Bounded(inner, most, least):
            for part in (inner, most, least):
                if part is not None:
                    yield from bases(part)

"""The tree a lesson becomes: places, lines and amounts, each with its span.

Syntax only: nothing here knows what a name stands for. Nodes are compared without their spans, so that
printing and reading back can be tested for equality.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from tapewright.diagnostics import Span

NOWHERE = Span(0, 0)


def where() -> Span:
    """The span field of every node: kept, shown, never compared."""
    return field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class PointRef:
    """A point used: `A`, `B2`, `K'`."""

    name: str
    span: Span = where()


@dataclass(frozen=True, slots=True)
class NewPoint:
    """A point made here."""

    name: str
    span: Span = where()


@dataclass(frozen=True, slots=True)
class NameRef:
    """A declared name used."""

    name: str
    span: Span = where()


@dataclass(frozen=True, slots=True)
class NewName:
    """A name made here."""

    name: str
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Unknown:
    """Words where a name should stand, but none is declared that way; the plan asks about them."""

    words: str
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Ruler:
    """`A-B`, the straight line between two points."""

    a: PointRef
    b: PointRef
    span: Span = where()


@dataclass(frozen=True, slots=True)
class CornerRef:
    """`A-B-C`, the corner at B."""

    a: PointRef
    b: PointRef
    c: PointRef
    span: Span = where()


@dataclass(frozen=True, slots=True)
class CurveBetween:
    """`the curve A-B`, the one curve with those ends."""

    a: PointRef
    b: PointRef
    span: Span = where()


Path = Ruler | NameRef | CurveBetween | Unknown


@dataclass(frozen=True, slots=True)
class LineRef:
    """A line to go along or to meet, perhaps `carried on` beyond its ends."""

    path: Path
    carried_on: bool = False
    span: Span = where()


# --- amounts -------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Constant:
    """A length or an angle in a unit: `2 in`, `26 degrees`. `unit` is the unit's own short name."""

    number: Fraction
    unit: str
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Bare:
    """A number without a unit. Only 0 may stand so; the plan asks about any other."""

    number: Fraction
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Parts:
    """`2 parts of the bust tape`; `tape` is None for the usual tape.

    `goes_on` tells that no tape was named: the parts follow a fraction of `tape`, and belong to it if that
    is a tape at all, else to the usual one.
    """

    number: Fraction
    tape: NameRef | Unknown | None
    goes_on: bool = field(default=False, compare=False)
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Times:
    """A fraction or a multiple of one thing: `half A-B`, `twice L-K`, `1/6 of the neck tape`."""

    factor: Fraction
    thing: Amount
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Total:
    """Amounts added and taken away, in order; each sign is 1 or -1, the first always 1."""

    signs: tuple[int, ...]
    terms: tuple[Amount, ...]
    span: Span = where()


@dataclass(frozen=True, slots=True)
class IfTaken:
    """`the scye depth if taken, otherwise ...`."""

    taken: Amount
    otherwise: Amount
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Limited:
    """`..., but not more than ..., but not less than ...`."""

    amount: Amount
    most: Amount | None
    least: Amount | None
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Along:
    """`along the back scye from K to L`: a piece of a line, by the tape."""

    path: Path
    start: PointRef
    end: PointRef
    span: Span = where()


@dataclass(frozen=True, slots=True)
class LookedUp:
    """`the scye depth for the chest in the boys' sizes`: a column of a table, by an amount."""

    column: str
    by: Amount
    table: NameRef | Unknown
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Rest:
    """`the rest`, in a Divide."""

    span: Span = where()


@dataclass(frozen=True, slots=True)
class Share:
    """A bare fraction of what is being divided, in a Divide: `a third`."""

    factor: Fraction
    span: Span = where()


Amount = (
    Constant
    | Bare
    | Parts
    | Times
    | Total
    | IfTaken
    | Limited
    | Along
    | LookedUp
    | Rest
    | Share
    | Ruler
    | CurveBetween
    | CornerRef
    | NameRef
    | Unknown
)


# --- ways, ends and choices ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Compass:
    """A direction of the paper: up, down, left, right, or across (away from the first edge)."""

    word: str
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Toward:
    """`toward X`: a point, a place, a line (the shortest way to it) or a direction of the paper."""

    target: PointRef | NameRef | Ruler | Compass | Unknown
    span: Span = where()


@dataclass(frozen=True, slots=True)
class AlongLine:
    """`along the waist line`, the way it was drawn; `both` for both ways."""

    line: LineRef
    both: bool = False
    span: Span = where()


@dataclass(frozen=True, slots=True)
class SquareTo:
    """`square to S-T toward D`."""

    path: Path
    toward: Toward | None
    span: Span = where()


@dataclass(frozen=True, slots=True)
class AtAngle:
    """`at 15 degrees from K-L toward D`."""

    angle: Amount
    path: Path
    toward: Toward | None
    span: Span = where()


@dataclass(frozen=True, slots=True)
class IntoCorner:
    """`into the corner A-B-D`: half-way between its arms."""

    corner: CornerRef
    span: Span = where()


@dataclass(frozen=True, slots=True)
class BareWay:
    """`in`, `out`, `back`, `forward`: words that do not say which way. The plan asks."""

    word: str
    span: Span = where()


Way = Compass | Toward | AlongLine | SquareTo | AtAngle | IntoCorner | BareWay


@dataclass(frozen=True, slots=True)
class Crossing:
    """Which crossing is meant: `upper`, `lower`, `left`, `right`, `nearer` or `farther` with a point."""

    which: str
    point: PointRef | None = None
    span: Span = where()


@dataclass(frozen=True, slots=True)
class End:
    """`on the hem line, the crossing nearer B`."""

    line: LineRef
    crossing: Crossing | None = None
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Offset:
    """One of two offsets: `1/2 in left`."""

    amount: Amount
    way: Compass | Toward
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Leaning:
    """How a curve goes at one of its letters.

    `verb` is leaving, passing or reaching; `how` is `level`, `plumb`, a SquareTo (without side), a Toward
    or an AlongLine.
    """

    verb: str
    point: PointRef
    how: str | SquareTo | Toward | AlongLine
    span: Span = where()


@dataclass(frozen=True, slots=True)
class EdgeRun:
    """One edge of an outline: to which point, by which line (None: the straight way)."""

    to: PointRef
    by: Path | None = None
    span: Span = where()


Edge = NameRef | Ruler | CurveBetween | Along | Unknown


# --- what some kinds of sentence need for themselves ---------------------------------------------------


@dataclass(frozen=True, slots=True)
class Place:
    """`the centre back on the left`."""

    name: str
    side: str
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Setting:
    """`the scye drop at 1/4 in`: a value by eye of a draft that is begun from."""

    name: str
    amount: Amount
    span: Span = where()


@dataclass(frozen=True, slots=True)
class NewRuler:
    """`C-D` where both letters are made."""

    a: NewPoint
    b: NewPoint
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Portion:
    """`a third as the back taking`."""

    share: Amount
    name: NewName
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Cutting:
    """`twice of cloth`."""

    count: int
    cloth: NameRef | Unknown
    span: Span = where()


@dataclass(frozen=True, slots=True)
class Turning:
    """`2 cm at the back side and the back shoulder`; `at` is empty for everywhere and elsewhere.

    `amount` is None for `nothing`, for `enough` and where a table says how much; `rest` is everywhere, elsewhere
    or nothing at all. `finish` is how its corners are cut or its edge is finished, `table` the title of a table
    of turnings.
    """

    amount: Amount | None
    at: tuple[Edge, ...] = ()
    rest: str = ""
    span: Span = where()
    finish: str = ""
    table: str = ""


@dataclass(frozen=True, slots=True)
class MarkAt:
    """`the shoulder at 1 in from N`, or `the back scye at T`."""

    edge: Edge
    point: PointRef
    distance: Amount | None = None
    span: Span = where()

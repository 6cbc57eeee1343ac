"""`Draw an arc from A through B to C.` `... from A to C, 2 cm high toward D.` Arcs of several kinds."""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, CornerRef, NewPoint, Path, PointRef, Toward


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class ArcSquare(Clause):
    """An arc square to two lines, from a point on the first to a new point on the second."""

    kind: ClassVar[str] = "arc square to two lines"
    leads: ClassVar[tuple[str, ...]] = ("Draw",)
    template: ClassVar[str] = (
        "Draw an arc from {start:point} to {new:new} on {line:path}, square to {one:path} and {other:path}"
    )
    yields: ClassVar[str] = "an arc and the point where it ends"

    start: PointRef
    new: NewPoint
    line: Path
    one: Path
    other: Path

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("curve", (self.start.name, self.new.name)),)


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Arc(Clause):
    """A piece of a circle through three points, or between two with its height."""

    kind: ClassVar[str] = "arc"
    leads: ClassVar[tuple[str, ...]] = ("Draw",)
    template: ClassVar[str] = (
        "Draw an arc from {start:point} (through {middle:point} to {stop:point}"
        " | to {stop:point}, {height:amount} high {toward:toward})"
    )
    yields: ClassVar[str] = "an arc"

    start: PointRef
    middle: PointRef | None = None
    stop: PointRef
    height: Amount | None = None
    toward: Toward | None = None

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("arc", (self.start.name, self.stop.name)),)


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class QuarterRound(Clause):
    """A quarter round in a corner: it leaves and reaches the two arms along them."""

    kind: ClassVar[str] = "quarter round"
    leads: ClassVar[tuple[str, ...]] = ("Draw",)
    template: ClassVar[str] = "Draw a quarter round from {start:point} to {stop:point} in {corner:corner}"
    yields: ClassVar[str] = "a curve"

    start: PointRef
    stop: PointRef
    corner: CornerRef

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("curve", (self.start.name, self.stop.name)),)

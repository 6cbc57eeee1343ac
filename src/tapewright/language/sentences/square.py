"""`Square down from K to L on the hem line.` Right angles, until they meet."""

from dataclasses import dataclass, replace
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, End, NewPoint, PointRef, Way


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Square(Clause):
    """A line square to the paper's edges or to a line; with two starts, the corner of a rectangle."""

    kind: ClassVar[str] = "square"
    leads: ClassVar[tuple[str, ...]] = ("Square",)
    template: ClassVar[str] = (
        "Square [{way:way}] [from {start:point}] [and {way2:way} from {start2:point}] "
        "to {new:new} [on {end:end}] [: {reach:amount}]"
    )
    yields: ClassVar[str] = "a point and a line, two lines where it closes a rectangle"

    way: Way | None = None
    start: PointRef | None = None
    way2: Way | None = None
    start2: PointRef | None = None
    new: NewPoint
    end: End | None = None
    reach: Amount | None = None

    def starting(self, last: PointRef) -> "Square":
        return self if self.start else replace(self, start=last)

    def drawn(self) -> tuple[Drawn, ...]:
        starts = [s for s in (self.start, self.start2) if s is not None]
        return tuple(Drawn("straight", (s.name, self.new.name)) for s in starts)

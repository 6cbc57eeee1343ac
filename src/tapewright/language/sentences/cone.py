"""`Draw a cone from A-B across to C-D: 36 in at A and 56 in at B.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, NewRuler, PointRef, Ruler, Way


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Cone(Clause):
    """A cone unrolled from its slant: an arc of the length said at either end, and the other edge."""

    kind: ClassVar[str] = "cone"
    leads: ClassVar[tuple[str, ...]] = ("Draw",)
    template: ClassVar[str] = (
        "Draw a cone from {slant:ruler} {way:way} to {new:newruler}: "
        "{near:amount} at {a:point} and {far:amount} at {b:point}"
    )
    yields: ClassVar[str] = "two points, two arcs and an edge"

    slant: Ruler
    way: Way
    new: NewRuler
    near: Amount
    a: PointRef
    far: Amount
    b: PointRef

    def drawn(self) -> tuple[Drawn, ...]:
        return (
            Drawn("curve", (self.slant.a.name, self.new.a.name)),
            Drawn("curve", (self.slant.b.name, self.new.b.name)),
            Drawn("straight", (self.new.a.name, self.new.b.name)),
        )

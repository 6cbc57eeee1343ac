"""`Draw C-D parallel to A-B, 4 in down.` and `Draw J-L parallel to the neck, 2 in toward F.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, Edge, NewRuler, Offset


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Parallel(Clause):
    """A line at the same distance from another all along: straight beside a straight one, else bent as it is."""

    kind: ClassVar[str] = "parallel"
    leads: ClassVar[tuple[str, ...]] = ("Draw",)
    template: ClassVar[str] = "Draw {new:newruler} parallel to {line:edge}, {reach:reach}"
    yields: ClassVar[str] = "two points and a line"

    new: NewRuler
    line: Edge
    reach: Amount | Offset

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("straight", (self.new.a.name, self.new.b.name), like=self.line),)

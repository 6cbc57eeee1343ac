"""`Draw C-D parallel to A-B, 4 in down.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, NewRuler, Offset, Ruler


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Parallel(Clause):
    """A straight line of the same length, moved."""

    kind: ClassVar[str] = "parallel"
    leads: ClassVar[tuple[str, ...]] = ("Draw",)
    template: ClassVar[str] = "Draw {new:newruler} parallel to {line:ruler}, {reach:reach}"
    yields: ClassVar[str] = "two points and a straight line"

    new: NewRuler
    line: Ruler
    reach: Amount | Offset

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("straight", (self.new.a.name, self.new.b.name)),)

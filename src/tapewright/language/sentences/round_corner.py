"""`Round the corner A-B-C by 2 cm; call it the tab end.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, CornerRef, NewPoint


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class RoundCorner(Clause):
    """A corner cut round, so much off each arm; its two ends are the corner's letter primed, unless named."""

    kind: ClassVar[str] = "round a corner"
    leads: ClassVar[tuple[str, ...]] = ("Round",)
    template: ClassVar[str] = "Round {corner:corner} by {reach:amount}[, from {first:new} to {second:new}]"
    yields: ClassVar[str] = "a curve and its two ends"

    corner: CornerRef
    reach: Amount
    first: NewPoint | None = None
    second: NewPoint | None = None

    def ends(self) -> tuple[str, str]:
        """The letters of its two ends, toward the first arm and toward the second."""
        if self.first is not None and self.second is not None:
            return self.first.name, self.second.name
        return self.corner.b.name + "'", self.corner.b.name + "''"

    def also_makes(self) -> tuple[str, ...]:
        return () if self.first is not None else self.ends()

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("curve", self.ends()),)

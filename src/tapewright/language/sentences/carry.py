"""`Carry A-B to C on the hem line.` `Carry the shoulder seam beyond S to K: 2 cm.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, End, NewPoint, Path, PointRef


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Carry(Clause):
    """A line carried on beyond its end, to a line or by a length; a curve goes on straight as it left."""

    kind: ClassVar[str] = "carry"
    leads: ClassVar[tuple[str, ...]] = ("Carry",)
    template: ClassVar[str] = (
        "Carry {line:path} [beyond {past:point}] to {new:new} [on {end:end}] [: {reach:amount}]"
    )
    yields: ClassVar[str] = "a point and a straight line"

    line: Path
    past: PointRef | None = None
    new: NewPoint
    end: End | None = None
    reach: Amount | None = None

    def drawn(self) -> tuple[Drawn, ...]:
        # The plan fills in the end that is meant before it asks.
        return () if self.past is None else (Drawn("straight", (self.past.name, self.new.name)),)

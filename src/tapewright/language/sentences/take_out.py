"""`Take out 1 1/2 in at W on the waist line, from W1 to W2, lost at P; call it the front dart.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, LineRef, NewPoint, PointRef


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOut(Clause):
    """A dart: two points on a line, and two legs to the point where it is lost."""

    kind: ClassVar[str] = "take out"
    leads: ClassVar[tuple[str, ...]] = ("Take",)
    template: ClassVar[str] = (
        "Take out {amount:amount} {where=at|on each side of} {at:point} on {line:line}, "
        "from {first:new} to {second:new}, lost at {lost:point}"
    )
    yields: ClassVar[str] = "a dart, two points and its two legs"
    called: ClassVar[str] = "dart"

    amount: Amount
    where: str
    at: PointRef
    line: LineRef
    first: NewPoint
    second: NewPoint
    lost: PointRef

    def drawn(self) -> tuple[Drawn, ...]:
        return (
            Drawn("straight", (self.first.name, self.lost.name)),
            Drawn("straight", (self.lost.name, self.second.name)),
        )

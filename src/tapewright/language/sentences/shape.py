"""`Draw the shape "turnover" from A on squares of 1 nail.` `Draw the curve rule "sleeve" from A to B, ...`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, PointRef, Toward


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Shape(Clause):
    """A shape copied from squares: each of its points so many squares from a letter."""

    kind: ClassVar[str] = "shape"
    leads: ClassVar[tuple[str, ...]] = ("Draw",)
    template: ClassVar[str] = "Draw the shape {title:quoted} from {start:point} on squares of {square:amount}"
    yields: ClassVar[str] = "a curve, and the letters of its table"

    title: str
    start: PointRef
    square: Amount

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("curve", None),)


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class CurveRule(Clause):
    """A shape used as a curve rule: turned and scaled so that its ends fall on two letters."""

    kind: ClassVar[str] = "curve rule"
    leads: ClassVar[tuple[str, ...]] = ("Draw",)
    template: ClassVar[str] = (
        "Draw the curve rule {title:quoted} from {start:point} to {stop:point}, hollow {toward:toward}"
    )
    yields: ClassVar[str] = "a curve"

    title: str
    start: PointRef
    stop: PointRef
    toward: Toward

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("curve", (self.start.name, self.stop.name)),)

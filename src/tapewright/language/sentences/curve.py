"""`Draw a curve from S through T and H to Z, passing T plumb and reaching Z level; call it the scye.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Leaning, PointRef


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Curve(Clause):
    """A smooth curve through points, leaving, passing and reaching them as said."""

    kind: ClassVar[str] = "curve"
    leads: ClassVar[tuple[str, ...]] = ("Draw",)
    template: ClassVar[str] = (
        "Draw a [{tension=flat|easy|full}] curve from {start:point} [through {through*:point}] "
        "to {stop:point}[, {leanings*:leaning}][, {both_ways?bending both ways}]"
    )
    yields: ClassVar[str] = "a curve"

    tension: str | None = None
    start: PointRef
    through: tuple[PointRef, ...] = ()
    stop: PointRef
    leanings: tuple[Leaning, ...] = ()
    both_ways: bool = False

    def knots(self) -> tuple[PointRef, ...]:
        """All its letters in order."""
        return (self.start, *self.through, self.stop)

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("curve", (self.start.name, self.stop.name)),)

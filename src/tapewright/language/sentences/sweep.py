"""`Sweep about R by 5 in to S on the shoulder line, the crossing nearer N.` Arcs about a pivot."""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, End, NewPoint, PointRef, Toward


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep(Clause):
    """A whole circle until it is cut, an arc to a line, an arc to a point, or an arc through an angle."""

    kind: ClassVar[str] = "sweep"
    leads: ClassVar[tuple[str, ...]] = ("Sweep",)
    template: ClassVar[str] = (
        "Sweep about {pivot:point} ("
        "by {radius:amount} [to {new:new} on {end:end}]"
        " | from {start:point} to {new:new} on {end:end}"
        " | from {start:point} {toward:toward} through {angle:amount} to {new:new}"
        " | from {start:point} to {stop:point})"
    )
    yields: ClassVar[str] = "an arc, and the point where it ends"

    pivot: PointRef
    radius: Amount | None = None
    start: PointRef | None = None
    toward: Toward | None = None
    angle: Amount | None = None
    new: NewPoint | None = None
    end: End | None = None
    stop: PointRef | None = None

    def drawn(self) -> tuple[Drawn, ...]:
        finish = self.new or self.stop
        if self.start is None or finish is None:
            return (Drawn("circle", None),)
        return (Drawn("arc", (self.start.name, finish.name)),)

"""`Hollow A-B by 3/4 in toward D at the middle; call it the leg.` and `Round ...` the other way."""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, PointRef, Ruler, Toward


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Hollow(Clause):
    """A curve that leaves a straight line by an amount at one place; the span itself stays straight."""

    kind: ClassVar[str] = "hollow"
    leads: ClassVar[tuple[str, ...]] = ("Hollow", "Round")
    template: ClassVar[str] = (
        "{verb=Hollow|Round} {line:ruler} by {depth:amount} [{toward:toward}] "
        "(at {middle=the middle} | at {place:amount} from {origin:point})"
    )
    yields: ClassVar[str] = "a curve"

    verb: str
    line: Ruler
    depth: Amount
    toward: Toward | None = None
    middle: str | None = None
    place: Amount | None = None
    origin: PointRef | None = None

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("curve", (self.line.a.name, self.line.b.name)),)

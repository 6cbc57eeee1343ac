"""`Join N to S; call it the back shoulder.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import PointRef


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Join(Clause):
    """A straight line between two points."""

    kind: ClassVar[str] = "join"
    leads: ClassVar[tuple[str, ...]] = ("Join",)
    template: ClassVar[str] = "Join {a:point} to {b:point}"
    yields: ClassVar[str] = "a straight line"

    a: PointRef
    b: PointRef

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("straight", (self.a.name, self.b.name)),)

"""`Divide A-B in half at M.` `Divide A-B into 3 at C and D.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import NewPoint, Path


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Divide(Clause):
    """Points that divide a line equally; a curve is divided by the tape."""

    kind: ClassVar[str] = "divide"
    leads: ClassVar[tuple[str, ...]] = ("Divide",)
    template: ClassVar[str] = (
        "Divide {line:path} (in half at {middle:new} | into {parts:number} at {news*:new})"
    )
    yields: ClassVar[str] = "points"

    line: Path
    middle: NewPoint | None = None
    parts: int | None = None
    news: tuple[NewPoint, ...] = ()

    def points(self) -> tuple[NewPoint, ...]:
        """The new points in order."""
        return self.news if self.middle is None else (self.middle,)

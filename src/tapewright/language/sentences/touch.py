"""`Draw a plumb line touching the back scye at K, toward the centre back.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import NewPoint, Path, Toward


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Touch(Clause):
    """A plumb or level line that just touches a curve where it goes farthest to a side."""

    kind: ClassVar[str] = "touch"
    leads: ClassVar[tuple[str, ...]] = ("Draw",)
    template: ClassVar[str] = (
        "Draw a {way=plumb|level} line touching {line:path} at {new:new}[, {toward:toward}]"
    )
    yields: ClassVar[str] = "the point where it touches, and the line"

    way: str
    line: Path
    new: NewPoint
    toward: Toward | None = None

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("straight", None),)

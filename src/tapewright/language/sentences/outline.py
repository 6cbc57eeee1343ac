"""`Let the back be the outline A to N by the back neck, to S, to A.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import EdgeRun, NewName, PointRef


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Outline(Clause):
    """A closed run of edges: each by a drawn line or a piece of one, else straight."""

    kind: ClassVar[str] = "outline"
    leads: ClassVar[tuple[str, ...]] = ("Let",)
    template: ClassVar[str] = "Let {name:newname} be the outline {start:point} {runs+:run}"
    yields: ClassVar[str] = "an outline"
    naming: ClassVar[str] = "outline"

    name: NewName
    start: PointRef
    runs: tuple[EdgeRun, ...]

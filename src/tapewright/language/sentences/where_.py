"""`Where the first sweep meets the second sweep, put N, the upper crossing.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Crossing, LineRef, NewPoint


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Where(Clause):
    """The point where two lines meet."""

    kind: ClassVar[str] = "where"
    leads: ClassVar[tuple[str, ...]] = ("Where",)
    template: ClassVar[str] = "Where {one:line} meets {other:line}, put {new:new}[, {crossing:crossing}]"
    yields: ClassVar[str] = "a point"

    one: LineRef
    other: LineRef
    new: NewPoint
    crossing: Crossing | None = None

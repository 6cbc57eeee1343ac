"""`Begin at A, with the centre back on the left and the centre front on the right.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import NewPoint, Place


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Begin(Clause):
    """The first point, and what lies on which side of the paper."""

    kind: ClassVar[str] = "begin"
    leads: ClassVar[tuple[str, ...]] = ("Begin",)
    template: ClassVar[str] = "Begin at {new:new}[, with {places*:place}]"
    yields: ClassVar[str] = "the first point"

    new: NewPoint
    places: tuple[Place, ...] = ()

"""`Let A stand for the nape.` `Let N and M stand for the neck point.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import PointRef


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class StandFor(Clause):
    """Which letters of the paper are a place of the body, so that the pattern can be measured as the body was."""

    kind: ClassVar[str] = "stand for"
    leads: ClassVar[tuple[str, ...]] = ("Let",)
    template: ClassVar[str] = "Let {points*:point} stand for {landmark:landmark}"
    yields: ClassVar[str] = "a place of the body"

    points: tuple[PointRef, ...]
    landmark: str

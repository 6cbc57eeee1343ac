"""`Pivot V, U and Y about P until V lies on P-V1.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Amount, PointRef, Ruler, Toward


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Pivot(Clause):
    """Points turned round a point; the copies are primed and the old ones stay."""

    kind: ClassVar[str] = "pivot"
    leads: ClassVar[tuple[str, ...]] = ("Pivot",)
    template: ClassVar[str] = (
        "Pivot {points*:point} about {pivot:point} "
        "(until {moving:point} lies on {line:ruler} | by {angle:amount} {toward:toward})"
    )
    yields: ClassVar[str] = "copies, primed"

    points: tuple[PointRef, ...]
    pivot: PointRef
    moving: PointRef | None = None
    line: Ruler | None = None
    angle: Amount | None = None
    toward: Toward | None = None

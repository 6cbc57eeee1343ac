"""`Pivot V, U and Y about P until V lies on P-V1.`"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Amount, NameRef, PointRef, Ruler, Toward, Unknown


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

    def also_makes(self) -> tuple[str, ...]:
        return tuple(p.name + "'" for p in self.points)


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class PivotOutline(Clause):
    """A whole outline turned round a point; its letters are primed and the old outline stays."""

    kind: ClassVar[str] = "pivot an outline"
    leads: ClassVar[tuple[str, ...]] = ("Pivot",)
    template: ClassVar[str] = (
        "Pivot {outline:name} about {pivot:point} "
        "(until {moving:point} lies on {line:ruler} | by {angle:amount} {toward:toward})"
    )
    yields: ClassVar[str] = "a copy of the outline, primed"
    called: ClassVar[str] = "outline"
    wants: ClassVar[Mapping[str, str]] = MappingProxyType({"outline": "outline"})

    outline: NameRef | Unknown
    pivot: PointRef
    moving: PointRef | None = None
    line: Ruler | None = None
    angle: Amount | None = None
    toward: Toward | None = None

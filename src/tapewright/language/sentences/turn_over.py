"""`Turn over the front on Q-D.` An outline, or points, mirrored on a line; the copies are primed."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import NameRef, PointRef, Ruler, Unknown


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class TurnOver(Clause):
    """An outline or points turned over on a line."""

    kind: ClassVar[str] = "turn over"
    leads: ClassVar[tuple[str, ...]] = ("Turn",)
    template: ClassVar[str] = "Turn over ({points*:point} | {outline:name}) on {line:ruler}"
    yields: ClassVar[str] = "copies, primed"
    called: ClassVar[str] = "outline"
    wants: ClassVar[Mapping[str, str]] = MappingProxyType({"outline": "outline"})

    points: tuple[PointRef, ...] = ()
    outline: NameRef | Unknown | None = None
    line: Ruler

    def also_makes(self) -> tuple[str, ...]:
        return tuple(p.name + "'" for p in self.points)

"""`Lay the front against the back with U on S and Q-D across.` One outline laid against another."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Amount, Compass, NameRef, Path, PointRef, Ruler, Unknown


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Lay(Clause):
    """An outline moved and turned so that a letter falls on another and a line lies as said."""

    kind: ClassVar[str] = "lay"
    leads: ClassVar[tuple[str, ...]] = ("Lay",)
    template: ClassVar[str] = (
        "Lay {outline:name} against {other:thing} with {moving:point} on {place:point} and "
        "({second:point} on ({ruler:ruler} | {mark:point}) | {side:ruler} {way:compass})"
        "[, {join=lapped|parted} {by:amount}][, {face_down?face down}]"
    )
    yields: ClassVar[str] = "the moved outline, its points primed"
    called: ClassVar[str] = "outline"
    wants: ClassVar[Mapping[str, str]] = MappingProxyType({"outline": "outline"})

    outline: NameRef | Unknown
    other: Path
    moving: PointRef
    place: PointRef
    second: PointRef | None = None
    ruler: Ruler | None = None
    mark: PointRef | None = None
    side: Ruler | None = None
    way: Compass | None = None
    join: str | None = None
    by: Amount | None = None
    face_down: bool = False

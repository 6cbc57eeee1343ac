"""`Mark the back scye at T and the front scye at Y, one notch.` `Mark the pocket place on the front.`"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Edge, MarkAt, NameRef, PointRef, Unknown


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Mark(Clause):
    """Balance marks. Without a count it is one notch in front and two behind."""

    kind: ClassVar[str] = "mark"
    leads: ClassVar[tuple[str, ...]] = ("Mark",)
    template: ClassVar[str] = "Mark {marks*:markat}[, {notches=one notch|two notches}]"
    yields: ClassVar[str] = "balance marks"

    marks: tuple[MarkAt, ...]
    notches: str | None = None


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class MarkOn(Clause):
    """Lines and letters that are marked within a piece."""

    kind: ClassVar[str] = "mark on"
    leads: ClassVar[tuple[str, ...]] = ("Mark",)
    template: ClassVar[str] = "Mark {things*:marked} on {outline:name}"
    yields: ClassVar[str] = "marks within a piece"
    wants: ClassVar[Mapping[str, str]] = MappingProxyType({"outline": "outline"})

    things: tuple[Edge | PointRef, ...]
    outline: NameRef | Unknown

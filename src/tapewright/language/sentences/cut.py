"""`Cut the back twice of cloth, with A-E on the grain, leaving 2 cm at the side and 1 cm elsewhere.`"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Cutting, Edge, NameRef, Turning, Unknown


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Cut(Clause):
    """A piece: how many, of what, how it lies on the cloth, what is left outside its edges."""

    kind: ClassVar[str] = "cut"
    leads: ClassVar[tuple[str, ...]] = ("Cut",)
    template: ClassVar[str] = (
        "Cut {outline:name} {cuttings*:cutting}[, under {under:name}]"
        "[, with {lying*:edge} on the {on=grain|fold|cross}[, nap {nap=down|up}]][, leaving {turnings*:turning}]"
    )
    yields: ClassVar[str] = "a piece"
    wants: ClassVar[Mapping[str, str]] = MappingProxyType({"outline": "outline", "under": "outline"})

    outline: NameRef | Unknown
    cuttings: tuple[Cutting, ...]
    under: NameRef | Unknown | None = None
    lying: tuple[Edge, ...] = ()
    on: str | None = None
    nap: str | None = None
    turnings: tuple[Turning, ...] = ()

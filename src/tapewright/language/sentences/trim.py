"""`Trim the front edge with braid.` `Trim the button line with 12 buttons.` `Trim the edge with eyelets 1 in apart.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Amount, Edge


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Trim(Clause):
    """What is set along edges: all along, so many evenly from end to end, or so far apart from the first end.

    On one side alone where it is said, as buttons are; else on both halves.
    """

    kind: ClassVar[str] = "trim"
    leads: ClassVar[tuple[str, ...]] = ("Trim",)
    template: ClassVar[str] = (
        "Trim {edges*:edge} with ({count:number} {ware:ware} | {ware:ware} {apart:amount} apart | {ware:ware})"
        "[, {once?on one side}]"
    )
    yields: ClassVar[str] = "a trimming"

    edges: tuple[Edge, ...]
    ware: str
    count: int | None = None
    apart: Amount | None = None
    once: bool = False

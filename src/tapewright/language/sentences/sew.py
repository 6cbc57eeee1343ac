"""`Sew the front shoulder to the back shoulder, easing the back shoulder by 1/4 in.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Amount, Edge


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Sew(Clause):
    """A seam between two edges, or two runs of edges."""

    kind: ClassVar[str] = "sew"
    leads: ClassVar[tuple[str, ...]] = ("Sew",)
    template: ClassVar[str] = (
        "Sew {first*:edge} to {second*:edge}"
        "[, {how=easing|gathering|pleating|stretching} {eased:edge} [by {amount:amount}]]"
    )
    yields: ClassVar[str] = "a seam"

    first: tuple[Edge, ...]
    second: tuple[Edge, ...]
    how: str | None = None
    eased: Edge | None = None
    amount: Amount | None = None

"""`Begin from the draft "A woman's body block", with the ease at 1 part of the chest tape; call it the block.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Setting


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class BeginFrom(Clause):
    """Another draft drawn first: all its letters and names can be used."""

    kind: ClassVar[str] = "begin from"
    leads: ClassVar[tuple[str, ...]] = ("Begin",)
    template: ClassVar[str] = "Begin from the draft {title:quoted}[, with {settings*:setting}]"
    yields: ClassVar[str] = "all the letters and names of that draft"
    called: ClassVar[str] = "draft"

    title: str
    settings: tuple[Setting, ...] = ()

"""`; call it the scye line` names the last line drawn."""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import NewName


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class CallIt(Clause):
    """A name for the last line drawn in the same sentence."""

    kind: ClassVar[str] = "call it"
    leads: ClassVar[tuple[str, ...]] = ("call",)
    template: ClassVar[str] = "call it {name:newname}"
    yields: ClassVar[str] = "a name"
    naming: ClassVar[str] = "line"

    name: NewName

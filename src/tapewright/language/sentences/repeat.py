"""`Repeat "The first gore" for 2, 3 and 4.` What stands under a heading, again with higher numbers."""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat(Clause):
    """The sentences under a heading said again; every number in their letters and names goes up by one."""

    kind: ClassVar[str] = "repeat"
    leads: ClassVar[tuple[str, ...]] = ("Repeat",)
    template: ClassVar[str] = "Repeat [{heading:quoted}] for {numbers*:number}"
    yields: ClassVar[str] = "new points and names"

    #: As written; nothing where the group just above is meant, until it is read in its lesson.
    heading: str = ""
    numbers: tuple[int, ...]

"""`Mark the back scye at T and the front scye at Y, one notch.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import MarkAt


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Mark(Clause):
    """Balance marks, and nothing else."""

    kind: ClassVar[str] = "mark"
    leads: ClassVar[tuple[str, ...]] = ("Mark",)
    template: ClassVar[str] = "Mark {marks*:markat}, {notches=one notch|two notches}"
    yields: ClassVar[str] = "balance marks"

    marks: tuple[MarkAt, ...]
    notches: str

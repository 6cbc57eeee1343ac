"""`See that E-H plus R-F is half the bust, within 1 mm.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree_claims import Claim


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class SeeThat(Clause):
    """What must come out: a check."""

    kind: ClassVar[str] = "see that"
    leads: ClassVar[tuple[str, ...]] = ("See",)
    template: ClassVar[str] = "See that {claim:claim}"
    yields: ClassVar[str] = "a check"

    claim: Claim

"""`Divide the back excess: a third as the back taking and the rest as the side taking.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Amount, Portion


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Share(Clause):
    """An amount divided among several names."""

    kind: ClassVar[str] = "share"
    leads: ClassVar[tuple[str, ...]] = ("Divide",)
    template: ClassVar[str] = "Divide {whole:amount}: {portions*:portion}"
    yields: ClassVar[str] = "amounts"
    naming: ClassVar[str] = "amount"

    whole: Amount
    portions: tuple[Portion, ...]

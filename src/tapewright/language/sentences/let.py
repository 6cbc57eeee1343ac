"""`Let the depth be the scye depth if taken, otherwise half the nape to waist.`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Amount, NewName


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class LetFound(Clause):
    """An unknown, to be found by the `Make` that follows."""

    kind: ClassVar[str] = "let found"
    leads: ClassVar[tuple[str, ...]] = ("Let",)
    template: ClassVar[str] = "Let {name:newname} be found between {range:between}"
    yields: ClassVar[str] = "an unknown"
    naming: ClassVar[str] = "unknown"

    name: NewName
    range: tuple[Amount, Amount]


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Let(Clause):
    """A name for an amount."""

    kind: ClassVar[str] = "let"
    leads: ClassVar[tuple[str, ...]] = ("Let",)
    template: ClassVar[str] = "Let {name:newname} be {amount:amount}"
    yields: ClassVar[str] = "an amount"
    naming: ClassVar[str] = "amount"

    name: NewName
    amount: Amount

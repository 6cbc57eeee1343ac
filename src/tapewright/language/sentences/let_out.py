"""`Let out the side by 2 in at H2, to nothing at H1.` `Take in the back seam by 1 cm at W3, ...`"""

from dataclasses import dataclass
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, Path, PointRef, Toward


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class LetOut(Clause):
    """An edge moved at one end and left where it is at another: a spring, or an edge taken in."""

    kind: ClassVar[str] = "let out"
    leads: ClassVar[tuple[str, ...]] = ("Let", "Take")
    template: ClassVar[str] = (
        "{verb=Let out|Take in} {line:path} by {amount:amount} at {at:point}, to nothing at {nothing:point}"
        "[, {toward:toward}]"
    )
    yields: ClassVar[str] = "the edge reshaped, and the moved letter primed"

    verb: str
    line: Path
    amount: Amount
    at: PointRef
    nothing: PointRef
    toward: Toward | None = None

    def also_makes(self) -> tuple[str, ...]:
        return (self.at.name + "'",)

    def drawn(self) -> tuple[Drawn, ...]:
        return (Drawn("curve", (self.nothing.name, self.at.name + "'")),)

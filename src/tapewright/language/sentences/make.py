"""`Make the neck line as long as half the neck plus the neck ease by finding the neck radius.`"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Amount, NameRef, Unknown


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Make(Clause):
    """Settles an unknown, so that two amounts agree."""

    kind: ClassVar[str] = "make"
    leads: ClassVar[tuple[str, ...]] = ("Make",)
    template: ClassVar[str] = (
        "Make {left:amount} {relation=equal to|as long as} {right:amount}[, at the {giving=height|width},] "
        "by finding {unknown:name}"
    )
    yields: ClassVar[str] = "the unknown, settled"
    wants: ClassVar[Mapping[str, str]] = MappingProxyType({"unknown": "unknown"})

    left: Amount
    relation: str
    right: Amount
    giving: str | None = None
    unknown: NameRef | Unknown

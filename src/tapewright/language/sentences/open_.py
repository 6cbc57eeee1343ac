"""`Open the skirt along A-B and C-D by 4 in, keeping G still.` `... by closing the front dart, ...`"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import ClassVar

from tapewright.language.clause import Clause, sentence
from tapewright.language.tree import Amount, NameRef, PointRef, Ruler, Unknown


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class Open(Clause):
    """Slash and spread: each slash opens at its first letter and is hinged at its second."""

    kind: ClassVar[str] = "open"
    leads: ClassVar[tuple[str, ...]] = ("Open",)
    template: ClassVar[str] = (
        "Open {outline:name} along {slashes*:ruler} by (closing {dart:name} | {amount:amount}), "
        "keeping {still:point} still"
    )
    yields: ClassVar[str] = "the opened outline, its moved points primed"
    called: ClassVar[str] = "outline"
    wants: ClassVar[Mapping[str, str]] = MappingProxyType({"outline": "outline", "dart": "dart"})

    outline: NameRef | Unknown
    slashes: tuple[Ruler, ...]
    dart: NameRef | Unknown | None = None
    amount: Amount | None = None
    still: PointRef

"""What is worn beneath when a measure is taken, and whether two lists of it are the same.

Layers are compared as sets: order, capitals and articles do not matter, and `nothing` is the empty list.
A lesson names them in a sentence (`Taken over: a shirt and a waistcoat.`), a sheet in a list.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

_BETWEEN = re.compile(r"\s*(?:,|;|\band\b)\s*", re.IGNORECASE)
_ARTICLE = re.compile(r"^(?:the|a|an)\s+", re.IGNORECASE)
_NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer worn beneath; `thickness` in millimetres where it was given."""

    name: str
    thickness: Fraction | None = None


def plain_layer(text: str) -> str:
    """A layer as it is compared: `The  Stays.` is `stays`; empty for nothing."""
    words = " ".join(text.casefold().split()).rstrip(".")
    words = _ARTICLE.sub("", words)
    return "" if words == _NOTHING else words


def layers_named(text: str) -> tuple[str, ...]:
    """The layers a sentence names, articles off, in its order: `a shirt, stays and a coat` -> three."""
    return tuple(plain for part in _BETWEEN.split(text) if (plain := plain_layer(part)))


def same_layers(one: Iterable[Layer | str], other: Iterable[Layer | str]) -> bool:
    """Whether two lists name the same layers; thickness is no part of it."""

    def plain(layers: Iterable[Layer | str]) -> set[str]:
        return {p for x in layers for p in layers_named(x.name if isinstance(x, Layer) else x)}

    return plain(one) == plain(other)


def say_layers(layers: Iterable[Layer | str]) -> str:
    """`shirt and waistcoat`, `shift, stays and petticoat`, `nothing`."""
    names = [p for x in layers if (p := plain_layer(x.name if isinstance(x, Layer) else x))]
    if len(names) < 2:
        return names[0] if names else _NOTHING
    return f"{', '.join(names[:-1])} and {names[-1]}"

"""What is worn beneath, and which measures it makes another thing of: stays shape a trunk, hoops a hip.

A sheet over stays is a sheet of the stays as much as of the body, so its trunk is not judged by bodies. A
layer whose thickness was given is taken off the girths of the trunk: one that is t thick adds about 2 pi t.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import pi

from tapewright.measures.over import Layer, plain_layer

_STAYS = frozenset("stays bodies corset corsets corselet corslet jumps busk girdle".split())
_PADDING = frozenset("padding pads padded bombast quilted doublet jack gambeson".split())
_HOOPS = frozenset(
    "hoop hoops farthingale farthingales verdugado pannier panniers bustle bustles crinoline cage roll rolls "
    "rump petticoat petticoats".split()
)
CORSET = frozenset("corset corsets corselet corslet".split())
"""Of the words for stays, those of the nineteenth century."""

TRUNK_GIRTHS = frozenset(
    ("bust", "chest", "under bust", "waist", "navel waist", "high waist", "high hip", "hip", "high bust")
)
"""Girths that every layer of the trunk goes into."""

_BY_STAYS = frozenset(
    (
        "bust", "chest", "under bust", "waist", "navel waist", "high waist", "high hip", "hip",
        "front bust arc", "back bust arc", "front waist arc", "front hip arc", "shoulders round the arms",
        "trunk round", "cross back", "low cross back", "cross front", "neck to bust point",
        "bust point to bust point", "nape to bust point", "shoulder neck to waist over the bust",
        "front neck to waist", "underarm to waist", "fork round", "waist hollow", "blade",
    )
)  # fmt: skip
"""What stays change: the trunk, but not the high bust, which they hardly touch, nor neck, arms and legs."""

_BY_HOOPS = frozenset(
    (
        "high hip",
        "hip",
        "front hip arc",
        "waist to floor",
        "side",
        "waist to hip",
        "hip to floor",
        "fork round",
    )
)


def _words(layers: Iterable[Layer | str]) -> frozenset[str]:
    names = (plain_layer(x.name if isinstance(x, Layer) else x) for x in layers)
    return frozenset(word for name in names for word in name.replace(",", " ").split())


def stayed(layers: Iterable[Layer | str]) -> bool:
    """Whether stays, a corset or the like are among the layers."""
    return bool(_words(layers) & _STAYS)


def changed_by(layers: Iterable[Layer | str]) -> frozenset[str]:
    """The measures that are no longer the body's own over these layers."""
    words = _words(layers)
    found: frozenset[str] = frozenset()
    if words & (_STAYS | _PADDING):
        found |= _BY_STAYS
    if words & _PADDING:
        found |= {"high bust"}
    if words & _HOOPS:
        found |= _BY_HOOPS
    return found


def added(layers: Iterable[Layer]) -> float:
    """What layers of a stated thickness add to a girth of the trunk, in mm."""
    return 2 * pi * float(sum((layer.thickness for layer in layers if layer.thickness is not None), start=0))

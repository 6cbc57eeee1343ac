"""Templates of sentences: one line becomes a pattern.

A template is written as the sentence reads::

    Square [{way:way}] [from {start:point}] to {new:new} [on {end:end}] [: {reach:amount}]

plain words and marks stand for themselves (articles are printed and never needed), `[...]` may be left
out, `( ... | ... )` is a choice taken in order, `{slot:kind}` is a slot of a kind from `slots.py`,
`{slot*:kind}` a list of them joined by commas and `and`, `{slot+:kind}` one joined by commas alone,
`{slot?some words}` is True when the words stand there, and `{slot=this|that}` holds whichever of the
words stands there.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from tapewright.language.pattern import (
    Choice,
    Element,
    Flag,
    Maybe,
    OneOf,
    Row,
    Several,
    Slot,
    SlotKind,
    Words,
)
from tapewright.language.tokens import ARTICLES

_PIECE = re.compile(
    r"\{(?P<slot>\w+)(?P<several>[*+])?:(?P<kind>\w+)\}"
    r"|\{(?P<flag>\w+)\?(?P<flagged>[^}]+)\}"
    r"|\{(?P<oneof>\w+)=(?P<options>[^}]+)\}"
    r"|(?P<sign>[][()|])"
    r"|(?P<plain>[^\s{}\[\]()|]+)"
)


def _words(text: str) -> Words:
    shown = tuple(re.findall(r"[\w'-]+|[,:]", text))
    return Words(shown, tuple(w.lower() for w in shown if w.lower() not in ARTICLES))


def compile_template(template: str, kinds: Mapping[str, SlotKind]) -> Element:
    """The pattern of a template. A template that is not well made is our mistake and raises ValueError."""
    pieces = list(_PIECE.finditer(template))
    at = 0

    def row(closing: str) -> Element:
        nonlocal at
        options: list[Element] = []
        parts: list[Element] = []
        plain: list[str] = []

        def flush() -> None:
            if plain:
                parts.append(_words(" ".join(plain)))
                plain.clear()

        while at < len(pieces):
            piece = pieces[at]
            at += 1
            if piece["plain"]:
                plain.append(piece["plain"])
                continue
            flush()
            if piece["slot"]:
                kind = kinds[piece["kind"]]
                if piece["several"]:
                    parts.append(Several(piece["slot"], piece["kind"], kind, piece["several"] == "+"))
                else:
                    parts.append(Slot(piece["slot"], piece["kind"], kind))
            elif piece["flag"]:
                parts.append(Flag(piece["flag"], _words(piece["flagged"])))
            elif piece["oneof"]:
                options_of = tuple(_words(o) for o in piece["options"].split("|"))
                parts.append(OneOf(piece["oneof"], options_of))
            elif piece["sign"] == "[":
                parts.append(Maybe(row("]")))
            elif piece["sign"] == "(":
                parts.append(row(")"))
            elif piece["sign"] == "|":
                options.append(Row(tuple(parts)))
                parts = []
            elif piece["sign"] == closing:
                break
            else:
                raise ValueError(f"unmatched {piece['sign']} in the template {template!r}")
        else:
            if closing:
                raise ValueError(f"no {closing} in the template {template!r}")
        flush()
        if options:
            return Choice((*options, Row(tuple(parts))))
        return Row(tuple(parts))

    return row("")

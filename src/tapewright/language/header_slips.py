"""Statements of the header said otherwise: `Drafted on the half, net`, `Taken over stays`; and what they are here."""

from __future__ import annotations

import re

_OVER = re.compile(
    r"(?:measures |measured |taken |worn |fitted |to be worn )*over\b:? *(?P<what>.+)|worn with:? *(?P<with>.+)"
)
_BODY = re.compile(
    r"(?:(?:drafted|drawn|cut|made) )?(?:(?:on|by|for|as) )?(?:(?:the|a|one) )?(?P<body>half|fold|whole)"
    r"(?: (?:of )?(?:the )?(?:body|draft|garment|back|figure)| only)?"
)
_BOTH = re.compile(r"(?:on |for )?(?:both sides|left and right|two sides|each side)")
_NET = re.compile(
    r"(?:(?:drafted|drawn|cut|made) )?(?:net|without (?:any )?(?:seams?|turnings)(?: allowances?)?"
    r"|(?:with )?no (?:seams?|turnings)(?: allowances?)?(?: included| added)?"
    r"|(?:seams?|turnings)(?: allowances?)? (?:are )?not (?:included|added|drawn))"
)
_SEAMS = re.compile(
    r"(?:(?:drafted|drawn|cut|made) )?(?:with )?(?:seams?|turnings)(?: allowances?)?(?: of)? "
    r"(?P<wide>\d[\d ./½¼¾⅛⅜⅝⅞]* ?[a-z]+)(?: (?:is |are )?(?:included|allowed|added|drawn))?(?: at (?P<at>.+))?"
)
_YEARS = re.compile(
    r"(?:of |from |about |c\. ?|circa )?(?:the )?(?P<first>\d{4})(?P<decade>s)?(?: ?(?:-|–|to) ?(?P<last>\d{4}))?"
)


def said_otherwise(said: str) -> dict[str, str]:
    """The statements that one statement makes in other words, each by its kind; none where any of it is left over.

    The kinds are body, drafted, over and years; the statements have no full stop.
    """
    found: dict[str, str] = {}
    last = ""
    for piece in re.split(r"\s*[,;]\s*(?:and )?", " ".join(said.split())):
        kind, words = _piece(piece.lower())
        if kind == "both" and found.get("body") == "On the half":
            found["body"] = "On the half, left and right"
        elif not kind and last == "over":
            found["over"] += f", {piece}"
        elif not kind or kind == "both" or kind in found:
            return {}
        else:
            found[kind] = words
            last = kind
    order = ("body", "drafted", "over", "years")
    return {kind: found[kind] for kind in order if kind in found}


def _piece(low: str) -> tuple[str, str]:
    """What one piece of a statement says, and in which words the header says it."""
    if (one := _BODY.fullmatch(low)) is not None:
        return "body", "Whole" if one["body"] == "whole" else "On the half"
    if _BOTH.fullmatch(low):
        return "both", ""
    if _NET.fullmatch(low):
        return "drafted", "Drafted net"
    if (one := _SEAMS.fullmatch(low)) is not None:
        return "drafted", f"Drafted with seams of {one['wide']} at {one['at'] or 'the sides'}"
    if (one := _OVER.fullmatch(low)) is not None:
        return "over", f"Taken over: {one['what'] or one['with']}"
    if (one := _YEARS.fullmatch(low)) is not None:
        last = one["last"] or (f"{one['first'][:3]}9" if one["decade"] else "")
        return "years", f"Of {one['first']}" + (f" to {last}" if last else "")
    return "", ""

"""Numbers as makers write them, exact in both directions.

`2`, `2.5`, `1/2`, `1 1/2`, `1½`, `1-1/2`; a decimal comma only where the caller allows it. Neither signs
nor words (`half`, `two`) are read here: those belong to the texts that have them.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple, TypeAlias
from unicodedata import normalize

Real: TypeAlias = Fraction | float | int
"""What can be shown: an exact fraction, or a finite number that came out of geometry."""

MINUS = "\N{MINUS SIGN}"
"""The true minus sign, set before what is less than nothing."""

# More digits than these is no number that a maker writes, and Python reads very long ones very slowly.
_DIGITS = "([0-9]{1,12})"
_SLASH = "[/\N{FRACTION SLASH}]"
_GAP = "(?:[ \N{NO-BREAK SPACE}\N{THIN SPACE}]{1,3}|-)"
_VULGAR = {c: Fraction(normalize("NFKC", c).replace("\N{FRACTION SLASH}", "/")) for c in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"}
_ONE_CHARACTER = f"([{''.join(_VULGAR)}])"

_MIXED = re.compile(f"{_DIGITS}{_GAP}{_DIGITS}{_SLASH}{_DIGITS}")
_PLAIN = re.compile(f"{_DIGITS}{_SLASH}{_DIGITS}")
_SET = re.compile(f"(?:{_DIGITS}{_GAP}?)?{_ONE_CHARACTER}")
_POINT = re.compile(f"(?:{_DIGITS}(?:[.]{_DIGITS})?|[.]{_DIGITS})")
_COMMA = re.compile(f"(?:{_DIGITS}(?:[.,]{_DIGITS})?|[.,]{_DIGITS})")
# What may not follow, since with it the whole would be another number, or none.
_RUNS_ON = re.compile(f"[0-9]|{_SLASH}|{_ONE_CHARACTER}|[.,][0-9]")


class Number(NamedTuple):
    """A number found in a text, and the offset just after it."""

    value: Fraction
    end: int


def _over(top: str, bottom: str) -> Fraction | None:
    return Fraction(int(top), int(bottom)) if int(bottom) else None


def scan_number(text: str, at: int = 0, *, decimal_comma: bool = False) -> Number | None:
    """The number that begins exactly at `at`, as long as it runs; None when none does.

    A mixed number whose fraction is not smaller than one (`1 3/2`) is none: it is not clear what was
    meant. So is one with a stroke, a comma or a point and more figures behind it (`1/2/3`, `3,5` where
    the comma is not allowed), and one of more than twelve figures.
    """
    found: re.Match[str] | None
    value: Fraction | None
    if found := _MIXED.match(text, at):
        part = _over(found[2], found[3])
        value = None if part is None or part >= 1 else int(found[1]) + part
    elif found := _PLAIN.match(text, at):
        value = _over(found[1], found[2])
    elif found := _SET.match(text, at):
        value = int(found[1] or 0) + _VULGAR[found[2]]
    elif found := (_COMMA if decimal_comma else _POINT).match(text, at):
        value = Fraction(found[0].replace(",", "."))
    else:
        return None
    if value is None or _RUNS_ON.match(text, found.end()):
        return None
    return Number(value, found.end())


def read_number(text: str, *, decimal_comma: bool = False) -> Fraction | None:
    """The number that the whole text is, spaces round it aside; None when it is none."""
    stripped = text.strip()
    found = scan_number(stripped, decimal_comma=decimal_comma)
    return found.value if found is not None and found.end == len(stripped) else None


def to_nearest(value: Real, step: Fraction) -> Fraction:
    """`value` to the nearest whole number of steps, halves away from nothing; exact.

    `step` is greater than 0. ValueError or OverflowError for a value that is not finite.
    """
    steps = Fraction(value) / step
    whole = (abs(steps) + Fraction(1, 2)).__floor__()
    return (whole if steps >= 0 else -whole) * step


def show_fraction(value: Fraction) -> str:
    """`1 1/2`, `3/4`, `2`, `0`: a mixed number, exact, with a true minus sign when it is less than 0."""
    sign = MINUS if value < 0 else ""
    whole, rest = divmod(abs(value), 1)
    part = f"{rest.numerator}/{rest.denominator}" if rest else ""
    return sign + " ".join(p for p in (str(whole) if whole or not rest else "", part) if p)

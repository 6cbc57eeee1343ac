"""Lengths and angles as the table shows them, always rounded openly.

Centimetres to a millimetre with inches to an eighth beside them; millimetres under a centimetre; a true
minus sign. What is not nothing is never shown as 0 inches.
"""

from __future__ import annotations

import math
from fractions import Fraction

from tapewright.units.numbers import MINUS, Real, show_fraction, to_nearest
from tapewright.units.table import CM, INCH

_TENTH = Fraction(1, 10)


def _decimal(value: Fraction, places: int, trim: bool) -> str:
    """A value that is not negative, with so many decimals; with `trim`, without closing zeros."""
    figures = to_nearest(value, Fraction(1, 10**places))
    whole, rest = divmod(figures, 1)
    decimals = f"{int(rest * 10**places):0{places}d}" if places else ""
    if trim:
        decimals = decimals.rstrip("0")
    return f"{whole}.{decimals}" if decimals else str(whole)


def _sign(value: Real, shown: str, signed: bool) -> str:
    """The sign of a value, none when all that is shown of it is 0."""
    if not any(c in "123456789" for c in shown):
        return ""
    return MINUS if value < 0 else "+" if signed else ""


def show_mm(mm: Real, places: int = 1, *, signed: bool = False) -> str:
    """`4.5 mm`, `0.01 mm` with two places: what a check is settled by. Closing zeros are left out."""
    figures = _decimal(abs(Fraction(mm)), places, trim=True)
    return f"{_sign(mm, figures, signed)}{figures} mm"


def show_cm(mm: Real, *, signed: bool = False) -> str:
    """`9.6 cm` to the nearest millimetre; under 1 cm `5 mm`, to the nearest tenth; nothing is `0 cm`.

    With `signed`, what is more than nothing gets a plus sign. `mm` is a length in millimetres.
    """
    size = abs(Fraction(mm))
    if to_nearest(size, _TENTH) == 0:
        return "0 cm"
    if to_nearest(size, _TENTH) < 10:
        return show_mm(mm, signed=signed)
    figures = _decimal(size / CM.mm, 1, trim=False)
    return f"{_sign(mm, figures, signed)}{figures} cm"


def show_in(mm: Real, step: int = 8, *, signed: bool = False) -> str:
    """`3 3/4 in`, to the nearest eighth, or the nearest `step`-th, of an inch; `mm` in millimetres."""
    inches = to_nearest(abs(Fraction(mm)) / INCH.mm, Fraction(1, step))
    figures = show_fraction(inches)
    return f"{_sign(mm, figures, signed)}{figures} in"


def show_length(mm: Real, *, signed: bool = False) -> str:
    """Both ways: `9.6 cm (3 3/4 in)`.

    Inches go to the nearest eighth, under half an inch to the nearest sixteenth; a length too small for
    that is shown in millimetres alone.
    """
    inches = abs(Fraction(mm)) / INCH.mm
    metric = show_cm(mm, signed=signed)
    step = 8 if inches >= Fraction(1, 2) else 16
    if not to_nearest(inches, Fraction(1, step)):
        return metric
    return f"{metric} ({show_in(mm, step, signed=signed)})"


def show_degrees(degrees: Real, *, signed: bool = False) -> str:
    """`26 degrees`, `1 degree`, `12.5 degrees`: to the nearest tenth."""
    figures = _decimal(abs(Fraction(degrees)), 1, trim=True)
    return f"{_sign(degrees, figures, signed)}{figures} {'degree' if figures == '1' else 'degrees'}"


def show_angle(rad: Real, *, signed: bool = False) -> str:
    """As `show_degrees`, of an angle in radians."""
    return show_degrees(math.degrees(rad), signed=signed)


def show_kg(kg: Real) -> str:
    """`61.8 kg`, to the nearest tenth; `kg` is not negative."""
    return f"{_decimal(Fraction(kg), 1, trim=True)} kg"

"""The lacing caution: a waist over stays that lies far under the wearer's own.

The limit of ten in a hundred is Gau's (1998): of sixteen women laced three inches in, breath was 9 % less on
average, and those laced by a tenth or less were comfortable. Nothing here replaces a physician.
"""

from __future__ import annotations

from datetime import date as Date  # noqa: N812
from fractions import Fraction

from tapewright.diagnostics import Query, caution
from tapewright.measures.beneath import stayed
from tapewright.measures.sheet import Sheet, base, show

LIMIT = Fraction(1, 10)
"""Laced in by more than this share of the natural waist, the caution is given."""

CARE = (
    "Lace only as far as is easy to breathe in. Stop at pain, numbness or short breath; "
    "ask a physician when pregnant or unwell."
)


def lacing(over_stays: Sheet, body: Sheet) -> Query | None:
    """The caution when a sheet over stays has a waist more than a tenth under that of the body's sheet.

    None when either has no waist, when the one is not over stays, or when the other is.
    """
    if not stayed(over_stays.over or ()) or stayed(body.over or ()):
        return None
    laced, own = over_stays.value("waist"), body.value("waist")
    if laced is None or own is None or base(laced) >= base(own) * (1 - LIMIT):
        return None
    share = float(1 - base(laced) / base(own)) * 100
    when = f" of {body.date.day} {body.date:%B %Y}" if body.date is not None else ""
    return caution(
        "laced-tightly",
        f"Over stays the waist is {show(laced)}; on the body, by the sheet{when}, it is {show(own)}: "
        f"{share:.0f} in a hundred less, where ten is the most that is easy to wear.",
        over_stays.entries["waist"].span,
        help=CARE,
    )


def body_sheet_for(over_stays: Sheet, sheets: tuple[Sheet, ...]) -> Sheet | None:
    """The newest sheet of the same wearer's body itself that has a waist; None when there is none."""
    found = [
        sheet
        for sheet in sheets
        if sheet.wearer.casefold() == over_stays.wearer.casefold()
        and not stayed(sheet.over or ())
        and sheet.value("waist") is not None
    ]
    return max(found, key=lambda sheet: sheet.date or Date.min, default=None)

"""The lacing caution: a waist over stays that lies far under the wearer's own.

The limit of ten in a hundred is Gau's (1998): of sixteen women laced three inches in, breath was 9 % less on
average, and those laced by a tenth or less were comfortable. Nobody measured children: of them any lacing in is
told (common sense, no source). Nothing here replaces a physician.
"""

from __future__ import annotations

from datetime import date as Date  # noqa: N812
from fractions import Fraction

from tapewright.diagnostics import Query, caution
from tapewright.measures.beneath import stayed
from tapewright.measures.over import say_layers
from tapewright.measures.sheet import Figure, Sheet, base, show

LIMIT = Fraction(1, 10)
"""Laced in by more than this share of the natural waist, the caution is given."""

CARE = (
    "Lace only as far as is easy to breathe in. Stop at pain, numbness or short breath; "
    "ask a physician when pregnant or unwell."
)


LIMIT_OF_A_CHILD = Fraction(1, 50)
"""Of a child as much as two readings may lie apart, and no more."""

CARE_OF_A_CHILD = (
    "Stays for a child close without pulling, and come off at the first word. What the law, the house or the "
    "school asks goes before what is written here; ask a physician in any doubt."
)


def child_over_stays(sheet: Sheet) -> Query | None:
    """The caution when a child was measured over stays or a corset."""
    if sheet.figure is not Figure.CHILD or not stayed(sheet.over or ()):
        return None
    return caution(
        "child-over-stays",
        f"These are the measures of a child, over {say_layers(sheet.over or ())}. A child is not laced in.",
        sheet.spans.get("over"),
        help=CARE_OF_A_CHILD,
    )


def lacing(over_stays: Sheet, body: Sheet) -> Query | None:
    """The caution when a sheet over stays has a waist more than a tenth under that of the body's sheet.

    None when either has no waist, when the one is not over stays, or when the other is.
    """
    if not stayed(over_stays.over or ()) or stayed(body.over or ()):
        return None
    laced, own = over_stays.value("waist"), body.value("waist")
    child = Figure.CHILD in {over_stays.figure, body.figure}
    limit = LIMIT_OF_A_CHILD if child else LIMIT
    if laced is None or own is None or base(laced) >= base(own) * (1 - limit):
        return None
    share = float(1 - base(laced) / base(own)) * 100
    when = f" of {body.date.day} {body.date:%B %Y}" if body.date is not None else ""
    return caution(
        "laced-tightly",
        f"Over stays the waist is {show(laced)}; on the body, by the sheet{when}, it is {show(own)}: "
        f"{share:.0f} in a hundred less, where "
        f"{'a child is not laced in at all' if child else 'ten is the most that is easy to wear'}.",
        over_stays.entries["waist"].span,
        help=CARE_OF_A_CHILD if child else CARE,
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

"""The wording of what is said of darts, pieces, seams and checks."""

from __future__ import annotations

import numpy as np

from tapewright.diagnostics import Query, Span, caution, note, question
from tapewright.draft.asking.amounts import negative
from tapewright.draft.records import Check
from tapewright.units import show_cm, show_length


def nothing_taken_out(span: Span) -> Query:
    """A dart that comes to nothing on this body."""
    return note(
        "nothing-taken-out",
        "On this body nothing is left to take out (0 cm); the outline goes straight on.",
        span,
        help="The dart's letters are there all the same, both where it would have been.",
    )


def too_close_together(ware: str, apart: float, span: Span) -> Query:
    """A trimming whose pieces would stand on one another."""
    return question(
        "too-close-together", f"The {ware} would stand {show_length(apart)} apart, one upon another.",
        span, help="Say how far apart, such as “1 in apart”, or how many.",
    )  # fmt: skip


def wider_than_deep(wide: float, deep: float, span: Span) -> Query:
    """A dart wider than it is deep."""
    return caution(
        "wider-than-deep", f"This dart is {show_length(wide)} wide and only {show_length(deep)} deep.", span,
        help="Two darts would lie flatter, or one that is lost farther in.",
    )  # fmt: skip


def check_open(check: Check, row: int) -> Query:
    """A check that does not come out."""
    left, right = float(check.left[row]), float(check.right[row])
    by = abs(float(check.difference[row]))
    within = float(check.within[row])

    def say(value: float) -> str:
        return f"{np.degrees(value):.1f} degrees" if check.angle else show_length(value)

    allowed = f"; {say(within)} is allowed" if within > 0 else ""
    return caution(
        "check",
        f"“{check.claim[:1].upper()}{check.claim[1:]}” does not come out on this body: "
        f"{say(left)} against {say(right)}, {say(by)} off{allowed}.",
        check.where,
        help="Look at the sentences that made either side. A check only looks; it changes nothing.",
    )


def seam_differs(first: str, second: str, one: float, other: float, wanted: float, span: Span) -> Query:
    """Two edges of a seam that differ by other than the ease said."""
    over = one - other
    longer = first if over > 0 else second
    said = f"The {first} is {show_length(one)}, the {second} {show_length(other)}; {show_length(abs(over))} is over"
    if wanted:
        should = first if wanted > 0 else second
        write = (
            f"Write {show_cm(abs(over))} there" if should == longer else f"Name the {longer} there instead"
        )
        return question(
            "seam-differs",
            f"{said} at the {longer}, and the sentence asks for {show_length(abs(wanted))} over at the {should}.",
            span,
            help=f"{write}, or change one of the two edges.",
        )
    # More than a tenth of the shorter edge is no ease.
    how = "easing" if abs(over) <= 0.1 * min(one, other) else "gathering"
    return question(
        "seam-differs", f"{said}.", span,
        help=f"Try adding “, {how} the {longer} by {show_cm(abs(over))}”, or make one as long as the other.",
    )  # fmt: skip


def nothing_over(
    how: str, eased: str, names: tuple[str, str], long: tuple[float, float], span: Span
) -> Query:
    """An edge that was to be eased or gathered, and is the shorter; or stretched, and is the longer."""
    (first, second), (one, other) = names, long
    is_ = "longer" if how == "stretching" else "shorter"
    return question(
        "seam-differs",
        f"The {first} is {show_length(one)}, the {second} {show_length(other)}; the {eased} is the {is_}, "
        f"so {how} it takes nothing up.",
        span,
        help="Name the other edge there, or change one of the two.",
    )


def opens_too_far(name: str, far: float, long: float, span: Span) -> Query:
    """A slash opened by more than it can."""
    if far < 0:
        return negative("The opening", far, span)
    return question(
        "opens-too-far", f"{name} is {show_length(long)} long and cannot open by {show_length(far)}.", span,
        help="A slash opens by less than twice its length. Open by less, or slash in more places.",
    )  # fmt: skip


def outline_crosses(one: str, other: str, order: list[str], span: Span) -> Query:
    """An outline that crosses itself; `order` is that in which its letters lie round it, if that helps."""
    ring = (
        ", ".join([f"{order[0]} to {order[1]}", *(f"to {p}" for p in (*order[2:], order[0]))])
        if order
        else ""
    )
    if one == other:
        return question(
            "outline-crosses",
            f"On this body {one} crosses itself, so inside and outside of the outline cannot be told.",
            span,
            help="Draw that edge with a gentler bend, or end it before the loop.",
        )
    return question(
        "outline-crosses",
        f"The outline crosses itself: {one} goes through {other}, so its inside cannot be told from its outside.",
        span,
        help="Name the letters in the order in which they lie round the piece."
        if order
        else "See whether the letters stand in the order round the piece, or the measures make its edges meet.",
        answers=[ring] if ring else [],
    )


def two_edges(span: Span) -> Query:
    """Running on needs two edges."""
    return question(
        "runs-on", "Two edges run on from one another; name two, and the letter or letters where they join.",
        span, help="Such as: See that the back neck and the front neck run on smoothly at N and M.",
    )  # fmt: skip


def no_seam_there(letters: list[str], span: Span) -> Query:
    """No seam closes the two letters at which edges should run on."""
    return question(
        "runs-on", f"No seam of this lesson joins {' and '.join(letters)}.", span,
        help="Sew the edges that end there, or name one letter where both edges end.",
    )  # fmt: skip

"""The wording of questions about curves, arcs, corners and shapes."""

from __future__ import annotations

from tapewright.diagnostics import Query, Span, caution, note, question
from tapewright.draft.asking.lines import side_unclear
from tapewright.geometry.rows import Why
from tapewright.units import show_length


def curve_points_one(a: str, b: str, span: Span) -> Query:
    """A curve through two letters that are one point."""
    return question(
        "one-point", f"{a} and {b} are one point on this body, so no curve can be drawn between them.", span,
        help="Leave one of the two out, or see why they fall together.",
    )  # fmt: skip


def leaning_unclear(letter: str, degrees: float, span: Span) -> Query:
    """A leaning whose sense cannot be taken from the letters."""
    return question(
        "leaning-unclear",
        f"At {letter} this lies {degrees:.0f} degrees off the straight way on, so the curve might run either way.",
        span,
        help="Say toward which letter or place it runs there, such as “leaving A toward B”.",
    )


def bulge(letters: tuple[str, str], degrees: float, span: Span) -> Query:
    """A curve that swings far out between two letters."""
    return caution(
        "bulge",
        f"The curve swings out by {degrees:.0f} degrees from the straight way between {letters[0]} and {letters[1]}.",
        span, help="A letter more between them, or another way of leaving, steadies it.",
    )  # fmt: skip


def bends_both(letters: tuple[str, str], degrees: float, span: Span) -> Query:
    """A curve that bends both ways where its letters do not ask for it."""
    make = caution if degrees > 5 else note
    a, b = letters
    return make(
        "bends-both-ways",
        f"The curve bends {degrees:.0f} degrees the wrong way between {a} and {b}.",
        span,
        help=f"If that is meant, add “, bending both ways”. If not, look where {a} and {b} stand on this body, "
        "or leave more of the curve free.",
    )


def turns_back(letters: tuple[str, str], degrees: float, span: Span) -> Query:
    """A curve that nearly turns back on itself."""
    return caution(
        "turns-back",
        f"The curve nearly turns back: it turns by {degrees:.0f} degrees between {letters[0]} and {letters[1]}.",
        span,
        help="A letter more between them shows it the way round.",
    )


def bends_tighter(name: str, far: float, span: Span) -> Query:
    """A parallel on the inner side of a bend that is tighter than its distance."""
    return question(
        "parallel-too-far",
        f"Somewhere {name} bends in a round smaller than {show_length(far)}; a line so far inside it would "
        "run back on itself.",
        span,
        help="Take less, or draw the parallel on the outer side.",
    )


def has_a_corner(name: str, span: Span) -> Query:
    """A parallel to a line with a corner in it."""
    return question(
        "parallel-too-far",
        f"{name[:1].upper()}{name[1:]} has a corner, and no one line runs beside both its arms.",
        span,
        help="Draw a parallel to each arm, such as: Draw C-D parallel to the hem from A to B, 2 cm up.",
    )


def cannot_bow(name: str, depth: float, long: float, why: int, span: Span) -> Query:
    """A hollow deeper than half its line, or to a side that lies on the line."""
    if Why(why) is Why.TOO_DEEP:
        return question(
            "too-deep",
            f"This goes {show_length(depth)} off {name}, which is {show_length(long)} long; half of that is the most.",
            span,
            help="Take less, or draw a curve through a letter there.",
        )
    return side_unclear(span)


def arc_unclear(letters: list[str], why: Why, span: Span) -> Query:
    """Three points of an arc in a row, or two of them one."""
    names = ", ".join(letters[:-1]) + " and " + letters[-1]
    if why is Why.SAME_POINT:
        fall = f"{names} fall" if len(letters) == 2 else f"Two at least of {names} fall"
        return question(
            "one-point", f"{fall} together on this body, so no arc goes through them.", span,
            help="See why they do, or take another letter.",
        )  # fmt: skip
    if len(letters) == 2:
        return question(
            "in-a-row", f"An arc from {' to '.join(letters)} of no height is straight.", span,
            help="Give it a height, or join the two letters.",
        )  # fmt: skip
    return question(
        "in-a-row", f"{names} lie in a row on this body, so no arc goes through them.", span,
        help="Move the middle one off the line of the others, or join them.",
    )  # fmt: skip


def arm_too_short(reach: float, arm: float, span: Span) -> Query:
    """A corner rounded by more than an arm is long."""
    return question(
        "arm-too-short",
        f"{show_length(reach)} is to be cut off each arm, and the shorter is only {show_length(arm)} long.",
        span,
        help="Round it by less, or make that arm longer.",
    )


def closed_rule(title: str, span: Span) -> Query:
    """A shape that ends where it begins is no curve rule."""
    said = f"The shape “{title}” ends where it begins, so it cannot be laid between two letters."
    return question(
        "closed-rule",
        said,
        span,
        help=f"Draw it as a shape: Draw the shape “{title}” from A on squares of 1 in.",
    )


def points_of_shape_one(title: str, span: Span) -> Query:
    """Two points of a shape fall on one another."""
    return question(
        "one-point", f"Two points of the shape “{title}” that follow each other are one point here.", span,
        help="Leave one of the two rows out of its table.",
    )  # fmt: skip


def cone_too_wide(near: float, far: float, slant: float, span: Span) -> Query:
    """A cone whose ends differ by more than its slant can reach."""
    return question(
        "cone-too-wide",
        f"The ends, {show_length(near)} and {show_length(far)}, differ by more than a slant "
        f"of {show_length(slant)} can reach.",
        span,
        help="A slant this long reaches a difference of at most six and a quarter times itself.",
    )

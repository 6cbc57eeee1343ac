"""The wording of questions about amounts: what was not taken, what is less than nothing, what is not found."""

from __future__ import annotations

from tapewright.diagnostics import Query, Span, caution, note, question
from tapewright.draft.bodies import Bodies
from tapewright.geometry.tolerance import LENGTH_AGREES
from tapewright.language.lesson import TableEntry
from tapewright.measures import can_be_estimated, key_of, measure_meant
from tapewright.plan import Dimension, Plan
from tapewright.units import show_angle, show_length


def not_taken(plan: Plan, name: str, span: Span) -> Query:
    """A measure the sheet lacks and the lesson does not fill."""
    entry = next((m for m in plan.lesson.measures if m.name == name), None)
    known = measure_meant(name)
    how = entry.note if entry is not None and entry.note else (known.how if known is not None else "")
    taken = f"How it is taken: {how[:1].lower() + how[1:].rstrip('.')}. " if how else ""
    return question(
        "measure-not-taken", f"The {name} is not on the measure sheet.", span,
        help=f"{taken}Take it, or let the lesson fill it: “the {name} if taken, otherwise”, and then a length."
        f"{_or_estimated(name)}",
    )  # fmt: skip


def _or_estimated(name: str) -> str:
    """How to have it estimated, where a survey took it."""
    key = key_of(name)
    return (
        f" For a first toile it may be estimated: write {key}: estimated on the sheet."
        if can_be_estimated(key)
        else ""
    )


def bust_or_chest(bodies: Bodies, name: str, row: int, span: Span) -> Query:
    """A bare chest on a woman's sheet, or a bust on a man's."""

    def value(measure: str) -> str:
        taken = bodies.taken.get(measure)
        if taken is None or not taken[row]:
            return ""
        return f", {show_length(float(bodies.values[measure][row]))},"

    if name == "bust":
        return question(
            "bust-or-chest", "This is a man's sheet, and the lesson asks for the bust.", span,
            help=f"On a man the fullest girth is the chest{value('chest').rstrip(',')}.", answers=["the chest"],
        )  # fmt: skip

    return question(
        "bust-or-chest", "Round the fullest part, or under the arms?", span,
        help=f"Try the bust{value('bust')} or the high bust{value('high bust').rstrip(',')}.",
        answers=["the bust", "the high bust"],
    )  # fmt: skip


def said(value: float, dimension: Dimension) -> str:
    """An amount in words: millimetres as a length, radians as an angle."""
    return show_angle(value) if dimension is Dimension.ANGLE else show_length(value)


def limit_bites(free: float, held: float, which: str, dimension: Dimension, span: Span) -> Query:
    """A limit that holds an amount on this body."""
    return note(
        "limit-bites",
        f"Without its limit this would be {said(free, dimension)}; "
        f"it may not be {which} than {said(held, dimension)}.",
        span,
    )


def negative(what: str, value: float, span: Span) -> Query:
    """A length that comes out below nothing, or at nothing where there has to be something."""
    if show_length(value) == "0 cm":
        return question(
            "below-nothing", f"{what} comes out at nothing on this body.", span,
            help="Give it more, or a limit, such as “, but not less than 1 cm”.",
        )  # fmt: skip
    return question(
        "below-nothing", f"{what} comes out at {show_length(value)} on this body, less than nothing.", span,
        help="Look at what is taken away in it; a limit helps, such as “, but not less than 1 cm”.",
    )  # fmt: skip


def out_of_range(
    name: str, value: float, ends: tuple[float, float], dimension: Dimension, span: Span
) -> Query:
    """A chosen value beyond the range of its By eye line."""
    low, high = (said(end, dimension) for end in ends)
    return caution(
        "beyond-its-range",
        f"The {name} is {said(value, dimension)}; the lesson allows {low} to {high}.",
        span,
        help="It is drawn as chosen. If it is meant, widen the range in the By eye list.",
    )


def not_found(
    name: str,
    sides: tuple[str, str],
    low: tuple[float, float, float],
    high: tuple[float, float, float],
    span: Span,
    *,
    whole: bool,
    dimensions: tuple[Dimension, Dimension],
) -> Query:
    """An unknown with no answer in its range: what either side is at either end.

    `sides` are the words of the two amounts that should agree; `low` and `high` each hold the unknown and
    what the two amounts come to there. Not `whole`: nearer its ends the block could not be drawn.
    `dimensions` are those of the unknown and of the two amounts.
    """
    own, both = dimensions
    if all(abs(low[k] - high[k]) < LENGTH_AGREES for k in (1, 2)):
        return question(
            "no-effect",
            f"The {name} changes neither side: whatever it is, {sides[0]} comes to {said(low[1], both)} "
            f"and {sides[1]} to {said(low[2], both)}.",
            span,
            help=f"Use the {name} in a sentence before this that one of the two rests on.",
        )
    which = ("the least allowed", "the most") if whole else ("the least that can be drawn", "the most")
    ends = [
        f"At {said(x, own)}, {end}, {sides[0]} comes to {said(left, both)} against {said(right, both)}, "
        f"{said(abs(left - right), both)} {'over' if left > right else 'short'}."
        for (x, left, right), end in ((low, which[0]), (high, which[1]))
    ]
    return question(
        "cannot-be-found",
        f"The {name} cannot be found on this body: it should bring {sides[0]} to {sides[1]}. {ends[0]} {ends[1]}",
        span,
        help=f"Widen the range of the {name}, or change one of the two amounts.",
    )


def found_twice(name: str, span: Span) -> Query:
    """An unknown with two answers in its range."""
    return question(
        "found-twice", f"The {name} has two answers in its range on this body.", span,
        help="Narrow its range, so that only the one you mean lies in it.",
    )  # fmt: skip


def never(name: str, span: Span) -> Query:
    """An unknown whose block cannot be drawn somewhere between the two places that bracket it."""
    return question(
        "cannot-be-found",
        f"The {name} cannot be found on this body: somewhere in its range the sentences before cannot be drawn.",
        span,
        help="Narrow its range to where everything can be drawn.",
    )


def off_the_table(table: TableEntry, value: float, first: float, last: float, span: Span) -> Query:
    """A look-up beyond the rows of a table."""
    return question(
        "off-the-table",
        f"{show_length(value)} is off the end of the {table.name}, "
        f"which go from {show_length(first)} to {show_length(last)}.",
        span,
        help="Add rows to the table, or draft this body another way.",
    )


def between_rows(table: TableEntry, value: float, low: float, high: float, span: Span) -> Query:
    """A look-up between two rows of a table that does not say what holds there."""
    return question(
        "between-rows",
        f"{show_length(value)} lies between two rows of the {table.name}, {show_length(low)} and {show_length(high)}.",
        span,
        help="Say above the table what holds between its rows: in proportion, the nearest, or the next larger.",
    )


def drawn_in_one_branch(name: str, sentence: int, span: Span) -> Query:
    """A letter that only some bodies have."""
    return question(
        "drawn-in-one-branch",
        f"{name[:1].upper()}{name[1:]} is drawn by sentence {sentence} only one way of its If, "
        "and this body goes the other.",
        span,
        help="Make the same letters both ways, or put this under the same If.",
    )

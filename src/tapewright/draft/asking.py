"""The wording of what a draft asks of one body: where, what is so with both values, what to try."""

from __future__ import annotations

import numpy as np

from tapewright.diagnostics import Answer, Query, Span, caution, note, question
from tapewright.draft.bodies import Bodies, Mask
from tapewright.draft.records import Check
from tapewright.geometry import Meets
from tapewright.geometry.rows import Why
from tapewright.language.lesson import TableEntry
from tapewright.measures import measure_called
from tapewright.plan import Plan
from tapewright.units import show_cm


def not_taken(plan: Plan, name: str, span: Span) -> Query:
    """A measure the sheet lacks and the lesson does not fill."""
    entry = next((m for m in plan.lesson.measures if m.name == name), None)
    known = measure_called(name)
    how = entry.note if entry is not None and entry.note else (known.how if known is not None else "")
    said = f"How it is taken: {how[:1].lower() + how[1:].rstrip('.')}." if how else ""
    return question("measure-not-taken", f"The {name} is not on the measure sheet.", span, help=said)


def bust_or_chest(bodies: Bodies, name: str, row: int, span: Span) -> Query:
    """A bare chest on a woman's sheet, or a bust on a man's."""
    if name == "bust":
        return question(
            "bust-or-chest", "This is a man's sheet, and the lesson asks for the bust.", span,
            help="On a man the fullest girth is the chest.", answers=["the chest"],
        )  # fmt: skip

    def value(measure: str) -> str:
        taken = bodies.taken.get(measure)
        if taken is None or not taken[row]:
            return ""
        return f" ({show_cm(float(bodies.values[measure][row]))})"

    return question(
        "bust-or-chest", "Round the fullest part, or under the arms?", span,
        help=f"Try the bust{value('bust')} or the high bust{value('high bust')}.",
        answers=["the bust", "the high bust"],
    )  # fmt: skip


def limit_bites(free: float, held: float, which: str, span: Span) -> Query:
    """A limit that holds an amount on this body."""
    return note(
        "limit-bites",
        f"Without its limit this would be {show_cm(free)}; it may not be {which} than {show_cm(held)}.",
        span,
    )


def negative(what: str, value: float, span: Span) -> Query:
    """A length that comes out below nothing."""
    return question("below-nothing", f"{what} comes out at {show_cm(value)}, less than nothing.", span)


def no_first_edge(span: Span) -> Query:
    """`across` with no edge stated."""
    return question(
        "no-first-edge", "Across from what? No first edge was stated.", span,
        help="Begin says it: Begin at A, with the centre back on the left.", answers=["right", "left"],
    )  # fmt: skip


def no_direction(what: str, span: Span) -> Query:
    """Two points that are one on this body give no direction."""
    return question(
        "one-point", f"{what[:1].upper()}{what[1:]} has no direction here: its ends are one point.", span
    )


def side_unclear(span: Span) -> Query:
    """The side said lies on the line itself."""
    return question("side-unclear", "What it should turn toward lies on the line itself.", span,
                    help="Name a letter that stands off the line.")  # fmt: skip


def flat_corner(name: str, span: Span) -> Query:
    """A corner with an arm of no length."""
    return question("flat-corner", f"{name} has an arm of no length, so it is no corner.", span)


def whole_circle(span: Span) -> Query:
    """A whole circle where a line with ends is needed."""
    return question("whole-circle", "A whole sweep has no ends; cut it first where it meets a line.", span)


def off_the_line(letter: str, name: str, far: float, span: Span) -> Query:
    """A letter that is not on the line it should be on."""
    line = f"the {name}" if name else "that line"
    return question("off-the-line", f"{letter} stands {show_cm(far)} off {line}.", span)


def runs_past(letter: str, far: float, span: Span) -> Query:
    """A length along a straight line that goes beyond its end."""
    return note("runs-past", f"{letter} lies {show_cm(far)} beyond the end of that line.", span)


def line_too_short(have: float, want: float, span: Span) -> Query:
    """A curve that is shorter than the length asked along it."""
    return question(
        "line-too-short", f"That line is {show_cm(have)} long from there, and {show_cm(want)} is asked along it.",
        span,
    )  # fmt: skip


def drawn_in_one_branch(name: str, sentence: int, span: Span) -> Query:
    """A letter that only some bodies have."""
    return question(
        "drawn-in-one-branch",
        f"{name[:1].upper()}{name[1:]} is drawn by sentence {sentence} only if its condition holds, "
        "and on this body it does not.",
        span,
        help="Make the same letters in both branches.",
    )


def two_crossings(met: Meets, on: Mask, row: int, span: Span) -> Query:
    """Two crossings and no word to choose."""
    ks = [k for k in range(met.x.shape[0]) if on[k, row]]
    first, second = ks[0], ks[1]
    dx = float(met.x[second, row] - met.x[first, row])
    dy = float(met.y[second, row] - met.y[first, row])
    words = ("upper", "lower") if abs(dy) >= abs(dx) else ("left", "right")
    far = float(np.hypot(dx, dy))
    return question(
        "which-crossing",
        f"They meet {len(ks)} times here, {show_cm(far)} apart.",
        span,
        help=f"Add which is meant, such as: , the {words[0]} crossing.",
        answers=[Answer(f"the {w} crossing", None) for w in words],
    )


def never_meets(what: str, line: str, met: Meets, row: int, span: Span) -> Query:
    """Two lines that do not meet on this body: parallel, apart, or only beyond an end."""
    why = Why(int(met.why[row]))
    if why is Why.PARALLEL or why is Why.ALONG:
        return question("never-meets", f"{what} never meets {line}: they run the same way.", span)
    if why is Why.BEYOND:
        past_a, past_b = float(met.past_a[0, row]), float(met.past_b[0, row])
        if abs(past_b) > 0:
            end = "beyond the end of" if past_b > 0 else "before the beginning of"
            return question(
                "meets-beyond", f"{what} passes {show_cm(abs(past_b))} {end} {line}.", span,
                help="Write `carried on` after the line, if it may run further.",
                answers=[Answer("carried on", None)],
            )  # fmt: skip
        return question(
            "meets-behind",
            f"{what} meets {line} only the other way, {show_cm(abs(past_a))} from where it starts.",
            span,
        )
    gap = float(met.gap[row])
    return question("never-meets", f"{what} misses {line} by {show_cm(gap)}.", span)


def ruler_short(what: str, line: str, met: Meets, row: int, span: Span) -> Query:
    """A ruler of a given length that does not reach a line."""
    why = Why(int(met.why[row]))
    if why is Why.APART:
        return question("ruler-short", f"{what} falls {show_cm(float(met.gap[row]))} short of {line}.", span)
    return never_meets(what, line, met, row, span)


def curve_points_one(a: str, b: str, span: Span) -> Query:
    """A curve through two letters that are one point."""
    return question(
        "one-point", f"{a} and {b} are one point here, so no curve can be drawn between them.", span
    )


def leaning_unclear(letter: str, degrees: float, span: Span) -> Query:
    """A leaning whose sense cannot be taken from the letters."""
    return question(
        "leaning-unclear",
        f"At {letter} that lies {degrees:.0f} degrees off the straight way on, so both senses are likely.",
        span,
        help="Say toward which letter or place instead.",
    )


def bulge(letters: tuple[str, str], degrees: float, span: Span) -> Query:
    """A curve that swings far out between two letters."""
    return caution(
        "bulge", f"The curve swings out by {degrees:.0f} degrees between {letters[0]} and {letters[1]}.", span,
        help="A letter more between them, or another way of leaving, steadies it.",
    )  # fmt: skip


def bends_both(letters: tuple[str, str], degrees: float, span: Span) -> Query:
    """A curve that bends both ways where its letters do not ask for it."""
    make = caution if degrees > 5 else note
    return make(
        "bends-both-ways",
        f"The curve bends {degrees:.0f} degrees the wrong way between {letters[0]} and {letters[1]}.",
        span,
        help="If that is meant, say so: bending both ways.",
    )


def turns_back(letters: tuple[str, str], degrees: float, span: Span) -> Query:
    """A curve that nearly turns back on itself."""
    return caution(
        "turns-back", f"The curve turns {degrees:.0f} degrees between {letters[0]} and {letters[1]}.", span
    )


def out_of_range(name: str, value: float, low: float, high: float, span: Span) -> Query:
    """A chosen value beyond the range of its By eye line."""
    return caution(
        "beyond-its-range",
        f"The {name} is {show_cm(value)}; the lesson allows {show_cm(low)} to {show_cm(high)}.",
        span,
    )


def not_found(name: str, low: tuple[float, float], high: tuple[float, float], span: Span) -> Query:
    """An unknown with no answer in its range: what is over or short at either end."""

    def over(value: float) -> str:
        return f"{show_cm(abs(value))} {'over' if value > 0 else 'short'}"

    return question(
        "cannot-be-found",
        f"The {name} cannot be found: at {show_cm(low[0])}, the least allowed, it comes out {over(low[1])}; "
        f"at {show_cm(high[0])}, the most, {over(high[1])}.",
        span,
        help="Widen its range, or change what must agree.",
    )


def found_twice(name: str, span: Span) -> Query:
    """An unknown with two answers in its range."""
    return question(
        "found-twice", f"The {name} has two answers in its range.", span, help="Narrow its range."
    )


def foot_beyond(letter: str, line: str, far: float, span: Span) -> Query:
    """A square whose corner would fall beyond the end of its line."""
    return question(
        "meets-beyond",
        f"Square from {letter} the corner falls {show_cm(far)} beyond the end of {line}.",
        span,
        help="Write `carried on` after the line, if it may run further.",
        answers=[Answer("carried on", None)],
    )


def not_so_far(pivot: str, radius: str, letter: str, off: float, span: Span) -> Query:
    """A sweep to a letter that does not stand at its distance."""
    way = "farther from" if off > 0 else "nearer to"
    return question(
        "not-so-far", f"{letter} stands {show_cm(abs(off))} {way} {pivot} than the sweep {radius}.", span
    )


def along_itself(name: str, span: Span) -> Query:
    """A parallel moved along the line itself."""
    return question("along-itself", f"That way runs along {name} itself, so nothing would move.", span)


def off_its_line(name: str, span: Span) -> Query:
    """The place of a hollow beyond the ends of its line."""
    return question("off-the-line", f"That place is not between the ends of {name}.", span)


def cannot_bow(name: str, depth: float, long: float, why: int, span: Span) -> Query:
    """A hollow deeper than half its line, or to a side that lies on the line."""
    if Why(why) is Why.TOO_DEEP:
        return question(
            "too-deep",
            f"The hollow is {show_cm(depth)} deep on a line of {show_cm(long)}; half of that is the most.",
            span,
        )
    return side_unclear(span)


def nothing_taken_out(span: Span) -> Query:
    """A dart that comes to nothing on this body."""
    return note(
        "nothing-taken-out", "On this body nothing is left to take out; the outline goes straight on.", span
    )


def wider_than_deep(wide: float, deep: float, span: Span) -> Query:
    """A dart wider than it is deep."""
    return caution(
        "wider-than-deep", f"This dart is {show_cm(wide)} wide and only {show_cm(deep)} deep.", span,
        help="Two darts would lie flatter.",
    )  # fmt: skip


def check_open(check: Check, row: int) -> Query:
    """A check that does not come out."""
    left, right = float(check.left[row]), float(check.right[row])
    by = abs(float(check.difference[row]))
    within = float(check.within[row])

    def say(value: float) -> str:
        return f"{np.degrees(value):.1f} degrees" if check.angle else show_cm(value)

    allowed = f"; {say(within)} is allowed" if within > 0 else ""
    return caution(
        "check",
        f"{check.claim[:1].upper()}{check.claim[1:]}: {say(left)} against {say(right)}, "
        f"{say(by)} off{allowed}.",
        check.where,
    )


def seam_differs(first: str, second: str, one: float, other: float, wanted: float, span: Span) -> Query:
    """Two edges of a seam that differ by other than the ease said."""
    over = one - other
    longer = first if over > 0 else second
    said = f"The {first} is {show_cm(one)}, the {second} {show_cm(other)}; {show_cm(abs(over))} is over"
    if wanted:
        return question("seam-differs", f"{said}, and {show_cm(abs(wanted))} was to be.", span)
    return question(
        "seam-differs", f"{said}.", span,
        help=f"Try: , easing the {longer} by {show_cm(abs(over))}; or make one as long as the other.",
    )  # fmt: skip


def no_end(letter: str, line: str, span: Span) -> Query:
    """A line carried on beyond a letter that is no end of it."""
    return question(
        "no-end", f"{letter} is no end of {line}.", span, help="A line is carried on beyond one of its ends."
    )


def touches_at_end(line: str, span: Span) -> Query:
    """A touching line that touches only an end."""
    return note("touches-at-end", f"It touches {line} only at an end of it.", span)


def arc_unclear(letters: list[str], why: Why, span: Span) -> Query:
    """Three points of an arc in a row, or two of them one."""
    names = ", ".join(letters[:-1]) + " and " + letters[-1]
    if why is Why.SAME_POINT:
        return question("one-point", f"Two of {names} are one point here, so no arc goes through them.", span)
    return question("in-a-row", f"{names} lie in a row, so no arc goes through them.", span)


def arm_too_short(reach: float, arm: float, span: Span) -> Query:
    """A corner rounded by more than an arm is long."""
    return question(
        "arm-too-short",
        f"{show_cm(reach)} is to be cut off each arm, and the shorter is {show_cm(arm)}.",
        span,
    )


def cone_too_wide(near: float, far: float, slant: float, span: Span) -> Query:
    """A cone whose ends differ by more than its slant can reach."""
    return question(
        "cone-too-wide",
        f"The ends, {show_cm(near)} and {show_cm(far)}, differ by more than a slant of {show_cm(slant)} can reach.",
        span,
        help="A slant this long reaches a difference of at most six and a quarter times itself.",
    )


def opens_too_far(name: str, far: float, long: float, span: Span) -> Query:
    """A slash opened by more than it can."""
    if far < 0:
        return negative("The opening", far, span)
    return question(
        "opens-too-far", f"{name} is {show_cm(long)} long and cannot open by {show_cm(far)}.", span
    )


def no_piece_yet(verb: str, span: Span) -> Query:
    """Let out and take in know their side from the piece; there is none yet."""
    return question(
        "which-side",
        f"To which side? No piece has that edge yet, so it is not clear what to {verb} means.",
        span,
        help="Say toward which letter or place.",
    )


def off_the_table(table: TableEntry, value: float, first: float, last: float, span: Span) -> Query:
    """A look-up beyond the rows of a table."""
    return question(
        "off-the-table",
        f"{show_cm(value)} is off the end of the {table.name}, which go from {show_cm(first)} to {show_cm(last)}.",
        span,
    )


def between_rows(table: TableEntry, value: float, low: float, high: float, span: Span) -> Query:
    """A look-up between two rows of a table that does not say what holds there."""
    return question(
        "between-rows",
        f"{show_cm(value)} lies between two rows of the {table.name}, {show_cm(low)} and {show_cm(high)}.",
        span,
        help="Say above the table what holds between rows: in proportion, the nearest, or the next larger.",
    )


def closed_rule(title: str, span: Span) -> Query:
    """A shape that ends where it begins is no curve rule."""
    said = f"The shape “{title}” ends where it begins, so it cannot be laid between two letters."
    return question("closed-rule", said, span)


def points_of_shape_one(title: str, span: Span) -> Query:
    """Two points of a shape fall on one another."""
    return question(
        "one-point", f"Two points of the shape “{title}” that follow each other are one point here.", span
    )


def two_edges(span: Span) -> Query:
    """Running on needs two edges."""
    return question("runs-on", "Two edges run on from one another; only one is named.", span)


def no_seam_there(letters: list[str], span: Span) -> Query:
    """No seam closes the two letters at which edges should run on."""
    return question(
        "runs-on", f"No seam of this lesson joins {' and '.join(letters)}.", span,
        help="Sew the edges that end there, or name one letter where both edges end.",
    )  # fmt: skip


def never(name: str, span: Span) -> Query:
    """An unknown whose block cannot be drawn somewhere between the two places that bracket it."""
    return question(
        "cannot-be-found",
        f"The {name} cannot be found: between two values the sentences cannot be drawn.",
        span,
    )

"""The wording of questions about ways, letters on lines, and lengths along them."""

from __future__ import annotations

from tapewright.diagnostics import Query, Span, note, question
from tapewright.units import show_length


def no_first_edge(span: Span) -> Query:
    """`across` with no edge stated."""
    return question(
        "no-first-edge", "Across from what? No first edge was stated.", span,
        help="Begin says it: Begin at A, with the centre back on the left.", answers=["right", "left"],
    )  # fmt: skip


def no_direction(what: str, span: Span) -> Query:
    """Two points that are one on this body give no direction."""
    return question(
        "one-point",
        f"{what[:1].upper()}{what[1:]} has no direction on this body: its two ends are one point.",
        span,
        help="Take two letters that always stand apart.",
    )


def side_unclear(span: Span) -> Query:
    """The side said lies on the line itself."""
    return question(
        "side-unclear", "To which side? What it should turn toward lies on the line itself.", span,
        help="Name a letter that stands off the line, or a side of the paper.",
    )  # fmt: skip


def flat_corner(name: str, span: Span) -> Query:
    """A corner with an arm of no length."""
    return question(
        "flat-corner", f"{name} has an arm of no length on this body, so it is no corner.", span,
        help="Take letters on its arms that stand apart from the corner.",
    )  # fmt: skip


def whole_circle(span: Span) -> Query:
    """A whole circle where a line with ends is needed."""
    return question(
        "whole-circle", "A whole sweep has no ends, and here a line with two ends is needed.", span,
        help="Sweep from one letter to another instead: Sweep about A from B to C.",
    )  # fmt: skip


def off_the_line(letter: str, name: str, far: float, span: Span) -> Query:
    """A letter that is not on the line it should be on."""
    line = f"the {name}" if name else "that line"
    return question(
        "off-the-line", f"{letter} stands {show_length(far)} off {line}.", span,
        help="Name a letter on the line, or put one there first: Where ... meets ..., put K.",
    )  # fmt: skip


def runs_past(letter: str, far: float, span: Span) -> Query:
    """A length along a straight line that goes beyond its end."""
    return note(
        "runs-past", f"{letter} lies {show_length(far)} beyond the end of that line.", span,
        help="A straight line goes on straight. If that is not meant, ask for less.",
    )  # fmt: skip


def line_too_short(have: float, want: float, span: Span) -> Query:
    """A curve that is shorter than the length asked along it."""
    return question(
        "line-too-short",
        f"That line is {show_length(have)} long from there, and {show_length(want)} is asked along it.",
        span, help="Ask for less, or for another line.",
    )  # fmt: skip


def not_so_far(pivot: str, radius: str, letter: str, off: float, span: Span) -> Query:
    """A sweep to a letter that does not stand at its distance."""
    way = "farther from" if off > 0 else "nearer to"
    return question(
        "not-so-far", f"{letter} stands {show_length(abs(off))} {way} {pivot} than the sweep {radius} reaches.",
        span, help="Let the sweep end on a line instead, at a new letter: to C on the hem line.",
    )  # fmt: skip


def along_itself(name: str, span: Span) -> Query:
    """A parallel moved along the line itself."""
    return question(
        "along-itself", f"That way runs along {name} itself, so the new line would fall on the old one.", span,
        help="Say a way that leads off the line, such as down, or toward a letter beside it.",
    )  # fmt: skip


def off_its_line(name: str, span: Span) -> Query:
    """The place of a hollow beyond the ends of its line."""
    return question(
        "off-the-line", f"That place is not between the ends of {name}.", span,
        help="Measure from the letter you named toward the other end, or say: at the middle.",
    )  # fmt: skip


def no_end(letter: str, line: str, span: Span) -> Query:
    """A line carried on beyond a letter that is no end of it."""
    return question(
        "no-end", f"{letter} is no end of {line}.", span, help="A line is carried on beyond one of its ends."
    )


def touches_at_end(line: str, span: Span) -> Query:
    """A touching line that touches only an end."""
    return note(
        "touches-at-end", f"It touches {line} only at an end of it.", span,
        help="On this body the line goes farthest to that side at its end. If it should touch before, "
        "draw the line farther, or take the other side.",
    )  # fmt: skip


def no_piece_yet(verb: str, span: Span) -> Query:
    """Let out and take in know their side from the piece; there is none yet."""
    return question(
        "which-side",
        f"To which side? No piece has that edge yet, so it is not clear which way to {verb.lower()} leads.",
        span,
        help="Say toward which letter or place, such as “, toward the centre front”.",
    )


def ruler_or_tape(letters: str, straight: float, tape: float, curve: str, span: Span) -> Query:
    """A span measured where a curve of the same ends was drawn."""
    named = f"the {curve}" if curve else f"the curve {letters}"
    return note(
        "ruler-or-tape",
        f"{letters} is the ruler's way, {show_length(straight)}; "
        f"the curve between them, by the tape, is {show_length(tape)}.",
        span,
        help=f"If you mean the tape, say {named}.",
        answers=[named],
    )

"""The wording of questions about lines that meet twice, or not at all."""

from __future__ import annotations

import re

import numpy as np

from tapewright.diagnostics import Answer, Query, Span, question
from tapewright.draft.bodies import Mask
from tapewright.geometry import Meets
from tapewright.geometry.rows import Why
from tapewright.units import show_length

_LETTERS = re.compile(r"([A-Z]\d{0,2}'{0,2})-([A-Z]\d{0,2}'{0,2})")
_CARRY_ON = "Write “carried on” after the line, if it may run further."


def two_crossings(met: Meets, on: Mask, row: int, span: Span) -> Query:
    """Two crossings and no word to choose."""
    ks = [k for k in range(met.x.shape[0]) if on[k, row]]
    first, second = ks[0], ks[1]
    dx = float(met.x[second, row] - met.x[first, row])
    dy = float(met.y[second, row] - met.y[first, row])
    upright = abs(dy) >= abs(dx)
    words = ("upper", "lower") if upright else ("left", "right")
    lie = "one above the other" if upright else "one left of the other"
    times = "twice" if len(ks) == 2 else f"{len(ks)} times"
    return question(
        "which-crossing",
        f"They meet {times} here, {show_length(float(np.hypot(dx, dy)))} apart, {lie}.",
        span,
        help=f"Add which is meant: “, the {words[0]} crossing”, “, the {words[1]} crossing”, "
        "or “, the crossing nearer B”.",
        answers=[Answer(f"the {w} crossing", None) for w in words],
    )


def never_meets(what: str, line: str, met: Meets, row: int, span: Span) -> Query:
    """A line that sets out some way and does not meet another: alongside it, behind it, beyond its end."""
    why = Why(int(met.why[row]))
    if why is Why.PARALLEL or why is Why.ALONG:
        return _alongside(what, line, span)
    if why is Why.BEYOND:
        past_a, past_b = float(met.past_a[0, row]), float(met.past_b[0, row])
        if past_a < 0.0:
            return question(
                "meets-behind",
                f"{what} meets {line} only the other way, {show_length(abs(past_a))} behind where it starts.",
                span,
                help="Say the other way, or another line.",
            )
        return question(
            "meets-beyond", f"{what} passes {show_length(abs(past_b))} {_beyond(line, past_b > 0)}.", span,
            help=_CARRY_ON, answers=[Answer("carried on", None)],
        )  # fmt: skip
    return question(
        "never-meets", f"{what} misses {line} by {show_length(float(met.gap[row]))}.", span,
        help="Say another way, or another line.",
    )  # fmt: skip


def lines_apart(first: str, second: str, met: Meets, row: int, span: Span) -> Query:
    """Two drawn lines that do not meet: alongside, apart, or only if one is carried on."""
    why = Why(int(met.why[row]))
    one = first[:1].upper() + first[1:]
    if why is Why.PARALLEL or why is Why.ALONG:
        return _alongside(one, second, span)
    if why is Why.BEYOND:
        past_a, past_b = float(met.past_a[0, row]), float(met.past_b[0, row])
        if past_a and past_b:
            said = (
                f"They meet only if both are carried on: {first} by {show_length(abs(past_a))}, "
                f"{second} by {show_length(abs(past_b))}."
            )
        elif past_a:
            said = f"{one} ends {show_length(abs(past_a))} short of {second}."
        else:
            said = f"{one} passes {show_length(abs(past_b))} {_beyond(second, past_b > 0)}."
        return question(
            "meets-beyond", said, span,
            help=f"Write “carried on” after what may run further, such as: Where {first} carried on meets {second}.",
            answers=[Answer("carried on", None)],
        )  # fmt: skip
    return question(
        "never-meets", f"{one} misses {second} by {show_length(float(met.gap[row]))}.", span,
        help="Make one of them longer, or wider, or take another line.",
    )  # fmt: skip


def _alongside(what: str, line: str, span: Span) -> Query:
    return question(
        "never-meets", f"{what} never meets {line}: they run the same way.", span,
        help="Say another way, or another line.",
    )  # fmt: skip


def _beyond(line: str, last: bool) -> str:
    """`beyond D, where C-D ends`, `beyond the beginning of the hem`."""
    letters = _LETTERS.fullmatch(line)
    if letters is not None:
        return f"beyond {letters[2 if last else 1]}, where {line} {'ends' if last else 'begins'}"
    return f"beyond the {'end' if last else 'beginning'} of {line}"


def ruler_short(what: str, line: str, met: Meets, row: int, span: Span) -> Query:
    """A ruler of a given length that does not reach a line."""
    if Why(int(met.why[row])) is Why.APART:
        return question(
            "ruler-short", f"{what} falls {show_length(float(met.gap[row]))} short of {line}.", span,
            help="Give it more length, or take a nearer line.",
        )  # fmt: skip
    return never_meets(what, line, met, row, span)


def foot_beyond(letter: str, line: str, far: float, span: Span) -> Query:
    """A square whose corner would fall beyond the end of its line."""
    return question(
        "meets-beyond",
        f"Square from {letter} the corner falls {show_length(far)} beyond the end of {line}.",
        span,
        help=_CARRY_ON,
        answers=[Answer("carried on", None)],
    )

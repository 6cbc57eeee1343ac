"""What must be so of any text: read, planned, printed, and drawn for a body, without a slip and soon."""

from __future__ import annotations

import re
import time
from dataclasses import dataclass

import numpy as np

from tapewright.diagnostics import Source
from tapewright.draft import evaluate, from_sheets
from tapewright.language import read_lesson
from tapewright.language.house_style import formatted
from tapewright.measures import Sheet
from tapewright.plan import build_plan

_ENDLESS = re.compile(r"\b(?:nan|inf|NaN|Infinity)\b")

#: No text of a lesson's length may keep the maker waiting longer, in seconds of processor time.
SOON = 1.0


@dataclass(frozen=True, slots=True)
class Tried:
    """How long reading and planning took, and how many queries they gave."""

    seconds: float
    queries: int


def tried(text: str, sheet: Sheet | None = None) -> Tried:
    """Try a text. AssertionError, or whatever was raised, where it is answered amiss."""
    start = time.process_time()
    source = Source("tried.md", text)
    lesson = read_lesson(source)
    plan = build_plan(lesson)
    seconds = time.process_time() - start
    assert seconds < SOON, f"{seconds:.2f} s"
    for query in plan.queries:
        assert query.message
        assert query.name
        if query.span is not None:
            assert 0 <= query.span.start <= query.span.end <= len(source.text)
    printed = formatted(source)
    assert formatted(Source("tried.md", printed)) == printed, "formatting twice is not formatting once"
    if sheet is not None:
        draft = evaluate(plan, from_sheets([sheet], plan.measures()))
        for _, x, y, _ in draft.points(0):
            assert np.isfinite(x)
            assert np.isfinite(y)
        for query in draft.queries(0):
            assert not _ENDLESS.search(query.message), query.message
    return Tried(seconds, len(plan.queries))

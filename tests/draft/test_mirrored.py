"""A draft knows no left and right of its own: what is mirrored in words or in measures is mirrored on paper.

Geometry, no source. The drafts mirrored are those of the handbooks and the two blocks.
"""

from __future__ import annotations

import re

import numpy as np
import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from tapewright.diagnostics import Source
from tapewright.draft import Draft, both_sides, evaluate, from_sheets
from tapewright.draft.rows import arrays
from tapewright.geometry.tolerance import ROUNDING
from tapewright.language import read_lesson
from tapewright.measures import read_sheet
from tapewright.plan import build_plan
from tests.handbooks.drafts import Entry, drawn_entry, entries, lesson_source
from tests.lessons import lesson_text

#: Shapes are told in squares to the right, which no exchange of words turns round. Those drawn for values by
#: eye beside the lesson are left out too.
DRAFTS = [e for e in entries() if "Shape:" not in lesson_source(e.lesson).text and not e.by_eye]
TWO_SIDED = lesson_text(
    "Begin at A, with the centre back on the left and the centre front on the right.",
    "From A down to B: the nape to waist. From A across to C: a quarter of the bust.",
    "From A at the shoulder slope from A-C toward B to S: the shoulder. Square across from B and down from C to D.",
    "Draw a curve from S to D, leaving S square to A-S and reaching D level; call it the edge.",
    measures=("bust", "nape to waist", "shoulder", "shoulder slope, left and right"),
).replace("On the half.", "On the half, left and right.")


def exchanged(text: str) -> str:
    """The text with left for right and right for left in its numbered sentences."""

    def turned(line: re.Match[str]) -> str:
        other = {"left": "right", "right": "left"}
        return re.sub(r"\b(left|right)\b", lambda word: other[word[1]], line[0])

    return re.sub(r"^\d+\. .*$", turned, text, flags=re.MULTILINE)


@pytest.mark.parametrize("entry", DRAFTS, ids=str)
def test_a_lesson_with_left_and_right_exchanged_is_the_same_draft_turned_over(entry: Entry) -> None:
    """Every letter of a book's draft lies as far to the other side of the first, and as high; checks come out alike."""
    one = drawn_entry(entry)
    source = lesson_source(entry.lesson)
    plan = build_plan(read_lesson(Source(source.name, exchanged(source.text))))
    other = evaluate(plan, from_sheets([one.sheet], plan.measures()))
    assert {n: s for n, _, _, s in other.points()} == {n: s for n, _, _, s in one.alone.points()}
    there = {n: (x, y) for n, x, y, _ in other.points()}
    for name, x, y, _ in one.alone.points():
        assert there[name] == pytest.approx((-x, y), abs=ROUNDING), name
    for here, turned in zip(one.alone.checks(), other.checks(), strict=True):
        assert turned.difference == pytest.approx(here.difference, abs=ROUNDING)


SIDES = st.tuples(st.integers(100, 160), st.integers(100, 160), st.integers(10, 35), st.integers(10, 35))


@given(SIDES)
def test_measures_exchanged_between_the_sides_exchange_the_drafts(taken: tuple[int, int, int, int]) -> None:
    """Whoever has her left on the right has her right on the left, bit for bit."""
    left, right, low, high = taken
    plan = build_plan(read_lesson(Source("two.md", TWO_SIDED)))

    def sides(a: int, b: int, c: int, d: int) -> tuple[Draft, Draft]:
        measures = {
            "bust": 92, "nape to waist": 40, "shoulder": {"left": a / 10, "right": b / 10},
            "shoulder slope": {"left": f"{c} degrees", "right": f"{d} degrees"},
        }  # fmt: skip
        text = yaml.safe_dump(
            {"wearer": "Ann", "figure": "woman", "over": "a shift", "unit": "cm", "measures": measures}
        )
        sheet, _ = read_sheet(Source("ann.yaml", text))
        assert sheet is not None
        two = both_sides(plan, sheet)
        return two.left, two.right

    one, other = sides(left, right, low, high)
    turned, back = sides(right, left, high, low)
    for here, there in ((one, back), (other, turned)):
        assert len(list(here.points())) == 5
        assert list(here.points()) == list(there.points())
        for line in plan.lines:
            assert np.array_equal(ends(here, line.index), ends(there, line.index))


def ends(draft: Draft, index: int) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Every number of a line."""
    return np.concatenate([np.ravel(a) for a in arrays(draft.line(index))])

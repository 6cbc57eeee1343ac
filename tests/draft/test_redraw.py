"""A choice changed: only what depends on it is drawn again, and the rest is the same object."""

from __future__ import annotations

import numpy as np
import pytest

from tapewright.draft import evaluate, from_arrays, redraw
from tapewright.measures import Figure
from tests.lessons import TRIAL, at, draw, plan

BEGIN = "Begin at A, with the centre back on the left and the centre front on the right."
ITEMS = (
    BEGIN,
    "From A down to B: the nape to waist. From A across to C: half the bust plus half the ease.",
    "Square across from B and down from C to D. From B up to E: the drop. Square across from E to F on C-D.",
    "Divide E-F in half at G. Let the gap be half the ease. From A down to H: 3 cm.",
    "If the gap is at least 3 cm, from G up to K: 1 cm; otherwise from G up to K: 2 cm.",
    "See that A-C is half the bust plus half the ease.",
)
BY_EYE = ("ease: 2 in all round, between 0 and 4 in", "drop: 20 cm, between 15 and 25 cm")


def test_only_what_depends_on_a_choice_changes() -> None:
    """The keys handed out are exactly those whose values differ."""
    before = draw(*ITEMS, by_eye=BY_EYE)
    after, changed = redraw(before, {"drop": 220.0})
    points = {k for k in changed if k.startswith("point")}
    assert points == {"point E", "point F", "point G", "point K"}
    assert after.made["point H"] is before.made["point H"]
    assert after.made["point D"] is before.made["point D"]
    assert at(after, "E") == (0, 180)


def test_a_redraw_equals_a_fresh_drawing() -> None:
    """Changing a choice gives, bit for bit, what drawing with it from the start gives."""
    made = plan(*ITEMS, by_eye=BY_EYE)
    bodies = from_arrays({k: np.full(3, v) for k, v in TRIAL.items()}, Figure.WOMAN)
    start = evaluate(made, bodies)
    for ease in (0.0, 30.0, 70.0, 101.6):
        again, _ = redraw(start, {"ease": ease})
        fresh = evaluate(made, bodies, {"ease": ease})
        for name in made.points:
            assert (again.point(name).x == fresh.point(name).x).all()
            assert (again.point(name).y == fresh.point(name).y).all()
        assert [c.claim for c in again.checks()] == [c.claim for c in fresh.checks()]


def test_a_choice_beyond_its_range_is_a_caution() -> None:
    """It draws, and the query gives the range."""
    draft, _ = redraw(draw(*ITEMS, by_eye=BY_EYE), {"drop": 300.0})
    assert [q.name for q in draft.queries()] == ["beyond-its-range"]
    assert "25.0 cm" in draft.queries()[0].message


def test_what_came_out_the_same_stays_the_same_object() -> None:
    """A change that a limit swallows goes no further."""
    before = draw(BEGIN, "Let the gap be the ease, but not more than 1 in.", "From A down to B: the gap.")
    after, changed = redraw(before, {"ease": 60.0})
    assert after.made["point B"] is before.made["point B"]
    assert "point B" not in changed
    assert after.amount("gap")[0] == pytest.approx(25.4)


def test_a_row_alone_equals_the_row_among_many() -> None:
    """Every point and amount, bit for bit, on 1, 7 and 1,000 rows and in any order."""
    rng = np.random.default_rng(1775)
    count = 1000
    values = {
        "bust": rng.uniform(750, 1300, count), "waist": rng.uniform(550, 1200, count),
        "nape to waist": rng.uniform(330, 480, count),
    }  # fmt: skip
    made = plan(*ITEMS, by_eye=BY_EYE)
    whole = evaluate(made, from_arrays(values, Figure.WOMAN))
    order = rng.permutation(count)
    shuffled = evaluate(made, from_arrays({k: v[order] for k, v in values.items()}, Figure.WOMAN))
    seven = evaluate(made, from_arrays({k: v[:7] for k, v in values.items()}, Figure.WOMAN))
    for name in made.points:
        x = whole.point(name).x
        assert (shuffled.point(name).x == x[order]).all()
        assert (seven.point(name).x == x[:7]).all()
        for row in (0, 5, 999):
            one = evaluate(made, from_arrays({k: v[row : row + 1] for k, v in values.items()}, Figure.WOMAN))
            assert one.point(name).x[0] == x[row]
            assert one.point(name).y[0] == whole.point(name).y[row]

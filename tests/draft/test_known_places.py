"""Places and lengths that the drawing keeps, instead of looking for them again, are those it would find.

Checked against the geometry's own search (`nearest`, `length`), which is tested against scipy and dense
sampling in tests/geometry; and row by row, bit for bit, alone and in a crowd.
"""

from __future__ import annotations

import numpy as np
import pytest

from tapewright.draft import Draft, evaluate, from_arrays, redraw
from tapewright.draft.on_line import found_on, run_length
from tapewright.geometry import Curve, Point, Stretch, joined, length, nearest, spline, whole
from tapewright.measures import Figure
from tests.lessons import plan

FRAME = (
    "Begin at A, with the centre back on the left and the centre front on the right.",
    "From A down to B: the nape to waist. From A across to C: half the bust plus half the ease.",
    "Square across from B and down from C to D. From A across to G: 1/8 of the bust tape.",
    "Draw a curve from A through G to D, leaving A toward C; call it the long seam.",
    "From A down to U: the drop. Square across from U to V on C-D; call it the level line.",
)
#: A letter put on the seam in each way there is.
PUT = (
    "Where the long seam meets the level line, put L.",
    "From A along the long seam to H: 1/4 of the bust tape.",
    "Square across from U to M on the long seam.",
    "From A to R on the long seam: a third of the bust.",
    "Divide the long seam in half at K.",
)
BY_EYE = ("ease: 2 in all round, between 0 and 4 in", "drop: 20 cm, between 15 and 25 cm")
LETTERS = "LHMRK"
LENGTHS = tuple(f"Let the length {i} be along the long seam from {x} to D." for i, x in enumerate(LETTERS, 1))
#: On some bodies the letter is put on the seam by the tape; on the others it only happens to lie there.
EITHER = (
    "If the bust is at least 100 cm, from A along the long seam to S: 9 cm; otherwise, from G down to S: 0 cm.",
    "Let the length 6 be along the long seam from S to D. Mark the long seam at S, one notch.",
)
ITEMS = (*FRAME, *PUT, *LENGTHS, *EITHER, "Mark the long seam at G and the long seam at L, one notch.")


def _values(count: int) -> dict[str, np.ndarray[tuple[int], np.dtype[np.float64]]]:
    rng = np.random.default_rng(1742)
    return {
        "bust": rng.uniform(800, 1200, count),
        "waist": rng.uniform(600, 1000, count),
        "nape to waist": rng.uniform(350, 450, count),
    }


def _drawn(count: int = 60) -> Draft:
    return evaluate(plan(*ITEMS, by_eye=BY_EYE), from_arrays(_values(count), Figure.WOMAN))


def test_every_sentence_of_the_trial_is_drawn() -> None:
    """The trial lesson asks nothing, so that what follows tests what it says it tests."""
    draft = _drawn()
    assert not draft.plan.queries
    assert draft.drawn().all()


@pytest.mark.parametrize(("i", "letter"), list(enumerate(LETTERS, 1)))
def test_a_length_from_a_letter_is_that_from_where_it_is_found(i: int, letter: str) -> None:
    """However a letter came to lie on a curve, the tape runs from the place nearest to it, to 0.001 mm."""
    draft = _drawn()
    seam = draft.line(next(x.index for x in draft.plan.lines if x.name == "long seam"))
    assert isinstance(seam, Curve)
    near = nearest(seam, draft.point(letter))
    assert near.distance.max() < 0.001
    end = np.full(draft.bodies.count, float(seam.segments))
    expected = length(Stretch(seam, near.t, end))
    assert np.abs(draft.amount(f"length {i}") - expected).max() < 0.001


def test_a_row_alone_equals_the_row_in_a_crowd() -> None:
    """Kept places do not tie rows together: amounts and marks, bit for bit, in any company and any order."""
    made, values, count = plan(*ITEMS, by_eye=BY_EYE), _values(60), 60
    crowd = evaluate(made, from_arrays(values, Figure.WOMAN))
    order = np.random.default_rng(7).permutation(count)
    shuffled = evaluate(made, from_arrays({k: v[order] for k, v in values.items()}, Figure.WOMAN))
    for i in range(1, 7):
        assert (shuffled.amount(f"length {i}") == crowd.amount(f"length {i}")[order]).all()
    for row in range(0, count, 7):
        alone = evaluate(made, from_arrays({k: v[row : row + 1] for k, v in values.items()}, Figure.WOMAN))
        for i in range(1, 7):
            assert alone.amount(f"length {i}")[0] == crowd.amount(f"length {i}")[row]
        for one, many in zip(alone.marks(), crowd.marks(), strict=True):
            assert (one.at.x[0], one.at.y[0]) == (many.at.x[row], many.at.y[row])


@pytest.mark.parametrize("changed", [{"drop": 215.0}, {"ease": 30.0}, {"drop": 180.0, "ease": 60.0}])
def test_a_redraw_equals_a_fresh_drawing(changed: dict[str, float]) -> None:
    """Bit for bit, whether or not the sentence that put the letter was drawn again."""
    before = _drawn()
    again, handed = redraw(before, changed)
    fresh = evaluate(before.plan, before.bodies, changed)
    for i in range(1, 7):
        assert (again.amount(f"length {i}") == fresh.amount(f"length {i}")).all()
    assert {key.split(" ")[0] for key in handed} <= {"point", "line", "name", "eye", "tape"}


def test_a_joint_of_a_curve_is_found_without_searching() -> None:
    """A letter the curve was drawn through stands at a whole parameter, exactly, also on a piece and run back."""
    rng = np.random.default_rng(3)
    points = [Point(rng.uniform(0, 50, 9) + 100 * k, rng.uniform(0, 80, 9)) for k in range(4)]
    curve = spline(points).curve
    for k, p in enumerate(points):
        for line in (whole(curve), Stretch(curve, np.full(9, 3.0), np.zeros(9))):
            t, away = found_on(line, p)
            assert (t == k).all()
            assert (away == 0).all()
    # Beyond the end of a piece the joint is not on it.
    t, away = found_on(Stretch(curve, np.zeros(9), np.full(9, 1.5)), points[3])
    assert (t <= 1.5).all()
    assert (away > 1).all()


def test_a_straight_line_finds_what_the_search_finds() -> None:
    """The foot of the square, held within the line: as `nearest` has it to 0.00001 mm, to either side of the ends."""
    rng = np.random.default_rng(5)
    a, b, p = (Point(rng.uniform(-300, 300, 400), rng.uniform(-300, 300, 400)) for _ in range(3))
    for start, end in ((0.0, 1.0), (1.0, 0.0), (0.2, 0.7)):
        line = Stretch(spline([a, b]).curve, np.full(400, start), np.full(400, end))
        t, away = found_on(line, p)
        near = nearest(line, p)
        assert np.abs(away - near.distance).max() < 1e-5
        assert np.abs(t - near.t).max() < 1e-5


def test_a_length_from_joint_to_joint_is_that_of_its_piece() -> None:
    """Leaving out what lies beyond changes no bit, run either way; a piece of no segment has no length."""
    rng = np.random.default_rng(11)
    points = [Point(rng.uniform(0, 50, 30) + 100 * k, rng.uniform(0, 80, 30)) for k in range(5)]
    curve = joined([spline(points).curve])
    for start, end in ((0.0, 4.0), (1.0, 3.0), (3.0, 1.0), (2.0, 2.0), (0.5, 3.0)):
        line = Stretch(curve, np.full(30, start), np.full(30, end))
        assert (run_length(line) == length(line)).all()


@pytest.mark.parametrize(
    "put",
    [
        "Where the short seam carried on meets the level line, put P.",
        "Square across from U to P on the short seam carried on.",
        "From B to P on the short seam carried on, the upper crossing: 20 cm.",
    ],
)
def test_a_letter_beyond_the_end_of_a_curve_does_not_lie_on_it(put: str) -> None:
    """What was met only because the line was carried on is off the line, and the tape asks about it."""
    seam = "From A to E: 6 cm right and 10 cm down. Draw a curve from A to E, leaving A toward C; call it the short seam."
    items = (*FRAME, seam, put, "Let the rest of it be along the short seam from A to P.")
    draft = evaluate(plan(*items, by_eye=BY_EYE), from_arrays(_values(1), Figure.WOMAN))
    assert [q.name for q in draft.queries()] == ["off-the-line"]
    assert "name rest of it" not in draft.made

"""What each kind of sentence draws, against elementary geometry worked by hand.

Right triangles of 3, 4 and 5, squares, quarter circles: every expected figure can be found with a pencil.
x runs to the right and y down the paper.
"""

from __future__ import annotations

from math import pi, sqrt

import numpy as np
import pytest

from tapewright.geometry import length
from tests.lessons import at, draw, names

BEGIN = "Begin at A, with the centre back on the left and the centre front on the right."
SQUARE = "From A down to B: 40 cm. From A across to C: 30 cm. Square across from B and down from C to D."


def line_length(draft, name: str) -> float:  # type: ignore[no-untyped-def]
    """The length of a named line."""
    index = next(x.index for x in draft.plan.lines if x.name == name)
    return float(length(draft.line(index))[0])


@pytest.mark.parametrize(
    ("sentence", "letter", "x", "y"),
    [
        ("From A down to E: 10 cm.", "E", 0, 100),
        ("From A across to E: 4 in.", "E", 101.6, 0),
        ("From D left to E: 10 cm.", "E", 200, 400),
        ("From D toward the centre back to E: 10 cm.", "E", 200, 400),
        ("From A toward D to E: 10 cm.", "E", 60, 80),
        ("From A to E: 1 cm right and 2 cm down.", "E", 10, 20),
        ("From A along B-D to E: 1 cm.", "E", None, None),
        ("From B along B-D to E: half B-D.", "E", 150, 400),
        ("From D along B-D to E: 5 cm.", "E", 250, 400),
        ("From A at 90 degrees from A-C toward B to E: 5 cm.", "E", 0, 50),
        ("From A at 30 degrees from A-C toward B to E: 10 cm.", "E", 50 * sqrt(3), 50),
        ("From A square to A-D toward C to E: 5 cm.", "E", 40, -30),
        ("From C into the corner A-C-D to E: 10 cm.", "E", 300 - 50 * sqrt(2), 50 * sqrt(2)),
        ("From A down to E on B-D.", "E", 0, 400),
        ("From A to E on B-D: 50 cm.", "E", 300, 400),
        ("From A toward D to E on B-D carried on.", "E", 300, 400),
        ("Square down from C to E on B-D.", "E", 300, 400),
        ("Square up from B to E: 1 cm.", "E", 0, 390),
        ("Square from C to E on A-D.", "E", 108, 144),
        ("Divide A-D in half at E.", "E", 150, 200),
        ("Divide A-C into 3 at E and F.", "F", 200, 0),
        ("Where A-D meets B-C, put E.", "E", 150, 200),
        ("Sweep about A by 50 cm to E on B-D.", "E", 300, 400),
        ("Sweep about A by 40 cm to E on A-C carried on, the right crossing.", "E", 400, 0),
        ("Sweep about A from C toward B through 90 degrees to E.", "E", 0, 300),
        ("Draw E-F parallel to A-C, 5 cm down.", "F", 300, 50),
        ("Draw E-F parallel to A-B, 5 cm right.", "F", 50, 400),
        ("Take out 4 cm at D on B-D, from E to F, lost at C.", "E", 280, 400),
        ("Take out 4 cm on each side of D on B-D, from E to F, lost at C.", "F", 340, 400),
        ("Pivot C about A until C lies on A-B.", "C'", 0, 300),
        ("Pivot C and D about A by 90 degrees toward B.", "D'", -400, 300),
    ],
)
def test_where_a_letter_falls(sentence: str, letter: str, x: float | None, y: float | None) -> None:
    """The new letter stands where a pencil would put it."""
    draft = draw(BEGIN, SQUARE, sentence)
    if x is None or y is None:
        # A does not lie on B-D: that is asked about, and nothing is drawn.
        assert names(draft.queries()) == ["off-the-line"]
        assert not draft.alive(f"point {letter}")
        return
    assert not draft.queries(), [q.message for q in draft.queries()]
    assert at(draft, letter) == pytest.approx((x, y), abs=1e-9)


def test_both_ways_and_several() -> None:
    """Both ways the first falls first as the line runs; one length serves several letters."""
    draft = draw(
        BEGIN, SQUARE, "Divide B-D in half at M. From M both ways along B-D to E and F: 2 cm.",
        "From A, C down to G and H: 1 cm and 2 cm.",
    )  # fmt: skip
    assert at(draft, "E") == pytest.approx((130, 400))
    assert at(draft, "F") == pytest.approx((170, 400))
    assert at(draft, "G") == pytest.approx((0, 10))
    assert at(draft, "H") == pytest.approx((300, 20))


def test_then_goes_on_from_the_last_point() -> None:
    """After a semicolon the last point made is meant."""
    draft = draw(BEGIN, "From A across to B: 5 cm; then down to C: 2 cm; square across to D: 1 cm.")
    assert at(draft, "D") == pytest.approx((60, 20))


def test_two_sweeps_cross_where_said() -> None:
    """Circles of 30 and 40 about ends 50 apart cross at the right angle of a 3-4-5 triangle."""
    sweeps = "Sweep about A by 30 cm; call it the one. Sweep about B by 40 cm; call it the other."
    upper = draw(
        BEGIN,
        "From A across to B: 50 cm.",
        sweeps,
        "Where the one meets the other, put E, the upper crossing.",
    )
    assert at(upper, "E") == pytest.approx((180, -240))
    lower = draw(
        BEGIN,
        "From A across to B: 50 cm.",
        sweeps,
        "Where the one meets the other, put E, the lower crossing.",
    )
    assert at(lower, "E") == pytest.approx((180, 240))
    unsaid = draw(BEGIN, "From A across to B: 50 cm.", sweeps, "Where the one meets the other, put E.")
    assert names(unsaid.queries()) == ["which-crossing"]
    assert "48" in unsaid.queries()[0].message


def test_a_crossing_by_its_nearness() -> None:
    """Nearer and farther choose as well."""
    sweep = "Sweep about D by 50 cm to E on A-B, the crossing nearer B."
    draft = draw(BEGIN, SQUARE, sweep.replace("50 cm", "35 cm"))
    deep = sqrt(350**2 - 300**2)
    assert names(draft.queries()) == []
    assert at(draft, "E") == pytest.approx((0, 400 - deep))


def test_curves_are_measured_by_name_and_spans_by_the_ruler() -> None:
    """A quarter circle of 30 cm: the tape says r pi / 2, the ruler r times the root of two."""
    draft = draw(
        BEGIN, "From A down to B: 30 cm. From A across to C: 30 cm. Sweep about A from B to C; call it the hem.",
        "Let the tape way be the hem. Let the ruler way be B-C.",
        "Divide the hem in half at E. Let the first part be along the hem from B to E.",
    )  # fmt: skip
    # That the ruler was meant, and not the tape, is told: the two lie a tenth apart.
    assert names(draft.queries()) == ["ruler-or-tape"]
    assert draft.amount("tape way")[0] == pytest.approx(300 * pi / 2, abs=1e-3)
    assert draft.amount("ruler way")[0] == pytest.approx(300 * sqrt(2))
    assert draft.amount("first part")[0] == pytest.approx(300 * pi / 4, abs=1e-3)
    assert at(draft, "E") == pytest.approx((150 * sqrt(2), 150 * sqrt(2)), abs=1e-3)


def test_a_curve_leaves_and_reaches_as_said() -> None:
    """Square to two lines that meet at right angles, a curve of a kind is near a quarter circle.

    Hobby's curve of one segment with both ends given at 45 degrees has handles of 0.5523 of the radius.
    """
    draft = draw(
        BEGIN, "From A down to B: 10 cm. From A across to C: 10 cm.",
        "Draw a curve from B to C, leaving B square to A-B and reaching C square to A-C; call it the gorge.",
    )  # fmt: skip
    assert not draft.queries()
    assert line_length(draft, "gorge") == pytest.approx(50 * pi, rel=5e-4)


def test_a_hollow_is_as_deep_as_said() -> None:
    """The middle of the curve lies the amount off the straight line, to the side said."""
    draft = draw(
        BEGIN,
        SQUARE,
        "Hollow A-C by 2 cm toward D at the middle; call it the dip. Divide the dip in half at E.",
    )
    assert at(draft, "E") == pytest.approx((150, 20), abs=1e-6)


def test_limits_hold() -> None:
    """Not more than, not less than; a note tells that it bit."""
    draft = draw(
        BEGIN,
        "Let the one be half the bust, but not more than 40 cm.",
        "Let the other be 3 cm less 5 cm, but not less than 0 in.",
    )
    assert draft.amount("one")[0] == 400
    assert draft.amount("other")[0] == 0
    assert names(draft.queries()) == ["limit-bites"]


def test_a_dart_of_nothing_is_legal() -> None:
    """On a body that needs no dart it closes to a line, with a note."""
    draft = draw(BEGIN, SQUARE, "Take out 0 in at D on B-D, from E to F, lost at C; call it the dart.")
    assert names(draft.queries()) == ["nothing-taken-out"]
    assert at(draft, "E") == at(draft, "F") == at(draft, "D")


@pytest.mark.parametrize(
    ("sentence", "query", "said"),
    [
        ("Square across from A to E on C-D.", "", ""),
        ("Square down from C to E on A-B.", "never-meets", "run the same way"),
        ("Square up from D to E on A-B.", "never-meets", "run the same way"),
        (
            "From C down to F: 10 cm. Square across from B to E on C-F.",
            "meets-beyond",
            "beyond F, where C-F ends",
        ),
        ("From A to E on B-D: 35 cm.", "ruler-short", "5.0 cm (2 in) short"),
        ("From A down to E: the waist less the bust.", "", ""),
        ("Sweep about A by 5 cm less 6 cm to E on B-D.", "below-nothing", "less than nothing"),
        (
            "Take out 3 cm less 5 cm at D on B-D, from E to F, lost at C.",
            "below-nothing",
            "less than nothing",
        ),
        ("Hollow A-B by 25 cm toward C at the middle.", "too-deep", "half of that is the most"),
        ("From A down to E: 0 cm. Draw a curve from A through E to C.", "one-point", "one point"),
        (
            "From A down to E: 0 cm. From C toward B to F: 1 cm. From F square to A-E toward D to G: 1 cm.",
            "one-point",
            "one point",
        ),
        ("Draw a curve from A to B, leaving A square to A-B.", "leaning-unclear", "90 degrees"),
        ("Sweep about A from B to C.", "not-so-far", "10.0 cm (3 7/8 in) nearer"),
        ("Draw E-F parallel to A-C, 1 cm right.", "along-itself", "itself"),
        (
            "Square from B to E on A-C. From A left to F: 5 cm. Square from F to G on A-C.",
            "meets-beyond",
            "5.0 cm (2 in) beyond",
        ),
    ],
)
def test_what_a_body_makes_impossible_is_asked(sentence: str, query: str, said: str) -> None:
    """Each such question gives its numbers."""
    draft = draw(BEGIN, SQUARE, sentence)
    found = draft.queries()
    assert names(found) == ([query] if query else []), [q.message for q in found]
    if said:
        assert said in found[0].message


def test_the_rest_still_draws() -> None:
    """A question stops its own sentence and what rests on it, nothing else."""
    draft = draw(
        BEGIN, SQUARE, "From A to E on B-D: 35 cm.", "From E down to F: 1 cm.", "From A down to G: 1 cm."
    )
    assert names(draft.queries()) == ["ruler-short"]
    assert not draft.alive("point E")
    assert not draft.alive("point F")
    assert draft.alive("point G")


def test_a_measure_that_is_wanting_is_asked_for_once() -> None:
    """It says how the measure is taken; a filled one is marked and not asked for."""
    draft = draw(
        BEGIN, "From A down to E: the scye depth.", "From A down to F: half the scye depth.",
        "From A down to G: the scye depth if taken, otherwise half the nape to waist.",
        measures=("bust", "nape to waist", "scye depth"),
    )  # fmt: skip
    found = draft.queries()
    assert names(found) == ["measure-not-taken"]
    assert "nape" in found[0].help
    assert at(draft, "G") == (0, 200)
    assert bool(draft.filled["scye depth"][0])


@pytest.mark.parametrize(
    ("how", "asked"),
    [
        ("gathering the long side", []),
        ("pleating the long side", []),
        ("stretching the short side", []),
        ("easing the short side", ["seam-differs"]),
        ("stretching the long side", ["seam-differs"]),
        ("easing the back seam", ["sewn-to-itself"]),
    ],
)
def test_what_is_over_is_taken_up_by_the_longer_edge(how: str, asked: list[str]) -> None:
    """Without an amount all that is over is taken up: 1 cm, by the longer, or stretched at the shorter."""
    draft = draw(
        BEGIN, SQUARE, "From A down to E: 10 cm; call it the short side. From C down to F: 11 cm; call it the "
        "long side. From B up to G: 1 cm; call it the back seam.",
        f"Sew the long side to the short side, {how}.",
    )  # fmt: skip
    assert names(draft.queries()) == asked
    if not asked:
        (seam,) = draft.seams()
        assert seam.by is not None
        assert float(seam.by[0]) == pytest.approx(10)
        assert seam.how == how.split(maxsplit=1)[0]


def test_sewing_asks_when_the_edges_differ() -> None:
    """Edges of 40 and 30 cm are not sewn without a word; with the ease named they are."""
    sides = "Join A to B; call it the long side. Join C to E; call it the short side."
    down = "From C down to E: 39 cm."
    asked = draw(BEGIN, SQUARE, down, sides, "Sew the long side to the short side.")
    assert names(asked.queries()) == ["seam-differs"]
    assert "40.0 cm" in asked.queries()[0].message
    assert "39.0 cm" in asked.queries()[0].message
    eased = draw(
        BEGIN, SQUARE, down, sides, "Sew the long side to the short side, easing the long side by 1 cm."
    )
    assert not eased.queries()
    assert eased.seams()[0].difference[0] == pytest.approx(10)
    wrong = draw(
        BEGIN, SQUARE, down, sides, "Sew the long side to the short side, easing the short side by 1 cm."
    )
    assert names(wrong.queries()) == ["seam-differs"]
    stretched = draw(
        BEGIN, SQUARE, down, sides, "Sew the long side to the short side, stretching the short side by 1 cm."
    )
    assert not stretched.queries()


def test_pieces_and_marks() -> None:
    """A piece keeps its edges, cloths and turnings; a mark falls where the tape says."""
    draft = draw(
        BEGIN, SQUARE, "Join C to D; call it the side.",
        "Let the panel be the outline A to C, to D by the side, to B, to A.",
        "Cut the panel twice of cloth and once of lining, with A-B on the fold, leaving 2 cm at the side and 1 cm elsewhere.",
        "Mark the side at 5 cm from C and the side at D, two notches.",
    )  # fmt: skip
    assert not draft.queries()
    piece = draft.pieces()[0]
    assert [e.name for e in piece.outline.edges] == ["", "side", "", ""]
    assert [(c.count, c.name) for c in piece.cloths] == [(2, "cloth"), (1, "lining")]
    assert [(float(t.width[0]), t.edges) for t in piece.turnings if t.width is not None] == [
        (20, ("side",)),
        (10, ()),
    ]
    first, second = draft.marks()
    assert (float(first.at.x[0]), float(first.at.y[0])) == pytest.approx((300, 50))
    assert (float(second.at.x[0]), float(second.at.y[0])) == pytest.approx((300, 400))


@pytest.mark.parametrize(
    ("claim", "holds"),
    [
        ("A-B is 40 cm", True),
        ("A-B is 40.04 cm", True),
        ("A-B is 40.1 cm", False),
        ("A-B is 41 cm, within 1 cm", True),
        ("A-B is at least 40 cm", True),
        ("A-B is more than 41 cm", False),
        ("A-B is not more than A-C", False),
        ("A-B is between 30 and 41 cm", True),
        ("A-D is half the bust plus 2 cm", True),
        ("A-B is longer than A-C by 9 cm to 11 cm", True),
        ("A-B is longer than A-C by 5 cm", False),
        ("A-C is longer than A-B", False),
        ("the corner B-A-C is square", True),
        ("the corner B-A-D is square", False),
        ("the corner B-A-C is 90 degrees", True),
        ("D lies on A-B", False),
        ("E lies on A-D", True),
        ("A-E plus E-D is A-D", True),
    ],
)
def test_checks(claim: str, holds: bool) -> None:
    """A check holds or does not, and a caution tells the second."""
    draft = draw(BEGIN, SQUARE, "Divide A-D in half at E.", f"See that {claim}.")
    assert [bool(c.holds[0]) for c in draft.checks()] == [holds]
    assert names(draft.queries()) == ([] if holds else ["check"])


def test_edges_that_run_on() -> None:
    """Sewn edge to edge, two necks run on smoothly when each is square to its shoulder."""
    items = (
        BEGIN,
        "From A across to N: 7 cm. From N to S: 10 cm right and 4 cm down. Join N to S; call it the back shoulder.",
        "From N down to B: 3 cm. From B left to E: 7 cm.",
        "From A across to M: 40 cm. From M to U: 10 cm left and 4 cm down. Join M to U; call it the front shoulder.",
        "From M to Q: 7 cm right and 8 cm down.",
        "Draw a curve from E to N, leaving E level and reaching N square to N-S; call it the back neck.",
        "Draw a curve from M to Q, leaving M square to M-U and reaching Q level; call it the front neck.",
        "Sew the front shoulder to the back shoulder.",
        "See that the back neck and the front neck run on smoothly at N and M.",
    )
    assert [bool(c.holds[0]) for c in draw(*items).checks()] == [True]
    crooked = [i.replace("leaving M square to M-U", "leaving M plumb") for i in items]
    found = draw(*crooked).checks()[0]
    assert not found.holds[0]
    assert np.degrees(found.left[0]) == pytest.approx(np.degrees(np.arctan2(4, 10)), abs=1e-6)


def test_bust_and_chest() -> None:
    """A bare chest on a woman's sheet is asked about, with both values."""
    draft = draw(
        BEGIN,
        "From A across to E: half the chest.",
        measures=("bust", "high bust", "chest"),
        values={"high bust": 900.0},
    )
    found = draft.queries()
    assert names(found) == ["bust-or-chest"]
    assert [a.replace for a in found[0].answers] == ["the bust", "the high bust"]
    assert "96.0 cm" in found[0].help
    assert "90.0 cm" in found[0].help

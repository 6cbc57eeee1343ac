"""A draft that is proportional through and through grows with the body: the claim the whole trade rests on.

Geometry, no source: all measures times k make the same figure at k times the size. The lesson has every sort
of sentence the blocks have, and no length in inches or centimetres.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.draft.rows import OutlineRun, Thing, arrays
from tapewright.geometry import Stretch, trimmed
from tapewright.geometry.tolerance import ROUNDING
from tapewright.measures import Figure
from tapewright.plan import Plan, build_plan
from tests.blocks.drafts import Array
from tests.lessons import read

MEASURES = ("bust", "waist", "nape to waist", "scye depth", "shoulder")
SENTENCES = """\
Begin at A, with the centre back on the left and the centre front on the right.
From A down to B: the nape to waist.
From A down to E: the scye depth if taken, otherwise 1/4 of the bust tape.
From A across to C: half the bust plus half the ease. Square across from B and down from C to D.
Join B to D; call it the waist line. Square across from E to F on C-D; call it the scye line.
From A across to G: 1/12 of the bust tape and 1/2 part; square up to N: 1 part.
From N at 20 degrees from N-G toward F to J: 8 parts. Square from J to J1 on C-D.
From E up to E1: 1/6 of the bust tape and 1 part.
Square across from E1 to E2 on C-D; call it the shoulder level.
Let the ridge be the shoulder, but not less than 6 parts, but not more than 9 parts.
From N to S on the shoulder level, the right crossing: the ridge. Join N to S; call it the shoulder seam.
Draw a curve from A to N, leaving A square to A-B and reaching N square to N-S; call it the neck.
From E along the scye line to H: 1/6 of the bust tape and 1 part.
Square up from H to T1 on the shoulder level. Divide H-T1 in half at T.
From H along the scye line to Z: 2 parts. Square down from Z to W on the waist line.
From H into the corner T-H-Z to H1: half of H-Z.
Draw a curve from S through T and H1 to Z, passing T plumb and reaching Z level; call it the scye.
Let the excess be B-D less half the waist, but not less than 0 in.
Divide the excess: a third as the side taking and the rest as the back taking.
Take out the side taking at W on the waist line, from W1 to W2, lost at Z; call it the side dart.
Sweep about Z by Z-W plus 1 part; call it the wide sweep.
Where the wide sweep meets the waist line, put K, the right crossing.
Pivot H, T and S about Z until H lies on Z-H1.
Draw a curve from S' through T' to H'; call it the swung edge. Divide the swung edge in half at V.
Let the back be the outline A to N by the neck, to S by the shoulder seam, to Z by the scye, to W1, to B, to A.
See that the scye is at least 1/6 of the bust tape.""".splitlines()
#: One amount of it is given on the By eye list, in parts as well.
LESSON = read(*SENTENCES, measures=MEASURES, by_eye=("ease: 2 parts, between 0 and 4 parts",))


def made() -> Plan:
    """The lesson's plan, without a question."""
    plan = build_plan(LESSON)
    assert plan.queries == ()
    return plan


def drawn(bodies: dict[str, Array]) -> Draft:
    """The lesson on some bodies, without a failure."""
    draft = evaluate(made(), from_arrays(bodies, Figure.WOMAN))
    assert draft.drawn().all(), [f.word(0).message for f in draft.failures()]
    return draft


#: Three figures, mm; round numbers, no persons'.
FIGURES = {
    "bust": np.array([880.0, 1020.0, 960.0]),
    "waist": np.array([660.0, 900.0, 990.0]),
    "nape to waist": np.array([400.0, 420.0, 390.0]),
    "scye depth": np.array([200.0, 215.0, 220.0]),
    "shoulder": np.array([120.0, 160.0, 250.0]),
}


def test_the_lesson_says_no_length_outright() -> None:
    """Not a centimetre and not an inch in it, but the 0 in that bounds a sign."""
    text = LESSON.source.text
    assert text.count(" in.") == text.count("0 in.") == 1
    assert " cm" not in text
    assert " mm" not in text


def lengths(thing: Thing) -> list[Array]:
    """Every length and every place in a thing; where along its line an edge begins and ends is neither."""
    if isinstance(thing, OutlineRun):
        return [trimmed(edge.drawn).ctrl for edge in thing.edges]
    return arrays(trimmed(thing) if isinstance(thing, Stretch) else thing)


@given(st.floats(0.2, 5.0))
def test_all_measures_times_k_move_every_letter_and_line_by_k(k: float) -> None:
    """Each letter, each line's course, each outline and each named amount, to a millionth of a millimetre.

    For a k above 1 a millionth of k millimetres, since rounding grows with the figure.
    """
    draft, grown = drawn(FIGURES), drawn({name: value * k for name, value in FIGURES.items()})
    assert grown.made.keys() == draft.made.keys()
    for key, value in draft.made.items():
        for a, b in zip(lengths(value.thing), lengths(grown.made[key].thing), strict=True):
            assert np.abs(a * k - b).max() <= ROUNDING * max(k, 1.0), key
    for check, other in zip(draft.checks(), grown.checks(), strict=True):
        assert (check.holds == other.holds).all()


def test_twice_the_measures_are_exactly_twice_the_draft() -> None:
    """A factor of two is exact in binary, and so is what it makes of every letter."""
    draft, grown = drawn(FIGURES), drawn({name: value * 2 for name, value in FIGURES.items()})
    for name in draft.plan.points:
        assert (draft.point(name).x * 2 == grown.point(name).x).all(), name
        assert (draft.point(name).y * 2 == grown.point(name).y).all(), name


@given(st.permutations(range(3)))
def test_the_order_of_bodies_changes_nothing(order: list[int]) -> None:
    """Every letter, line and amount goes with its body, bit for bit."""
    draft, other = drawn(FIGURES), drawn({name: value[order] for name, value in FIGURES.items()})
    for key, value in draft.made.items():
        for a, b in zip(arrays(value.thing), arrays(other.made[key].thing), strict=True):
            assert (a[..., order] == b).all(), key


@pytest.mark.parametrize("name", MEASURES)
def test_every_measure_is_used(name: str) -> None:
    """No measure of the lesson is idle, or the claim would be the weaker for it."""
    draft = drawn(FIGURES)
    other = drawn({**FIGURES, name: FIGURES[name] * 1.05})
    moved = [
        n
        for n in draft.plan.points
        if not (draft.point(n).x == other.point(n).x).all()
        or not (draft.point(n).y == other.point(n).y).all()
    ]
    assert moved

"""The pattern measured as the wearer was. Hand-worked panels; the handbooks' identity, front and back to the half."""

from __future__ import annotations

import numpy as np
import pytest

from tapewright.pieces import pattern_of
from tapewright.pieces.measured import Measured, measure_pattern
from tapewright.pieces.toile import CALICO, INLAY, PLAIN, toile_of
from tests.garments.people import drawn, people
from tests.lessons import draw
from tests.survey import Sex

BEGIN = "Begin at A, with the centre back on the left and the centre front on the right."
FRAME = (
    "From A down to B: 40 cm. From A across to C: 50 cm. Square across from B and down from C to D.",
    "From A down to E: 20 cm. Square across from E to F on C-D. Join E to F; call it the waist line.",
    "From A right to G: 22 cm. Square down from G to H on B-D. Join G to H; call it the back side.",
    "From G right to N: 4 cm. Square down from N to P on B-D. Join N to P; call it the front side.",
)
OUTLINES = (
    "Let the back be the outline A to G, to H by the back side, to B, to A.",
    "Let the front be the outline N to C, to D, to P, to N by the front side.",
    "Cut the back twice of cloth, leaving 1 cm everywhere. Cut the front twice of cloth, leaving 1 cm everywhere.",
)

SEWN = "Sew the front side to the back side."


def found(measures: tuple[Measured, ...], name: str) -> Measured:
    """The one measure of a name."""
    (only,) = [m for m in measures if m.measure == name]
    return only


def test_across_two_panels() -> None:
    """220 and 240 on the half are 920 round."""
    pattern = pattern_of(draw(BEGIN, *FRAME, *OUTLINES, SEWN))
    waist = found(measure_pattern(pattern), "waist")
    assert waist.found == pytest.approx(920)
    assert [name for name, _ in waist.parts] == ["back", "front"]
    assert [value for _, value in waist.parts] == pytest.approx([220, 240])


def test_a_dart_is_measured_closed() -> None:
    """A dart of 30 at the waist makes the half 30 less; one that ends above it makes nothing less."""
    dart = (
        "From E along the waist line to J: 10 cm. From J along the waist line to J2: 3 cm. Divide J-J2 in half at J3. From J3 up to J4: 8 cm. Square down from J to K on B-D. Square down from J2 to K2 on B-D.",
        "Let the back be the outline A to G, to H by the back side, to K2, to J2, to J4, to J, to K, to B, to A.",
    )
    pattern = pattern_of(draw(BEGIN, *FRAME, *dart, *OUTLINES[1:], SEWN))
    assert found(measure_pattern(pattern), "waist").found == pytest.approx(920 - 60)


def test_what_is_drawn_beside_is_not_counted() -> None:
    """A strip drawn beside the frame, though the waist line carried on would cross it, goes round nobody."""
    strip = (
        "From C right to L: 40 cm. From L right to L2: 10 cm. Square down from L to M on B-D carried on and from L2 to M2 on B-D carried on.",
        "Let the strip be the outline L to L2, to M2, to M, to L.",
        "Cut the strip twice of cloth, leaving 1 cm everywhere.",
    )
    draft = draw(BEGIN, *FRAME, *OUTLINES, *strip, SEWN, "Sew L-M to C-D.")
    assert found(measure_pattern(pattern_of(draft)), "waist").found == pytest.approx(920)


EASES = [
    ("a-mans-body-block", Sex.MEN, False, "chest", "chest ease"),
    ("a-mans-body-block", Sex.MEN, False, "waist", "waist ease"),
    ("a-womans-body-block", Sex.WOMEN, False, "waist", "waist ease"),
    ("a-mans-waistcoat", Sex.MEN, False, "waist", "waistcoat ease"),
]


@pytest.mark.slow
@pytest.mark.parametrize(("name", "sex", "stays", "measure", "ease"), EASES)
def test_front_and_back_to_the_half(name: str, sex: Sex, stays: bool, measure: str, ease: str) -> None:
    """Across the pieces, laps counted off and darts closed, it is the measure and its ease to a millimetre.

    Front and back to half the girth: the identity of every handbook. A hundred real figures, every fifth of 500.
    A chest smaller than the waist, and the few whose block asks a question, are another matter.
    """
    draft = drawn(name, sex, stays=stays)
    pattern, measured = pattern_of(draft), people(sex, stays=stays)
    eased = np.asarray(draft.made[f"eye {ease}"].thing)
    rows = np.flatnonzero(draft.drawn())[::5]
    off = []
    for row in rows:
        one = found(measure_pattern(pattern, int(row)), measure)
        assert one.found is not None
        off.append(abs(one.found - float(measured[measure][row]) - float(eased[row])))
    assert np.mean(np.array(off) <= 1.0) >= 0.99, max(off)


def test_a_toile() -> None:
    """Calico alone, an inch and more outside, less at the hollows, both sides, and the body's lines on each piece."""
    draft = drawn("a-mans-waistcoat", Sex.MEN, count=1)
    toile = toile_of(pattern_of(draft))
    assert [p.name for p in toile.pieces] == ["waistcoat back", "waistcoat front", "band"]
    for piece in toile.pieces:
        assert [c.name for c in piece.said.cloths] == [CALICO]
        for edge in piece.edges:
            if edge.lies.value == "cut":
                hollow = "scye" in edge.name or "neck" in edge.name
                assert edge.turning[0] == (PLAIN if hollow else INLAY)
    named = {(toile.pieces[x.piece].name, x.name) for x in toile.lines}
    assert {
        ("waistcoat back", "waist line"),
        ("waistcoat front", "scye line"),
        ("waistcoat front", "grain"),
    } <= named
    with pytest.raises(ValueError, match="one body"):
        toile_of(pattern_of(drawn("a-mans-waistcoat", Sex.MEN, count=3)))

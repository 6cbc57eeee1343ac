"""Truing, on panels worked by hand, and on five hundred real figures for the shipped garments."""

from __future__ import annotations

import numpy as np
import pytest

from tapewright.diagnostics import Kind
from tapewright.pieces import Pattern, pattern_of
from tapewright.truing import inspect, seam_words
from tapewright.truing.turnings import tightest
from tests.garments.people import drawn
from tests.lessons import draw
from tests.survey import Sex

BEGIN = "Begin at A, with the centre back on the left and the centre front on the right."
PANEL = "From A down to B: 40 cm. From A across to C: 30 cm. Square across from B and down from C to D. Join C to D; call it the side."
BACK = "Let the back be the outline A to C, to D by the side, to B, to A. Cut the back twice of cloth, with A-B on the grain, leaving 1 cm everywhere."


def pattern(*more: str) -> Pattern:
    """The back panel, and what else is said."""
    return pattern_of(draw(BEGIN, PANEL, BACK, *more))


SQUARE = (
    "From C right to E: 10 cm. Square down from E to F: 40 cm. From E right to H: 20 cm. From F right to G: 20 cm. Join E to F; call it the front side.",
    "Let the front be the outline E to H, to G, to F, to E by the front side. Cut the front twice of cloth, with E-F on the grain, leaving 1 cm everywhere.",
)


def names(found: Pattern, **known: float) -> list[str]:
    """What is asked of a pattern, by name."""
    return [q.name for q in inspect(found, cloth_widths=known).queries]


def test_two_square_panels_ask_nothing() -> None:
    """Equal edges, square corners: equal, run on at both ends, and what is free is told by piece."""
    truing = inspect(pattern(*SQUARE, "Sew the front side to the side."))
    assert truing.queries == ()
    (row,) = truing.seams
    assert (row.verdict, row.one, row.other) == ("equal", 400, 400)
    assert [round(c.degrees, 6) for c in truing.corners] == [0, 0]
    assert dict(truing.free)["front"] == ("E-H", "H-G", "G-F")


def test_ease_is_told_between_marks() -> None:
    """A side of 41 eased by 1 on one of 40, marked 10 from each top: 10 and 10, then 31 against 30."""
    longer = tuple(
        s.replace("Square down from E to F: 40 cm", "Square down from E to F: 41 cm") for s in SQUARE
    )
    truing = inspect(
        pattern(
            *longer,
            "Sew the front side to the side, easing the front side by 1 cm. Mark the side at 10 cm from C and the front side at 10 cm from E, one notch.",
        )
    )
    (row,) = truing.seams
    assert row.verdict == "eased"
    assert np.ravel(row.between) == pytest.approx([100, 100, 310, 300])
    assert "eased by 1.0 cm" in seam_words(row)


def test_three_centimetres_apart() -> None:
    """Edges that differ with nothing said are to be trued, by how much is told, and the draft asks as well."""
    longer = tuple(
        s.replace("Square down from E to F: 40 cm", "Square down from E to F: 43 cm") for s in SQUARE
    )
    found = pattern(*longer, "Sew the front side to the side.")
    (row,) = inspect(found).seams
    assert row.verdict == "to true"
    assert row.off == pytest.approx(30)
    assert "seam-differs" in [q.name for q in found.draft.queries(0)]


@pytest.mark.parametrize(("rise", "degrees"), [(0.0, 0.0), (5.0, 14.04), (-5.0, -14.04)])
def test_running_on(rise: float, degrees: float) -> None:
    """A front hem that rises 5 cm in 20 makes a corner of arctan 1/4 with a level one, a dip when it falls."""
    way = f"{abs(rise)} cm {'up' if rise > 0 else 'down'}" if rise else "0 cm up"
    made = (
        f"From C right to E: 10 cm. Square down from E to F: 40 cm. From E right to H: 20 cm. From F to G: 20 cm right and {way}. Join E to F; call it the front side.",
        SQUARE[1],
        "Sew the front side to the side.",
    )
    truing = inspect(pattern(*made))
    found = [c.degrees for c in truing.corners if c.letter in ("F", "D")]
    assert abs(found[0]) == pytest.approx(abs(degrees), abs=0.01)
    assert ("does-not-run-on" in [q.name for q in truing.queries]) == bool(rise)


def test_the_widest_turning_that_goes() -> None:
    """In a hollow of radius 50 a turning of 50 goes and no more, by geometry."""
    found = pattern_of(
        draw(
            BEGIN,
            PANEL,
            "From C left to E: 5 cm. From C down to F: 5 cm. Sweep about C from E to F; call it the scoop.",
            "Let the back be the outline A to E, to F by the scoop, to D, to B, to A. Cut the back twice of cloth, with A-B on the grain, leaving 6 cm everywhere.",
        )
    )
    assert tightest(found.pieces[0], 1, 0) == pytest.approx(50, abs=0.05)
    assert "turning-too-wide" in names(found)


def test_cloth_width() -> None:
    """A panel of 300 with 10 at both sides goes on a cloth of 320 and not on one of 319; on the fold it wants twice."""
    found = pattern()
    assert names(found, cloth=320.0) == []
    assert names(found, cloth=319.0) == ["wider-than-the-cloth"]
    folded = pattern_of(draw(BEGIN, PANEL, BACK.replace("on the grain", "on the fold")))
    assert names(folded, cloth=620.0) == []
    assert names(folded, cloth=619.0) == ["wider-than-the-cloth"]


def test_grain() -> None:
    """A piece that nothing says the grain of."""
    bare = BACK.replace(", with A-B on the grain", "")
    assert names(pattern_of(draw(BEGIN, PANEL, bare))) == ["no-grain"]
    gauge = bare.replace("of cloth", "of paper")
    assert names(pattern_of(draw(BEGIN, PANEL, gauge))) == []


GARMENTS = [
    ("a-womans-jacket", Sex.WOMEN, True),
    ("a-mans-waistcoat", Sex.MEN, False),
    ("a-tabbed-bodice", Sex.WOMEN, True),
    ("a-petticoat-of-gores", Sex.WOMEN, True),
]


@pytest.mark.slow
@pytest.mark.parametrize(("name", "sex", "stays"), GARMENTS)
def test_shipped_garments(name: str, sex: Sex, stays: bool) -> None:
    """On 500 figures no seam is to be trued and no question is asked; every fifth of them looked over."""
    draft = drawn(name, sex, stays=stays)
    found = pattern_of(draft)
    rows = [int(r) for r in np.flatnonzero(draft.drawn())[::5]]
    asked = 0
    for row in rows:
        truing = inspect(found, row)
        assert all(s.verdict != "to true" for s in truing.seams), row
        asked += any(q.kind is Kind.QUESTION for q in truing.queries)
    assert asked <= len(rows) / 100

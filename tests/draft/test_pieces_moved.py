"""Lines carried on, arcs, cones, and pieces that are turned, laid and opened: against geometry worked by hand."""

from __future__ import annotations

from math import asin, cos, hypot, pi, radians, sin

import pytest

from tapewright.geometry import length
from tests.lessons import at, draw, names

BEGIN = "Begin at A, with the centre back on the left and the centre front on the right."
SQUARE = "From A down to B: 40 cm. From A across to C: 30 cm. Square across from B and down from C to D."
PANEL = "Let the panel be the outline A to C, to D, to B, to A."


def line_length(draft, name: str) -> float:  # type: ignore[no-untyped-def]
    """The length of a named line."""
    index = next(x.index for x in draft.plan.lines if x.name == name)
    return (
        float(length(draft.line(index))[0]) if not hasattr(draft.line(index), "turn") else _arc(draft, index)
    )


def _arc(draft, index: int) -> float:  # type: ignore[no-untyped-def]
    from tapewright.geometry import arc_length

    return float(arc_length(draft.line(index))[0])


@pytest.mark.parametrize(
    ("sentence", "letter", "x", "y"),
    [
        ("Carry A-C to E: 5 cm.", "E", 350, 0),
        ("Carry A-C beyond A to E: 5 cm.", "E", -50, 0),
        ("From A down to F: 60 cm. From F across to G: 60 cm. Carry A-D to E on F-G.", "E", 450, 600),
        (
            "Sweep about A from C toward B through 90 degrees to E; call it the edge. Carry the edge to F: 1 cm.",
            "F",
            -10,
            300,
        ),
        (
            "Sweep about A from C toward B through 90 degrees to E; call it the edge. Carry the edge beyond C to F: 1 cm.",
            "F",
            300,
            -10,
        ),
        ("Turn over C and D on A-B.", "C'", -300, 0),
        ("Turn over B on A-D.", "B'", 384, 112),
        (PANEL + " Turn over the panel on C-D.", "A'", 600, 0),
        (PANEL + " Turn over the panel on C-D.", "C'", 300, 0),
        (PANEL + " Pivot the panel about A by 90 degrees toward B.", "C'", 0, 300),
        (PANEL + " Lay the panel against C-D with A on C and B on D.", "C'", 600, 0),
        (PANEL + " Lay the panel against C-D with A on C and A-C down.", "B'", -100, 0),
        (PANEL + " Lay the panel against C-D with A on C and B on C-D, lapped 2 cm.", "A'", 280, 0),
        (PANEL + " Lay the panel against C-D with A on C and B on C-D, parted 2 cm.", "A'", 320, 0),
        (PANEL + " Lay the panel against C-D with A on C and B on C-D, face down.", "C'", 0, 0),
        ("Round the corner A-C-D by 5 cm.", "C'", 250, 0),
        ("Round the corner A-C-D by 5 cm.", "C''", 300, 50),
        ("Round the corner A-C-D by 5 cm, from E to F.", "F", 300, 50),
        (
            "Join C to D; call it the side. Let out the side by 3 cm at D, to nothing at C, toward the centre front.",
            "D'",
            330,
            400,
        ),
        (
            "Join C to D; call it the side. Take in the side by 3 cm at D, to nothing at C, toward A.",
            "D'",
            270,
            400,
        ),
    ],
)
def test_where_a_letter_falls(sentence: str, letter: str, x: float, y: float) -> None:
    """The new letter stands where a pencil would put it."""
    draft = draw(BEGIN, SQUARE, sentence)
    assert not draft.queries(), [q.message for q in draft.queries()]
    assert at(draft, letter) == pytest.approx((x, y), abs=1e-6)


def test_a_line_that_touches() -> None:
    """A plumb line touching a half circle toward the centre back touches it at its leftmost place."""
    draft = draw(
        BEGIN, SQUARE, "Sweep about A from B toward the left through 180 degrees to E; call it the bowl.",
        "Draw a plumb line touching the bowl at K, toward the centre back.",
    )  # fmt: skip
    assert not draft.queries()
    assert at(draft, "K") == pytest.approx((-400, 0), abs=1e-3)


def test_arcs() -> None:
    """Through (0,0), (30,10) and (60,0) the circle has a radius of 50; so has the arc 10 high on 60."""
    radius, half = 500.0, 300.0
    expected = 2 * radius * asin(half / radius)
    given = "From A across to P: 60 cm. From A to Q: 30 cm right and 10 cm up."
    three = draw(BEGIN, given, "Draw an arc from A through Q to P; call it the brim.")
    high = draw(BEGIN, given, "Draw an arc from A to P, 10 cm high toward Q; call it the brim.")
    for draft in (three, high):
        assert not draft.queries()
        assert line_length(draft, "brim") == pytest.approx(expected, abs=1e-6)
    row = draw(
        BEGIN,
        "From A across to P, Q: 60 cm and 30 cm.",
        "Draw an arc from A through Q to P; call it the brim.",
    )
    assert names(row.queries()) == ["in-a-row"]


def test_an_arc_square_to_two_lines() -> None:
    """Between two arms 60 degrees apart an arc at 30 cm from their meeting is 30 pi / 3 long.

    Where the arms are parallel it is the straight line square across.
    """
    draft = draw(
        BEGIN, "From A down to B: 30 cm. From A at 60 degrees from A-B toward the centre front to C: 50 cm.",
        "Draw an arc from B to E on A-C, square to A-B and A-C; call it the hem.",
    )  # fmt: skip
    assert not draft.queries()
    assert at(draft, "E") == pytest.approx((300 * sin(radians(60)), 300 * cos(radians(60))), abs=1e-9)
    assert line_length(draft, "hem") == pytest.approx(100 * pi, abs=1e-5)
    level = draw(BEGIN, SQUARE, "Draw an arc from B to E on C-D, square to A-B and C-D; call it the hem.")
    assert at(level, "E") == pytest.approx((300, 400))
    assert line_length(level, "hem") == pytest.approx(300, abs=1e-6)


def test_a_quarter_round_is_near_a_quarter_circle() -> None:
    """In a square corner it is a quarter circle to Hobby's handles, within a thousandth."""
    draft = draw(
        BEGIN, "From A down to B: 10 cm. From A across to C: 10 cm. Square across from B and down from C to D.",
        "Draw a quarter round from B to C in the corner B-D-C; call it the gorge.",
    )  # fmt: skip
    assert not draft.queries()
    assert line_length(draft, "gorge") == pytest.approx(50 * pi, rel=1e-3)


def test_the_circular_flounce() -> None:
    """Baldt 1916, fig. 56: depth 12, top 72, bottom 112; radius 21.6 and sector 190.99 degrees (DERIVED).

    Unrolled whole from a slant of 12 inches, the inner arc is 72, the outer 112, and the slant comes again.
    """
    draft = draw(
        BEGIN, "From A down to B: 12 in.", "Draw a cone from A-B across to C-D: 72 in at A and 112 in at B.",
        "Let the inner be the curve A-C. Let the outer be the curve B-D. Let the slant be C-D.",
    )  # fmt: skip
    assert not draft.queries()
    inch = 25.4
    assert draft.amount("inner")[0] == pytest.approx(72 * inch, abs=1e-3)
    assert draft.amount("outer")[0] == pytest.approx(112 * inch, abs=1e-3)
    assert draft.amount("slant")[0] == pytest.approx(12 * inch, abs=1e-9)
    # The chord of the inner arc: twice the radius by the sine of half the sector.
    chord = 2 * 21.6 * inch * sin(radians(190.986 / 2))
    x, y = at(draft, "C")
    assert hypot(x, y) == pytest.approx(chord, abs=0.01)
    assert y < 0


def test_a_tube_is_a_cone_too() -> None:
    """Equal ends unroll to a rectangle."""
    draft = draw(
        BEGIN, "From A down to B: 20 cm. Draw a cone from A-B across to C-D: 30 cm at A and 30 cm at B."
    )
    assert not draft.queries()
    assert at(draft, "D") == pytest.approx((300, 200), abs=1e-9)
    wide = draw(
        BEGIN, "From A down to B: 5 cm. Draw a cone from A-B across to C-D: 10 cm at A and 50 cm at B."
    )
    assert names(wide.queries()) == ["cone-too-wide"]


SKIRT = (
    BEGIN,
    "From A down to B: 50 cm. From A across to C, E and G: 10 cm, 20 cm and 30 cm.",
    "From B across to D, F and H: 10 cm, 20 cm and 30 cm.",
    "Let the skirt be the outline A to C, to E, to G, to H, to F, to D, to B, to A.",
)


def test_slash_and_spread() -> None:
    """Two slashes opened by 4 cm at the hem: each turns what lies beyond by 2 asin(2 / 50)."""
    draft = draw(*SKIRT, "Open the skirt along D-C and F-E by 4 cm, keeping A still; call it the full skirt.")
    assert not draft.queries(), [q.message for q in draft.queries()]
    angle = 2 * asin(2 / 50)
    # The second part turns about C; D' is 4 cm from D, and so is F' from the copy of F that stays with it.
    assert at(draft, "D") == (100, 500)
    x, y = at(draft, "D'")
    assert hypot(x - 100, y - 500) == pytest.approx(40, abs=1e-9)
    assert x > 100
    assert hypot(*(a - b for a, b in zip(at(draft, "F'"), at(draft, "F''"), strict=True))) == pytest.approx(
        40
    )
    # The last part has turned twice: G and H keep their distance, and H' lies where two turns put it.
    gx, gy = at(draft, "G'")
    hx, hy = at(draft, "H'")
    assert hypot(hx - gx, hy - gy) == pytest.approx(500)
    assert (hx - gx) / 500 == pytest.approx(sin(2 * angle), abs=1e-9)


def test_a_dart_is_moved() -> None:
    """Closing a waist dart opens the shoulder by as much angle; the outline closes again."""
    items = (
        BEGIN,
        "From A across to C: 40 cm. From A down to B: 50 cm. Square across from B and down from C to D.",
        "Divide A-C in half at U. Divide B-D in half at W. Square up from W to P: 25 cm.",
        "Take out 6 cm at W on B-D, from W1 to W2, lost at P; call it the dart.",
        "Let the front be the outline A to U, to C, to D, to W2, to P, to W1, to B, to A.",
        "Open the front along U-P by closing the dart, keeping A still; call it the new front.",
    )
    draft = draw(*items)
    assert not draft.queries(), [q.message for q in draft.queries()]
    # W2 is carried on to W1.
    assert at(draft, "W2'") == pytest.approx(at(draft, "W1"), abs=1e-9)
    dart = 2 * asin(30 / hypot(30, 250))
    ux, uy = at(draft, "U'")
    assert hypot(ux - 200, uy) == pytest.approx(2 * 250 * sin(dart / 2), abs=1e-9)
    assert ux > 200


def test_what_cannot_be_moved_is_asked() -> None:
    """Letters off the outline, the letter that should stay, a slash that misses the dart."""
    for sentence, query in (
        ("Open the skirt along D-C by 4 cm, keeping D still.", "still-on-slash"),
        ("From D right to K: 1 cm. Open the skirt along K-C by 4 cm, keeping A still.", "not-on-outline"),
        ("Open the skirt along D-C by 120 cm, keeping A still.", "opens-too-far"),
        ("Carry D-C beyond A to K: 1 cm.", "no-end"),
        ("Round the corner A-C-E by 20 cm.", "arm-too-short"),
        ("Let out A-B by 1 cm at B, to nothing at A.", ""),
    ):
        found = draw(*SKIRT, sentence).queries()
        assert names(found) == ([query] if query else []), (sentence, [q.message for q in found])


def test_let_out_knows_its_side_from_the_piece() -> None:
    """The side seam of a piece springs outward, and is taken in inward."""
    out = draw(
        BEGIN,
        SQUARE,
        "Join C to D; call it the side.",
        PANEL.replace("to D,", "to D by the side,"),
        "Let out the side by 2 cm at D, to nothing at C.",
    )
    assert at(out, "D'") == pytest.approx((320, 400))
    into = draw(
        BEGIN,
        SQUARE,
        "Join C to D; call it the side.",
        PANEL.replace("to D,", "to D by the side,"),
        "Take in the side by 2 cm at D, to nothing at C.",
    )
    assert at(into, "D'") == pytest.approx((280, 400))
    none = draw(
        BEGIN, SQUARE, "Join C to D; call it the side.", "Let out the side by 2 cm at D, to nothing at C."
    )
    assert names(none.queries()) == ["which-side"]


def test_a_moved_outline_can_be_cut_and_moved_again() -> None:
    """The copy has a name of its own, its letters primed, its curves by their primed ends."""
    draft = draw(
        BEGIN, SQUARE, "Sweep about D from B toward A through 90 degrees to K; call it the bowl.",
        "Let the bit be the outline D to B, to K by the bowl, to D.",
        "Turn over the bit on D-B; call it the other bit. Cut the other bit once of cloth, leaving nothing everywhere.",
        "Let the far be the curve B'-K'. See that the far is the bowl, within 1 mm.",
    )  # fmt: skip
    assert not draft.queries(), [q.message for q in draft.queries()]
    piece = draft.pieces()[0]
    assert [e.start for e in piece.outline.edges] == ["D'", "B'", "K'"]
    assert draft.amount("far")[0] == pytest.approx(300 * pi / 2, abs=1e-3)


def test_lengths_are_kept_by_every_moving() -> None:
    """A moved edge is as long as it was."""
    draft = draw(BEGIN, SQUARE, PANEL + " Pivot the panel about D by 33 degrees toward the centre front.")
    for a, b in (("A", "C"), ("C", "D"), ("B", "A")):
        one = hypot(*(p - q for p, q in zip(at(draft, a), at(draft, b), strict=True)))
        two = hypot(*(p - q for p, q in zip(at(draft, a + "'"), at(draft, b + "'"), strict=True)))
        assert two == pytest.approx(one, abs=1e-9)

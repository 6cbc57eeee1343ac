"""Patterns from lessons: turnings said, folds, seams in the draft, seams run, marks carried. Hand-worked panels."""

from __future__ import annotations

import numpy as np
import pytest

from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.geometry import area, cubics, end_point, length, start_point
from tapewright.measures import Figure
from tapewright.pieces import Corners, Lies, Pattern, closed_gaps, pattern_of
from tapewright.plan import build_plan
from tests.garments.people import drawn, people, plan
from tests.lessons import TRIAL, draw, lesson_text
from tests.pieces.hand import shape, vertices
from tests.survey import Sex

BEGIN = "Begin at A, with the centre back on the left and the centre front on the right."
PANEL = "From A down to B: 40 cm. From A across to C: 30 cm. Square across from B and down from C to D. Join C to D; call it the side."
OTHER = "From C right to E: 10 cm. Square down from E to F: 40 cm. From F right to G: 20 cm. From E right to H: 20 cm. Join E to F; call it the front side."
OUTLINES = (
    "Let the back be the outline A to C, to D by the side, to B, to A.",
    "Let the front be the outline E to H, to G, to F, to E by the front side.",
)


def panels(*more: str) -> Pattern:
    """Two panels beside each other, and what else is said."""
    draft = draw(BEGIN, PANEL, OTHER, *OUTLINES, *more)
    assert not draft.queries(), [q.message for q in draft.queries()]
    return pattern_of(draft)


def test_turnings_as_said() -> None:
    """Named edges have their own turning, the rest the other, the fold none: 300 by 400 is cut 310 by 430."""
    pattern = panels(
        "Cut the back once of cloth, with A-B on the fold, leaving 1 cm at the side, 3 cm at D-B and nothing elsewhere."
    )
    (piece,) = pattern.pieces
    assert [float(e.turning[0]) for e in piece.edges] == [0, 10, 30, 0]
    assert [e.lies for e in piece.edges][3] is Lies.FOLD
    assert piece.cut_area()[0] == pytest.approx(310 * 430)
    assert piece.net_area()[0] == pytest.approx(300 * 400)


def test_an_edge_the_piece_has_not() -> None:
    """A turning named at another piece's edge is told, not dropped in silence."""
    pattern = panels("Cut the back twice of cloth, leaving 1 cm at the front side and 1 cm elsewhere.")
    assert pattern.pieces[0].untold.off_piece == ["front side"]


def test_another_turning_elsewhere() -> None:
    """A turning asked for stands in for what is left elsewhere; named edges keep theirs, and nothing is nothing."""
    draft = draw(
        BEGIN, PANEL, OTHER, *OUTLINES,
        "Cut the back twice of cloth, leaving 1 cm at the side and 2 cm elsewhere. Cut the front twice of canvas, leaving nothing everywhere.",
    )  # fmt: skip
    back, front = pattern_of(draft, np.array([15.0])).pieces
    assert back.cut_area()[0] == pytest.approx((300 + 15 + 10) * 430)
    assert front.cut_area()[0] == pytest.approx(200 * 400)


def with_seams(cutting: str) -> Pattern:
    """The panel drafted with seams of 1/4 in at the side."""
    text = lesson_text(BEGIN, PANEL, OTHER, *OUTLINES, cutting).replace(
        "Drafted net.", "Drafted with seams of 1/4 in at the side."
    )
    from tapewright.diagnostics import Source
    from tapewright.language import read_lesson

    made = build_plan(read_lesson(Source("trial.md", text)))
    return pattern_of(evaluate(made, from_arrays({k: np.array([v]) for k, v in TRIAL.items()}, Figure.WOMAN)))


def test_seams_in_the_draft_are_not_left_twice() -> None:
    """A draft that holds 6.35 mm at the side is sewn so far inside, and `everywhere` leaves no more there."""
    piece = with_seams("Cut the back twice of cloth, leaving 1 cm everywhere.").pieces[0]
    assert piece.net_area()[0] == pytest.approx((300 - 6.35) * 400)
    assert piece.cut_area()[0] == pytest.approx((300 + 10) * 420)
    assert float(piece.edges[1].length[0]) == pytest.approx(400)
    assert float(piece.edges[0].length[0]) == pytest.approx(300 - 6.35)


def test_seams_in_the_draft_and_more_asked_for() -> None:
    """An edge named for more has both, one outside the other."""
    piece = with_seams("Cut the back twice of cloth, leaving 2 cm at the side and nothing elsewhere.").pieces[
        0
    ]
    assert piece.net_area()[0] == pytest.approx((300 - 6.35) * 400)
    assert piece.cut_area()[0] == pytest.approx((300 + 20) * 400)


CUT = "Cut the back twice of cloth, leaving 1 cm everywhere. Cut the front twice of cloth, leaving 1 cm everywhere."


def test_a_seam_is_run_from_one_end() -> None:
    """Both sides of a seam begin together, though one edge runs round its piece and the other against it."""
    (seam,) = panels(CUT, "Sew the front side to the side.").seams
    one, other = seam.first.parts[0], seam.second.parts[0]
    assert start_point(one.run).y[0] == start_point(other.run).y[0] == 0
    assert end_point(one.run).y[0] == end_point(other.run).y[0] == 400
    assert seam.whole
    assert one.forward != other.forward


def test_an_edge_of_no_piece() -> None:
    """What is sewn but belongs to no piece is told by its name."""
    (seam,) = panels(
        "Cut the back twice of cloth, leaving 1 cm everywhere.", "Sew the front side to the side."
    ).seams
    assert seam.first.missing == ("front side",)


def test_a_mark_is_carried_across_its_seam() -> None:
    """One mark said on one side stands on both, as far from the end where the seam begins; two strokes behind."""
    pattern = panels(CUT, "Sew the front side to the side.", "Mark the side at 15 cm from C, two notches.")
    assert [(n.piece, n.carried, n.count) for n in pattern.notches] == [(0, False, 2), (1, True, 2)]
    assert [round(float(n.at.y[0]), 6) for n in pattern.notches] == [150, 150]
    # Out of the piece: to the right on the back, to the left on the front.
    assert [round(float(n.out_x[0])) for n in pattern.notches] == [1, -1]


def test_marks_of_both_sides_stand_as_they_are() -> None:
    """Where the lesson marks both sides, nothing is carried."""
    pattern = panels(
        CUT,
        "Sew the front side to the side.",
        "Mark the side at 15 cm from C and the front side at 16 cm from E, one notch.",
    )
    assert [(n.piece, n.carried) for n in pattern.notches] == [(0, False), (1, False)]


def test_a_mark_on_layers() -> None:
    """A mark on an edge that several layers have stands on each of them."""
    pattern = panels(
        CUT,
        "Cut the back twice of lining, leaving nothing everywhere.",
        "Mark the side at 15 cm from C, one notch.",
    )
    assert [n.piece for n in pattern.notches] == [0, 2]


SHIPPED = [("a-mans-waistcoat", Sex.MEN, False), ("a-tabbed-bodice", Sex.WOMEN, True)]


@pytest.mark.parametrize(("name", "sex", "stays"), SHIPPED)
def test_a_row_does_not_know_its_neighbours(name: str, sex: Sex, stays: bool) -> None:
    """Every cutting line of twelve people is, bit for bit, that of each one alone."""
    together = pattern_of(drawn(name, sex, stays=stays, count=12))
    measured, made = people(sex, stays=stays, count=12), plan(name)
    figure = Figure.WOMAN if sex is Sex.WOMEN else Figure.MAN
    for row in (0, 5, 11):
        mine = {m: measured[m][row : row + 1] for m in made.measures() if m in measured}
        alone = pattern_of(evaluate(made, from_arrays(mine, figure)))
        for a, b in zip(alone.pieces, together.pieces, strict=True):
            ours = [cubics(run, 0) for run in a.cut.runs]
            theirs = [cubics(run, row) for run in b.cut.runs]
            assert (np.concatenate(ours) == np.concatenate(theirs)).all()


@pytest.mark.slow
@pytest.mark.parametrize(("name", "sex", "stays"), SHIPPED)
def test_five_hundred(name: str, sex: Sex, stays: bool) -> None:
    """On 500 people every cutting line is closed, holds its piece, and is as big as shapely finds it.

    None crosses itself but where a hollow is told to be too tight for its turning, and of those at most one in a hundred.
    """
    draft: Draft = drawn(name, sex, stays=stays)
    pattern = pattern_of(draft)
    good = draft.drawn()
    for piece in pattern.pieces:
        assert closed_gaps(piece.cut.runs)[good].max() < 1e-6
        mine = piece.cut_area()
        told = [np.asarray(t.rows) for t in piece.cut.tight]
        crossed = 0
        for row in np.flatnonzero(good)[::10]:
            outer, inner = shape(piece.cut.runs, row, 200), shape(piece.net, row)
            if not outer.is_valid:
                assert any(rows[row] for rows in told), (piece.name, row)
                crossed += 1
                continue
            assert outer.area == pytest.approx(float(mine[row]), rel=1e-5)
            assert outer.buffer(0.02).contains(inner), (piece.name, row)
        assert crossed <= 1, piece.name


@pytest.mark.parametrize(("name", "sex", "stays"), SHIPPED)
def test_the_turning_is_that_wide_everywhere(name: str, sex: Sex, stays: bool) -> None:
    """Away from corners the cutting line is as far from the net line, by shapely, as the lesson says, to 0.01 mm."""
    from shapely import LineString, Point

    from tests.pieces.hand import spots

    pattern = pattern_of(drawn(name, sex, stays=stays, count=3))
    for piece in pattern.pieces:
        tight = {t.edge for t in piece.cut.tight}
        for run, k in zip(piece.cut.runs, piece.cut.edges, strict=True):
            if k < 0 or k in tight:
                continue
            net = LineString([*spots([piece.edges[k].net]), _last(piece.edges[k].net)])
            for p in spots([run])[16:-16:24]:
                assert net.distance(Point(p)) == pytest.approx(float(piece.edges[k].turning[0]), abs=0.01)


def _last(drawn_line: object) -> tuple[float, float]:
    p = end_point(drawn_line)  # type: ignore[arg-type]
    return float(p.x[0]), float(p.y[0])


def test_lengths_and_areas_are_the_drafts_own() -> None:
    """The net line is the draft's own line: lengths and areas are not touched by cutting."""
    draft = drawn("a-mans-waistcoat", Sex.MEN, count=3)
    pattern = pattern_of(draft)
    for piece in pattern.pieces:
        edges = piece.said.outline.edges
        assert (np.abs(area([e.drawn for e in edges])) == piece.net_area()).all()
        for mine, theirs in zip(piece.edges, edges, strict=True):
            assert (mine.length == length(theirs.drawn)).all()
        assert len(vertices(piece.net)) >= 3


def test_corners_and_finishes_said() -> None:
    """Words after a width reach the edge: squared, turned up; enough to lap is the half inch from memory."""
    pattern = panels(
        "Cut the back twice of cloth, leaving 4 cm turned up at D-B, 1 cm squared at the side and enough to lap elsewhere."
    )
    edges = {e.name: e for e in pattern.pieces[0].edges}
    assert (float(edges["D-B"].turning[0]), edges["D-B"].corners) == (40, Corners.TURNED)
    assert (float(edges["side"].turning[0]), edges["side"].corners) == (10, Corners.SQUARED)
    assert (float(edges["A-C"].turning[0]), edges["A-C"].finish) == (12.7, "to lap")


def test_vincents_inlays() -> None:
    """By the last words of an edge's name: 1 in at a front side (his forepart's side seam), nothing where he names none.

    Vincent's Systems of Cutting (c. 1903), leaf 246.
    """
    pattern = panels('Cut the front twice of cloth, leaving the turnings of "Vincent\'s inlays" everywhere.')
    (piece,) = pattern.pieces
    assert {e.name: float(e.turning[0]) for e in piece.edges}["front side"] == 25.4
    assert sum(float(e.turning[0]) for e in piece.edges) == 25.4
    assert len(piece.untold.not_in_table) == 3


def test_nap() -> None:
    """A nap is kept with its piece, and told on its label."""
    from tapewright.pages.piece_words import cut_words

    pattern = panels("Cut the back twice of cloth, with A-B on the grain, nap up, leaving 1 cm everywhere.")
    assert pattern.pieces[0].said.nap == "up"
    assert "nap up" in cut_words(pattern.pieces[0]).replace("\u00a0", " ")


def test_marks_within_a_piece() -> None:
    """A line and a letter marked on a piece are with that piece; the blocks' letters stand for places of the body."""
    pattern = panels(CUT, "Join C to B; call it the pocket place. Mark the pocket place and A on the back.")
    assert [(x.piece, x.name) for x in pattern.lines] == [(0, "pocket place")]
    assert [(x.piece, x.name) for x in pattern.points] == [(0, "A")]


def test_a_garment_keeps_the_places_of_its_block() -> None:
    """What a block says stands for the nape holds for the garment begun from it."""
    names = {mark.name: mark.letters for mark in drawn("a-mans-waistcoat", Sex.MEN, count=3).landmarks()}
    assert names["nape"] == ("A",)
    assert len(names["neck point"]) == 2

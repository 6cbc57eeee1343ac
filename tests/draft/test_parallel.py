"""Parallels to bent lines: against the circle, and against shapely's distances."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import LineString, Point

from tapewright.draft import Draft
from tapewright.draft.on_line import run_of
from tapewright.geometry import cubics
from tests.draft.test_sentences import BEGIN, SQUARE, line_length
from tests.lessons import at, draw, names

BOW = "Draw a curve from B to C, leaving B level and reaching C plumb; call it the bow."


def places(draft: Draft, name: str, each: int = 60) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Many points of a named line."""
    index = next(x.index for x in draft.plan.lines if x.name == name)
    run = run_of(draft.line(index))
    assert run is not None
    t = np.linspace(0, 1, each)[:, None]
    return np.concatenate(
        [
            (1 - t) ** 3 * p[0] + 3 * t * (1 - t) ** 2 * p[1] + 3 * t**2 * (1 - t) * p[2] + t**3 * p[3]
            for p in cubics(run, 0)
        ]
    )


@pytest.mark.parametrize(("way", "radius"), [("5 cm toward D", 350.0), ("5 cm toward A", 250.0)])
def test_a_parallel_to_an_arc_is_an_arc_about_the_same_pivot(way: str, radius: float) -> None:
    """An arc of 30 cm about A with a line 5 cm outside or inside it: everywhere 35 or 25 cm from A."""
    draft = draw(
        f"{BEGIN} {SQUARE} Sweep about A from C toward B through 90 degrees to E; call it the arc. "
        f"Draw F-G parallel to the arc, {way}; call it the other."
    )
    away = np.hypot(*places(draft, "other").T)
    assert np.abs(away - radius).max() < 0.01
    assert at(draft, "F") == pytest.approx((radius, 0), abs=0.01)
    assert at(draft, "G") == pytest.approx((0, radius), abs=0.01)
    # A quarter of the circle, within what a hundredth of a millimetre of radius makes.
    assert line_length(draft, "other") == pytest.approx(np.pi / 2 * radius, abs=0.02)


@pytest.mark.parametrize("way", ["2 cm toward A", "2 cm toward D", "6 cm left"])
def test_every_place_of_a_parallel_is_at_its_distance(way: str) -> None:
    """Shapely's distance from each place of the parallel to a fine run along the line: the distance said."""
    draft = draw(f"{BEGIN} {SQUARE} {BOW} Draw F-G parallel to the bow, {way}; call it the other.")
    line = LineString(places(draft, "bow", 4000))
    far = np.array([line.distance(Point(p)) for p in places(draft, "other")])
    assert np.abs(far - float(way.split(maxsplit=1)[0]) * 10).max() < 0.02


def test_a_piece_of_a_line_has_a_parallel_of_its_own() -> None:
    """From where to where, and the parallel ends square to these letters."""
    draft = draw(
        f"{BEGIN} {SQUARE} {BOW} Divide the bow in half at M. "
        "Draw F-G parallel to the bow from B to M, 2 cm toward D; call it the facing."
    )
    assert at(draft, "F") == pytest.approx((0, 420), abs=0.01)
    mx, my = at(draft, "M")
    gx, gy = at(draft, "G")
    assert np.hypot(gx - mx, gy - my) == pytest.approx(20, abs=0.01)


def test_beside_a_straight_line_called_by_its_name_it_is_straight() -> None:
    """A named straight line may be meant as well as its letters, and its parallel is as long."""
    draft = draw(
        f"{BEGIN} {SQUARE} Join A to D; call it the slant. Draw F-G parallel to the slant, 5 cm toward C."
    )
    assert not draft.queries()
    f, g = at(draft, "F"), at(draft, "G")
    assert np.hypot(f[0] - g[0], f[1] - g[1]) == pytest.approx(500)
    assert f == pytest.approx((40, -30))


def test_what_cannot_keep_its_distance_is_asked_about() -> None:
    """Inside a round of 30 cm a line 35 cm off would run back; nothing is drawn."""
    draft = draw(
        f"{BEGIN} {SQUARE} Sweep about A from C toward B through 90 degrees to E; call it the arc. "
        "Draw F-G parallel to the arc, 35 cm toward A."
    )
    assert names(draft.queries()) == ["parallel-too-far"]
    assert not draft.alive("point F")

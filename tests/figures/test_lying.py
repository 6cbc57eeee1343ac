"""Where the tapes lie on the line figures, against the figures themselves and the people of a survey."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tapewright.drawing import Path
from tapewright.figures import View, lies_of, outline, shown_on, smooth
from tapewright.figures.lying import Lie
from tapewright.measures import catalogue
from tapewright.pages.figure import drawn_length
from tests.survey import Sex, survey

EVERY = [lie for name in catalogue() for lie in lies_of(name)]


def corners(paths: tuple[Path, ...]) -> list[tuple[float, float]]:
    """Places along some paths."""
    return [p for path in paths for stretch in path.flat(24) for p in stretch]


def test_every_measure_but_the_weight_lies_somewhere() -> None:
    """All of the catalogue can be shown, and nothing that is not in it is."""
    assert [name for name in catalogue() if not lies_of(name)] == ["weight"]
    assert shown_on(catalogue()).keys() == set(View)
    assert lies_of("cuff opening") == ()


@pytest.mark.parametrize("lie", EVERY, ids=lambda lie: f"{lie.measure}, {lie.view}")
def test_a_tape_lies_on_its_figure(lie: Lie) -> None:
    """What is seen of a tape keeps within the figure, or within a hand's breadth of it for a rod beside it."""
    figure = np.array(corners(outline(lie.view).contour))
    (left, top), (right, bottom) = figure.min(axis=0), figure.max(axis=0)
    beside = 5.0 if lie.sort == "rod" else 1.5
    for x, y in lie.over:
        assert left - beside <= x <= right + beside
        assert top - 3 <= y <= bottom + 3
    if lie.sort == "band":
        for end in lie.ends:
            at_height = figure[np.abs(figure[:, 1] - end[1]) < 2.5]
            assert at_height[:, 0].min() - 2 <= end[0] <= at_height[:, 0].max() + 2


def test_girths_meet_the_outline_at_both_ends() -> None:
    """A girth of the trunk or a limb runs from edge to edge of it: both ends within 1 cm of a drawn line."""
    for name in (
        "bust", "waist", "hip", "under bust", "high bust", "thigh", "knee", "calf", "ankle", "wrist", "elbow",
        "forearm", "upper arm",
    ):  # fmt: skip
        lie = lies_of(name)[0]
        figure = np.array(corners(outline(lie.view).contour))
        for x, y in lie.ends:
            assert np.hypot(figure[:, 0] - x, figure[:, 1] - y).min() < 1.0, name


# Lengths that are seen flat, at their true length, on a figure from the front, the back or the side.
FLAT = ("stature", "nape height", "leg", "knee to floor", "waist to floor", "hip to floor", "nape to waist")  # fmt: skip


@pytest.mark.parametrize("name", FLAT)
def test_the_figure_is_built_as_people_are(name: str) -> None:
    """Lengths seen flat are, against the stature, within 6 % of women's or men's medians, or between them.

    ANSUR 1988, all rows (tests/data/README.md). The figure is nobody and is never measured; but a tape that is
    drawn in the wrong place would teach it wrongly.
    """
    drawn = drawn_length(lies_of(name)[0]) / drawn_length(lies_of("stature")[0])
    shares = [float(np.median(survey(sex)[name] / survey(sex)["stature"])) for sex in Sex]
    assert min(shares) * 0.94 <= drawn <= max(shares) * 1.06


def test_levels_stand_in_the_order_of_a_body() -> None:
    """From above down: neck, high bust, bust, under-bust, high waist, waist, navel, high hip, hip, thigh, knee, calf."""
    order = (
        "head", "mid neck", "neck base", "high bust", "bust", "under bust", "high waist", "waist", "navel waist",
        "high hip", "hip", "thigh", "mid thigh", "knee", "below the knee", "calf", "ankle",
    )  # fmt: skip
    heights = [lies_of(name)[0].ends[0][1] for name in order]
    assert heights == sorted(heights)
    assert lies_of("bust")[0].over == lies_of("chest")[0].over


def test_a_smooth_line_goes_through_its_places() -> None:
    """Every place given is on the line, and a line through two is straight (geometry)."""
    places = [(0.0, 0.0), (1.0, 2.0), (3.0, 2.5), (6.0, 0.0)]
    drawn = corners((smooth(places),))
    for x, y in places:
        assert min(math.hypot(x - a, y - b) for a, b in drawn) < 1e-9
    assert corners((smooth(places[:2]),)) == places[:2]
    with pytest.raises(ValueError, match="two places"):
        smooth(places[:1])


def test_the_two_outer_figures_are_even() -> None:
    """Front and back are drawn alike on both sides of the middle."""
    for view in (View.FRONT, View.BACK):
        found = np.array(corners(outline(view).contour))
        mirrored = found * np.array([-1.0, 1.0])
        for place in mirrored[::7]:
            assert np.hypot(*(found - place).T).min() < 0.3

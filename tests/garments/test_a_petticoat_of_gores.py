"""A petticoat of gores on 500 women of the trial half of the 1988 survey, put into stays by our factors.

Outside witnesses: the nine gores that Ingalls prints for a waist of 24 and hips of 39 (1911), and the sector of
Baldt's circular flounce, 12 deep, 72 above and 112 below (1916, Fig. 56). The rest is held against the women.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.draft.bodies import Bodies
from tapewright.geometry import Curve, length
from tapewright.measures import Figure
from tests.blocks.drafts import ruler, tape
from tests.garments.people import Array, drawn, people, plan, stopped
from tests.garments.tailoring import (
    apart,
    asked_where_not_drawn,
    curve,
    heading,
    ruler_way,
    tangled,
    turned,
    unwatched,
)
from tests.survey import Sex

NAME = "a-petticoat-of-gores"
INCH = 25.4
#: The arcs of each gore, from the middle of the front to the middle of the back.
WAISTS = ("A-M1", "K2-M2", "K3-M3", "K4-M4", "K5-M5")
HIPS = tuple(f"H{i}-N{i}" for i in range(1, 6))

pytestmark = pytest.mark.slow


def draw(body: dict[str, Array]) -> Draft:
    """The petticoat of some women."""
    return evaluate(plan(NAME), bodies(body))


def bodies(body: dict[str, Array]) -> Bodies:
    """As the lesson wants them."""
    return from_arrays({n: body[n] for n in plan(NAME).measures()}, Figure.WOMAN)


@cache
def straight() -> dict[str, Array]:
    """Forty of the women, as large at the waist as at the hip less 2 cm; made up, no survey's."""
    body = {n: v[:40].copy() for n, v in people(Sex.WOMEN, stays=True).items()}
    body["waist"] = body["hip"] - 20.0
    return body


@cache
def both() -> list[tuple[Draft, dict[str, Array]]]:
    """The survey's women and the straight ones, each with their measures."""
    return [
        (drawn(NAME, Sex.WOMEN, stays=True), people(Sex.WOMEN, stays=True)),
        (draw(straight()), straight()),
    ]


def line(draft: Draft, letters: str) -> Curve:
    """The one curve between two letters."""
    ends = tuple(letters.split("-"))
    (index,) = (ln.index for ln in draft.plan.lines if ln.ends == ends and ln.sort == "curve")
    found = draft.line(index)
    assert isinstance(found, Curve)
    return found


def arc(draft: Draft, letters: str) -> Array:
    """How long it is by the tape, mm."""
    return np.asarray(length(line(draft, letters)))


def test_every_sentence_draws() -> None:
    """On all 500 women, and on the straight ones, nothing is asked and every check holds."""
    for draft, _ in both():
        assert stopped(draft) == {}
        assert all(check.holds.all() for check in draft.checks())


def test_what_cannot_be_drawn_is_asked_about() -> None:
    """With a measure made a third or three times what it was, every woman who is not drawn has a question."""
    names = ("waist", "hip", "waist to hip", "waist to floor")
    assert asked_where_not_drawn(draw, people(Sex.WOMEN, stays=True), names) > 0


def test_ingalls_model_comes_out_as_she_prints_it() -> None:
    """Waist 24, hips 39: front 1 1/2, sides 2 2/3, back 2 1/2 of the half waist; 2 1/4, 4 and 5 1/4 at the hip.

    "Dressmaking" (1911), the skirt of nine gores, as our notes have it.
    """
    inches = {"waist": 24.0, "hip": 39.0, "waist to hip": 8.0, "waist to floor": 40.0}
    draft = draw({name: np.array([value * INCH]) for name, value in inches.items()})
    assert stopped(draft) == {}
    waists = [float(arc(draft, letters)[0]) / INCH for letters in WAISTS]
    hips = [float(arc(draft, letters)[0]) / INCH for letters in HIPS]
    assert waists == pytest.approx([3 / 2, 8 / 3, 8 / 3, 8 / 3, 5 / 2], abs=0.01)
    assert hips == pytest.approx([9 / 4, 4, 4, 4, 21 / 4], abs=0.01)


def test_the_flounce_is_the_sector_that_baldt_has() -> None:
    """12 deep and 40 wider below than above: 190.99 degrees for the whole; for a top of 72 the radius is 21.6.

    The radius of any other is the top times the depth through the spread. Baldt 1916, Fig. 56.
    """
    for draft, _ in both():
        opened = np.degrees(ruler_way(draft, "K6", "P6") - ruler_way(draft, "M6", "N6"))
        assert np.abs(2 * opened - 190.99).max() < 0.01
        top = sum(arc(draft, f"B{i}-X{i}") for i in range(1, 6)) * 2
        # A chord is twice the radius times the sine of half the angle.
        radius = ruler(draft, "K6", "M6") / 2 / np.sin(np.radians(opened) / 2)
        assert np.abs(radius / top - 21.6 / 72).max() < 1e-4


def test_it_goes_round_her() -> None:
    """Waist and hip by the tape along the arcs are the measures, to a millimetre; the band is the waist and 1 in."""
    for draft, body in both():
        assert np.abs(2 * sum(arc(draft, a) for a in WAISTS) - body["waist"]).max() < 1
        assert np.abs(2 * sum(arc(draft, a) for a in HIPS) - body["hip"]).max() < 1
        assert np.abs(2 * ruler(draft, "C1", "C2") - body["waist"] - INCH).max() < 1


def test_it_hangs_where_it_should() -> None:
    """Gores and flounce reach to 5 in from the floor in front, and 1 1/2 in lower on the cloth behind."""
    for draft, body in both():
        front = ruler(draft, "A", "B1") + ruler(draft, "K6", "P6")
        back = ruler(draft, "M5", "X5") + ruler(draft, "M6", "N8")
        assert np.abs(front - body["waist to floor"] + 5 * INCH).max() < 0.01
        assert np.abs(back - front - 1.5 * INCH).max() < 0.01


def test_one_can_walk_in_it() -> None:
    """Round the hem nineteen women in twenty have two yards and a quarter, what Bennett's gored skirt has (1914).

    All have two yards, and so have the straight ones, who gain nothing below the waist but the flounce.
    """
    (draft, _), (other, _) = both()
    assert (2 * tape(draft, "hem") >= 81 * INCH).mean() >= 0.95
    assert 2 * min(tape(draft, "hem").min(), tape(other, "hem").min()) > 72 * INCH


def test_seams_agree() -> None:
    """Four seams and the flounce's to 0.01 mm; nothing is eased."""
    for draft, _ in both():
        assert len(draft.seams()) == 5
        assert all(np.abs(seam.difference).max() < 0.01 for seam in draft.seams())


def test_edges_run_on_over_the_seams() -> None:
    """Waist, hip and foot from gore to gore, to a degree, each held against the seam on its own side."""
    for draft, _ in both():
        for i in range(1, 5):
            n = i + 1
            one, other = ruler_way(draft, f"M{i}", f"X{i}"), ruler_way(draft, f"K{n}", f"B{n}")
            above = "A" if i == 1 else f"K{i}"
            for a, b, at, to in (
                (f"{above}-M{i}", f"K{n}-M{n}", f"M{i}", f"K{n}"),
                (f"H{i}-N{i}", f"H{n}-N{n}", f"N{i}", f"H{n}"),
                (f"B{i}-X{i}", f"B{n}-X{n}", f"X{i}", f"B{n}"),
            ):
                off = apart(
                    heading(line(draft, a), draft, at) - one, heading(line(draft, b), draft, to) - other
                )
                assert off.max() < 1, (a, b)
        assert apart(heading(curve(draft, "hem"), draft, "P6"), np.zeros(1)).max() < 1


def test_no_outline_crosses_itself() -> None:
    """Nor does any piece."""
    for draft, _ in both():
        assert tangled(draft) == []


def test_curves_bend_one_way() -> None:
    """Every arc and the hem turn to the left all the way, from the front to the back."""
    for draft, _ in both():
        for letters in (*WAISTS, *HIPS, *(f"B{i}-X{i}" for i in range(1, 6)), "K6-M6", "P6-N8"):
            left, right = turned(line(draft, letters))
            assert right.max() < 0.5, letters
            assert left.min() > 0, letters


def test_a_centimetre_more_or_less_breaks_a_check() -> None:
    """Every amount said outright is watched both ways, on twelve women of the survey and six straight ones."""
    names = plan(NAME).measures()
    survey = people(Sex.WOMEN, stays=True)
    every = {n: np.concatenate([survey[n][:12], straight()[n][:6]]) for n in names}
    unseen, count = unwatched(NAME, from_arrays(every, Figure.WOMAN))
    assert unseen == []
    assert count > 10

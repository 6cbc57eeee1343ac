"""A woman's shift on 500 women of the trial half of the 1988 survey, and on some made up to strain it.

Outside witnesses: the parts of the ell that Garsault prints (1771, in a modern translation), the survey for what the
lesson fills, geometry for the square and the linen's area, and the women: their busts, hips, arms, heads and lengths.
That a shift was cut so is from memory.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.draft.bodies import Bodies
from tapewright.geometry import Curve, at
from tapewright.measures import Figure
from tests.blocks.drafts import ruler, tape
from tests.garments.people import Array, drawn, people, plan, stopped
from tests.garments.tailoring import (
    apart,
    areas,
    asked_where_not_drawn,
    curve,
    heading,
    tangled,
    turned,
    unwatched,
)
from tests.survey import Half, Sex, survey

NAME = "a-womans-shift"
INCH = 25.4
TURNING = 0.375 * INCH
#: The ell is 524 lignes (Garsault 1771), the pied de roi 144 of them and 324.839 mm (law of 1799).
ELL = 524 * 324.839 / 144
LINEN = 0.75 * ELL
EASE = 10 * INCH
#: All that the lesson cannot do without.
NEEDED = ("bust", "shoulder to elbow")

pytestmark = pytest.mark.slow


def bodies(body: dict[str, Array]) -> Bodies:
    """As the lesson wants them."""
    return from_arrays({n: body[n] for n in plan(NAME).measures() if n in body}, Figure.WOMAN)


@cache
def stout() -> dict[str, Array]:
    """Forty of the women, bust and hips 45 cm more and arms 13; made up, no survey's."""
    body = {name: values[:40].copy() for name, values in people(Sex.WOMEN).items()}
    for name, more in (("bust", 450.0), ("hip", 450.0), ("upper arm", 130.0)):
        body[name] = body[name] + more
    return body


@cache
def both() -> list[tuple[Draft, dict[str, Array]]]:
    """The survey's women and the stout ones, each with their measures."""
    return [(drawn(NAME, Sex.WOMEN), people(Sex.WOMEN)), (evaluate(plan(NAME), bodies(stout())), stout())]


def at_height(draft: Draft, down: Array) -> Array:
    """Round the shift, so far below the shoulder's fold: body, slope and gore, by similar triangles."""
    top = draft.point("P").y
    high = draft.point("B").y - top
    share = np.clip((down - top) / high, 0, 1)
    return np.asarray(2 * (ruler(draft, "A", "C") + 2 * share * ruler(draft, "G1", "G2")))


def test_every_sentence_draws() -> None:
    """On all 500 women, on the stout, and where only bust and upper arm's length were taken, nothing is asked."""
    for draft, _ in both():
        assert stopped(draft) == {}
    few = {n: people(Sex.WOMEN)[n] for n in NEEDED}
    assert stopped(evaluate(plan(NAME), bodies(few))) == {}


def test_what_cannot_be_drawn_is_asked_about() -> None:
    """With a measure made a third or three times what it was, every woman who is not drawn has a question."""
    names = ("bust", "shoulder", "knee to floor", "scye depth", "upper arm")
    assert (
        asked_where_not_drawn(lambda changed: evaluate(plan(NAME), bodies(changed)), people(Sex.WOMEN), names)
        > 0
    )


def test_the_checks_hold() -> None:
    """On 19 women of 20 all of them; what fails is a thick arm, a long shoulder's sleeve or a small neck's opening."""
    draft = drawn(NAME, Sex.WOMEN)
    failed = {c.claim: ~c.holds for c in draft.checks() if not c.holds.all()}
    starts = ("4 times (K1-K2", "half A-C plus K1-K3", "the front neck plus the left back neck")
    assert all(claim.startswith(starts) for claim in failed)
    assert np.logical_or.reduce(list(failed.values())).mean() < 0.07


def test_it_goes_round_her() -> None:
    """At the bust it is bust and ten inches to a millimetre, and at her hips' height it clears them by 20 cm."""
    for draft, body in both():
        assert np.abs(2 * ruler(draft, "A", "C") - body["bust"] - EASE).max() < 1
    draft, body = drawn(NAME, Sex.WOMEN), people(Sex.WOMEN)
    hips = at_height(draft, body["nape height"] - body["hip to floor"])
    assert (hips - body["hip"]).min() > 200


def test_nothing_of_the_width_is_lost() -> None:
    """Bust round and hem round are together four widths of linen, less four turnings of each."""
    draft = drawn(NAME, Sex.WOMEN)
    hem = 2 * (ruler(draft, "B", "H") + ruler(draft, "G1", "G2"))
    assert np.abs(2 * ruler(draft, "A", "C") + hem - 4 * (LINEN - 4 * TURNING)).max() < 1
    assert np.abs(hem - at_height(draft, draft.point("B").y)).max() < 0.01


def test_body_gore_and_strip_are_all_of_the_linen() -> None:
    """Net areas: body with its back neck filled, one gore, the strip above it and the seams make up the rectangle.

    By shapely for the pieces; the seams are two turnings beside the slope for its height, and beside the strip.
    """
    draft = drawn(NAME, Sex.WOMEN)
    area = areas(draft)
    high, top = ruler(draft, "A", "B"), ruler(draft, "C", "P")
    wide = LINEN - 2 * TURNING
    strip = ruler(draft, "G1", "G2") * top
    hollow = at_neck(draft)
    whole = area["shift body"] + hollow + area["gore"] + strip + 2 * TURNING * high
    assert np.abs(whole / (wide * high) - 1).max() < 0.001


def at_neck(draft: Draft) -> Array:
    """The area between the shoulder's fold and the back neck, by the trapezoid rule on the curve."""
    points = np.linspace(0, 1, 400)
    line = curve(draft, "left back neck")
    assert isinstance(line, Curve)
    last = float(line.ctrl.shape[2])
    places = [at(line, np.full(draft.bodies.count, t * last)) for t in points]
    x, y = np.array([p.x for p in places]), np.array([p.y for p in places])
    return 2 * np.asarray(np.abs((np.diff(x, axis=0) * (y[1:] + y[:-1]) / 2).sum(axis=0)))


def plumb(draft: Draft) -> Array:
    """Upright, on every woman."""
    return np.full(draft.bodies.count, np.pi / 2)


def test_both_sides_are_alike() -> None:
    """The slope and the gore's slant are as long as each other, and the set gore is the slope's mirror image."""
    for draft, _ in both():
        assert np.abs(ruler(draft, "P", "H") - ruler(draft, "G2", "G3")).max() < 0.01
        middle = draft.point("A").x + draft.point("C").x
        for left, right in (("G2'", "H"), ("G3'", "P")):
            a, b = draft.point(left), draft.point(right)
            assert np.abs(a.x + b.x - middle).max() < 0.01
            assert np.abs(a.y - b.y).max() < 0.01


def test_a_woman_too_large_for_the_linen_is_told() -> None:
    """Where less than four inches are left for the gore the check of the linen fails, and there alone."""
    draft, body = both()[1]
    left = LINEN - 4 * TURNING - (body["bust"] + EASE) / 2
    (check,) = (c for c in draft.checks() if c.claim.startswith("A-C plus G1-G2"))
    assert (check.holds == (left >= 4 * INCH)).all()
    assert check.holds.any()
    assert not check.holds.all()
    assert np.abs(ruler(draft, "G1", "G2") - np.maximum(left, 4 * INCH)).max() < 1


def test_seams_agree() -> None:
    """Gore, squares and sleeve to 0.01 mm; the band to what is gathered, three inches in the mean."""
    for draft, _ in both():
        assert len(draft.seams()) == 5
        for seam in draft.seams():
            by = np.zeros(draft.bodies.count) if seam.by is None else seam.by
            assert np.abs(seam.difference - by).max() < 0.01, seam.sentence
            assert (by >= 0).all(), seam.sentence
    gathers = 2 * drawn(NAME, Sex.WOMEN).amount("sleeve gathers") / INCH
    assert 3 < gathers.mean() < 7


def test_the_square_fills_its_slits() -> None:
    """Four sides alike, each as long as the slit in body and sleeve, and its diagonal the root of two of one.

    It comes out of the strip on all 500 women, turnings and all.
    """
    for draft, _ in both():
        corner = ("Q1", "Q2", "Q4", "Q3")
        side = ruler(draft, "Q2", "Q3") / np.sqrt(2)
        for a, b in zip(corner, (*corner[1:], corner[0]), strict=True):
            assert np.abs(ruler(draft, a, b) - side).max() < 0.01
        for slit in (("S", "P"), ("K2", "K5")):
            assert np.abs(ruler(draft, *slit) - side).max() < 0.01
    draft = drawn(NAME, Sex.WOMEN)
    low, right = draft.point("Q4").y + TURNING, draft.point("Q4").x + TURNING
    assert (draft.point("G1").y - TURNING - low).min() > 0
    assert (draft.point("G1").x + TURNING - right).min() > 0
    assert (draft.point("Q1").x - draft.point("C").x - 2 * TURNING).min() > -0.01


def test_the_sleeve_clears_the_arm() -> None:
    """By three inches at the least, and is half a width of linen less its seams where that is enough."""
    for draft, body in both():
        wide = 2 * ruler(draft, "K1", "K2")
        least = body["upper arm"] + 3 * INCH
        assert np.abs(wide - np.maximum(LINEN / 2 - 2 * TURNING, least)).max() < 1
        assert np.abs(ruler(draft, "R1", "R2") - body["elbow"] - 1.5 * INCH).max() < 0.01


def test_it_is_as_long_as_she_is() -> None:
    """From the nape two inches past the knee; from the neck over shoulder, sleeve and band an inch past the elbow."""
    draft, body = drawn(NAME, Sex.WOMEN), people(Sex.WOMEN)
    down = ruler(draft, "A", "B") + body["knee to floor"] - 2 * INCH
    assert np.abs(down - body["nape height"]).max() < 1
    reach = ruler(draft, "A", "C") / 2 + ruler(draft, "K1", "K3") + 0.75 * INCH
    wanted = body["shoulder"] + body["neck base"] / 6 + body["shoulder to elbow"] + INCH
    short = ruler(draft, "K1", "K3") < 8 * INCH + 0.01
    assert np.abs(reach - wanted)[~short].max() < 1
    assert short.mean() < 0.03
    assert (reach - wanted)[short].min() > -0.01


def test_the_neck_goes_over_the_head_and_stays_on_the_shoulder() -> None:
    """On 19 women of 20 it is her head and four inches, on nobody less than her head; three inches of strap are left.

    In front it lies an inch above the armpit's level.
    """
    draft, body = drawn(NAME, Sex.WOMEN), people(Sex.WOMEN)
    neck = tape(draft, "front neck") + tape(draft, "left back neck") + tape(draft, "right back neck")
    assert (neck - body["head"]).min() > 0
    assert (neck - body["head"] > 4 * INCH).mean() > 0.95
    strap = body["shoulder"] + body["neck base"] / 6 - (draft.point("N2").x - draft.point("O").x)
    assert np.abs(strap - 3 * INCH).max() < 0.01
    assert np.abs(ruler(draft, "O", "F") - body["scye depth"] + INCH).max() < 0.01


def test_the_neck_is_round_and_runs_on() -> None:
    """Both curves bend one way, are alike left and right, and meet the fold upright: no corner over the shoulder.

    From upright to upright is half a turn, less what the first and the last of two hundred chords leave out.
    """
    for draft, _ in both():
        for name, whole, ends in (
            ("front neck", 180, ("N1", "N2")),
            ("left back neck", 90, ("N1",)),
            ("right back neck", 90, ("N2",)),
        ):
            line = curve(draft, name)
            left, right = turned(line)
            assert np.minimum(left, right).max() < 0.5, name
            assert np.abs(np.maximum(left, right) - whole).max() < 3, name
            for letter in ends:
                assert apart(heading(line, draft, letter), plumb(draft)).max() < 0.5
            if whole == 90:
                assert apart(heading(line, draft, "E"), plumb(draft)).min() > 89.5
        assert np.abs(ruler(draft, "A", "N1") - ruler(draft, "N2", "C")).max() < 0.01


def test_what_is_filled_is_the_surveys() -> None:
    """Each share that stands for a measure is the mean of the fitting half's women to one in a hundred."""
    women = survey(Sex.WOMEN, Half.FITTING)
    for share, of, base in (
        (2.83, women["nape height"] - women["knee to floor"], women["shoulder to elbow"]),
        (0.322, women["upper arm"], women["bust"]),
        (0.223, women["shoulder"] + women["neck base"] / 6, women["bust"]),
        (0.205, women["scye depth"], women["bust"]),
        (0.264, women["elbow"], women["bust"]),
    ):
        assert share == pytest.approx(float(np.mean(of / base)), rel=0.01)


def test_no_outline_crosses_itself() -> None:
    """Nor does any piece."""
    for draft, _ in both():
        assert tangled(draft) == []


def test_a_centimetre_more_or_less_breaks_a_check() -> None:
    """Every amount is watched both ways.

    Heard on twelve women of the survey and six stout ones, and on all again with the fewest measures.
    """
    every = {n: np.concatenate([people(Sex.WOMEN)[n][:12], stout()[n][:6]]) for n in plan(NAME).measures()}
    tried = from_arrays({n: np.tile(values, 2) for n, values in every.items()}, Figure.WOMAN)
    for name in every:
        if name not in NEEDED:
            tried.taken[name][18:] = False
    unseen, number = unwatched(NAME, tried)
    assert unseen == []
    assert number > 20

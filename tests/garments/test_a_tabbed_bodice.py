"""A tabbed bodice on 500 women of the trial half of the 1988 survey, put into stays by our factors.

No survey measured anybody over stays; what those factors are stands in `tests.garments.people`. The draft is our
own and no book is held against it. What it is held against are the women: their waists, high busts and scyes.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.draft.bodies import Bodies
from tapewright.geometry import farthest, length
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

NAME = "a-tabbed-bodice"
INCH = 25.4
EASE = 20.0

pytestmark = pytest.mark.slow

#: Amounts that may slip unseen, each with its reason.
EXCEPTED = {"23: 0 in": "from where a slant is looked for; a smaller least one finds the same"}


@cache
def women() -> dict[str, Array]:
    """The women in stays, with a high waist: 3 cm over the waist, made up."""
    body = dict(people(Sex.WOMEN, stays=True))
    body["high waist"] = body["waist"] + 30.0
    return body


@cache
def stout() -> dict[str, Array]:
    """Forty of the women with a high waist 3 cm over the bust; made up, no survey's."""
    body = {name: values[:40].copy() for name, values in women().items()}
    body["waist"] = body["bust"]
    body["high waist"] = body["bust"] + 30.0
    return body


@cache
def measured() -> Draft:
    """The bodice of women whose high waist was measured."""
    return evaluate(plan(NAME), bodies(women()))


def bodies(body: dict[str, Array]) -> Bodies:
    """As the lesson wants them."""
    return from_arrays({n: body[n] for n in plan(NAME).measures() if n in body}, Figure.WOMAN)


def drafts() -> list[tuple[Draft, Array]]:
    """With a high waist filled, with one measured, and stout, each with what it should be."""
    waist = people(Sex.WOMEN, stays=True)["waist"]
    return [(drawn(NAME, Sex.WOMEN, stays=True), waist + INCH), (measured(), waist + 30.0), *made_stout()]


@cache
def made_stout() -> list[tuple[Draft, Array]]:
    """The bodice of the stout women."""
    return [(evaluate(plan(NAME), bodies(stout())), stout()["high waist"])]


def waist_of(draft: Draft) -> Array:
    """Half the bodice round the waist, by the tape along its edges."""
    return np.asarray(sum(length(curve(draft, f"{side} waist")) for side in ("back", "side", "front")))


def test_every_sentence_draws() -> None:
    """On all 500 women, and where only the block's few measures were taken, nothing is asked."""
    for draft, _ in drafts():
        assert stopped(draft) == {}
    few = ("bust", "high bust", "waist", "nape to waist")
    body = {name: people(Sex.WOMEN, stays=True)[name] for name in few}
    assert stopped(evaluate(plan(NAME), from_arrays(body, Figure.WOMAN))) == {}


def test_what_cannot_be_drawn_is_asked_about() -> None:
    """With a measure made a third or three times what it was, every woman who is not drawn has a question."""
    names = ("waist", "bust", "high bust", "scye depth", "cross back", "shoulder")
    assert (
        asked_where_not_drawn(
            lambda changed: evaluate(plan(NAME), bodies(changed)),
            {n: v for n, v in women().items() if n != "high waist"},
            names,
        )
        > 0
    )


def test_a_sheet_over_other_things_is_told_of() -> None:
    """The block was drafted over a shift; that it runs on a sheet over stays is said on the paper."""
    said = [q.name for q in plan(NAME).queries]
    assert said == ["placed-over"]


def test_seams_agree() -> None:
    """Back seam, side and shoulder agree to 0.01 mm; nothing is eased."""
    for draft, _ in drafts():
        for one, other in (("back seam", "side back seam"), ("hind side", "fore side")):
            assert np.abs(tape(draft, one) - tape(draft, other)).max() < 0.01
        assert np.abs(ruler(draft, "N3", "S3") - ruler(draft, "N3'", "S3'")).max() < 0.01
        assert len(draft.seams()) == 3
        assert all(np.abs(seam.difference).max() < 0.01 for seam in draft.seams())


def test_it_goes_round_her() -> None:
    """The waist along its edges is the high waist and 2 cm, to a millimetre; the ten tabs are as long.

    The bust is the bust and 2 cm, and above it the front is no wider than the high bust asks.
    """
    for draft, waist in drafts():
        body = {n: v[: draft.bodies.count] for n, v in women().items()}
        assert np.abs(2 * waist_of(draft) - waist - EASE).max() < 1
        assert np.abs(10 * ruler(draft, "V6", "V7") - waist - EASE).max() < 1
        bust = draft.point("F").x - draft.point("E").x
        assert np.abs(2 * bust - body["bust"] - EASE).max() < 1
        high = draft.point("Q6").x - draft.point("A").x
        assert np.abs(2 * high - np.minimum(body["high bust"], body["bust"]) - EASE).max() < 1


def test_the_scye_is_as_long_as_the_arm_is_round() -> None:
    """Drafted scye less the same woman's scye girth: within 10 mm in the mean, deviation under 20 mm."""
    draft = drawn(NAME, Sex.WOMEN, stays=True)
    strip = 1.25 * INCH
    over = tape(draft, "hind scye") - strip + tape(draft, "fore scye") - women()["scye girth"]
    assert abs(float(over.mean())) < 10
    assert float(over.std()) < 20


def test_no_outline_crosses_itself() -> None:
    """Nor does any piece."""
    for draft, _ in drafts():
        assert tangled(draft) == []


def test_curves_bend_one_way() -> None:
    """No curve bends back by more than half a degree, but the scye before, on one woman in a hundred."""
    for draft, _ in drafts():
        for name in (
            "wide neck",
            "hind scye",
            "front neckline",
            "back seam",
            "side back seam",
            "back waist",
            "side waist",
            "front waist",
        ):
            left, right = turned(curve(draft, name))
            assert np.minimum(left, right).max() < 0.5, name
        left, right = turned(curve(draft, "fore scye"))
        assert (np.minimum(left, right) > 0.5).mean() <= 0.01
    for draft, _ in drafts()[:2]:
        left, right = turned(curve(draft, "front edge"))
        assert left.max() < 0.5, "round toward the front, from the neck down"
        edge = farthest(curve(draft, "front edge"), np.zeros(draft.bodies.count))
        assert (edge.point.x - draft.point("F").x).max() < 3, "roundest at the bust"


def test_edges_run_on_over_the_seams() -> None:
    """Neck and scye over the shoulder, the scye under the arm, the waist over both seams: to a degree.

    Each edge is held against the seam on its own side, since the pieces lie turned to each other on the paper.
    """
    for draft, _ in drafts():
        for one, other, seam, at, to in (
            ("wide neck", "front neckline", ("N3", "S3"), "N3", "N3'"),
            ("hind scye", "fore scye", ("N3", "S3"), "S3", "S3'"),
            ("back waist", "side waist", ("K6", "X6"), "X6", "X8"),
            ("hind scye", "fore scye", ("Z6", "W9"), "Z6", "Z6"),
            ("side waist", "front waist", ("Z6", "W9"), "W9", "W10"),
        ):
            second = {"N3": ("N3'", "S3'"), "K6": ("K6", "X8"), "Z6": ("Z6", "W10")}[seam[0]]
            off = apart(
                heading(curve(draft, one), draft, at) - ruler_way(draft, *seam),
                heading(curve(draft, other), draft, to) - ruler_way(draft, *second),
            )
            assert off.max() < 1, (one, other, at)


def test_a_centimetre_more_or_less_breaks_a_check() -> None:
    """Of every ten amounts nine are watched both ways; those that are not are named, with reasons.

    Heard on twelve women of the survey, six stout ones, and both again without scye girth and high waist.
    """
    every = {
        n: np.concatenate([women()[n][:12], stout()[n][:6]]) for n in plan(NAME).measures() if n in women()
    }
    tried = from_arrays({n: np.tile(values, 2) for n, values in every.items()}, Figure.WOMAN)
    for name in ("scye girth", "high waist"):
        tried.taken[name][18:] = False
    unseen, count = unwatched(NAME, tried)
    assert unseen == list(EXCEPTED)
    assert len(unseen) <= count / 10

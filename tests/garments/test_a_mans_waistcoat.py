"""A man's waistcoat on 500 men of the trial half of the 1988 survey, and on 100 made stout.

The draft is our own and no book is held against it. What it is held against are the men: their waists, hips,
necks and scyes, which it is measured by here with Pythagoras on the letters.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.draft.bodies import Bodies
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
from tests.survey import Sex

NAME = "a-mans-waistcoat"
INCH = 25.4
EASE = 2 * INCH
LAP = 0.75 * INCH

pytestmark = pytest.mark.slow

#: Amounts that may slip unseen, each with its reason.
EXCEPTED = {
    "14: two thirds of H2-Z": "a bound that keeps the side seam under the scye of a narrow arm",
}


@cache
def stout() -> dict[str, Array]:
    """A hundred of the men, each with a waist 4 cm over his chest and hips as large; made up, no survey's."""
    body = {name: values[:100].copy() for name, values in people(Sex.MEN).items()}
    body["waist"] = body["chest"] + 40.0
    body["hip"] = body["chest"] + 40.0
    return body


def bodies(body: dict[str, Array], *left_out: str) -> Bodies:
    """As the lesson wants them, some measures not taken."""
    names = [n for n in plan(NAME).measures() if n in body and n not in left_out]
    return from_arrays({n: body[n] for n in names}, Figure.MAN)


@cache
def drawn_stout() -> Draft:
    """The waistcoat of the stout men."""
    return evaluate(plan(NAME), bodies(stout()))


def both() -> list[tuple[Draft, dict[str, Array]]]:
    """The survey's men and the stout ones, each with their measures."""
    return [(drawn(NAME, Sex.MEN), people(Sex.MEN)), (drawn_stout(), stout())]


def test_every_sentence_draws() -> None:
    """On all 500 men, on the stout, and where only the block's few measures were taken, nothing is asked."""
    for draft, _ in both():
        assert stopped(draft) == {}
    few = evaluate(
        plan(NAME),
        from_arrays({n: people(Sex.MEN)[n] for n in ("chest", "waist", "nape to waist")}, Figure.MAN),
    )
    assert stopped(few) == {}


def test_what_cannot_be_drawn_is_asked_about() -> None:
    """With a measure made a third or three times what it was, every man who is not drawn has a question."""
    names = ("hip", "waist", "chest", "scye depth", "cross back")
    assert (
        asked_where_not_drawn(lambda changed: evaluate(plan(NAME), bodies(changed)), people(Sex.MEN), names)
        > 0
    )


def test_seams_agree() -> None:
    """Sides and neck band agree to 0.01 mm, the shoulder to the quarter inch that is eased."""
    for draft, _ in both():
        assert np.abs(tape(draft, "hind side") - tape(draft, "fore side")).max() < 0.01
        eased = ruler(draft, "N3", "S3") - ruler(draft, "N3'", "S5'")
        assert np.abs(eased - INCH / 4).max() < 0.01
        assert len(draft.seams()) == 3
        for seam in draft.seams():
            by = 0.0 if seam.by is None else seam.by
            assert np.abs(np.abs(seam.difference) - by).max() < 0.01, seam.sentence


def test_it_goes_round_him() -> None:
    """Chest and waist, middle to middle, are the measure and two inches; so are the hips, were it not cut away."""
    for draft, body in both():
        waist = ruler(draft, "B3", "W4") + ruler(draft, "W5", "D4")
        assert np.abs(2 * waist - body["waist"] - EASE).max() < 1
        chest = draft.point("F").x - draft.point("E").x
        assert np.abs(2 * chest - body["chest"] - EASE).max() < 1
        seat = ruler(draft, "B4", "V4") + ruler(draft, "V5", "D5")
        wide = np.maximum(body["hip"], body["waist"] + 2 * INCH)
        assert np.abs(2 * seat - wide - EASE).max() < 1


def test_the_scye_lets_a_shirt_through() -> None:
    """It is larger than the same man's scye girth on 19 of 20, by 50 mm in the mean, and by 150 on nobody."""
    draft, body = drawn(NAME, Sex.MEN), people(Sex.MEN)
    over = tape(draft, "hind scye") - INCH + tape(draft, "fore scye") - body["scye girth"]
    assert abs(float(over.mean()) - 50) < 10
    assert (over > 15).mean() > 0.95
    assert over.max() < 150


def test_the_band_fits_the_neck() -> None:
    """Without its laps the band is the same man's neck base and an inch at most, and never shorter than it."""
    draft, body = drawn(NAME, Sex.MEN), people(Sex.MEN)
    over = 2 * (ruler(draft, "L8", "L9") - LAP) - body["neck base"]
    assert over.min() > 0
    assert over.max() < INCH


def test_no_outline_crosses_itself() -> None:
    """Nor does any of the layers."""
    for draft, _ in both():
        assert tangled(draft) == []


def test_curves_bend_one_way() -> None:
    """Front edge, scyes and neck never bend back by more than half a degree; the centre seam and the sides do.

    The edge is round toward the front. The facing and the canvas follow it. The sides leave the scye plumb and
    swing in to the hollow.
    """
    for draft, _ in both():
        for name in ("hind scye", "fore scye", "low neck"):
            left, right = turned(curve(draft, name))
            assert np.minimum(left, right).max() < 0.5, name
        for name in ("hind side", "fore side"):
            off = apart(heading(curve(draft, name), draft, "K2"), np.full(draft.bodies.count, np.pi / 2))
            assert off.max() < 0.1, name
        for name in ("front edge", "facing edge", "canvas edge"):
            left, right = turned(curve(draft, name))
            assert left.max() < 0.5, name
            assert right.min() > 5, name
    left, right = turned(curve(drawn(NAME, Sex.MEN), "centre seam"))
    assert np.minimum(left, right).min() > 1


def test_neck_and_scye_run_on_over_the_shoulder() -> None:
    """Where the shoulder is sewn the neck runs on to a degree, and the scye to five.

    The strip was turned with the shoulder, so each edge is held against the shoulder seam on its own side.
    """
    for draft, _ in both():
        p, q = draft.point("N3"), draft.point("S3")
        behind = np.arctan2(q.y - p.y, q.x - p.x)
        p, q = draft.point("N3'"), draft.point("S5'")
        before = np.arctan2(q.y - p.y, q.x - p.x)
        neck = apart(
            heading(curve(draft, "back neck"), draft, "N3") - behind,
            heading(curve(draft, "low neck"), draft, "N3'") - before,
        )
        assert neck.max() < 1
        scye = apart(
            heading(curve(draft, "hind scye"), draft, "S3") - behind,
            heading(curve(draft, "fore scye"), draft, "S5'") - before,
        )
        assert scye.max() < 5


def test_the_layers_differ() -> None:
    """Lining and canvas are each less than the cloth, and lining and facing together are all of it."""
    draft = drawn(NAME, Sex.MEN)
    area = areas(draft)
    assert (area["front lining"] < 0.95 * area["waistcoat front"]).all()
    assert (area["front canvas"] < 0.8 * area["waistcoat front"]).all()
    whole = area["front lining"] + area["front facing"]
    assert np.abs(whole / area["waistcoat front"] - 1).max() < 0.002


def test_a_centimetre_more_or_less_breaks_a_check() -> None:
    """Of every ten amounts nine are watched both ways; those that are not are named, with reasons.

    Heard on twelve men of the survey, six stout ones, and both again without hip, neck base and scye girth.
    """
    every = {
        n: np.concatenate([people(Sex.MEN)[n][:12], stout()[n][:6]])
        for n in plan(NAME).measures()
        if n in stout()
    }
    twice = {n: np.tile(values, 2) for n, values in every.items()}
    tried = from_arrays(twice, Figure.MAN)
    for name in ("hip", "neck base", "scye girth"):
        tried.taken[name][18:] = False
    unseen, count = unwatched(NAME, tried)
    assert unseen == list(EXCEPTED)
    assert len(unseen) <= count / 10

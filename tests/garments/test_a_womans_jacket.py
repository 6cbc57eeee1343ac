"""A woman's short jacket on 500 women of the trial half of the 1988 survey, put into stays by our factors.

No survey measured anybody over stays; what those factors are stands in `tests.garments.people`. The draft is our
own and no book is held against it. What it is held against are the women: busts, waists, hips and scyes.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from shapely import LineString

from tapewright.app.library import lessons
from tapewright.diagnostics import Source
from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.draft.bodies import Bodies
from tapewright.geometry import farthest, length
from tapewright.measures import Figure, read_sheet
from tests.blocks.drafts import ruler, tape
from tests.blocks.outlines import closed_up, drawn_on, flattened, pieces
from tests.garments.people import Array, drawn, people, plan, stopped
from tests.garments.tailoring import (
    apart,
    asked_where_not_drawn,
    curve,
    heading,
    ring,
    ruler_way,
    tangled,
    turned,
    unwatched,
)
from tests.survey import Sex

NAME = "a-womans-jacket"
INCH = 25.4
EASE = 20.0
FULNESS = 4 * INCH

pytestmark = pytest.mark.slow

#: Amounts that may slip unseen, each with its reason.
EXCEPTED = {
    "14: 0 in": "from where the shift is looked for; a smaller least one finds the same",
    "25: 0 in": "from where a spring is looked for; a smaller least one finds the same",
}


@cache
def stout() -> dict[str, Array]:
    """Forty of the women, as large at the waist as at the bust; made up, no survey's."""
    body = {name: values[:40].copy() for name, values in people(Sex.WOMEN, stays=True).items()}
    body["waist"] = body["bust"] + 20.0
    return body


@cache
def drafts() -> tuple[tuple[Draft, dict[str, Array]], ...]:
    """The jacket of the 500 and of the stout, each with the measures it was drawn from."""
    body = people(Sex.WOMEN, stays=True)
    return (drawn(NAME, Sex.WOMEN, stays=True), body), (evaluate(plan(NAME), bodies(stout())), stout())


def bodies(body: dict[str, Array]) -> Bodies:
    """As the lesson wants them."""
    return from_arrays({n: body[n] for n in plan(NAME).measures() if n in body}, Figure.WOMAN)


def test_every_sentence_draws() -> None:
    """On all 500 women, on stout ones, and where only the block's few measures were taken, nothing is asked."""
    for draft, _ in drafts():
        assert stopped(draft) == {}
    few = ("bust", "high bust", "waist", "nape to waist")
    body = {name: people(Sex.WOMEN, stays=True)[name] for name in few}
    assert stopped(evaluate(plan(NAME), from_arrays(body, Figure.WOMAN))) == {}


def test_what_cannot_be_drawn_is_asked_about() -> None:
    """With a measure made a third or three times what it was, every woman who is not drawn has a question."""
    names = ("waist", "bust", "high bust", "hip", "scye depth", "cross back", "shoulder")
    assert (
        asked_where_not_drawn(
            lambda changed: evaluate(plan(NAME), bodies(changed)), people(Sex.WOMEN, stays=True), names
        )
        > 0
    )


def test_seams_agree() -> None:
    """The curved seam, the side and the shoulder agree to 0.01 mm, above the waist and below it; nothing is eased."""
    for draft, _ in drafts():
        for one, other in (
            ("back seam", "side back seam"),
            ("back skirt", "side back skirt"),
            ("hind side", "fore side"),
            ("hind skirt", "fore skirt"),
        ):
            assert np.abs(tape(draft, one) - tape(draft, other)).max() < 0.01, one
        assert np.abs(ruler(draft, "N3", "S3") - ruler(draft, "N3'", "S3'")).max() < 0.01
        assert len(draft.seams()) == 3
        assert all(np.abs(seam.difference).max() < 0.01 for seam in draft.seams())


def test_it_goes_round_her() -> None:
    """Bust and waist with 2 cm of ease, the hem the hips with 4 in of fulness: to a millimetre, by rulers and tapes."""
    for draft, body in drafts():
        bust = ruler(draft, "G6", "G7") + ruler(draft, "G8", "G9") + ruler(draft, "G10", "F9")
        assert np.abs(2 * bust - body["bust"] - EASE).max() < 1
        waist = ruler(draft, "B3", "X6") + ruler(draft, "X8", "W9") + ruler(draft, "W10", "D6")
        assert np.abs(2 * waist - body["waist"] - EASE).max() < 1
        hem = sum(length(curve(draft, f"{side} hem")) for side in ("back", "side", "front"))
        assert np.abs(2 * np.asarray(hem) - body["hip"] - FULNESS).max() < 1


def test_the_bust_is_held_where_it_is_measured() -> None:
    """Across the finished pieces, level at the bust line, by shapely: her bust and 2 cm, to a millimetre."""
    for draft, body in drafts():
        level = draft.point("F8").y
        across = np.zeros(draft.bodies.count)
        for outline in pieces(draft).values():
            for rows, edges in closed_up(outline):
                flat = flattened(drawn_on(edges, rows))
                for k, row in enumerate(rows):
                    line = LineString([(-1000.0, level[row]), (2000.0, level[row])])
                    across[row] += ring(flat[:, :, k]).intersection(line).length
        assert np.abs(2 * across - body["bust"] - EASE).max() < 1


@pytest.mark.parametrize(
    "settled",
    [
        "the bust fall be 1/2 in",
        "the bust fall be 2 1/2 in",
        "the narrow back be 1 1/4 in",
        "the narrow back be 2 1/2 in",
        "the seam fall be 0 in",
        "the seam fall be 2 in",
        "the front dip be 2 in",
        "the skirt fulness be 12 in",
        "the neckline height be 2 in",
    ],
)
def test_what_is_settled_by_eye_may_go_to_its_ends(settled: str) -> None:
    """At either end of its range nothing is asked, and no outline crosses itself, on ninety-nine women in a hundred."""
    draft = drawn(NAME, Sex.WOMEN, stays=True, count=200, amendments=f"1. Let {settled}.\n")
    assert draft.drawn().mean() >= 0.99
    assert len({row for _, row in tangled(draft)}) <= 2


def test_the_scye_is_as_long_as_the_arm_is_round() -> None:
    """Drafted scye less the same woman's scye girth: within 10 mm in the mean, deviation under 20 mm."""
    draft = drawn(NAME, Sex.WOMEN, stays=True)
    strip = 1.25 * INCH
    over = (
        tape(draft, "hind scye")
        - strip
        + tape(draft, "fore scye")
        - people(Sex.WOMEN, stays=True)["scye girth"]
    )
    assert abs(float(over.mean())) < 10
    assert float(over.std()) < 20


def test_no_outline_crosses_itself() -> None:
    """Nor does any piece."""
    for draft, _ in drafts():
        assert tangled(draft) == []


def test_curves_bend_as_the_cutter_means() -> None:
    """One way each, to half a degree: neck, scyes, the curved seam, hems. The spine bends twice, hollow below."""
    for draft, _ in drafts():
        for name in (
            "wide neck",
            "hind scye",
            "front neckline",
            "back seam",
            "back hem",
            "side hem",
            "front hem",
        ):
            left, right = turned(curve(draft, name))
            assert np.minimum(left, right).max() < 0.5, name
        left, right = turned(curve(draft, "fore scye"))
        assert (np.minimum(left, right) > 0.5).mean() <= 0.01
    draft, _ = drafts()[0]
    left, right = turned(curve(draft, "front edge"))
    assert left.max() < 0.5, "round toward the front, from the neck down"
    edge = farthest(curve(draft, "front edge"), np.zeros(draft.bodies.count))
    past = edge.point.x - draft.point("F9").x
    # A woman large at the waist is round a little below it.
    assert np.mean(past < 5) >= 0.95, "roundest at the bust"
    assert past.max() < 10
    for name in ("hind side", "fore side"):
        left, right = turned(curve(draft, name))
        assert min(left.min(), right.min()) > 1, "round under the arm, hollow at the waist"
        assert np.abs(left - right).max() < 0.5, "as much the one way as the other"


def test_edges_run_on_over_the_seams() -> None:
    """Neck and scye over the shoulder, the scye under the arm, the hem over both seams: to a degree."""
    for draft, _ in drafts():
        for one, other in (("wide neck", "front neckline"), ("hind scye", "fore scye")):
            a, b = ("N3", "N3'") if one == "wide neck" else ("S3", "S3'")
            off = apart(
                heading(curve(draft, one), draft, a) - ruler_way(draft, "N3", "S3"),
                heading(curve(draft, other), draft, b) - ruler_way(draft, "N3'", "S3'"),
            )
            assert off.max() < 1, one
        for one, seam, at, other, second, to in (
            ("hind scye", "hind side", "Z6", "fore scye", "fore side", "Z6"),
            ("back hem", "back skirt", "V7", "side hem", "side back skirt", "V8"),
            ("side hem", "hind skirt", "V9", "front hem", "fore skirt", "V10"),
        ):
            off = apart(
                heading(curve(draft, one), draft, at) - heading(curve(draft, seam), draft, at),
                heading(curve(draft, other), draft, to) - heading(curve(draft, second), draft, to),
            )
            assert off.max() < 1, (one, other)


def test_seams_leave_the_waist_plumb() -> None:
    """Above and below the waist the curved seam and the side are one line: no corner where the skirt springs."""
    for draft, _ in drafts():
        for above, below, at in (
            ("back seam", "back skirt", "X6"),
            ("side back seam", "side back skirt", "X8"),
            ("hind side", "hind skirt", "W9"),
            ("fore side", "fore skirt", "W10"),
        ):
            off = apart(heading(curve(draft, above), draft, at), heading(curve(draft, below), draft, at))
            assert off.max() < 0.1, above


def test_the_demonstration_wearer() -> None:
    """Margery Thorne over her stays: the sheet says over what, and the jacket is drawn with nothing asked of it."""
    path = lessons()[NAME].parent / "figures" / "margery-thorne-over-stays.yaml"
    sheet, asked = read_sheet(Source(path.name, path.read_text(encoding="utf-8")))
    assert not asked
    assert sheet is not None
    assert sheet.over is not None
    assert {"stays", "shift"} <= {layer.name.removeprefix("a ") for layer in sheet.over}


def test_a_centimetre_more_or_less_breaks_a_check() -> None:
    """Of every ten amounts nine are watched both ways; those that are not are named, with reasons.

    Heard on twelve women of the survey, six stout ones, and both again without scye girth and hip.
    """
    found = people(Sex.WOMEN, stays=True)
    every = {n: np.concatenate([found[n][:12], stout()[n][:6]]) for n in plan(NAME).measures() if n in found}
    tried = from_arrays({n: np.tile(values, 2) for n, values in every.items()}, Figure.WOMAN)
    for name in ("scye girth", "hip"):
        tried.taken[name][18:] = False
    unseen, count = unwatched(NAME, tried)
    assert unseen == list(EXCEPTED)
    assert len(unseen) <= count / 10

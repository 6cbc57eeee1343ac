"""A full sleeve of the 1630s on 500 women of the trial half of the 1988 survey, put into stays by our factors.

No survey measured anybody over stays; what those factors are stands in `tests.garments.people`. The draft is our
own and no book is held against it. What it is held against is the scye of the bodice, and the women's arms.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.draft.bodies import Bodies
from tapewright.geometry import Stretch, length, nearest
from tapewright.measures import Figure
from tests.blocks.drafts import ruler, tape
from tests.garments.people import Array, drawn, people, plan, stopped
from tests.garments.tailoring import apart, asked_where_not_drawn, curve, heading, tangled, turned, unwatched
from tests.survey import Sex

NAME = "a-full-sleeve"
INCH = 25.4
#: Parts of the arm tape: gathered before and behind the shoulder seam, and into the band.
FORE, HIND, WRIST = 4, 16, 22
#: Parts of the arm tape that lie plain from the side seam up, before and behind.
BEFORE, BEHIND = 6, 3
FEW = ("bust", "high bust", "waist", "nape to waist")

pytestmark = pytest.mark.slow


@cache
def made() -> Draft:
    """The sleeve on all of the women."""
    return drawn(NAME, Sex.WOMEN, stays=True)


def body() -> dict[str, Array]:
    """Their measures."""
    return people(Sex.WOMEN, stays=True)


def part() -> Array:
    """A twenty-fourth of each woman's upper arm, mm."""
    return body()["upper arm"] / 24


def bodies(measured: dict[str, Array]) -> Bodies:
    """As the lesson wants them."""
    names = [n for n in plan(NAME).measures() if n in measured]
    return from_arrays({n: measured[n] for n in names}, Figure.WOMAN)


def between(name: str, one: str, other: str) -> Array:
    """How long a line is by the tape between two letters on it, mm."""
    draft = made()
    line = curve(draft, name)
    assert not isinstance(line, Stretch)
    a, b = nearest(line, draft.point(one)).t, nearest(line, draft.point(other)).t
    return np.asarray(length(Stretch(line, np.minimum(a, b), np.maximum(a, b))))


def test_every_sentence_draws() -> None:
    """On all 500 women, and where only the block's few measures were taken, nothing is asked."""
    assert stopped(made()) == {}
    assert stopped(evaluate(plan(NAME), bodies({n: body()[n] for n in FEW}))) == {}


def test_what_cannot_be_drawn_is_asked_about() -> None:
    """With a measure made a third or three times what it was, every woman who is not drawn has a question."""
    names = ("upper arm", "wrist", "arm", "bust", "scye depth", "nape to waist")
    assert asked_where_not_drawn(lambda changed: evaluate(plan(NAME), bodies(changed)), body(), names) > 0


def test_the_head_is_the_scye_and_its_gathers() -> None:
    """The whole head, and each of its four runs between the notches, to 0.01 mm of scye and stated gathers."""
    scye = between("hind scye", "S3", "Z6") + tape(made(), "fore scye")
    assert np.abs(tape(made(), "head") - scye - (FORE + HIND) * part()).max() < 0.01
    assert np.abs(between("head", "A5", "G10") - BEHIND * part()).max() < 0.01
    assert np.abs(between("hind scye", "Z6", "X11") - BEHIND * part()).max() < 0.01
    assert np.abs(between("head", "G11", "L5") - BEFORE * part()).max() < 0.01
    assert np.abs(between("fore scye", "X10", "Z6") - BEFORE * part()).max() < 0.01
    behind = between("head", "G10", "G12") - between("hind scye", "X11", "S3")
    assert np.abs(behind - HIND * part()).max() < 0.01
    before = between("head", "G12", "G11") - between("fore scye", "S3'", "X10")
    assert np.abs(before - FORE * part()).max() < 0.01


def test_the_foot_is_the_band_and_its_gathers() -> None:
    """The band is the same woman's wrist and three quarters of an inch; the foot is that and the gathers."""
    band = ruler(made(), "H10", "H11")
    assert np.abs(band - body()["wrist"] - 0.75 * INCH).max() < 0.01
    assert np.abs(tape(made(), "foot") - band - WRIST * part()).max() < 0.01


def test_there_is_room_for_the_arm() -> None:
    """At the arm line the sleeve is half as wide again as her arm at the least, at the foot as wide as her arm."""
    assert (ruler(made(), "A5", "L5") > 1.5 * body()["upper arm"]).all()
    assert (ruler(made(), "G5", "G6") > body()["upper arm"]).all()


def test_it_is_as_long_as_the_arm() -> None:
    """Head to foot and the band are the same woman's arm and the inch and a half that blouses."""
    long = made().point("J7").y - made().point("J6").y + ruler(made(), "H10", "H12")
    assert np.abs(long - body()["arm"] - 1.5 * INCH).max() < 0.01


def test_seams_agree() -> None:
    """The seam agrees to 0.01 mm; plain runs of the scye too; the others to the stated gathers."""
    assert np.abs(tape(made(), "hind edge") - tape(made(), "fore edge")).max() < 0.01
    found = [seam for seam in made().seams() if {e.at.name for e in seam.first} & {"fore edge", "H10-H11"}]
    assert len(found) == 2
    for seam in made().seams():
        by = 0.0 if seam.by is None else seam.by
        assert np.abs(np.abs(seam.difference) - by).max() < 0.01, seam.sentence


def test_the_head_runs_on_under_the_arm() -> None:
    """Sewn to the other edge, the head goes over the seam without a corner, to half a degree."""
    head = curve(made(), "head")
    for edge, at in (("hind edge", "A5"), ("fore edge", "L5")):
        off = apart(heading(head, made(), at) - heading(curve(made(), edge), made(), at), np.array(np.pi / 2))
        assert off.max() < 0.5, edge


def test_curves_are_ones_a_cutter_would_cut() -> None:
    """The edges draw in with one bend. Head and foot are level at both ends: hollow, round, hollow, and the
    other way about; each turns as far one way as the other.
    """
    for name in ("hind edge", "fore edge"):
        left, right = turned(curve(made(), name))
        assert np.minimum(left, right).max() < 0.5, name
    for name in ("head", "foot"):
        left, right = turned(curve(made(), name))
        assert np.abs(left - right).max() < 1, name
        assert np.maximum(left, right).max() < 110, "no steeper than fifty degrees or so on either slope"


def test_the_shoulder_seam_is_at_the_top() -> None:
    """Where the shoulder seam meets the head, it is within a tenth of its height of the highest place."""
    draft = made()
    down = draft.point("G12").y - draft.point("J6").y
    assert (down < 0.1 * (draft.point("M10").y - draft.point("J6").y)).mean() > 0.98


def test_no_outline_crosses_itself() -> None:
    """Neither the sleeve nor the band."""
    assert tangled(made()) == []


def test_a_centimetre_more_or_less_breaks_a_check() -> None:
    """Every amount said outright is watched both ways.

    Heard on twelve women, and on the same again from the few measures only.
    """
    tried = bodies({n: np.tile(values[:12], 2) for n, values in body().items()})
    for name, taken in tried.taken.items():
        if name not in FEW:
            taken[12:] = False
    unseen, _ = unwatched(NAME, tried)
    assert unseen == []

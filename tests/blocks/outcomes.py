"""What the blocks come to on real bodies: things their lessons take no measure of, against the same person.

A length that a lesson copies from the sheet is no outcome and is not here. The neck's seam is one: its sum was
never an input, only the tape it is a fraction of.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np

from tapewright.draft import Draft
from tests.blocks.drafts import WOMAN, Array, Block, ruler, tape
from tests.survey import Half, columns

Outcome = Callable[[Draft, Mapping[str, Array]], Array]


def scye(draft: Draft, body: Mapping[str, Array]) -> Array:
    """The drafted scye, back and front, less the girth of the scye, mm."""
    return tape(draft, "back scye") + tape(draft, "front scye") - body["scye girth"]


def neck(draft: Draft, body: Mapping[str, Array]) -> Array:
    """The neck's seam all round, less the girth at the neck's root, mm."""
    return 2.0 * (tape(draft, "back neck") + tape(draft, "front neck")) - body["neck base"]


def back_neck(draft: Draft, body: Mapping[str, Array]) -> Array:
    """The back neck less what the strap says of it, mm: nape to bust point less neck to bust point."""
    return tape(draft, "back neck") - (body["nape to bust point"] - body["neck to bust point"])


def shoulder(draft: Draft, body: Mapping[str, Array]) -> Array:
    """The back shoulder less the measured one, mm; an outcome of the man's block only."""
    return ruler(draft, "N", "S") - body["shoulder"]


def scye_width(front: str) -> Outcome:
    """The width of the scye, from H to its front corner, less a third of the upper arm, mm.

    Geometry: a round arm is a third as thick as it is round.
    """
    return lambda draft, body: ruler(draft, "H", front) - body["upper arm"] / 3.0


def outcomes(block: Block) -> Mapping[str, Outcome]:
    """The outcomes of a block, by the words of the page."""
    found: dict[str, Outcome] = {
        "scye less scye girth": scye,
        "neck seam less neck base": neck,
        "back neck less the strap's": back_neck,
        "width of scye less 1/3 upper arm": scye_width("R" if block is WOMAN else "R1"),
    }
    if block is not WOMAN:
        found["back shoulder less shoulder"] = shoulder
    return found


def bust_point_height(draft: Draft, half: Half) -> Array:
    """The bust point above the waist on the woman's paper, less the same by two heights of the body, mm."""
    table = columns(WOMAN.sex)
    first = 0 if half is Half.FITTING else 1
    body = (table["chest_ht"] - table["waist_ht_natural"])[first::2]
    return draft.point("D").y - draft.point("P").y - body


def spread(values: Array) -> tuple[float, float]:
    """The mean and the standard deviation."""
    return float(np.mean(values)), float(np.std(values))

"""An outline made in either branch of a conditional is put together edge by edge, whatever its edges are."""

from __future__ import annotations

import numpy as np

from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.draft.rows import OutlineRun
from tapewright.geometry import length
from tapewright.measures import Figure
from tests.lessons import plan

ITEMS = (
    "Begin at A, with the centre back on the left and the centre front on the right.",
    "From A down to B: the nape to waist. From A across to C: half the bust.",
    "Square across from B and down from C to D. From A across to G: 1/8 of the bust tape.",
    # A curve of two segments on some bodies, of one on the others.
    (
        "If the bust is at least 100 cm, draw a curve from A through G to D; call it the rim; "
        "let the back be the outline A to D by the rim, to C, to A; "
        "otherwise, draw a curve from A to D, leaving A toward C; call it the rim; "
        "let the back be the outline A to D by the rim, to C, to A."
    ),
    "Cut the back once of cloth, leaving 1 cm everywhere.",
)


def _drawn(bust: list[float]) -> Draft:
    values = {
        "bust": np.array(bust),
        "waist": np.full(len(bust), 700.0),
        "nape to waist": np.full(len(bust), 400.0),
    }
    return evaluate(plan(*ITEMS), from_arrays(values, Figure.WOMAN))


def _edges(draft: Draft) -> list[np.ndarray[tuple[int], np.dtype[np.float64]]]:
    (piece,) = draft.pieces()
    assert isinstance(piece.outline, OutlineRun)
    return [length(edge.drawn) for edge in piece.outline.edges]


def test_each_body_has_the_outline_it_has_alone() -> None:
    """On bodies that go either way every edge is as long as on the same body by itself, bit for bit."""
    busts = [900.0, 1100.0, 980.0, 1000.0]
    crowd = _drawn(busts)
    assert crowd.drawn().all()
    for row, bust in enumerate(busts):
        for one, many in zip(_edges(_drawn([bust])), _edges(crowd), strict=True):
            assert one[0] == many[row]

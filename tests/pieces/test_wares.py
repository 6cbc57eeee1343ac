"""Small wares, worked by hand: a panel of 30 by 40 cm on the half."""

from __future__ import annotations

import pytest

from tapewright.pieces.wares import wares_of
from tests.lessons import draw

BEGIN = "Begin at A, with the centre back on the left and the centre front on the right."
PANEL = "From A down to B: 40 cm. From A across to C: 30 cm. Square across from B and down from C to D. Join C to D; call it the side."


def test_all_along() -> None:
    """Braid on the side and the hem of both halves: twice 40 and 30 cm."""
    (ware,) = wares_of(draw(BEGIN, PANEL, "Trim the side and B-D with braid."))
    assert ware.ware == "braid"
    assert ware.total == pytest.approx(1400)
    assert ware.count == 0


def test_so_many() -> None:
    """Nine buttons evenly from one end to the other of 40 cm stand 5 cm apart, one at each end; both sides have them."""
    (ware,) = wares_of(draw(BEGIN, PANEL, "Trim the side with 9 buttons."))
    assert ware.places == pytest.approx([50.0 * k for k in range(9)])
    assert ware.count == 18


def test_on_one_side() -> None:
    """Buttons stand on one front alone: nine are nine."""
    (ware,) = wares_of(draw(BEGIN, PANEL, "Trim the side with 9 buttons, on one side."))
    assert ware.count == 9


def test_so_far_apart() -> None:
    """Eyelets every 15 cm of 40 cm: at 0, 15 and 30."""
    (ware,) = wares_of(draw(BEGIN, PANEL, "Trim the side with eyelets 15 cm apart."), times=1)
    assert ware.places == pytest.approx([0, 150, 300])
    assert ware.count == 3

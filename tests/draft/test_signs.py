"""The signs that a plate bears: where they stand and which way they turn, by elementary geometry.

What the signs look like is common practice of the drawing office, no source.
"""

from __future__ import annotations

from math import atan2, pi

import numpy as np
import pytest

from tapewright.draft import Sign, SignKind, signs_of
from tapewright.draft.kinds import DRAWS
from tapewright.draft.signs import SIGNS
from tapewright.pages.plate_signs import sign_marks, sign_pieces
from tests.draft.test_sentences import BEGIN, SQUARE
from tests.lessons import draw

#: The sentences after which something stands to be marked: a rectangle of 30 by 40 cm.
THERE = f"{BEGIN} {SQUARE}"


def signs(sentences: str) -> list[Sign]:
    """The signs of a rectangle of 30 by 40 cm and a few sentences more."""
    return list(signs_of(draw(f"{THERE} {sentences}")))


def turned(a: float, b: float) -> float:
    """The angle between two directions, from 0 to pi."""
    return float(abs((a - b + pi) % (2 * pi) - pi))


def test_a_right_angle_stands_at_the_foot() -> None:
    """Square from C to A-D: at the foot, (108, 144) in mm by similar triangles, arms at right angles."""
    (sign,) = signs("Square from C to E on A-D.")
    assert sign.kind is SignKind.SQUARE
    assert (sign.x, sign.y) == pytest.approx((108, 144))
    assert turned(sign.along, sign.other) == pytest.approx(pi / 2)
    assert sign.other == pytest.approx(atan2(-144, 300 - 108))


def test_what_is_square_to_the_paper_bears_no_sign() -> None:
    """The frame itself, and squares up and across, go with the edges of the paper."""
    assert signs("Square up from B to E: 1 cm.") == []


def test_what_is_square_to_a_line_bears_its_sign_where_it_begins() -> None:
    """From A square to A-D: at A, between A-D and the new line."""
    (sign,) = signs(
        "From A square to A-D toward C to E: 5 cm. Square square to A-D toward C from D to F: 5 cm."
    )[-1:]
    assert (sign.x, sign.y) == pytest.approx((300, 400))
    assert turned(sign.along, sign.other) == pytest.approx(pi / 2)


def test_divisions_stand_across_the_line_at_each_letter() -> None:
    """A-C in three: at 10 and 20 cm, along A-C."""
    found = signs("Divide A-C into 3 at E and F.")
    assert [s.kind for s in found] == [SignKind.DIVISION] * 2
    assert [(s.x, s.y) for s in found] == [pytest.approx((100, 0)), pytest.approx((200, 0))]
    assert [s.along for s in found] == pytest.approx([0, 0])


def test_the_pin_is_what_is_turned_about() -> None:
    """Pivot about A: one ring, at A."""
    (sign,) = signs("Pivot C and D about A by 90 degrees toward B.")
    assert (sign.kind, sign.x, sign.y) == (SignKind.PIN, 0, 0)


OUTLINE = "Let the flap be the outline A to C, to D, to B, to A."


def test_notches_run_with_their_edge() -> None:
    """Two notches on C-D at 10 cm from C: at (300, 100), along a line that runs up or down."""
    (sign,) = signs(f"{OUTLINE} Mark C-D at 10 cm from C with two notches.")
    assert (sign.kind, sign.count) == (SignKind.NOTCH, 2)
    assert (sign.x, sign.y) == pytest.approx((300, 100))
    assert np.sin(sign.along) ** 2 == pytest.approx(1)


def test_the_fold_lies_on_its_edge_and_points_inward() -> None:
    """The rectangle with C-D on the fold: 40 cm of it from C, the piece to the left."""
    (sign,) = signs(
        f"{OUTLINE} Cut the flap once of cloth, with C-D on the fold, leaving nothing everywhere."
    )
    assert (sign.kind, sign.x, sign.y, sign.far) == (SignKind.FOLD, 300, 0, 400)
    assert np.cos(sign.other) == pytest.approx(-1)


def test_two_edges_may_lie_on_the_fold() -> None:
    """Cloth folded both ways: the rectangle with A-B and A-C on the fold, each sign pointing into it."""
    found = signs(
        f"{OUTLINE} Cut the flap once of cloth, with A-B and A-C on the fold, leaving nothing everywhere."
    )
    assert [(s.kind, s.far) for s in found] == [(SignKind.FOLD, 400), (SignKind.FOLD, 300)]
    assert np.cos(found[0].other) == pytest.approx(1)
    assert np.sin(found[1].other) == pytest.approx(1)


def test_a_sign_has_one_size_on_paper() -> None:
    """At full and at quarter scale a sign of one letter size is as large, and stands at the scaled place."""
    found = signs("Divide A-C in half at E. Pivot C about A by 9 degrees toward B.")
    full, quarter = sign_pieces(found, 1.0, 4.0), sign_pieces(found, 0.25, 4.0)
    for whole, small in zip(full, quarter, strict=True):
        assert whole[2:] - whole[:2] == pytest.approx(small[2:] - small[:2])
    assert len(sign_marks(found, 1.0, 4.0)) == 2


def test_every_kind_with_a_sign_is_a_kind_that_is_drawn() -> None:
    """The signs are entered under kinds of sentence that have a meaning."""
    assert set(SIGNS) <= set(DRAWS)

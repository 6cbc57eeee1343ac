"""A wearer whose two sides differ: the jacket is drafted left and right for her, each half from its own measures.

Ruth Calloway is invented (see her sheet). What is held to: the tape. Both halves together are the girth and its ease,
each shoulder is its own, and the edges that meet in the middle are one.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from typer.testing import CliRunner

from tapewright.app import drafting, library
from tapewright.app.drafting import Result
from tapewright.app.piecing import HowCut, cut_out
from tapewright.cli.main import app
from tapewright.cli.saying import print_options
from tapewright.diagnostics import Kind
from tapewright.geometry import length
from tapewright.pages.piece_from import side_drawn
from tests.blocks.drafts import ruler
from tests.garments.tailoring import curve

EASE = 20.0
FULNESS = 4 * 25.4


@cache
def ruth() -> Result:
    """The jacket drafted for her, left and right."""
    made = drafting.read(library.lesson_path("a-womans-jacket"), two_sides=True)
    return drafting.draft_for(made, library.wearer_path("ruth-calloway"))


def test_both_sides_are_drawn_and_nothing_is_asked() -> None:
    """Two drafts, every check of both holds, the centre lines agree, and the sheet's two-sided measures are told of."""
    result = ruth()
    assert [side for side, _ in result.sides()] == ["left", "right"]
    assert not [q.message for q in result.queries if q.kind is Kind.QUESTION]
    assert result.two is not None
    centre = [c for c in result.two.checks if "centre line" in c.claim]
    assert centre
    assert all(c.holds[0] for c in result.two.checks)
    assert all(c.holds[0] for _, draft in result.sides() for c in draft.checks())


def test_the_halves_together_go_round_her() -> None:
    """Bust, waist and hem of the left and of the right half make the whole girth and its ease, to a millimetre."""
    result = ruth()
    assert result.sheet is not None
    whole = {"bust": 0.0, "waist": 0.0, "hip": 0.0}
    for _, draft in result.sides():
        rulers = {"bust": ("G6-G7", "G8-G9", "G10-F9"), "waist": ("B3-X6", "X8-W9", "W10-D6")}
        for name, spans in rulers.items():
            whole[name] += sum(float(ruler(draft, *span.split("-"))[0]) for span in spans)
        whole["hip"] += sum(float(length(curve(draft, f"{s} hem"))[0]) for s in ("back", "side", "front"))
    for name, ease in (("bust", EASE), ("waist", EASE), ("hip", FULNESS)):
        taken = result.sheet.number(name)
        assert taken is not None
        assert whole[name] == pytest.approx(taken + ease, abs=1.0), name


def test_each_shoulder_is_its_own() -> None:
    """The right shoulder is 7 mm shorter, as it was measured; the backs meet in the middle along one line."""
    (_, left), (_, right) = ruth().sides()
    assert ruler(left, "N", "S")[0] == pytest.approx(137.0, abs=0.01)
    assert ruler(right, "N", "S")[0] == pytest.approx(130.0, abs=0.01)
    for name in ("back edge", "centre skirt"):
        assert float(length(curve(left, name))[0]) == pytest.approx(
            float(length(curve(right, name))[0]), abs=0.01
        )


def test_each_piece_is_cut_once_for_its_side() -> None:
    """Left and right pieces by name, one of each; the left ones lie turned over, as on the right side of the cloth."""
    cut = cut_out(ruth(), HowCut(print_options("one-page", "1/4")))
    assert [name for name, _, _ in cut.table()][::3] == ["Left jacket back", "Right jacket back"]
    assert all(words.replace("\xa0", " ").startswith("Cut 1 of cloth") for _, words, _ in cut.table())
    assert side_drawn(cut.patterns[0][1]) == "right"
    left, right = cut.sheet.pieces[0], cut.sheet.pieces[3]

    def grain_from_middle(piece: object) -> float:
        return float(np.sign(piece.lying[0][0] - piece.cut[:, :, 0].mean()))  # type: ignore[attr-defined]

    assert grain_from_middle(left) == -grain_from_middle(right)


def test_a_lesson_drawn_whole_has_no_left_and_right(tmp_path) -> None:  # type: ignore[no-untyped-def]
    """Asked for on a lesson that is drawn whole, it is refused in words."""
    path = tmp_path / "whole.md"
    path.write_text(
        "# A square\n\nWhole. Drafted net. Taken over: a shift.\n\n## The draft\n\n"
        "1. Begin at A, with the centre back on the left. From A down to B: 10 cm.\n"
    )
    found = CliRunner().invoke(app, ["draft", str(path), "--left-and-right"])
    assert found.exit_code != 0
    assert "drawn whole" in str(found.exception)

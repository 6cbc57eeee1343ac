"""Tapes in other notations and sizes, the key, and what is told beside them: read back from the PDF."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapewright.diagnostics import Source
from tapewright.export import pdf
from tapewright.pages import (
    A3,
    A4,
    FULL,
    HALF,
    LETTER,
    ONE_PAGE,
    QUARTER,
    Paper,
    PrintedTape,
    Scale,
    tapes_sheet,
)
from tapewright.pages.tape import graduated, pieces_of
from tapewright.pages.tape_face import ENDS, width_of, zones
from tapewright.pages.tape_key import parts_told
from tapewright.pages.tapes_sheet import TapeLayout
from tapewright.tapes import Notation, notations, plain, read_notation
from tests.export.reading import characters, paths, words
from tests.pages.seen import squares, uprights

ROLL = Paper("roll, 90 cm wide", 900.0, None)
SHIPPED = tuple(notations().values())
OWN, _ = read_notation(
    Source(
        "knots.md", "# Knots\n\nSource: mine.\n\n| mark | share |\n| --- | --- |\n| K | 1/2 |\n| k | 1/5 |\n"
    )
)


def set_of(notation: Notation, scale: Scale = FULL, *, centimetres: bool = False) -> tuple[PrintedTape, ...]:
    parts = notation.parts or 48
    return (
        PrintedTape("bust tape", 461.3, parts, "half the bust", notation, scale, centimetres),
        PrintedTape("neck tape", 368.5, 20, "the neck", notation, scale, centimetres),
        PrintedTape("hip tape", 1032.0, parts, "the hip", notation, scale, centimetres),
    )


@pytest.mark.parametrize("paper", [A4, LETTER, A3, ONE_PAGE, ROLL], ids=lambda p: p.name)
@pytest.mark.parametrize("scale", [FULL, HALF, QUARTER], ids=lambda s: s.name)
@pytest.mark.parametrize("notation", [*SHIPPED, OWN], ids=lambda n: n.name)
def test_both_edges_stand_true_in_every_notation_and_size(
    paper: Paper, scale: Scale, notation: Notation
) -> None:
    """Every stroke of both edges, on the page's own path, is at its share of the whole at the scale, to 0.1 %
    of the whole, and no other stroke stands on the edge."""
    sheet = tapes_sheet(set_of(notation, scale), paper, title="t", wearer_line="w")
    data = pdf(sheet.pages.drawings, title="t")
    seen = {i: uprights(paths(data, i)) for i in range(len(sheet.pages.pages))}
    for placed in sheet.pieces:
        piece, tape = placed.piece, placed.piece.tape
        whole = tape.whole_mm * float(scale.factor)
        edges, zone = graduated(tape), zones(tape)
        inside = [
            line
            for line in seen[placed.page]
            if placed.x + 0.01 < line[0] < placed.x + piece.length - 0.01
            and placed.y - 0.01 < line[1] <= line[2] < placed.y + zone.height + 0.01
        ]
        upper = [x for x, top, _ in inside if abs(top - placed.y) < 0.01]
        wanted = [t.position for t in edges.upper if piece.start < t.position < piece.end]
        assert len(upper) == len(wanted)
        for x, at in zip(sorted(upper), wanted, strict=True):
            assert abs(x - placed.x - float(at - piece.start) * whole) < whole * 1e-3
        if edges.two_edged:
            lower = [x for x, _, foot in inside if abs(foot - placed.y - zone.edge) < 0.01]
            wanted = [t.position for t in edges.lower if piece.start < t.position < piece.end]
            assert len(lower) == len(wanted)
            for x, at in zip(sorted(lower), wanted, strict=True):
                assert abs(x - placed.x - float(at - piece.start) * whole) < whole * 1e-3


@pytest.mark.parametrize("scale", [FULL, HALF, QUARTER], ids=lambda s: s.name)
def test_the_centimetre_rule_is_of_the_body(scale: Scale) -> None:
    """With centimetres each stands where so many centimetres of the body are, at the scale, to 0.1 %; the whole
    is said in figures. Without, no figure of the wearer's is anywhere on the pages."""
    tapes = set_of(plain(), scale, centimetres=True)
    sheet = tapes_sheet(tapes, ONE_PAGE, title="t")
    data = pdf(sheet.pages.drawings, title="t")
    lines = uprights(paths(data))
    for placed in sheet.pieces:
        tape, zone = placed.piece.tape, zones(placed.piece.tape)
        foot = placed.y + zone.height
        rule = sorted(
            x for x, top, end in lines
            if abs(end - foot) < 0.01 and top > placed.y + zone.edge and placed.x + 0.5 < x < placed.x + placed.piece.length - 0.5
        )  # fmt: skip
        each = 10 * float(scale.factor)
        assert len(rule) in {int(tape.whole_mm // 10), int(tape.whole_mm // 10) - 1}
        for n, x in enumerate(rule, 1):
            assert abs(x - placed.x - n * each) < each * 1e-2
        assert abs(rule[-1] - placed.x - len(rule) * each) < len(rule) * each * 1e-3
    assert "46.1 cm" in words(data)
    assert "cm (" in words(data)
    bare = tapes_sheet(set_of(plain(), scale), ONE_PAGE, title="t")
    said = words(pdf(bare.pages.drawings, title="t"))
    for figure in ("46.1", "36.9", "36.8", "103.2", "cm ("):
        assert figure not in said
    assert "No figures are printed." in said


@pytest.mark.parametrize("notation", [*SHIPPED, OWN], ids=lambda n: n.name)
@pytest.mark.parametrize("paper", [A4, LETTER, A3, ONE_PAGE, ROLL], ids=lambda p: p.name)
def test_the_key_is_printed_whole(notation: Notation, paper: Paper) -> None:
    """The key names the notation, its source and every mark, and nothing of it runs off the paper."""
    sheet = tapes_sheet(set_of(notation), paper, title="t", key=True)
    data = pdf(sheet.pages.drawings, title="t")
    last = len(sheet.pages.pages) - 1
    said = " ".join(words(data, last).split())
    assert f"The key: {notation.title}" in said
    assert notation.source.replace("*", "").split(",")[0].split(";")[0][:20] in said
    for mark in notation.marks:
        if notation.way.by_marks:
            assert mark.said.split(" (")[0] in said
    drawing = sheet.pages.drawings[last]
    for character in characters(data, last):
        if character.character.strip():
            assert paper.margin - 1 <= character.x <= drawing.width - paper.margin + 1
            assert paper.margin - 1 <= character.y <= drawing.height - paper.margin + 1


@pytest.mark.parametrize(
    "paper", [A4, LETTER, A3, ONE_PAGE, ROLL, Paper("roll, 20 cm wide", 200.0, None)], ids=lambda p: p.name
)
def test_squares_and_the_parts_come_first(paper: Paper) -> None:
    """On the first page stand the squares and, in words, what the forty-eight parts are for."""
    sheet = tapes_sheet(set_of(plain()), paper, title="t")
    data = pdf(sheet.pages.drawings, title="t")
    assert sheet.pages.squares_on == sheet.pages.pages[0].label
    assert len(squares(paths(data, 0), 100.0)) == 1
    said = " ".join(words(data, 0).split())
    assert "A half is 24 of the 48, a third 16, a quarter 12, a sixth 8, an eighth 6 and a twelfth 4" in said
    assert "The neck tape: 20 parts." in said


def test_what_the_parts_are_for() -> None:
    """The counts are the parts divided, and what falls on no half part is left out: arithmetic."""
    assert parts_told(48).endswith("so every one of them falls on a part.")
    assert parts_told(18).startswith("A half is 9 of the 18, a third 6, a quarter 4 1/2, a sixth 3")
    assert parts_told(20) == "A half is 10 of the 20, a quarter 5 and an eighth 2 1/2."
    assert parts_told(7) == "A half is 3 1/2 of the 7."


@pytest.mark.parametrize("paper", [ONE_PAGE, ROLL], ids=lambda p: p.name)
def test_a_tape_for_cloth_has_bare_ends(paper: Paper) -> None:
    """In the layout for cloth tape every tape is in one piece, its cut line 20 mm beyond both its ends."""
    sheet = tapes_sheet(set_of(plain()), paper, title="t", layout=TapeLayout.ROLL)
    data = pdf(sheet.pages.drawings, title="t")
    seen = paths(data)
    for placed in sheet.pieces:
        assert placed.piece.of == 1
        high = width_of(placed.piece.tape)
        cut = [
            path
            for path in seen
            if path.stroked and len(path.places) >= 4
            and abs(min(x for x, _ in path.places) - placed.x + ENDS) < 0.01
            and abs(min(y for _, y in path.places) - placed.y) < 0.01
            and abs(max(y for _, y in path.places) - placed.y - high) < 0.01
        ]  # fmt: skip
        (one,) = cut
        assert max(x for x, _ in one.places) == pytest.approx(placed.x + placed.piece.length + ENDS, abs=0.01)
    assert words(data).count("turn under") == 2 * len(sheet.pieces)


@settings(max_examples=60, deadline=None)
@given(
    st.floats(20, 2500),
    st.integers(1, 2000),
    st.sampled_from([*SHIPPED, OWN]),
    st.sampled_from([FULL, HALF, QUARTER]),
)
def test_any_tape_in_any_notation_is_drawn(
    whole: float, parts: int, notation: Notation, scale: Scale
) -> None:
    """However long, however many parts, a tape is cut into pieces that fit and is drawn."""
    tape = PrintedTape("t", whole, parts, "w", notation, scale)
    assert sum(piece.length for piece in pieces_of(tape, 280.0)) == pytest.approx(whole * float(scale.factor))
    sheet = tapes_sheet((tape,), A4, title="t", key=True)
    assert sheet.pieces[-1].piece.end == Fraction(1)


def test_what_cannot_lie_together_is_refused() -> None:
    """Two sizes, two notations, cloth tape on a sheet: faults of the caller."""
    ell, letters = (set_of(n)[0] for n in SHIPPED[1:3])
    with pytest.raises(ValueError, match="several notations"):
        tapes_sheet((ell, letters), A4, title="t")
    with pytest.raises(ValueError, match="several scales"):
        tapes_sheet((set_of(plain())[0], set_of(plain(), HALF)[0]), A4, title="t")
    with pytest.raises(ValueError, match="roll layout"):
        tapes_sheet(set_of(plain()), A4, title="t", layout=TapeLayout.ROLL)

"""What is written inside the pieces, and that it keeps clear of everything else."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from shapely.geometry import Polygon

from tapewright.export import pdf
from tapewright.pages import (
    A4,
    FULL,
    HALF,
    QUARTER,
    Field,
    Plate,
    PlateLine,
    PlatePiece,
    Role,
    Scale,
    draw_field,
    plate_pages,
)
from tests.export.reading import words
from tests.pages.bodice import bodice, straight_line
from tests.pages.checker import faults

Place = tuple[float, float]


def piece(name: str, told: str, corners: list[Place]) -> PlatePiece:
    """A piece with straight edges."""
    edges = [straight_line(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]
    return PlatePiece(name, told, np.concatenate(edges))


def plate_of_pieces(*pieces: PlatePiece) -> Plate:
    """A plate of nothing but the outlines of some pieces."""
    lines = tuple(
        PlateLine("", p.outline[i : i + 1], Role.OUTLINE) for p in pieces for i in range(len(p.outline))
    )
    return Plate("A skirt", (), lines, pieces=pieces)


# The mouth of the L is as large as its arms: the middle of its box lies outside it.
AN_L = piece("L", "Cut once of linen.", [(0, 0), (80, 0), (80, 420), (500, 420), (500, 500), (0, 500)])
A_SQUARE = piece(
    "Square", "Cut 4 times of cloth,\nA–B on the fold.", [(600, 0), (760, 0), (760, 160), (600, 160)]
)


@pytest.mark.parametrize("scale", [FULL, HALF, QUARTER], ids=lambda s: s.name)
def test_a_caption_stands_inside_its_own_piece(scale: Scale) -> None:
    """Every line of it lies wholly within the outline, by shapely; also where the middle of the piece's box
    lies outside."""
    plate = plate_of_pieces(AN_L, A_SQUARE)
    field = draw_field(plate, scale)
    assert not faults(field, plate, scale)
    assert not field.untold
    said = [label.name for label in field.captions]
    assert said[0] == "L"
    at = said.index("Square")
    assert " ".join(said[1:at]) == "Cut once of linen."
    assert " ".join(said[at + 1 :]) == "Cut 4 times of cloth, A–B on the fold."
    for one, labels in ((AN_L, field.captions[:at]), (A_SQUARE, field.captions[at:])):
        outline = Polygon(one.outline[:, 0] * float(scale.factor))
        assert all(outline.contains(Polygon(label.corners)) for label in labels)


def test_a_piece_without_room_is_told_beside_the_plate() -> None:
    """A strip a centimetre wide has no room for three lines at a quarter: they stand with the notes."""
    strip = piece("Strip", "Cut twice of tape,\nA–B on the grain.", [(0, 0), (10, 0), (10, 300), (0, 300)])
    plate = plate_of_pieces(strip)
    field = draw_field(plate, QUARTER)
    assert not field.captions
    assert field.untold == (strip,)
    said = words(pdf(plate_pages(plate, A4, QUARTER).drawings, title="t")).replace("\r\n", " ")
    assert "Strip: cut twice of tape, A–B on the grain." in said


@pytest.mark.parametrize("scale", [FULL, HALF, QUARTER], ids=lambda s: s.name)
def test_captions_keep_clear_of_a_crowded_plate(scale: Scale) -> None:
    """Among the bodice's letters, names and insets no caption touches any, nor a dart's edge."""
    body = piece("Body", "Cut twice of cloth.", [(0, 38), (475, 68), (475, 400), (0, 400)])
    plate = replace(bodice(dense=True), pieces=(body,))
    field: Field = draw_field(plate, scale)
    assert not faults(field, plate, scale)
    assert field.captions

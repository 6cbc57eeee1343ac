"""Pieces as DXF, read back with ezdxf: lengths against the draft's own, areas against shapely, the audit.

The apparel form follows ASTM D6673 from memory; what is tested of it is its own statement, and its lengths.
"""

from __future__ import annotations

import io
import itertools
from functools import cache
from typing import Any

import numpy as np
import pytest
from ezdxf import recover
from ezdxf.document import Drawing as Document
from ezdxf.math import BSpline
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.polynomial.legendre import leggauss
from shapely import Polygon

from tapewright.app import drafting, library
from tapewright.app.piecing import HowCut, cut_out
from tapewright.cli.saying import print_options
from tapewright.drawing.shapes import Floats, PieceShape
from tapewright.export.dxf import LAYERS, NUMBERS, write_dxf
from tapewright.pages.piece_shapes import shapes_of

AGREES = 0.01
GARMENTS = [("a-womans-jacket", "margery-thorne-over-stays"), ("a-mans-waistcoat", "josiah-pell")]


@cache
def shapes(lesson: str, wearer: str) -> tuple[PieceShape, ...]:
    """The pieces of a shipped garment for a demonstration wearer."""
    made = drafting.read(library.lesson_path(lesson))
    how = print_options("one-page", "1")
    cut = cut_out(drafting.draft_for(made, library.wearer_path(wearer)), HowCut(how))
    return shapes_of(cut.patterns)


def read(data: bytes) -> Document:
    """The file as ezdxf reads it, sound."""
    document, auditor = recover.read(io.BytesIO(data))
    assert not auditor.has_errors, auditor.errors
    return document


def long(cubics: Floats) -> float:
    """The length of cubics by Gauss's nodes: numpy's, none of ours."""
    nodes, weights = leggauss(32)
    u = (nodes + 1.0) / 2.0
    total = 0.0
    for c in cubics:
        d = 3.0 * (c[1:] - c[:-1])
        v = np.outer((1 - u) ** 2, d[0]) + np.outer(2 * u * (1 - u), d[1]) + np.outer(u * u, d[2])
        total += float(weights @ np.hypot(v[:, 0], v[:, 1])) / 2.0
    return total


def told(entity: Any) -> float:
    """How long an entity is."""
    if entity.dxftype() == "LINE":
        return float(entity.dxf.start.distance(entity.dxf.end))
    assert entity.dxftype() == "SPLINE"
    return spline_length(entity.construction_tool())


def boundary(block: Any) -> list[Any]:
    """The points of a block's boundary."""
    (line,) = block.query(f'POLYLINE[layer=="{NUMBERS["cut"]}"]')
    return list(line.points())


def spline_length(spline: BSpline) -> float:
    """The length of a spline by its own derivatives, span by span."""
    nodes, weights = leggauss(32)
    knots = sorted(set(spline.knots()))
    total = 0.0
    for a, b in itertools.pairwise(knots):
        for node, weight in zip(nodes, weights, strict=True):
            t = a + (b - a) * (node + 1.0) / 2.0
            total += weight * (b - a) / 2.0 * spline.derivative(t, 1)[1].magnitude
    return total


@pytest.mark.parametrize(("lesson", "wearer"), GARMENTS)
def test_plain_lengths(lesson: str, wearer: str) -> None:
    """All that is cut, and all that is sewn, is as long in the file as in the draft, to 0.01 mm a piece."""
    made = shapes(lesson, wearer)
    document = read(write_dxf(made))
    assert document.header["$INSUNITS"] == 4
    for part, wanted in (
        ("cut", sum(long(s.cut) for s in made)),
        ("net", sum(long(c) for s in made for _, c in s.net if len(c))),
    ):
        query = f'*[layer=="{LAYERS[part]}"]'
        found = sum(told(entity) for entity in document.modelspace().query(query))
        assert found == pytest.approx(wanted, abs=AGREES * len(made)), part


@pytest.mark.parametrize(("lesson", "wearer"), GARMENTS)
def test_apparel_boundaries(lesson: str, wearer: str) -> None:
    """Each piece is a block whose boundary is as long as the cutting line to 0.01 mm, and encloses as much, by shapely."""
    made = shapes(lesson, wearer)
    document = read(write_dxf(made, form="apparel", title="A trial"))
    assert document.dxfversion == "AC1009"
    blocks = [b for b in document.blocks if not b.name.startswith(("*", "_"))]
    assert len(blocks) == len(made)
    for shape in made:
        block = next(
            b for b in blocks if any(f"Piece Name: {shape.name}" == t.dxf.text for t in b.query("TEXT"))
        )
        spots = [(float(p.x), float(p.y)) for p in boundary(block)]
        polygon = Polygon(spots)
        assert polygon.is_valid
        assert polygon.exterior.length == pytest.approx(long(shape.cut), abs=AGREES)
        flat = Polygon([tuple(p) for c in shape.cut for p in _sampled(c)])
        assert polygon.area == pytest.approx(flat.area, rel=1e-4)
        # y upward: the file is the paper turned over.
        assert max(y for _, y in spots) == pytest.approx(-shape.cut[:, [0, 3], 1].min(), abs=0.5)
        quantity = next(t.dxf.text for t in block.query("TEXT") if t.dxf.text.startswith("Quantity"))
        assert quantity == f"Quantity: {shape.alike},{shape.mirrored}"


def _sampled(c: Floats) -> Floats:
    u = np.arange(50)[:, None] / 50
    return np.asarray(
        (1 - u) ** 3 * c[0] + 3 * u * (1 - u) ** 2 * c[1] + 3 * u * u * (1 - u) * c[2] + u**3 * c[3]
    )


def test_the_same_pieces_give_the_same_bytes() -> None:
    """Nothing in the file but the pieces: no date, no place, no chance."""
    made = shapes(*GARMENTS[0])
    assert write_dxf(made) == write_dxf(made)
    assert write_dxf(made, form="apparel") == write_dxf(made, form="apparel")


def test_pairs_and_marks() -> None:
    """A pair is one as drawn and one mirrored; every stroke of a balance mark is there."""
    made = shapes(*GARMENTS[0])
    assert {(s.alike, s.mirrored) for s in made} == {(1, 1)}
    document = read(write_dxf(made))
    strokes = document.modelspace().query(f'LINE[layer=="{LAYERS["notches"]}"]')
    assert len(strokes) == sum(n.count for s in made for n in s.notches)
    assert len(document.modelspace().query(f'LINE[layer=="{LAYERS["grain"]}"]')) == len(made)


def test_nothing_to_write() -> None:
    """No piece, no file."""
    with pytest.raises(ValueError, match="no piece"):
        write_dxf(())


@given(st.lists(st.floats(60, 200), min_size=3, max_size=8), st.floats(-0.4, 0.4))
@settings(max_examples=40, deadline=None)
def test_any_closed_outline_survives(radii: list[float], bow: float) -> None:
    """A ring of any corners and any bow is read back as long as it was, in both forms."""
    count = len(radii)
    spots = [
        np.array([r * np.cos(2 * np.pi * k / count), r * np.sin(2 * np.pi * k / count)])
        for k, r in enumerate(radii)
    ]
    cubics = []
    for p, q in zip(spots, [*spots[1:], spots[0]], strict=True):
        out = np.array([q[1] - p[1], p[0] - q[0]]) * bow
        cubics.append([p, p + (q - p) / 3 + out, p + (q - p) * 2 / 3 + out, q])
    ring = np.array(cubics)
    shape = PieceShape("A ring", ring, (("edge", ring),))
    plain = read(write_dxf([shape])).modelspace().query(f'*[layer=="{LAYERS["cut"]}"]')
    found = sum(told(entity) for entity in plain)
    assert found == pytest.approx(long(ring), abs=AGREES)
    block = next(b for b in read(write_dxf([shape], form="apparel")).blocks if b.name == "A-RING")
    points = boundary(block)
    length = sum(a.distance(b) for a, b in zip(points, [*points[1:], points[0]], strict=True))
    assert length == pytest.approx(long(ring), abs=AGREES)

"""Pieces as DXF, read back with ezdxf: lengths against the draft's own, areas against shapely, the audit.

The apparel form follows ASTM D6673 from memory; what is tested of it is its own statement, and its lengths.
"""

from __future__ import annotations

import io
import itertools
import logging
import os
import subprocess
import sys
from dataclasses import replace
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
from shapely import LineString, Point, Polygon

from tapewright.app import drafting, library
from tapewright.app.piecing import Cut, HowCut, cut_out
from tapewright.cli.saying import print_options
from tapewright.drawing.shapes import Floats, PieceShape, ShapeNotch
from tapewright.export.dxf import LAYERS, NUMBERS, write_dxf
from tapewright.pages.piece_shapes import lying_within, shapes_of

AGREES = 0.01
GARMENTS = [("a-womans-jacket", "margery-thorne-over-stays"), ("a-mans-waistcoat", "josiah-pell")]


@cache
def cut(lesson: str, wearer: str) -> Cut:
    """A shipped garment cut out for a demonstration wearer."""
    made = drafting.read(library.lesson_path(lesson))
    how = print_options("one-page", "1")
    return cut_out(drafting.draft_for(made, library.wearer_path(wearer)), HowCut(how))


def shapes(lesson: str, wearer: str) -> tuple[PieceShape, ...]:
    """Its pieces."""
    return shapes_of(cut(lesson, wearer).patterns)


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


def _panel(**more: Any) -> PieceShape:
    """A square of 100 mm, sewn 10 mm within."""

    def square(low: float, high: float) -> Floats:
        spots = [np.array(p) for p in ((low, low), (high, low), (high, high), (low, high))]
        return np.array(
            [
                [p, p + (q - p) / 3, p + (q - p) * 2 / 3, q]
                for p, q in zip(spots, spots[1:] + spots[:1], strict=True)
            ]
        )

    return replace(PieceShape("Panel", square(0.0, 100.0), (("edge", square(10.0, 90.0)),)), **more)


def _in_block(shape: PieceShape) -> Any:
    """The block of one piece as it is read back from the apparel form."""
    document = read(write_dxf([shape], form="apparel"))
    return next(b for b in document.blocks if not b.name.startswith(("*", "_")))


@pytest.mark.parametrize(("lesson", "wearer"), GARMENTS)
def test_every_edge(lesson: str, wearer: str) -> None:
    """Each edge alone, in both forms, is as long where it is sewn as the draft says of it, to 0.01 mm."""
    pieces = [p for _, pattern in cut(lesson, wearer).patterns for p in pattern.pieces]
    for shape, piece in zip(shapes(lesson, wearer), pieces, strict=True):
        for line, edge in zip(shape.net, piece.edges, strict=True):
            alone = replace(shape, net=(line,))
            wanted = pytest.approx(float(edge.length[0]), abs=AGREES)
            sewn = read(write_dxf([alone])).modelspace().query(f'*[layer=="{LAYERS["net"]}"]')
            assert sum(told(entity) for entity in sewn) == wanted, (piece.name, edge.name)
            flat = _in_block(alone).query(f'POLYLINE[layer=="{NUMBERS["net"]}"]')
            long = sum(LineString([(p.x, p.y) for p in one.points()]).length for one in flat)
            assert long == wanted, (piece.name, edge.name)


def test_on_the_fold() -> None:
    """A shift folded at the shoulder and a shirt folded both ways are half pieces: the fold is told, no grain guessed.

    That the mirror line is on layer 6 is from memory of ASTM D6673.
    """
    for garment in (("a-womans-shift", "margery-thorne"), ("a-mans-shirt", "josiah-pell")):
        for shape in shapes(*garment):
            block = _in_block(shape)
            folds = block.query(f'LINE[layer=="{NUMBERS["fold"]}"]')
            assert len(folds) == (len(shape.lying) if shape.on == "fold" else 0), shape.name
            grains = block.query(f'LINE[layer=="{NUMBERS["grain"]}"]')
            assert len(grains) == (shape.on == "grain"), shape.name
            ring = Polygon([(p.x, p.y) for p in boundary(block)]).exterior
            for fold in folds:
                for p in (fold.dxf.start, fold.dxf.end):
                    assert ring.distance(Point(p.x, p.y)) < AGREES
            plain = read(write_dxf([shape])).modelspace()
            for on in ("grain", "fold"):
                found = plain.query(f'LINE[layer=="{LAYERS[on]}"]')
                assert len(found) == (len(shape.lying) if shape.on == on else 0), shape.name


def test_on_the_cross() -> None:
    """A line across the paper that lies on the bias has the grain at half a right angle to it, worked by hand."""
    shape = _panel(on="cross", lying=((20.0, 50.0, 80.0, 50.0),))
    (line,) = _in_block(shape).query(f'LINE[layer=="{NUMBERS["grain"]}"]')
    way = line.dxf.end - line.dxf.start
    assert abs(way.x) == pytest.approx(abs(way.y))
    assert way.magnitude == pytest.approx(60.0)
    (plain,) = read(write_dxf([shape])).modelspace().query(f'LINE[layer=="{LAYERS["cross"]}"]')
    assert plain.dxf.start.y == pytest.approx(plain.dxf.end.y)


@pytest.mark.parametrize(("lesson", "wearer"), GARMENTS)
def test_the_grain_is_on_the_piece(lesson: str, wearer: str) -> None:
    """The grain lies within what is cut, by shapely, and runs as the draft says: a waistcoat's lining names the front's."""
    pieces = [p for _, pattern in cut(lesson, wearer).patterns for p in pattern.pieces]
    for shape, piece in zip(shapes(lesson, wearer), pieces, strict=True):
        if shape.on == "fold":
            continue
        ((x0, y0, x1, y1),) = shape.lying
        inside = Polygon([tuple(p) for c in shape.cut for p in _sampled(c)])
        assert inside.contains(LineString([(x0, y0), (x1, y1)])), shape.name
        ((a, b),) = piece.lying
        way = np.array([float(b.x[0] - a.x[0]), float(b.y[0] - a.y[0])])
        turn = way[0] * (y1 - y0) - way[1] * (x1 - x0)
        assert abs(turn) < 1e-9 * float(way @ way)
        assert way @ np.array([x1 - x0, y1 - y0]) > 0.0


@given(st.floats(-300, 300), st.floats(-300, 300), st.floats(0, 2 * np.pi), st.floats(1, 400))
@settings(max_examples=60, deadline=None)
def test_any_line_is_brought_within(x: float, y: float, angle: float, size: float) -> None:
    """Wherever a line is named, it comes to lie within the piece, the same way, no longer; if it was within, it stays."""
    ring = _panel().cut
    u = np.array([np.cos(angle), np.sin(angle)])
    said = (x, y, x + size * float(u[0]), y + size * float(u[1]))
    found = lying_within(said, ring)
    square = Polygon([(0, 0), (100, 0), (100, 100), (0, 100)])
    assert square.buffer(1e-6).contains(LineString([found[:2], found[2:]]))
    way = np.array(found[2:]) - np.array(found[:2])
    assert float(np.hypot(*way)) <= size + 1e-6
    assert float(way @ u) == pytest.approx(float(np.hypot(*way)))
    if square.buffer(-1e-6).contains(LineString([said[:2], said[2:]])):
        assert found == said


def test_blocks_are_set_in_side_by_side() -> None:
    """In the apparel form no piece lies on another, and none is moved within its block."""
    made = shapes(*GARMENTS[1])
    document = read(write_dxf(made, form="apparel"))
    boxes = []
    for insert, shape in zip(document.modelspace().query("INSERT"), made, strict=True):
        spots = np.array([(p.x, p.y) for p in boundary(document.blocks.get(insert.dxf.name))])
        assert spots[0] == pytest.approx(shape.cut[0, 0] * [1.0, -1.0])
        set_in = spots + np.array([insert.dxf.insert.x, insert.dxf.insert.y])
        boxes.append((set_in[:, 0].min(), set_in[:, 0].max()))
    assert all(a[1] < b[0] for a, b in itertools.pairwise(boxes))


@pytest.mark.parametrize("deep", [0.0, 2.0, 10.0])
@pytest.mark.parametrize("count", [1, 2, 3])
def test_marks_stay_on_the_piece(deep: float, count: int) -> None:
    """A balance mark ends where one cuts, never beyond, however little is left; worked by hand on a square."""
    shape = _panel(notches=(ShapeNotch(100.0 - deep, 50.0, 1.0, 0.0, deep, count),))
    strokes = read(write_dxf([shape])).modelspace().query(f'LINE[layer=="{LAYERS["notches"]}"]')
    assert len(strokes) == count
    for stroke in strokes:
        assert stroke.dxf.end.x == pytest.approx(100.0)
        assert stroke.dxf.start.x == pytest.approx(100.0 - max(deep, 3.0))
    block = _in_block(shape)
    ring = Polygon([(p.x, p.y) for p in boundary(block)]).exterior
    spots = block.query(f'POINT[layer=="{NUMBERS["notches"]}"]')
    assert len(spots) == count
    assert max(ring.distance(Point(s.dxf.location.x, s.dxf.location.y)) for s in spots) < AGREES


def test_no_letter_is_lost() -> None:
    """Letters that the older form has no room for are read back as they were."""
    words = {"Piece Name: Łódź front", "Annotation: For Łucja Wójcik, 1⅓ times"}
    block = _in_block(_panel(name="Łódź front", words=("For Łucja Wójcik, 1⅓ times",)))
    assert words <= {t.dxf.text for t in block.query("TEXT")}


def test_block_names() -> None:
    """Names are told apart within the 31 letters of the older form, whatever they are written in (from memory)."""
    long = "Left front facing of the upper collar of the waistcoat"
    made = [_panel(name=name) for name in (long, long, "перед", "спинка", "A", "A", "A-2")]
    document = read(write_dxf(made, form="apparel"))
    names = [b.name for b in document.blocks if not b.name.startswith(("*", "_"))]
    assert len(set(names)) == len(made)
    assert all(len(n) <= 31 and n[0].isalnum() for n in names)
    assert sorted(i.dxf.name for i in document.modelspace().query("INSERT")) == sorted(names)


def test_a_loop_is_no_straight_line() -> None:
    """One cubic that comes back to where it began is as long as it was, in both forms; a line of nothing is left out."""
    nothing = np.zeros((1, 4, 2))
    loop = np.array([[[0.0, 0.0], [100.0, -80.0], [100.0, 80.0], [0.0, 0.0]]])
    shape = PieceShape("Loop", np.concatenate([loop, nothing]), ())
    (entity,) = read(write_dxf([shape])).modelspace().query(f'*[layer=="{LAYERS["cut"]}"]')
    assert told(entity) == pytest.approx(long(loop), abs=AGREES)
    block = _in_block(shape)
    ring = Polygon([(p.x, p.y) for p in boundary(block)]).exterior
    assert ring.length == pytest.approx(long(loop), abs=AGREES)
    assert len(block.query(f'POINT[layer=="{NUMBERS["turn points"]}"]')) == 1


def test_nothing_is_said_aside(caplog: pytest.LogCaptureFixture) -> None:
    """Writing says nothing beside the file: a maker at the command line would see it."""
    with caplog.at_level(logging.WARNING):
        for form in ("plain", "apparel"):
            write_dxf([_panel()], form=form)
    assert not caplog.records


def test_the_same_bytes_another_day() -> None:
    """Another run, with another order of hashes and in another part of the world, gives the same bytes."""
    program = (
        "import hashlib, numpy as np\n"
        "from tapewright.drawing.shapes import PieceShape\n"
        "from tapewright.export.dxf import write_dxf\n"
        "ring = np.array([[[0, 0], [9, 0], [9, 9], [0, 9]], [[0, 9], [0, 6], [0, 3], [0, 0]]], float)\n"
        "made = [PieceShape(n, ring, (('edge', ring),)) for n in 'ab']\n"
        "for form in ('plain', 'apparel'):\n"
        "    print(hashlib.sha256(write_dxf(made, form=form)).hexdigest())\n"
    )
    runs = [
        subprocess.run(
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone},
            capture_output=True,
            check=True,
            timeout=60,
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    ]
    assert runs[0] == runs[1]
    assert len(runs[0].split()) == 2


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
    # By Green's theorem on the cubics, exact: numpy's nodes, none of ours.
    assert abs(_area([(p.x, p.y) for p in points])) == pytest.approx(abs(_enclosed(ring)), rel=1e-4)


def _area(spots: list[tuple[float, float]]) -> float:
    x, y = np.array(spots).T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2.0


def _enclosed(ring: Floats) -> float:
    nodes, weights = leggauss(8)
    u = (nodes + 1.0) / 2.0
    total = 0.0
    for c in ring:
        p = np.stack([(1 - u) ** 3, 3 * u * (1 - u) ** 2, 3 * u * u * (1 - u), u**3], axis=1) @ c
        d = 3.0 * np.stack([(1 - u) ** 2, 2 * u * (1 - u), u * u], axis=1) @ (c[1:] - c[:-1])
        total += float(weights @ (p[:, 0] * d[:, 1] - p[:, 1] * d[:, 0])) / 4.0
    return total

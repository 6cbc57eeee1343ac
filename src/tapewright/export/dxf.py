"""Shapes become DXF: plain, as any drawing tool reads it, or in the apparel trade's interchange form.

Plain: one layer each for where to cut, where to sew, what is marked within, grain, cross, fold, notches and words;
every curve is a spline, the very cubic it was drawn as, so that lengths are true. The apparel form follows ASTM D6673,
*Standard Practice for Sewn Products Pattern Data Interchange*, FROM MEMORY: the standard's text was not before us.
There each piece is a block, layers have numbers, and curves are polylines, here flat to two thousandths of a
millimetre. A fold is a line to mirror about, never a grain: a shift is folded at the shoulder, across its grain.

Written with ezdxf, fixed metadata, millimetres; the same shapes give the same bytes.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from typing import Any, Final, Literal

import numpy as np
from ezdxf._options import options
from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.math import Bezier4P, Vec3, bezier_to_bspline

from tapewright.drawing.shapes import Floats, PieceShape

Form = Literal["plain", "apparel"]
FLAT: Final = 1.0 / 500.0
"""How far a chord of a polyline lies from its curve, mm."""
GAP: Final = 50.0
"""Between the pieces, mm."""
_STRAIGHT: Final = 1e-2
_NOTHING: Final = _STRAIGHT * _STRAIGHT
"""A cubic that fits within this is no line, mm."""
_BARE: Final = 3.0
"""How long a balance mark is at the least, mm: where less is left it runs in, never beyond where one cuts."""
_LONGEST_NAME: Final = 31
"""Of a block in the oldest form of the file, in letters."""
_WORDS: Final = 6.0

LAYERS: Final = {
    "cut": "CUT",
    "net": "SEW",
    "within": "WITHIN",
    "grain": "GRAIN",
    "cross": "CROSS",
    "fold": "FOLD",
    "notches": "NOTCHES",
    "words": "WORDS",
}
#: The layers of the apparel form, from memory of ASTM D6673.
NUMBERS: Final = {
    "cut": "1",
    "turn points": "2",
    "curve points": "3",
    "notches": "4",
    "fold": "6",
    "grain": "7",
    "within": "8",
    "drill": "13",
    "net": "14",
    "words": "15",
}


def write_dxf(shapes: Sequence[PieceShape], *, form: Form = "plain", title: str = "") -> bytes:
    """The file; ValueError where there is no shape, or the file would not pass ezdxf's audit."""
    if not shapes:
        raise ValueError("there is no piece to write")
    # Documented for this: no dates, no identifiers that change from one writing to the next.
    options.write_fixed_meta_data_for_testing = True
    document = _plain(shapes) if form == "plain" else _apparel(shapes, title)
    auditor = document.audit()
    if auditor.has_errors:
        raise ValueError(f"the drawing is not sound: {auditor.errors[0].message}")
    text = io.StringIO()
    document.write(text)
    # A letter that the older form has no room for is written by its number, never lost.
    return text.getvalue().encode(document.output_encoding, errors="dxfreplace")


# --- plain ---------------------------------------------------------------------------------------------


def _plain(shapes: Sequence[PieceShape]) -> Document:
    document = new("R2010", setup=False)
    document.header["$INSUNITS"] = 4
    document.header["$MEASUREMENT"] = 1
    for name in LAYERS.values():
        document.layers.add(name)
    space = document.modelspace()
    x = 0.0
    for shape in shapes:
        low, high = _box(shape)
        move = np.array([x - low[0], -low[1]])
        for curves in _runs(shape.cut + move):
            _curve(space, curves, LAYERS["cut"])
        for _, cubics in shape.net:
            for curves in _runs(cubics + move):
                _curve(space, curves, LAYERS["net"])
        for _, cubics in shape.lines:
            for curves in _runs(cubics + move):
                _curve(space, curves, LAYERS["within"])
        for _, px, py in shape.points:
            space.add_point(_up(np.array([px, py]) + move), dxfattribs={"layer": LAYERS["within"]})
        for a, b in _strokes(shape):
            space.add_line(_up(a + move), _up(b + move), dxfattribs={"layer": LAYERS["notches"]})
        for x0, y0, x1, y1 in shape.lying:
            ends = _up(np.array([x0, y0]) + move), _up(np.array([x1, y1]) + move)
            space.add_line(*ends, dxfattribs={"layer": LAYERS[shape.on or "grain"]})
        _words(space, (shape.name, *shape.words), (low + high) / 2.0 + move, LAYERS["words"])
        x += float(high[0] - low[0]) + GAP
    return document


def _curve(space: Any, curves: Floats, layer: str) -> None:
    """A run as an entity: a straight line, or a spline that is its cubics exactly."""
    if len(curves) == 1 and _is_straight(curves[0]):
        space.add_line(_up(curves[0][0]), _up(curves[0][3]), dxfattribs={"layer": layer})
        return
    beziers = [Bezier4P([_up(p) for p in c]) for c in curves]
    spline = space.add_spline(dxfattribs={"layer": layer})
    spline.apply_construction_tool(bezier_to_bspline(beziers))


def _runs(cubics: Floats) -> Iterator[Floats]:
    """A line in runs: each straight part by itself, each stretch of curves together."""
    begun: list[Floats] = []
    for cubic in _lasting(cubics):
        if _is_straight(cubic):
            if begun:
                yield np.array(begun)
                begun = []
            yield cubic[None]
        else:
            begun.append(cubic)
    if begun:
        yield np.array(begun)


def _lasting(cubics: Floats) -> Floats:
    """The cubics without those that have no length: a draft may have an edge of nothing on some body."""
    if not len(cubics):
        return cubics
    return np.asarray(cubics[np.ptp(cubics, axis=1).max(axis=1) >= _NOTHING])


def _is_straight(cubic: Floats) -> bool:
    """Whether a cubic is drawn straight, its control points on the way in order."""
    way = cubic[3] - cubic[0]
    long = float(np.hypot(*way))
    if long < _STRAIGHT:
        # A loop comes back to where it began and is a curve all the same.
        return bool(np.ptp(cubic, axis=0).max() < _STRAIGHT)
    off = np.abs((cubic[1:3, 0] - cubic[0, 0]) * way[1] - (cubic[1:3, 1] - cubic[0, 1]) * way[0]) / long
    along = ((cubic[1:3] - cubic[0]) @ way) / long
    return bool(off.max() < _STRAIGHT * _STRAIGHT and 0.0 <= along[0] <= along[1] <= long)


# --- the apparel form ----------------------------------------------------------------------------------


def _apparel(shapes: Sequence[PieceShape], title: str) -> Document:
    # The oldest form says no units in its header; they are told in words below.
    document = Document.new("AC1009")
    for number in NUMBERS.values():
        document.layers.add(number)
    space = document.modelspace()
    used: set[str] = set()
    x = 0.0
    for shape in shapes:
        name = _block_name(shape.name, used)
        block = document.blocks.new(name)
        _boundary(block, shape.cut)
        for _, cubics in shape.net:
            _polyline(block, cubics, NUMBERS["net"])
        for _, cubics in shape.lines:
            _polyline(block, cubics, NUMBERS["within"])
        for _, x, y in shape.points:
            block.add_point(_up(np.array([x, y])), dxfattribs={"layer": NUMBERS["drill"]})
        # A notch is told by its place on the boundary.
        for _, b in _strokes(shape):
            block.add_point(_up(b), dxfattribs={"layer": NUMBERS["notches"]})
        _lying(block, shape)
        low, high = _box(shape)
        told = [
            f"Piece Name: {shape.name}",
            f"Quantity: {shape.alike},{shape.mirrored}",
            f"Material: {shape.cloth}",
            "Size: made to measure",
            *(f"Annotation: {words}" for words in shape.words),
        ]
        _words(block, told, (low + high) / 2.0, NUMBERS["words"])
        # Each block keeps the draft's own places; only where it is set in is beside the last, as in the plain form.
        space.add_blockref(name, _up(np.array([x - low[0], -low[1]])))
        x += float(high[0] - low[0]) + GAP
    for k, words in enumerate((f"Style Name: {title}", "Units: METRIC", "Sample Size: made to measure")):
        space.add_text(words, height=_WORDS, dxfattribs={"layer": NUMBERS["words"]}).set_placement(
            (0.0, (k + 1) * 2.0 * _WORDS)
        )
    return document


def _lying(block: Any, shape: PieceShape) -> None:
    """The grain of a piece, or where it lies on the fold, of which the draft does not say where its grain runs.

    What is said to lie on the cross lies on the bias: the grain runs at half a right angle to it.
    """
    if shape.on == "fold":
        for x0, y0, x1, y1 in shape.lying:
            ends = _up(np.array([x0, y0])), _up(np.array([x1, y1]))
            block.add_line(*ends, dxfattribs={"layer": NUMBERS["fold"]})
        return
    for x0, y0, x1, y1 in shape.lying[:1]:
        middle, half = np.array([x0 + x1, y0 + y1]) / 2.0, np.array([x1 - x0, y1 - y0]) / 2.0
        if shape.on == "cross":
            half = np.array([half[0] - half[1], half[0] + half[1]]) / np.sqrt(2.0)
        block.add_line(_up(middle - half), _up(middle + half), dxfattribs={"layer": NUMBERS["grain"]})


def _boundary(block: Any, cut: Floats) -> None:
    """The boundary, with its turn points (corners) and curve points."""
    cut = _lasting(cut)
    _polyline(block, cut, NUMBERS["cut"], close=True)
    for i, cubic in enumerate(cut):
        before = cut[i - 1]
        corner = _turns(before, cubic)
        block.add_point(
            _up(cubic[0]), dxfattribs={"layer": NUMBERS["turn points" if corner else "curve points"]}
        )


def _turns(one: Floats, two: Floats) -> bool:
    """Whether there is a corner of over five degrees between two cubics."""
    a, b = -_leaves(one[::-1]), _leaves(two)
    return bool(float(a @ b) < np.cos(np.radians(5.0)))


def _leaves(cubic: Floats) -> Floats:
    """The unit way in which a cubic sets out, by the first of its places that is not its beginning."""
    ways = cubic[1:] - cubic[0]
    long = np.hypot(ways[:, 0], ways[:, 1])
    k = int(np.argmax(long >= _NOTHING))
    return np.asarray(ways[k] / long[k])


def _polyline(block: Any, cubics: Floats, layer: str, *, close: bool = False) -> None:
    points: list[Vec3] = []
    for cubic in _lasting(cubics):
        flat = (
            [_up(cubic[0]), _up(cubic[3])]
            if _is_straight(cubic)
            else list(Bezier4P([_up(p) for p in cubic]).flattening(FLAT))
        )
        points += flat if not points else flat[1:]
    if len(points) > 1:
        if close and points[0].distance(points[-1]) < _STRAIGHT:
            points.pop()
        block.add_polyline2d(points, dxfattribs={"layer": layer}, close=close)


def _block_name(name: str, used: set[str]) -> str:
    """A block's name: capitals, digits and hyphens, no longer than the oldest form holds, each once."""
    plain = "-".join("".join(c if c.isascii() and c.isalnum() else " " for c in name).upper().split())
    plain = plain or "PIECE"
    found, k = plain[:_LONGEST_NAME], 2
    while found in used:
        end = f"-{k}"
        found, k = plain[: _LONGEST_NAME - len(end)] + end, k + 1
    used.add(found)
    return found


# --- both ----------------------------------------------------------------------------------------------


def _up(p: Floats) -> Vec3:
    """A place with y upward."""
    return Vec3(float(p[0]), -float(p[1]), 0.0)


def _words(space: Any, lines: Sequence[str], middle: Floats, layer: str) -> None:
    """Lines of words one under the other, about the middle of their piece."""
    for k, words in enumerate(lines):
        at = _up(middle + np.array([0.0, (k - (len(lines) - 1) / 2.0) * 1.6 * _WORDS]))
        text = space.add_text(words, height=_WORDS, dxfattribs={"layer": layer})
        text.set_placement(at, align=TextEntityAlignment.MIDDLE_CENTER)


def _box(shape: PieceShape) -> tuple[Floats, Floats]:
    places = np.concatenate([shape.cut.reshape(-1, 2), *(c.reshape(-1, 2) for _, c in shape.net)])
    return places.min(axis=0), places.max(axis=0)


def _strokes(shape: PieceShape) -> Iterator[tuple[Floats, Floats]]:
    """Each stroke of each balance mark, out to the cutting line: from the sewing line, or `_BARE` within the cut."""
    for notch in shape.notches:
        out = np.array([notch.out_x, notch.out_y])
        for k in range(notch.count):
            beside = (k - (notch.count - 1) / 2.0) * 5.0
            at = np.array([notch.x - notch.out_y * beside, notch.y + notch.out_x * beside])
            yield at + min(0.0, notch.deep - _BARE) * out, at + notch.deep * out


__all__ = ["LAYERS", "NUMBERS", "write_dxf"]

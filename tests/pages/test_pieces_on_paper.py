"""Pieces on paper: read back from the files in mm, and every word and sign where it may stand."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box
from shapely.ops import unary_union

from tapewright.app.piecing import written
from tapewright.diagnostics import Source
from tapewright.draft import evaluate, from_arrays
from tapewright.language import read_lesson
from tapewright.measures import Figure
from tapewright.pages import A4, FULL, QUARTER
from tapewright.pages.lettering import Label
from tapewright.pages.paper_piece import PieceLines, closed_cubics
from tapewright.pages.piece_drawn import DrawnPiece, draw_piece
from tapewright.pages.piece_from import sheet_of
from tapewright.pages.piece_pages import piece_pages
from tapewright.pages.piece_shelves import GAP, Windows, fair_width, fewest_pages, shelved
from tapewright.pages.piece_words import cut_words, turning_words
from tapewright.pages.room import pieces_of
from tapewright.pieces import Pattern, pattern_of
from tapewright.plan import build_plan
from tests.export.reading import SeenPath, paths
from tests.garments.people import drawn as drawn_for
from tests.lessons import lesson_text
from tests.pages.cut_lessons import LESSONS, cut_lesson
from tests.survey import Sex

HUNDREDTH = 0.01


def measured(cubic: list[tuple[float, float]]) -> float:
    """The length of a cubic by 40-point Gauss-Legendre quadrature of its speed: numpy's own nodes."""
    nodes, weights = np.polynomial.legendre.leggauss(40)
    t = (nodes + 1) / 2
    p = np.array(cubic)
    d = 3 * (p[1:] - p[:-1])
    speed = ((1 - t) ** 2)[:, None] * d[0] + (2 * t * (1 - t))[:, None] * d[1] + (t**2)[:, None] * d[2]
    return float((np.hypot(speed[:, 0], speed[:, 1]) * weights).sum() / 2)


def path_length(path: SeenPath) -> float:
    """How long a path read from a PDF is, mm."""
    long, at, held = 0.0, (0.0, 0.0), []
    for kind, x, y in path.steps:
        if kind == "move":
            at = (x, y)
        elif kind == "to":
            long, at = long + math.hypot(x - at[0], y - at[1]), (x, y)
        else:
            held.append((x, y))
            if len(held) == 3:
                long, at, held = long + measured([at, *held]), (x, y), []
    return long


def svg_length(d: str) -> float:
    """How long the path of an SVG is, mm; only M, C, L and Z stand in ours."""
    long, at = 0.0, (0.0, 0.0)
    for letter, text in re.findall(r"([MCLZ])([^MCLZ]*)", d):
        n = [float(v) for v in text.split()]
        if letter == "C":
            long += measured([at, (n[0], n[1]), (n[2], n[3]), (n[4], n[5])])
        elif letter == "L":
            long += math.hypot(n[0] - at[0], n[1] - at[1])
        at = (n[-2], n[-1]) if n else at
    return long


@pytest.mark.parametrize("scale", ["1", "1/4"])
@pytest.mark.parametrize("name", LESSONS)
def test_lengths_in_a_pdf_are_those_of_the_pattern(name: str, scale: str) -> None:
    """Every net edge and every cutting line is a path of the PDF, as long as the data say: to 0.01 mm on paper.

    The paths are read with PDFium and measured with numpy's Gauss nodes.
    """
    cut = cut_lesson(name, scale)
    ((_, data),) = written(cut, Path("pieces.pdf"), "")
    found = np.array(sorted(path_length(p) for p in paths(data) if p.stroked))
    factor = {"1": 1.0, "1/4": 0.25}[scale]
    for piece in cut.data()["pieces"]:
        wanted = [e["length"] for e in piece["edges"] if e["length"] > 0.0] + [piece["cut line"]["length"]]
        for length in wanted:
            assert np.abs(found - length * factor).min() < HUNDREDTH, (piece["name"], length)


@pytest.mark.parametrize("name", LESSONS)
def test_lengths_in_an_svg_are_those_of_the_pattern(name: str) -> None:
    """Each piece is a group named after it, its edges groups within; each is as long as the data say, to 0.01 mm."""
    cut = cut_lesson(name)
    ((_, data),) = written(cut, Path("pieces.svg"), "")
    ns = "{http://www.w3.org/2000/svg}"
    groups = {g.get("id", ""): g for g in ET.fromstring(data).iter(f"{ns}g")}
    for piece in cut.data()["pieces"]:
        named = "piece-" + piece["name"].replace(" ", "-")
        parts = [g.get("id") for g in groups[named].findall(f"{ns}g")]
        assert {f"{named}-net", f"{named}-cut", f"{named}-words"} <= set(parts)
        lengths = [svg_length(p.get("d", "")) for p in groups[f"{named}-net"].iter(f"{ns}path")]
        assert lengths == pytest.approx([e["length"] for e in piece["edges"] if e["cubics"]], abs=HUNDREDTH)
        (outline,) = [p.get("d", "") for p in groups[f"{named}-cut"].iter(f"{ns}path")]
        assert svg_length(outline) == pytest.approx(piece["cut line"]["length"], abs=HUNDREDTH)
        # One closed line: a cutter that follows paths lifts its blade nowhere.
        assert outline.count("M") == 1
        assert outline.endswith("Z")


@pytest.mark.parametrize("name", LESSONS)
def test_areas_are_shapelys(name: str) -> None:
    """The areas given are those that shapely finds of the outlines given, but for what flattening at 0.01 mm
    takes off."""
    for piece in cut_lesson(name).data()["pieces"]:
        for key, cubics in (
            ("net", [c for e in piece["edges"] for c in e["cubics"]]),
            ("cut", piece["cut line"]["cubics"]),
        ):
            flat = pieces_of(np.array(cubics))
            outline = Polygon(flat[:, :2])
            assert piece["area"][key] == pytest.approx(outline.area, abs=0.01 * outline.length)


# --- words and signs -------------------------------------------------------------------------------


def _polygon(one: DrawnPiece, k: float) -> Polygon:
    flat = pieces_of(np.concatenate([e.net for e in one.piece.edges]) * k)
    return Polygon(flat[:, :2]).buffer(0)


def _quads(labels: tuple[Label, ...]) -> list[Polygon]:
    return [Polygon(label.corners) for label in labels]


def _stands_clear(one: DrawnPiece, k: float) -> None:
    net = _polygon(one, k)
    inner = [*one.along, *one.names, *(() if one.outside else one.label)]
    signs = [s.label for s in one.grain if s.label is not None]
    for label in (*inner, *signs):
        # PDF and paper know nothing finer than a thousandth of a millimetre.
        assert net.buffer(1e-3).covers(Polygon(label.corners)), (one.piece.name, label.name)
    every = [*one.label, *one.along, *one.names, *signs]
    for a, b in combinations(every, 2):
        if a in one.label and b in one.label:
            continue
        assert not Polygon(a.corners).intersects(Polygon(b.corners)), (one.piece.name, a.name, b.name)
    strokes = [LineString(run) for sign in one.grain for run in sign.runs]
    for line in strokes:
        if one.piece.on != "fold":
            assert net.buffer(1e-3).covers(line)
        for label in [x for x in every if x not in signs]:
            assert not line.intersects(Polygon(label.corners)), (one.piece.name, label.name)
    cut = pieces_of(np.asarray(one.piece.cut) * k)
    lines = unary_union([LineString([tuple(p[:2]), tuple(p[2:])]) for p in cut])
    for label in (*inner, *signs):
        assert not lines.intersects(Polygon(label.corners)), (one.piece.name, label.name)


@pytest.mark.parametrize("scale", ["1", "1/2", "1/4"])
@pytest.mark.parametrize("name", LESSONS)
def test_words_stand_inside_and_touch_nothing(name: str, scale: str) -> None:
    """With shapely: words lie within the net line, clear of each other, of the grain and of the cutting line."""
    factor = {"1": 1.0, "1/2": 0.5, "1/4": 0.25}[scale]
    for one in cut_lesson(name, scale, letters=True).drawn:
        _stands_clear(one, factor)


@pytest.mark.parametrize(
    ("name", "sex", "stays"), [("a-mans-waistcoat", Sex.MEN, False), ("a-tabbed-bodice", Sex.WOMEN, True)]
)
def test_words_stand_clear_on_many_figures(name: str, sex: Sex, stays: bool) -> None:
    """As above for ten people of the 1988 survey (US Army, public domain) at full and quarter size."""
    pattern = pattern_of(drawn_for(name, sex, stays=stays, count=10))
    for row in range(0, 10, 3):
        sheet = sheet_of([("", pattern)], row, wearer_line="For one of many, measured on 1 May 1988")
        for scale in (FULL, QUARTER):
            for piece in sheet.pieces:
                _stands_clear(draw_piece(piece, scale, PieceLines.BOTH), float(scale.factor))


def test_every_piece_says_its_name_within_at_full_size() -> None:
    """At full size no label of a shipped lesson needs to stand outside its piece."""
    for name in LESSONS:
        assert not [one.piece.name for one in cut_lesson(name).drawn if one.outside]


def test_a_label_too_large_stands_outside_with_a_leader() -> None:
    """A strip of 12 mm at quarter size holds no words: they stand beside it, the leader's end within."""
    pattern = _panel("3 mm", "12 cm")
    (piece,) = sheet_of([("", pattern)]).pieces
    one = draw_piece(piece, QUARTER, PieceLines.BOTH)
    assert one.outside
    (leader,) = [label.leader for label in one.label if label.leader]
    net = _polygon(one, 0.25)
    from shapely.geometry import Point

    assert net.contains(Point(leader[0], leader[1]))
    assert not any(q.intersects(net) for q in _quads(one.label))


def _panel(
    high: str, wide: str, cut: str = "twice of cloth", turning: str = "1 cm", more: str = ""
) -> Pattern:
    """A rectangle A-C-D-B, cut as told, for one body."""
    cloths = "cloth linen silk wool canvas".split()
    text = lesson_text(
        "Begin at A, with the centre back on the left and the centre front on the right.",
        f"From A down to B: {high}. From A across to C: {wide}.",
        "Square across from B and down from C to D.",
        f"Let the panel be the outline A to C, to D, to B, to A. {more}",
        f"Cut the panel {cut}, with A-B on the grain, leaving {turning} everywhere.",
        measures=("bust",),
    ).replace("## The frame", "## Cloth\n" + "\n".join(f"- {c}" for c in cloths) + "\n\n## The frame")
    plan = build_plan(read_lesson(Source("panel.md", text)))
    return pattern_of(evaluate(plan, from_arrays({"bust": np.array([900.0])}, Figure.WOMAN)))


@pytest.mark.parametrize(
    ("cut", "side", "said"),
    [
        ("twice of cloth", "", "Cut 2 of cloth, a pair"),
        ("4 times of linen", "", "Cut 4 of linen, two pairs"),
        ("once of silk", "", "Cut 1 of silk"),
        ("3 times of wool", "", "Cut 3 of wool"),
        ("twice of cloth", "left", "Cut 1 of cloth"),
        ("twice of cloth and once of canvas", "", "Cut 2 of cloth, a pair; 1 of canvas"),
    ],
)
def test_an_even_number_is_cut_in_pairs(cut: str, side: str, said: str) -> None:
    """Two are one to each side, mirrored; an odd number or one side of two is not. Common practice, no source."""
    (piece,) = _panel("20 cm", "15 cm", cut).pieces
    assert cut_words(piece, side).replace("\u00a0", " ") == said


def test_turnings_are_told_by_their_widths() -> None:
    """Hand-worked: what most of the edge has comes first."""
    (piece,) = _panel("20 cm", "15 cm", turning="2 cm at A-C and 1 cm").pieces
    assert turning_words(piece, 0) in {"Turnings 1.0 cm; 2.0 cm at A–C"}


def test_a_balance_mark_is_struck_across_the_turning() -> None:
    """Hand-worked: two strokes at 100 mm on the edge x = 150, square to it, from inside to the cutting line at 160."""
    pattern = _panel("20 cm", "15 cm", more="From C down to M: 10 cm. Mark C-D at M, two notches.")
    (piece,) = sheet_of([("", pattern)]).pieces
    from tapewright.pages.piece_signs import notch_sign

    (notch,) = piece.notches
    sign = notch_sign(notch, 1.0, 4.4, PieceLines.BOTH)
    assert len(sign.runs) == 2
    for run in sign.runs:
        (x0, y0), (x1, y1) = run
        assert y0 == pytest.approx(y1)
        assert abs(y0 - 100.0) < 2.0
        assert x0 < 150.0
        assert x1 == pytest.approx(160.0)


def test_what_is_marked_within_is_drawn_and_named() -> None:
    """A slanting line and a letter of a panel: both drawn where they are, both named, clear of all else."""
    pattern = _panel(
        "35 cm",
        "45 cm",
        more="Join A to D; call it the button line. From A down to K: 10 cm; then right to L: 20 cm. "
        "Mark the button line on the panel. Mark L on the panel.",
    )
    (piece,) = sheet_of([("", pattern)]).pieces
    assert [(name, x, y) for name, x, y in piece.points] == [("L", 200.0, 100.0)]
    for scale in (FULL, QUARTER):
        one = draw_piece(piece, scale, PieceLines.BOTH)
        assert [label.name for label in one.names] == ["L", "button line"]
        _stands_clear(one, float(scale.factor))
        slant = LineString([(0, 0), (450, 350)])
        (line,) = [run for _, run in piece.lines]
        assert slant.hausdorff_distance(LineString([tuple(line[0, 0]), tuple(line[-1, 3])])) < 1e-6


def test_gaps_of_rounding_are_closed() -> None:
    """Two halves of a square that miss each other by 0.001 mm become one closed run without a jump."""
    one = np.array([[(0.0, 0.0), (1, 0), (2, 0), (3.0, 0.0)], [(3.0, 0.001), (3, 1), (3, 2), (3.0, 3.0)]])
    two = np.array([[(3.0, 3.0), (2, 2), (1, 1), (0.0, 0.001)]])
    closed = closed_cubics([one, two])
    assert len(closed) == 3
    for a, b in zip(closed, np.roll(closed, -1, axis=0), strict=True):
        assert tuple(a[3]) == tuple(b[0])


# --- beside each other -------------------------------------------------------------------------------

SIZE = st.tuples(st.floats(5, 900), st.floats(5, 900))


@settings(max_examples=150)
@given(st.lists(SIZE, min_size=1, max_size=12), st.floats(100, 2000))
def test_no_piece_lies_over_another(sizes: list[tuple[float, float]], width: float) -> None:
    """With shapely: boxes on shelves are apart, with and without pages, and within the whole."""
    for windows in (None, Windows.of(A4), Windows.of(A4, bare=False)):
        spots, (wide, high) = shelved(sizes, width, windows)
        laid = [box(x, y, x + w, y + h) for (x, y), (w, h) in zip(spots, sizes, strict=True)]
        for a, b in combinations(laid, 2):
            assert a.distance(b) > GAP - 1e-6
        assert max(b.bounds[2] for b in laid) == pytest.approx(wide)
        assert max(b.bounds[3] for b in laid) == pytest.approx(high)


@settings(max_examples=60)
@given(st.lists(SIZE, min_size=1, max_size=8))
def test_what_one_page_holds_stands_on_one_page(sizes: list[tuple[float, float]]) -> None:
    """Pages of A4 overlap by 10 mm. A piece no wider than a window lies wholly in one, and so with its height."""
    way, spots = fewest_pages(sizes, A4)
    across, down = way.room
    assert across is not None
    assert down is not None
    # The strip for a page's name takes 9 mm of the height.
    for (x, y), (w, h) in zip(spots, sizes, strict=True):
        for at, long, window in ((x, w, across), (y, h, down - 9)):
            if long <= window:
                starts = [c * (window - 10) for c in range(200)]
                assert any(at >= s - 1e-6 and at + long <= s + window + 1e-6 for s in starts)


def test_rows_of_one_page_are_near_half_as_wide_again_as_high() -> None:
    """Six squares of 100 mm stand three by two: 320 by 210 mm with the gaps. Hand-worked."""
    assert shelved([(100.0, 100.0)] * 6, fair_width([(100.0, 100.0)] * 6))[1] == (320.0, 210.0)


def test_words_keep_clear_of_the_joins_of_pages() -> None:
    """On A4 at full size no word of a piece is cut by the edge of a page: read from the pages themselves."""
    cut = cut_lesson("a-tabbed-bodice", paper=A4)
    pages = piece_pages(cut.sheet, A4, FULL, cut.drawn)
    assert len(pages.pages) > 4
    from tapewright.drawing import Box, Clip, Words, box_of, every

    for page in pages.pages:
        if page.window is None or page.corner is None:
            continue
        left, top = page.corner
        frame = Box(left, top, left + page.window.width, top + page.window.height)
        inside = [m for clip in page.drawing.marks if isinstance(clip, Clip) for m in every(clip.marks)]
        boxes = [box_of(m) for m in inside if isinstance(m, Words)]
        for one in boxes:
            assert one is None or frame.padded(1e-6).holds(one)

"""The SVG writer."""

from __future__ import annotations

import base64
import io
import math
import re
import xml.etree.ElementTree as ET

import pytest
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]
from hypothesis import given
from hypothesis import strategies as st

from tapewright.drawing import (
    FACE_NAMES,
    Box,
    Clip,
    Drawing,
    Fill,
    Group,
    Line,
    Stroke,
    Words,
    circle,
    face,
    rectangle,
    set_text,
    straight,
)
from tapewright.export import svg
from tapewright.export.svg import identifier, number
from tests.export.test_pdf import a_drawing

NS = "{http://www.w3.org/2000/svg}"


def read(data: bytes) -> ET.Element:
    return ET.fromstring(data.decode())


def embedded(data: bytes) -> dict[str, object]:
    """The faces inside the file, by the family names that its text asks for."""
    found = re.findall(
        r'font-family:"([^"]+)";(?:font-[a-z]+:[a-z]+;)?src:url\(data:font/woff2;base64,([^)]+)\)',
        data.decode(),
    )
    return {family: TTFont(io.BytesIO(base64.b64decode(packed))) for family, packed in found}


def test_it_is_in_true_millimetres() -> None:
    """Width and height are given in mm, and one unit of the drawing is one of them (SVG 1.1, 7.7)."""
    root = read(svg(a_drawing()))
    assert (root.get("width"), root.get("height")) == ("210mm", "297mm")
    assert root.get("viewBox") == "0 0 210 297"


def test_the_same_drawing_is_the_same_bytes() -> None:
    """Two writes of one drawing differ in nothing."""
    assert svg(a_drawing()) == svg(a_drawing())


def test_paths_are_written_as_drawn() -> None:
    """Places keep four digits of a millimetre; line, dash and ends are told apart."""
    line = Line(0.66, dash=(1.9, 1.1), cap="round", join="mitre")
    root = read(svg(Drawing(9, 9, (Stroke(straight(1.23456, 2, 3, -4.5), line),))))
    path = root.findall(f"{NS}path")[1]
    assert path.get("d") == "M1.2346 2L3 -4.5"
    assert path.get("stroke-width") == "0.66"
    assert path.get("stroke-dasharray") == "1.9 1.1"
    assert (path.get("stroke-linecap"), path.get("stroke-linejoin")) == ("round", "miter")
    assert path.get("fill") == "none"


def test_every_character_has_its_place() -> None:
    """Each run of text gives one x for each of its characters, the very ones that were set."""
    setting = set_text("AVAIL 1 1/2 Tape", "book", 8.0)
    root = read(svg(Drawing(99, 99, (Words(setting, 10, 20, -math.pi / 2),))))
    (text,) = root.iter(f"{NS}text")
    assert text.get("transform") == "translate(10 20) rotate(-90)"
    spans = list(text.iter(f"{NS}tspan"))
    assert [span.text for span in spans] == [run.text for run in setting.runs]
    for span, run in zip(spans, setting.runs, strict=True):
        xs = [float(x) for x in (span.get("x") or "").split()]
        assert xs == pytest.approx(run.at, abs=1e-4)
        assert float(span.get("y") or "nan") == pytest.approx(run.drop, abs=1e-4)
        families = (span.get("font-family") or "").split(", ")
        assert families[0] == f"tapewright-{run.face}"
        assert families[-1] in {"serif", "sans-serif"}


def test_spaces_are_kept() -> None:
    """Several spaces in a row are not run together, or the places would shift: xml:space is set."""
    root = read(svg(Drawing(9, 9, (Words(set_text("a  b", "book", 4.0), 0, 5),))))
    assert root.get("{http://www.w3.org/XML/1998/namespace}space") == "preserve"
    (span,) = root.iter(f"{NS}tspan")
    assert span.text == "a  b"


def test_exactly_the_used_glyphs_are_embedded() -> None:
    """Every face used is in the file with the characters it sets and no others, outlines unchanged."""
    data = svg(a_drawing())
    root = read(data)
    used: dict[str, set[str]] = {}
    for span in root.iter(f"{NS}tspan"):
        used.setdefault((span.get("font-family") or "").split(",")[0], set()).update(span.text or "")
    fonts = embedded(data)
    assert set(fonts) == set(used)
    for family, characters in used.items():
        font = fonts[family]
        assert {chr(code) for code in font.getBestCmap()} == characters  # type: ignore[attr-defined]
        whole = TTFont(io.BytesIO(face(family.removeprefix("tapewright-")).data))
        for character in characters:
            part, all_of = font.getBestCmap()[ord(character)], whole.getBestCmap()[ord(character)]  # type: ignore[attr-defined]
            assert font["hmtx"][part] == whole["hmtx"][all_of]  # type: ignore[index]
            assert font["glyf"][part] == whole["glyf"][all_of]  # type: ignore[index]


def test_a_face_is_as_italic_or_bold_as_the_text_that_asks_for_it() -> None:
    """Style and weight are told alike of the embedded face and of its text (CSS Fonts 3, section 4.5), so
    that a viewer without embedded faces slants its own and one with them does not slant ours twice."""
    marks = tuple(Words(set_text("A", name, 4.0), 0, 5) for name in FACE_NAMES)
    data = svg(Drawing(9, 9, marks)).decode()
    for name, style in (
        (
            "book-italic",
            "font-style",
        ),
        ("book-bold", "font-weight"),
        ("hand-bold", "font-weight"),
    ):
        look = name.partition("-")[2]
        assert f'font-family:"tapewright-{name}";{style}:{look};' in data
        assert re.search(rf'font-family="tapewright-{name}, [^"]+" {style}="{look}"', data)
    for name in ("book", "hand"):
        assert f'font-family:"tapewright-{name}";src:' in data
        assert re.search(rf'font-family="tapewright-{name}, [^"]+" font-size', data)


def test_the_licence_travels_with_the_face() -> None:
    """The embedded part still says whose it is and under which licence (SIL OFL 1.1, condition 2)."""
    for font in embedded(svg(a_drawing())).values():
        names = " ".join(str(record) for record in font["name"].names)  # type: ignore[index]
        assert "scripts.sil.org/OFL" in names


def test_groups_keep_their_names_as_ids() -> None:
    """A group's name is its id; the same name twice gets a number; ids are unique in the file."""
    mark = Stroke(straight(0, 0, 1, 1), Line(0.1))
    groups = tuple(Group(name, (mark,)) for name in ("the scye", "the scye", "H2'", "½", "", "the scye 2"))
    root = read(svg(Drawing(9, 9, (*groups, Clip(rectangle(Box(0, 0, 1, 1)), (mark,))))))
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert ids[:3] == ["the-scye", "the-scye-2", "h2-prime"]
    assert len(set(ids)) == len(ids)
    assert all(re.fullmatch(r"[a-z][a-z0-9-]*", name or "") for name in ids)


def test_a_clip_refers_to_its_path() -> None:
    """What is clipped names the clip path that stands in the file."""
    marks = (Fill(circle(5, 5, 4), Line(1).ink),)
    root = read(svg(Drawing(9, 9, (Clip(rectangle(Box(0, 0, 5, 9)), marks),))))
    (clip,) = root.iter(f"{NS}clipPath")
    users = [element for element in root.iter() if element.get("clip-path") == f"url(#{clip.get('id')})"]
    assert len(users) == 1


@given(st.text(max_size=30), st.text(max_size=30))
def test_any_words_make_a_file_that_can_be_read(words: str, name: str) -> None:
    """Brackets, ampersands, control characters and half a surrogate never break the XML."""
    read(svg(Drawing(9, 9, (Group(name, (Words(set_text(words, "book", 3.0), 0, 5),)),), name)))


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0, "0"), (-0.00001, "0"), (12.0, "12"), (0.5, "0.5"), (-3.25, "-3.25"), (1 / 3, "0.3333")],
)
def test_numbers_are_short(value: float, text: str) -> None:
    """Four digits at most, no trailing noughts, no minus nought, no exponent."""
    assert number(value) == text


def test_ids_are_plain() -> None:
    """Any name becomes letters, figures and hyphens, and begins with a letter."""
    assert identifier("Côté droit") == "cote-droit"
    assert identifier("12") == "mark-12"
    assert identifier("…") == "mark"

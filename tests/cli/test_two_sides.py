"""A wearer with two different sides: the half draft drawn for the left and for the right."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.test_cli import SHEET, run
from tests.lessons import lesson_text

LESSON = lesson_text(
    "Begin at A, with the centre back on the left and the centre front on the right.",
    "From A down to B: the nape to waist. From A across to C: a quarter of the bust.",
    "From A at the shoulder slope from A-C toward B to S: the shoulder. Square across from B and down from C to D.",
    "Let the panel be the outline A to S, to D, to B, to A.",
    "Cut the panel twice of cloth and once of lining, with A-B on the grain, leaving 1 cm everywhere.",
    "See that A-S is the same on both sides. See that A-B is the nape to waist.",
    measures=("bust", "nape to waist", "shoulder", "shoulder slope, left and right"),
).replace("On the half.", "On the half, left and right.")
ONE_SIDED = (
    SHEET + "  shoulder: {left: 13.0, right: 12.0}\n  shoulder slope: {left: 20 degrees, right: 27 degrees}\n"
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The lesson and a sheet whose sides differ."""
    (tmp_path / "panel.md").write_text(LESSON, encoding="utf-8")
    (tmp_path / "ann.yaml").write_text(ONE_SIDED, encoding="utf-8")
    return tmp_path


def test_each_side_is_drawn_with_its_own_measures(folder: Path) -> None:
    """Left with the left, right with the right, what has no sides with both."""
    result = run("draft", folder / "panel.md", "--for", folder / "ann.yaml", "--json")
    data = json.loads(result.stdout)
    left, right = data["sides"]["left"], data["sides"]["right"]
    assert left["lines"]["A-S"]["length"] == pytest.approx(130)
    assert right["lines"]["A-S"]["length"] == pytest.approx(120)
    assert left["points"]["B"] == right["points"]["B"]
    assert [p["name"] for p in left["pieces"] + right["pieces"]] == ["left panel", "right panel"]
    # Two of cloth are one to each side; of the one lining each side gets one.
    assert [c["count"] for c in left["pieces"][0]["cut"]] == [1, 1]


def test_what_must_be_the_same_is_compared(folder: Path) -> None:
    """The claim of the lesson does not hold; the centre back, checked unasked, does."""
    result = run("draft", folder / "panel.md", "--for", folder / "ann.yaml", "--json")
    checks = {c["claim"]: c for c in json.loads(result.stdout)["checks"]}
    shoulder = checks["A-S is the same on both sides"]
    assert (shoulder["holds"], shoulder["difference"]) == (False, pytest.approx(10))
    assert checks["the centre line B-A is the same on both sides"]["holds"]
    assert "sides-disagree" in [q["name"] for q in json.loads(result.stdout)["queries"]]


def test_both_plates_are_written(folder: Path) -> None:
    """Two pages in the PDF, one picture with both in the SVG."""
    import pypdfium2

    run("draft", folder / "panel.md", "--for", folder / "ann.yaml", "-o", folder / "a.pdf")
    assert len(pypdfium2.PdfDocument(folder / "a.pdf")) >= 2
    run("draft", folder / "panel.md", "--for", folder / "ann.yaml", "-o", folder / "a.svg")
    svg = (folder / "a.svg").read_text(encoding="utf-8")
    assert svg.count("<svg") == 1

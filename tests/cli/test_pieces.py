"""`tapewright pieces` as a maker uses it: what it prints, what it writes, how it leaves."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pikepdf
import pytest

from tests.cli.test_cli import SHEET, run
from tests.cli.test_two_sides import LESSON, ONE_SIDED
from tests.lessons import lesson_text

ITEMS = (
    "Begin at A, with the centre back on the left and the centre front on the right.",
    "From A down to B: the nape to waist. From A across to C: half the bust.",
    "Square across from B and down from C to D. Let the panel be the outline A to C, to D, to B, to A.",
    "Cut the panel twice of cloth, with A-B on the grain, leaving 2 cm at A-C and 1 cm elsewhere.",
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A panel of 480 by 400 mm, another lesson that cuts nothing, a sheet with two like sides, one without."""
    (tmp_path / "panel.md").write_text(lesson_text(*ITEMS), encoding="utf-8")
    (tmp_path / "uncut.md").write_text(lesson_text(*ITEMS[:3]), encoding="utf-8")
    (tmp_path / "sides.md").write_text(LESSON, encoding="utf-8")
    (tmp_path / "ann.yaml").write_text(SHEET, encoding="utf-8")
    (tmp_path / "two.yaml").write_text(ONE_SIDED, encoding="utf-8")
    sheets = tmp_path / "sheets"
    sheets.mkdir()
    (sheets / "ann.yaml").write_text(SHEET, encoding="utf-8")
    (sheets / "bess.yaml").write_text(SHEET.replace("Ann Field", "Bess Field"), encoding="utf-8")
    return tmp_path


def test_the_data_are_those_of_a_panel_worked_by_hand(folder: Path) -> None:
    """96 cm of bust, 40 cm of back: net 48 x 40, cut 50 x 43 cm; the turnings as they are said."""
    result = run("pieces", folder / "panel.md", "--for", folder / "ann.yaml", "--json")
    assert result.returncode == 0, result.stderr
    (piece,) = json.loads(result.stdout)["pieces"]
    assert piece["cut"] == [{"count": 2, "of": "cloth", "pairs": 1}]
    assert [(e["name"], e["length"], e["turning"]) for e in piece["edges"]] == [
        ("A-C", 480.0, 20.0),
        ("C-D", 400.0, 10.0),
        ("D-B", 480.0, 10.0),
        ("B-A", 400.0, 10.0),
    ]
    assert piece["area"]["net"] == pytest.approx(480 * 400)
    assert piece["area"]["cut"] == pytest.approx(500 * 430)
    assert piece["cut line"]["length"] == pytest.approx(2 * (500 + 430))


def test_other_turnings_take_the_place_of_those_elsewhere(folder: Path) -> None:
    """With --turnings 3cm what is said for A-C stays 2 cm, the rest is 3: cut 54 x 45 cm. Hand-worked."""
    result = run("pieces", folder / "panel.md", "--for", folder / "ann.yaml", "--turnings", "3cm", "--json")
    (piece,) = json.loads(result.stdout)["pieces"]
    assert piece["area"]["cut"] == pytest.approx(540 * 450)


def test_a_table_says_what_is_cut(folder: Path) -> None:
    """Name, net size and count on one line; what to do next where nothing was written."""
    result = run("pieces", folder / "panel.md", "--for", folder / "ann.yaml")
    assert result.returncode == 0, result.stderr
    assert "Panel  48.0 × 40.0 cm net  Cut 2 of cloth, a pair" in result.stdout
    assert "Nothing is written yet" in result.stdout


@pytest.mark.parametrize("ending", ["pdf", "svg", "json"])
def test_one_file_is_written(folder: Path, ending: str) -> None:
    """By its ending, and nothing beside it."""
    target = folder / "out" / f"panel.{ending}"
    result = run("pieces", folder / "panel.md", "--for", folder / "ann.yaml", "-o", target)
    assert result.returncode == 0, result.stderr
    assert [p.name for p in target.parent.iterdir()] == [target.name]
    start = {"pdf": b"%PDF", "svg": b"<?xml", "json": b"{"}[ending]
    assert target.read_bytes().startswith(start)


def test_a_folder_takes_a_pdf_and_each_piece(folder: Path) -> None:
    """For every wearer a PDF with its layers and an SVG of each piece, named after lesson, wearer and piece."""
    result = run("pieces", folder / "panel.md", "--for", folder / "sheets", "-o", folder / "out")
    assert result.returncode == 0, result.stderr
    names = sorted(p.name for p in (folder / "out").iterdir())
    assert names == [
        f"a-trial-{who}-field{more}" for who in ("ann", "bess") for more in ("-panel.svg", ".pdf")
    ]
    with pikepdf.open(io.BytesIO((folder / "out" / "a-trial-ann-field.pdf").read_bytes())) as document:
        layers = [str(g.Name) for g in document.Root.OCProperties.OCGs]
    assert layers == ["net", "cut", "marks", "grain", "words"]


def test_net_and_cut_leave_the_other_line_out(folder: Path) -> None:
    """--net draws no cutting line, --cut no sewing line; --both draws both."""
    for option, net, cut in (("--net", True, False), ("--cut", False, True), ("--both", True, True)):
        target = folder / "a.svg"
        run("pieces", folder / "panel.md", "--for", folder / "ann.yaml", option, "-o", target)
        text = target.read_text(encoding="utf-8")
        assert ('id="piece-panel-net"' in text, 'id="piece-panel-cut"' in text) == (net, cut)


def test_both_sides_are_cut_apart(folder: Path) -> None:
    """Left and right are pieces of their own, one of each where two are cut."""
    result = run("pieces", folder / "sides.md", "--for", folder / "two.yaml", "--json")
    sides = json.loads(result.stdout)["sides"]
    assert [p["name"] for side in ("left", "right") for p in sides[side]["pieces"]] == [
        "left panel",
        "right panel",
    ]
    assert sides["left"]["pieces"][0]["cut"][0] == {"count": 1, "of": "cloth", "pairs": 0}
    told = run("pieces", folder / "sides.md", "--for", folder / "two.yaml").stdout
    assert "Left panel" in told
    assert "Right panel" in told


def test_a_lesson_that_cuts_nothing_is_told_kindly(folder: Path) -> None:
    """What to write is said, nothing is written, and the command leaves well."""
    target = folder / "a.pdf"
    result = run("pieces", folder / "uncut.md", "--for", folder / "ann.yaml", "-o", target)
    assert result.returncode == 0
    assert "Cut the panel twice" in result.stdout
    assert not target.exists()


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--net", "--cut"), "--net and --cut"),
        (("--turnings", "1.5"), "1.5cm"),
        (("--turnings", "3 m"), "20 cm"),
        (("-o", "pieces.docx"), ".pdf, .svg"),
        (("--paper", "a5"), "a4"),
        (("--scale", "1/3"), "1/4"),
    ],
)
def test_options_that_cannot_be_taken(folder: Path, options: tuple[str, ...], said: str) -> None:
    """One line, what to write instead, exit status 2, nothing written."""
    before = sorted(folder.iterdir())
    result = run("pieces", folder / "panel.md", "--for", folder / "ann.yaml", *options, cwd=folder)
    assert result.returncode == 2
    assert said in result.stderr
    assert sorted(folder.iterdir()) == before


def test_one_file_for_many_is_refused(folder: Path) -> None:
    """Two wearers do not share a file."""
    result = run("pieces", folder / "panel.md", "--for", folder / "sheets", "-o", folder / "a.pdf")
    assert result.returncode == 2
    assert not (folder / "a.pdf").exists()


def test_a_file_that_cannot_be_written_leaves_what_was_there(folder: Path) -> None:
    """A folder stands where the file should: said in a line, status 2, and no part of a file is left."""
    (folder / "out.pdf").mkdir()
    result = run("pieces", folder / "panel.md", "--for", folder / "ann.yaml", "-o", folder / "out.pdf")
    assert result.returncode == 2
    assert list((folder / "out.pdf").iterdir()) == []
    assert not [p for p in folder.iterdir() if p.name.endswith(".part")]


def test_a_piece_too_large_for_any_paper_is_said(folder: Path) -> None:
    """Sixty metres are more than is printed."""
    text = lesson_text(*ITEMS).replace("half the bust", "60 m")
    (folder / "long.md").write_text(text, encoding="utf-8")
    result = run("pieces", folder / "long.md", "--for", folder / "ann.yaml", "-o", folder / "a.pdf")
    assert result.returncode in {1, 2}
    assert not (folder / "a.pdf").exists()

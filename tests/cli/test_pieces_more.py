"""`tapewright pieces`: the toile and its form, the pattern measured, DXF, widths of cloth, small wares.

What is printed is read back with pypdfium2 and ezdxf; lengths are held to elsewhere.
"""

from __future__ import annotations

import io
import json
from pathlib import Path

import pypdfium2
import pytest
from ezdxf import recover
from typer.testing import CliRunner

from tapewright.cli.main import app

JACKET = ["pieces", "a-womans-jacket", "--for", "margery-thorne-over-stays"]


def run(*words: str) -> str:
    """What the command prints; it must succeed."""
    found = CliRunner().invoke(app, list(words))
    assert found.exit_code == 0, found.output
    return found.output


def words_of(path: Path) -> list[str]:
    """The words of each page."""
    return [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(path)]


def test_for_the_toile(tmp_path: Path) -> None:
    """Calico, its lines named, no linen; the caution of stays; and on the last page a form with its five columns."""
    target = tmp_path / "toile.pdf"
    said = run(*JACKET, "--for-toile", "--scale", "1/4", "-o", str(target))
    assert "of calico" in said
    assert "linen" not in said
    pages = words_of(target)
    assert "waist line" in pages[0]
    assert "Lace only as far" in pages[0]
    for column in ("piece", "edge", "how much", "from where", "to nothing where"):
        assert column in pages[-1]


def test_the_pattern_beside_the_sheet(tmp_path: Path) -> None:
    """The scye depth by both, and what the pieces do not show is said; the same stands in the data and the PDF."""
    said = run(*JACKET, "--measured")
    assert "scye depth: 20.7 cm" in said
    assert "20.1 cm" in said
    assert "cross front: not on the pieces; the neck is cut lower" in said
    target = tmp_path / "jacket.json"
    run(*JACKET, "-o", str(target))
    data = json.loads(target.read_text())
    depth = next(m for m in data["measured"] if m["measure"] == "scye depth")
    assert depth["over"] == pytest.approx(depth["pattern"] - depth["sheet"], abs=1e-6)
    seams = data["truing"][0]["seams"]
    assert [s["verdict"] for s in seams] == ["equal", "equal", "equal"]
    assert "jacket back" in data["truing"][0]["not sewn"]
    printed = tmp_path / "jacket.pdf"
    run(*JACKET, "--scale", "1/4", "-o", str(printed))
    assert "measured as the wearer was" in words_of(printed)[-1]


def test_dxf(tmp_path: Path) -> None:
    """Both forms are written and are sound; a form that is none is refused."""
    for form in ("plain", "apparel"):
        target = tmp_path / f"{form}.dxf"
        run(*JACKET, "--form", form, "-o", str(target))
        _, auditor = recover.read(io.BytesIO(target.read_bytes()))
        assert not auditor.has_errors
    found = CliRunner().invoke(app, [*JACKET, "--form", "round"])
    assert found.exit_code == 2
    assert "plain, or apparel" in found.output


def test_a_narrow_cloth() -> None:
    """A cloth narrower than a piece is told of, by both widths; a width that is none is refused."""
    said = run(*JACKET, "--cloth", "linen=25cm")
    assert "The jacket front is" in said
    assert "the linen 25.0 cm" in said
    found = CliRunner().invoke(app, [*JACKET, "--cloth", "linen"])
    assert found.exit_code == 2
    assert "linen=80cm" in found.output


def test_small_wares(tmp_path: Path) -> None:
    """Both halves counted: 9 buttons on a side are 18, braid round a hem of 30 cm twice that."""
    lesson = tmp_path / "panel.md"
    lesson.write_text(
        "# A panel\n\nOn the half. Drafted net. Taken over: a shift.\n\n## Cloth\n\n- linen\n\n## The panel\n\n"
        "1. Begin at A, with the centre back on the left. From A down to B: 40 cm. From A across to C: 30 cm.\n"
        "2. Square across from B and down from C to D. Join C to D; call it the side.\n"
        "3. Let the panel be the outline A to C, to D by the side, to B, to A.\n"
        "4. Cut the panel twice of linen, with A-B on the grain, leaving 1 cm everywhere.\n"
        "5. Trim the side with 9 buttons. Trim D-B with braid.\n"
    )
    said = run("pieces", str(lesson))
    assert "18 buttons, 5.0 cm" in said
    assert "braid, 60.0 cm" in said

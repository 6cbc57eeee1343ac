"""`tapewright tapes` and `tapewright fan` from the command line: what is asked, written and said."""

from __future__ import annotations

import stat
import subprocess
import sys
from pathlib import Path

import pytest

from tests.export.reading import page_sizes, words

SHEET = """wearer: {name}
figure: woman
date: 2026-05-03
over: [shift]
unit: cm
measures:
  bust: {bust}
  waist: {waist}
  nape to waist: 38
  shoulder slope: 20 degrees
  cuff: 21
"""

LESSON = """# A panel

On the half. Drafted net. Taken over: a shift.

## Measures

- bust
- waist
- nape to waist

## Tapes

- bust tape: half the bust in 48 parts; the usual tape

## The panel

1. Begin at A, with the fold on the left. From A down to B: the nape to waist. From A across to C: half the waist.
"""

KNOTS = """# Knots

Source: my own, for the workshop.

- read: added

| mark | share | said |
| --- | --- | --- |
| K | 1/2 | a large knot |
| k | 1/8 | a small knot |
"""


def run(*words_: object, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """The command as a person runs it."""
    return subprocess.run(
        [sys.executable, "-m", "tapewright.cli.main", *map(str, words_)],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
        cwd=cwd,
    )


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Two sheets, a lesson and a notation of one's own."""
    sheets = tmp_path / "sheets"
    sheets.mkdir()
    (sheets / "ann.yaml").write_text(SHEET.format(name="Ann Field", bust=93.7, waist=72.9), encoding="utf-8")
    (sheets / "bess.yaml").write_text(
        SHEET.format(name="Bess Field", bust=104.3, waist=88.1), encoding="utf-8"
    )
    (tmp_path / "panel.md").write_text(LESSON, encoding="utf-8")
    (tmp_path / "knots.md").write_text(KNOTS, encoding="utf-8")
    return tmp_path


def said_in(path: Path) -> str:
    data = path.read_bytes()
    return " ".join(" ".join(words(data, i).split()) for i in range(len(page_sizes(data))))


def test_a_lessons_tapes_come_with_its_other_measures(folder: Path) -> None:
    """The tapes of the lesson and one of each other length it asks for; with figures, since it is for one.

    The bust is the whole of half a bust tape already; --no-measures leaves the others out."""
    ann = folder / "sheets" / "ann.yaml"
    result = run("tapes", folder / "panel.md", "--for", ann, "-o", folder / "t.pdf")
    assert result.returncode == 0, result.stdout + result.stderr
    assert "3 tapes: measures of Ann Field, with their figures." in result.stdout
    said = said_in(folder / "t.pdf")
    assert "half the bust, 46.9 cm" in said or "half the bust, 46.8 cm" in said
    assert "the waist, 72.9 cm" in said
    assert "the nape to waist, 38.0 cm" in said
    assert "the bust, 93.7" not in said
    assert stat.S_IMODE((folder / "t.pdf").stat().st_mode) == 0o600
    fewer = run("tapes", folder / "panel.md", "--for", ann, "-o", folder / "f.pdf", "--no-measures")
    assert "1 tape: measures" in fewer.stdout


def test_a_class_set_shows_nobodys_figures(folder: Path) -> None:
    """For a folder no figure is printed unless it is asked for; one file holds all, or each has her own."""
    sheets = folder / "sheets"
    assert run("tapes", "--for", sheets, "-o", folder / "set.pdf").returncode == 0
    said = said_in(folder / "set.pdf")
    assert "Tapes of Ann Field" in said
    assert "Tapes of Bess Field" in said
    for figure in ("93.7", "72.9", "104.3", "88.1", "cm ("):
        assert figure not in said
    result = run("tapes", "--for", sheets, "-o", folder / "each", "--centimetres")
    assert result.returncode == 0
    own = said_in(folder / "each" / "tapes-ann-field.pdf")
    assert "93.7 cm" in own
    assert "Bess" not in own
    assert "104.3" not in own


def test_left_and_right_are_two_tapes_where_they_differ(folder: Path) -> None:
    """A measure taken on both sides is taped on both, and a tape of it in a lesson for both sides twice."""
    crooked = (folder / "sheets" / "ann.yaml").read_text(encoding="utf-8")
    crooked += "  shoulder: {left: 12.4, right: 13.1}\n  arm: {left: 58, right: 58}\n"
    (folder / "crooked.yaml").write_text(crooked, encoding="utf-8")
    lesson = LESSON.replace("On the half.", "On the half, left and right.")
    lesson = lesson.replace("- waist\n", "- waist\n- shoulder, left and right\n", 1)
    lesson = lesson.replace(
        "; the usual tape\n", "; the usual tape\n- strap tape: twice the shoulder in 20 parts\n"
    )
    (folder / "both.md").write_text(lesson, encoding="utf-8")
    result = run("tapes", folder / "both.md", "--for", folder / "crooked.yaml", "-o", folder / "t.pdf")
    assert (folder / "t.pdf").exists(), result.stdout + result.stderr
    said = said_in(folder / "t.pdf")
    for words_ in ("left strap tape", "right strap tape", "24.8 cm", "26.2 cm"):
        assert words_ in said
    assert "left bust tape" not in said
    main = run("tapes", "--for", folder / "crooked.yaml", "-o", folder / "m.pdf")
    assert main.returncode == 0
    assert "left arm tape" in said_in(folder / "m.pdf")


def test_two_wearers_of_one_name_keep_their_own_tapes(folder: Path) -> None:
    """Neither file is written over the other."""
    twin = (folder / "sheets" / "ann.yaml").read_text(encoding="utf-8").replace("93.7", "99.9")
    (folder / "sheets" / "ann-over-stays.yaml").write_text(twin, encoding="utf-8")
    assert run("tapes", "--for", folder / "sheets", "-o", folder / "each").returncode == 0
    assert sorted(p.name for p in (folder / "each").iterdir()) == [
        "tapes-ann-field-ann-over-stays.pdf",
        "tapes-ann-field-ann.pdf",
        "tapes-bess-field.pdf",
    ]


def test_tapes_of_any_measure_in_words(folder: Path) -> None:
    """Half measures, a share and a length more (Hertzer 1892), any number of parts, a measure of one's own."""
    result = run(
        "tapes", "--for", folder / "sheets" / "ann.yaml", "-o", folder / "t.pdf",
        "--tape", "half the bust in 18 parts", "--tape", "the cuff",
        "--tape", "working scale: half the bust plus 2 1/2 in in 20 parts",
    )  # fmt: skip
    assert result.returncode == 0, result.stdout + result.stderr
    said = said_in(folder / "t.pdf").replace("\u2044", "/")
    assert "half bust tape" in said
    assert "in 18 parts" in said
    assert "cuff tape" in said
    assert "half the bust plus" in said
    assert "53.2 cm" in said  # 46.85 and 6.35 cm


@pytest.mark.parametrize("notation", ["half-breast", "ell-of-1771", "letters-of-1580", "plain", "knots.md"])
def test_every_notation_prints_its_key(folder: Path, notation: str) -> None:
    """Shipped ones by name, a maker's own by its file; cloth tape on a roll, half size on a sheet."""
    ann = Path("sheets/ann.yaml")
    on_roll = run(
        "tapes", "--for", ann, "-o", "r.pdf", "--notation", notation, "--layout", "roll", cwd=folder
    )
    assert on_roll.returncode == 0, on_roll.stdout + on_roll.stderr
    assert "The key:" in said_in(folder / "r.pdf")
    half = run("tapes", "--for", ann, "-o", "h.pdf", "--notation", notation, "--scale", "1/2", cwd=folder)
    assert half.returncode == 0
    assert "Half size" in said_in(folder / "h.pdf")


@pytest.mark.parametrize(
    ("options", "status", "says"),
    [
        (["--notation", "ell"], 2, "Try ell-of-1771"),
        (["--notation", "nowhere.md"], 2, "There is no nowhere.md"),
        (["--layout", "spiral"], 2, "strips or roll"),
        (["--layout", "roll", "--paper", "a4"], 2, "does not go on A4"),
        (["--scale", "1/3"], 2, "full, half or quarter"),
        (["--tape", "the bosom"], 1, "I know no such length"),
        (["--tape", "the bust in 3000 parts"], 1, "from 1 to 2000"),
        (["--tape", "the shoulder slope"], 1, "This is an angle"),
        (["--tape", "the bust less 2 m"], 1, "Nothing to print"),
        (["--tape", "the hip"], 1, "Nothing to print"),
        (["--tape", ":"], 1, "begins with the name of a tape"),
        (["--tape", "3"], 1, "length needs a unit"),
        (["--tape", "# no heading"], 1, "Question"),
    ],
    ids=lambda o: " ".join(o) if isinstance(o, list) else "",
)
def test_what_cannot_be_taped_is_asked_about(
    folder: Path, options: list[str], status: int, says: str
) -> None:
    """A query or one line with help, never a page of nothing and never a trace."""
    out = folder / "x.pdf"
    result = run("tapes", "--for", folder / "sheets" / "ann.yaml", "-o", out, *options)
    assert result.returncode == status, result.stdout + result.stderr
    assert says in result.stdout + result.stderr
    assert "Traceback" not in result.stderr
    assert not out.exists()


def test_one_wearer_without_measures_stops_no_other(folder: Path) -> None:
    """The others' tapes are written, the exit status says that something was left."""
    (folder / "sheets" / "cis.yaml").write_text(
        "wearer: Cis\nfigure: woman\nmeasures: {}\n", encoding="utf-8"
    )
    result = run("tapes", "--for", folder / "sheets", "-o", folder / "each")
    assert result.returncode == 1
    assert "Nothing to print" in result.stdout
    assert len(list((folder / "each").iterdir())) == 2


def test_the_fan_is_printed(folder: Path) -> None:
    """On A4 by default, on one page, on a roll, folded, in other parts; each says what it takes."""
    plain = run("fan", "-o", folder / "fan.pdf")
    assert plain.returncode == 0, plain.stderr
    assert "strips from 10.0 cm to 133.0 cm, in 48 parts" in plain.stdout
    assert "The graduating fan" in said_in(folder / "fan.pdf")
    assert len(page_sizes((folder / "fan.pdf").read_bytes())) == 14
    folded = run("fan", "-o", folder / "folded.pdf", "--folded")
    assert folded.returncode == 0
    assert len(page_sizes((folder / "folded.pdf").read_bytes())) == 5
    for options in (
        ["--paper", "roll:90cm"],
        ["--paper", "one-page", "--parts", "18"],
        ["--longest", "160 cm"],
    ):
        assert run("fan", "-o", folder / "f.pdf", *options).returncode == 0


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["--paper", "roll:40cm"], "too narrow"),
        (["--parts", "7", "--folded"], "an even number"),
        (["--parts", "1000"], "cannot be marked by hand"),
        (["--parts", "0"], "from 2 to"),
        (["--longest", "zebra"], "a length from 50 cm"),
        (["--longest", "-3 cm"], "a length from 50 cm"),
        (["--longest", "1 km"], "a length from 50 cm"),
    ],
    ids=lambda o: " ".join(o) if isinstance(o, list) else "",
)
def test_a_fan_that_cannot_be_is_told(folder: Path, options: list[str], says: str) -> None:
    """One line that says what is so and what to try."""
    result = run("fan", "-o", folder / "f.pdf", *options)
    assert result.returncode == 2
    assert says in result.stderr
    assert "Traceback" not in result.stderr
    assert not (folder / "f.pdf").exists()
    assert run("fan", "-o", folder / "f.svg").returncode == 2

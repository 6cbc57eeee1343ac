"""The command as a maker uses it: what it prints, what it writes, how it leaves."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tapewright.app.library import lessons, wearers
from tests.lessons import lesson_text

TAPEWRIGHT = str(Path(sys.executable).parent / "tapewright")
WOMAN = str(wearers()["margery-thorne"])
SHEET = """\
wearer: Ann Field
figure: woman
date: 2026-02-01
over: a shift
unit: cm
measures:
  bust: 96
  waist: 72
  nape to waist: 40
"""
ITEMS = (
    "Begin at A, with the centre back on the left and the centre front on the right.",
    "From A down to B: the nape to waist. From A across to C: half the bust plus half the ease.",
    "Square across from B and down from C to D. Let the panel be the outline A to C, to D, to B, to A.",
    "Cut the panel once of cloth, leaving nothing everywhere. See that A-B is the nape to waist.",
)


def run(*arguments: str | Path, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Run the command."""
    return subprocess.run(
        [TAPEWRIGHT, *map(str, arguments)], capture_output=True, text=True, check=False, cwd=cwd
    )


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a lesson and two sheets."""
    (tmp_path / "panel.md").write_text(lesson_text(*ITEMS), encoding="utf-8")
    sheets = tmp_path / "sheets"
    sheets.mkdir()
    (sheets / "ann.yaml").write_text(SHEET, encoding="utf-8")
    (sheets / "bess.yaml").write_text(
        SHEET.replace("Ann Field", "Bess Field").replace("96", "104"), encoding="utf-8"
    )
    return tmp_path


def test_json_has_the_shape_that_programs_rely_on(folder: Path) -> None:
    """Points, lines, choices, checks, pieces and queries, in millimetres."""
    result = run("draft", folder / "panel.md", "--for", folder / "sheets" / "ann.yaml", "--json")
    assert result.returncode == 0, result.stderr
    data = json.loads(result.stdout)
    assert data["lesson"] == "A trial"
    assert data["wearer"] == "Ann Field"
    assert data["unit"] == "mm"
    assert data["points"]["C"] == {"at": [505.4, 0.0], "sentence": 2}
    line = data["lines"]["A-B"]
    assert (line["kind"], line["length"], line["sentence"]) == ("straight", 400.0, 2)
    assert line["cubics"][0][0] == [0.0, 0.0]
    assert line["cubics"][0][3] == [0.0, 400.0]
    assert data["choices"]["ease"]["value"] == 50.8
    check = data["checks"][0]
    assert {"claim", "left", "right", "difference", "holds"} <= set(check)
    assert check["holds"]
    assert data["pieces"][0]["name"] == "panel"
    assert data["queries"] == []


def test_a_query_in_json_says_where_and_what_to_try(folder: Path) -> None:
    """Line, column and both ends; help; answers with what they would put in place."""
    (folder / "slip.md").write_text(
        lesson_text(ITEMS[0], "From A down to B: the nape to wiast."), encoding="utf-8"
    )
    result = run("draft", folder / "slip.md", "--for", folder / "sheets" / "ann.yaml", "--json")
    assert result.returncode == 1
    query = json.loads(result.stdout)["queries"][0]
    assert query["kind"] == "question"
    assert query["name"] == "name-unknown"
    assert query["sentence"] == 2
    text = (folder / "slip.md").read_text(encoding="utf-8").splitlines()[query["line"] - 1]
    assert text[query["column"] - 1 : query["end_column"] - 1] == "nape to wiast"
    assert query["answers"] == [{"say": "Did you mean the nape to waist?", "replace": "nape to waist"}]


def test_a_folder_of_sheets_gives_one_result_each(folder: Path) -> None:
    """One that stops, stops no other."""
    (folder / "sheets" / "chloe.yaml").write_text("wearer: [", encoding="utf-8")
    result = run("draft", folder / "panel.md", "--for", folder / "sheets", "-o", folder / "out")
    assert result.returncode == 1
    written = sorted(p.name for p in (folder / "out").iterdir())
    assert written == sorted(
        f"a-trial-{who}-field.{kind}" for who in ("ann", "bess") for kind in ("json", "pdf", "svg")
    )
    assert "Traceback" not in result.stdout + result.stderr


def test_files_are_the_same_bytes_every_time(folder: Path) -> None:
    """PDF, SVG and JSON are repeatable byte for byte, in separate processes."""
    for kind in ("pdf", "svg", "json"):
        made = []
        for name in ("one", "two"):
            target = folder / f"{name}.{kind}"
            run("draft", folder / "panel.md", "--for", folder / "sheets" / "ann.yaml", "-o", target)
            made.append(target.read_bytes())
        assert made[0] == made[1]


def test_a_choice_and_an_amendment(folder: Path) -> None:
    """`--set` and `--amend` change the draft."""
    (folder / "fitting.md").write_text("1. After D: from D down to E: 2 cm.\n", encoding="utf-8")
    result = run(
        "draft", folder / "panel.md", "--for", folder / "sheets" / "ann.yaml", "--json",
        "--set", "ease=2 parts", "--amend", folder / "fitting.md",
    )  # fmt: skip
    assert result.returncode == 0, result.stdout
    data = json.loads(result.stdout)
    assert data["points"]["C"]["at"][0] == 480 + 960 / 48
    assert data["points"]["E"]["at"][1] == 420
    assert data["choices"]["ease"] == {"value": 40.0, "chosen": True}


def test_strict_leaves_with_one_when_a_check_is_open(folder: Path) -> None:
    """Without it an open check is only told."""
    (folder / "open.md").write_text(lesson_text(*ITEMS[:2], "See that A-B is 3 cm."), encoding="utf-8")
    arguments = ("check", folder / "open.md", "--for", folder / "sheets" / "ann.yaml")
    assert run(*arguments).returncode == 0
    assert run(*arguments, "--strict").returncode == 1


def test_a_sheet_taken_over_something_else_is_a_question(folder: Path) -> None:
    """It shows both."""
    sheet = folder / "stays.yaml"
    sheet.write_text(SHEET.replace("over: a shift", "over: [a shift, stays]"), encoding="utf-8")
    result = run("draft", folder / "panel.md", "--for", sheet)
    assert result.returncode == 1
    assert "over shift;" in result.stdout
    assert "shift and stays" in result.stdout


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["draft", "nowhere.md", "--for", "sheets"], "There is no lesson nowhere.md"),
        (["draft", "panel.md", "--for", "nobody.yaml"], "There is no measure sheet nobody.yaml"),
        (["draft", "panel.md", "--for", "sheets/ann.yaml", "--paper", "a9"], "a9"),
        (["draft", "panel.md", "--for", "sheets/ann.yaml", "--scale", "1/3"], "1/3"),
        (["draft", "panel.md", "--for", "sheets", "-o", "x.pdf"], "2 wearers"),
        (["draft", "panel.md", "--for", "sheets/ann.yaml", "-o", "x.docx"], ".pdf"),
        (["draft", "panel.md", "--for", "sheets/ann.yaml", "--set", "ease"], "--set"),
        (["draft", "panel.md", "--for", "sheets/ann.yaml", "--amend", "none.md"], "There is no none.md"),
        (["draft", "binary.md", "--for", "sheets/ann.yaml"], "not plain text"),
        (["draft", "empty", "--for", "sheets/ann.yaml"], "folder"),
        (["draft", "panel.md", "--for", "empty"], "no measure sheet"),
        (["draft", "panel.md", "--for", "sheets/ann.yaml", "-o", "panel.md/x.pdf"], "cannot be written"),
        (["why", "nonsuch"], "no query called nonsuch"),
    ],
)  # fmt: skip
def test_misuse_is_one_line_and_two(folder: Path, arguments: list[str], said: str) -> None:
    """Exit status 2, one line, no traceback."""
    (folder / "binary.md").write_bytes(b"# A\n\xff\xfe\x00")
    (folder / "empty").mkdir()
    result = run(*arguments, cwd=folder)
    assert result.returncode == 2, result.stdout + result.stderr
    assert said in result.stderr
    assert len(result.stderr.strip().splitlines()) == 1
    assert "Traceback" not in result.stderr


def test_an_interrupted_writing_leaves_the_old_file(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Files are written beside and renamed: nothing is overwritten half."""
    from tapewright.app import files

    target = folder / "kept.pdf"
    target.write_bytes(b"old")

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(files.Trouble, match="no space left"):
        files.write(target, b"new")
    assert target.read_bytes() == b"old"
    assert [p.name for p in folder.iterdir() if p.name.startswith(".")] == []


def test_tapes_for_a_folder_and_for_one(folder: Path) -> None:
    """The lesson's tapes, or the main ones without a lesson."""
    assert run("tapes", "--for", folder / "sheets", "-o", folder / "tapes").returncode == 0
    assert sorted(p.name for p in (folder / "tapes").iterdir()) == [
        "tapes-ann-field.pdf",
        "tapes-bess-field.pdf",
    ]
    one = run("tapes", folder / "panel.md", "--for", folder / "sheets" / "ann.yaml", "-o", folder / "t.pdf")
    assert one.returncode == 0
    assert (folder / "t.pdf").read_bytes().startswith(b"%PDF")


def test_the_demo_writes_what_it_lists(tmp_path: Path) -> None:
    """Both blocks for both wearers: PDF, SVG, JSON and tapes; and a jacket as PDF and DXF."""
    result = run("demo", "-o", tmp_path / "out")
    assert result.returncode == 0, result.stdout
    listed = {Path(line.split("wrote ")[1]) for line in result.stdout.splitlines() if "wrote " in line}
    assert listed == set((tmp_path / "out").iterdir())
    kinds = sorted(p.suffix for p in listed)
    assert {".pdf", ".svg", ".json", ".dxf"} == set(kinds)
    assert "checks hold" in result.stdout


def test_a_shipped_lesson_is_known_by_its_name() -> None:
    """Names serve instead of paths."""
    result = run("check", "a-womans-body-block", "--for", "margery-thorne")
    assert result.returncode == 0, result.stdout
    assert set(lessons()) >= {"a-womans-body-block", "a-mans-body-block"}


def test_why_explains_a_query() -> None:
    """The word at the end of a query brings its page."""
    result = run("why", "bust-or-chest")
    assert result.returncode == 0
    assert "bust" in result.stdout


@pytest.mark.parametrize(
    "text", ["a: &x [1]\nb: [*x, *x]\n", "wearer: A\nmeasures:\n  bust: ninety\n", "- 1\n- 2\n", "\x01"]
)
def test_a_bad_sheet_is_a_query_and_never_a_traceback(folder: Path, text: str) -> None:
    """Aliases, words for numbers, lists for sheets, control characters."""
    sheet = folder / "bad.yaml"
    sheet.write_text(text, encoding="utf-8")
    result = run("draft", folder / "panel.md", "--for", sheet)
    assert result.returncode == 1
    assert "Question" in result.stdout
    assert "Traceback" not in result.stderr

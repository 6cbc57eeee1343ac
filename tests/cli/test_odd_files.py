"""Odd files, odd names and odd words of a command: a query or one line, an exit status, and never a traceback.

What each comes to is our own ruling (0 nothing is asked, 1 something is, 2 the command cannot be carried out).
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tapewright.cli.main import run as main
from tests.queries.bundle import WEARER

LESSON = """# An apron
On the half. Drafted net. Taken over: a shift.

## Measures
- waist

## The draft
1. Begin at A, with the centre front on the left and the centre back on the right.
2. From A down to B: 20 cm. From A across to C: half the waist. Square down from C and across from B to D.
3. Let the apron be the outline A to C, to D, to B, to A.
"""
SHEET = "wearer: Anna\nfigure: woman\nover: a shift\nunit: cm\nmeasures:\n  waist: 70\n"

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Runs the command in a folder with a lesson and a sheet; gives status, output and what was said beside it."""
    (tmp_path / "g.md").write_text(LESSON, encoding="utf-8")
    (tmp_path / "w.yaml").write_text(SHEET, encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    def command(*words: str) -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "argv", ["tapewright", *words])
        with pytest.raises(SystemExit) as left:
            main()
        shown = capsys.readouterr()
        code = left.value.code
        return (0 if code is None else int(code)), shown.out, shown.err

    return command


LESSONS: list[tuple[str, bytes, int]] = [
    ("empty", b"", 1),
    ("spaces", b"  \n\n", 1),
    ("binary", bytes(range(256)), 2),
    ("nul", LESSON.encode() + b"\0", 1),
    ("bom", b"\xef\xbb\xbf" + LESSON.encode(), 0),
    ("utf-16", LESSON.encode("utf-16"), 0),
    ("utf-16 without its mark", LESSON.encode("utf-16-le"), 1),
    ("latin-1", LESSON.replace("apron", "cas\xe9").encode("latin-1"), 2),
    ("windows", LESSON.replace("\n", "\r\n").encode(), 0),
    ("old macintosh", LESSON.replace("\n", "\r").encode(), 0),
    ("ten million signs", LESSON.encode() + b"x" * 10_000_000, 1),
    ("twenty-one million", b"a" * 21_000_000, 2),
    ("cut off", LESSON.encode()[:-30], 1),
    ("signs that move the writing", LESSON.replace("apron", "ap\x1b[31mron").encode(), 1),
    ("line separators", LESSON.replace(". ", ".\u2028").encode(), 1),
    ("quotes in quotes", LESSON.encode() + b"\n" + b"> " * 3000 + b"x\n", 0),
    ("brackets in brackets", LESSON.encode() + b"4. From A down to E: " + b"(" * 5000 + b"1 cm.\n", 1),
    ("itself", LESSON.encode() + b'4. Begin from the draft "An apron".\n', 1),
    ("too large a number", LESSON.replace("20 cm", "9" * 400 + " cm").encode(), 1),
]


@pytest.mark.parametrize(("data", "status"), [x[1:] for x in LESSONS], ids=[x[0] for x in LESSONS])
def test_odd_lessons(run: Run, tmp_path: Path, data: bytes, status: int) -> None:
    """Whatever stands in a lesson's file: check and draft agree, one line where nothing can be read."""
    (tmp_path / "odd.md").write_bytes(data)
    for words in (("check", "odd.md"), ("draft", "odd.md", "--for", "w.yaml")):
        code, out, err = run(*words)
        assert code == status, (words, out[:300], err[:300])
        assert len(err.strip().splitlines()) == (1 if status == 2 else 0)
        assert not [c for c in out if not c.isprintable() and c != "\n"], "no sign that moves the writing"
        assert not out.startswith(",")


def test_format_leaves_what_is_no_text(run: Run, tmp_path: Path) -> None:
    """What cannot be read is not said to be in house style, is not changed, and stops no other."""
    (tmp_path / "a.md").write_bytes(b"# A\0")
    (tmp_path / "b.md").write_text(LESSON.replace("half the waist", "half  the waist"), encoding="utf-8")
    code, out, err = run("format", ".")
    assert code == 2
    assert "a.md" in err
    assert "changed b.md" in out
    assert (tmp_path / "a.md").read_bytes() == b"# A\0"


VALUES = [
    "1e999", ".nan", "NaN", ".inf", "-.inf", "-70", "0", "7e1", "0x46", "1:10", "yes", "", "[70, 71, 72, 73]", "{a: b}",
    "9" * 5000, "70 1/0", "*a", "&a 70", "!!int 70", "70 cm 71 cm",
]  # fmt: skip


@pytest.mark.parametrize("value", VALUES)
def test_odd_values(run: Run, tmp_path: Path, value: str) -> None:
    """What is no value, or no body's, is asked about; nothing is drawn from it and nothing raised."""
    (tmp_path / "odd.yaml").write_text(SHEET.replace("70", value), encoding="utf-8")
    code, out, err = run("draft", "g.md", "--for", "odd.yaml")
    assert code == 1
    assert "Question" in out
    assert not err


SHEETS = [
    b"", bytes(range(256)), b"[" * 100_000, b"{a: " * 50_000, b"hello\n", b'!!python/object/apply:os.system ["true"]\n',
    b"a: &a [x,x,x]\nb: &b [*a,*a,*a]\nmeasures: {waist: *b}\n", b"# " + b"x" * 1_000_000, SHEET.encode() + b"  waist: 71\n",
]  # fmt: skip


@pytest.mark.parametrize("data", SHEETS, ids=range(len(SHEETS)))
def test_odd_sheets(run: Run, tmp_path: Path, data: bytes) -> None:
    """A sheet that cannot be read is a question of its own."""
    (tmp_path / "odd.yaml").write_bytes(data)
    code, out, err = run("draft", "g.md", "--for", "odd.yaml")
    assert code == 1, out
    assert "Question" in out
    assert not err


@pytest.mark.parametrize("day", ["2026-13-45", "0000-00-00", "yesterday", "99999-01-01", "-1", "[]"])
def test_odd_days(run: Run, tmp_path: Path, day: str) -> None:
    """A day that is none is told or asked about, and the draft can be made without it."""
    (tmp_path / "odd.yaml").write_text(SHEET.replace("unit", f"date: {day}\nunit"), encoding="utf-8")
    code, out, err = run("draft", "g.md", "--for", "odd.yaml")
    assert code in {0, 1}
    assert "sheet-" in out
    assert not err


@pytest.mark.parametrize(
    "name", ["A" * 5000, "../../etc/x", "Änna \U0001f9f5", "An\nna", "An\x1bna", "/", "..", ".", "con"]
)
def test_a_wearer_of_any_name_gets_files_in_the_folder(run: Run, tmp_path: Path, name: str) -> None:
    """The name goes into the file's name as far as it can, and never out of the folder."""
    escaped = name.replace("\n", "\\n").replace("\x1b", "\\e")
    (tmp_path / "odd.yaml").write_text(SHEET.replace("Anna", f'"{escaped}"'), encoding="utf-8")
    code, out, err = run("draft", "g.md", "--for", "odd.yaml", "-o", "out")
    assert (code, err) == (0, ""), out
    assert len(list((tmp_path / "out").iterdir())) == 3
    assert {p.name for p in tmp_path.iterdir()} == {"g.md", "w.yaml", "odd.yaml", "out"}


def test_wearers_of_one_name_get_files_of_their_own(run: Run, tmp_path: Path) -> None:
    """Two sheets of one name, and one that cannot be read: two results, and the third is asked about."""
    (tmp_path / "both").mkdir()
    for sheet, waist in (("a", "70"), ("b", "71")):
        (tmp_path / "both" / f"{sheet}.yaml").write_text(SHEET.replace("70", waist), encoding="utf-8")
    (tmp_path / "both" / "c.yaml").write_text("[", encoding="utf-8")
    code, _, err = run("draft", "g.md", "--for", "both", "-o", "out")
    assert (code, err) == (1, "")
    assert len(list((tmp_path / "out").glob("*.json"))) == 2


def test_one_that_is_too_large_stops_no_other(run: Run, tmp_path: Path) -> None:
    """A draft of a hundred kilometres is one line; the next wearer's is written all the same."""
    (tmp_path / "both").mkdir()
    (tmp_path / "both" / "a.yaml").write_text(SHEET.replace("70", "9999999 as taken"), encoding="utf-8")
    (tmp_path / "both" / "b.yaml").write_text(SHEET.replace("Anna", "Bess"), encoding="utf-8")
    code, _, err = run("draft", "g.md", "--for", "both", "-o", "out", "--paper", "a4")
    assert code == 2
    assert len(err.strip().splitlines()) == 1
    assert "Anna" in err
    assert {p.suffix for p in (tmp_path / "out").glob("*bess*")} == {".pdf", ".svg", ".json"}


LINES = [
    (("draft", "w.yaml", "--for", "g.md"), "w.yaml is a measure sheet"),
    (("check", "w.yaml"), "w.yaml is a measure sheet"),
    (("draft", "g.md", "--for", "g.md"), "g.md is a lesson"),
    (("draft", "x" * 5000 + ".md", "--for", "w.yaml"), "There is no lesson"),
    (("draft", "g.md", "--for", "x" * 5000 + ".yaml"), "There is no measure sheet"),
    (("draft", "g.md", "--for", "w.yaml", "-o", "x" * 300 + ".pdf"), "cannot be written"),
    (("draft", "g.md", "--for", "w.yaml", "-o", "w.yaml/x.pdf"), "w.yaml is a file, no folder"),
    (("draft", "g.md", "--for", "w.yaml", "-o", "dir.pdf"), "it is a folder"),
    (("draft", "g.md", "--for", "w.yaml", "--amend", "f.md", "--amend", "f.md"), "once"),
    (("draft", "g.md", "--for", "w.yaml", "--set", "ease=1 cm", "--set", "ease=2 cm"), "twice"),
    (("draft", "g.md", "--for", "w.yaml", "--set", "="), "--set"),
    (("draft", "g.md", "--for", "w.yaml", "--paper", "roll:0cm"), "roll"),
    (("draft", "g.md", "--for", "w.yaml", "--scale", "3"), "quarter"),
    (("draft", "loop.md", "--for", "w.yaml"), "There is no lesson"),
    (("check", "pipe.md"), "no plain file"),
    (("draft", "g.md", "--for"), "--for"),
    (("draft",), "LESSON"),
    (("nothing",), "nothing"),
    (("draft", "g.md", "--bogus"), "--bogus"),
    (("draft", "-dash.md", "--for", "w.yaml"), "-d"),
]


@pytest.mark.parametrize(("words", "said"), LINES, ids=range(len(LINES)))
def test_what_cannot_be_carried_out_is_one_line(
    run: Run, tmp_path: Path, words: tuple[str, ...], said: str
) -> None:
    """Exit status 2, one line that says what is so, and nothing written."""
    (tmp_path / "f.md").write_text("Instead of B: from A down to B: 30 cm.\n", encoding="utf-8")
    (tmp_path / "dir.pdf").mkdir()
    (tmp_path / "loop.md").symlink_to("loop.md")
    os.mkfifo(tmp_path / "pipe.md")
    before = sorted(p.name for p in tmp_path.iterdir())
    code, _, err = run(*words)
    assert code == 2
    assert said in err
    assert len(err.strip().splitlines()) == 1
    assert len(err) < 500
    assert "error" not in err.lower()
    assert sorted(p.name for p in tmp_path.iterdir()) == before


def test_lessons_in_a_ring_are_asked_about(run: Run, tmp_path: Path) -> None:
    """Two lessons that begin from each other: one question, and no end of reading."""
    for one, other in (("One", "Two"), ("Two", "One")):
        text = f'# {one}\nOn the half. Drafted net. Taken over: a shift.\n\n## The draft\n1. Begin from the draft "{other}".\n'
        (tmp_path / f"{one.lower()}.md").write_text(text, encoding="utf-8")
    code, out, err = run("check", "one.md")
    assert (code, err) == (1, "")
    assert out.count("Question") == 1


def test_choices_keep_their_own_words(run: Run, tmp_path: Path) -> None:
    """What is asked about each choice shows that choice."""
    code, out, _ = run("check", "g.md", "--set", "ease=1 cm", "--set", "fullness=2 cm")
    assert code == 1
    assert "Let the ease be 1 cm." in out
    assert "Let the fullness be 2 cm." in out


def test_names_with_spaces_and_letters_of_any_kind(run: Run, tmp_path: Path) -> None:
    """Files are found and written under such names."""
    folder = tmp_path / "a b" / "ü"
    folder.mkdir(parents=True)
    (folder / "ö.md").write_text(LESSON, encoding="utf-8")
    (folder / "-w.yaml").write_text(WEARER.read_text(encoding="utf-8"), encoding="utf-8")
    code, _, err = run("draft", "a b/ü/ö.md", "--for", "a b/ü/-w.yaml", "-o", "a b/ü/é.svg")
    assert (code, err) == (0, "")
    assert (folder / "é.svg").stat().st_size > 0


def test_stopping_half_way_is_no_traceback(run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Whoever stops the command sees one line, and finds the old file or none."""

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    (tmp_path / "out.svg").write_bytes(b"old")
    monkeypatch.setattr(os, "fsync", stop)
    code, _, err = run("draft", "g.md", "--for", "w.yaml", "-o", "out.svg")
    assert code == 130
    assert len(err.strip().splitlines()) == 1
    assert (tmp_path / "out.svg").read_bytes() == b"old"
    assert not list(tmp_path.glob(".*part"))

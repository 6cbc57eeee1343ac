"""`tapewright measures` and what it leaves behind: the words, the files, and who may read them."""

from __future__ import annotations

import json
import stat
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from tapewright.cli.main import app
from tapewright.measures import CARE, catalogue
from tests.export.reading import page_sizes, words

SHEET = """\
wearer: Anna Holt
figure: woman
date: 2026-03-14
over: a shift
unit: cm
measures:
  stature: 165
  bust: 91
  high bust: 88.5
  waist: 70
  hips: 98
  nape to waist: 40
  shoulder: {left: 13, right: 12.6}
"""
TABLE = """\
name,sex,hips (cm),waist (in),left shoulder (cm),worn beneath
Anna Holt,f,98.5,27 1/2,13,a shift
Bess Field,f,98.5,ab,13,a shift
"""


def run(*arguments: str | Path, typed: str = "", code: int = 0) -> Result:
    """The command as it is given; fails when it leaves with another status."""
    done = CliRunner().invoke(app, [str(a) for a in arguments], input=typed)
    assert done.exit_code == code, f"{done.output}\n{done.exception!r}"
    return done


def private(path: Path) -> bool:
    """Whether nobody but its owner may read a file."""
    return stat.S_IMODE(path.stat().st_mode) == 0o600


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "anna.yaml").write_text(SHEET, encoding="utf-8")
    return tmp_path


# --- check ---------------------------------------------------------------------------------------------------


def test_a_sheet_looked_over_in_words_and_as_data(folder: Path) -> None:
    """The count, the note about another word, and no status but 0; as data the values are millimetres."""
    said = run("measures", "check", folder / "anna.yaml").output
    assert "Anna Holt, over shift: 7 measures" in said
    assert "another word for the hip" in said
    data = json.loads(run("measures", "check", folder / "anna.yaml", "--json").output)
    assert data["measures"]["hip"] == 980
    assert [q["name"] for q in data["queries"]] == ["measure-other-word", "sides-differ"]


def test_a_question_leaves_with_one_and_a_folder_goes_on(folder: Path) -> None:
    """A sheet that waits is told with its line, the others all the same, and the status is 1."""
    (folder / "bad.yaml").write_text(SHEET.replace("98", "0").replace("Anna", "Bad"), encoding="utf-8")
    said = run("measures", "check", folder, code=1).output
    assert "Anna Holt, over shift: 7 measures" in said
    assert "(bad.yaml, line 11, column 9)" in said


def test_a_stayed_waist_is_told_beside_the_body_in_the_same_folder(folder: Path) -> None:
    """One sheet looked over, or a draft made from it: the sheet of the body that lies beside it is found (Gau 1998)."""
    stays = (
        SHEET.replace("a shift", "stays").replace("waist: 70", "waist: 60").replace("bust: 91", "bust: 93")
    )
    (folder / "stays.yaml").write_text(stays, encoding="utf-8")
    said = run("measures", "check", folder / "stays.yaml").output
    assert "14 in a hundred less" in said
    assert CARE in said
    assert "14 in a hundred less" not in run("measures", "check", folder / "anna.yaml").output
    lesson = folder / "l.md"
    lesson.write_text(
        "# A band\nOn the half. Drafted net. Taken over: stays.\n\n## Measures\n- waist\n\n## The draft\n"
        "1. Begin at A, with the centre back on the left and the centre front on the right. From A across to B: half "
        "the waist. From A down to C: 4 cm.\n",
        encoding="utf-8",
    )
    assert CARE in run("draft", lesson, "--for", folder / "stays.yaml").output
    (folder / "anna.yaml").unlink()
    assert CARE not in run("measures", "check", folder / "stays.yaml").output


# --- estimates -----------------------------------------------------------------------------------------------


def test_estimates_are_marked_in_words_data_and_on_paper(folder: Path) -> None:
    """Each with its range; the plate says about, not taken, nine in ten; the sheet is not touched; the plate is private."""
    before = (folder / "anna.yaml").read_bytes()
    said = run("measures", "estimate", folder / "anna.yaml", "--measure", "inside leg").output
    assert "leg: about" in said
    assert "Estimates, not measures" in said
    data = json.loads(run("measures", "estimate", folder / "anna.yaml", "--json").output)
    assert (
        data["estimates"]["arm"]["low"] < data["estimates"]["arm"]["about"] < data["estimates"]["arm"]["high"]
    )
    plate = folder / "plate.pdf"
    run("measures", "estimate", folder / "anna.yaml", "-o", plate)
    read = " ".join(words(plate.read_bytes(), page) for page in range(len(page_sizes(plate.read_bytes()))))
    assert read.count("not taken;") == len(data["estimates"]) - ("weight" in data["estimates"])
    assert "it is estimated from the other measures" in read
    assert private(plate)
    assert (folder / "anna.yaml").read_bytes() == before


def test_over_stays_by_judgement_with_care(folder: Path) -> None:
    """What may be over a corset is judgement, says so, and brings the lacing caution."""
    said = run("measures", "estimate", folder / "anna.yaml", "--over", "a corset").output
    assert "By judgement, not from a survey" in said
    assert CARE in said
    run("measures", "estimate", folder / "anna.yaml", "--over", "a hat", code=2)


LESSON = """\
# A sleeve
On the half. Drafted net. Taken over: a shift.

## Measures
- arm
- wrist

## The draft
1. Begin at A, with the centre back on the left and the centre front on the right. From A down to B: the arm. From B across to C: the wrist.
"""


def test_a_draft_takes_no_estimate_unless_it_is_asked_for_by_name(folder: Path) -> None:
    """Without the word the measure is asked for; with it the draft is made, and every output says what is estimated."""
    lesson = folder / "sleeve.md"
    lesson.write_text(LESSON, encoding="utf-8")
    said = run("draft", lesson, "--for", folder / "anna.yaml", code=1).output
    assert "The arm is not on the measure sheet" in said
    assert "arm: estimated" in said
    out = folder / "sleeve.pdf"
    asked = ("--estimate", "arm", "--estimate", "wrist")
    said = run("draft", lesson, "--for", folder / "anna.yaml", *asked, "-o", out).output
    assert said.count("was not taken") == 2
    assert "nine in ten such people lie between" in said
    read = " ".join(words(out.read_bytes()).split())
    assert "Estimated, not taken: arm, wrist." in read
    assert read.count("nine in ten between") == 2
    data = json.loads(run("draft", lesson, "--for", folder / "anna.yaml", *asked, "--json").output)
    assert set(data["estimated"]) == {"arm", "wrist"}
    assert abs(data["points"]["B"]["at"][1] - data["estimated"]["arm"]["about"]) <= 0.5
    (folder / "anna.yaml").write_text(f"{SHEET}  arm: estimated\n  wrist: estimated\n", encoding="utf-8")
    by_sheet = json.loads(run("draft", lesson, "--for", folder / "anna.yaml", "--json").output)
    assert by_sheet["points"] == data["points"]


def test_tapes_of_an_estimate_say_so(folder: Path) -> None:
    """A tape that rests on an estimate is printed with the word."""
    lesson = folder / "sleeve.md"
    lesson.write_text(
        LESSON.replace("## The draft", "## Tapes\n- arm tape: the arm in 48 parts\n\n## The draft"),
        encoding="utf-8",
    )
    (folder / "anna.yaml").write_text(f"{SHEET}  arm: estimated\n  wrist: 15.4\n", encoding="utf-8")
    out = folder / "tapes.pdf"
    run("tapes", lesson, "--for", folder / "anna.yaml", "-o", out)
    assert "Estimated, not taken: arm" in " ".join(words(out.read_bytes()).split())


def test_a_draft_for_nobody_says_so_everywhere(folder: Path) -> None:
    """On screen, on paper and as data a lesson drawn without a wearer is nobody's."""
    lesson = folder / "sleeve.md"
    lesson.write_text(LESSON, encoding="utf-8")
    out = folder / "sleeve.pdf"
    said = run("draft", lesson, "-o", out).output
    assert "Drawn for nobody" in said
    read = " ".join(words(out.read_bytes()).split())
    assert "For nobody, a nominal woman" in read
    assert "Drawn for nobody, a nominal figure. Do not cut from it." in read
    data = json.loads(run("draft", lesson, "--json").output)
    assert data["wearer"].startswith("nobody")
    assert "nominal-figure" in [q["name"] for q in data["queries"]]


# --- what is still to take -----------------------------------------------------------------------------------


def test_what_is_still_to_take_is_what_the_lessons_want_and_the_sheet_has_not(folder: Path) -> None:
    """The union of the lessons, less what the sheet has under any word, in the order one measures; estimates are still
    to take.
    """
    (folder / "anna.yaml").write_text(f"{SHEET}  arm: estimated\n", encoding="utf-8")
    lesson = folder / "sleeve.md"
    lesson.write_text(LESSON.replace("- wrist\n", "- wrist\n- seat\n"), encoding="utf-8")
    (data,) = json.loads(run("measures", "blank", lesson, "--for", folder / "anna.yaml", "--json").output)
    assert data == {
        "wearer": "Anna Holt",
        "over": "shift",
        "still_to_take": ["arm", "wrist"],
        "asked_for_by": ["A sleeve"],
    }
    more = json.loads(
        run(
            "measures", "blank", lesson, "a-womans-body-block", "--for", folder, "--wearer", "Bess", "--json"
        ).output
    )
    by_wearer = {one["wearer"]: set(one["still_to_take"]) for one in more}
    assert by_wearer["Anna Holt"] == by_wearer["Bess"] - {
        "bust", "high bust", "waist", "nape to waist", "shoulder", "hip"
    }  # fmt: skip


def test_blank_sheets_hold_no_value_and_every_measure(folder: Path) -> None:
    """Without a lesson all seventy-two stand on the pages, each once, in their order; nobody's figures with them."""
    out = folder / "blank.pdf"
    run("measures", "blank", "-o", out)
    data = out.read_bytes()
    read = " ".join(" ".join(words(data, page) for page in range(len(page_sizes(data)))).split())
    at = -1
    for i, name in enumerate(sorted(catalogue().values(), key=lambda m: m.turn), 1):
        at = read.index(f"{i} {name.name} ", at + 1)
    for_anna = folder / "anna.pdf"
    run("measures", "blank", "--for", folder / "anna.yaml", "-o", for_anna)
    read = words(for_anna.read_bytes())
    assert "Anna Holt" in read
    assert "91" not in read
    assert "88.5" not in read
    assert private(for_anna)


def test_a_blank_sheet_to_fill_in_is_its_owners_and_never_written_over(folder: Path) -> None:
    """As text: every line a remark, it reads as a sheet without measures, and one line freed is one measure."""
    out = folder / "bess.yaml"
    run("measures", "blank", "a-womans-body-block", "--wearer", "Bess: Field", "-o", out)
    assert private(out)
    text = out.read_text(encoding="utf-8")
    data = json.loads(run("measures", "check", out, "--json").output)
    assert (data["wearer"], data["over"], data["measures"], data["queries"]) == (
        "Bess: Field",
        ["shift"],
        {},
        [],
    )
    wanted = json.loads(run("measures", "blank", "a-womans-body-block", "--json").output)[0]["still_to_take"]
    assert [
        line[4:-1] for line in text.splitlines() if line.startswith("  # ") and line.endswith(":")
    ] == wanted
    done = run("measures", "blank", "a-womans-body-block", "--wearer", "Bess", "-o", out, code=1)
    assert "is there already" in str(done.exception)
    assert out.read_text(encoding="utf-8") == text
    out.write_text(text.replace("  # waist:", "  waist: 70"), encoding="utf-8")
    assert json.loads(run("measures", "check", out, "--json").output)["measures"] == {"waist": 700}
    many = folder / "many"
    run("measures", "blank", "a-womans-body-block", "--wearer", "A B", "--wearer", "a-b", "-o", many)
    assert len(list(many.glob("*.yaml"))) == 2


# --- a company -----------------------------------------------------------------------------------------------


def test_a_preview_keeps_nothing(folder: Path) -> None:
    """Without -o the columns, the rows and the reasons are told, and no file is made."""
    table = folder / "company.csv"
    table.write_text(TABLE, encoding="utf-8")
    before = sorted(folder.iterdir())
    said = run("measures", "import", table, code=1).output
    assert "waist (in): the waist, in inches" in said
    assert "Line 3, Bess Field: 2 measures, rejected" in said
    assert "“ab” does not begin with a number." in said
    assert "1 row can be taken, 1 is rejected." in said
    assert sorted(folder.iterdir()) == before


def test_all_or_nothing_and_never_over_a_sheet(folder: Path) -> None:
    """One rejected row and nothing is written; told to go without it, the rest is, for their owner only; and not twice."""
    table = folder / "company.csv"
    table.write_text(TABLE, encoding="utf-8")
    into = folder / "company"
    run("measures", "import", table, "-o", into, code=1)
    assert not into.exists()
    run("measures", "import", table, "-o", into, "--without-rejected", code=1)
    (made,) = into.iterdir()
    assert made.name == "anna-holt.yaml"
    assert private(made)
    held = made.read_bytes()
    table.write_text(TABLE.replace("98.5", "99"), encoding="utf-8")
    done = CliRunner().invoke(app, ["measures", "import", str(table), "-o", str(into), "--without-rejected"])
    assert done.exit_code != 0
    assert made.read_bytes() == held
    assert [p.name for p in into.iterdir()] == ["anna-holt.yaml"]


def test_what_is_pasted_is_read_from_the_terminal(folder: Path) -> None:
    """A table copied out of a spreadsheet comes with tabs, and is read from what is typed."""
    pasted = TABLE.replace("ab", "28").replace(",", "\t")
    said = run("measures", "import", "-", "-o", folder / "in", typed=pasted).output
    assert "wrote 2 sheets" in said
    assert all(private(p) for p in (folder / "in").iterdir())


def test_a_company_sent_out_says_what_it_holds_and_comes_back(folder: Path) -> None:
    """The first line says it; the file is its owner's; brought in again the values are the same."""
    out = folder / "out.csv"
    said = run("measures", "export", folder / "anna.yaml", "-o", out).output
    first = out.read_text(encoding="utf-8").splitlines()[0]
    assert first.startswith("# Names, dates and 7 body measures of one wearer")
    assert first.removeprefix("# ") in said
    assert private(out)
    run("measures", "import", out, "-o", folder / "again")
    one, other = (
        json.loads(run("measures", "check", p, "--json").output)["measures"]
        for p in (folder / "anna.yaml", folder / "again" / "anna-holt.yaml")
    )
    assert one == other


def test_what_waits_is_not_sent_out(folder: Path) -> None:
    """A sheet with a question would lose what waits: nothing is written, and the status is 1."""
    (folder / "anna.yaml").write_text(SHEET.replace("98", "0"), encoding="utf-8")
    run("measures", "export", folder, "-o", folder / "out.csv", code=1)
    assert not (folder / "out.csv").exists()


# --- the ruler, and misuse -----------------------------------------------------------------------------------


def test_a_ruler_is_printed(folder: Path) -> None:
    """A ruler on A4 or on a roll; one of no sensible length is one line and 2."""
    run("measures", "ruler", "-o", folder / "r.pdf", "--length", "50 in", "--paper", "roll:90cm")
    assert (folder / "r.pdf").read_bytes().startswith(b"%PDF")
    run("measures", "ruler", "-o", folder / "s.pdf", "--length", "a yard or so", code=2)
    assert not (folder / "s.pdf").exists()


@pytest.mark.parametrize(
    "arguments",
    [
        ("estimate", "margery-thorne", "--from", "children"),
        ("estimate", "margery-thorne", "-o", "plate.png"),
        ("blank", "-o", "blank.txt"),
        ("import", "t.csv", "--figure", "lady"),
        ("import", "t.csv", "--column", "waist line"),
        ("export", "margery-thorne", "-o", "out.xls"),
        ("export", "margery-thorne", "-o", "out.csv", "--unit", "ell"),
    ],
)
def test_misuse_is_one_line_and_two(
    arguments: tuple[str, ...], folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A wrong word in the command is told in one line; nothing is written."""
    monkeypatch.chdir(folder)
    (folder / "t.csv").write_text(TABLE, encoding="utf-8")
    before = sorted(folder.iterdir())
    run("measures", *arguments, code=2)
    assert sorted(folder.iterdir()) == before

"""What docs/tapes.md says is so: its notation is read, its commands and options exist, its figures hold."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from typer.main import get_command

from tapewright.cli.main import app
from tapewright.diagnostics import Source
from tapewright.pages import A3, A4, LETTER, ONE_PAGE
from tapewright.pages.fan_sheet import fan_pages
from tapewright.tapes import (
    LONGEST,
    MOST_PARTS,
    PARTS,
    SHORTEST,
    Fan,
    Reading,
    nearest_reading,
    notations,
    read_back,
    read_notation,
    say,
)
from tapewright.tapes.notation_text import KEYS

ROOT = Path(__file__).parent.parent
PAGE = ROOT / "docs" / "tapes.md"
TEXT = PAGE.read_text(encoding="utf-8")


def test_the_notation_of_ones_own_is_read() -> None:
    """The example of a maker's own asks nothing, and reads as the page says: `Kk` is five eighths."""
    (example,) = re.findall(r"```markdown\n(.*?)```", TEXT, re.DOTALL)
    notation, queries = read_notation(Source("knots.md", example))
    assert queries == ()
    assert notation is not None
    assert read_back("Kk", notation, 24) == Fraction(5, 8)
    assert notation.parts == 24


def test_every_line_of_the_list_is_explained() -> None:
    """Every key that the list of a notation may have stands in the table."""
    explained = {
        key
        for row in re.findall(r"^\| `([^|]+)` \|", TEXT, re.MULTILINE)
        for key in re.findall(r"(\w+):", row)
    }
    assert set(KEYS) <= explained


@pytest.mark.parametrize("name", ["tapes", "fan"])
def test_the_options_exist(name: str) -> None:
    """Every option that the page shows belongs to one of the two commands, and the other way round."""
    command = get_command(app).commands[name]  # type: ignore[attr-defined]
    known = {opt for p in command.params for opt in (*p.opts, *p.secondary_opts) if opt.startswith("--")}
    shown = set(re.findall(r"--[a-z][a-z-]+", TEXT))
    assert known - shown <= {"--for", "--output", "--help", "--measures"}
    both = {
        opt
        for other in ("tapes", "fan")
        for p in get_command(app).commands[other].params  # type: ignore[attr-defined]
        for opt in (*p.opts, *p.secondary_opts)
    }
    assert shown <= both


def test_the_shipped_notations_are_named() -> None:
    """Each by its name on the command line, with its picture."""
    for name in notations():
        assert f"(`{name}`)" in TEXT
        assert f"tapes/{name}.svg" in TEXT
    for target in re.findall(r"\]\(([^)#:]+)\)", TEXT):
        assert (PAGE.parent / target).exists(), target


def test_the_figures_of_the_page_hold() -> None:
    """How many pages the fan takes on each paper, how large it is, its range, and the tape's parts."""
    assert (SHORTEST, LONGEST) == (100.0, 1330.0)
    assert "from 10 cm to 133 cm" in TEXT
    counts = {p.name: len(fan_pages(Fan(), p).pages) for p in (A4, LETTER, A3)}
    assert counts == {"A4": 14, "Letter": 15, "A3": 8}
    folded = {p.name: len(fan_pages(Fan(folded=True), p).pages) for p in (A4, LETTER, A3)}
    assert folded == {"A4": 5, "Letter": 7, "A3": 3}
    for fan, size in ((Fan(), (135, 54)), (Fan(folded=True), (69, 29))):
        (sheet,) = fan_pages(fan, ONE_PAGE).drawings
        assert (round(sheet.width / 10), round(sheet.height / 10)) == size
    assert PARTS == 48
    assert MOST_PARTS == 2000


def test_the_spelling_the_page_shows_is_the_one_chosen() -> None:
    """Of `1/2 and 3 parts` and `7/12 less 1 part`, one place, the first is said."""
    reading = nearest_reading(27, 48, 48, 0)
    assert reading == Reading(Fraction(1, 2), Fraction(3))
    assert say(reading, "tape") == "1/2 of the tape and 3 parts"

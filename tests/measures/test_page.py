"""The pages about measures show what the program has and does now."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tapewright.diagnostics import Source
from tapewright.measures import GROUPS, catalogue, read_sheet
from tests.measures.page import DOCS, PAGES, page


@pytest.mark.parametrize("path", PAGES, ids=lambda p: p.name)
def test_the_tables_are_what_comes_out_now(path: Path) -> None:
    """Each table of the page is, to the letter, what `python -m tests.measures` writes."""
    assert path.read_text(encoding="utf-8") == page(path), "run `python -m tests.measures`"


@pytest.mark.parametrize("path", PAGES, ids=lambda p: p.name)
def test_the_sheets_of_the_pages_are_read_without_a_question(path: Path) -> None:
    """What a newcomer copies out of a page works, and its measures are those of the catalogue."""
    text = path.read_text(encoding="utf-8")
    found = re.findall(r"```yaml\n(.*?)```", text, re.DOTALL)
    assert found
    for written in found:
        sheet, queries = read_sheet(Source("s", written))
        assert sheet is not None
        assert {q.name for q in queries} <= {"measure-other-word", "sides-differ"}
        assert set(sheet.entries) <= set(catalogue())


def test_the_page_of_measuring_shows_every_group_and_measure() -> None:
    """A figure and a table for each group, and every measure in one of them."""
    text = (DOCS / "measuring.md").read_text(encoding="utf-8")
    for group in GROUPS:
        assert f"(measuring/{group.replace(' ', '-')}.svg)" in text
        assert f"<!-- table: to take {group} -->" in text
    for measure in catalogue().values():
        assert text.count(f"| {measure.turn} | {measure.name} |") == 1


@pytest.mark.parametrize("path", PAGES, ids=lambda p: p.name)
def test_links_lead_somewhere(path: Path) -> None:
    """Every link and figure of the page is there."""
    for target in re.findall(r"\]\(([^)#:]+)", path.read_text(encoding="utf-8")):
        assert (path.parent / target).exists(), target

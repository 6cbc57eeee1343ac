"""A few thousand mutated lessons in the tests; `make fuzz` tries two hundred thousand."""

from __future__ import annotations

import pytest

from tapewright.app.files import read_sheet_source
from tapewright.app.library import wearer_path
from tapewright.diagnostics import Source
from tapewright.measures import Sheet, read_sheet
from tests.fuzz.mutate import corpus, mutated
from tests.fuzz.trying import tried


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    source = read_sheet_source(wearer_path("margery-thorne"))
    assert isinstance(source, Source)
    found, _ = read_sheet(source)
    assert found is not None
    return found


@pytest.mark.parametrize("first", range(0, 1200, 100))
def test_mutated_lessons_are_answered(first: int, sheet: Sheet) -> None:
    """Nothing raises, every query has its place in the text, nothing drawn is endless, and it is soon done."""
    for seed in range(first, first + 100):
        try:
            tried(mutated(seed), sheet)
        except Exception as slip:
            raise AssertionError(f"seed {seed}") from slip


def test_the_lessons_themselves_pass(sheet: Sheet) -> None:
    """What is mutated is sound to begin with."""
    for text in corpus():
        tried(text, sheet)

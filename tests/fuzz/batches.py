"""A stretch of seeds, tried one after another; its own module, so that a new process finds it by name."""

from __future__ import annotations

from tapewright.app.files import read_sheet_source
from tapewright.app.library import wearer_path
from tapewright.diagnostics import Source
from tapewright.measures import Sheet, read_sheet
from tests.fuzz.mutate import mutated
from tests.fuzz.trying import tried


def sheet() -> Sheet:
    """The wearer that what is left of a lesson is drawn for."""
    source = read_sheet_source(wearer_path("margery-thorne"))
    assert isinstance(source, Source)
    found, _ = read_sheet(source)
    assert found is not None
    return found


def batch(first: int, many: int) -> str:
    """What is the matter with one of so many seeds; empty when nothing is."""
    wearer = sheet()
    for seed in range(first, first + many):
        try:
            tried(mutated(seed), wearer)
        except Exception as slip:  # whatever it is, it is what is looked for
            return f"seed {seed}: {type(slip).__name__}: {slip}"
    return ""

"""What every test shares: strict arithmetic, and quick ways to read and draw a small lesson."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True, print_blob=False)
settings.load_profile("steady")


@pytest.fixture(autouse=True)
def strict_arithmetic() -> Iterator[None]:
    """No NaN, no infinity, no division by nothing anywhere in the arithmetic of a test."""
    with np.errstate(all="raise", under="ignore"):
        yield


#: What prints pages, runs the command or draws for hundreds: all of it slow, and left out of `make check`.
SLOW = (
    "blocks/", "cli/", "fuzz/", "garments/", "handbooks/", "export/", "pages/", "test_crib.py", "test_manual.py",
    "test_measuring_manual.py", "test_tapes_manual.py", "test_examples.py", "language/test_memory.py",
    "geometry/test_rows.py", "measures/test_company.py", "measures/test_page.py",
)  # fmt: skip


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what stands in the slow places as slow."""
    here = Path(__file__).parent
    for item in items:
        if item.path.relative_to(here).as_posix().startswith(SLOW):
            item.add_marker(pytest.mark.slow)

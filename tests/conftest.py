"""What every test shares: strict arithmetic, and quick ways to read and draw a small lesson."""

from __future__ import annotations

from collections.abc import Iterator

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

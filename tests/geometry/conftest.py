"""The geometry is tested with every floating-point exception raised, harmless underflow among them."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pytest


@pytest.fixture(autouse=True)
def every_exception_raised() -> Iterator[None]:
    """Stricter than the rest of the tests: underflow raises too."""
    with np.errstate(all="raise"):
        yield

"""What the tests of the blocks share."""

from __future__ import annotations

import pytest


def pytest_configure(config: pytest.Config) -> None:
    """The mark by which `make check` leaves a test out."""
    config.addinivalue_line("markers", "slow: takes its time; left out of the quick check")

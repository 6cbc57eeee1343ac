"""`pytest tests/queries --update-queries` writes what the table says now into the files of this folder."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the option; it is known when this folder is named on the command line."""
    parser.addoption(
        "--update-queries",
        action="store_true",
        default=False,
        help="write what the table says now into tests/queries, instead of comparing",
    )

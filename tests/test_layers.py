"""The layers are enforced, and the enforcement is tested."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


def _lint(source: Path) -> subprocess.CompletedProcess[str]:
    """Run the layers contract on a copy of the package."""
    command = [
        str(Path(sys.executable).parent / "lint-imports"),
        "--config",
        str(ROOT / "pyproject.toml"),
        "--no-cache",
    ]
    return subprocess.run(
        command,
        cwd=source,
        env={**os.environ, "PYTHONPATH": str(source)},
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A copy of the package that a test may spoil."""
    shutil.copytree(
        ROOT / "src" / "tapewright",
        tmp_path / "tapewright",
        ignore=shutil.ignore_patterns("faces", "__pycache__"),
    )
    return tmp_path


def test_the_layers_are_kept(copy: Path) -> None:
    """As it stands, every import points downward."""
    result = _lint(copy)
    assert result.returncode == 0, result.stdout


@pytest.mark.parametrize(
    ("layer", "import_"),
    [
        ("geometry", "tapewright.draft"),
        ("language", "tapewright.plan"),
        ("drawing", "tapewright.pages"),
        ("draft", "tapewright.app"),
        ("measures", "tapewright.drawing"),
    ],
)
def test_an_import_that_points_upward_or_sideways_fails(copy: Path, layer: str, import_: str) -> None:
    """A deliberately wrong import is found."""
    (copy / "tapewright" / layer / "wrong.py").write_text(f"import {import_}\n")
    result = _lint(copy)
    assert result.returncode != 0
    assert "BROKEN" in result.stdout


def test_a_package_without_a_layer_fails(copy: Path) -> None:
    """A new package must be given its place."""
    (copy / "tapewright" / "elsewhere").mkdir()
    (copy / "tapewright" / "elsewhere" / "__init__.py").write_text("")
    assert _lint(copy).returncode != 0

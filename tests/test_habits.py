"""Habits that a reader may rely on: no loose tolerances, no overgrown modules, twins in step."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tapewright.draft import kinds
from tapewright.draft import sentences as _meanings  # noqa: F401 - fills the table
from tapewright.language import BY_KIND

SOURCE = Path(__file__).parent.parent / "src" / "tapewright"
MODULES = sorted(SOURCE.rglob("*.py"))

#: Kinds that the plan carries out by itself: they have words, and no meaning of their own on the paper.
BY_THE_PLAN = {"call it", "let found", "make", "begin from", "repeat"}


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(SOURCE)))
def test_no_small_number_stands_outside_the_tolerance_module(path: Path) -> None:
    """Every number below a hundredth has a name and a reason in geometry/tolerance.py."""
    if path.name == "tolerance.py":
        return
    loose = [
        node.lineno
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, float) and 0 < abs(node.value) < 0.01
    ]
    assert not loose, f"small numbers in lines {loose}"


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(SOURCE)))
def test_no_module_is_over_600_lines(path: Path) -> None:
    """The hard limit; the soft one is 400."""
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 600


def test_every_kind_of_sentence_has_its_twin() -> None:
    """What can be said can be drawn, and nothing is drawn that cannot be said."""
    assert set(BY_KIND) - BY_THE_PLAN == set(kinds.DRAWS)


def test_below_the_application_nothing_touches_a_file() -> None:
    """Only `app` (and later `records`) opens files; the package's own data is read through resources."""
    allowed = {"app", "cli", "records", "workroom"}
    for path in MODULES:
        layer = path.relative_to(SOURCE).parts[0]
        if layer in allowed or layer.endswith(".py"):
            continue
        tree = ast.parse(path.read_text(encoding="utf-8"))
        calls = [
            node.lineno
            for node in ast.walk(tree)
            if isinstance(node, ast.Call)
            and (
                (isinstance(node.func, ast.Name) and node.func.id in {"open", "print", "exit", "input"})
                or (
                    isinstance(node.func, ast.Attribute)
                    and node.func.attr in {"write_text", "write_bytes", "unlink"}
                )
            )
        ]
        assert not calls, f"{path} in lines {calls}"

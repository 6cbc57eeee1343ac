"""Walking a tree: a node, and all nodes within it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from tapewright.diagnostics import Span


def walk(node: Any) -> Iterator[Any]:
    """A node and all nodes within it, in order of their fields."""
    if isinstance(node, tuple):
        for one in node:
            yield from walk(one)
    elif is_dataclass(node) and not isinstance(node, type | Span):
        yield node
        for f in fields(node):
            if f.name != "span":
                yield from walk(getattr(node, f.name))

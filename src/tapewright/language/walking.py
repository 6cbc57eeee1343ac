"""Walking a tree: a node, and all nodes within it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from tapewright.diagnostics import Span

#: What a field may hold that is no node.
PLAIN = frozenset({str, int, bool, Fraction, Span, type(None)})


@cache
def parts_of(kind: type) -> tuple[str, ...]:
    """The fields of a kind of node in order; none for what is no node."""
    return tuple(f.name for f in fields(kind)) if is_dataclass(kind) else ()


def walk(node: Any) -> Iterator[Any]:
    """A node and all nodes within it, in order of their fields."""
    ahead = [node]
    while ahead:
        node = ahead.pop()
        kind = node.__class__
        if kind is tuple:
            ahead.extend(reversed(node))
        elif kind not in PLAIN and (parts := parts_of(kind)):
            yield node
            within = [getattr(node, name) for name in reversed(parts)]
            ahead.extend([one for one in within if one.__class__ not in PLAIN])

"""A tree again with higher numbers: what `Repeat` says."""

from __future__ import annotations

import re
from dataclasses import fields, is_dataclass, replace
from typing import Any

from tapewright.diagnostics import Span
from tapewright.language.tree import NameRef, NewName, NewPoint, PointRef

_LETTER = re.compile(r"([A-Z])(\d{1,2})('*)")
_NAME = re.compile(r"(.* )?(\d+)")


def renumbered(node: Any, by: int) -> Any:
    """The node with every number in its letters and names raised; letters without a number stay."""
    if isinstance(node, PointRef | NewPoint):
        return replace(node, name=_letter(node.name, by))
    if isinstance(node, NameRef | NewName):
        return replace(node, name=_name(node.name, by))
    if isinstance(node, tuple):
        return tuple(renumbered(one, by) for one in node)
    if is_dataclass(node) and not isinstance(node, type | Span):
        changes = {}
        for f in fields(node):
            old = getattr(node, f.name)
            new = renumbered(old, by)
            if new is not old:
                changes[f.name] = new
        return replace(node, **changes) if changes else node
    return node


def _letter(name: str, by: int) -> str:
    found = _LETTER.fullmatch(name)
    return f"{found[1]}{int(found[2]) + by}{found[3]}" if found else name


def _name(name: str, by: int) -> str:
    found = _NAME.fullmatch(name)
    return f"{found[1] or ''}{int(found[2]) + by}" if found else name


def number_in(name: str) -> int:
    """The number of a letter or a name, such as 2 of B2' and of seam 2; 0 where it has none."""
    found = _LETTER.fullmatch(name) or _NAME.fullmatch(name)
    return int(found[2]) if found else 0


def has_number(node: Any) -> bool:
    """Whether anything in a tree would change."""
    return bool(renumbered(node, 1) != node)

"""The longer explanation of each query, kept as one short page a name in `why/`."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

_PAGES = files("tapewright.diagnostics") / "why"


@cache
def known_names() -> frozenset[str]:
    """The names of all queries: there is no query without its page."""
    return frozenset(p.name.removesuffix(".md") for p in _PAGES.iterdir() if p.name.endswith(".md"))


def explanation(name: str) -> str | None:
    """The page for a query's name, as Markdown; None when there is no such query."""
    if name not in known_names():
        return None
    return (_PAGES / f"{name}.md").read_text(encoding="utf-8")

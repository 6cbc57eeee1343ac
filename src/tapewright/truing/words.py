"""How edges are called in a sentence: a ruler by its letters alone, a line by its name with the article."""

from __future__ import annotations


def called(name: str) -> str:
    """`A-B`, or `the hem`."""
    return name if name[:1].isupper() else f"the {name}"


def capital(words: str) -> str:
    """The same with its first letter large."""
    return words[:1].upper() + words[1:]

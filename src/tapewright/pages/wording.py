"""Typed words as they are printed: apostrophes, primes, and the dash of a span.

Lessons are typed with the plain keys: `A-B`, `V''`, `the wearer's`. On paper a span has an en dash, a
point its primes, and a word its apostrophe.
"""

from __future__ import annotations

import re

_PRIMES = re.compile(r"\b([A-Z]\d{0,2})('{1,2})(?![A-Za-z'])")
_SPAN = re.compile(r"\b([A-Z]\d{0,2}\u2032{0,2})-(?=[A-Z]\d{0,2}\u2032{0,2}(?![A-Za-z0-9]))")


def as_printed(words: str) -> str:
    """The same words with the printer's marks for the typed ones."""
    words = _PRIMES.sub(lambda found: found[1] + "\u2032" * len(found[2]), words)
    words = _SPAN.sub("\\1\u2013", words)
    return re.sub(r"(?<=\w)'", "\u2019", words)

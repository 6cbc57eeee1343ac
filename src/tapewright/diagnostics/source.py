"""Text with a name, and places in it.

A span is a pair of character offsets into the text as Python holds it, start included, end excluded.
Lines and columns (both from 1) are worked out late, here and nowhere else.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple


class Place(NamedTuple):
    """Line and column as people count them, both from 1."""

    line: int
    column: int


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """A stretch of text: `start` is its first character, `end` the one after its last."""

    start: int
    end: int

    def to(self, other: Span) -> Span:
        """The stretch from the start of the one to the end of the other."""
        return Span(min(self.start, other.start), max(self.end, other.end))

    def __len__(self) -> int:
        return self.end - self.start


@dataclass(frozen=True)
class Source:
    """A text and what to call it in a query: a lesson's file name, a sheet's, an amendment's."""

    name: str
    text: str

    @cached_property
    def _starts(self) -> list[int]:
        starts = [0]
        at = self.text.find("\n")
        while at >= 0:
            starts.append(at + 1)
            at = self.text.find("\n", at + 1)
        return starts

    def place(self, offset: int) -> Place:
        """Line and column of an offset; an offset beyond the end is the end's."""
        offset = max(0, min(offset, len(self.text)))
        line = bisect_right(self._starts, offset)
        return Place(line, offset - self._starts[line - 1] + 1)

    def line(self, number: int) -> str:
        """The text of a line (from 1), without its end."""
        start = self._starts[number - 1]
        end = self.text.find("\n", start)
        return self.text[start : end if end >= 0 else len(self.text)].rstrip("\r")

    def __getitem__(self, span: Span) -> str:
        return self.text[span.start : span.end]

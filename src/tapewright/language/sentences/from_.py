"""`From A down to D: the scye depth.` and all that begins at a point and goes some way.

Where it starts, which way, the new letter, and the end: how far, or on which line, or both when a ruler of
a given length reaches a line. After a semicolon the start may be left out: the last point made is meant.
"""

from dataclasses import dataclass, replace
from typing import ClassVar

from tapewright.language.clause import Clause, Drawn, sentence
from tapewright.language.tree import Amount, End, NewPoint, Offset, PointRef, Way


@sentence
@dataclass(frozen=True, slots=True, kw_only=True)
class From(Clause):
    """New points, each by a length, a meeting, a ruler to a line, or two offsets."""

    kind: ClassVar[str] = "from"
    leads: ClassVar[tuple[str, ...]] = ("From",)
    template: ClassVar[str] = (
        "[From {starts*:point}] [{way:way}] to {news*:new} [on {end:end}] [: {reach*:reach}]"
    )
    yields: ClassVar[str] = "points, and thin lines to them"
    carries_on: ClassVar[bool] = True

    starts: tuple[PointRef, ...] = ()
    way: Way | None = None
    news: tuple[NewPoint, ...]
    end: End | None = None
    reach: tuple[Amount | Offset, ...] = ()

    def starting(self, last: PointRef) -> "From":
        return self if self.starts else replace(self, starts=(last,))

    def pairs(self) -> tuple[tuple[PointRef, NewPoint], ...]:
        """Start and new point, one start serving all where only one is given; none where there is no start."""
        starts = self.starts if len(self.starts) == len(self.news) else self.starts[:1] * len(self.news)
        return tuple(zip(starts, self.news, strict=False))

    def by_offsets(self) -> bool:
        """Whether one point lies so far one way and so far another: nobody draws a line to it."""
        return len(self.news) == 1 and len(self.reach) == 2

    def drawn(self) -> tuple[Drawn, ...]:
        if self.by_offsets():
            return ()
        return tuple(Drawn("straight", (a.name, b.name)) for a, b in self.pairs())

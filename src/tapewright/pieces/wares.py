"""Small wares: what a lesson's trimmings come to, in lengths and numbers, both sides of a pair counted.

A count goes evenly from the first end of its edges to the last, one at each end; a distance is laid off from the first
end. What runs along goes along the whole. One body at a time.
"""

from __future__ import annotations

from dataclasses import dataclass

from tapewright.draft import Draft
from tapewright.draft.records import Trimming
from tapewright.geometry.tolerance import LENGTH_AGREES


@dataclass(frozen=True, slots=True)
class Ware:
    """A trimming: what it is, on which edges, how long these are together, mm, where each of it stands, mm.

    `places` are distances along the edges from the first end, of one side; empty where it runs all along. `times` is
    how often it is wanted: 2 for a half draft, since each side has it.
    """

    ware: str
    edges: tuple[str, ...]
    length: float
    places: tuple[float, ...]
    times: int
    sentence: int

    @property
    def count(self) -> int:
        """How many are wanted in all; 0 where it runs along."""
        return len(self.places) * self.times

    @property
    def total(self) -> float:
        """How much runs along in all, mm; 0 for what is counted."""
        return 0.0 if self.places else self.length * self.times


def wares_of(draft: Draft, row: int = 0, times: int = 2) -> tuple[Ware, ...]:
    """Every trimming of one body's draft, in the order of its sentences."""
    return tuple(_ware(t, row, times) for t in draft.trimmings())


def _ware(said: Trimming, row: int, times: int) -> Ware:
    long = sum(float(edge.length[row]) for edge in said.edges)
    places: tuple[float, ...] = ()
    if said.count == 1:
        places = (0.0,)
    elif said.count:
        places = tuple(long * k / (said.count - 1) for k in range(said.count))
    elif said.apart is not None:
        apart = float(said.apart[row])
        places = tuple(apart * k for k in range(int((long + LENGTH_AGREES) / apart) + 1))
    return Ware(
        said.ware, tuple(e.name for e in said.edges), long, places, 1 if said.once else times, said.sentence
    )

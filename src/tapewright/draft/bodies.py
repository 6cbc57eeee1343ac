"""The bodies a draft is made for: one row a body, every measure an array with the bodies axis last."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tapewright.measures import Figure, Sheet, key_of

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Rows = NDArray[np.intp]


@dataclass(frozen=True)
class Bodies:
    """Measures of `count` bodies.

    `values[name]` is `(count,)` in mm (radians for a slope); where `taken[name]` is False the value is a
    stand-in and means nothing. `figures` and `labels` hold one entry a body. `waiting` names measures that
    stand on a sheet but were asked about there, so that nothing is said of them twice.
    """

    count: int
    labels: tuple[str, ...]
    figures: tuple[Figure | None, ...]
    values: Mapping[str, Array]
    taken: Mapping[str, Mask]
    waiting: frozenset[str] = frozenset()

    def some(self, rows: Rows) -> Bodies:
        """The bodies of some rows, in that order."""
        return Bodies(
            len(rows),
            tuple(self.labels[i] for i in rows),
            tuple(self.figures[i] for i in rows),
            {name: value[rows] for name, value in self.values.items()},
            {name: mask[rows] for name, mask in self.taken.items()},
            self.waiting,
        )


def from_sheets(sheets: Sequence[Sheet], names: Iterable[str], side: str | None = None) -> Bodies:
    """Bodies from measure sheets; `side` is left or right where the sheet has both."""
    count = len(sheets)
    values: dict[str, Array] = {}
    taken: dict[str, Mask] = {}
    waiting: set[str] = set()
    for name in names:
        numbers = [sheet.number(name, side) for sheet in sheets]
        taken[name] = np.array([n is not None for n in numbers], dtype=np.bool_)
        known = next((n for n in numbers if n is not None), 0.0)
        values[name] = np.array([known if n is None else n for n in numbers], dtype=np.float64)
        waiting |= {name for sheet in sheets if key_of(name) in sheet.waiting}
    return Bodies(
        count,
        tuple(sheet.wearer for sheet in sheets),
        tuple(sheet.figure for sheet in sheets),
        values,
        taken,
        frozenset(waiting),
    )


def from_arrays(values: Mapping[str, Array], figure: Figure | None) -> Bodies:
    """Bodies all of whose measures are taken: survey rows, `(count,)` each, in mm and radians."""
    count = len(next(iter(values.values()))) if values else 1
    return Bodies(
        count,
        tuple(f"row {i}" for i in range(count)),
        (figure,) * count,
        {name: np.asarray(v, dtype=np.float64) for name, v in values.items()},
        {name: np.ones(count, dtype=np.bool_) for name in values},
    )

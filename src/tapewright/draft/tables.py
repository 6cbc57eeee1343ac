"""Looking a length up in a table, on rows: between two rows as the table says, never off its ends."""

from __future__ import annotations

import numpy as np

from tapewright.diagnostics import Span
from tapewright.draft import asking
from tapewright.draft.board import Board
from tapewright.draft.bodies import Array
from tapewright.geometry.tolerance import ROUNDING
from tapewright.language.lesson import TableEntry


def look_up(board: Board, table: TableEntry, column: int, by: Array, span: Span) -> Array:
    """The figure of a column where the first column is `by`, `(bodies,)`, mm."""
    order = sorted(table.rows, key=lambda row: row[0])
    keys = np.array([float(row[0]) for row in order])
    figures = np.array([float(row[column]) for row in order])
    first, last = float(keys[0]), float(keys[-1])
    within = (by >= first - ROUNDING) & (by <= last + ROUNDING)
    board.fail(within, lambda row: asking.off_the_table(table, float(by[row]), first, last, span))
    held = np.clip(by, first, last)
    above = np.clip(np.searchsorted(keys, held - ROUNDING), 0, len(keys) - 1)
    on = np.abs(keys[above] - held) <= ROUNDING
    below = np.maximum(above - 1, 0)
    if table.between == "next larger":
        return figures[above]
    gap = keys[above] - keys[below]
    share = np.where(gap > 0.0, (held - keys[below]) / np.where(gap > 0.0, gap, 1.0), 1.0)
    if table.between == "nearest":
        return np.where(on | (share >= 0.5), figures[above], figures[below])
    if table.between == "in proportion":
        return np.where(on, figures[above], figures[below] + (figures[above] - figures[below]) * share)
    low, high = keys[below], keys[above]
    board.fail(
        on, lambda row: asking.between_rows(table, float(by[row]), float(low[row]), float(high[row]), span)
    )
    return figures[above]

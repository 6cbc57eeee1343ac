"""Which known word was meant: ranked by the number of slips between the two."""

from __future__ import annotations

from collections.abc import Iterable


def slips(a: str, b: str, limit: int) -> int:
    """Letters left out, put in, changed or exchanged with a neighbour; `limit` + 1 when there are more.

    The restricted Damerau-Levenshtein distance, row by row.
    """
    if abs(len(a) - len(b)) > limit:
        return limit + 1
    before: list[int] = []
    last = list(range(len(b) + 1))
    for i, ca in enumerate(a, 1):
        row = [i]
        for j, cb in enumerate(b, 1):
            cost = min(row[j - 1] + 1, last[j] + 1, last[j - 1] + (ca != cb))
            if i > 1 and j > 1 and ca == b[j - 2] and cb == a[i - 2]:
                cost = min(cost, before[j - 2] + 1)
            row.append(cost)
        if min(row) > limit:
            return limit + 1
        before, last = last, row
    return last[-1]


def did_you_mean(word: str, known: Iterable[str], most: int = 4) -> tuple[str, ...]:
    """At most `most` known words near `word`, the nearest first; up to a third of its letters may differ."""
    limit = max(1, len(word) // 3)
    folded = word.casefold()
    ranked = sorted((slips(folded, k.casefold(), limit), k) for k in set(known) if k)
    return tuple(k for distance, k in ranked if distance <= limit)[:most]

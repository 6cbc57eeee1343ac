"""Points that lie on each other: a dart of nothing, a corner that two rules reach.

They are lettered as one, their names side by side in the order in which they were made, so that each
name still stands by its point.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from tapewright.drawing import joined
from tapewright.pages.lettering import Label, Letter, kept_clear

# In ems. Dots nearer than this, two thirds of a dot's radius, are one dot to the eye.
_SAME = 0.1
_GAP = 0.5  # between two names: more than the clearance that both of them keep


def heaped(letters: Sequence[Letter], size: float) -> list[list[int]]:
    """The positions of letters that share a place, together; every letter in one list."""
    heaps: list[list[int]] = []
    for i, letter in enumerate(letters):
        for heap in heaps:
            first = letters[heap[0]]
            if math.hypot(letter.x - first.x, letter.y - first.y) < _SAME * size:
                heap.append(i)
                break
        else:
            heaps.append([i])
    return heaps


def heap_letter(letters: Sequence[Letter], heap: Sequence[int], size: float) -> Letter:
    """One letter that stands for a heap, its name all the names in a row."""
    first = letters[heap[0]]
    if len(heap) == 1:
        return first
    row = joined((letters[i].setting for i in heap), _GAP * size)
    name = " ".join(letters[i].name for i in heap)
    return Letter(name, first.x, first.y, min(letters[i].rank for i in heap), row)


def parted(label: Label, letters: Sequence[Letter], size: float) -> list[Label]:
    """The labels of a heap's letters, from the one label that was placed for them all.

    A leader stays with the name that its end is nearest to.
    """
    if len(letters) == 1:
        return [replace(label, name=letters[0].name)]
    x = label.x
    labels: list[Label] = []
    for letter in letters:
        corners = kept_clear(letter.setting, size).moved(x, label.y).corners()
        labels.append(
            replace(label, name=letter.name, setting=letter.setting, x=x, corners=corners, leader=None)
        )
        x += letter.setting.width + _GAP * size
    if label.leader is None:
        return labels
    end = label.leader[2:]

    def away(one: Label) -> float:
        box = one.box
        return math.hypot(
            max(box.left - end[0], end[0] - box.right, 0.0), max(box.top - end[1], end[1] - box.bottom, 0.0)
        )

    nearest = min(range(len(labels)), key=lambda i: away(labels[i]))
    labels[nearest] = replace(labels[nearest], leader=label.leader)
    return labels

"""A body's draft is its own: it never depends on the bodies drawn beside it, bit for bit.

Everything of both blocks is compared: every letter, line, named amount, outline, check and query. No outside
source is needed for that; the bodies are a thousand of the 1988 survey (`tests/data/README.md`).
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import numpy as np
import pytest

from tapewright.draft import Bodies, Draft, evaluate, from_arrays
from tapewright.draft.rows import arrays
from tests.blocks.drafts import BLOCKS, Array, Block, plan
from tests.survey import survey

each_block = pytest.mark.parametrize("block", BLOCKS, ids=lambda b: b.name)
COUNT = 1000
#: Bodies looked at one by one: spread over the thousand, the first and the last among them.
LOOKED_AT = (0, 1, 2, 3, 63, 64, 127, 255, 256, 499, 511, 512, 767, 901, 998, 999)


@pytest.fixture(autouse=True)
def strictest_arithmetic() -> Iterator[None]:
    """Nothing at all may go wrong in the arithmetic, an underflow included."""
    with np.errstate(all="raise"):
        yield


@cache
def thousand(block: Block) -> Bodies:
    """A thousand people; every third has only the few measures, every seventh no shoulder slope."""
    columns = {name: column[:COUNT] for name, column in survey(block.sex).items()}
    bodies = from_arrays(columns, block.figure)
    place = np.arange(COUNT)
    for name, taken in bodies.taken.items():
        taken[place % 3 == 2] = name in block.few
        if name == "shoulder slope":
            taken[place % 7 == 3] = False
    return bodies


@cache
def together(block: Block) -> Draft:
    """The thousand, drawn at once."""
    return evaluate(plan(block), thousand(block))


def _of_row(draft: Draft, row: int) -> dict[str, list[Array]]:
    """Everything a draft knows of one body, array by array."""
    found = {key: [a[..., row] for a in arrays(value.thing)] for key, value in draft.made.items()}
    found |= {f"{key} alive": [np.asarray(draft.alive(key, row), dtype=np.float64)] for key in draft.made}
    for i, check in enumerate(draft.checks()):
        found[f"check {i}"] = [check.left[row], check.right[row], check.difference[row], check.holds[row]]
    return found


def _agree(one: Draft, row: int, other: Draft, other_row: int) -> None:
    a, b = _of_row(one, row), _of_row(other, other_row)
    assert a.keys() == b.keys()
    for key, values in a.items():
        for x, y in zip(values, b[key], strict=True):
            assert x.shape == y.shape, key
            assert (x == y).all(), key
    assert [(q.name, q.message) for q in one.queries(row)] == [
        (q.name, q.message) for q in other.queries(other_row)
    ]


@each_block
def test_a_body_alone_is_the_body_among_a_thousand(block: Block) -> None:
    """One body drawn by itself has the same bits as among a thousand, some of whom have fewer measures."""
    assert together(block).drawn().all()
    for row in LOOKED_AT:
        alone = evaluate(plan(block), thousand(block).some(np.array([row])))
        _agree(alone, 0, together(block), row)


@each_block
@pytest.mark.parametrize("count", [7, COUNT])
def test_the_order_of_bodies_changes_nothing(block: Block, count: int) -> None:
    """Shuffled, and a handful out of the thousand, every body keeps its bits."""
    order = np.random.default_rng(1794).permutation(COUNT)[:count]
    shuffled = evaluate(plan(block), thousand(block).some(order))
    rows = {row: place for place, row in enumerate(order.tolist())}
    for row in order[:7].tolist() if count == 7 else LOOKED_AT:
        _agree(shuffled, rows[row], together(block), row)


@each_block
def test_all_thousand_keep_their_bits_when_turned_about(block: Block) -> None:
    """Drawn from the last to the first, all letters, lines and amounts of all thousand are the same bits."""
    backward = evaluate(plan(block), thousand(block).some(np.arange(COUNT)[::-1]))
    assert backward.made.keys() == together(block).made.keys()
    for key, value in together(block).made.items():
        for a, b in zip(arrays(value.thing), arrays(backward.made[key].thing), strict=True):
            assert (a == b[..., ::-1]).all(), key

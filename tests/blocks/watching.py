"""Which amounts of a block are watched by its checks: each is changed, and what the table then says is heard.

An amount is watched on a body when, changed by a centimetre (or by four degrees), a check that held on that
body no longer holds, or the table has a question it had not. Notes and cautions do not count.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

import numpy as np
import numpy.typing as npt

from tapewright.draft import Bodies, Draft, evaluate, from_arrays
from tapewright.language import Lesson
from tapewright.language import sentences as s
from tapewright.language.tree import Ruler
from tapewright.plan import Plan, build_plan
from tests.blocks.drafts import (
    MAN,
    WOMAN,
    Array,
    Block,
    Taken,
    demo_bodies,
    drafted,
    lesson,
    measures,
    plan,
    ruler,
)
from tests.blocks.mutation import Said, amounts, changed, node_of
from tests.survey import Half

Mask = npt.NDArray[np.bool_]
Held = dict[tuple[int, str], Mask]

#: What no survey took, and what the lessons draw in its place; a body that brings it all stands in for one
#: that was measured so.
FILLED = {WOMAN: ("cross front",), MAN: ("cross front", "front shoulder", "over shoulder")}


@dataclass(frozen=True, slots=True)
class Heard:
    """One amount: on which bodies a centimetre more is told of, and on which a centimetre less."""

    said: Said
    more: Mask
    less: Mask

    @property
    def watched(self) -> bool:
        """Whether both are told of on some body."""
        return bool(self.more.any() and self.less.any())


def all_hold(draft: Draft) -> Mask:
    """The bodies on which every check of a draft comes out."""
    return np.asarray(np.logical_and.reduce([check.holds for check in draft.checks()]))


@cache
def rows_tried(block: Block) -> tuple[int, ...]:
    """Rows of the trial half on which all checks hold, with all measures and with few.

    Of those: the greatest and the least in stature, in girth, in girth over waist, in the slope of the
    shoulder, in the back's length over the front's, and (women) in bust over high bust.
    """
    body = measures(block, Half.TRIAL)
    good = np.nonzero(all_hold(drafted(block, Half.TRIAL)) & all_hold(drafted(block, Half.TRIAL, Taken.FEW)))[
        0
    ]
    girth = body[block.girth]
    signs = [
        body["stature"],
        girth,
        girth - body["waist"],
        body["shoulder slope"],
        body["nape to waist"] - body["front neck to waist"],
        girth - body["high bust"],
    ]
    ends = [int(good[at(sign[good])]) for sign in signs for at in (np.argmax, np.argmin)]
    return tuple(dict.fromkeys(ends))


@cache
def bodies_tried(block: Block) -> Bodies:
    """The demo wearer and the rows above, each thrice: with all measures, with few, with every measure.

    Every measure means the filled ones too, to the millimetre as the block itself draws them.
    """
    demo = demo_bodies(block)
    rows = np.array(rows_tried(block))
    values = {name: column[rows] for name, column in measures(block, Half.TRIAL).items()}
    names = [n for n in plan(block).measures() if n not in FILLED[block]]
    once = {name: np.concatenate([demo.values[name], values[name]]) for name in names}
    filled = as_drawn(block, evaluate(plan(block), from_arrays(once, block.figure)))
    columns = {name: np.tile(value, 3) for name, value in {**once, **filled}.items()}
    bodies = from_arrays(columns, block.figure)
    third = np.repeat(np.arange(3), len(rows) + 1)
    for name, taken in bodies.taken.items():
        taken[third == 0] = name not in filled
        taken[third == 1] = name in block.few
    return bodies


def as_drawn(block: Block, draft: Draft) -> Mapping[str, Array]:
    """The measures that are filled, as the paper has them, to the millimetre."""
    if block is WOMAN:
        ease = 0.2 * np.asarray(draft.made["eye bust ease"].thing)
        return {"cross front": np.round(2.0 * ruler(draft, "F", "Y1") - ease)}
    return {
        "cross front": np.round(2.0 * draft.amount("front width")),
        "front shoulder": np.round(draft.amount("reach")),
        "over shoulder": np.round(draft.amount("over length")),
    }


def _held(draft: Draft) -> Held:
    return {(check.sentence, check.claim): check.holds for check in draft.checks()}


def told(made: Plan, block: Block, before: Draft) -> Mask:
    """The bodies on which a changed plan breaks a check that held, or a sentence that was drawn."""
    after = evaluate(made, bodies_tried(block))
    now = _held(after)
    nothing = np.zeros(before.bodies.count, dtype=np.bool_)
    broken = [held & ~now.get(key, nothing) for key, held in _held(before).items()]
    return np.asarray(np.logical_or.reduce([before.drawn() & ~after.drawn(), *broken]))


def _in_force(tree: Lesson, said: Said, before: Draft) -> Mask:
    """The bodies for which there is something to change: a half of nothing cannot be moved along it."""
    node = node_of(tree, said)
    if isinstance(node, s.Divide) and isinstance(node.line, Ruler):
        return np.asarray(ruler(before, node.line.a.name, node.line.b.name) > 1.0)
    return np.ones(before.bodies.count, dtype=np.bool_)


@cache
def heard(block: Block) -> tuple[Heard, ...]:
    """Every amount of a block, with what its change comes to on the bodies tried."""
    tree = lesson(block)
    before = evaluate(plan(block), bodies_tried(block))
    found = []
    for said in amounts(tree):
        force = _in_force(tree, said, before)
        more, less = (told(build_plan(changed(tree, said, sign)), block, before) & force for sign in (1, -1))
        found.append(Heard(said, more, less))
    return tuple(found)

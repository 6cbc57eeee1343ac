"""The two shipped blocks, drawn for the people of the 1988 survey.

Lines and letters are found by their names in the lessons, so that a lesson may be written anew without a
change here, as long as it makes the same things.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

import numpy as np
import numpy.typing as npt

from tapewright.app.library import lessons, wearers
from tapewright.diagnostics import Kind, Source
from tapewright.draft import Bodies, Draft, evaluate, from_arrays, from_sheets
from tapewright.geometry import Arc, Circle, distance, length
from tapewright.language import Lesson, read_amendments, read_lesson
from tapewright.measures import Figure, read_sheet
from tapewright.plan import Plan, build_plan
from tests.survey import Half, Sex, survey

Array = npt.NDArray[np.float64]


class Taken(StrEnum):
    """How many of the lesson's measures a body brings."""

    ALL = "all"
    FEW = "few"


@dataclass(frozen=True, slots=True)
class Block:
    """A shipped block: its lesson, whose it is, the fewest measures it draws from, its demo wearer."""

    name: str
    sex: Sex
    figure: Figure
    few: tuple[str, ...]
    wearer: str

    @property
    def girth(self) -> str:
        """What the fullest girth is called on this figure."""
        return "bust" if self.figure is Figure.WOMAN else "chest"


WOMAN = Block(
    "a-womans-body-block",
    Sex.WOMEN,
    Figure.WOMAN,
    ("bust", "high bust", "waist", "nape to waist"),
    "margery-thorne",
)
MAN = Block("a-mans-body-block", Sex.MEN, Figure.MAN, ("chest", "waist", "nape to waist"), "josiah-pell")
BLOCKS = (WOMAN, MAN)


@cache
def lesson(block: Block) -> Lesson:
    """The lesson as it is shipped."""
    path = lessons()[block.name]
    return read_lesson(Source(path.name, path.read_text(encoding="utf-8")))


@cache
def plan(block: Block, amendments: str = "") -> Plan:
    """The lesson's plan, perhaps amended; ValueError when the table has a question about it."""
    tree = lesson(block)
    if not amendments:
        return sound(build_plan(tree))
    found, asked = read_amendments(Source("amendments.md", amendments), tree)
    if asked:
        raise ValueError(asked[0].message)
    return sound(build_plan(tree, found))


def sound(made: Plan) -> Plan:
    """The plan itself; ValueError when the table has a question about it."""
    questions = [q for q in made.queries if q.kind is Kind.QUESTION]
    if questions:
        raise ValueError(questions[0].message)
    return made


def measures(block: Block, half: Half, taken: Taken = Taken.ALL) -> Mapping[str, Array]:
    """The survey's measures of one half, all of them or the few."""
    everything = survey(block.sex, half)
    return everything if taken is Taken.ALL else {name: everything[name] for name in block.few}


@cache
def drafted(block: Block, half: Half, taken: Taken = Taken.ALL, amendments: str = "") -> Draft:
    """The block on every body of one half of the survey; what was not measured is filled."""
    return evaluate(plan(block, amendments), from_arrays(measures(block, half, taken), block.figure))


def demo_bodies(block: Block) -> Bodies:
    """The demo wearer, from the shipped sheet."""
    path = wearers()[block.wearer]
    sheet, _ = read_sheet(Source(path.name, path.read_text(encoding="utf-8")))
    assert sheet is not None
    return from_sheets([sheet], plan(block).measures())


def ruler(draft: Draft, a: str, b: str) -> Array:
    """From one letter to another by the straight ruler, mm."""
    return distance(draft.point(a), draft.point(b))


def tape(draft: Draft, name: str) -> Array:
    """How long a named line is by the tape, mm."""
    drawn = draft.line(next(line.index for line in draft.plan.lines if line.name == name))
    if isinstance(drawn, Circle | Arc):
        raise TypeError(f"{name} is a sweep")
    return length(drawn)

"""The examples: lessons that ask nothing, and draw for people nobody had in mind when they were written."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from tapewright.diagnostics import Kind, Source
from tapewright.draft import Bodies, Draft, evaluate, from_arrays, from_sheets
from tapewright.language import read_lesson
from tapewright.language.house_style import formatted
from tapewright.measures import Figure, Sheet, read_sheet
from tapewright.plan import Plan, build_plan
from tests.survey import Half, Sex, survey

FOLDER = Path(__file__).parents[1] / "examples"
#: Each lesson with its sheet, as the folder's own page has them.
PAIRS = dict(re.findall(r"\]\((\S+)\.md\) \| `(\S+)`", (FOLDER / "README.md").read_text(encoding="utf-8")))
PEOPLE = 200


@cache
def plan(name: str) -> Plan:
    return build_plan(read_lesson(Source(name, (FOLDER / f"{name}.md").read_text(encoding="utf-8"))))


def sheet(name: str) -> Sheet:
    found, queries = read_sheet(Source(name, (FOLDER / name).read_text(encoding="utf-8")))
    assert found is not None
    assert not [q.message for q in queries if q.kind is Kind.QUESTION]
    return found


def test_every_lesson_of_the_folder_is_on_its_page() -> None:
    """The page lists the lessons that there are, and each sheet exists."""
    assert set(PAIRS) == {p.stem for p in FOLDER.glob("*.md")} - {"README"}
    assert all((FOLDER / name).exists() for name in PAIRS.values())


@pytest.mark.parametrize("name", sorted(PAIRS))
def test_an_example_asks_nothing_and_its_checks_hold(name: str) -> None:
    """On its own wearer's sheet; and it stands in house style."""
    draft = evaluate(plan(name), from_sheets([sheet(PAIRS[name])], plan(name).measures()))
    assert [q.message for q in draft.queries()] == []
    assert bool(draft.drawn()[0])
    assert len(draft.checks()) >= 3
    assert all(bool(c.holds[0]) for c in draft.checks())
    text = (FOLDER / f"{name}.md").read_text(encoding="utf-8")
    assert formatted(Source(name, text)) == text


@pytest.mark.slow
@pytest.mark.parametrize("name", sorted(PAIRS))
def test_an_example_draws_for_people_of_the_survey(name: str) -> None:
    """Two hundred of the 1988 survey, public domain, a measure that was not taken left to the lesson or the usual.

    At most one body in a hundred may stop, and says why.
    """
    draft = drawn_for_people(name)
    drawn = draft.drawn()
    assert drawn.mean() >= 0.99
    for row in np.flatnonzero(~drawn):
        assert any(q.kind is Kind.QUESTION and q.help for q in draft.queries(int(row)))


def drawn_for_people(name: str) -> Draft:
    """A lesson on 200 people; what the survey lacks, all of them have as the example's own wearer."""
    own = sheet(PAIRS[name])
    people = survey(Sex.MEN if own.figure is Figure.MAN else Sex.WOMEN, Half.TRIAL)
    wanted = plan(name).measures()
    values = {m: np.asarray(people[m][:PEOPLE], dtype=np.float64) for m in wanted if m in people}
    for measure in wanted:
        number = own.number(measure)
        if measure not in values and number is not None:
            values[measure] = np.full(PEOPLE, number)
    bodies: Bodies = from_arrays(values, own.figure)
    return evaluate(plan(name), bodies)

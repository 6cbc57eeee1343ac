"""The tables of `docs/measures.md` and `docs/measuring.md`, worked out from the shipped models and the catalogue.

The words round them are written by hand.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from pathlib import Path

from tapewright.measures import catalogue
from tapewright.measures.catalogue import GROUPS
from tapewright.units import OLD_UNITS
from tests.measures.outcomes import BOUNDS, SLIPS, caught, crossed, exchanged, false_alarms, missed
from tests.survey import Sex

DOCS = Path(__file__).parent.parent.parent / "docs"
PAGES = (DOCS / "measures.md", DOCS / "measuring.md")
_PART = re.compile(r"<!-- table: (?P<name>[a-z ]+) -->\n.*?<!-- end -->", re.DOTALL)


def _row(*cells: str) -> str:
    return "| " + " | ".join(cells) + " |"


def _table(head: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> str:
    return "\n".join([_row(*head), _row(*("---",) * len(head)), *(_row(*row) for row in rows)])


def estimates() -> str:
    """Mean errors and cover, beside a plain model and what was asked."""
    rows = []
    for sex, word, asked in ((Sex.WOMEN, "women", ("12.3", "14.7")), (Sex.MEN, "men", ("13.5", "13.5"))):
        new, old = missed(2012, sex), missed(1988, sex)
        rows += [
            (
                f"{word}, 2012, trial half",
                "8",
                f"{new.error:.2f}",
                f"{new.plain:.2f}",
                "",
                f"{100 * new.cover:.1f} %",
            ),
            (f"{word}, 2012, each half tried by the other", "8", f"{crossed(sex):.2f}", "", asked[0], ""),
            (
                f"{word}, 1988, trial half",
                "25",
                f"{old.error:.2f}",
                f"{old.plain:.2f}",
                asked[1],
                f"{100 * old.cover:.1f} %",
            ),
        ]
    return _table(
        ("people", "measures", "mean error, mm", "plain model, mm", "limit, mm", "true value in the range"),
        rows,
    )


def each_estimate() -> str:
    """The mean error of each estimate on the trial half of 1988, women and men."""
    women, men = missed(1988, Sex.WOMEN), missed(1988, Sex.MEN)
    rows = [
        (
            name,
            f"{women.errors[name]:.0f}",
            f"{100 * women.covered[name]:.0f} %",
            f"{men.errors[name]:.0f}",
            f"{100 * men.covered[name]:.0f} %",
        )
        for name in sorted(women.errors, key=lambda n: women.errors[n])
    ]
    return _table(("measure", "women, mm", "in the range", "men, mm", "in the range"), rows)


def slips() -> str:
    """How many slips are caught, and how many true values are asked about."""
    rows = []
    for slip in SLIPS:
        women, men = caught(Sex.WOMEN, slip), caught(Sex.MEN, slip)
        rows.append((slip, f"{women.share:.1f} %", f"{men.share:.1f} %", f"at least {BOUNDS[slip]:.0f} %"))
    rows.append(
        (
            "two lines exchanged (3 cm apart or more)",
            f"{exchanged(Sex.WOMEN):.1f} %",
            f"{exchanged(Sex.MEN):.1f} %",
            "",
        )
    )
    rows.append(
        (
            "nothing wrong, and asked about (an entry)",
            f"{false_alarms(Sex.WOMEN):.2f} %",
            f"{false_alarms(Sex.MEN):.2f} %",
            "at most 1.2 %",
        )
    )
    return _table(("slip", "women", "men", "limit"), rows)


def hard_to_see() -> str:
    """The measures in which a slip of 5 cm is most often missed."""
    women, men = caught(Sex.WOMEN, "5 cm off").by_measure, caught(Sex.MEN, "5 cm off").by_measure
    worst = {name: min(women.get(name, 100.0), men.get(name, 100.0)) for name in (*women, *men)}
    rows = [
        (
            "bust or chest" if name == "bust" else name,
            f"{women[name]:.0f} %" if name in women else "",
            f"{men[name]:.0f} %" if name in men else "",
        )
        for name in sorted(worst, key=lambda n: worst[n])
        if worst[name] < 75
    ]
    return _table(("measure", "women", "men"), rows)


def measures() -> str:
    """Every measure in the order of a measuring day, with the other words for it."""
    rows = [
        (str(m.turn), m.name, ", ".join(m.also), m.how, m.standard)
        for group in GROUPS
        for m in sorted(catalogue().values(), key=lambda m: m.turn)
        if m.group == group
    ]
    return _table(("", "measure", "other words", "how it is taken", "a standard's term"), rows)


def to_take(group: str) -> str:
    """How the measures of one group are taken, by the numbers of the figures."""
    rows = []
    for measure in sorted(catalogue().values(), key=lambda m: m.turn):
        if measure.group == group:
            apart = f"{float(measure.apart / measure.unit.size):g} {measure.unit.name}"
            rows.append((str(measure.turn), measure.name, measure.how, apart))
    return _table(("", "measure", "how it is taken", "twice within"), rows)


def units() -> str:
    """The historical units."""
    rows = [(u.name, f"{float(u.mm):.2f}", u.source) for u in OLD_UNITS]
    return _table(("unit", "mm", "source"), rows)


TABLES: Mapping[str, Callable[[], str]] = {
    "estimates": estimates,
    "each estimate": each_estimate,
    "slips": slips,
    "hard to see": hard_to_see,
    "measures": measures,
    "units": units,
    **{f"to take {group}": partial(to_take, group) for group in GROUPS},
}


def page(path: Path) -> str:
    """A page with its tables as they come out now."""

    def table(found: re.Match[str]) -> str:
        return f"<!-- table: {found['name']} -->\n{TABLES[found['name']]()}\n<!-- end -->"

    return _PART.sub(table, path.read_text(encoding="utf-8"))

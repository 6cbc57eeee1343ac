"""Run every benchmark and write `docs/benchmarks.md`."""

from __future__ import annotations

import os
import platform
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path

import numpy as np
from markdown_it import MarkdownIt

from benchmarks import kinds, lessons, memory
from benchmarks.subjects import TURNING, Subject, agreement, block, bodice, sampled, turnings
from benchmarks.timing import Timing, timed
from tapewright.diagnostics import Source
from tapewright.draft import Draft, evaluate, redraw
from tapewright.language import Memory, read_lesson
from tapewright.plan import build_plan

PAGE = Path(__file__).parent.parent / "docs" / "benchmarks.md"
ROWS = memory.ROWS

HEAD = """# How long it takes

Written by `make bench`; not edited by hand. Plain repeated timing: each figure is the median of many runs in one
process after one that does not count, in milliseconds of **processor** time; *19 in 20* is what nineteen runs in
twenty do not exceed; *clock* is the median as somebody waits for it. Beside each stands a baseline timed in the
same run. *Hold* is what the design asks of two quiet cores. These are no tests: nothing fails by being slow.

{machine}

Two drafts are timed. **{block}** as it is shipped: {block_size}. **{bodice}**, made by `benchmarks/lessons.py` and
good for nothing else: {bodice_size}. The bodies are women of the 1988 survey, its 1,877 rows over again up to
{rows:,}. *By hand* is the same draft in plain numpy (`benchmarks/by_hand.py`), with its checks and seams and
without queries, provenance, or bodies on which a sentence may fail. Before anything was timed the two were
compared on all 1,877 women; they agree: {agreement}.
"""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a table: what, how long, the baseline and how long that, and what to hold."""

    what: str
    timing: Timing
    baseline: str
    beside: Timing
    hold: str

    def cells(self) -> tuple[str, ...]:
        """The line as it is written."""
        t, b = self.timing, self.beside
        return (
            self.what, _ms(t.processor), _ms(t.processor_95), _ms(t.clock), self.baseline, _ms(b.processor),
            f"{t.processor / b.processor:.2f}", self.hold,
        )  # fmt: skip


COLUMNS = ("what", "processor", "19 in 20", "clock", "baseline", "processor", "times", "hold")


def _ms(value: float) -> str:
    return f"{value:.0f}" if value >= 100 else f"{value:.1f}" if value >= 10 else f"{value:.2f}"


def _table(columns: tuple[str, ...], rows: list[tuple[str, ...]]) -> str:
    rule = ("---", *("---" for _ in columns[1:]))
    return "\n".join("| " + " | ".join(row) + " |" for row in (columns, rule, *rows)) + "\n"


def _size(subject: Subject) -> str:
    plan = subject.plan
    said = sum(len(item.sentences) for item in plan.lesson.items)
    curves = sum(line.sort != "straight" for line in plan.lines)
    return (
        f"{said} sentences, {len(plan.steps)} clauses that draw or check, {len(plan.points)} letters, "
        f"{len(plan.lines)} lines, {curves} of them bent"
    )


def _one_body(subject: Subject, draft: Draft) -> Iterator[Line]:
    """The whole draft for one wearer."""
    one, measures = subject.bodies(1), subject.measures(1)
    hand = timed(lambda k: subject.hand(measures))
    whole = timed(lambda k: evaluate(subject.plan, one))
    yield Line(f"{subject.name}, drawn and checked", whole, "by hand", hand, "8")
    lines = sampled(draft)
    outside = timed(lambda k: [line.offset_curve(-TURNING) for line in lines])
    around = timed(lambda k: turnings(draft))
    yield Line(f"its turnings, {len(lines)} edges", around, "shapely, 65 places an edge", outside, "")
    both = timed(lambda k: turnings(evaluate(subject.plan, one)))
    yield Line("both together", both, "by hand, and shapely", _sum(hand, outside), "8")


def _sum(one: Timing, other: Timing) -> Timing:
    return Timing(
        one.processor + other.processor,
        one.processor_95 + other.processor_95,
        one.clock + other.clock,
        one.clock_95 + other.clock_95,
        min(one.runs, other.runs),
    )


def _changed(subject: Subject, draft: Draft, names: tuple[str, ...]) -> Iterator[Line]:
    """One value by eye changed: only what depends on it is drawn again, and only that is handed out."""
    one = subject.bodies(1)
    for name in names:
        usual = float(np.asarray(draft.made[f"eye {name}"].thing)[0])

        def chosen(k: int, name: str = name, usual: float = usual) -> dict[str, float]:
            return {name: usual + 0.1 * (k % 10 + 1)}

        _, handed = redraw(draft, chosen(0))
        part = timed(lambda k: redraw(draft, chosen(k)))
        again = timed(lambda k: evaluate(subject.plan, one, chosen(k)))
        what = f"{subject.name}: the {name}, {len(handed)} of {len(draft.made)} handed out"
        yield Line(what, part, "drawn whole again", again, "5 (19 in 20)")


def _many(subject: Subject) -> Iterator[Line]:
    """Many bodies at once."""
    bodies, measures = subject.bodies(ROWS), subject.measures(ROWS)
    hand = timed(lambda k: subject.hand(measures), seconds=4.0)
    drawn = timed(lambda k: evaluate(subject.plan, bodies), seconds=4.0)
    yield Line(f"{subject.name}, {ROWS:,} bodies", drawn, "by hand", hand, "600; 1.5 times")
    both = timed(lambda k: turnings(evaluate(subject.plan, bodies)), seconds=4.0)
    yield Line("with its turnings", both, "by hand, without", hand, "1500")


def _reading(text: str, what: str) -> Iterator[Line]:
    """Reading afresh, and again after one letter more in a sentence; the plan."""
    source = Source("timed.md", text)
    outside = MarkdownIt("commonmark").enable("table")
    marked = timed(lambda k: outside.parse(text))
    fresh = timed(lambda k: read_lesson(source))
    yield Line(f"{what}, read for the first time", fresh, "markdown-it alone, the same text", marked, "")
    numbers = [item.span for item in read_lesson(source).items]
    for place, at in (("first", 0), ("middle", len(numbers) // 2), ("last", len(numbers) - 1)):
        end = numbers[at].end - 1
        texts = [Source("timed.md", text[:end] + " " * k + text[end:]) for k in (1, 2, 3)]
        again = timed(_rereading(texts))
        yield Line(
            f"{what}, read again, the {place} sentence changed", again, "read without memory", fresh, "15"
        )
    lesson = read_lesson(source)
    planned = timed(lambda k: build_plan(lesson))
    yield Line(f"{what}, planned", planned, "read without memory", fresh, "10")


def _rereading(texts: list[Source]) -> Callable[[int], object]:
    """Reading one text after another with one memory, which gives what reading without it gives."""
    remembered = Memory()
    for text in texts:
        if read_lesson(text, memory=remembered) != read_lesson(text):
            raise SystemExit("a lesson read with a memory is not the lesson read without")
    return lambda k: read_lesson(texts[k % len(texts)], memory=remembered)


def _machine() -> str:
    names = ("numpy", "markdown-it-py", "shapely")
    parts = ", ".join(f"{name} {version(name)}" for name in names)
    return f"Python {platform.python_version()}, {parts}; {platform.machine()}, {os.cpu_count()} cores."


def main() -> None:
    """Time everything, and write the page."""
    # First of all: what a child may be said to have taken is never less than what its parent had.
    taken = {what: memory.most(what) for what in ("none", "hand", "drawn")}
    subjects = (block(), bodice())
    drafts, said = [], []
    for subject in subjects:
        found = agreement(subject)
        said.append(
            f"{subject.name[:1].lower()}{subject.name[1:]}, {found.letters} points to {found.points:.0e} mm, the "
            f"lengths, seams and {found.checks} of {found.of} checks to {found.lengths:.0e} mm"
        )
        drafts.append(evaluate(subject.plan, subject.bodies(1)))
        sys.stdout.write(f"{said[-1]}\n")
    parts = [
        HEAD.format(
            machine=_machine(), block=subjects[0].name, block_size=_size(subjects[0]), bodice=subjects[1].name,
            bodice_size=_size(subjects[1]), rows=ROWS, agreement="; ".join(said),
        )
    ]  # fmt: skip
    changes = (("bust ease", "waist ease", "dart end"), ("bust ease", "dip", "swell 5"))
    sections = (
        ("One wearer", [x for pair in zip(subjects, drafts, strict=True) for x in _one_body(*pair)]),
        (
            "A value by eye changed",
            [x for s, d, names in zip(subjects, drafts, changes, strict=True) for x in _changed(s, d, names)],
        ),
        ("Many bodies", [x for subject in subjects for x in _many(subject)]),
        (
            "Reading and planning",
            [
                *_reading(subjects[0].source.text, "The woman's block"),
                *_reading(subjects[1].source.text, "150 sentences"),
                *_reading(lessons.lesson(18, 300), "300 sentences"),
            ],
        ),
    )
    for title, lines in sections:
        parts.append(f"\n## {title}\n\n{_table(COLUMNS, [line.cells() for line in lines])}")
    parts.append(
        f"\n## Memory\n\nThe most a process of its own took for the bodice on {ROWS:,} bodies, everything kept: "
        f"**{taken['drawn']:.0f} MB** drawn, with its turnings; {taken['hand']:.0f} MB by hand, without; "
        f"{taken['none']:.0f} MB with the bodies alone. Hold: 500.\n"
    )
    parts.append(
        "\n## Each kind of sentence\n\nFor one wearer, as they stand in the two drafts, the drafts of the "
        "handbooks and the examples of the manual; every clause was drawn on the very things that stood before it. Hold: 1 ms each, but for what is found by trying.\n\n"
        + _table(
            ("kind", "clauses", "middle one, ms", "slowest, ms"),
            kinds.each_kind([*((s.plan, s.bodies(1)) for s in subjects), *kinds.drafts()]),
        )
    )
    PAGE.parent.mkdir(exist_ok=True)
    PAGE.write_text("".join(parts), encoding="utf-8")
    sys.stdout.write(f"Written to {PAGE.relative_to(PAGE.parent.parent)}\n")


if __name__ == "__main__":
    main()

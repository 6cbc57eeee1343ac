"""The page `docs/blocks.md`: how near the two blocks come, on both halves of the survey, in tables.

Every number on it is worked out here from the lessons as they are shipped; the words are written once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from tapewright.draft import Draft
from tests.blocks.drafts import BLOCKS, MAN, WOMAN, Array, Block, Taken, drafted, lesson, measures, ruler
from tests.blocks.outcomes import bust_point_height, outcomes, scye, spread
from tests.blocks.watching import all_hold, heard
from tests.survey import Half, columns

INCH = 25.4
WHOSE = {WOMAN: "woman", MAN: "man"}
HALVES = {Half.FITTING: "fitting", Half.TRIAL: "trial"}

OPENING = """# The two blocks on real bodies

The shipped body blocks, drawn for the 1,877 women and the 1,508 men of the US Army survey of 1987-88
(`tests/data/README.md`). The *fitting* half, the rows at even places, is the one that the lessons' own rules were
fitted on; the *trial* half, at odd places, set no rule. *All* means every measure that the survey took, the
rest being filled by the lesson; *few* means the bust, high bust, waist and nape to waist of a woman, the
chest, waist and nape to waist of a man. These were serving soldiers of 17 to 58, lightly clad, measured on
the right side: few are old, very stout or very young. No survey we have took the cross front, the front
shoulder or the over shoulder, so on those the blocks have been tried on nobody.

This page is written by `python -m tests.blocks`; a test holds it against the lessons as they are.
"""

OUTCOMES = """## Against the same person

Drafted less measured, in mm: mean / standard deviation. The scye girth, the nape to bust point, the upper arm
and (for the man) the shoulder are used in no sentence but checks; the neck base makes a tape, yet the length
of the neck's seam is told to nobody. Lengths that a lesson copies from the sheet are exact and are not shown.
With few measures the neck is a guess, and does no better than one.
"""

EXACT = """## What every body has

On every row of both halves, with all measures and with few, every sentence draws, the side seams and the
shoulders agree (the greatest difference is below, in mm, beyond the ease that is stated), and no piece
crosses itself once the darts that came to nothing are closed.
"""

CHECKS = """## How often each check comes out

In hundredths of the bodies. A check that comes out on nine in ten is meant to: it is there to make a maker
look again at the tenth.
"""

RULES = """## Which measure rules the scye (women)

The scye girth is foretold from other measures by a straight line through nought, or drafted in several ways;
what is shown is foretold or drafted less measured, mean / standard deviation. The lesson's own way lets the
measured slope and the size of the woman settle the shoulder's end half and half. The high bust by itself
foretells the girth a little better than any draft draws it: a draft has to pass by the woman's own neck,
shoulder and back as well.
"""

CONFLICT = """## Shoulder against cross back (women)

Where half the measured cross back reaches out beyond the end of the measured shoulder, laid at the lesson's
slope, one of the two was misread. Each is foretold here from two breadths of the shoulders by the calliper
(over the bones, over the arms), the high bust and the neck (least squares on the fitting half).
"""

FULL = """## A full bust (women)

By how much the bust is over the high bust, with all measures: how the scye comes out, and the widest darts.
"""

WATCHED = """## What the checks watch

Each amount that a lesson's sentences say outright was made a centimetre more and a centimetre less (an angle
four degrees) on the demo wearer and on some people of the trial half on whom all checks hold, with all
measures, with few, and with the filled ones given as well. It is watched when, both ways, a check that held
breaks on some body, or a sentence no longer draws. Those that are not stand in `tests/blocks/test_mutation.py`,
each with its reason.
"""

WAYS = {
    "drafted, the shoulder's end by the slope alone": (
        "1. Instead of E1: From E up to E1: E-J1.\n2. Instead of F1: From F up to F1: F-L1.\n"
    ),
    "drafted, half and half (the lesson)": "",
    "drafted, the shoulder's end by the high bust alone": (
        "1. Instead of E1: From E up to E1: 1/6 of the high bust tape and 1/2 part.\n"
        "2. Instead of F1: From F up to F1: 1/6 of the high bust tape and 1/2 part.\n"
    ),
    "drafted, the whole of bust less high bust opened": (
        "1. Instead of the bust taking: Let the bust taking be the bust less the high bust, but not less than 0 in.\n"
    ),
    "drafted, half of it opened": (
        "1. Instead of the bust taking: Let the bust taking be half (the bust less the high bust), "
        "but not less than 0 in.\n"
    ),
}


@dataclass(frozen=True, slots=True)
class Case:
    """One block on one half with so many measures."""

    block: Block
    half: Half
    taken: Taken

    @property
    def draft(self) -> Draft:
        """The block on those bodies."""
        return drafted(self.block, self.half, self.taken)

    @property
    def body(self) -> Mapping[str, Array]:
        """All that was measured of them."""
        return measures(self.block, self.half)

    @property
    def words(self) -> str:
        """What it is called on the page."""
        return f"{WHOSE[self.block]}, {HALVES[self.half]}, {self.taken}"


CASES = tuple(Case(block, half, taken) for block in BLOCKS for half in Half for taken in Taken)


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A Markdown table."""
    lines = [head, ["---"] * len(head), *rows]
    return "".join(f"| {' | '.join(cells)} |\n" for cells in lines)


def shown(values: Array) -> str:
    """Mean and standard deviation."""
    mean, deviation = spread(values)
    return f"{mean:+.1f} / {deviation:.1f}"


def _outcomes() -> Iterator[Sequence[str]]:
    names = list(dict.fromkeys(name for block in BLOCKS for name in outcomes(block)))
    height = "bust point above the waist less heights"
    yield ["block, half, measures", "bodies", *names, "scye within 1 in", height]
    for case in CASES:
        found = {name: made(case.draft, case.body) for name, made in outcomes(case.block).items()}
        near = float(np.mean(np.abs(scye(case.draft, case.body)) <= INCH))
        cells = [shown(found[name]) if name in found else "" for name in names]
        bust = shown(bust_point_height(case.draft, case.half)) if case.block is WOMAN else ""
        yield [case.words, str(case.draft.bodies.count), *cells, f"{100 * near:.0f} %", bust]


def _exact() -> Iterator[Sequence[str]]:
    yield ["block, half, measures", "drawn", "of", "worst seam", "all checks hold"]
    for case in CASES:
        seams = case.draft.seams()
        worst = max(
            float(np.abs(np.abs(s.difference) - (0.0 if s.by is None else s.by)).max()) for s in seams
        )
        hold = 100 * float(np.mean(all_hold(case.draft)))
        drawn = case.draft.drawn()
        yield [case.words, str(int(drawn.sum())), str(len(drawn)), f"{worst:.3f}", f"{hold:.0f} %"]


def _checks(block: Block) -> Iterator[Sequence[str]]:
    cases = [case for case in CASES if case.block is block]
    yield ["", "check", *(f"{HALVES[case.half]}, {case.taken}" for case in cases)]
    for checks in zip(*(case.draft.checks() for case in cases), strict=True):
        shares = [f"{100 * float(np.mean(check.holds)):.0f}" for check in checks]
        where = checks[0].where
        said = " ".join(lesson(block).source.text[where.start : where.end].split())
        yield [str(checks[0].sentence), said.removeprefix("See that "), *shares]


def _rules() -> Iterator[Sequence[str]]:
    yield ["way", "fitting", "trial"]
    fitting, trial = (measures(WOMAN, half) for half in Half)
    for name in ("bust", "high bust", "scye depth"):
        share = float(np.mean(fitting["scye girth"] / fitting[name]))
        offs = [share * body[name] - body["scye girth"] for body in (fitting, trial)]
        yield [f"foretold, {share:.3f} of the {name}", *map(shown, offs)]
    for words, amendments in WAYS.items():
        drafts = [drafted(WOMAN, half, Taken.ALL, amendments) for half in Half]
        yield [words, *(shown(scye(d, b)) for d, b in zip(drafts, (fitting, trial), strict=True))]


def _foretold(half: Half, name: str) -> Array:
    """A measure as two breadths and two girths foretell it, by least squares on the fitting half."""

    def grounds(which: Half) -> Array:
        body, first = measures(WOMAN, which), 0 if which is Half.FITTING else 1
        breadths = [columns(WOMAN.sex)[name][first::2] for name in ("biacromial_brth", "bideltoid_brth")]
        return np.column_stack([*breadths, body["high bust"], body["neck base"], np.ones(len(breadths[0]))])

    weights, *_ = np.linalg.lstsq(grounds(Half.FITTING), measures(WOMAN, Half.FITTING)[name], rcond=None)
    return np.asarray(grounds(half) @ weights)


def _conflict() -> Iterator[Sequence[str]]:
    yield [
        "half",
        "bodies on which they conflict",
        "there, shoulder less foretold",
        "there, cross back less foretold",
        "paper narrower than half the cross back on",
        "by, in the middle",
        "by, at most",
    ]
    for half in Half:
        body, draft = measures(WOMAN, half), drafted(WOMAN, half)
        slope = body["shoulder slope"] - np.radians(8.0)
        beyond = body["cross back"] / 2.0 > draft.point("N").x + body["shoulder"] * np.cos(slope)
        off = {name: (body[name] - _foretold(half, name))[beyond] for name in ("shoulder", "cross back")}
        lost = body["cross back"] / 2.0 - ruler(draft, "E", "H")
        gave = lost > 0.05
        yield [
            HALVES[half],
            f"{100 * float(np.mean(beyond)):.0f} %",
            shown(off["shoulder"]),
            shown(off["cross back"]),
            f"{100 * float(np.mean(gave)):.0f} %",
            f"{float(np.median(lost[gave])):.1f}",
            f"{float(lost.max()):.1f}",
        ]


def _full() -> Iterator[Sequence[str]]:
    yield [
        "half",
        "bust over high bust",
        "women",
        "scye less scye girth",
        "widest shoulder dart",
        "widest side dart",
    ]
    ends = (-np.inf, 0.0, 40.0, 76.0, np.inf)
    words = ("not at all", "up to 40 mm", "40 to 76 mm", "over 76 mm")
    for half in Half:
        body, draft = measures(WOMAN, half), drafted(WOMAN, half)
        over, off = body["bust"] - body["high bust"], scye(draft, body)
        for low, high, name in zip(ends, ends[1:], words, strict=False):
            these = (over > low) & (over <= high)
            widest = [ruler(draft, a, b)[these].max() for a, b in (("V", "V''"), ("K", "K'"))]
            cells = [f"{float(w):.0f}" for w in widest]
            yield [HALVES[half], name, str(int(these.sum())), shown(off[these]), *cells]


def _watched() -> Iterator[Sequence[str]]:
    yield [
        "block",
        "amounts",
        "watched both ways",
        "one way",
        "not at all",
        "on the demo wearer alone, one way or both",
    ]
    for block in BLOCKS:
        found = heard(block)
        both = sum(one.watched for one in found)
        some = sum(bool(one.more.any() or one.less.any()) for one in found)
        alone = sum(bool(one.more[0] or one.less[0]) for one in found)
        yield [WHOSE[block], *map(str, (len(found), both, some - both, len(found) - some, alone))]


def page() -> str:
    """The whole page."""

    def made(rows: Iterator[Sequence[str]]) -> str:
        return table(next(rows), rows)

    parts = [OPENING, OUTCOMES, made(_outcomes()), EXACT, made(_exact()), CHECKS]
    for block in BLOCKS:
        parts += [f"### The {WHOSE[block]}'s block\n", made(_checks(block))]
    parts += [
        RULES,
        made(_rules()),
        CONFLICT,
        made(_conflict()),
        FULL,
        made(_full()),
        WATCHED,
        made(_watched()),
    ]
    return "\n".join(parts)

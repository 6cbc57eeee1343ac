"""What is timed: the woman's block as it is shipped, and a bodice of nine panels; the bodies; the turnings."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
from shapely import LineString
from tests.survey import Sex, survey

from benchmarks import by_hand, lessons
from benchmarks.by_hand import Array, Drawn
from tapewright.app.library import lessons as shipped
from tapewright.diagnostics import Source
from tapewright.draft import Bodies, Draft, evaluate, from_arrays
from tapewright.geometry import Curve, Offset, Stretch, at, joined, length, offset, trimmed
from tapewright.geometry.tolerance import LENGTH_AGREES, ROUNDING
from tapewright.language import read_lesson
from tapewright.measures import Figure
from tapewright.plan import Plan, build_plan

TURNING = 15.0


@dataclass(frozen=True, slots=True)
class Subject:
    """A draft to be timed, and the same draft by hand."""

    name: str
    source: Source
    plan: Plan
    hand: Callable[[Mapping[str, Array]], Drawn]

    def measures(self, count: int) -> dict[str, Array]:
        """The measures of so many women of the 1988 survey, its rows over again when they run out."""
        table = survey(Sex.WOMEN)
        known = {name: table[name] for name in self.plan.measures() if name in table}
        rows = np.arange(count) % len(table["bust"])
        return {name: column[rows] for name, column in known.items()}

    def bodies(self, count: int) -> Bodies:
        """The same as bodies."""
        return from_arrays(self.measures(count), Figure.WOMAN)


def block() -> Subject:
    """The woman's block as it stands."""
    text = shipped()["a-womans-body-block"].read_text(encoding="utf-8")
    return _subject("The woman's block", text, by_hand.woman)


def bodice(panels: int = 9, sentences: int = 150) -> Subject:
    """The bodice of so many panels."""
    text = lessons.lesson(panels, sentences)
    return _subject(f"A bodice of {panels} panels", text, lambda m: by_hand.panels(m, panels))


def _subject(name: str, text: str, hand: Callable[[Mapping[str, Array]], Drawn]) -> Subject:
    source = Source(f"{name}.md", text)
    plan = build_plan(read_lesson(source))
    if plan.queries:
        raise SystemExit(f"{name} is not ready to be timed: {plan.queries[0].message}")
    return Subject(name, source, plan, hand)


@dataclass(frozen=True, slots=True)
class Agreement:
    """How far a draft by hand and the draft as drawn are apart at most, mm, and what was compared."""

    points: float
    lengths: float
    letters: int
    checks: int
    of: int


def agreement(subject: Subject) -> Agreement:
    """Compare the two on every woman of the survey.

    Points must agree to a millionth of a millimetre, lengths to what lengths are good to. SystemExit where they
    do not: then they are not the same draft, and no times may be compared. A check that the lesson has and the
    hand has not is not compared, and shows in the count.
    """
    count = len(survey(Sex.WOMEN)["bust"])
    draft, drawn = evaluate(subject.plan, subject.bodies(count)), subject.hand(subject.measures(count))
    if not bool(draft.drawn().all()):
        raise SystemExit(f"{subject.name} does not draw on every body")
    if set(drawn.points) != set(draft.plan.points):
        raise SystemExit(f"{subject.name} has other letters by hand")
    points = max(
        float(np.hypot(draft.point(name).x - p[0], draft.point(name).y - p[1]).max())
        for name, p in drawn.points.items()
    )
    named = {line.name: line.index for line in draft.plan.lines if line.name}
    pairs = [(_length(draft, named[name]), by_hand.length(c)) for name, c in drawn.curves.items()]
    pairs += list(zip([s.difference for s in draft.seams()], drawn.seams, strict=True))
    compared = [
        (c.left, drawn.checks[words]) for c in draft.checks() if (words := _left(c.claim)) in drawn.checks
    ]
    lengths = max(float(np.abs(one - other).max()) for one, other in (*pairs, *compared))
    if points > ROUNDING or lengths > LENGTH_AGREES:
        raise SystemExit(f"{subject.name} by hand is {points} mm out in its points, {lengths} in its lengths")
    return Agreement(points, lengths, len(drawn.points), len(compared), len(draft.checks()))


def _left(claim: str) -> str:
    """The words of a claim before what it claims."""
    return claim.split(" is ", maxsplit=1)[0].split(" run on ", maxsplit=1)[0]


def _length(draft: Draft, index: int) -> Array:
    line = draft.line(index)
    if not isinstance(line, Curve | Stretch):
        raise TypeError("by hand only lines with two ends are run")
    return length(line)


def turnings(draft: Draft) -> list[Offset]:
    """The parallel of every edge of every piece at 15 mm: the edges of a piece together, for all bodies."""
    wide = np.full(draft.bodies.count, TURNING)
    return [offset(joined([trimmed(e.drawn) for e in p.outline.edges]), wide) for p in draft.pieces()]


def sampled(draft: Draft) -> list[LineString]:
    """The same edges on the first body as lines of 65 places each, for shapely to lay its parallels."""
    lines = []
    for edge in (trimmed(e.drawn) for piece in draft.pieces() for e in piece.outline.edges):
        t = np.linspace(0.0, float(edge.segments), 65)
        places = [at(edge, np.full(draft.bodies.count, one)) for one in t]
        lines.append(LineString([(float(p.x[0]), float(p.y[0])) for p in places]))
    return lines

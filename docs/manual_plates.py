"""The plates of the manual: what a sentence made, heavy, on what was there before, thin.

A plate of `sentences` shows the frame, whatever else the sentences speak of, and their own lines and letters;
each letter that is new has a ring. A plate of a `lesson` is the lesson's own plate. A `fitting` shows what
was drawn before it broken, and after it heavy.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from itertools import pairwise
from math import atan2, hypot, pi

import numpy as np
from fences import MANUAL, Example, Run, examples, run
from numpy.typing import NDArray

from tapewright.draft import Draft, signs_of
from tapewright.draft.rows import DrawnLine, OutlineRun
from tapewright.drawing import INK, Drawing, Line, Mark, Stroke, circle
from tapewright.export import svg
from tapewright.geometry import Arc, Circle, arc_curve, cubics, fixed
from tapewright.geometry.tolerance import SEAMS_MATCH
from tapewright.language.sentences import From, TakeOut
from tapewright.language.tree import Compass, Offset
from tapewright.pages import HALF, QUARTER, Plate, PlateLine, PlatePoint, Role, draw_field
from tapewright.pages.from_draft import plate_of
from tapewright.plan.plan import Line as PlanLine
from tapewright.plan.plan import Step, each

Floats = NDArray[np.float64]

#: A sweep that ends nowhere is shown this far to either side of each letter on it, radians.
SHOWN = 20 * pi / 180
#: A plate whose drawing is larger than this in either direction, mm of the pattern, is drawn at a quarter.
LARGE = 270.0
#: What is shown round the place that a smaller one is about, mm of the pattern.
ROOM = 30.0
_CUTS = 48
_RING = 1.0
_RINGED = Line(0.2, INK)
_FRAME_LETTERS = frozenset("ABCD")


def manual_plates() -> dict[str, Callable[[], bytes]]:
    """Every plate of the manual by its file, from the folder of the project."""
    text = MANUAL.read_text(encoding="utf-8")
    named = [e for e in examples(text) if e.fence.name and e.fence.kind != "slip"]
    return {f"docs/manual/{e.fence.name}.svg": partial(drawn, e) for e in named}


def drawn(example: Example) -> bytes:
    """The plate of one example as SVG."""
    return svg(drawing(example))


def drawing(example: Example) -> Drawing:
    """The plate of one example, lettered, with its balance marks and grain."""
    found = run(example)
    draft = found.draft
    own = tuple(s for s in signs_of(draft) if s.sentence >= example.first)
    plate = replace(_plate(example, found), signs=own)
    spots = [line.cubics.reshape(-1, 2) for line in plate.lines] + [
        np.array([(p.x, p.y) for p in plate.points])
    ]
    every = np.concatenate(spots)
    scale = QUARTER if float(np.ptp(every, axis=0).max()) > LARGE else HALF
    field = draw_field(plate, scale)
    k, (ox, oy) = float(scale.factor), field.origin
    marks: list[Mark] = list(field.block.marks)
    new = [p for p in plate.points if p.rank == 3]
    marks += [Stroke(circle(ox + p.x * k, oy + p.y * k, _RING), _RINGED) for p in new]
    title = f"{example.fence.name.replace('-', ' ')}"
    return Drawing(field.block.width, field.block.height, tuple(marks), title)


def _plate(example: Example, found: Run) -> Plate:
    draft = found.draft
    if example.amendments:
        return _amended(example, draft)
    if found.right is not None:
        return _two(draft, found.right)
    if example.first == 1:
        return _whole(draft)
    return _before_and_after(example, draft)


def _whole(draft: Draft) -> Plate:
    """A lesson's own plate; an outline that is not cut is shown as one."""
    plate = _plainly(plate_of(draft))
    made = [k for step in each(draft.plan.steps) for k in step.makes if draft.alive(k)]
    runs = [draft.made[k].thing for k in made]
    edges = [
        PlateLine("", cubics(e.drawn, 0), Role.OUTLINE)
        for run_ in runs
        if isinstance(run_, OutlineRun)
        for e in run_.edges
    ]
    return replace(plate, lines=tuple(_once([*edges, *plate.lines])))


def _plainly(plate: Plate) -> Plate:
    """Without the second names of letters that a placed draft lends, such as `the block's A`."""
    return replace(plate, points=tuple(p for p in plate.points if "'s " not in p.name))


def _before_and_after(example: Example, draft: Draft) -> Plate:
    """What the beginning gave, thin, and what the example made, heavy."""
    steps = [s for s in each(draft.plan.steps) if s.sentence >= example.first]
    spoken = {key for step in steps for key in step.reads}
    places = {n: (x, y) for n, x, y, _ in draft.points()}
    new = {n for n in places if draft.plan.points[n] >= example.first}
    shown = new | {n for n in places if f"point {n}" in spoken}
    darts = {k for s in steps if isinstance(s.clause, TakeOut) for k in s.lines}
    ends: set[str] = set()
    own: list[PlateLine] = []
    there: list[PlateLine] = []
    for line in draft.plan.lines:
        if not draft.alive(f"line {line.index}"):
            continue
        made, frame = line.sentence >= example.first, _frame(draft, line.sentence)
        if made and line.ends is not None:
            shown |= {e for e in line.ends if e in places}
        if not (made or frame or line.name or f"line {line.index}" in spoken or _ends_in(line, shown)):
            continue
        role = _role(made, line.index in darts, frame)
        named = bool(line.name) and (made or frame or f"line {line.index}" in spoken)
        if line.ends is not None and f"line {line.index}" in spoken:
            ends |= {e for e in line.ends if e in places}
        for strokes in _strokes(draft, draft.line(line.index), shown):
            (own if made else there).append(PlateLine(line.name, strokes, role, show_name=named))
    for outline, role in _outlines(draft, example, spoken):
        for edge in outline.edges:
            own.append(PlateLine("", cubics(edge.drawn, 0), role))
            shown |= {edge.start, edge.end}
    there += _steps(steps, places)
    spots = np.concatenate([np.array([places[n] for n in shown]), *(x.cubics.reshape(-1, 2) for x in own)])
    low, high = spots.min(axis=0) - ROOM, spots.max(axis=0) + ROOM
    if float((high - low).max()) <= LARGE:
        there = [cut for line in there if (cut := _within(line, low, high)) is not None]
    else:
        shown |= (_FRAME_LETTERS & places.keys()) | ends
    points = [
        PlatePoint(n, x, y, 3 if n in new else 1 if n in _FRAME_LETTERS else 4)
        for n, (x, y) in places.items()
        if n in shown
    ]
    return Plate(example.fence.name, tuple(points), tuple(_once([*own, *there])))


def _steps(steps: list[Step], places: dict[str, tuple[float, float]]) -> Iterator[PlateLine]:
    """The two steps to a point that is so far one way and so far the other."""
    for step in steps:
        said = step.clause
        if isinstance(said, From) and len(said.reach) == 2 and isinstance(first := said.reach[0], Offset):
            (x0, y0), (x1, y1) = places[said.starts[0].name], places[said.news[0].name]
            upright = isinstance(first.way, Compass) and first.way.word in {"up", "down"}
            x, y = (x0, y1) if upright else (x1, y0)
            yield PlateLine("", _line(x0, y0, x, y), Role.CONSTRUCTION)
            yield PlateLine("", _line(x, y, x1, y1), Role.CONSTRUCTION)


def _ends_in(line: PlanLine, letters: set[str]) -> bool:
    return line.ends is not None and set(line.ends) <= letters


def _within(line: PlateLine, low: Floats, high: Floats) -> PlateLine | None:
    """The part of a line inside a window, in small pieces; None when none of it is."""
    t = np.linspace(0.0, 1.0, _CUTS + 1)
    pieces = [_part(p, float(a), float(b)) for p in line.cubics for a, b in pairwise(t)]
    kept = [p for p in pieces if bool((p >= low).all() and (p <= high).all())]
    return replace(line, cubics=np.array(kept)) if kept else None


def _part(p: Floats, a: float, b: float) -> Floats:
    """One cubic between two of its parameters (de Casteljau's rule, as blossoms)."""

    def blossom(u: float, v: float, w: float) -> Floats:
        q = [p[i] + u * (p[i + 1] - p[i]) for i in range(3)]
        r = [q[i] + v * (q[i + 1] - q[i]) for i in range(2)]
        return np.asarray(r[0] + w * (r[1] - r[0]))

    return np.array([blossom(a, a, a), blossom(a, a, b), blossom(a, b, b), blossom(b, b, b)])


def _outlines(draft: Draft, example: Example, spoken: set[str]) -> list[tuple[OutlineRun, Role]]:
    """Outlines spoken of, and outlines made."""
    found: list[tuple[OutlineRun, Role]] = []
    made = {k for s in draft.plan.steps if s.sentence >= example.first for k in s.makes}
    for key, value in draft.made.items():
        if isinstance(value.thing, OutlineRun) and draft.alive(key):
            if key in made:
                found.append((value.thing, Role.OUTLINE))
            elif key in spoken:
                cut = any(p.outline is value.thing for p in draft.pieces())
                found.append((value.thing, Role.OUTLINE if cut else Role.CONSTRUCTION))
    return found


def _role(own: bool, dart: bool, frame: bool) -> Role:
    if dart:
        return Role.DART
    return Role.OUTLINE if own else Role.FRAME if frame else Role.CONSTRUCTION


def _frame(draft: Draft, sentence: int) -> bool:
    heading = next((i.heading for i in draft.plan.lesson.items if i.number == sentence), -1)
    return heading >= 0 and "frame" in draft.plan.lesson.headings[heading].text.lower()


def _strokes(draft: Draft, line: DrawnLine, letters: set[str]) -> Iterator[Floats]:
    if isinstance(line, Circle):
        yield from _near_letters(draft, line, letters)
        return
    strokes = cubics(arc_curve(line) if isinstance(line, Arc) else line, 0)
    if len(strokes):
        yield strokes


def _near_letters(draft: Draft, sweep: Circle, letters: set[str]) -> Iterator[Floats]:
    """A whole sweep, shown only where it is wanted: round the letters that stand on it."""
    x, y, r = (float(a[0]) for a in (sweep.centre.x, sweep.centre.y, sweep.radius))
    for name, px, py, _ in draft.points():
        if name in letters and abs(hypot(px - x, py - y) - r) <= SEAMS_MATCH:
            middle = atan2(py - y, px - x)
            yield cubics(
                arc_curve(Arc(fixed(x, y), np.array([r]), np.array([middle - SHOWN]), np.array([2 * SHOWN]))),
                0,
            )


def _once(lines: list[PlateLine]) -> list[PlateLine]:
    """No line drawn twice: the heavier one stays, and takes over the other's name if it has none."""
    kept: list[PlateLine] = []
    for line in sorted(lines, key=lambda x: _WEIGHT[x.role]):
        there = next((k for k, other in enumerate(kept) if _same(line.cubics, other.cubics)), None)
        if there is None:
            kept.append(line)
        elif line.name and not kept[there].name:
            kept[there] = replace(kept[there], name=line.name, show_name=line.show_name)
    return kept


_WEIGHT = {Role.OUTLINE: 0, Role.DART: 1, Role.FRAME: 2, Role.CONSTRUCTION: 3, Role.BENEATH: 4}


def _same(one: Floats, other: Floats) -> bool:
    if one.shape != other.shape:
        return False
    return bool(
        np.abs(one - other).max() <= SEAMS_MATCH or np.abs(one[::-1, ::-1] - other).max() <= SEAMS_MATCH
    )


def _line(x0: float, y0: float, x1: float, y1: float) -> Floats:
    ends = np.array([(x0, y0), (x1, y1)])
    return np.array([[ends[0], (2 * ends[0] + ends[1]) / 3, (ends[0] + 2 * ends[1]) / 3, ends[1]]])


# --- fittings, and two sides --------------------------------------------------------------------------


def _amended(example: Example, after: Draft) -> Plate:
    """Before broken, after heavy, wherever they differ."""
    before = run(Example(example.fence, example.text, 1, sheet=example.sheet, others=example.others)).draft
    return _compared(before, after)


def _two(left: Draft, right: Draft) -> Plate:
    """The left heavy, the right broken where it differs."""
    return _compared(right, left)


def _compared(before: Draft, after: Draft) -> Plate:
    whole = _plainly(plate_of(after))
    drawn_before = [line.cubics for line in plate_of(before).lines]
    lines: list[PlateLine] = []
    for line in whole.lines:
        same = any(_same(line.cubics, other) for other in drawn_before)
        lines.append(PlateLine(line.name, line.cubics, Role.FRAME if same else Role.OUTLINE, line.show_name))
    gone = [old for old in drawn_before if not any(_same(old, line.cubics) for line in whole.lines)]
    lines += [PlateLine("", old, Role.CONSTRUCTION) for old in gone]
    was = {n: (x, y) for n, x, y, _ in before.points()}
    points = []
    for p in whole.points:
        x, y = was.get(p.name, (np.inf, np.inf))
        moved = abs(x - p.x) > SEAMS_MATCH or abs(y - p.y) > SEAMS_MATCH
        points.append(PlatePoint(p.name, p.x, p.y, 3 if moved else p.rank))
    return Plate(whole.title, tuple(points), tuple(lines))

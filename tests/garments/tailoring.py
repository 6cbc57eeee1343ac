"""How a tailored garment's draft is looked over: its curves, its outlines, its seams, its amounts said outright.

The people are those of `tests.garments.people`; how an amount is changed is told in `tests.blocks.mutation`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

import numpy as np
from shapely.geometry import Polygon

from tapewright.app.library import lessons
from tapewright.diagnostics import Source
from tapewright.draft import Draft, evaluate
from tapewright.draft.bodies import Bodies, Mask
from tapewright.geometry import Curve, Drawn, Stretch, at, crosses_itself, nearest, tangent
from tapewright.language import Lesson, read_lesson
from tapewright.plan import build_plan
from tests.blocks.mutation import Said, amounts, changed
from tests.blocks.outlines import closed_up, drawn_on, flattened, pieces
from tests.garments.people import Array, find, stopped

#: How many places along a curve its heading is taken at.
PLACES = 200
#: Two points of an outline nearer than this are one, mm; a hundredth is what seams are held to.
SAME = 0.01


def curve(draft: Draft, name: str) -> Curve | Stretch:
    """A named line of a draft."""
    found = draft.line(next(line.index for line in draft.plan.lines if line.name == name))
    assert isinstance(found, Curve | Stretch), name
    return found


def turned(line: Curve | Stretch) -> tuple[Array, Array]:
    """How far a line turns to the left and to the right from end to end, degrees, `(bodies,)` each.

    Measured on so many points of it, by the chords between them: not by the curve's own curvature.
    """
    assert isinstance(line, Curve), "a whole line"
    segments = line.ctrl.shape[2]
    parts = np.linspace(0.0, float(segments), PLACES)
    points = [at(line, np.full(line.ctrl.shape[3], t)) for t in parts]
    x, y = np.array([p.x for p in points]), np.array([p.y for p in points])
    heading = np.arctan2(np.diff(y, axis=0), np.diff(x, axis=0))
    step = np.degrees((np.diff(heading, axis=0) + np.pi) % (2 * np.pi) - np.pi)
    # y points down: a growing angle turns to the right.
    return np.asarray(-np.minimum(step, 0.0).sum(axis=0)), np.asarray(np.maximum(step, 0.0).sum(axis=0))


def heading(line: Drawn, draft: Draft, letter: str) -> Array:
    """Which way a line runs where it passes nearest to a letter, radians."""
    way = tangent(line, nearest(line, draft.point(letter)).t)
    return np.asarray(np.arctan2(way.dy, way.dx))


def apart(a: Array, b: Array) -> Array:
    """The angle between two lines that run these ways, either sense, degrees from 0 to 90."""
    off = np.abs((a - b + np.pi / 2) % np.pi - np.pi / 2)
    return np.asarray(np.degrees(off))


def ruler_way(draft: Draft, a: str, b: str) -> Array:
    """Which way the ruler runs from one letter to another, radians."""
    p, q = draft.point(a), draft.point(b)
    return np.asarray(np.arctan2(q.y - p.y, q.x - p.x))


def asked_where_not_drawn(
    draw: Callable[[dict[str, Array]], Draft],
    body: Mapping[str, Array],
    names: Iterable[str],
    factors: tuple[float, float] = (1 / 3, 3.0),
) -> int:
    """How many bodies are not drawn when a measure is made wrong by a factor, forty tried for each; all are asked.

    An assertion fails where somebody is not drawn and nothing was asked.
    """
    failed = 0
    for name in names:
        for factor in factors:
            changed = {n: values[:40] for n, values in body.items()}
            changed[name] = changed[name] * factor
            asked = stopped(draw(changed))
            assert all(messages and all(messages) for messages in asked.values()), name
            failed += len(asked)
    return failed


def ring(points: Array) -> Polygon:
    """An outline as shapely has it; points nearer to the last than SAME are that one again.

    A piece of a curve of many segments keeps the segments it does not use, each shrunk to a point.
    """
    apart = np.hypot(*(points - np.roll(points, 1, axis=0)).T)
    return Polygon(points[apart > SAME])


def areas(draft: Draft) -> dict[str, Array]:
    """How large each piece is, square mm, net, by shapely on short rulers."""
    found: dict[str, Array] = {}
    for name, outline in pieces(draft).items():
        found[name] = np.zeros(draft.bodies.count)
        for rows, edges in closed_up(outline):
            flat = flattened(drawn_on(edges, rows))
            found[name][rows] = [ring(flat[:, :, k]).area for k in range(len(rows))]
    return found


def tangled(draft: Draft) -> list[tuple[str, int]]:
    """Pieces that cross themselves, and on which body; outside witness: shapely, on short rulers."""
    found: list[tuple[str, int]] = []
    for name, outline in pieces(draft).items():
        for rows, edges in closed_up(outline):
            run = drawn_on(edges, rows)
            crosses = crosses_itself(run).crosses
            flat = flattened(run)
            for k, row in enumerate(rows):
                if draft.drawn()[row] and (crosses[k] or not ring(flat[:, :, k]).is_valid):
                    found.append((name, int(row)))
    return found


def tree(name: str) -> Lesson:
    """A shipped lesson as it is read."""
    path = lessons()[name]
    return read_lesson(Source(path.name, path.read_text(encoding="utf-8")), find)


def _held(draft: Draft) -> Mapping[tuple[int, str], Mask]:
    return {(check.sentence, check.claim): check.holds for check in draft.checks()}


def told(lesson: Lesson, bodies: Bodies, before: Draft) -> Mask:
    """The bodies on which a changed lesson breaks a check that held, or a sentence that was drawn."""
    after = evaluate(build_plan(lesson), bodies)
    now = _held(after)
    nothing = np.zeros(bodies.count, dtype=np.bool_)
    broken = [held & ~now.get(key, nothing) for key, held in _held(before).items()]
    return np.asarray(np.logical_or.reduce([before.drawn() & ~after.drawn(), *broken]))


def unwatched(name: str, bodies: Bodies) -> tuple[list[str], int]:
    """The amounts of a lesson that may slip by a centimetre unseen one way or the other, and how many there are."""
    lesson = tree(name)
    before = evaluate(build_plan(lesson), bodies)
    assert not told(lesson, bodies, before).any(), "the lesson as it is breaks nothing"
    found: tuple[Said, ...] = amounts(lesson)
    unseen = [
        str(said)
        for said in found
        if not all(told(changed(lesson, said, sign), bodies, before).any() for sign in (1, -1))
    ]
    return unseen, len(found)

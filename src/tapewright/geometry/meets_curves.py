"""Two curves meeting: boxes round ever smaller pieces, inflated by their sag, then Newton's method.

All rows are worked as one flat list of pairs of segments. Beyond their ends curves go straight on; those
meets are looked for only where they are wanted: where an end may be carried on, or nothing else is met.
"""

from __future__ import annotations

from typing import Any, Final, NamedTuple

import numpy as np

from tapewright.geometry.curve import Curve, Drawn, Stretch, at, curve_of, start_point, straight
from tapewright.geometry.meets_answer import Candidate, Carried, Meets, answer_rows
from tapewright.geometry.meets_curve import KEPT, curve_and_straight
from tapewright.geometry.nearest import nearest
from tapewright.geometry.pairs import box, boxes_near, pair_meets, parted
from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array, Indices, Mask, Why
from tapewright.geometry.segments import Run, Segment, outward, place, segments_rows, taken, turned
from tapewright.geometry.tolerance import SAME_POINT, TOUCH

_TO_AND_FRO: Final = 6


class _Side(NamedTuple):
    """One of the two curves: its segments, which are live, how it runs, its first and last live segment."""

    s: Segment[Array]
    live: Mask
    run: Run[Array]
    head: Segment[Array]
    tail: Segment[Array]


class _Found(NamedTuple):
    """Meets of a flat list: places, parameters on both, and rows."""

    x: Array
    y: Array
    ta: Array
    tb: Array
    body: Indices


def curve_and_curve(a: Drawn, b: Drawn, carried_a: Carried, carried_b: Carried) -> Meets:
    """Two curves. Where they lie along each other at more places than are kept the answer is ALONG."""
    with np.errstate(under="ignore"):
        p, q = _side(a), _side(b)
        bodies = p.live.shape[1]
        good = np.logical_or.reduce(p.live, axis=0) & np.logical_or.reduce(q.live, axis=0)
        along = good & _shared_course(a, b, p, q)
        found = _once(*_crossings(p, q, good & ~along))
        slot = np.arange(found.body.size) - np.searchsorted(found.body, found.body)
        along = along | _along(found, slot, a, b)
        kept = ~along[found.body]
        found, slot = _Found._make(f[kept] for f in found), slot[kept]
        table = _table(a, b, p, q, found, slot)
        met = np.zeros(bodies, dtype=np.bool_)
        met[found.body] = True
        wanted = good & ~along
        if carried_a == Carried.NOT and carried_b == Carried.NOT:
            wanted = wanted & ~met
        if wanted.any():
            table = _with_rays(table, a, b, p, q, np.nonzero(wanted)[0])
        missed = np.nonzero(good & ~along & ~np.logical_or.reduce(np.asarray(table.real), axis=0))[0]
        gap = np.zeros(bodies)
        if missed.size:
            gap[missed] = _gap(a, b, p, q, missed)
        why = np.where(along, Why.ALONG, np.where(good, Why.APART, Why.SAME_POINT)).astype(np.int8)
        return answer_rows(table, (gap, why), (carried_a, carried_b), KEPT)


def _side(drawn: Drawn) -> _Side:
    """One of the two curves, made ready."""
    s, live, run = segments_rows(drawn)
    count, bodies = live.shape
    rows = np.arange(bodies)
    first, last = live.argmax(axis=0), count - 1 - live[::-1].argmax(axis=0)
    return _Side(s, live, run, taken(s, (first, rows)), taken(s, (last, rows)))


def _shared_course(a: Drawn, b: Drawn, p: _Side, q: _Side) -> Mask:
    """On which rows some piece of both is the very same segment: no need to look for meets there."""
    ctrl, other = curve_of(a).ctrl[:, :, :, None], curve_of(b).ctrl[:, :, None]
    same = np.logical_and.reduce(ctrl == other, axis=(0, 1))
    index, other_index = np.arange(ctrl.shape[2])[:, None, None], np.arange(other.shape[3])[None, :, None]
    low = np.maximum(p.s.t0[:, None] - index, q.s.t0[None] - other_index)
    high = np.minimum(p.s.t1[:, None] - index, q.s.t1[None] - other_index)
    found: Mask = np.logical_or.reduce(same & (high - low > TOUCH), axis=(0, 1))
    return found


def _crossings(p: _Side, q: _Side, good: Mask) -> tuple[_Found, int]:
    """All meets, some many times over, those at shared ends first; and how many these are."""
    near = boxes_near(box(Segment(*(f[:, None] for f in p.s))), box(Segment(*(f[None] for f in q.s))))
    i, j, body = np.nonzero(near & (p.live[:, None] & q.live[None]) & good)
    a, b = taken(p.s, (i, body)), taken(q.s, (j, body))
    kept = np.nonzero(~parted(a, b, SAME_POINT))[0]
    a, b, body = taken(a, (kept,)), taken(b, (kept,)), body[kept]
    index, u, v, ok = pair_meets(a, b)
    a, b, body = taken(a, (index,)), taken(b, (index,)), body[index]
    x, y = place(a, u)
    ta, tb = a.t0 + (a.t1 - a.t0) * u, b.t0 + (b.t1 - b.t0) * v
    inner = _Found(x[ok], y[ok], ta[ok], tb[ok], body[ok])
    outer = [_shared(e, f, good) for e in (p.head, turned(p.tail)) for f in (q.head, turned(q.tail))]
    shared = sum(f.body.size for f in outer)
    return _Found._make(np.concatenate(columns) for columns in zip(*outer, inner, strict=True)), shared


def _shared(e: Segment[Array], f: Segment[Array], good: Mask) -> _Found:
    """The meets of two ends that are one point; each end is the start of a segment."""
    same = good & (np.abs(e.ax - f.ax) <= SAME_POINT) & (np.abs(e.ay - f.ay) <= SAME_POINT)
    body = np.nonzero(same)[0]
    return _Found(e.ax[body], e.ay[body], e.t0[body], f.t0[body], body)


def _once(f: _Found, shared: int) -> _Found:
    """Each meet once, by row and parameter on a; the first `shared` are ends that are one point."""
    order = np.lexsort((f.tb, f.ta, f.body))
    f = _Found._make(c[order] for c in f)
    again = (
        (f.body[1:] == f.body[:-1])
        & (np.abs(f.x[1:] - f.x[:-1]) <= SAME_POINT)
        & (np.abs(f.y[1:] - f.y[:-1]) <= SAME_POINT)
    )
    first = np.concatenate(([True], ~again))[: f.body.size]
    group = np.add.accumulate(first) - 1
    chosen = np.nonzero(first)[0]
    # Where ends are one point, the end itself stands for what Newton found next to it.
    ends = np.nonzero(order < shared)[0]
    chosen[group[ends]] = ends
    return _Found._make(c[chosen] for c in f)


def _along(f: _Found, slot: Indices, a: Drawn, b: Drawn) -> Mask:
    """On which rows the curves lie along each other: of three meets or more, two with no gap between."""
    along = np.zeros(a.bodies, dtype=np.bool_)
    crowded = np.zeros(a.bodies, dtype=np.bool_)
    crowded[f.body[slot == 2]] = True
    second = np.nonzero(crowded[f.body] & (slot > 0) & (slot <= KEPT))[0]
    if second.size:
        body = f.body[second]
        between = at(_rows(curve_of(a), body), (f.ta[second] + f.ta[second - 1]) * 0.5)
        along[body[nearest(_rows(b, body), between).distance <= SAME_POINT]] = True
    return along


def _table(a: Drawn, b: Drawn, p: _Side, q: _Side, f: _Found, slot: Indices) -> Candidate[Array]:
    """The meets as a table `(candidates, bodies)`; empty places hold the start of a."""
    start = start_point(a)
    bodies = p.live.shape[1]
    nought = np.zeros(bodies)
    height = int(slot.max(initial=0)) + 1
    blank = (start.x, start.y, p.run.start, q.run.start, nought, nought, nought, nought)
    fields = [np.repeat(field[None], height, axis=0) for field in blank]
    run_a = (f.ta - p.run.start[f.body]) * p.run.way[f.body]
    run_b = (f.tb - q.run.start[f.body]) * q.run.way[f.body]
    flat = np.zeros(f.body.size)
    for field, values in zip(fields, (f.x, f.y, f.ta, f.tb, flat, flat, run_a, run_b), strict=True):
        field[slot, f.body] = values
    real = np.zeros((height, bodies), dtype=np.bool_)
    real[slot, f.body] = True
    return Candidate(
        fields[0], fields[1], fields[2], fields[3], fields[4], fields[5], fields[6], fields[7], real
    )


def _with_rays(
    table: Candidate[Array], a: Drawn, b: Drawn, p: _Side, q: _Side, wanted: Indices
) -> Candidate[Array]:
    """The table with the meets beyond the ends, on the rows where they are wanted."""
    bodies = p.live.shape[1]
    few_a, few_b = _rows(a, wanted), _rows(b, wanted)
    added: list[list[Any]] = [[] for _ in range(9)]
    for way in (1.0, -1.0):
        for own, other, rays_of_a in ((p, few_b, True), (q, few_a, False)):
            s = taken(own.head if way > 0.0 else turned(own.tail), (wanted,))
            (tx, ty), far = outward(s), _reach(s, other)
            ray = straight(Point(s.ax, s.ay), Point(s.ax + tx * far, s.ay + ty * far))
            m = curve_and_straight(other, ray, Carried.BOTH, Carried.BOTH)
            ahead = (m.x - s.ax) * tx + (m.y - s.ay) * ty
            real = m.real & (ahead > SAME_POINT)
            beyond = -own.run.way[wanted] * way * ahead
            mine = np.broadcast_to(s.t0, m.x.shape), beyond, _run(own, wanted, s.t0) + beyond
            them = p if not rays_of_a else q
            theirs = m.ta, m.past_a, _run(them, wanted, m.ta) + m.past_a
            if not rays_of_a:
                # Two rays that meet have been found from a's side.
                real = real & (m.past_a == 0.0)
                mine, theirs = theirs, mine
            fields = (m.x, m.y, mine[0], theirs[0], mine[1], theirs[1], mine[2], theirs[2], real)
            for column, field in zip(added, fields, strict=True):
                column.append(field)
    out: list[Any] = []
    for have, column in zip(table, added, strict=True):
        more = np.concatenate(column)
        full = np.zeros((more.shape[0], bodies), dtype=more.dtype)
        full[:, wanted] = more
        out.append(np.concatenate((np.asarray(have), full)))
    return Candidate._make(out)


def _run(side: _Side, rows: Indices, t: Array) -> Array:
    """The place on a curve's run of a parameter."""
    return (t - side.run.start[rows]) * side.run.way[rows]


def _reach(s: Segment[Array], other: Drawn) -> Array:
    """How far a ray must go from the start of a segment to pass all control points of another curve."""
    ctrl = other.curve.ctrl if isinstance(other, Stretch) else other.ctrl
    wide = np.abs(ctrl[:, 0] - s.ax) + np.abs(ctrl[:, 1] - s.ay)
    far: Array = wide.max(axis=(0, 1)) + 1.0
    return far


def _rows(drawn: Drawn, index: Indices) -> Drawn:
    """Some rows of a drawn line."""
    if isinstance(drawn, Stretch):
        few = Curve(drawn.curve.ctrl[..., index], drawn.curve.is_straight)
        return Stretch(few, drawn.start[index], drawn.end[index])
    return Curve(drawn.ctrl[..., index], drawn.is_straight)


def _gap(a: Drawn, b: Drawn, p: _Side, q: _Side, missed: Indices) -> Array:
    """How far two curves miss each other: from the nearest of a few places, to and fro between them."""
    few_a, few_b = _rows(a, missed), _rows(b, missed)
    (px, py), (qx, qy) = _looks(p, missed), _looks(q, missed)
    off = np.hypot(px[:, None] - qx[None], py[:, None] - qy[None])
    best = off.reshape(-1, missed.size).argmin(axis=0) // qx.shape[0]
    rows = np.arange(missed.size)
    here = Point(px[best, rows], py[best, rows])
    gap = np.zeros(missed.size)
    for k in range(_TO_AND_FRO):
        found = nearest(few_b if k % 2 == 0 else few_a, here)
        here, gap = found.point, found.distance
    return gap


def _looks(side: _Side, rows: Indices) -> tuple[Array, Array]:
    """Five places a segment, `(places, rows)`; the line's first end where a segment is not live."""
    s = Segment(*(f[:, rows] for f in side.s))
    x, y = place(s, np.array([0.0, 0.25, 0.5, 0.75, 1.0])[:, None, None])
    x, y = (
        np.where(side.live[:, rows], x, side.head.ax[rows]),
        np.where(side.live[:, rows], y, side.head.ay[rows]),
    )
    return x.reshape(-1, rows.size), y.reshape(-1, rows.size)

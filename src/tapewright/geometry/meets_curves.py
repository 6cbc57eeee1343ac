"""Two curves meeting: boxes round ever smaller pieces, inflated by their sag, then Newton's method.

Every pair of segments whose boxes overlap is cut twice into eight by eight pieces; what still overlaps is about a
sixty-fourth of a segment, nearly straight, and Newton goes on from its middle. All rows are worked as one flat
list. Beyond their ends curves go straight on; those meets are looked for only where they are wanted: where an end
may be carried on, or nothing else is met.
"""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np

from tapewright.geometry.curve import Curve, Drawn, Stretch, at, curve_of, start_point, straight
from tapewright.geometry.meets_answer import Candidate, Carried, Meets, answer_rows
from tapewright.geometry.meets_curve import KEPT, curve_and_straight
from tapewright.geometry.nearest import nearest
from tapewright.geometry.point import Point
from tapewright.geometry.rows import Array, Indices, Mask, Why, held
from tapewright.geometry.segments import Run, Segment, outward, place, segments_rows, speed, taken, turned
from tapewright.geometry.tolerance import CONVERGED, EXACT, FLAT_ANGLE, SAME_POINT, TOUCH

_PARTS: Final = 8
_CUTS: Final = 2
_STEPS: Final = 60
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
        found = _once(*_crossings(p, q, good))
        slot = np.arange(found.body.size) - np.searchsorted(found.body, found.body)
        along = _along(found, slot, a, b)
        kept = ~along[found.body]
        found, slot = _Found(*(f[kept] for f in found)), slot[kept]
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


def _crossings(p: _Side, q: _Side, good: Mask) -> tuple[_Found, int]:
    """All meets, some many times over, in a fixed order within each row: shared ends first, and how many those are."""
    pl, ph, ql, qh = *_box(p.s), *_box(q.s)
    apart = _apart(pl[0][:, None], ph[0][:, None], ql[0][None], qh[0][None]) | _apart(
        pl[1][:, None], ph[1][:, None], ql[1][None], qh[1][None]
    )
    i, j, body = np.nonzero(~apart & (p.live[:, None] & q.live[None]) & good)
    a, b = taken(p.s, (i, body)), taken(q.s, (j, body))
    u, v = np.zeros(body.size), np.zeros(body.size)
    wide = 1.0
    for _ in range(_CUTS):
        wide = wide / _PARTS
        (al, ah), (bl, bh) = _cells(a, u, wide), _cells(b, v, wide)
        clear = _apart(al[0][:, None], ah[0][:, None], bl[0][None], bh[0][None]) | _apart(
            al[1][:, None], ah[1][:, None], bl[1][None], bh[1][None]
        )
        m, n, index = np.nonzero(~clear)
        u, v = u[index] + m * wide, v[index] + n * wide
        a, b, body = taken(a, (index,)), taken(b, (index,)), body[index]
    u, v, ok = _newton(a, b, u + wide * 0.5, v + wide * 0.5)
    x, y = place(a, u)
    ta, tb = a.t0 + (a.t1 - a.t0) * u, b.t0 + (b.t1 - b.t0) * v
    inner = _Found(x[ok], y[ok], ta[ok], tb[ok], body[ok])
    outer = [_shared(e, f, good) for e in (p.head, turned(p.tail)) for f in (q.head, turned(q.tail))]
    shared = sum(f.body.size for f in outer)
    return _Found(*(np.concatenate(columns) for columns in zip(*outer, inner, strict=True))), shared


def _shared(e: Segment[Array], f: Segment[Array], good: Mask) -> _Found:
    """The meets of two ends that are one point; each end is the start of a segment."""
    same = good & (np.abs(e.ax - f.ax) <= SAME_POINT) & (np.abs(e.ay - f.ay) <= SAME_POINT)
    body = np.nonzero(same)[0]
    return _Found(e.ax[body], e.ay[body], e.t0[body], f.t0[body], body)


def _apart(low: Array, high: Array, other_low: Array, other_high: Array) -> Mask:
    """Whether two spans do not come near each other."""
    return (low > other_high + SAME_POINT) | (other_low > high + SAME_POINT)


def _box(s: Segment[Array]) -> tuple[tuple[Array, Array], tuple[Array, Array]]:
    """The least and the greatest x and y of the control points."""
    x, y = np.array([s.ax, s.bx, s.cx, s.dx]), np.array([s.ay, s.by, s.cy, s.dy])
    return (x.min(axis=0), y.min(axis=0)), (x.max(axis=0), y.max(axis=0))


def _cells(s: Segment[Array], u: Array, wide: float) -> tuple[tuple[Array, Array], tuple[Array, Array]]:
    """The boxes of eight cells of each segment from u on, `(8, n)`: those of the chords, inflated by the sag."""
    x, y = place(s, u + wide * np.arange(_PARTS + 1.0)[:, None])
    # The second derivative is at most six times the greater second difference; the sag of a chord an eighth of it.
    part = 0.75 * wide * wide
    sag_x = part * np.maximum(np.abs(s.ax - 2.0 * s.bx + s.cx), np.abs(s.bx - 2.0 * s.cx + s.dx))
    sag_y = part * np.maximum(np.abs(s.ay - 2.0 * s.by + s.cy), np.abs(s.by - 2.0 * s.cy + s.dy))
    low = np.minimum(x[:-1], x[1:]) - sag_x, np.minimum(y[:-1], y[1:]) - sag_y
    return low, (np.maximum(x[:-1], x[1:]) + sag_x, np.maximum(y[:-1], y[1:]) + sag_y)


def _newton(a: Segment[Array], b: Segment[Array], u: Array, v: Array) -> tuple[Array, Array, Mask]:
    """From near meets to meets, held within both segments; and which of them are meets at all."""
    settled = np.zeros(u.size, dtype=np.bool_)
    for _ in range(_STEPS):
        if settled.all():
            break
        (ax, ay), (bx, by) = place(a, u), place(b, v)
        (px, py), (qx, qy) = speed(a, u), speed(b, v)
        dx, dy = bx - ax, by - ay
        sine = px * qy - py * qx
        square = (px * px + py * py) * (qx * qx + qy * qy)
        steep = np.abs(sine) > FLAT_ANGLE * np.sqrt(square)
        safe = np.where(steep, sine, 1.0)
        du = np.where(steep, (dx * qy - dy * qx) / safe, 0.0)
        dv = np.where(steep, (dx * py - dy * px) / safe, 0.0)
        # Never farther at once than a few cells, and not beyond the end by more than a little.
        du, dv = held(du, -0.125, 0.125), held(dv, -0.125, 0.125)
        exact = (np.abs(dx) < EXACT) & (np.abs(dy) < EXACT)
        still = settled | exact
        nu, nv = (
            np.where(still, u, held(u + du, -0.125, 1.125)),
            np.where(still, v, held(v + dv, -0.125, 1.125)),
        )
        settled = still | ((np.abs(nu - u) < CONVERGED) & (np.abs(nv - v) < CONVERGED))
        u, v = nu, nv
    ru, rv = held(u, 0.0, 1.0), held(v, 0.0, 1.0)
    inside = (ru == u) & (rv == v)
    (ax, ay), (bx, by) = place(a, ru), place(b, rv)
    off = np.hypot(bx - ax, by - ay)
    return ru, rv, off <= np.where(inside, TOUCH, SAME_POINT)


def _once(f: _Found, shared: int) -> _Found:
    """Each meet once, in order of rows and of the parameter on a; the first `shared` are ends that are one point."""
    order = np.lexsort((f.tb, f.ta, f.body))
    f = _Found(*(c[order] for c in f))
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
    return _Found(*(c[chosen] for c in f))


def _along(f: _Found, slot: Indices, a: Drawn, b: Drawn) -> Mask:
    """On which rows the curves lie along each other: three meets or more, and half-way between two they are one."""
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
    added: list[list[Array]] = [[] for _ in range(9)]
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
    out = []
    for have, column in zip(table, added, strict=True):
        have = np.asarray(have)
        more = np.concatenate(column)
        full = np.zeros((more.shape[0], bodies), dtype=more.dtype)
        full[:, wanted] = more
        out.append(np.concatenate((have, full)))
    return Candidate(out[0], out[1], out[2], out[3], out[4], out[5], out[6], out[7], out[8].astype(np.bool_))


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
    """How far two curves miss each other: from the nearest of a few places on each, to and fro by the shortest way."""
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
    """Five places a segment, `(places, rows)`; those of segments that are not live lie at the line's first end."""
    s = Segment(*(f[:, rows] for f in side.s))
    x, y = place(s, np.array([0.0, 0.25, 0.5, 0.75, 1.0])[:, None, None])
    x, y = (
        np.where(side.live[:, rows], x, side.head.ax[rows]),
        np.where(side.live[:, rows], y, side.head.ay[rows]),
    )
    return x.reshape(-1, rows.size), y.reshape(-1, rows.size)

"""A curve meeting a straight line or a circle: the roots between the turns of its distance from them.

Along each segment the signed distance from the line (a cubic) or the circle is cut at its turning points;
between two of opposite sign lies one root, found by a bracketed Newton. This keeps touches and near touches
sound where Cardano's formula cancels, and skips at once the segments that lie on one side. One row runs on
floats; many rows run on the flat list of segments that are not skipped. Beyond its ends a curve goes straight
on.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import numpy as np

from tapewright.geometry.aims import Aim, Line, Round
from tapewright.geometry.circle import Arc, Circle
from tapewright.geometry.curve import Drawn, start_point
from tapewright.geometry.meets_answer import Candidate, Carried, Meets, answer_one, answer_rows, past
from tapewright.geometry.meets_plain import (
    Ruler,
    rounded,
    rounded_one,
    ruler_one,
    ruler_parameter,
    ruler_rows,
)
from tapewright.geometry.rows import Array, Indices, Mask, N, Why, larger, pick
from tapewright.geometry.segments import (
    Run,
    Segment,
    bracketed,
    in_slots,
    outward,
    place,
    segments_one,
    segments_rows,
    taken,
    turned,
)
from tapewright.geometry.tolerance import SAME_POINT, TOUCH

KEPT: Final = 8
"""How many meets with a curve are kept."""


def curve_and_straight(
    a: Drawn, b: Drawn, carried_a: Carried, carried_b: Carried, flip: bool = False
) -> Meets:
    """A curve and a straight line; `flip` answers as if the straight line were a."""
    if a.bodies == 1:
        r = ruler_one(b)
        return _answer_one(
            a, Line(r), lambda c: _ruled(c, r), (carried_a, carried_b), flip, r.long > SAME_POINT
        )
    with np.errstate(under="ignore"):
        q = ruler_rows(b)
        aim = Line(q)
        return _answer_rows(a, aim, lambda c: _ruled(c, q), (carried_a, carried_b), flip, q.long > SAME_POINT)


def curve_and_circle(a: Drawn, b: Circle | Arc, carried: Carried, flip: bool = False) -> Meets:
    """A curve and a circle or arc; `flip` answers as if the circle were a."""
    c, both = b.centre, (carried, Carried.NOT)
    if a.bodies == 1:
        one = Round(c.x.item(), c.y.item(), abs(b.radius.item()))
        return _answer_one(a, one, lambda m: rounded_one(m, b), both, flip, True)
    with np.errstate(under="ignore"):
        many = Round(c.x, c.y, np.abs(b.radius))
        ok = np.ones(a.bodies, dtype=np.bool_)
        return _answer_rows(a, many, lambda m: rounded(m, b), both, flip, ok)


def _ruled(c: Candidate[N], r: Ruler[N]) -> Candidate[N]:
    """The candidate with what the straight line says of it."""
    s = (c.x - r.x) * r.ux + (c.y - r.y) * r.uy
    return c._replace(tb=ruler_parameter(r, s), past_b=past(s, r.long), run_b=s)


def _end_meets(us: list[N], fs: list[N]) -> bool | Mask:
    """Whether the end at the first node lies on the line for want of a crossing or touch next to it."""
    near = larger(fs[0], -fs[0])
    after = fs[-1]
    for u, f in zip(us[-2:0:-1], fs[-2:0:-1], strict=True):
        after = pick(u > 0.0, f, after)
    alike = ((after > TOUCH) & (fs[0] > 0.0)) | ((after < -TOUCH) & (fs[0] < 0.0))
    return (near <= SAME_POINT) & (near > TOUCH) & alike


def _flipped(us: list[N], fs: list[N]) -> tuple[list[N], list[N]]:
    """The nodes seen from the other end."""
    return [1.0 - u for u in reversed(us)], list(reversed(fs))


def _candidate(x: N, y: N, t: N, run: Run[N], real: bool | Mask) -> Candidate[N]:
    """A candidate on the curve; what b says is still to be filled in."""
    nought = x * 0.0
    return Candidate(x, y, t, nought, nought, nought, (t - run.start) * run.way, nought, real)


def _rays(aim: Aim[N], s: Segment[N], run: Run[N], way: float, live: bool | Mask) -> list[Candidate[N]]:
    """The candidates on the straight continuation beyond the start of a segment; none if it starts on b.

    `way` is 1 at the low end of the curve and -1 at the high end, where the segment comes turned.
    """
    (tx, ty), off = outward(s), aim.off(s.ax, s.ay)
    free = live & ((off > SAME_POINT) | (off < -SAME_POINT))
    found = []
    for ahead, crosses in aim.beyond(s.ax, s.ay, tx, ty):
        real = crosses & free
        far = pick(real, ahead, ahead * 0.0)
        beyond = -(run.way * way) * far
        c = _candidate(s.ax + tx * far, s.ay + ty * far, s.t0, run, real)
        found.append(c._replace(past_a=beyond, run_a=c.run_a + beyond))
    return found


def _answer_one(
    a: Drawn,
    aim: Aim[float],
    seen: Callable[[Candidate[float]], Candidate[float]],
    carried: tuple[Carried, Carried],
    flip: bool,
    ok: bool,
) -> Meets:
    """The meets of one row."""
    live, run = segments_one(a)
    along = isinstance(aim, Line) and all(abs(f) <= SAME_POINT for s in live for f in aim.controls(s))
    if not live or not ok or along:
        p = start_point(a)
        stand_in = seen(_candidate(p.x.item(), p.y.item(), run.start, run, False))
        return answer_one(
            [stand_in], (0.0, Why.ALONG if live and ok else Why.SAME_POINT), carried, KEPT, flip
        )
    first, last = live[0], live[-1]
    near_first, near_last = abs(aim.off(first.ax, first.ay)), abs(aim.off(last.dx, last.dy))
    events: list[Candidate[float]] = []
    before = (0.0, 0.0)
    for s in live:
        at_first, at_last = s is first and near_first <= SAME_POINT, s is last and near_last <= SAME_POINT
        if not (at_first or at_last) and aim.clear(s):
            continue
        for u in _roots_one(aim, s, at_first, at_last):
            x, y = place(s, u)
            again = abs(x - before[0]) <= SAME_POINT and abs(y - before[1]) <= SAME_POINT
            if not events or not again:
                events.append(_candidate(x, y, s.t0 + (s.t1 - s.t0) * u, run, True))
            before = (x, y)
    rays = _rays(aim, first, run, 1.0, True) + _rays(aim, turned(last), run, -1.0, True)
    gap = 0.0
    if not events and not any(r.real for r in rays):
        gap = min(abs(f) for s in live for f in aim.nodes(s)[1])
    table = events + rays if events else [rays[0]._replace(real=False), *rays]
    return answer_one([seen(c) for c in table], (gap, Why.APART), carried, KEPT, flip)


def _roots_one(aim: Aim[float], s: Segment[float], at_first: bool, at_last: bool) -> list[float]:
    """The parameters in one segment, in order, at which it meets b; neighbours may be one and the same meet."""
    us, fs = aim.nodes(s)
    found: list[float] = [0.0] if at_first and _end_meets(us, fs) else []
    course = aim.course(s)
    for k, f in enumerate(fs):
        if -TOUCH <= f <= TOUCH:
            found.append(us[k])
        elif k + 1 < len(fs) and (f > 0.0) != (fs[k + 1] > 0.0) and abs(fs[k + 1]) > TOUCH:
            found.append(bracketed(course, us[k], us[k + 1], f, fs[k + 1], False))
    if at_last and _end_meets(*_flipped(us, fs)):
        found.append(1.0)
    return found


def _answer_rows(
    a: Drawn,
    aim: Aim[Array],
    seen: Callable[[Candidate[Array]], Candidate[Array]],
    carried: tuple[Carried, Carried],
    flip: bool,
    ok: Mask,
) -> Meets:
    """The meets of many rows: as `_answer_one`, on the flat list of the segments that may meet b."""
    s, live, run = segments_rows(a)
    count, bodies = live.shape
    rows = np.arange(bodies)
    has = np.logical_or.reduce(live, axis=0)
    along = np.zeros(bodies, dtype=np.bool_)
    if isinstance(aim, Line):
        flat = np.logical_and.reduce([np.abs(f) <= SAME_POINT for f in aim.controls(s)], axis=0)
        along = np.logical_and.reduce(flat | ~live, axis=0)
    good = has & ok & ~along
    first, last = live.argmax(axis=0), count - 1 - live[::-1].argmax(axis=0)
    head, tail = taken(s, (first, rows)), taken(s, (last, rows))
    index = np.arange(count)[:, None]
    at_first = (index == first) & (np.abs(aim.off(head.ax, head.ay)) <= SAME_POINT)
    at_last = (index == last) & (np.abs(aim.off(tail.dx, tail.dy)) <= SAME_POINT)
    wanted = live & good & (at_first | at_last | ~np.asarray(aim.clear(s)))
    where = np.nonzero(wanted)
    which, u = _roots_rows(aim.taken(where, wanted.shape), taken(s, where), at_first[where], at_last[where])
    events, body, slot = in_slots(
        taken(s, (where[0][which], where[1][which])), u, where[0][which], where[1][which]
    )
    rays = _rays(aim, head, run, 1.0, good) + _rays(aim, turned(tail), run, -1.0, good)
    start = start_point(a)
    lost = _candidate(start.x, start.y, run.start, run, good)
    own = _candidate(*events, Run(*(f[body] for f in run)), good)
    height = int(slot.max(initial=0)) + 1
    fields: list[Array] = []
    for i in range(8):
        field = np.repeat(np.where(good, rays[0][i], lost[i])[None], height, axis=0)
        field[slot, body] = own[i]
        fields.append(np.concatenate((field, np.array([r[i] for r in rays]))))
    real = np.zeros((height, bodies), dtype=np.bool_)
    real[slot, body] = True
    reals = np.concatenate((real, np.array([r.real for r in rays])))
    table: Candidate[Array] = Candidate._make((*fields, reals))
    gap = np.zeros(bodies)
    missed = np.nonzero(good & ~np.logical_or.reduce(np.asarray(table.real), axis=0))[0]
    if missed.size:
        part = Segment(*(f[:, missed] for f in s))
        heights = np.abs(np.array(aim.taken((missed,), (bodies,)).nodes(part)[1]))
        gap[missed] = np.where(live[:, missed], heights, np.inf).min(axis=(0, 1))
    why = np.where(good, Why.APART, np.where(has & ok, Why.ALONG, Why.SAME_POINT)).astype(np.int8)
    return answer_rows(seen(table), (gap, why), carried, KEPT, flip)


def _roots_rows(aim: Aim[Array], s: Segment[Array], at_first: Mask, at_last: Mask) -> tuple[Indices, Array]:
    """Which segments of a flat list meet b, and at which parameters; as `_roots_one`, in no order."""
    us, fs = aim.nodes(s)
    which = [np.nonzero(at_first & _end_meets(us, fs))[0]]
    found = [np.zeros(which[0].size)]
    u, f = np.array(us), np.array(fs)
    touching = (f <= TOUCH) & (f >= -TOUCH)
    node, index = np.nonzero(touching)
    which.append(index)
    found.append(u[node, index])
    node, index = np.nonzero(~touching[:-1] & ~touching[1:] & ((f[:-1] > 0.0) != (f[1:] > 0.0)))
    course = aim.taken((index,), f.shape[1:]).course(taken(s, (index,)))
    settled = np.zeros(index.size, dtype=np.bool_)
    which.append(index)
    found.append(
        bracketed(course, u[node, index], u[node + 1, index], f[node, index], f[node + 1, index], settled)
    )
    which.append(np.nonzero(at_last & _end_meets(*_flipped(us, fs)))[0])
    found.append(np.ones(which[-1].size))
    return np.concatenate(which), np.concatenate(found)

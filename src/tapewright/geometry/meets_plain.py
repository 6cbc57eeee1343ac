"""Straight lines and circles meeting straight lines and circles, in closed form.

Each sum is written once and runs on floats for one row and on arrays for many. Arcs are met as their circles
and then asked whether they reach so far.
"""

from __future__ import annotations

from typing import Generic, NamedTuple

import numpy as np

from tapewright.geometry.circle import Arc, Circle, parameter_turned, turned_to
from tapewright.geometry.curve import Drawn, Stretch
from tapewright.geometry.meets_answer import Candidate, Carried, Meets, answer_one, answer_rows, past
from tapewright.geometry.rows import Array, Mask, N, Why, angle_of, held, larger, over, pick, root
from tapewright.geometry.tolerance import FLAT_ANGLE, SAME_POINT, TOUCH


class Ruler(NamedTuple, Generic[N]):
    """A straight line as run: its start, unit direction, length, and its curve's parameters at start and end.

    A line of no length has the direction (1, 0).
    """

    x: N
    y: N
    ux: N
    uy: N
    long: N
    t0: N
    t1: N


def ruler(x0: N, y0: N, x1: N, y1: N, t0: N, t1: N) -> Ruler[N]:
    """The ruler from one point to another."""
    dx, dy = x1 - x0, y1 - y0
    long = root(dx * dx + dy * dy)
    return Ruler(x0, y0, over(dx, long, 1.0), over(dy, long, 0.0), long, t0, t1)


def ruler_one(drawn: Drawn) -> Ruler[float]:
    """A straight drawn line of one row."""
    if not isinstance(drawn, Stretch):
        c = drawn.ctrl
        x0, y0, x1, y1 = (
            c[0, 0, 0, 0].item(),
            c[0, 1, 0, 0].item(),
            c[3, 0, 0, 0].item(),
            c[3, 1, 0, 0].item(),
        )
        return ruler(x0, y0, x1, y1, 0.0, 1.0)
    whole = ruler_one(drawn.curve)
    return _cut(whole, held(drawn.start.item(), 0.0, 1.0), held(drawn.end.item(), 0.0, 1.0))


def ruler_rows(drawn: Drawn) -> Ruler[Array]:
    """A straight drawn line of many rows."""
    if not isinstance(drawn, Stretch):
        c = drawn.ctrl
        nought = np.zeros(c.shape[3])
        return ruler(c[0, 0, 0], c[0, 1, 0], c[3, 0, 0], c[3, 1, 0], nought, nought + 1.0)
    whole = ruler_rows(drawn.curve)
    return _cut(whole, held(drawn.start, 0.0, 1.0), held(drawn.end, 0.0, 1.0))


def _cut(w: Ruler[N], t0: N, t1: N) -> Ruler[N]:
    """A piece of a ruler between two parameters."""
    s0, s1 = w.long * t0, w.long * t1
    return ruler(w.x + w.ux * s0, w.y + w.uy * s0, w.x + w.ux * s1, w.y + w.uy * s1, t0, t1)


def ruler_parameter(r: Ruler[N], s: N) -> N:
    """The curve's parameter at a length from the ruler's start, held within the ruler."""
    return r.t0 + (r.t1 - r.t0) * held(over(s, r.long, 0.0), 0.0, 1.0)


def straight_and_straight(a: Drawn, b: Drawn, carried_a: Carried, carried_b: Carried) -> Meets:
    """Two straight lines: one candidate."""
    if a.bodies == 1:
        one, gap, why = _crossing(ruler_one(a), ruler_one(b))
        return answer_one([one], (gap, Why(int(why))), (carried_a, carried_b), 1)
    with np.errstate(under="ignore"):
        many, gaps, whys = _crossing(ruler_rows(a), ruler_rows(b))
        return answer_rows(_stacked([many]), (gaps, whys.astype(np.int8)), (carried_a, carried_b), 1)


def _crossing(a: Ruler[N], b: Ruler[N]) -> tuple[Candidate[N], N, N]:
    """Where two rulers cross, how far they miss when they never do, and the reason then (as a number)."""
    sine = a.ux * b.uy - a.uy * b.ux
    long = (a.long > SAME_POINT) & (b.long > SAME_POINT)
    real = long & ((sine > FLAT_ANGLE) | (sine < -FLAT_ANGLE))
    safe = pick(real, sine, a.x * 0.0 + 1.0)
    wx, wy = b.x - a.x, b.y - a.y
    away = wx * a.uy - wy * a.ux
    sa = pick(real, (wx * b.uy - wy * b.ux) / safe, a.x * 0.0)
    sb = pick(real, away / safe, a.x * 0.0)
    run_a, run_b = ruler_parameter(a, sa), ruler_parameter(b, sb)
    gap = larger(away, -away)
    why = pick(
        long,
        pick(gap > SAME_POINT, gap * 0.0 + Why.PARALLEL, gap * 0.0 + Why.ALONG),
        gap * 0.0 + Why.SAME_POINT,
    )
    candidate = Candidate(
        a.x + a.ux * sa, a.y + a.uy * sa, run_a, run_b, past(sa, a.long), past(sb, b.long), sa, sb, real
    )
    return candidate, gap, why


def straight_and_circle(a: Drawn, b: Circle | Arc, carried: Carried, flip: bool = False) -> Meets:
    """A straight line and a circle or arc: two candidates, one for a touch."""
    if a.bodies == 1:
        r, c = ruler_one(a), b.centre
        first, second, gap, ok = on_ruler(r, c.x.item(), c.y.item(), b.radius.item())
        near = [rounded_one(_ruled(r, s, real), b) for s, real in (first, second)]
        return answer_one(near, (gap, Why.APART if ok else Why.SAME_POINT), (carried, Carried.NOT), 2, flip)
    with np.errstate(under="ignore"):
        q = ruler_rows(a)
        one, two, gaps, oks = on_ruler(q, b.centre.x, b.centre.y, b.radius)
        table = _stacked([_ruled(q, s, real) for s, real in (one, two)])
        why = np.where(oks, np.int8(Why.APART), np.int8(Why.SAME_POINT)).astype(np.int8)
        return answer_rows(rounded(table, b), (gaps, why), (carried, Carried.NOT), 2, flip)


Hit = tuple[N, bool | Mask]


def on_ruler(r: Ruler[N], cx: N, cy: N, radius: N) -> tuple[Hit[N], Hit[N], N, bool | Mask]:
    """Where a circle cuts a ruler carried on, as two lengths from its start, and how far it misses.

    Also whether the ruler has any length. A touch is the first hit alone.
    """
    wx, wy = cx - r.x, cy - r.y
    along, away = r.ux * wx + r.uy * wy, r.ux * wy - r.uy * wx
    high, size = larger(away, -away), larger(radius, -radius)
    ok = r.long > SAME_POINT
    depth = size - high
    meets = ok & (depth >= -TOUCH)
    cuts = meets & (depth > TOUCH)
    half = root(pick(cuts, depth, depth * 0.0) * (size + high))
    return (along - half, meets), (along + half, cuts), larger(-depth, depth * 0.0), ok


def _ruled(r: Ruler[N], s: N, real: bool | Mask) -> Candidate[N]:
    """The candidate at a length along a ruler; what b says is still to be filled in."""
    nought = s * 0.0
    x, y = r.x + r.ux * s, r.y + r.uy * s
    return Candidate(x, y, ruler_parameter(r, s), nought, past(s, r.long), nought, s, nought, real)


def circle_and_circle(a: Circle | Arc, b: Circle | Arc) -> Meets:
    """Two circles or arcs: two candidates, one for a touch."""
    if a.radius.shape[0] == 1:
        c, d = a.centre, b.centre
        first, second, gap, why = _lens(
            c.x.item(), c.y.item(), a.radius.item(), d.x.item(), d.y.item(), b.radius.item()
        )
        near = [_both_one(x, y, real, a, b) for x, y, real in (first, second)]
        return answer_one(near, (gap, Why(int(why))), (Carried.NOT, Carried.NOT), 2)
    with np.errstate(under="ignore"):
        one, two, gaps, whys = _lens(a.centre.x, a.centre.y, a.radius, b.centre.x, b.centre.y, b.radius)
        table = _stacked([_bare(x, y, real) for x, y, real in (one, two)])
        table = exchanged(rounded(exchanged(rounded(table, b)), a))
        return answer_rows(table, (gaps, whys.astype(np.int8)), (Carried.NOT, Carried.NOT), 2)


def _lens(ax: N, ay: N, ar: N, bx: N, by: N, br: N) -> tuple[Spot[N], Spot[N], N, N]:
    """Where two circles cross, how far they miss, and the reason then (as a number)."""
    dx, dy = bx - ax, by - ay
    far = root(dx * dx + dy * dy)
    ra, rb = larger(ar, -ar), larger(br, -br)
    apart, inner = ra + rb - far, far - larger(ra - rb, rb - ra)
    eccentric = far > SAME_POINT
    meets = eccentric & (apart >= -TOUCH) & (inner >= -TOUCH)
    cuts = meets & (apart > TOUCH) & (inner > TOUCH)
    safe = pick(eccentric, far, far * 0.0 + 1.0)
    # Along the line of centres; the four factors are Heron's, none of which cancels.
    along = (far + (ra - rb) * ((ra + rb) / safe)) * 0.5
    product = pick(cuts, apart * inner, far * 0.0) * (ra + rb + far) * (far + larger(ra - rb, rb - ra))
    half = root(product) / (safe * 2.0)
    ux, uy = pick(eccentric, dx, far * 0.0 + 1.0) / safe, pick(eccentric, dy, far * 0.0) / safe
    x, y = ax + ux * along, ay + uy * along
    gap = larger(larger(-apart, -inner), far * 0.0)
    same = (far <= SAME_POINT) & (gap <= SAME_POINT)
    why = pick(same, gap * 0.0 + Why.ALONG, gap * 0.0 + Why.APART)
    return (x - uy * half, y + ux * half, meets), (x + uy * half, y - ux * half, cuts), gap, why


Spot = tuple[N, N, bool | Mask]


def _bare(x: N, y: N, real: bool | Mask) -> Candidate[N]:
    """A place of which neither line has yet been asked."""
    nought = x * 0.0
    return Candidate(x, y, nought, nought, nought, nought, nought, nought, real)


def _both_one(x: float, y: float, real: bool | Mask, a: Circle | Arc, b: Circle | Arc) -> Candidate[float]:
    """The candidate of one row on two circles."""
    return exchanged(rounded_one(exchanged(rounded_one(_bare(x, y, real), b)), a))


def exchanged(c: Candidate[N]) -> Candidate[N]:
    """The candidate with a and b exchanged."""
    return Candidate(c.x, c.y, c.tb, c.ta, c.past_b, c.past_a, c.run_b, c.run_a, c.real)


def rounded_one(c: Candidate[float], b: Circle | Arc) -> Candidate[float]:
    """As `rounded`, for one row."""
    if isinstance(b, Circle):
        angle = angle_of(c.x - b.centre.x.item(), c.y - b.centre.y.item())
        return c._replace(tb=angle, run_b=angle)
    centre = b.centre
    t, beyond, run = _on_arc(
        centre.x.item(), centre.y.item(), b.radius.item(), b.start.item(), b.turn.item(), c.x, c.y
    )
    return c._replace(tb=t, past_b=beyond, run_b=run)


def rounded(c: Candidate[Array], b: Circle | Arc) -> Candidate[Array]:
    """The candidates with what the circle or arc b says of them: parameter, how far past, place on its run."""
    if isinstance(b, Circle):
        angle = np.arctan2(c.y - b.centre.y, c.x - b.centre.x)
        return c._replace(tb=angle, run_b=angle)
    t, beyond, run = _on_arc(b.centre.x, b.centre.y, b.radius, b.start, b.turn, c.x, c.y)
    return c._replace(tb=t, past_b=beyond, run_b=run)


def _on_arc(cx: N, cy: N, radius: N, start: N, turn: N, x: N, y: N) -> tuple[N, N, N]:
    """The parameter of an arc at a place on its circle, how far past its ends that is, and the place on its run."""
    signed = turned_to(start, turn, angle_of(x - cx, y - cy))
    size = larger(radius, -radius)
    s = pick(turn < 0.0, -signed, signed) * size
    return parameter_turned(turn, signed), past(s, larger(turn, -turn) * size), s


def _stacked(candidates: list[Candidate[Array]]) -> Candidate[Array]:
    """Candidates of many rows, one after another, as one table `(candidates, bodies)`."""
    columns = [np.array([c[i] for c in candidates]) for i in range(8)]
    reals = np.array([c.real for c in candidates], dtype=np.bool_)
    return Candidate._make((*columns, reals))

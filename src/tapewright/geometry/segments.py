"""The live segments of a drawn line, as plain numbers: what the roots of a curve are looked for in.

A trimmed line is cut by the polar form of its segments; the pieces outside it are not live. One row gives a
list of segments of floats, many rows give flat arrays; `bracketed` finds a root on either. Used inside the
geometry.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, NamedTuple

import numpy as np

from tapewright.geometry.curve import Drawn, Stretch, cubic, cut
from tapewright.geometry.rows import Array, Indices, Mask, N, everywhere, held, larger, over, pick, root
from tapewright.geometry.tolerance import CONVERGED, CUSP, EXACT, SAME_POINT


class Segment(NamedTuple, Generic[N]):
    """A cubic segment's control points, and the curve's parameters at its two ends."""

    ax: N
    ay: N
    bx: N
    by: N
    cx: N
    cy: N
    dx: N
    dy: N
    t0: N
    t1: N


class Run(NamedTuple, Generic[N]):
    """Which way a drawn line runs: the parameter at its start, 1 or -1, and the parameters it covers in all."""

    start: N
    way: N
    long: N


def segments_one(drawn: Drawn) -> tuple[list[Segment[float]], Run[float]]:
    """The live segments of one row, low parameter first, and how the line runs; none for one of no length."""
    if not isinstance(drawn, Stretch):
        rows = drawn.ctrl[..., 0].transpose(2, 0, 1).reshape(-1, 8).tolist()
        all_of_it = [Segment._make((*r, float(i), i + 1.0)) for i, r in enumerate(rows)]
        return all_of_it, Run(0.0, 1.0, float(len(rows)))
    n = drawn.curve.segments
    start, end = held(drawn.start.item(), 0.0, float(n)), held(drawn.end.item(), 0.0, float(n))
    low, high = (end, start) if start > end else (start, end)
    first, last = int(low), min(int(high), n - 1)
    rows = drawn.curve.ctrl[:, :, first : last + 1, 0].transpose(2, 0, 1).reshape(-1, 8).tolist()
    live = []
    for i, row in enumerate(rows, first):
        u0, u1 = held(low - i, 0.0, 1.0), held(high - i, 0.0, 1.0)
        if u1 > u0:
            ax, bx, cx, dx = cut(row[0], row[2], row[4], row[6], u0, u1)
            ay, by, cy, dy = cut(row[1], row[3], row[5], row[7], u0, u1)
            live.append(Segment(ax, ay, bx, by, cx, cy, dx, dy, i + u0, i + u1))
    return live, Run(start, -1.0 if start > end else 1.0, high - low)


def segments_rows(drawn: Drawn) -> tuple[Segment[Array], Mask, Run[Array]]:
    """The segments of many rows `(segments, bodies)`, low parameter first, which are live, how the lines run."""
    curve = drawn.curve if isinstance(drawn, Stretch) else drawn
    n, bodies, c = curve.segments, curve.bodies, curve.ctrl
    index = np.arange(float(n))[:, None]
    nought = np.zeros(bodies)
    if not isinstance(drawn, Stretch):
        parts = [c[i, j] for i in range(4) for j in range(2)]
        all_live = np.ones((n, bodies), dtype=np.bool_)
        return (
            Segment._make((*parts, index + nought, (index + 1.0) + nought)),
            all_live,
            Run(nought, nought + 1.0, nought + n),
        )
    start, end = held(drawn.start, 0.0, float(n)), held(drawn.end, 0.0, float(n))
    back = start > end
    low, high = np.where(back, end, start), np.where(back, start, end)
    u0, u1 = held(low - index, 0.0, 1.0), held(high - index, 0.0, 1.0)
    ax, bx, cx, dx = cut(c[0, 0], c[1, 0], c[2, 0], c[3, 0], u0, u1)
    ay, by, cy, dy = cut(c[0, 1], c[1, 1], c[2, 1], c[3, 1], u0, u1)
    found = Segment(ax, ay, bx, by, cx, cy, dx, dy, index + u0, index + u1)
    return found, u1 > u0, Run(start, np.where(back, -1.0, 1.0), high - low)


def taken(s: Segment[Array], index: tuple[Indices, ...]) -> Segment[Array]:
    """The segments at flat indices."""
    return Segment(*(field[index] for field in s))


def turned(s: Segment[N]) -> Segment[N]:
    """The segment run the other way."""
    return Segment(s.dx, s.dy, s.cx, s.cy, s.bx, s.by, s.ax, s.ay, s.t1, s.t0)


def place(s: Segment[N], u: N) -> tuple[N, N]:
    """The point at u."""
    return cubic(s.ax, s.bx, s.cx, s.dx, u), cubic(s.ay, s.by, s.cy, s.dy, u)


def speed(s: Segment[N], u: N) -> tuple[N, N]:
    """The first derivative at u."""
    v = 1.0 - u
    a, b, c = 3.0 * (v * v), 6.0 * (u * v), 3.0 * (u * u)
    return (
        a * (s.bx - s.ax) + b * (s.cx - s.bx) + c * (s.dx - s.cx),
        a * (s.by - s.ay) + b * (s.cy - s.by) + c * (s.dy - s.cy),
    )


def outward(s: Segment[N]) -> tuple[N, N]:
    """The unit direction in which the line goes on beyond the segment's start, as a ruler laid there goes."""
    b = root((s.bx - s.ax) * (s.bx - s.ax) + (s.by - s.ay) * (s.by - s.ay))
    c = root((s.cx - s.ax) * (s.cx - s.ax) + (s.cy - s.ay) * (s.cy - s.ay))
    d = root((s.dx - s.ax) * (s.dx - s.ax) + (s.dy - s.ay) * (s.dy - s.ay))
    least = CUSP * larger(b, larger(c, d))
    by_b, by_c = b > least, c > least
    x = pick(by_b, s.ax - s.bx, pick(by_c, s.ax - s.cx, s.ax - s.dx))
    y = pick(by_b, s.ay - s.by, pick(by_c, s.ay - s.cy, s.ay - s.dy))
    long = root(x * x + y * y)
    return over(x, long, 1.0), over(y, long, 0.0)


def bracketed(f: Callable[[N], tuple[N, N]], low: N, high: N, f_low: N, f_high: N, settled: bool | Mask) -> N:
    """The root of f between two ends of opposite sign: Newton's step where it stays between, else the half.

    `f` gives value (mm) and slope. Rows settled from the start, and those that have settled, are left alone.
    """
    rising = f_high > f_low
    u = low + (high - low) * held(over(f_low, f_low - f_high, 0.5), 0.0625, 0.9375)
    for _ in range(64):
        if everywhere(settled):
            break
        value, slope = f(u)
        left = (value < 0.0) == rising
        low, high = pick(left, u, low), pick(left, high, u)
        step = u - over(value, slope, 2.0)
        step = pick((step > low) & (step < high), step, (low + high) * 0.5)
        exact = (value < EXACT) & (value > -EXACT)
        moved = pick(settled | exact, u, step)
        hop = moved - u
        settled = settled | exact | ((hop < CONVERGED) & (hop > -CONVERGED))
        u = moved
    return u


def in_slots(
    s: Segment[Array], u: Array, segment: Indices, body: Indices
) -> tuple[tuple[Array, Array, Array], Indices, Indices]:
    """The places of a flat list as x, y and the curve's parameter, each once, with their rows and slots."""
    x, y = place(s, u)
    t = s.t0 + (s.t1 - s.t0) * u
    order = np.lexsort((segment, t, body))
    x, y, t, body = x[order], y[order], t[order], body[order]
    again = (
        (body[1:] == body[:-1])
        & (np.abs(x[1:] - x[:-1]) <= SAME_POINT)
        & (np.abs(y[1:] - y[:-1]) <= SAME_POINT)
    )
    kept = np.concatenate(([True], ~again))[: body.size]
    x, y, t, body = x[kept], y[kept], t[kept], body[kept]
    return (x, y, t), body, np.arange(body.size) - np.searchsorted(body, body)

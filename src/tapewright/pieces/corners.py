"""Corners of a cutting line: where the parallels of two edges end, and what runs between them.

Parallels come from the geometry; here they are carried on, cut off, squared, blunted or mirrored. One body or
many: every answer carries the bodies axis. The constructions are those of any cutting class, common practice
without a single source; tests work them by hand and hold mitred outlines against shapely's.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import Final

import numpy as np

from tapewright.geometry import (
    Array,
    Carried,
    Curve,
    Drawn,
    Mask,
    Meets,
    Point,
    Stretch,
    Vector,
    backward,
    curve_of,
    distance,
    end_point,
    meets,
    nearest,
    start_point,
    straight,
    tangent,
    trimmed,
    whole,
)
from tapewright.geometry.tolerance import FLAT_ANGLE, OFFSET_AGREES, SAME_POINT

LONGEST_MITRE: Final = 2.5
"""A mitre that reaches farther than this many turnings is blunted. Common practice, no source."""
STEP: Final = 0.15
"""Edges that run on within this angle, radians, have no corner: a wider turning ends in a step there."""


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """An edge at a corner: its net line, its parallel outside, how much is left between; all run one way."""

    net: Drawn
    cut: Drawn
    turning: Array


@dataclass(frozen=True, slots=True, eq=False)
class Corner:
    """What runs from one cutting line to the next.

    `leaves` and `joins` are the parameters at which the first is left and the second joined (each its
    curve's own); `between` runs from there to there, end to end. `lost` are the bodies on which the two
    do not come together, and a straight line stands in.
    """

    leaves: Array
    joins: Array
    between: tuple[Drawn, ...]
    lost: Mask


def mitred(
    first: Side, second: Side, outward: Array, *, blunt: bool = False, longest: float = LONGEST_MITRE
) -> Corner:
    """The corner where the cutting lines of two edges, carried straight on if need be, meet.

    `outward` is +1 where the outside is to the right as the edges are run, else -1, `(bodies,)`. With
    `blunt`, and wherever the point would reach farther than `longest` times the wider turning, it is cut off
    square, as far out as the wider turning (or that much farther).
    """
    here = end_point(first.net)
    one, two = whole(first.cut), whole(second.cut)
    leave, arrive = end_point(one), start_point(two)
    # From within: beyond the end of what is live there may lie segments of no length, which run no way at all.
    along = tangent(one, np.nextafter(one.end, one.start))
    on = tangent(two, np.nextafter(two.start, two.end))
    wide = np.maximum(np.abs(first.turning), np.abs(second.turning))
    turn = outward * (along.dy * on.dx - along.dx * on.dy)
    flat = (np.abs(turn) < np.sin(STEP)) & (along.dx * on.dx + along.dy * on.dy > 0.0)
    apart = distance(leave, arrive)
    one_line = flat & (apart <= OFFSET_AGREES)
    x, y, ta, tb, found = _carried_on(one, two, along, on, (turn > 0.0, one_line), here)
    point = Point(np.where(found, x, leave.x), np.where(found, y, leave.y))
    far = distance(here, point)
    # Where the edges nearly run on, the wider turning would be cut away far along its edge: there is a step.
    cut_away = found & (turn > 0.0) & (within(one, ta) | within(two, tb))
    step = (flat | cut_away) & (far > LONGEST_MITRE * np.maximum(wide, SAME_POINT))
    found = found & ~step
    corner = found & ~one_line
    leaves = np.where(corner, ta, one.end)
    joins = np.where(corner, tb, two.start)
    leave = Point(
        np.where(corner & within(one, ta), x, leave.x), np.where(corner & within(one, ta), y, leave.y)
    )
    arrive = Point(
        np.where(corner & within(two, tb), x, arrive.x), np.where(corner & within(two, tb), y, arrive.y)
    )
    tip_one = Point(np.where(corner, x, leave.x), np.where(corner, y, leave.y))
    tip_two = Point(np.where(corner, x, arrive.x), np.where(corner, y, arrive.y))
    lost = ~found & ~flat & ~step
    limit = wide if blunt else wide * longest
    too_far = corner & (far > limit + SAME_POINT) & (wide > SAME_POINT)
    if too_far.any():
        tip_one = _blunted(here, point, leave, tip_one, limit, too_far)
        tip_two = _blunted(here, point, arrive, tip_two, limit, too_far)
    return Corner(leaves, joins, _chain(leave, tip_one, tip_two, arrive), lost)


def _carried_on(
    one: Stretch, two: Stretch, along: Vector, on: Vector, sort: tuple[Mask, Mask], here: Point
) -> tuple[Array, Array, Array, Array, Mask]:
    """Where two cutting lines meet at their corner: as `nearest_meet` has it.

    At a corner that stands out, where both have to be carried straight on to meet, that is two straight lines, and
    nothing is looked for; it is so on most corners. Nor is anything where the two are one line: `sort` tells which
    corners stand out, and which are none.
    """
    out, one_line = sort
    leave, arrive = end_point(one), start_point(two)
    dx, dy = arrive.x - leave.x, arrive.y - leave.y
    cross = along.dx * on.dy - along.dy * on.dx
    safe = np.where(np.abs(cross) > FLAT_ANGLE, cross, 1.0)
    ahead = (dx * on.dy - dy * on.dx) / safe
    back = (dx * along.dy - dy * along.dx) / safe
    plain = out & (np.abs(cross) > FLAT_ANGLE) & (ahead >= 0.0) & (back <= 0.0)
    x, y = leave.x + along.dx * ahead, leave.y + along.dy * ahead
    if (plain | one_line).all():
        return x, y, one.end, two.start, plain
    mx, my, ta, tb, found = nearest_meet(meets(one, two, Carried.END, Carried.START), here)
    return (
        np.where(plain, x, mx),
        np.where(plain, y, my),
        np.where(plain, one.end, ta),
        np.where(plain, two.start, tb),
        plain | (found & ~one_line),
    )


def crossed(first: Side, second: Side, plain: Corner, rows: Mask) -> Corner:
    """Where, on some bodies, two parallels that run on into each other cross before they come to the corner.

    So it is in a hollow that bends too tightly for the turning just where two edges join.
    """
    one, two = whole(first.cut), whole(second.cut)
    met = meets(one, two, Carried.NOT, Carried.START)
    end = end_point(one)
    away = np.hypot(met.x - end.x, met.y - end.y)
    away = np.where(met.on & (away > OFFSET_AGREES), away, np.inf)
    best = np.argmin(away, axis=0)
    each = np.arange(best.shape[0])
    good = rows & np.isfinite(away[best, each])
    if not good.any():
        return plain
    point = Point(met.x[best, each], met.y[best, each])
    return Corner(
        np.where(good, met.ta[best, each], plain.leaves),
        np.where(good, met.tb[best, each], plain.joins),
        either(good, _chain(point, point), plain.between),
        np.where(good, False, plain.lost),
    )


def squared(first: Side, second: Side, outward: Array) -> Corner:
    """The corner at which the first edge's turning ends square to its own seam.

    The seam is carried on to the second's cutting line; there the cut turns square, out to the first's
    cutting line carried on as far. Where the corner is hollow there is nothing to square: it is mitred.
    """
    plain = mitred(first, second, outward)
    here = end_point(first.net)
    one, two, seam = whole(first.cut), whole(second.cut), whole(first.net)
    way = tangent(seam, seam.end)
    met = meets(_ray(here, way), two, Carried.END, Carried.START)
    x, y, _, tb, found = nearest_meet(met, here)
    ahead = (x - here.x) * way.dx + (y - here.y) * way.dy
    good = found & (ahead > SAME_POINT) & (second.turning > SAME_POINT)
    out_x, out_y = -way.dy * outward, way.dx * outward
    foot = Point(x, y)
    out = Point(x + out_x * first.turning, y + out_y * first.turning)
    leave, arrive = end_point(one), start_point(two)
    arrive = Point(
        np.where(good & within(two, tb), x, arrive.x), np.where(good & within(two, tb), y, arrive.y)
    )
    chain = _chain(leave, out, foot, arrive)
    return Corner(
        np.where(good, one.end, plain.leaves),
        np.where(good, tb, plain.joins),
        either(good, chain, plain.between),
        np.where(good, False, plain.lost),
    )


def turned(first: Side, second: Side, outward: Array) -> Corner:
    """The corner at which the second edge's turning, turned up, will lie along the first's cutting line.

    The first's cutting line is run out to the line that is turned on (the second's net line at the corner,
    carried straight) and from there it is mirrored in it, as deep as the turning. Where the first's cutting
    line is too short to be mirrored so far, it is carried straight on.
    """
    here = end_point(first.net)
    one, two = whole(first.cut), whole(second.cut)
    hem = whole(second.net)
    way = tangent(hem, hem.start)
    in_x, in_y = way.dy * outward, -way.dx * outward
    ahead = Point(here.x + way.dx, here.y + way.dy)
    deep = second.turning
    inner = Point(here.x + in_x * deep, here.y + in_y * deep)
    hem_line = straight(Point(here.x - way.dx, here.y - way.dy), ahead)
    inner_line = straight(
        Point(inner.x - way.dx, inner.y - way.dy), Point(inner.x + way.dx, inner.y + way.dy)
    )
    back = Stretch(one.curve, one.end, one.start)
    x, y, t_out, _, out_found = nearest_meet(meets(back, hem_line, Carried.BOTH, Carried.BOTH), here)
    xi, yi, t_in, _, in_found = nearest_meet(meets(back, inner_line, Carried.BOTH, Carried.BOTH), inner)
    good = out_found & in_found & (deep > SAME_POINT)
    plain = mitred(first, second, outward)
    if not good.any():
        return plain
    end = end_point(one)
    leave = Point(np.where(within(one, t_out), x, end.x), np.where(within(one, t_out), y, end.y))
    fold = Point(x, y)
    # What is mirrored: the cutting line from the fold back to where the turning will end.
    piece = trimmed(Stretch(one.curve, t_out, t_in))
    glass = mirrored(piece, here, way)
    ends = mirrored_point(Point(xi, yi), here, way)
    gap = straight(fold, Point(glass.ctrl[0, 0, 0], glass.ctrl[0, 1, 0]))
    rest = straight(Point(glass.ctrl[3, 0, -1], glass.ctrl[3, 1, -1]), ends)
    foot = nearest(two, ends)
    start = start_point(two)
    past = (ends.x - start.x) * way.dx + (ends.y - start.y) * way.dy > SAME_POINT
    joins = np.where(past, foot.t, two.start)
    arrive = Point(np.where(past, foot.point.x, start.x), np.where(past, foot.point.y, start.y))
    chain = (straight(leave, fold), gap, glass, rest, straight(ends, arrive))
    return Corner(
        np.where(good, np.where(within(one, t_out), t_out, one.end), plain.leaves),
        np.where(good, joins, plain.joins),
        either(good, chain, plain.between),
        np.where(good, False, plain.lost),
    )


def reversed_corner(corner: Corner) -> Corner:
    """A corner that was found with the outline run the other way, in the outline's own order."""
    return Corner(
        corner.joins, corner.leaves, tuple(backward(d) for d in reversed(corner.between)), corner.lost
    )


def live(curve: Curve) -> Stretch:
    """A curve without the segments of no length at its ends, which have no direction to be carried on in."""
    some = np.abs(curve.ctrl[1:] - curve.ctrl[:1]).max(axis=(0, 1)) > SAME_POINT
    count = some.shape[0]
    any_ = some.any(axis=0)
    first = np.where(any_, some.argmax(axis=0), 0)
    last = np.where(any_, count - some[::-1].argmax(axis=0), count)
    return Stretch(curve, first.astype(np.float64), last.astype(np.float64))


def turned_about(side: Side) -> Side:
    """A side run the other way."""
    return Side(_about(side.net), _about(side.cut), side.turning)


def _about(drawn: Drawn) -> Stretch:
    run = whole(drawn)
    return Stretch(run.curve, run.end, run.start)


def _ray(p: Point, way: Vector) -> Curve:
    return straight(p, Point(p.x + way.dx, p.y + way.dy))


def within(line: Stretch, t: Array) -> Mask:
    """Whether a parameter lies on the stretch short of its ends."""
    low, high = np.minimum(line.start, line.end), np.maximum(line.start, line.end)
    return (t > low) & (t < high)


def nearest_meet(met: Meets, here: Point) -> tuple[Array, Array, Array, Array, Mask]:
    """The meet nearest to a place: where, its parameters, and whether there is one; `(bodies,)` each."""
    away = np.hypot(met.x - here.x, met.y - here.y)
    away = np.where(met.on, away, np.inf)
    best = np.argmin(away, axis=0)
    rows = np.arange(best.shape[0])
    found = met.on[best, rows]
    return met.x[best, rows], met.y[best, rows], met.ta[best, rows], met.tb[best, rows], found


def _blunted(here: Point, tip: Point, leave: Point, as_it_was: Point, limit: Array, rows: Mask) -> Point:
    """Where a cutting line that runs from `leave` to the tip of a mitre is cut off square to the mitre."""
    far = np.where(rows, distance(here, tip), 1.0)
    bx, by = (tip.x - here.x) / far, (tip.y - here.y) / far
    start = (leave.x - here.x) * bx + (leave.y - here.y) * by
    long = np.where(rows & (far - start > SAME_POINT), far - start, 1.0)
    part = np.clip(np.where(rows, (limit - start) / long, 0.0), 0.0, 1.0)
    x, y = leave.x + (tip.x - leave.x) * part, leave.y + (tip.y - leave.y) * part
    return Point(np.where(rows, x, as_it_was.x), np.where(rows, y, as_it_was.y))


def _chain(*points: Point) -> tuple[Drawn, ...]:
    """Straight lines through the points in order; those of no length are kept, and dropped on paper."""
    return tuple(straight(p, q) for p, q in itertools.pairwise(points))


def either(good: Mask, one: tuple[Drawn, ...], other: tuple[Drawn, ...]) -> tuple[Drawn, ...]:
    """One chain on some rows and another on the rest, each padded with lines of no length."""
    if good.all():
        return one
    if not good.any():
        return other
    count = max(len(one), len(other))
    return tuple(_merged(good, _nth(one, k), _nth(other, k)) for k in range(count))


def _nth(chain: tuple[Drawn, ...], k: int) -> Curve:
    if k < len(chain):
        return trimmed(chain[k])
    end = end_point(chain[-1])
    return straight(end, end)


def _merged(good: Mask, one: Curve, other: Curve) -> Curve:
    segments = max(one.segments, other.segments)
    return Curve(np.where(good, _padded(one, segments), _padded(other, segments)))


def _padded(curve: Curve, segments: int) -> Array:
    ctrl = curve.ctrl
    if ctrl.shape[2] == segments:
        return ctrl
    still = np.repeat(np.repeat(ctrl[3:, :, -1:], 4, axis=0), segments - ctrl.shape[2], axis=2)
    return np.concatenate([ctrl, still], axis=2)


def mirrored(drawn: Drawn, at: Point, way: Vector) -> Curve:
    """A line mirrored in the straight line through a point."""
    c = trimmed(drawn).ctrl
    x, y = c[:, 0] - at.x, c[:, 1] - at.y
    along = x * way.dx + y * way.dy
    return Curve(
        np.stack((at.x + 2.0 * along * way.dx - x, at.y + 2.0 * along * way.dy - y), axis=1),
        curve_of(drawn).is_straight,
    )


def mirrored_point(p: Point, at: Point, way: Vector) -> Point:
    x, y = p.x - at.x, p.y - at.y
    along = x * way.dx + y * way.dy
    return Point(at.x + 2.0 * along * way.dx - x, at.y + 2.0 * along * way.dy - y)

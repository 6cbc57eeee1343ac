"""Things on rows: taking some rows, putting rows together, standing in for rows that are not alive.

A drawn thing is a point, a line of any sort, a number array or an outline. These functions know the shape
of each, and nothing about drafting.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from tapewright.draft.bodies import Array, Mask, Rows
from tapewright.geometry import Arc, Circle, Curve, Point, Stretch, arc_curve, trimmed


@dataclass(frozen=True, slots=True, eq=False)
class Edge:
    """One edge of an outline: its letters, how it runs, and the line it is a piece of (-1: straight)."""

    start: str
    end: str
    drawn: Curve | Stretch
    line: int = -1
    name: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class OutlineRun:
    """A closed run of edges."""

    edges: tuple[Edge, ...]


DrawnLine = Curve | Stretch | Circle | Arc
Thing = Point | DrawnLine | Array | OutlineRun
T = TypeVar("T", bound=Thing)


def over(thing: Thing, change: Callable[[Array], Array]) -> Thing:
    """The same thing with every array in it changed; the bodies axis is the last of each."""
    match thing:
        case Point(x, y):
            return Point(change(x), change(y))
        case Curve(ctrl, is_straight):
            return Curve(change(ctrl), is_straight)
        case Stretch(curve, start, end):
            inner = over(curve, change)
            assert isinstance(inner, Curve)
            return Stretch(inner, change(start), change(end))
        case Circle(centre, radius):
            return Circle(Point(change(centre.x), change(centre.y)), change(radius))
        case Arc(centre, radius, start, turn):
            return Arc(Point(change(centre.x), change(centre.y)), change(radius), change(start), change(turn))
        case OutlineRun(edges):
            return OutlineRun(
                tuple(Edge(e.start, e.end, _drawn(over(e.drawn, change)), e.line, e.name) for e in edges)
            )
        case _:
            return change(thing)


def _drawn(thing: Thing) -> Curve | Stretch:
    assert isinstance(thing, Curve | Stretch)
    return thing


def arrays(thing: Thing) -> list[Array]:
    """Every array in a thing, in a fixed order."""
    found: list[Array] = []

    def note(a: Array) -> Array:
        found.append(a)
        return a

    over(thing, note)
    return found


def some(thing: Thing, rows: Rows) -> Thing:
    """Some rows of a thing."""
    return over(thing, lambda a: a[..., rows])


def stand_in(thing: Thing, alive: Mask) -> Thing:
    """The thing with a copy of the first living row wherever a row is not alive; some row must live."""
    first = int(np.argmax(alive))
    return over(thing, lambda a: np.where(alive, a, a[..., first : first + 1]))


def same(one: Thing, other: Thing) -> bool:
    """Whether two things are of one sort and equal bit for bit."""
    if type(one) is not type(other):
        return False
    if isinstance(one, OutlineRun) and isinstance(other, OutlineRun) and len(one.edges) != len(other.edges):
        return False
    first, second = arrays(one), arrays(other)
    return len(first) == len(second) and all(
        a.shape == b.shape and bool((a == b).all()) for a, b in zip(first, second, strict=True)
    )


def together(pieces: list[tuple[Thing, Rows]], count: int) -> Thing:
    """One thing of `count` rows from the rows of several; every row is in at most one of them.

    Curves of different numbers of segments are made equal with segments of no length at their ends.
    Rows in none of them are copies of the first row given.
    """
    outlines = [(thing, rows) for thing, rows in pieces if isinstance(thing, OutlineRun)]
    if len(outlines) == len(pieces) and len({len(o.edges) for o, _ in outlines}) == 1:
        return OutlineRun(
            tuple(_edges_together(k, outlines, count) for k in range(len(outlines[0][0].edges)))
        )
    pieces = [(_plain(thing), rows) for thing, rows in pieces]
    if any(isinstance(t, Curve) for t, _ in pieces):
        most = max(t.ctrl.shape[2] for t, _ in pieces if isinstance(t, Curve))
        pieces = [(_padded(t, most), rows) for t, rows in pieces]
    shapes = [arrays(t) for t, _ in pieces]
    if any(len(s) != len(shapes[0]) for s in shapes):
        raise ValueError("things of different sorts cannot be put together")
    position = 0

    def gather(a: Array) -> Array:
        nonlocal position
        out = np.repeat(a[..., :1], count, axis=-1)
        for (_, rows), own in zip(pieces, shapes, strict=True):
            out[..., rows] = own[position]
        position += 1
        return out

    merged = over(pieces[0][0], gather)
    if isinstance(merged, Curve):
        straight = all(isinstance(t, Curve) and t.is_straight for t, _ in pieces)
        return Curve(merged.ctrl, straight)
    return merged


def _edges_together(k: int, outlines: list[tuple[OutlineRun, Rows]], count: int) -> Edge:
    """One edge of several outlines; it goes by the letters and the line of the first."""
    edge = outlines[0][0].edges[k]
    drawn = together([(outline.edges[k].drawn, rows) for outline, rows in outlines], count)
    return Edge(edge.start, edge.end, _drawn(drawn), edge.line, edge.name)


def _plain(thing: Thing) -> Thing:
    """Arcs and stretches as curves, so that branches that draw a line differently can be put together."""
    if isinstance(thing, Arc):
        return arc_curve(thing)
    return trimmed(thing) if isinstance(thing, Stretch) else thing


def _padded(thing: Thing, segments: int) -> Thing:
    if not isinstance(thing, Curve) or thing.ctrl.shape[2] == segments:
        return thing
    end = thing.ctrl[3:, :, -1:, :]
    still = np.repeat(np.repeat(end, 4, axis=0), segments - thing.ctrl.shape[2], axis=2)
    return Curve(np.concatenate([thing.ctrl, still], axis=2))

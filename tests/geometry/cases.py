"""Lines to try the geometry on: scyes and necks with a random hand, one row or many."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, is_dataclass
from typing import Any

import numpy as np
from hypothesis import strategies as st
from numpy.typing import NDArray

from tapewright.geometry import Arc, Array, Circle, Curve, Drawn, Point, Stretch, fixed, spline, straight

SCYE = [(0.0, 0.0), (-18.0, 70.0), (-12.0, 118.0), (38.0, 165.0), (110.0, 178.0)]
NECK = [(-60.0, 40.0), (10.0, 55.0), (60.0, 90.0), (70.0, 190.0)]

coordinates = st.floats(-2000.0, 2000.0, allow_subnormal=False).map(lambda v: round(v, 6))
lengths = st.floats(0.0, 1000.0, allow_subnormal=False).map(lambda v: round(v, 6))
angles = st.floats(-7.0, 7.0, allow_subnormal=False).map(lambda v: round(v, 6))
places = st.tuples(coordinates, coordinates)


def one(*values: float) -> Array:
    """Numbers as rows."""
    return np.array(values, dtype=np.float64)


def at_place(place: tuple[float, float]) -> Point:
    """A point of one row."""
    return fixed(*place)


def knots(places: list[tuple[float, float]]) -> list[Point]:
    """Points of one row."""
    return [fixed(*p) for p in places]


def curve(places: list[tuple[float, float]]) -> Curve:
    """The curve through places, one row."""
    return spline(knots(places)).curve


def random_point(rng: np.random.Generator, bodies: int, near: tuple[float, float], spread: float) -> Point:
    """Points strewn about a place."""
    return Point(near[0] + rng.normal(0.0, spread, bodies), near[1] + rng.normal(0.0, spread, bodies))


def random_curve(
    rng: np.random.Generator, bodies: int, through: list[tuple[float, float]], spread: float = 10.0
) -> Curve:
    """Curves through places with a random hand."""
    return spline([random_point(rng, bodies, p, spread) for p in through]).curve


def random_straight(rng: np.random.Generator, bodies: int) -> Curve:
    """Straight lines about the scye."""
    return straight(
        random_point(rng, bodies, (0.0, 60.0), 80.0), random_point(rng, bodies, (60.0, 120.0), 80.0)
    )


def random_circle(rng: np.random.Generator, bodies: int) -> Circle:
    """Circles about the scye."""
    return Circle(random_point(rng, bodies, (30.0, 90.0), 60.0), rng.uniform(10.0, 150.0, bodies))


def random_arc(rng: np.random.Generator, bodies: int) -> Arc:
    """Arcs about the scye, some of them more than once round."""
    c = random_circle(rng, bodies)
    return Arc(c.centre, c.radius, rng.uniform(-4.0, 4.0, bodies), rng.uniform(-7.0, 7.0, bodies))


def random_stretch(rng: np.random.Generator, whole: Curve) -> Stretch:
    """Pieces of a curve, run either way; one row in twenty has no length."""
    n = float(whole.segments)
    start, end = rng.uniform(0.0, n, whole.bodies), rng.uniform(0.0, n, whole.bodies)
    end[::20] = start[::20]
    return Stretch(whole, start, end)


def rows_of(value: Any, index: NDArray[np.intp]) -> Any:
    """Some rows of anything whose last axis is the bodies axis."""
    if isinstance(value, np.ndarray):
        return value[..., index]
    if isinstance(value, list):
        return [rows_of(v, index) for v in value]
    if isinstance(value, dict):
        return {k: rows_of(v, index) for k, v in value.items()}
    if is_dataclass(value) and not isinstance(value, type):
        return type(value)(*(rows_of(getattr(value, f.name), index) for f in fields(value)))
    return value


def leaves(value: Any) -> list[NDArray[Any]]:
    """All arrays inside an answer, in order."""
    if isinstance(value, np.ndarray):
        return [value]
    if is_dataclass(value) and not isinstance(value, type):
        return [leaf for f in fields(value) for leaf in leaves(getattr(value, f.name))]
    return []


def samples(drawn: Drawn, count: int, row: int = 0) -> NDArray[np.float64]:
    """Places along one row of a drawn line, evenly by parameter, evaluated in plain numpy: `(count, 2)`."""
    whole = drawn.curve if isinstance(drawn, Stretch) else drawn
    t0 = drawn.start[row] if isinstance(drawn, Stretch) else 0.0
    t1 = drawn.end[row] if isinstance(drawn, Stretch) else float(whole.segments)
    t = np.linspace(t0, t1, count)
    index = np.minimum(t.astype(int), whole.segments - 1)
    u = (t - index)[:, None]
    p = whole.ctrl[:, :, index, row].transpose(0, 2, 1)
    out: NDArray[np.float64] = (
        p[0] * (1 - u) ** 3 + 3 * p[1] * u * (1 - u) ** 2 + 3 * p[2] * u**2 * (1 - u) + p[3] * u**3
    )
    return out


Call = Callable[..., Any]

"""The handbook lessons as lessons: they ask nothing, their checks hold, and geometry outside them agrees."""

from __future__ import annotations

from math import atan2, cos, hypot, pi, sin, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.diagnostics import Kind
from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.measures import Figure
from tests.handbooks.drafts import Drawn, Entry, drawn_entry, entries, lesson_names, lesson_source

INCH = 25.4


def entry_of(lesson: str) -> Drawn:
    """The first entry of a lesson."""
    return drawn_entry(next(e for e in entries() if e.lesson == lesson))


def drawn_with(lesson: str, chosen: dict[str, float] | None = None, **measures: float) -> Draft:
    """A lesson drawn for other measures and other values by eye, all in inches."""
    one = entry_of(lesson)
    values = {name: value.copy() for name, value in one.draft.bodies.values.items()}
    values |= {name.replace("_", " "): np.array([inches * INCH]) for name, inches in measures.items()}
    bodies = from_arrays(values or {"waist": np.array([700.0])}, Figure.CHILD)
    return evaluate(one.plan, bodies, {name: inches * INCH for name, inches in (chosen or {}).items()})


def at(draft: Draft, name: str) -> tuple[float, float]:
    """Where a letter stands, in inches."""
    point = draft.point(name)
    return float(point.x[0]) / INCH, float(point.y[0]) / INCH


# --- as lessons ----------------------------------------------------------------------------------------


def test_every_lesson_is_in_the_table() -> None:
    """No lesson lies in the folder unused, and none is asked for that is not there."""
    assert {e.lesson for e in entries()} == set(lesson_names())


@pytest.mark.parametrize("entry", entries(), ids=str)
def test_a_lesson_asks_nothing_and_its_checks_hold(entry: Entry) -> None:
    """On the book's own figure everything is drawn and every check holds.

    On a further sheet everything is drawn too; the checks that carry the first one's figures may fail there,
    and nothing else may be remarked.
    """
    one = drawn_entry(entry)
    # A book's figure is laced, and a hundred years older than the bodies of the surveys.
    known = {"measure-unknown", "value-unusual", "value-unlike-others"}
    assert [q.message for q in one.sheet_queries if q.name not in known] == []
    asked = [q for q in one.alone.queries() if entry.number == 0 or q.name != "check"]
    assert [q.message for q in asked] == []
    assert not any(q.kind is Kind.QUESTION for q in one.alone.queries())
    assert bool(one.alone.drawn()[0])
    assert bool(one.draft.drawn()[0])
    if entry.number == 0:
        assert [c.claim for c in one.alone.checks() if not c.holds[0]] == []


@pytest.mark.parametrize("entry", [e for e in entries() if e.rows], ids=str)
def test_a_lesson_names_the_works_of_its_rows(entry: Entry) -> None:
    """Whoever reads the lesson learns whose figures these are."""
    text = lesson_source(entry.lesson).text.casefold()
    for asked in entry.rows:
        first = asked.row.source.replace(",", " ").split()[0].casefold()
        assert first in text, asked.row.source
        if "not seen" in asked.row.source:
            assert any(said in text for said in ("not seen", "seen)", "no author")), asked.row.source


@pytest.mark.parametrize("chest", [24, 25, 26, 28, 30])
def test_the_boys_rules_give_the_printed_rows(chest: int) -> None:
    """Vincent 1898, p. 3: five rules give all 25 figures of the five rows that decode without doubt."""
    checks = drawn_with("vincents-boys", chest=chest).checks()
    assert len(checks) == 5
    assert [float(c.difference[0]) for c in checks] == pytest.approx([0.0] * 5, abs=1e-12)


# --- against geometry worked out here ------------------------------------------------------------------


@given(top=st.floats(30, 90), more=st.floats(4, 40), depth=st.floats(8, 20))
def test_a_flounce_is_a_piece_of_a_ring(top: float, more: float, depth: float) -> None:
    """Elementary geometry: a ring's piece turns by what its edges differ over what its radii differ."""
    turn = more / depth
    radius = top / turn
    if not 0.1 < turn < 6.1:
        return
    draft = drawn_with("a-round-flounce", {"top": top, "bottom": top + more, "depth": depth})
    assert float(draft.amount("opening")[0]) == pytest.approx(turn, rel=1e-9)
    kx, ky = at(draft, "K")
    assert (kx, ky) == pytest.approx((0.0, -radius), rel=1e-9, abs=1e-9)
    for name, r in (("E", radius), ("F", radius + depth), ("E2", radius), ("F2", radius + depth)):
        # From below the pivot toward the left, y down the paper.
        assert at(draft, name) == pytest.approx((-r * sin(turn), ky + r * cos(turn)), abs=1e-6), name


def crossing(
    one: tuple[float, float], r: float, other: tuple[float, float], s: float
) -> list[tuple[float, float]]:
    """Where two circles cross, by the radical line (elementary geometry); the upper one first."""
    dx, dy = other[0] - one[0], other[1] - one[1]
    d = hypot(dx, dy)
    a = (d * d + r * r - s * s) / (2 * d)
    h = sqrt(r * r - a * a)
    mx, my = one[0] + a * dx / d, one[1] + a * dy / d
    return sorted(
        [(mx + h * dy / d, my - h * dx / d), (mx - h * dy / d, my + h * dx / d)], key=lambda p: p[1]
    )


@pytest.mark.parametrize(("waist", "hip"), [(24, 34), (28, 38), (30, 43), (36, 48)])
def test_the_hip_point_of_a_girdle(waist: float, hip: float) -> None:
    """Rosenfeld's swung ruler: the lower crossing of two circles, for other wearers than the book's."""
    draft = drawn_with("a-girdle-of-the-1920s", waist=waist, hip=hip)
    wanted = crossing((waist / 2 + 3, -2), 6, (0, 6), hip / 2)[1]
    assert at(draft, "M7") == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize("chest", [24, 28, 32, 36, 40, 44])
def test_vincents_neck_point(chest: float) -> None:
    """The method of two sweeps: the upper crossing of two circles; the shoulder's end, of two more."""
    draft = drawn_with("a-neck-point-by-two-sweeps", chest=chest)
    fx = chest / 2 + 1
    r = (fx - (chest / 4 - 1), 0.0)
    part = chest / 48
    near = chest / 4 + 3.5 - 3.5 * part
    m = crossing(r, near, (fx, 1.5 * part), near + 0.5 * part)[0]
    assert at(draft, "M") == pytest.approx(m, abs=1e-9)
    ends = crossing(m, 6 * part, r, chest / 3 + 5 - 12.5 * part)
    u = max(ends, key=lambda p: hypot(p[0] - fx, p[1]))
    assert at(draft, "U") == pytest.approx(u, abs=1e-9)
    # Behind the neck point, and lower: a shoulder that slopes, as any does.
    assert u[0] < m[0]
    assert 0.05 < atan2(u[1] - m[1], m[0] - u[0]) < 0.6


@pytest.mark.parametrize("chest", [30, 35, 44, 52])
def test_hertzers_chord_and_triangle(chest: float) -> None:
    """A chord is twice the radius by the sine of half the angle; three equal sides in a circle are its
    width by half the root of three.
    """
    unit = (chest / 2 + 2.5) / 20
    draft = drawn_with("hertzers-twentieths", chest=chest)
    (bx, by), (cx, cy) = at(draft, "B"), at(draft, "C")
    assert hypot(bx - cx, by - cy) == pytest.approx(2 * 20 * unit * sin(pi / 24), rel=1e-12)
    corners = [at(draft, letter) for letter in ("D", "F", "G")]
    for (x, y), (u, v) in ((corners[0], corners[1]), (corners[1], corners[2]), (corners[2], corners[0])):
        assert hypot(x - u, y - v) == pytest.approx(40 * unit * sqrt(3) / 2, rel=1e-9)


@pytest.mark.parametrize(("bust", "increase"), [(32, 3), (36, 5), (44, 8)])
def test_a_shirt_makes_up_the_half(bust: float, increase: float) -> None:
    """Baldt: the back has a quarter of the increased bust less two inches, so the front has the rest, which
    is four inches more.
    """
    draft = drawn_with("the-widths-of-a-shirt", {"increase": increase}, bust=bust)
    d, u, v, f = (at(draft, letter)[0] for letter in ("D", "U", "V", "F"))
    assert (u - d) + (f - v) == pytest.approx((bust + increase) / 2, rel=1e-12)
    assert u == pytest.approx(v, abs=1e-9)
    assert (f - v) - (u - d) == pytest.approx(4.0, rel=1e-12)


@pytest.mark.parametrize(("waist", "hip"), [(20, 34), (24, 39), (31, 44)])
def test_nine_gores_make_up_waist_and_hips(waist: float, hip: float) -> None:
    """Ingalls: the gores of the half add up to the half waist, and at the hips to the half hip."""
    draft = drawn_with("a-skirt-of-nine-gores", waist=waist, hip=hip)

    def wide(a: str, b: str) -> float:
        return at(draft, b)[0] - at(draft, a)[0]

    assert wide("A", "A1") + 3 * wide("D", "D1") + wide("H", "H1") == pytest.approx(waist / 2, rel=1e-12)
    assert wide("B", "B1") + 3 * wide("F", "F1") + wide("K1", "K") == pytest.approx(hip / 2, rel=1e-12)


def test_rosenfelds_square_marks_the_end_of_the_shoulder() -> None:
    """The corner is the foot of the back width's mark on the slope, by the formula for a foot."""
    draft = drawn_with("a-shirt-waist-of-1911")
    (lx, ly), (jx, jy), (ix, iy) = (at(draft, letter) for letter in ("L", "J", "I"))
    along = ((ix - lx) * (jx - lx) + (iy - ly) * (jy - ly)) / ((jx - lx) ** 2 + (jy - ly) ** 2)
    assert at(draft, "M") == pytest.approx((lx + along * (jx - lx), ly + along * (jy - ly)), abs=1e-9)
    assert at(draft, "I") == pytest.approx((7.25, 7.0), abs=1e-9)
    assert at(draft, "F") == pytest.approx((15.0, 7.0), abs=1e-9)

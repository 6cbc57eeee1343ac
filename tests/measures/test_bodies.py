"""Bodies that handbooks print, read as a company's table and looked over: `bodies.csv`, whose head names the books."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from tapewright.diagnostics import Source
from tapewright.measures import (
    Company,
    Sheet,
    base,
    catalogue,
    estimate,
    odd_ones,
    read_company,
    write_company,
)
from tapewright.units import INCH

TABLE = Path(__file__).with_name("bodies.csv")


@cache
def company() -> Company:
    return read_company(Source("bodies.csv", TABLE.read_text(encoding="utf-8")))


def inches(sheet: Sheet, name: str) -> Fraction:
    """A measure in inches, exactly."""
    value = sheet.value(name)
    assert value is not None
    return base(value) / INCH.mm


def body(name: str) -> Sheet:
    return next(w.sheet for w in company().wearers if w.sheet.wearer == name)


BOYS = [f"a boy of {age}" for age in (4, 5, 6, 10, 12)]


def test_every_printed_body_is_read_and_nothing_is_asked_of_it() -> None:
    """Nine bodies, none rejected, and not a caution among them: what books print are bodies that people had."""
    assert len(company().wearers) == 9
    assert not company().waits
    assert [w.sheet.wearer for w in company().wearers if w.queries] == []


@pytest.mark.parametrize("name", BOYS)
def test_the_boys_come_out_as_vincent_prints_them(name: str) -> None:
    """Vincent 1898, p.3: in every row the scye depth is a quarter of the chest and 1/4 in, the seat the chest and an
    inch, the waist half the chest and 12 in, half across the chest a quarter of it less 3/4 in, and the front shoulder
    a quarter of it and 3 1/2 in, exactly.
    """
    boy = body(name)
    chest = inches(boy, "chest")
    assert inches(boy, "scye depth") == chest / 4 + Fraction(1, 4)
    assert inches(boy, "seat") == chest + 1
    assert inches(boy, "waist") == chest / 2 + 12
    assert inches(boy, "half across chest") == chest / 4 - Fraction(3, 4)
    assert inches(boy, "front shoulder") == chest / 4 + Fraction(7, 2)


def test_heights_in_feet_and_inches() -> None:
    """Vincent 1898, p.3: the boy of 12 stands 4 ft 11 in, which is 59 in."""
    assert inches(body("a boy of 12"), "height") == 59
    assert inches(body("a boy of 5"), "stature") == 48


def test_a_man_of_36_as_vincent_prints_him() -> None:
    """Vincent c.1903, leaf 39: scye depth 1/6 of the chest and 3, half across 1/4 less 1, over shoulder 1/3 and 5. The
    front shoulder by its rule is 12 1/2 and printed 12. All of his lie in the ordinary ranges of the catalogue, two of
    which rest on memory.
    """
    man = body("a man of 36")
    chest = inches(man, "chest")
    assert inches(man, "scye depth") == chest / 6 + 3
    assert inches(man, "half across chest") == chest / 4 - 1
    assert inches(man, "over shoulder") == chest / 3 + 5
    assert inches(man, "front shoulder") == chest / 4 + Fraction(7, 2) - Fraction(1, 2)
    for name, entry in man.entries.items():
        value = entry.value()
        assert value is not None
        if name in catalogue():
            assert catalogue()[name].low <= base(value) <= catalogue()[name].high


def test_what_vincents_man_has_lies_in_the_range_of_the_estimates() -> None:
    """From his chest and waist alone nine in ten men have a nape to waist and a scye depth about his 17 and 9 in."""
    man = body("a man of 36")
    known = replace(man, entries={n: e for n, e in man.entries.items() if n in {"chest", "waist"}})
    for name, made in estimate(known, ["nape to waist", "scye depth"]).items():
        assert made.low <= float(inches(man, name) * INCH.mm) <= made.high


def test_rosenfelds_woman_of_36_is_a_woman_in_a_corset() -> None:
    """Rosenfeld 1911 and 1918: bust size and 3, waist size less a third of it less 1, hip waist and half the size. Over a
    corset nothing is said of that; as a body's own the waist of 25 in stands six spreads from what goes with the rest.
    """
    woman = body("a woman of 36")
    assert [inches(woman, n) for n in ("bust", "waist", "hip")] == [39, 36 - (12 - 1), 25 + 18]
    assert odd_ones(woman) == ((), frozenset())
    (odd,), _ = odd_ones(replace(woman, over=()))
    assert odd.name == "waist"
    assert odd.misfit < -5


def test_the_skirt_wearers_divide_as_the_books_divide_them() -> None:
    """Bennett 1914: five gores of 5 in at the waist and 8 at the hip. Ingalls 1911: 24 and 39."""
    five, nine = body("a wearer of a five-gored skirt"), body("a wearer of a nine-gored skirt")
    assert [inches(five, "waist") / 5, inches(five, "hips") / 5] == [5, 8]
    assert [inches(nine, "waist"), inches(nine, "hips")] == [24, 39]


def test_written_and_read_again_they_are_the_same() -> None:
    """Sent out in inches and brought in again every value is exactly what the book printed."""
    sheets = [w.sheet for w in company().wearers]
    again = read_company(Source("again.csv", write_company(sheets, INCH)))
    assert not again.rejected
    for one, other in zip(sheets, (w.sheet for w in again.wearers), strict=True):
        assert {n: one.number(n) for n in one.entries} == {n: other.number(n) for n in other.entries}

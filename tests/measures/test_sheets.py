"""Measure sheets: what is read, exactly, and that it is written so that it reads the same again."""

from __future__ import annotations

import math
from datetime import date
from fractions import Fraction
from importlib.resources import files

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.diagnostics import Source
from tapewright.measures import (
    Entry,
    Figure,
    Layer,
    Reading,
    Sheet,
    base,
    catalogue,
    measure_called,
    read_sheet,
    same_layers,
    sheet_source,
    show,
    write_sheet,
)
from tapewright.units import CM, INCH, MM, Angle, Length, UnitKind, Weight, show_fraction
from tests.survey import STAND_INS, Sex, columns, survey

F = Fraction

FULL = """\
wearer: Anna Holt
figure: woman
date: 2026-03-14
over:
  - a shift
  - {layer: petticoat, thickness: 3 mm}
unit: cm
measures:
  bust: 91.1
  high bust: [88.6, 89]
  waist: 27 1/2 in
  arm: 57,5
  shoulder: {left: 13, right: [12.5, 12.6]}
  shoulder slope: 22 1/2
  stature: 5 ft 4 1/2 in
  weight: 61.8
  shoulder drop: -5 mm
  waist to floor: {front: 104, back: 105.5}
notes:
  - one shoulder is lower
  - "breath: quiet"
"""


def clean(text: str) -> Sheet:
    """The sheet of a text that gives no query but a note."""
    sheet, queries = read_sheet(Source("a sheet", text))
    assert not [q for q in queries if q.kind != "note"]
    assert sheet is not None
    return sheet


def test_a_full_sheet_is_read_exactly() -> None:
    """Every line of the form is read, lengths as exact fractions of a millimetre."""
    sheet = clean(FULL)
    assert (sheet.wearer, sheet.figure, sheet.date) == ("Anna Holt", Figure.WOMAN, date(2026, 3, 14))
    assert sheet.over is not None
    assert same_layers(sheet.over, ["petticoat", "shift"])
    assert sheet.over[1] == Layer("petticoat", F(3))
    assert sheet.notes == ("one shoulder is lower", "breath: quiet")
    values = {name: sheet.value(name) for name in sheet.entries}
    assert values["bust"] == Length(F(911), CM)
    assert values["high bust"] == Length(F(888), CM)  # the mean of two readings
    assert values["waist"] == Length(F(1397, 2), INCH)
    assert values["arm"] == Length(F(575), CM)  # a decimal comma
    assert values["shoulder slope"] == Angle(F(45, 2))
    assert values["stature"] == Length(F(129, 2) * F(127, 5), values["stature"].unit)  # type: ignore[union-attr]
    assert values["weight"] == Weight(F(309, 5))
    assert values["shoulder drop"] == Length(F(-5), MM)
    assert sheet.number("bust") == 911.0
    assert sheet.number("shoulder slope") == math.pi / 8
    assert sheet.number("weight") == 61.8
    assert sheet.number("hip") is None


def test_sides_stand_in_for_each_other_but_not_front_and_back() -> None:
    """A side asked for is that side, else the bare value, else the other; without one, the mean."""
    sheet = clean(FULL)

    def mm(name: str, side: str | None = None) -> Fraction | None:
        value = sheet.value(name, side)
        return None if value is None else base(value)

    assert mm("shoulder", "left") == 130
    assert mm("shoulder", "right") == F(251, 2)
    assert mm("shoulder") == F(511, 4)
    assert mm("bust", "left") == 911
    assert mm("waist to floor", "back") == 1055
    assert mm("waist to floor", "left") is None
    assert mm("waist to floor") is None
    one = clean("wearer: A\nunit: cm\nmeasures: {arm: {right: 57}}")
    assert one.number("arm", "left") == one.number("arm") == 570
    assert not one.has_sides("arm")
    assert sheet.has_sides("shoulder")


def test_a_sheet_may_say_little() -> None:
    """A wearer is enough; a figure is not asked for when neither bust nor chest is used."""
    sheet = clean("wearer: Anna Holt\nmeasures:\n  waist: 27 1/2 in\n")
    assert sheet.figure is None
    assert sheet.over is None
    assert sheet.unit is None
    assert sheet.number("waist") == 698.5
    assert clean("wearer: Anna Holt").entries == {}
    assert clean("wearer: Anna Holt\nover: nothing").over == ()


def test_a_childs_sheet_may_say_bust_or_chest_and_is_not_judged_by_grown_ranges() -> None:
    """Vincent's boy of 4 (The Cutter's Practical Guide, 1898, p.3): chest 24, waist 24, leg 18, no query.

    Of the 13 columns of that row, those our catalogue has under the same meaning.
    """
    sheet = clean(
        "wearer: a boy of 4\nfigure: child\nunit: in\nmeasures:\n  chest: 24\n  waist: 24\n  hip: 25\n"
        "  scye depth: 6 1/4\n  nape to waist: 11 3/4\n  leg: 18\n  stature: 3 ft 9 in\n"
    )
    assert sheet.value("scye depth") == Length(F(25, 4) * INCH.mm, INCH)
    assert sheet.number("stature") == 1143


@pytest.mark.parametrize(
    ("file", "sex", "row", "wearer"),
    [
        ("margery-thorne", Sex.WOMEN, 1409, "Margery Thorne"),
        ("josiah-pell", Sex.MEN, 1031, "Josiah Pell"),
    ],
)
def test_the_demonstration_wearers_are_one_row_each_of_the_trial_half(
    file: str, sex: Sex, row: int, wearer: str
) -> None:
    """Each demonstration sheet has no query, says its row, and holds it to the millimetre (ANSUR 1988)."""
    data = (files("tapewright") / "library" / "figures" / f"{file}.yaml").read_bytes()
    source = sheet_source(file, data)
    assert isinstance(source, Source)
    assert f"row {row} (counted from" in source.text
    assert row % 2 == 1
    sheet = clean(source.text)
    assert sheet.wearer == wearer
    assert len(sheet.entries) >= 45
    for name in sheet.entries:
        taken = sheet.number(name)
        there = float(survey(sex)[name][row])
        assert taken is not None
        within = {UnitKind.LENGTH: 0.5, UnitKind.ANGLE: math.radians(0.051), UnitKind.WEIGHT: 0.051}
        assert abs(taken - there) <= within[catalogue()[name].kind]


def test_the_woman_of_the_demonstration_goes_together() -> None:
    """What her sheet's head claims of her, from the row itself (ANSUR 1988).

    The half width of the neck is taken as a sixth of the neck base (Baldt 1916, with 5 mm for the root).
    """
    row = {name: float(column[1409]) for name, column in survey(Sex.WOMEN).items()}
    assert row["bust"] - row["high bust"] == 56
    assert round(100 * row["scye girth"] / row["bust"]) == 41
    reach = row["neck base"] / 6 + 5 + row["shoulder"] * math.cos(row["shoulder slope"])
    assert 5 < reach - row["cross back"] / 2 < 15
    assert row["stature"] < float(np.median(survey(Sex.WOMEN)["stature"]))
    assert "strap_lnth" in columns(Sex.WOMEN)
    assert "rise" in STAND_INS


def test_bytes_become_a_source_or_a_query() -> None:
    """UTF-8 with or without a mark and UTF-16 with one are read; other bytes are a question."""
    for data in (FULL.encode(), b"\xef\xbb\xbf" + FULL.encode(), FULL.encode("utf-16")):
        source = sheet_source("a sheet", data)
        assert isinstance(source, Source)
        assert source.text == FULL
    for data, name in (
        (b"\xff\xd8\xff\xe0\x00\x10JFIF", "sheet-not-text"),
        (b"a" * 2_000_000, "sheet-too-large"),
    ):
        query = sheet_source("a sheet", data)
        assert not isinstance(query, Source)
        assert (query.name, query.kind, query.source) == (name, "question", "a sheet")


# Round trips

plain_texts = st.text(
    st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Zl", "Zp", "Cn", "Co")), min_size=1
)
texts = plain_texts.map(lambda t: " ".join(t.split())).filter(
    lambda t: t and "\ufeff" not in t and "\ufffd" not in t
)


@st.composite
def readings(draw: st.DrawFn, name: str) -> Reading:
    """A value that nobody would ask about, written in one of the ways it may be written."""
    measure = catalogue()[name]
    share = F(draw(st.integers(0, 100)), 100)
    value = measure.low + share * (measure.high - measure.low)
    sure = draw(st.booleans())
    if measure.kind is UnitKind.ANGLE:
        angle = Angle(F(round(value * 2), 2))
        return Reading(angle, f"{show_fraction(angle.degrees)} degrees", sure)
    if measure.kind is UnitKind.WEIGHT:
        return Reading(Weight(F(round(value))), f"{round(value)} kg", sure)
    if value < 0 or draw(st.booleans()):
        return Reading(Length(F(round(value)), MM), f"{round(value)} mm", sure)
    eighths = F(round(value / INCH.mm * 8), 8)
    return Reading(Length(eighths * INCH.mm, INCH), f"{show_fraction(eighths)} in", sure)


@st.composite
def entries(draw: st.DrawFn, name: str) -> Entry:
    """One measure with one reading, several, or sides."""
    measure = measure_called(name)
    assert measure is not None
    several = st.lists(readings(name), min_size=1, max_size=3).map(tuple)
    apart: bool = draw(st.booleans())
    if apart and measure.sides:
        sides = draw(st.lists(st.sampled_from(measure.sides), min_size=1, unique=True))
        return Entry(name, measure, {side: draw(several) for side in sides})
    return Entry(name, measure, {"": draw(several)})


_NAMES = sorted(n for n, m in catalogue().items() if n != "chest" and m.may_be == "positive")


@st.composite
def sheets(draw: st.DrawFn) -> Sheet:
    """A sheet of any wearer."""
    names = draw(st.lists(st.sampled_from(_NAMES), max_size=6, unique=True))
    layers = st.builds(
        Layer, st.sampled_from(["a shift", "stays"]), st.none() | st.fractions(1, 20, max_denominator=8)
    )
    return Sheet(
        wearer=draw(texts),
        figure=draw(st.sampled_from([Figure.WOMAN, Figure.CHILD])),
        date=draw(st.none() | st.dates(date(1000, 1, 1))),
        over=None if draw(st.booleans()) else tuple(draw(st.lists(layers, max_size=3))),
        unit=draw(st.sampled_from([None, CM, MM, INCH])),
        entries={name: draw(entries(name)) for name in names},
        notes=tuple(draw(st.lists(texts, max_size=2))),
        estimate_from=draw(st.sampled_from([None, "women", "men", "both"])),
    )


@given(sheets())
def test_a_sheet_written_and_read_again_is_the_same(sheet: Sheet) -> None:
    """Writing loses nothing and asks nothing: any wearer's name, notes, sides, readings and units."""
    text = write_sheet(sheet)
    again, queries = read_sheet(Source("again", text))
    assert not [q for q in queries if q.kind == "question"]
    assert again == sheet
    assert write_sheet(again) == text


def test_what_is_shown_of_a_value() -> None:
    """Values are shown both ways, angles in degrees, weights in kilograms."""
    assert show(Length(F(911), CM)) == "91.1 cm (35 7/8 in)"
    assert show(Angle(F(26))) == "26 degrees"
    assert show(Weight(F(309, 5))) == "61.8 kg"

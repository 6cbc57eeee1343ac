"""Sheets once more: notes beside measures, other words, old units, and layers that are thick."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tapewright.diagnostics import Query, Source
from tapewright.measures import Sheet, lent, read_sheet, write_sheet
from tapewright.units import INCH, YARD

HEAD = "wearer: Anna Holt\nfigure: woman\nunit: cm\nmeasures:\n"


def read(line: str, head: str = HEAD) -> tuple[Sheet, tuple[Query, ...]]:
    """A sheet of one line."""
    sheet, queries = read_sheet(Source("s", f"{head}  {line}\n"))
    assert sheet is not None
    return sheet, queries


@pytest.mark.parametrize(
    ("line", "note", "mm"),
    [
        ("calf: {taken: 36.4, note: swollen in the evening}", "swollen in the evening", 364),
        ("calf: {taken: [36.4, 36.6], note: twice}", "twice", 365),
        ("calf: {left: 36, right: 37, note: left is lame}", "left is lame", 365),
        ('calf: {taken: 36 as taken, note: "so: it is"}', "so: it is", 360),
        ("calf: {taken: 36}", "", 360),
    ],
)
def test_a_note_stands_beside_a_measure(line: str, note: str, mm: int) -> None:
    """It is kept with the value, written again, and read as the same."""
    sheet, queries = read(line)
    assert not [q for q in queries if q.kind == "question"]
    assert sheet.entries["calf"].note == note
    assert sheet.number("calf") == mm
    again, _ = read_sheet(Source("again", write_sheet(sheet)))
    assert again == sheet


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("calf: {note: swollen}", "value-not-a-number"),
        ("calf: {taken: 36, left: 36}", "sheet-shape"),
        ("calf: {taken: 36, note: [a, b]}", "sheet-shape"),
        ("calf: {taken: 36, taken: 37}", "sheet-shape"),
    ],
)
def test_slips_in_a_note_are_asked_about(line: str, name: str) -> None:
    """No value beside the note, a value and sides at once, a list for a note."""
    _, queries = read(line)
    assert [q.name for q in queries] == [name]


def test_another_word_is_read_as_its_measure_and_the_name_offered() -> None:
    """`Hips` is the hip, told in a note that offers the name; asked for by either word it is the one value."""
    sheet, queries = read("hips: 98")
    assert [(str(q.kind), q.name, [a.replace for a in q.answers]) for q in queries] == [
        ("note", "measure-other-word", ["hip"])
    ]
    assert list(sheet.entries) == ["hip"]
    assert sheet.number("hips") == sheet.number("Hip") == 980
    assert "  hip: 98" in write_sheet(sheet)


def test_another_word_brings_all_that_the_measure_has() -> None:
    """Ranges, sides and the figure's own word come with it: a hip of 980 cm waits, and a woman's breast is asked about."""
    assert [q.name for q in read("hips: 980")[1]] == ["value-impossible"]
    assert [q.name for q in read("natural waist: {left: 35, right: 36}")[1]] == ["side-unknown"]
    sheet, queries = read("breast: 98")
    assert [q.name for q in queries] == ["bust-or-chest"]
    assert not sheet.entries


@pytest.mark.parametrize("lines", ["hip: 98\n  hips: 99", "hips: 98\n  hip: 99", "hips: 98\n  seat: 99"])
def test_one_measure_under_two_words_is_asked_about_once(lines: str) -> None:
    """Two words for one measure on one sheet are one question, and neither value is used."""
    sheet, queries = read(lines)
    assert [q.name for q in queries] == ["sheet-twice"]
    assert "hip" in sheet.waiting
    assert sheet.number("hips") is None


def test_a_word_for_several_measures_waits() -> None:
    """`Waist line` may be any of three waists: a question with three answers, and no value till it is settled."""
    sheet, queries = read("waist line: 70")
    (query,) = queries
    assert (str(query.kind), query.name) == ("question", "measure-which")
    assert [a.replace for a in query.answers] == ["waist", "navel waist", "high waist"]
    assert sheet.number("waist line") is None
    assert "waist line" in sheet.waiting


@pytest.mark.parametrize(
    ("value", "mm"),
    [
        ("1/3 vara", Fraction(278_635, 1000)),
        ("16 dedos", Fraction(278_635, 1000)),
        ("5 nails", 5 * YARD.mm / 16),
        ("1 quarter 1 nail", 5 * YARD.mm / 16),
    ],
)
def test_a_value_may_be_in_an_old_unit(value: str, mm: Fraction) -> None:
    """A sleeve by the vara or the nail, exact; sizes from the Castilian standard and Potts."""
    sheet, queries = read(f"hand: {value} as taken")
    assert queries == ()
    found = sheet.value("hand")
    assert found is not None
    assert found.mm == mm  # type: ignore[union-attr]


def test_an_old_unit_may_be_the_sheets() -> None:
    """Bare lengths are in it; a word that named several lengths is asked about."""
    sheet, _ = read("arm: 5/8", HEAD.replace("cm", "English ell"))
    assert sheet.number("arm") == float(Fraction(5, 8) * 45 * INCH.mm)
    _, queries = read("arm: 5/8", HEAD.replace("cm", "ell"))
    assert [q.name for q in queries] == ["sheet-unit"]
    assert "Paris ell" in [a.replace for a in queries[0].answers]
    _, queries = read("arm: 5/8 aune")
    assert [q.name for q in queries] == ["value-unit"]
    assert {a.replace for a in queries[0].answers} == {"Paris ell", "Paris ell of 1748"}


def test_a_bust_works_in_a_mans_coat_where_the_sheet_says_so() -> None:
    """With `estimate from: men` a chest is wanted and the bust is it; without, the sheet is as it was."""
    said, _ = read("bust: 95.4", HEAD.replace("unit", "estimate from: men\nunit"))
    found, note = lent(said, ["chest", "waist"])
    assert found.number("chest") == said.number("bust") == 954
    assert note is not None
    assert (str(note.kind), note.name) == ("note", "bust-for-chest")
    assert lent(said, ["bust"]) == (said, None)
    assert lent(said, ["bust", "chest"]) == (said, None)
    plain, _ = read("bust: 95.4")
    assert lent(plain, ["chest"]) == (plain, None)
    man, _ = read("chest: 101", HEAD.replace("woman", "man").replace("unit", "estimate from: both\nunit"))
    assert lent(man, ["bust"])[0].number("bust") == 1010

"""A company's table: what is understood, what is rejected and why, and that nothing is taken by halves."""

from __future__ import annotations

import time
from fractions import Fraction

import numpy as np
import pytest
from fitting.file import TWENTY
from hypothesis import given
from hypothesis import strategies as st

from tapewright.diagnostics import Source, known_names
from tapewright.measures import (
    Company,
    Figure,
    Layer,
    base,
    read_company,
    read_sheet,
    what_it_holds,
    write_company,
    write_sheet,
)
from tapewright.measures.grid import read_grid
from tapewright.units import CM, INCH, MM
from tests.survey import Half, Sex, survey

TABLE = """\
# a remark
Name;Sex;Hips (cm);Bust, cm;bust 2 (cm);Shoulder left (cm);shoulder_right (cm);height in;phone;Worn beneath
Anna Holt;F;98,5;91;91,4;13;12,6;65 1/2;123;a shift and petticoat (3 mm)
Bess Field;f;101;97;;13;13;64;9;nothing
"""


def read(text: str, **how: object) -> Company:
    """The company of a text; what must hold of every query is checked on the way."""
    source = Source("company.csv", text)
    company = read_company(source, **how)  # type: ignore[arg-type]
    for query in (*company.queries, *(q for w in company.wearers for q in w.queries)):
        assert query.name in known_names()
        assert query.source == "company.csv"
        if query.span is not None:
            assert 0 <= query.span.start <= query.span.end <= len(text)
    return company


def test_columns_are_known_by_other_words_units_and_sides() -> None:
    """Semicolons, decimal commas, another word, units in headings, two readings, two sides, a layer's thickness."""
    company = read(TABLE)
    assert [c.words() for c in company.columns] == [
        "the wearer", "the figure", "the hip, in cm", "the bust, in cm", "the bust, second reading, in cm",
        "the left shoulder, in cm", "the right shoulder, in cm", "the stature, in inches", "passed over",
        "what is worn beneath",
    ]  # fmt: skip
    assert [q.name for q in company.queries] == ["import-column-passed-over"]
    anna = company.wearers[0].sheet
    assert (anna.wearer, anna.figure) == ("Anna Holt", Figure.WOMAN)
    assert anna.over == (Layer("a shift"), Layer("petticoat", Fraction(3)))
    assert anna.number("hip") == 985
    assert anna.number("bust") == 912
    assert anna.number("shoulder", "right") == 126
    assert anna.number("stature") == 1663.7
    assert not company.rejected


def test_what_was_pasted_and_a_table_on_its_side_are_read() -> None:
    """Tabs part the cells; measures down the side and a wearer a column give the same sheets."""
    upright = "name\tfigure\tbust (in)\twaist (in)\nAnna\twoman\t36 1/2\t28\nBess\twoman\t38\t30\n"
    lying = "name\tAnna\tBess\nfigure\twoman\twoman\nbust (in)\t36 1/2\t38\nwaist (in)\t28\t30\n"
    sheets = [w.sheet for w in read(upright).wearers]
    assert sheets == [w.sheet for w in read(lying).wearers]
    assert [s.number("bust") for s in sheets] == [927.1, 965.2]


def test_a_heading_that_may_mean_several_measures_is_asked_about_and_settled() -> None:
    """Nothing is to be kept until it is; `told` settles it, or leaves the column out."""
    text = "wearer,waist line (cm),hip (cm)\nAnna,70,96\n"
    company = read(text)
    assert company.waits
    assert [q.name for q in company.queries] == ["import-which-column"]
    settled = read(text, told={"waist line (cm)": "waist"})
    assert not settled.waits
    assert settled.wearers[0].sheet.number("waist") == 700
    left_out = read(text, told={"Waist  line (cm)": "nothing"})
    assert list(left_out.wearers[0].sheet.entries) == ["hip"]
    assert read(text, told={"waist line (cm)": "wiast"}).waits


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("", "import-no-table"),
        ("wearer,bust\n", "import-no-table"),
        ('wearer,"bust\nAnna,91\n', "import-no-table"),
        ("who is it,bust (cm)\nAnna,91\n", "import-no-wearers"),
        ("wearer,hips (cm),hip girth (cm)\nAnna,96,97\n", "import-column-twice"),
    ],
)
def test_a_table_that_cannot_be_taken_says_why(text: str, name: str) -> None:
    """No rows, a quote never closed, nobody's column, one measure in two columns."""
    company = read(text)
    assert name in [q.name for q in company.queries]
    assert company.waits


ROW = "{},woman,{},70,96\n"
FAULTS = [
    ("Anna,woman,ninety,70,96\n", "value-not-a-number"),
    ("Anna,woman,0,70,96\n", "value-not-positive"),
    ("Anna,woman,-91,70,96\n", "value-not-positive"),
    ("Anna,woman,910,70,96\n", "value-impossible"),
    ("Anna,woman,91 cm 3 in,70,96\n", "value-unit"),
    ("Anna,woman,91 kg,70,96\n", "value-unit"),
    ("Anna,lady,91,70,96\n", "sheet-choice"),
    (",woman,91,70,96\n", "sheet-for-nobody"),
    ("Anna,woman,91,5,70,96\n", "import-row"),
    ("Anna,woman,,,\n", "import-row"),
    ("Bess,woman,91,70,96\n", "import-wearer-twice"),
    ("Anna,man,91,70,96\n", "bust-or-chest"),
]


@pytest.mark.parametrize(("row", "name"), FAULTS)
def test_a_row_with_a_fault_is_rejected_with_its_reason(row: str, name: str) -> None:
    """Text, nothing, less than nothing, absurd, two units, a weight, nobody, too many cells, twice: by the row's line."""
    company = read(f"wearer,figure,bust (cm),waist (cm),hip (cm)\nBess,woman,98,74,101\n{row}")
    assert [w.rejected for w in company.wearers] == [False, True]
    rejected = company.wearers[1]
    questions = [q for q in rejected.queries if q.kind == "question"]
    assert [q.name for q in questions] == [name]
    assert (
        Source("", f"wearer,figure,bust (cm),waist (cm),hip (cm)\nBess,woman,98,74,101\n{row}")
        .place(rejected.place.start)
        .line
        == 3
    )


def test_one_column_serves_women_and_men() -> None:
    """`bust/chest` is the bust of women and the chest of men; a bare bust on a man's row is asked about."""
    company = read("name,figure,Bust/chest (cm)\nAnna,f,91\nCy,m,99\n")
    assert [list(w.sheet.entries) for w in company.wearers] == [["bust"], ["chest"]]
    assert not company.rejected


def test_units_and_figures_may_be_said_for_all() -> None:
    """Where neither heading nor value has a unit it is asked for, row by row, unless one is given for all."""
    text = "wearer,waist,hip\nAnna,70,96\nBess,28 in,38 in\n"
    assert [w.rejected for w in read(text).wearers] == [True, False]
    company = read(text, unit="cm", figure=Figure.WOMAN)
    assert not company.rejected
    assert [w.sheet.number("waist") for w in company.wearers] == [700, 711.2]
    assert company.wearers[0].sheet.figure is Figure.WOMAN


def test_a_measure_of_ones_own_is_kept_where_its_heading_has_a_unit() -> None:
    """It is told once for the column and not for every row."""
    company = read("wearer,cuff opening (cm),waist (cm)\nAnna,22,70\nBess,23,71\n")
    assert [q.name for q in company.queries] == ["measure-unknown"]
    assert [w.sheet.number("cuff opening") for w in company.wearers] == [220, 230]
    assert not any(w.queries for w in company.wearers)


def test_5000_rows_with_faults_in_5_of_100_give_exactly_those() -> None:
    """The people of the survey over and over, a fault of a known kind in every twentieth row: the rejected rows are
    those, each with the fault's name at the fault's own line, in under a minute.
    """
    names = TWENTY["women"]
    people = survey(Sex.WOMEN, Half.TRIAL)
    chance = np.random.default_rng(7)
    faulty = set(chance.choice(5000, 250, replace=False).tolist())
    lines = [f"wearer,figure,{','.join(f'{n} (cm)' for n in names)}"]
    wanted: dict[int, str] = {}
    for i in range(5000):
        cells = [f"{people[n][i % len(people[n])] / 10:.1f}" for n in names]
        wearer, figure = f"Wearer {i}", "woman"
        if i in faulty:
            j = int(chance.integers(len(names)))
            match i % 8:
                case 0:
                    cells[j], wanted[i] = "about 40", "value-not-a-number"
                case 1:
                    cells[j], wanted[i] = "0", "value-not-positive"
                case 2:
                    cells[j], wanted[i] = f"-{cells[j]}", "value-not-positive"
                case 3:
                    cells[j], wanted[i] = f"{float(cells[j]) * 10:.0f}", "value-impossible"
                case 4:
                    cells[j], wanted[i] = f"{cells[j]} cm 3 in", "value-unit"
                case 5:
                    wearer, wanted[i] = "", "sheet-for-nobody"
                case 6:
                    wearer, wanted[i] = "Wearer 3", "import-wearer-twice"
                case _:
                    figure, wanted[i] = "man", "bust-or-chest"
        lines.append(f"{wearer},{figure},{','.join(cells)}")
    wanted.pop(3, None)
    text = "\n".join(lines) + "\n"
    start = time.perf_counter()
    company = read(text)
    assert time.perf_counter() - start < 60
    assert len(company.wearers) == 5000
    source = Source("company.csv", text)
    found = {}
    for i, read_in in enumerate(company.wearers):
        if read_in.rejected:
            questions = [q for q in read_in.queries if q.kind == "question"]
            assert len(questions) == 1
            found[i] = questions[0].name
            assert questions[0].span is not None
            assert source.place(questions[0].span.start).line == i + 2
    assert found == {i: name for i, name in wanted.items() if i != 3}
    assert len(company.accepted) == 5000 - len(found)


def test_a_company_sent_out_and_brought_in_is_the_same() -> None:
    """Every value, reading, side, layer, confirmation and note comes back; centimetres, millimetres or inches."""
    text = (
        "wearer: Anna Holt\nfigure: woman\ndate: 2026-03-14\nover:\n  - a shift\n  - {layer: petticoat, thickness: 3 mm}\n"
        "unit: cm\nestimate from: both\nmeasures:\n  bust: [91.1, 91.3]\n  waist: 27 1/2 in\n  shoulder: {left: 13, right: 12.6}\n"
        "  shoulder slope: 22 1/2\n  weight: 61.8\n  calf: 29 as taken\n  shoulder drop: -5 mm\n  hem of my own: 240\n"
        'notes:\n  - "one; two, three"\n'
    )
    sheet, _ = read_sheet(Source("s", text))
    assert sheet is not None
    other, _ = read_sheet(
        Source("s", "wearer: Bess\nover: nothing\nunit: in\nmeasures: {waist: 28 1/3, arm: 22}\n")
    )
    assert other is not None
    for unit in (CM, MM, INCH):
        table = write_company([sheet, other], unit)
        company = read(table)
        assert not company.waits
        assert not company.rejected
        again = [w.sheet for w in company.wearers]
        for one, came in zip((sheet, other), again, strict=True):
            assert (came.wearer, came.figure, came.date, came.over, came.notes, came.estimate_from) == (
                one.wearer, one.figure, one.date, one.over, one.notes, one.estimate_from,
            )  # fmt: skip
            assert set(came.entries) == set(one.entries)
            for name, entry in one.entries.items():
                assert {
                    s: [base(r.quantity) for r in rs] for s, rs in came.entries[name].readings.items()
                } == {s: [base(r.quantity) for r in rs] for s, rs in entry.readings.items()}
                assert came.entries[name].sure == entry.sure
            assert read_sheet(Source("t", write_sheet(came)))[0] == came


def test_a_table_says_what_it_holds() -> None:
    """Its first line is a remark for whoever finds it, and names no value."""
    sheet, _ = read_sheet(Source("s", "wearer: Anna\nunit: cm\nmeasures: {waist: 70, hip: 96}\n"))
    assert sheet is not None
    first = write_company([sheet]).splitlines()[0]
    assert first == f"# {what_it_holds([sheet])}"
    assert "2 body measures of one wearer" in first
    assert "private" in first
    with pytest.raises(ValueError, match="nobody"):
        write_company([])


def test_cells_are_read_as_tables_are_written() -> None:
    """RFC 4180: quotes, doubled quotes, marks and line ends in quotes, any line end; and remarks of ours."""
    rows, unclosed = read_grid('a,"b ""c"", d"\r\n"two\nlines",x\n\n# gone\n  , \nlast,1')
    assert [[c.text for c in row] for row in rows] == [["a", 'b "c", d'], ["two lines", "x"], ["last", "1"]]
    assert unclosed is None
    assert read_grid('a,"b')[1] is not None
    assert read_grid("") == ((), None)


@given(st.text(alphabet=st.sampled_from('abcust wei(m)"0123456789,;\t\n#-.½'), max_size=200))
def test_any_text_is_a_company_or_a_query(text: str) -> None:
    """Reading never raises, and every cell stands where it says."""
    company = read(text)
    assert company.queries or company.wearers
    rows, _ = read_grid(text)
    for row in rows:
        for cell in row:
            assert 0 <= cell.span.start <= cell.span.end <= len(text)
            if '"' not in text:
                assert text[cell.span.start : cell.span.end].strip() == cell.text

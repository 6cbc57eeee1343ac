"""A sheet looked at as a whole: slips caught, bodies left in peace, and what is said of them."""

from __future__ import annotations

import numpy as np
import pytest
from fitting.file import TWENTY

from tapewright.diagnostics import Query, Source
from tapewright.measures import CARE, Sheet, body_sheet_for, lacing, odd_ones, read_sheet
from tapewright.measures.model import doubt, judge
from tapewright.pages.from_draft import LACING
from tests.measures.outcomes import BOUNDS, caught, exchanged, exchanges, false_alarms, millimetres, sheet_of
from tests.survey import Sex

HEAD = "wearer: Anna Holt\nfigure: woman\nunit: cm\nmeasures:\n"
BODY = {
    "stature": "165",
    "bust": "98",
    "high bust": "92",
    "waist": "78",
    "hip": "104",
    "nape to waist": "38.5",
    "arm": "57",
    "neck base": "36",
}


def read(changed: dict[str, str] | None = None, head: str = HEAD) -> tuple[Sheet, tuple[Query, ...]]:
    """A sound sheet with some values changed."""
    lines = "".join(f"  {name}: {value}\n" for name, value in {**BODY, **(changed or {})}.items())
    sheet, queries = read_sheet(Source("a sheet", head + lines))
    assert sheet is not None
    return sheet, queries


@pytest.mark.parametrize("sex", list(Sex))
@pytest.mark.parametrize("slip", list(BOUNDS))
def test_slips_are_caught(sex: Sex, slip: str) -> None:
    """In the sheets of the trial half, one slip at a time: the first doubt is about the value that slipped."""
    assert caught(sex, slip).share >= BOUNDS[slip]


@pytest.mark.parametrize("sex", list(Sex))
def test_true_values_are_seldom_asked_about(sex: Sex) -> None:
    """At most 1.2 in a hundred entries of the true sheets of the trial half bring a question or a caution."""
    assert false_alarms(sex) <= 1.2


@pytest.mark.parametrize("sex", list(Sex))
def test_exchanged_lines_are_seen(sex: Sex) -> None:
    """Of lines exchanged that lie 3 cm apart or more, at least nineteen in twenty are seen (no bound was set us)."""
    assert exchanged(sex) >= 95


def test_what_the_tables_count_is_what_a_sheet_says() -> None:
    """The first of the odd ones of a sheet is the value that the arrays find first: eighty women, a slip in each."""
    every = TWENTY["women"]
    for i, row in enumerate(millimetres(Sex.WOMEN)[:80]):
        values = np.rint(row)
        values[i % 20] *= 1.35
        misfits = np.abs(judge("women", every).misfits(np.log(np.rint(values))[None, :])[0])
        found, _ = odd_ones(sheet_of(Sex.WOMEN, values.tolist()))
        first = found[0].name if found else None
        assert first == (every[int(misfits.argmax())] if misfits.max() > doubt(20) else None)


def test_a_sound_sheet_is_left_in_peace() -> None:
    """Nothing is asked of measures that go together."""
    assert read()[1] == ()


@pytest.mark.parametrize(
    ("name", "value", "guess"),
    [
        ("hip", "87", "97"),
        ("hip", "40 1/2", "40.5 in"),
        ("bust", "49", "98"),
        ("arm", "47", "57"),
        ("waist", "97", "79"),
        ("stature", "136", "163"),
        ("nape to waist", "48.5", "38.5"),
    ],
)
def test_the_likely_slip_is_named(name: str, value: str, guess: str) -> None:
    """Half a girth, inches, figures turned round, ten off: the first guess or a next one is what was meant."""
    _, queries = read({name: value})
    (query,) = [q for q in queries if q.kind != "note"]
    assert query.name in {"value-unlike-others", "value-impossible"}
    assert any(a.replace is not None and a.replace.startswith(guess) for a in query.answers), query.answers


def test_a_caution_says_both_values_what_is_usual_and_what_to_try() -> None:
    """Where, what, both values with units, by which measures, and what to do."""
    text_value = "87"
    sheet, queries = read({"hip": text_value})
    (query,) = queries
    assert query.kind == "caution"
    assert query.message.startswith("The hip is 87.0 cm (34 1/4 in) here. Beside the ")
    assert "it would be about 10" in query.message
    assert " cm." in query.message
    assert "nine times in ten between" in query.message
    assert "hip: 87" not in query.help
    assert "87 as taken" in query.help
    assert query.span is not None
    assert sheet.value("hip") is not None


def test_exchanged_lines_are_told_as_such_and_once() -> None:
    """The arm in the back's line and the back's in the arm's: one caution that names both."""
    _, queries = read({"arm": "38.5", "nape to waist": "57"})
    (query,) = queries
    assert "each stood in the other’s line" in query.help
    assert {"arm", "nape to waist"} <= {
        name for name in BODY if f"The {name} is" in f"{query.message} {query.help}"
    }
    told = sum(1 for sheet, _, _ in exchanges(Sex.MEN) for _ in [sheet])
    assert told > 200


def test_as_taken_settles_it() -> None:
    """A value marked as taken is asked about no more, and does not make its neighbours look odd."""
    assert read({"hip": "87 as taken"})[1] == ()


def test_what_the_others_bear_out_is_a_note_and_no_more() -> None:
    """A stout wearer whose girths go together is not nagged: one note for all of them."""
    stout = {"bust": "138", "high bust": "122", "waist": "118", "hip": "140", "neck base": "41"}
    _, queries = read(stout)
    assert [(str(q.kind), q.name) for q in queries] == [("note", "beyond-the-survey")]
    lone, asked = read_sheet(Source("s", f"{HEAD}  bust: 138\n"))
    assert lone is not None
    assert [q.name for q in asked] == ["value-unusual"]


def test_few_measures_tell_nothing() -> None:
    """Two measures are never set against each other."""
    _, queries = read_sheet(Source("s", f"{HEAD}  waist: 62\n  hip: 121\n"))
    assert queries == ()


def test_children_stays_and_hoops_are_not_judged_by_bodies() -> None:
    """What no survey measured, or what stays and hoops make another thing of, is left out."""
    slip = {"hip": "84"}
    assert [q.name for q in read(slip)[1]] == ["value-unlike-others"]
    assert read(slip, HEAD.replace("woman", "child"))[1] == ()
    assert read(slip, HEAD.replace("unit", "over: a hoop\nunit"))[1] == ()
    assert read({"waist": "62"}, HEAD.replace("unit", "over: stays\nunit"))[1] == ()


def test_estimate_from_says_whom_to_compare_with() -> None:
    """A man's measures on a woman's sheet look odd among women, and not among men."""
    man = {"stature": "178", "bust": "99", "high bust": "101", "waist": "84", "hip": "98", "arm": "61",
           "neck base": "42", "nape to waist": "43"}  # fmt: skip
    assert read(man)[1]
    assert not [q for q in read(man, HEAD.replace("unit", "estimate from: men\nunit"))[1] if q.kind != "note"]


def laced(waist: str, own: str) -> Query | None:
    """What is said of a waist over stays beside the body's."""
    over, _ = read_sheet(Source("s", f"wearer: A\nover: stays\nunit: cm\nmeasures:\n  waist: {waist}\n"))
    body, _ = read_sheet(Source("b", f"wearer: a\nover: a shift\nunit: cm\nmeasures:\n  waist: {own}\n"))
    assert over is not None
    assert body is not None
    return lacing(over, body)


def test_a_waist_laced_by_more_than_a_tenth_brings_the_caution() -> None:
    """The limit is Gau's (1998): 10 % or less was comfortable. At the tenth nothing is said, beyond it the care."""
    assert laced("63", "70") is None
    assert laced("74", "70") is None
    said = laced("62.9", "70")
    assert said is not None
    assert (str(said.kind), said.help) == ("caution", CARE)
    assert "62.9 cm" in said.message
    assert "70.0 cm" in said.message


def test_the_newest_sheet_of_the_body_itself_is_the_one_to_compare_with() -> None:
    """Never another wearer's, never one over stays, never one without a waist."""
    texts = [
        "wearer: A\ndate: 2025-01-01\nunit: cm\nmeasures: {waist: 71}\n",
        "wearer: A\ndate: 2026-01-01\nunit: cm\nmeasures: {waist: 72}\n",
        "wearer: A\ndate: 2026-02-01\nunit: cm\nmeasures: {hip: 95}\n",
        "wearer: A\ndate: 2026-03-01\nover: stays\nunit: cm\nmeasures: {waist: 64}\n",
        "wearer: B\ndate: 2026-03-01\nunit: cm\nmeasures: {waist: 80}\n",
    ]
    sheets = tuple(s for s, _ in (read_sheet(Source("s", text)) for text in texts) if s is not None)
    found = body_sheet_for(sheets[3], sheets)
    assert found is not None
    assert found.number("waist") == 720
    assert body_sheet_for(sheets[4], sheets[:3]) is None


def test_the_caution_is_the_one_that_lessons_print() -> None:
    """Sheets and lessons say the same words of care."""
    assert CARE == LACING

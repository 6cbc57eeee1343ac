"""Sheets with slips in them: each a query with its place, and never an exception."""

from __future__ import annotations

import time
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapewright.diagnostics import Query, Source, known_names
from tapewright.measures import Sheet, base, read_sheet

HEAD = "wearer: Anna Holt\nfigure: woman\nunit: cm\n"


def read(text: str) -> tuple[Sheet | None, tuple[Query, ...]]:
    """The sheet and queries of a text; what must hold of every query is checked on the way."""
    source = Source("a sheet", text)
    sheet, queries = read_sheet(source)
    for query in queries:
        assert query.source == "a sheet"
        assert query.name in known_names()
        assert query.message[-1] in ".?"
        if query.span is not None:
            assert 0 <= query.span.start <= query.span.end <= len(text)
    return sheet, queries


def asked(text: str) -> list[tuple[str, str, str]]:
    """Kind, name and underlined words of every query."""
    _, queries = read(text)
    return [(str(q.kind), q.name, "" if q.span is None else text[q.span.start : q.span.end]) for q in queries]


def on(line: str) -> list[tuple[str, str, str]]:
    """What is asked about one line among the measures of a woman's sheet in centimetres."""
    return asked(f"{HEAD}measures:\n  {line}\n")


ONE_LINE = [
    ("nape to wiast: 36.6", "note", "measure-unknown", "nape to wiast"),
    ("cuff opening: 22", "note", "measure-unknown", "cuff opening"),
    ("waist: about 70", "question", "value-not-a-number", "about 70"),
    ("waist:", "question", "value-not-a-number", ""),
    ("waist: 70 cm snug", "question", "value-not-a-number", "snug"),
    ("waist: 7O", "question", "value-unit", "O"),
    ("waist: 0", "question", "value-not-positive", "0"),
    ("waist: -70", "question", "value-not-positive", "-70"),
    ("waist: 70 cn", "question", "value-unit", "cn"),
    ("waist: 27 in 70 cm", "question", "value-unit", "70 cm"),
    ("waist: 27 in cm", "question", "value-unit", "cm"),
    ("waist: 70 kg", "question", "value-unit", "kg"),
    ("shoulder slope: 26 cm", "question", "value-unit", "cm"),
    ("waist: 700", "question", "value-impossible", "700"),
    ("waist: 7.0", "question", "value-impossible", "7.0"),
    ("waist: [70, 7.1]", "question", "value-impossible", "7.1"),
    ("waist: 108", "caution", "value-unusual", "108"),
    ("waist: [70, 73]", "caution", "readings-apart", "[70, 73]"),
    ("shoulder slope: [22, 26]", "caution", "readings-apart", "[22, 26]"),
    ("waist: [70, 70, 71, 71]", "question", "sheet-shape", "[70, 70, 71, 71]"),
    ("waist: []", "question", "sheet-shape", "[]"),
    ("waist: [[70]]", "question", "sheet-shape", "[70]"),
    ("waist: {left: 35, right: 35}", "question", "side-unknown", "{left: 35, right: 35}"),
    ("shoulder: {lefl: 13}", "question", "side-unknown", "lefl"),
    ("shoulder: {left: 13, left: 12}", "question", "sheet-twice", "left"),
    ("shoulder: {}", "question", "value-not-a-number", "shoulder"),
    ("shoulder: {left: 13, right: 12.6}", "note", "sides-differ", "shoulder"),
    ("chest: 91", "question", "bust-or-chest", "chest"),
    ("waist: &w 70", "question", "sheet-plain-only", "&"),
    ("waist: *w", "question", "sheet-plain-only", "*"),
    ("waist: !!python/object:os.system 70", "question", "sheet-plain-only", "!"),
    ("waist: @70", "question", "sheet-not-readable", "@"),
    ("? [a, b]", "question", "sheet-shape", "[a, b]"),
    (f"{'w' * 90}: 70", "question", "sheet-shape", "w" * 90),
]


@pytest.mark.parametrize(("line", "kind", "name", "shows"), ONE_LINE)
def test_one_slip_makes_one_query_with_its_place(line: str, kind: str, name: str, shows: str) -> None:
    """Each slip in a measure is named, of the right kind, and underlined to the word."""
    assert on(line) == [(kind, name, shows)]


WHOLE = [
    ("", "question", "sheet-for-nobody", ""),
    ("wearer:\n", "question", "sheet-for-nobody", "wearer"),
    ("figure: woman\n", "question", "sheet-for-nobody", ""),
    ("just words", "question", "sheet-shape", "just words"),
    ("- a\n- b\n", "question", "sheet-shape", "- a"),
    (f"{HEAD}wearer: Eve\n", "question", "sheet-twice", "wearer"),
    (f"{HEAD}Unit: in\n", "question", "sheet-twice", "Unit"),
    (f"{HEAD}figur: man\n", "caution", "sheet-unknown-key", "figur"),
    (f"{HEAD}waist: 70\n", "caution", "sheet-unknown-key", "waist"),
    ("wearer: A\nfigure: lady\n", "question", "sheet-choice", "lady"),
    ("wearer: A\nfigure:\n", "question", "sheet-choice", ""),
    ("wearer: A\nfigure: [woman]\n", "question", "sheet-shape", "[woman]"),
    ("wearer: [A, B]\n", "question", "sheet-shape", "[A, B]"),
    ("wearer: A\nestimate from: woman\n", "question", "sheet-choice", "woman"),
    ("wearer: A\ndate: 3/4/26\n", "caution", "sheet-date", "3/4/26"),
    ("wearer: A\ndate: 2026-02-30\n", "caution", "sheet-date", "2026-02-30"),
    ("wearer: A\nunit: cmm\n", "question", "sheet-unit", "cmm"),
    ("wearer: A\nunit: degrees\n", "question", "sheet-unit", "degrees"),
    ("wearer: A\nover:\n", "question", "sheet-choice", ""),
    ("wearer: A\nover: [[a]]\n", "question", "sheet-shape", "[a]"),
    ("wearer: A\nover: {layer: stays, thickness: 3}\n", "question", "value-unit", "3"),
    ("wearer: A\nover: {layer: stays, thick: 3 mm}\n", "caution", "sheet-unknown-key", "thick"),
    ("wearer: A\nover: {thickness: 3 mm}\n", "question", "sheet-shape", "{thickness: 3 mm}"),
    ("wearer: A\nnotes: {a: b}\n", "caution", "sheet-shape", "{a: b}"),
    ("wearer: A\nmeasures: 70\n", "question", "sheet-shape", "70"),
    (f"{HEAD}measures:\n  - waist: 70\n", "question", "sheet-shape", "- waist: 70"),
    (f"{HEAD}measures:\n  waist: 70\n  Waist: 71\n", "question", "sheet-twice", "Waist"),
    ("wearer: A\nmeasures:\n  waist: 70\n  hip: 95\n", "question", "sheet-unit", "70"),
    ("wearer: A\nunit: cmm\nmeasures:\n  waist: 70\n  hip: 95\n", "question", "sheet-unit", "cmm"),
    ("wearer: A\nunit: in\nmeasures:\n  weight: 136\n", "question", "value-unit", "136"),
    ("wearer: A\nunit: cm\nmeasures: {bust: 91}\n", "question", "sheet-figure", "bust"),
    ("wearer: A\nunit: cm\nmeasures: {chest: 91}\n", "question", "sheet-figure", "chest"),
    ("wearer: A\nunit: cm\nfigure: man\nmeasures: {bust: 91}\n", "question", "bust-or-chest", "bust"),
    ("wearer: A\nunit: cm\nfigure: lady\nmeasures: {bust: 91}\n", "question", "sheet-choice", "lady"),
    ("wearer: A\n---\nwearer: B\n", "question", "sheet-plain-only", "-"),
    ("wearer: A\nnotes: left: lower\n", "question", "sheet-not-readable", ":"),
    ("wearer: A\nmeasures:\n\twaist: 70\n", "question", "sheet-not-readable", "\t"),
    ('wearer: "A\n', "question", "sheet-not-readable", '"'),
    ("wearer: A\nmeasures: {waist: 70\n", "question", "sheet-not-readable", "{"),
    ("wearer: A\0\n", "question", "sheet-not-text", "\0"),
    ("wearer: \x1b[31m\n", "question", "sheet-not-text", "\x1b"),
]


@pytest.mark.parametrize(("text", "kind", "name", "shows"), WHOLE)
def test_one_slip_in_the_sheet_makes_one_query(text: str, kind: str, name: str, shows: str) -> None:
    """A slip outside the measures is asked about once, and what hangs on it waits without another query."""
    found = asked(text)
    assert [(k, n) for k, n, _ in found] == [(kind, name)]
    assert found[0][2].strip() == shows.strip()


def test_several_slips_make_several_queries_in_the_order_of_the_text() -> None:
    """The rest of the sheet is read in spite of them, and what waits is said to."""
    text = f"{HEAD}measures:\n  chest: 91\n  waist: 700\n  hip: 98\n  neck base: 36 kg\n  figur: 3\ndat: 3\n"
    sheet, queries = read(text)
    assert [q.name for q in queries] == [
        "bust-or-chest",
        "value-impossible",
        "value-unit",
        "measure-unknown",
        "sheet-unknown-key",
    ]
    assert sheet is not None
    assert sheet.waiting == {"chest", "waist", "neck base"}
    assert sheet.number("hip") == 980
    assert sheet.number("waist") is None
    assert text[sheet.spans["waist"].start : sheet.spans["waist"].end] == "waist"


def test_an_answer_taken_settles_the_question() -> None:
    """Putting an offered answer in the place of its span leaves a sheet that asks nothing there."""
    for line in ("waist: 700", "waist: 27", "waist: 35", "chest: 91", "waist: 70 cn", "nape to wiast: 36.6"):
        text = f"{HEAD}measures:\n  {line}\n"
        _, queries = read(text)
        assert len(queries) == 1
        query = queries[0]
        assert query.span is not None
        offered = [a.replace for a in query.answers if a.replace is not None]
        assert offered, line
        for replace in offered:
            mended = text[: query.span.start] + replace + text[query.span.end :]
            assert not [q for q in read(mended)[1] if q.name == query.name], (line, replace)


def test_as_taken_confirms_a_value() -> None:
    """A body that is out of the ordinary, or past believing, is drawn as it is once that is confirmed."""
    assert on("calf: 18") == [("question", "value-impossible", "18")]
    assert on("calf: 18 as taken") == []
    assert on("calf: 18 cm, as taken") == []
    assert on("waist: 108 as taken") == []
    sheet, _ = read(f"{HEAD}measures:\n  calf: 18 as taken\n")
    assert sheet is not None
    assert sheet.number("calf") == 180


def test_readings_within_the_allowed_difference_are_not_asked_about() -> None:
    """10 mm on a large girth, 5 on a length, 3 on a wrist: at the bound no caution, above it one.

    The classes follow ISO 20685 (as read in a textbook); the bounds are ours.
    """
    for name, first, bound in (("waist", 700, 10), ("nape to waist", 370, 5), ("wrist", 150, 3)):
        assert on(f"{name}: [{first} mm, {first + bound} mm]") == []
        assert [n for _, n, _ in on(f"{name}: [{first} mm, {first + bound + 1} mm]")] == ["readings-apart"]
        sheet, _ = read(f"{HEAD}measures:\n  {name}: [{first} mm, {first + bound + 1} mm]\n")
        assert sheet is not None
        value = sheet.value(name)
        assert value is not None
        assert base(value) == first + Fraction(bound + 1, 2)


@pytest.mark.parametrize(
    "text",
    [
        "[" * 100_000,
        "{a: " * 60_000,
        "- " * 120_000,
        "? " * 100_000,
        "%" * 200_000,
        "".join(f"{' ' * i}a:\n" for i in range(600)),
        "".join(f"k{i}: 1\n" for i in range(20_000)),
        f"{HEAD}measures:\n  waist: '1{' ' * 200_000}x'\n",
        f"{HEAD}measures:\n  waist: {'9' * 200_000}\n",
        f"{HEAD}measures: {{waist: 1{' as' * 80_000}}}",
        "a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\n",
        "x" * 10_000_000,
    ],
    ids=lambda text: text[:12].replace("\n", " "),
)
def test_texts_made_to_be_large_or_deep_are_refused_quickly(text: str) -> None:
    """A deep, wide or self-referring sheet, or one of 10 MB, is a query or two within five seconds."""
    start = time.perf_counter()
    _, queries = read(text)
    assert 1 <= len(queries) <= 2
    assert time.perf_counter() - start < 5


@given(st.text(max_size=300))
def test_any_text_is_a_sheet_or_a_query(text: str) -> None:
    """Reading never raises, whatever the file holds."""
    sheet, queries = read(text)
    assert sheet is not None or queries


lines = st.sampled_from(
    [
        "wearer",
        "figure",
        "over",
        "unit",
        "measures",
        "notes",
        "  waist",
        "  bust",
        "  shoulder",
        "  left",
        "-",
        "date",
    ]
)
values = st.sampled_from(
    ["", "70", "woman", "cm", "[70, 71]", "{left: 1}", "27 1/2 in", '"', "- a", "\t", "a: b", "&a"]
)


@given(st.lists(st.tuples(lines, st.sampled_from([": ", ":", " "]), values), max_size=12))
def test_any_jumble_of_a_sheets_own_words_is_read(parts: list[tuple[str, str, str]]) -> None:
    """Nor do the words of a sheet in any order and any hurt state."""
    read("\n".join("".join(part) for part in parts))

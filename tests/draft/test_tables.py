"""Tables, shapes on squares, curve rules, and saying a group of sentences again."""

from __future__ import annotations

import pytest

from tapewright.diagnostics import Source
from tapewright.draft import Draft, evaluate, from_arrays
from tapewright.language import read_lesson
from tapewright.measures import Figure
from tapewright.plan import build_plan
from tests.lessons import at, names

HEAD = """# A trial
On the half. Drafted net. Taken over: a shift.

## Measures
- chest

## By eye
- ease: 1 in

"""
#: Vincent, The Cutter's Practical Guide, part 1 (1898), p. 3: chest and depth of scye of boys, inches.
BOYS = """## Table: the boys' sizes
{between}

| chest (in) | scye depth (in) | half across chest |
|---|---|---|
| 24 | 6 1/4 | 5 1/4 in |
| 26 | 6 3/4 | 5 3/4 in |
| 28 | 7 1/4 | 6 1/4 in |
| 30 | 7 3/4 | 6 3/4 in |

"""
BEGIN = "Begin at A, with the centre back on the left and the centre front on the right."
INCH = 25.4


def draw(text: str, *items: str, chest: float = 28 * INCH, group: str = "") -> Draft:
    """A lesson with a table or a shape drawn for one chest."""
    import numpy as np

    numbered = "\n".join(f"{i}. {t}" for i, t in enumerate(items, 1))
    whole = HEAD + text + (group or "## The frame\n") + numbered + "\n"
    made = build_plan(read_lesson(Source("trial.md", whole)))
    return evaluate(made, from_arrays({"chest": np.array([chest])}, Figure.MAN))


LOOK = "From A down to B: the scye depth for the chest in the boys' sizes."


@pytest.mark.parametrize(("chest", "depth"), [(24, 6.25), (26, 6.75), (28, 7.25), (30, 7.75)])
def test_vincents_boys(chest: float, depth: float) -> None:
    """HB-075 to HB-078: the printed depth for each printed chest."""
    draft = draw(BOYS.format(between=""), BEGIN, LOOK, chest=chest * INCH)
    assert not draft.queries(), [q.message for q in draft.queries()]
    assert at(draft, "B")[1] == pytest.approx(depth * INCH, abs=1e-9)


@pytest.mark.parametrize(
    ("between", "chest", "depth"),
    [
        ("Between two rows, in proportion.", 27, 7.0),
        ("Between two rows, the nearest.", 26.9, 6.75),
        ("Between two rows, the next larger.", 26.1, 7.25),
    ],
)
def test_between_two_rows(between: str, chest: float, depth: float) -> None:
    """HB-079: the depth rises a quarter of an inch an inch, so 27 gives 7 in proportion."""
    draft = draw(BOYS.format(between=between), BEGIN, LOOK, chest=chest * INCH)
    assert at(draft, "B")[1] == pytest.approx(depth * INCH, abs=1e-9)


def test_where_the_table_does_not_answer() -> None:
    """Between rows without a word, off the end, a column that is not there."""
    silent = BOYS.format(between="")
    assert names(draw(silent, BEGIN, LOOK, chest=27 * INCH).queries()) == ["between-rows"]
    assert names(draw(silent, BEGIN, LOOK, chest=33 * INCH).queries()) == ["off-the-table"]
    wrong = draw(silent, BEGIN, LOOK.replace("the scye depth", "the scye dept"))
    assert names(wrong.queries()) == ["table-column"]
    assert [a.replace for a in wrong.queries()[0].answers] == ["scye depth"]
    assert names(draw(silent.replace("6 1/4 |", "six |"), BEGIN).queries())[0] == "table-figure"
    assert names(draw("", BEGIN, LOOK).queries()) == ["name-unknown"]


TURNOVER = """## Shape: turnover
On squares, after the manner of the Workwoman's Guide of 1838; the figures are ours.

| right | down | letter |
|---|---|---|
| 0 | 0 | |
| 4 | 1 | P |
| 6 | 4 | Q |

"""


def test_a_shape_on_squares_of_a_nail() -> None:
    """A nail is 2 1/4 inches (HB-120): four squares right and one down of it."""
    draft = draw(
        TURNOVER,
        BEGIN,
        'Draw the shape "turnover" from A on squares of 1 nail; call it the edge.',
        "From Q down to R: 1 cm.",
    )
    assert not draft.queries(), [q.message for q in draft.queries()]
    assert at(draft, "P") == pytest.approx((4 * 57.15, 57.15))
    assert at(draft, "R") == pytest.approx((6 * 57.15, 4 * 57.15 + 10))
    assert names(
        draw(TURNOVER, BEGIN, 'Draw the shape "turnovr" from A on squares of 1 nail.').queries()
    ) == ["no-such-shape"]


def test_a_curve_rule_is_laid_between_two_letters() -> None:
    """Its ends fall on the letters, and it bows to the side said."""
    rule = TURNOVER.replace("turnover", "sleeve").replace(" P |", " |").replace(" Q |", " |")
    items = (BEGIN, "From A across to B: 20 cm. From A down to D: 10 cm.")
    down = draw(
        rule,
        *items,
        'Draw the curve rule "sleeve" from A to B, hollow toward D; call it the top. Divide the top in half at M.',
    )
    assert not down.queries(), [q.message for q in down.queries()]
    assert at(down, "M")[1] > 0
    up = draw(
        rule,
        *items,
        "From A up to E: 1 cm.",
        'Draw the curve rule "sleeve" from A to B, hollow toward E; call it the top. Divide the top in half at M.',
    )
    assert at(up, "M")[1] == pytest.approx(-at(down, "M")[1])


def test_the_same_again_with_higher_numbers() -> None:
    """Three gores from one: Bennett 1914 draws five equal gores of a fifth of the waist (HB-096)."""
    text = (
        HEAD
        + "## The frame\n1. "
        + BEGIN
        + " From A across to B0: 0 cm.\n\n## The first gore\n"
        + (
            "2. From A across to A1: 5 in. From A1 down to B1: 10 in; call it seam 1.\n"
            '\n## The others\n3. Repeat "The first gore" for 2 and 3.\n4. From B3 down to Z: the seam 2.\n'
        )
    )
    import numpy as np

    made = build_plan(read_lesson(Source("trial.md", text)))
    draft = evaluate(made, from_arrays({"chest": np.array([900.0])}, Figure.MAN))
    assert not draft.queries(), [q.message for q in draft.queries()]
    assert at(draft, "B3") == pytest.approx((127, 254))
    assert at(draft, "Z") == pytest.approx((127, 508))


@pytest.mark.parametrize(
    ("group", "query"),
    [
        ('1. Repeat "No such heading" for 2.', "repeat"),
        ('1. Begin at A. From A right to B: 1 cm.\n\n## More\n2. Repeat "Once" for 2.', "repeat"),
        (
            '1. Begin at A. From A right to B1, K: 1 cm and 2 cm.\n\n## More\n2. Repeat "Once" for 2.',
            "letter-made-twice",
        ),
    ],
)
def test_what_cannot_be_repeated(group: str, query: str) -> None:
    """No such heading, nothing with a number, a letter or a Begin that would come twice."""
    made = build_plan(read_lesson(Source("trial.md", HEAD + "## Once\n" + group + "\n")))
    assert query in names(made.queries), [q.message for q in made.queries]

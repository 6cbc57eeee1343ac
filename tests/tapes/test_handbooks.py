"""Scales, units and proportions against the worked figures of printed handbooks.

Every row of `data/check-values.csv` under `scale`, `unit` and `proportion` is here: worked through the
tapes and the units, or named with the tests that hold it. Rows whose result was worked out for the table,
or whose author, title or date was not seen, are counted apart.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from tapewright.tapes import length, notations, read_back, read_reading
from tapewright.units import INCH, NAIL, Length, Trouble, read_length, show_in
from tests.handbook import Row, counted, of_topics, row
from tests.handbooks.drafts import comparisons
from tests.units.test_old import WORKED as OLD

F = Fraction
ROWS = of_topics("scale", "unit", "proportion")


def inches(text: str) -> Fraction:
    """A length in a text, in inches."""
    read = read_length(text)
    assert isinstance(read, Length), text
    return read.mm / INCH.mm


def term(text: str, wholes: dict[str, Fraction], parts: int) -> Fraction:
    """A reading of a named tape, or a length, in inches; the wholes are in inches."""
    reading = read_reading(text)
    if reading is None:
        return inches(text)
    return length(reading[0], wholes[reading[1].removesuffix(" tape")] * INCH.mm, parts) / INCH.mm


def amount(text: str, parts: int = 48, **wholes: str) -> Fraction:
    """Readings and lengths joined by `plus` and `minus`, in inches, read by the program's own readers."""
    given = {name.replace("_", " "): amount(whole) for name, whole in wholes.items()}
    total = F(0)
    for piece in text.replace(" plus ", "|+").replace(" minus ", "|-").split("|"):
        sign = -1 if piece.startswith("-") else 1
        total += sign * term(piece.lstrip("+-"), given, parts)
    return total


def printed(text: str, **wholes: str) -> Fraction:
    """The same as it is shown, to the nearest eighth of an inch."""
    return inches(show_in(amount(text, 48, **wholes) * INCH.mm))


def hertzer(half: str) -> Fraction:
    """Hertzer's unit: one part of 20 of half the measure and 2 1/2 in."""
    whole = amount("1/2 of the measure tape plus 2 1/2 in", measure=half)
    return term("1 part of the scale tape", {"scale": whole}, 20)


WORKED: dict[str, Callable[[], Fraction]] = {
    "HB-001": lambda: printed("1/5 of the half breast tape", half_breast="18 in"),
    "HB-002": lambda: amount("1/5 of the half breast tape", half_breast="18 in"),
    "HB-003": lambda: hertzer("35 in"),
    "HB-004": lambda: hertzer("52 in"),
    "HB-005": lambda: hertzer("38 in"),
    "HB-006": lambda: amount("7/8 of the square tape", square="20 in"),
    "HB-007": lambda: amount("2/3 of the scale tape", scale="18 in"),
    "HB-008": lambda: amount("1/6 of the scale tape", scale="18 in"),
    "HB-009": lambda: amount("1/12 of the scale tape", scale="18 in"),
    "HB-010": lambda: amount("1/3 of the scale tape", scale="18 in"),
    "HB-011": lambda: amount("1/4 of the scale tape", scale="18 in"),
    "HB-012": lambda: amount("1/8 of the size tape", size="36 in"),
    "HB-013": lambda: amount("1/6 of the size tape", size="36 in"),
    "HB-014": lambda: amount("1/12 of the scale tape", scale="18 in"),
    "HB-015": lambda: printed("1/12 of the scale tape", scale="13 in"),
    "HB-016": lambda: term(
        "2/3 of the shoulder tape", {"shoulder": amount("3/4 of the breast tape", breast="36 in")}, 48
    ),
    "HB-060": lambda: amount("2/8 of the height tape", height="66 in"),
    "HB-061": lambda: amount("4/8 of the height tape", height="5 ft 6 in"),
    "HB-062": lambda: amount("6/8 of the height tape", height="5 ft 6 in"),
    "HB-063": lambda: amount("1/8 of the height tape", height="66 in"),
    "HB-064": lambda: amount("2/8 of the height tape minus 1 in", height="66 in"),
    "HB-065": lambda: amount("1/2 of the waist length tape plus 3/4 in", waist_length="15 1/2 in"),
    "HB-067": lambda: (
        amount("2/8 of the height tape", height="67 in") - amount("2/8 of the height tape", height="66 in")
    ),
    "HB-068": lambda: amount("the size tape plus 3 in", size="36 in"),
    "HB-069": lambda: amount("the size tape minus 1/3 of the size tape plus 1 in", size="36 in"),
    "HB-070": lambda: amount("25 in plus 1/2 of the size tape", size="36 in"),
    "HB-071": lambda: amount("1/6 of the breast tape plus 3 in", breast="36 in"),
    "HB-072": lambda: amount("1/4 of the breast tape minus 1 in", breast="36 in"),
    "HB-073": lambda: amount("1/3 of the breast tape plus 5 in", breast="36 in"),
    "HB-074": lambda: amount("1/4 of the breast tape plus 3 1/2 in", breast="36 in"),
    "HB-079": lambda: (
        amount("1/4 of the chest tape", chest="25 in") - amount("1/4 of the chest tape", chest="24 in")
    ),
    "HB-080": lambda: amount("1/2 of the back length tape", back_length="16 in"),
    "HB-081": lambda: amount("1/2 of the chest tape plus 12 in", chest="28 in"),
    "HB-082": lambda: amount("1/4 of the chest tape minus 3/4 in", chest="26 in"),
    "HB-083": lambda: amount("1/4 of the chest tape plus 3 1/2 in", chest="30 in"),
    "HB-084": lambda: amount("1/4 of the chest tape plus 1/4 in", chest="25 in"),
    "HB-120": lambda: inches("1 nail"),
    "HB-124": lambda: inches("27 yd") * INCH.mm / NAIL.mm,
    "HB-134": lambda: amount("1 part of the vara tape", 36, vara="835.905 mm") * INCH.mm,
    "HB-135": lambda: amount("1/4 of the vara tape", vara="835.905 mm") * INCH.mm,
    "HB-136": lambda: amount("1/4 of the vara tape", vara="83.5 cm") * INCH.mm / 10,
    "HB-215": lambda: amount("1/12 of the size tape", size="36 in"),
    "HB-216": lambda: amount("1/3 of the size tape", size="40 in"),
}
"""Each row by its number, in the row's own unit."""

# Garsault's table of the ell ruler (1771): shares of a whole of 524 lignes, whatever a ligne is.
ELL = {"HB-041": "1/2", "HB-042": "1/3", "HB-043": "1/4", "HB-044": "3/4", "HB-045": "5/4", "HB-046": "1/6",
       "HB-047": "1/8", "HB-048": "3/8", "HB-049": "5/8", "HB-050": "1/12", "HB-051": "7/12"}  # fmt: skip


def of_the_ell(share: str) -> Fraction:
    """A share of the ell ruler, in lignes."""
    return term(f"{share} of the ell tape", {"ell": F(524)}, 48)


WORKED |= {id_: (lambda share=share: of_the_ell(share)) for id_, share in ELL.items()}  # type: ignore[misc]

# The letters of Alcega (1580, at second hand): what each letter or pair is a share of.
LETTERS = {"HB-020": "d", "HB-021": "o", "HB-022": "s", "HB-023": "Q", "HB-024": "t", "HB-025": "m",
           "HB-026": "mo", "HB-027": "QQQ", "HB-028": "sb", "HB-029": "ob"}  # fmt: skip


def in_letters(text: str) -> Fraction:
    """What letters come to in the notation of 1580, as a share of the whole."""
    share = read_back(text, notations()["letters-of-1580"])
    assert isinstance(share, Fraction), text
    return share


WORKED |= {id_: (lambda text=text: in_letters(text)) for id_, text in LETTERS.items()}  # type: ignore[misc]
WORKED["HB-030"] = lambda: in_letters("ob") * inches("33 in")

# What the tapes have no part in: it is held against the units and the drafts, which have tests of their own.
ELSEWHERE = {
    "old units, in tests/units/test_old.py": sorted(set(OLD) - set(WORKED)),
    "lessons, in tests/handbooks": ["HB-031", "HB-066", *(f"HB-0{n}" for n in range(75, 79))],
}


@pytest.mark.parametrize("worked", sorted(WORKED))
def test_a_worked_figure_comes_out(worked: str) -> None:
    """The tape or the unit gives the book's figure, exactly where the row says exact."""
    given = row(worked)
    assert given.holds(WORKED[worked]()), f"{given.source}, {given.page}: {given.rule}"


def test_every_row_is_worked_here_or_elsewhere() -> None:
    """No row is passed over: 65 are worked here (41 seen, 24 apart), and all others elsewhere."""
    elsewhere = [id_ for ids in ELSEWHERE.values() for id_ in ids]
    assert sorted([*WORKED, *elsewhere]) == sorted(r.id for r in ROWS)
    count = counted(ROWS, WORKED)
    assert (len(count.seen), len(count.apart)) == (41, 24)
    drafted = {asked.row.id for _, asked in comparisons()}
    assert set(ELSEWHERE["lessons, in tests/handbooks"]) <= drafted


def test_a_figure_that_is_out_would_be_noticed() -> None:
    """Every worked row fails when the book's figure is moved by more than its tolerance."""
    for id_, work in WORKED.items():
        given = row(id_)
        step = given.tolerance * 2 + F(1, 1000)
        for moved in (given.expected + step, given.expected - step):
            other = Row(**{f: getattr(given, f) for f in given.__slots__} | {"expected": moved})
            assert not other.holds(work()), id_


def test_the_two_bases_of_one_book_differ() -> None:
    """Rosenfeld 1911 says `size` for half (p.261) and whole (p.63): the same words give 3 in and 6 in, so a
    whole is always said aloud and a fraction never has a base of its own.
    """
    assert WORKED["HB-008"]() * 2 == WORKED["HB-013"]()
    assert isinstance(read_length("1/6"), Trouble)

"""A reading written in a notation, and read back; both exact.

What a notation cannot write is given as the nearest thing it can, and said to be *about*. What can be read
in two ways is not read at all.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from tapewright.tapes.nearest import nearest_reading
from tapewright.tapes.notation import BELOW, SEVERAL, Notation, NotationMark, Way, made_of, value_of
from tapewright.tapes.tape import PARTS, Reading, value
from tapewright.tapes.words import ABOUT, say_parts
from tapewright.units import Real, read_number, show_fraction, to_nearest

# How far from a share that cannot be written the nearest one that can is looked for, in the smallest steps.
_REACH = 96
# Beyond this many smallest steps to the length no spelling is looked for but single marks.
_MOST_STEPS = 4_000
# Of a ligne the table of 1771 has halves and thirds; a sixteenth of the ell ends in three quarters of one.
_OF_A_UNIT = (1, 2, 3, 4)


@dataclass(frozen=True, slots=True)
class Written:
    """A reading as a notation writes it: the text, and the share of the whole that the text means."""

    text: str
    share: Fraction
    exact: bool

    def __str__(self) -> str:
        return self.text if self.exact else f"{ABOUT} {self.text}"


@dataclass(frozen=True, slots=True)
class Unread:
    """A text that a notation does not read: what is so, and what to try."""

    message: str
    help: str = ""


def write(share: Real, notation: Notation, parts: int = PARTS) -> Written:
    """A share of the whole (0 or more) as the notation writes it, on a tape of so many parts."""
    wanted = Fraction(share)
    if wanted < 0:
        raise ValueError("a reading is of a length that is not negative")
    match notation.way:
        case Way.PLAIN:
            return _plain(nearest_reading(wanted, 1, parts, 0), wanted, parts)
        case Way.FRACTIONS:
            return _fraction(wanted, notation, parts)
        case Way.PARTS:
            counted = to_nearest(wanted * parts, notation.finest)
            return Written(show_fraction(counted), counted / parts, counted == wanted * parts)
        case _:
            return _marks(wanted, notation)


def read_back(text: str, notation: Notation, parts: int = PARTS) -> Fraction | Unread:
    """The share of the whole that a text means in a notation, on a tape of so many parts; exact."""
    plain = " ".join(text.split()).removeprefix(f"{ABOUT} ")
    if not plain:
        return Unread("There is no reading here.")
    match notation.way:
        case Way.PLAIN:
            return _read_plain(plain, parts)
        case Way.FRACTIONS:
            return _read_fraction(plain, notation, parts)
        case Way.PARTS:
            number = read_number(plain)
            if number is None:
                return Unread(f"“{plain}” is no number of parts.", "Write the parts alone, such as 4 1/2.")
            return number / parts
        case _:
            return _read_marks(plain, notation)


# --- plain fractions -----------------------------------------------------------------------------------

_READING = re.compile(
    r"(?:(?P<whole>the whole)|(?P<fraction>[0-9][0-9 /]*?))(?: (?P<joint>and|less) (?P<beside>[^a-z]+) parts?)?"
)
_ALONE = re.compile(r"(?P<parts>[^a-z]+) parts?")


def _plain(reading: Reading, wanted: Fraction, parts: int) -> Written:
    share = value(reading, parts)
    if not reading.fraction:
        return Written(say_parts(reading.parts), share, share == wanted)
    said = "the whole" if reading.fraction == 1 else show_fraction(reading.fraction)
    if reading.parts:
        said += f" {'less' if reading.parts < 0 else 'and'} {say_parts(abs(reading.parts))}"
    return Written(said, share, share == wanted)


def _read_plain(text: str, parts: int) -> Fraction | Unread:
    help_ = "Write a fraction, parts, or both: 1/4, 5 parts, 1/6 and 1 1/2 parts."
    if (found := _ALONE.fullmatch(text)) and (number := read_number(found["parts"])) is not None:
        return number / parts
    if found := _READING.fullmatch(text):
        fraction = Fraction(1) if found["whole"] else read_number(found["fraction"])
        beside = read_number(found["beside"]) if found["beside"] else Fraction(0)
        if fraction is not None and beside is not None:
            share = fraction + (-beside if found["joint"] == "less" else beside) / parts
            return share if share >= 0 else Unread(f"“{text}” comes to less than nothing.", help_)
    return Unread(f"“{text}” is no reading of a tape.", help_)


# --- fractions of a ruler, and what its parts are counted in -------------------------------------------


def _fraction(wanted: Fraction, notation: Notation, parts: int) -> Written:
    if wanted.denominator == 1 or wanted.denominator in notation.denominators:
        return Written(str(wanted), wanted, True)
    counting = notation.counting
    if counting is not None and counting.parts == parts:
        return count(wanted, notation)
    near = min(
        (to_nearest(wanted, Fraction(1, d)) for d in notation.denominators), key=lambda s: abs(s - wanted)
    )
    return Written(str(near), near, False)


def count(share: Real, notation: Notation) -> Written:
    """A share of the whole in the units that the notation counts: `1-9-10`, `0-3-7 2/3`.

    ValueError for a notation that counts in none.
    """
    counting = notation.counting
    if counting is None:
        raise ValueError(f"{notation.title} counts in no units")
    exact = Fraction(share) * counting.parts
    counted = min((to_nearest(exact, Fraction(1, d)) for d in _OF_A_UNIT), key=lambda c: (abs(c - exact), c))
    left = counted
    figures = []
    for size, _ in counting.units[:-1]:
        many, left = divmod(left, size)
        figures.append(str(many))
    figures.append(show_fraction(left / counting.units[-1][0]))
    return Written("-".join(figures), counted / counting.parts, counted == exact)


def _read_fraction(text: str, notation: Notation, parts: int) -> Fraction | Unread:
    counting = notation.counting
    shown = ", ".join(f"1/{d}" for d in sorted(notation.denominators))
    if counting is not None and text.count("-") == len(counting.units) - 1:
        figures = [read_number(figure) for figure in text.split("-")]
        units = "-".join(name for _, name in counting.units)
        if counting.parts != parts:
            return Unread(f"{units} are counted on a tape of {counting.parts} parts; this one has {parts}.")
        if any(figure is None for figure in figures):
            return Unread(f"“{text}” is no {units}.", "Write three figures, such as 1-9-10.")
        sized = zip(figures, counting.units, strict=True)
        return sum((f * size for f, (size, _) in sized if f is not None), Fraction(0)) / counting.parts
    number = read_number(text)
    if number is None:
        return Unread(f"“{text}” is no share of the ruler.", f"Its shares are counted in {shown}.")
    if number.denominator != 1 and number.denominator not in notation.denominators:
        return Unread(f"The ruler is not cut into {number.denominator}.", f"It is cut into {shown}.")
    return number


# --- marks ---------------------------------------------------------------------------------------------


def _marks(wanted: Fraction, notation: Notation) -> Written:
    if not notation.marks:
        raise ValueError(f"{notation.title} has no marks")
    if not wanted:
        return Written("0", wanted, True)
    printed = next((m for m in notation.examples if m.share == wanted), None)
    if printed is not None:
        return Written(printed.sign, wanted, True)
    target = wanted * notation.common
    if notation.way is Way.ALONE or target > _MOST_STEPS:
        near = min(notation.marks, key=lambda m: (abs(m.share - wanted), len(m.sign), m.sign))
        return Written(near.sign, near.share, near.share == wanted)
    middle = to_nearest(target, Fraction(1)).numerator
    for off in range(_REACH):
        tries = (middle,) if not off else (middle - off, middle + off)
        spelled = [(steps, text) for steps in tries if steps > 0 and (text := _spelled(steps, notation))]
        if spelled:
            steps, text = min(spelled, key=lambda found: abs(found[0] - target))
            return Written(text, Fraction(steps, notation.common), steps == target)
    near = min(notation.marks, key=lambda m: (abs(m.share - wanted), len(m.sign), m.sign))
    return Written(near.sign, near.share, False)


Spelling = tuple[NotationMark, ...]


def _order(spelling: Spelling) -> tuple[object, ...]:
    """Which of two spellings is taken: fewer marks, fewer sorts of marks (QQQ is so attested), larger first."""
    sorts = len({m.sign for m in spelling})
    return len(spelling), sorts, tuple(-m.share for m in spelling), tuple(m.sign for m in spelling)


@lru_cache(maxsize=4096)
def _spelled(steps: int, notation: Notation) -> str:
    """The marks for so many smallest steps, in as few as the rule allows; nothing where it allows none."""
    printed = next((m for m in notation.examples if m.share * notation.common == steps), None)
    if printed is not None:
        return printed.sign
    tries = [_sum(steps, notation)]
    if notation.way is Way.BOTH:
        # One run taken away before a larger mark: mo is a sum, ob a whole less an eighth.
        for mark in notation.letters:
            for many in (1, 2, 3):
                more = _sum(steps + many * _size(mark, notation), notation)
                if more and more[0].share > mark.share and mark not in more:
                    tries.append((mark,) * many + more)
    found = [t for t in tries if t]
    if not found:
        return ""
    best = min(found, key=_order)
    joint = "" if all(len(m.sign) == 1 for m in notation.letters) else " "
    return joint.join(m.sign for m in best)


def _size(mark: NotationMark, notation: Notation) -> int:
    return int(mark.share * notation.common)


@lru_cache(maxsize=8192)
def _sum(steps: int, notation: Notation) -> Spelling:
    """So many smallest steps as a sum of marks, the largest first, in as few marks as can be."""
    return _sums(_bucket(steps), notation)[steps] if steps > 0 else ()


def _bucket(steps: int) -> int:
    """The table a number of steps is looked up in: one for all up to the next power of two."""
    return 1 << max(steps, 256).bit_length()


@lru_cache(maxsize=32)
def _sums(most: int, notation: Notation) -> list[Spelling]:
    """For every number of smallest steps up to `most`, its best sum; nothing where there is none."""
    best: list[Spelling] = [()] * (most + 1)
    sizes = [(_size(m, notation), m) for m in notation.letters]
    for steps in range(1, most + 1):
        tries: list[Spelling] = []
        for size, mark in sizes:
            if size == steps:
                tries.append((mark,))
            elif size < steps and (rest := best[steps - size]):
                tries.append(tuple(sorted((mark, *rest), key=lambda m: (-m.share, m.sign))))
        best[steps] = min(tries, key=_order, default=())
    return best


def _read_marks(text: str, notation: Notation) -> Fraction | Unread:
    if text == "0":
        return Fraction(0)
    known = ", ".join(m.sign for m in notation.letters)
    by_sign = {m.sign: m for m in notation.marks}
    if notation.way is Way.ALONE:
        if text in by_sign:
            return by_sign[text].share
        several = made_of(text, list(by_sign))
        help_ = "In this notation each mark stands alone." if several else f"Its marks are {known}."
        return Unread(f"“{text}” is no mark of this notation.", help_)
    signs = made_of(text, [m.sign for m in notation.letters])
    if signs is None:
        return Unread(f"“{text}” is not made of the marks of this notation.", f"They are {known}.")
    found = value_of([by_sign[sign] for sign in signs], notation.way)
    if not found.why:
        return found.share
    if found.why == BELOW:
        return Unread(f"“{text}” comes to less than nothing.")
    if found.why == SEVERAL:
        return Unread(f"“{text}” is several marks, and each stands alone.")
    return Unread(
        f"“{text}” can be read in two ways.",
        "The rule says what stands directly before a larger mark; write the larger marks first, "
        "and at most one smaller one before them.",
    )

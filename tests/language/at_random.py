"""Sentences at random, made from the compiled patterns themselves: every choice, every part left out or not.

Only what can stand in a slot is written here, by kind of slot; a kind of slot that is missing raises.
"""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import strategies as st

from tapewright.language.clause import Clause
from tapewright.language.pattern import (
    Choice,
    Element,
    Flag,
    Maybe,
    OneOf,
    Row,
    Several,
    Slot,
    Words,
    joined,
    listed,
)

Draw = st.DataObject

#: Letters, lines and names that the trial lesson of `test_sentences` has made.
POINTS = ("A", "B", "C", "D")
NEW = ("E", "F", "G", "H1", "K2'")
LINES = ("the waist line", "the back scye", "the front scye", "the side line", "the top line")
AMOUNTS = ("the depth", "the excess", "the bust", "the scye depth", "the ease", "the cross back")
ANGLES = ("15 degrees", "half the corner A-B-D", "20 degrees less 3 degrees")
TAPES = ("bust tape", "neck tape")
NUMBERS = ("2", "1 1/2", "3/4", "2.5", "0.35", "12")
FRACTIONS = ("half", "a third", "two thirds", "1/4", "3/8", "17/48", "a twelfth", "twice", "3 times")


def _one(data: Draw, options: tuple[str, ...]) -> str:
    return data.draw(st.sampled_from(options))


def _length(data: Draw) -> str:
    return f"{_one(data, NUMBERS)} {_one(data, ('cm', 'mm', 'in', 'parts'))}"


def _ruler(data: Draw) -> str:
    a = data.draw(st.integers(0, 3))
    return f"{POINTS[a]}-{POINTS[(a + data.draw(st.integers(1, 3))) % 4]}"


def _reading(data: Draw) -> str:
    fraction = _one(data, ("1/4", "1/6", "1/12", "7/24", "a third and a twelfth"))
    reading = f"{fraction} of the {_one(data, TAPES)}"
    more = _one(data, ("", "", " and 1 1/2 parts", " less 1 part"))
    return reading + more


def _term(data: Draw) -> str:
    sort = data.draw(st.integers(0, 8))
    if sort == 0:
        return _ruler(data)
    if sort == 1:
        return _one(data, LINES)
    if sort == 2:
        return _one(data, AMOUNTS)
    if sort == 3:
        return _reading(data)
    if sort == 4:
        fraction = _one(data, FRACTIONS)
        of = " of " if data.draw(st.booleans()) and fraction not in {"twice", "3 times"} else " "
        if fraction[0].isdigit() and "/" in fraction:
            of = " of "
        return fraction + of + _one(data, (_ruler(data), *AMOUNTS))
    if sort == 5:
        return f"along {_one(data, LINES)} from {_one(data, POINTS)} to {_one(data, POINTS)}"
    if sort == 6:
        return f"half ({_one(data, AMOUNTS)} {_one(data, ('plus', 'less'))} {_length(data)})"
    return _length(data)


def _total(data: Draw) -> str:
    terms = [_term(data)]
    for _ in range(data.draw(st.integers(0, 2))):
        terms += [_one(data, ("plus", "less")), _term(data)]
    return " ".join(terms)


def _amount(data: Draw) -> str:
    said = _total(data)
    if data.draw(st.integers(0, 5)) == 0:
        said = f"{_one(data, ('the scye depth', 'half the bust'))} if taken, otherwise {_total(data)}"
    if data.draw(st.integers(0, 5)) == 0:
        said += f", but not {_one(data, ('more', 'less'))} than {_total(data)}"
    return said


def _path(data: Draw) -> str:
    return _one(data, (*LINES, _ruler(data), "the curve A-D"))


def _line(data: Draw) -> str:
    return _path(data) + _one(data, ("", "", " carried on"))


def _toward(data: Draw) -> str:
    return "toward " + _one(
        data, (*POINTS, "the centre back", "the centre front", "the left", "the waist line")
    )


def _way(data: Draw) -> str:
    return _one(
        data,
        (
            "up", "down", "left", "right", "across", _toward(data),
            f"along {_line(data)}",
            f"square to {_ruler(data)} {_toward(data)}",
            f"at {_one(data, ANGLES)} from {_ruler(data)} {_toward(data)}",
            "into the corner A-B-D",
            f"both ways along {_line(data)}",
        ),
    )  # fmt: skip


def _crossing(data: Draw) -> str:
    near = _one(data, ("nearer", "farther from"))
    side = _one(data, ("upper", "lower", "left", "right"))
    return _one(data, (f"the crossing {near} {_one(data, POINTS)}", f"the {side} crossing"))


def _end(data: Draw) -> str:
    return _line(data) + _one(data, ("", ", " + _crossing(data)))


def _leaning(data: Draw) -> str:
    how = _one(
        data,
        ("level", "plumb", _toward(data), f"along {_line(data)}", f"square to {_ruler(data)}",
         f"square to {_ruler(data)} {_toward(data)}"),
    )  # fmt: skip
    return f"{_one(data, ('leaving', 'passing', 'reaching'))} {_one(data, POINTS)} {how}"


def _edge(data: Draw) -> str:
    piece = f"{_one(data, LINES)} from {_one(data, POINTS)} to {_one(data, POINTS)}"
    return _one(data, (*LINES, _ruler(data), "the curve A-D", f"along {piece}"))


def _claim(data: Draw) -> str:
    between = f"is between {_total(data)} and {_total(data)}"
    plain = _one(data, ("is", "is at least", "is at most"))
    return _one(
        data,
        (
            f"{_total(data)} {plain} {_total(data)}",
            f"{_total(data)} is {_total(data)}, within {_length(data)}",
            f"{_total(data)} is longer than {_total(data)} by 4 mm to 7 mm",
            f"{_total(data)} {between}",
            "the corner A-B-D is square",
            f"{_one(data, POINTS)} lies on {_path(data)}",
            "the back scye and the front scye run on smoothly at A and B",
            f"{_ruler(data)} is the same on both sides",
        ),
    )


def _turning(data: Draw) -> str:
    left = _one(data, ("nothing", "1 cm", "3/4 in", "2 parts"))
    if left != "nothing":
        left += _one(data, ("", " squared", " turned up", " to lap"))
    left = _one(data, (left, "enough to whip", 'the turnings of "Vincent\'s inlays"'))
    where = _one(
        data, ("everywhere", "elsewhere", f"at {_edge(data)}", f"at {_edge(data)} and {_edge(data)}")
    )
    return f"{left} {where}"


_SLOTS: dict[str, Callable[[Draw], str]] = {
    "point": lambda d: _one(d, POINTS),
    "new": lambda d: _one(d, NEW),
    "name": lambda d: _one(d, (*LINES, *AMOUNTS, "the front")),
    "newname": lambda d: _one(d, ("the far", "the little far", "the far 2")),
    "setting": lambda d: f"the ease at {_length(d)}",
    "place": lambda d: f"the {_one(d, ('centre back', 'side', 'fold'))} on the {_one(d, ('left', 'right'))}",
    "amount": _amount,
    "reach": lambda d: _one(d, (_amount(d), "1/2 in left", "2 parts toward A")),
    "portion": lambda d: f"{_one(d, ('half', 'a third', '1/4', 'half plus 1 in', 'the rest'))} as the share {_one(d, ('1', '2', '3'))}",
    "between": lambda d: f"{_total(d)} and {_total(d)}",
    "ruler": _ruler,
    "newruler": lambda d: "E-F",
    "corner": lambda d: "the corner A-B-D",
    "path": _path,
    "line": _line,
    "thing": _path,
    "compass": lambda d: _one(d, ("up", "down", "left", "right", "across")),
    "end": _end,
    "crossing": _crossing,
    "way": _way,
    "toward": _toward,
    "leaning": _leaning,
    "run": lambda d: f"to {_one(d, POINTS)}" + _one(d, ("", f" by {_path(d)}")),
    "edge": _edge,
    "cutting": lambda d: f"{_one(d, ('once', 'twice', '4 times'))} of {_one(d, ('cloth', 'lining'))}",
    "turning": _turning,
    "markat": lambda d: f"{_edge(d)} at {_one(d, POINTS)}"
    if d.draw(st.booleans())
    else f"{_edge(d)} at {_total(d)} from {_one(d, POINTS)}",
    "marked": lambda d: _one(d, POINTS) if d.draw(st.booleans()) else _edge(d),
    "landmark": lambda d: _one(d, ("the nape", "the neck point", "the waist in front")),
    "ware": lambda d: _one(d, ("braid", "buttons", "covered buttons")),
    "claim": _claim,
    "number": lambda d: _one(d, ("2", "3", "4")),
    "quoted": lambda d: '"turnover"',
}  # fmt: skip


def sentence_of(kind: type[Clause], data: Draw) -> str:
    """A sentence of a kind, without its full stop."""
    return joined(_said(kind.pattern, data))


def _said(piece: Element, data: Draw) -> list[str]:
    match piece:
        case Words(shown):
            return list(shown)
        case Row(pieces):
            return [word for one in pieces for word in _said(one, data)]
        case Maybe(inner):
            return _said(inner, data) if data.draw(st.booleans()) else []
        case Choice(pieces):
            return _said(pieces[data.draw(st.integers(0, len(pieces) - 1))], data)
        case Flag(_, words):
            return list(words.shown) if data.draw(st.booleans()) else []
        case OneOf(_, options):
            return list(data.draw(st.sampled_from(options)).shown)
        case Slot(_, kind_name):
            return [_SLOTS[kind_name](data)]
        case Several(_, kind_name, _, commas):
            said = [_SLOTS[kind_name](data) for _ in range(data.draw(st.integers(1, 3)))]
            return [", ".join(said) if commas else listed(said)]
        case _:
            raise AssertionError(f"a piece of a pattern that is not known here: {piece!r}")

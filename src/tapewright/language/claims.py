"""Claims (`See that ...`) and conditions (`If ...`): read and printed."""

from __future__ import annotations

from typing import Any

from tapewright.language import amounts, edges, references, saying, ways
from tapewright.language.pattern import Expected, Stream, Style, listed
from tapewright.language.tokens import Sort
from tapewright.language.tree import Amount, CornerRef
from tapewright.language.tree_claims import (
    ChoiceIs,
    Claim,
    Compared,
    Condition,
    InRange,
    LiesOn,
    LongerBy,
    RunsOn,
    SameBothSides,
    SquareCorner,
)

Read = tuple[Any, int] | None

# How an amount may be compared: the words after `is`, and the relation they name.
RELATIONS = (
    (("at", "least"), "at least"),
    (("not", "less", "than"), "at least"),
    (("at", "most"), "at most"),
    (("not", "more", "than"), "at most"),
    (("more", "than"), "more than"),
    (("greater", "than"), "more than"),
    (("less", "than"), "less than"),
)


def claim(stream: Stream, at: int) -> Read:
    """One claim, to the end of what can be read."""
    for reader in (_square_corner, _lies_on, _runs_on):
        found = reader(stream, at)
        if found is not None:
            return found
    left = amounts.total(stream, at)
    if left is None:
        return None
    if stream.word(left[1]) not in {"is", "are"}:
        stream.want(left[1], Expected(words="is"))
        return None
    return _after_is(stream, at, left[0], left[1] + 1)


def _square_corner(stream: Stream, at: int) -> Read:
    if stream.word(at) != "corner":
        return None
    corner = references.ruler(stream, at + 1)
    if isinstance(corner, CornerRef) and stream.word(at + 2) == "is":
        stream.may(at + 3, "square")
    if isinstance(corner, CornerRef) and stream.word(at + 2) == "is" and stream.word(at + 3) == "square":
        return SquareCorner(corner, stream.span(at, at + 4)), at + 4
    return None


def _lies_on(stream: Stream, at: int) -> Read:
    point = references.letter(stream, at)
    if point is None:
        return None
    if stream.word(at + 1) != "lies" or stream.word(at + 2) != "on":
        stream.want(at + 1, Expected(words="lies on"))
        return None
    line = ways.read_line(stream, at + 3)
    return None if line is None else (LiesOn(point, line[0], stream.span(at, line[1])), line[1])


def _runs_on(stream: Stream, at: int) -> Read:
    found: list[Any] = []
    end = at
    while (one := edges.edge(stream, end)) is not None:
        found.append(one[0])
        end = one[1]
        if stream.word(end) not in {"and", ","}:
            break
        end += 1
    if found:
        stream.may(end, "and", "run on smoothly at")
    if not found or stream.word(end) not in {"run", "runs"} or stream.word(end + 1) != "on":
        return None
    end += 2
    if stream.word(end) == "smoothly":
        end += 1
    if stream.word(end) != "at":
        stream.want(end, Expected(words="smoothly at"))
        return None
    points = []
    end += 1
    while (point := references.letter(stream, end)) is not None:
        points.append(point)
        end += 1
        if stream.word(end) not in {"and", ","}:
            break
        end += 1
    if not points:
        return None
    return RunsOn(tuple(found), tuple(points), stream.span(at, end)), end


def _after_is(stream: Stream, start: int, left: Amount, at: int) -> Read:
    word = stream.word(at)
    if word == "same" and [stream.word(at + k) for k in (1, 2, 3)] == ["on", "both", "sides"]:
        return SameBothSides(left, stream.span(start, at + 4)), at + 4
    if word == "between":
        ends = amounts.between(stream, at + 1)
        if ends is None:
            return None
        return InRange(left, *ends[0], stream.span(start, ends[1])), ends[1]
    if word in {"longer", "shorter"}:
        return _longer(stream, start, left, at)
    stream.may(at, "between", "longer than", "the same on both sides")
    relation, at = _relation(stream, at)
    right = amounts.limited(stream, at)
    if right is None:
        return None
    within, end = None, right[1]
    look = end + 1 if stream.word(end) == "," else end
    if stream.word(look) == "within":
        allowed = amounts.total(stream, look + 1)
        if allowed is None:
            return None
        within, end = allowed
    else:
        stream.want(end, Expected(words=", within"))
        stream.may(look, "within")
    return Compared(left, relation, right[0], within, stream.span(start, end)), end


def _relation(stream: Stream, at: int) -> tuple[str, int]:
    for words, relation in RELATIONS:
        for k in range(len(words)):
            if all(stream.word(at + i) == word for i, word in enumerate(words[:k])):
                stream.may(at + k, " ".join(words[k:]))
        if all(stream.word(at + k) == w for k, w in enumerate(words)):
            return relation, at + len(words)
    return "is", at + 3 if [stream.word(at + k) for k in range(3)] == ["as", "long", "as"] else at


def _longer(stream: Stream, start: int, left: Amount, at: int) -> Read:
    if stream.word(at + 1) != "than":
        stream.want(at + 1, Expected(words="than"))
        return None
    right = amounts.total(stream, at + 2)
    if right is None:
        return None
    pair = (left, right[0]) if stream.word(at) == "longer" else (right[0], left)
    end = right[1]
    stream.may(end, "by")
    if stream.word(end) != "by":
        return LongerBy(*pair, None, None, stream.span(start, end)), end
    low = amounts.total(stream, end + 1)
    if low is None:
        return None
    if stream.word(low[1]) != "to":
        return LongerBy(*pair, low[0], None, stream.span(start, low[1])), low[1]
    high = amounts.total(stream, low[1] + 1)
    if high is None:
        return None
    return LongerBy(*pair, amounts.like(low[0], high[0]), high[0], stream.span(start, high[1])), high[1]


def condition(stream: Stream, at: int) -> tuple[Condition, int] | None:
    """What follows `If`: a comparison of two amounts, or a choice of the By eye list."""
    token = stream.token(at)
    if token is not None and stream.word(at + 1) in {"is", "are"}:
        word = stream.token(at + 2)
        closes = stream.word(at + 3) == ","
        if word is not None and word.sort is Sort.WORD and closes:
            name = edges.cloth_name(stream, at)
            if name is not None:
                return ChoiceIs(name[0], word.text, stream.span(at, at + 3)), at + 3
    left = amounts.total(stream, at)
    if left is None:
        return None
    if stream.word(left[1]) not in {"is", "are"}:
        stream.want(left[1], Expected(words="is"))
        return None
    relation, end = _relation(stream, left[1] + 1)
    right = amounts.total(stream, end)
    if right is None:
        return None
    return Compared(left[0], relation, right[0], None, stream.span(at, right[1])), right[1]


def show_condition(node: Condition, style: Style) -> str:
    """A condition as it is written after `If`."""
    if isinstance(node, ChoiceIs):
        return f"{saying.show(node.name, style)} is {node.choice}"
    return show_claim(node, style)


def show_claim(node: Claim, style: Style) -> str:
    """A claim as it is written after `See that`."""

    def say(amount: Amount) -> str:
        return saying.show(amount, style)

    match node:
        case Compared(left, relation, right, within):
            word = "is" if relation == "is" else f"is {relation}"
            tail = "" if within is None else f", within {say(within)}"
            return f"{say(left)} {word} {say(right)}{tail}"
        case InRange(amount, low, high):
            return f"{say(amount)} is between {saying.show_between(low, high, style)}"
        case LongerBy(longer, shorter, low, high):
            by = "" if low is None else f" by {say(low)}"
            to = "" if high is None else f" to {say(high)}"
            return f"{say(longer)} is longer than {say(shorter)}{by}{to}"
        case SquareCorner(corner):
            return f"{say(corner)} is square"
        case LiesOn(point, line):
            return f"{saying.letter(point)} lies on {ways.show_line(line, style)}"
        case RunsOn(found, points):
            where = listed([saying.letter(p) for p in points])
            return f"{listed([edges.show_edge(e, style) for e in found])} run on smoothly at {where}"
        case SameBothSides(amount):
            return f"{say(amount)} is the same on both sides"

"""Edges: of outlines, of seams, of turnings and marks; and what is cut from which cloth."""

from __future__ import annotations

from typing import Any

from tapewright.language import amounts, references, saying
from tapewright.language.pattern import Expected, Stream, Style, listed
from tapewright.language.tokens import Sort
from tapewright.language.tree import (
    Along,
    Cutting,
    Edge,
    EdgeRun,
    MarkAt,
    NameRef,
    Path,
    Turning,
    Unknown,
)

Read = tuple[Any, int] | None


def edge_run(stream: Stream, at: int) -> Read:
    """`to N by the back neck`, `to S`: one edge of an outline; the word `to` included."""
    if stream.word(at) != "to":
        stream.want(at, Expected(words="to"))
        return None
    point = references.letter(stream, at + 1)
    if point is None:
        stream.want(at + 1, Expected(kind="point"))
        return None
    end = at + 2
    if stream.word(end) != "by":
        stream.want(end, Expected(words="by"))
        return EdgeRun(point, None, stream.span(at, end)), end
    line = references.path(stream, end + 1)
    if line is None:
        stream.want(end + 1, Expected(kind="path"))
        return None
    return EdgeRun(point, line[0], stream.span(at, line[1])), line[1]


def show_edge_run(node: EdgeRun, style: Style) -> str:
    return f"to {saying.letter(node.to)}" + ("" if node.by is None else f" by {saying.show_path(node.by)}")


def edge(stream: Stream, at: int) -> Read:
    """An edge of a piece: a name, `V'-U'`, `the curve A-B`, `the back scye from K to L`.

    `along` before a piece of a line is understood too.
    """
    found = references.path(stream, at + 1 if stream.word(at) == "along" else at)
    if found is None:
        return None
    node, end = found
    if stream.word(end) == "from":
        start, stop = references.letter(stream, end + 1), references.letter(stream, end + 3)
        if start is not None and stop is not None and stream.word(end + 2) == "to":
            return Along(node, start, stop, stream.span(at, end + 4)), end + 4
    return node, end


def show_edge(node: Path | Along, style: Style) -> str:
    if isinstance(node, Along):
        return f"{saying.show_path(node.path)} from {saying.letter(node.start)} to {saying.letter(node.end)}"
    return saying.show_path(node)


def cutting(stream: Stream, at: int) -> Read:
    """`twice of cloth`, `10 times of canvas`."""
    found = count(stream, at)
    if found is None:
        return None
    number, end = found
    if stream.word(end) != "of":
        stream.want(end, Expected(words="of"))
        return None
    cloth = cloth_name(stream, end + 1)
    if cloth is None:
        stream.want(end + 1, Expected(kind="cloth"))
        return None
    return Cutting(number, cloth[0], stream.span(at, cloth[1])), cloth[1]


def cloth_name(stream: Stream, at: int) -> tuple[NameRef | Unknown, int] | None:
    """A cloth by its name."""
    token = stream.token(at)
    if token is not None and token.sort is Sort.NAME:
        return NameRef(token.text, token.span), at + 1
    return references.unknown(stream, at)


def count(stream: Stream, at: int) -> tuple[int, int] | None:
    """`once`, `twice`, `10 times`."""
    word = stream.word(at)
    if word in {"once", "twice"}:
        return (1 if word == "once" else 2), at + 1
    value = amounts.count_word(stream, at)
    if value is None or value.denominator != 1 or stream.word(at + 1) not in {"times", "time"}:
        for wanted in ("once", "twice"):
            stream.want(at, Expected(words=wanted))
        return None
    return int(value), at + 2


def show_cutting(node: Cutting, style: Style) -> str:
    """`twice of cloth`."""
    times = {1: "once", 2: "twice"}.get(node.count, f"{node.count} times")
    cloth = node.cloth.words if isinstance(node.cloth, Unknown) else node.cloth.name
    return f"{times} of {cloth}"


def turning(stream: Stream, at: int) -> Read:
    """`2 cm at the side and the shoulder`, `1 cm elsewhere`, `nothing everywhere`."""
    amount = None
    if stream.word(at) == "nothing":
        end = at + 1
    else:
        found = amounts.total(stream, at)
        if found is None:
            stream.want(at, Expected(words="nothing everywhere"))
            return None
        amount, end = found
    word = stream.word(end)
    if word in {"everywhere", "elsewhere"}:
        return Turning(amount, (), word, stream.span(at, end + 1)), end + 1
    if word != "at":
        for wanted in ("everywhere", "elsewhere", "at"):
            stream.want(end, Expected(words=wanted))
        return None
    edges: list[Edge] = []
    end += 1
    while True:
        step = end + 1 if edges and stream.word(end) == "," else end
        if edges and stream.word(step) == "and":
            step += 1
        if edges and (step == end or amounts.count_word(stream, step) is not None):
            break
        if stream.word(step) == "nothing":
            break
        more = edge(stream, step)
        if edges:
            stream.may(end, ",", "and")
        # A name before `at` or `elsewhere` is no edge: it is how much is left at the next ones.
        if more is None or (edges and stream.word(more[1]) in {"at", "elsewhere", "everywhere"}):
            break
        edges.append(more[0])
        end = more[1]
    if not edges:
        stream.want(end, Expected(kind="edge"))
        return None
    return Turning(amount, tuple(edges), "", stream.span(at, end)), end


def show_turning(node: Turning, style: Style) -> str:
    """`2 cm at the side and the shoulder`."""
    amount = "nothing" if node.amount is None else saying.show(node.amount, style)
    if node.rest:
        return f"{amount} {node.rest}"
    return f"{amount} at {listed([show_edge(e, style) for e in node.at])}"


def mark_at(stream: Stream, at: int) -> Read:
    """`the shoulder at 1 in from N`, `the back scye at T`."""
    found = edge(stream, at)
    if found is None:
        return None
    node, end = found
    if stream.word(end) != "at":
        stream.want(end, Expected(words="at"))
        return None
    point = references.letter(stream, end + 1)
    if point is not None:
        return MarkAt(node, point, None, stream.span(at, end + 2)), end + 2
    distance = amounts.total(stream, end + 1)
    if distance is None:
        return None
    if stream.word(distance[1]) != "from":
        stream.want(distance[1], Expected(words="from"))
        return None
    origin = references.letter(stream, distance[1] + 1)
    if origin is None:
        stream.want(distance[1] + 1, Expected(kind="point"))
        return None
    end = distance[1] + 2
    return MarkAt(node, origin, distance[0], stream.span(at, end)), end


def show_mark_at(node: MarkAt, style: Style) -> str:
    """`the shoulder at 1 in from N`."""
    place = saying.letter(node.point)
    if node.distance is not None:
        place = f"{saying.show(node.distance, style)} from {place}"
    return f"{show_edge(node.edge, style)} at {place}"

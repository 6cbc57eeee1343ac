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
    PointRef,
    Turning,
    Unknown,
)

Read = tuple[Any, int] | None
#: How many words say what is set along an edge, at the most.
LONGEST_WARE = 3


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


#: How the corners at the ends of a turning are cut.
CORNERS = ("mitred", "squared", "blunted", "turned up", "turned in")
#: How an edge is finished; `enough to lap` leaves what that finish usually takes.
FINISHES = ("to whip", "to lap", "to bag", "to fell")


_ALL = (*CORNERS, *FINISHES)
#: What shows that a name was no edge but how much is left at the next ones.
_NO_EDGE = frozenset({"at", "elsewhere", "everywhere"})


#: What some write first, before they say on which edge.
_NO_EDGES_NAME = frozenset(
    {"notch", "notches", "nick", "nicks", "mark", "marks", "balance mark", "balance marks"}
)


def _finish(stream: Stream, at: int, options: tuple[str, ...]) -> tuple[str, int]:
    """One of some finishes, or nothing."""
    for words in options:
        count = words.count(" ") + 1
        if all(stream.word(at + k) == word for k, word in enumerate(words.split())):
            return words, at + count
    return "", at


def turning(stream: Stream, at: int) -> Read:
    """`2 cm at the side`, `4 cm turned up at the hem`, `enough to lap at the edge`, `nothing everywhere`."""
    amount, finish, table = None, "", ""
    if stream.word(at) == "nothing":
        end = at + 1
    elif stream.word(at) == "enough":
        finish, end = _finish(stream, at + 1, FINISHES)
        if not finish:
            for wanted in FINISHES:
                stream.want(at + 1, Expected(words=wanted))
            return None
    elif stream.word(at) == "turnings" and stream.word(at + 1) == "of":
        token = stream.token(at + 2)
        if token is None or token.sort is not Sort.QUOTED:
            stream.want(at + 2, Expected(kind="quoted"))
            return None
        table, end = token.text, at + 3
    else:
        found = amounts.total(stream, at)
        if found is None:
            stream.want(at, Expected(words="nothing everywhere"))
            return None
        amount, end = found
        finish, end = _finish(stream, end, (*CORNERS, *FINISHES))
    word = stream.word(end)
    if word in {"everywhere", "elsewhere"}:
        return Turning(amount, (), word, stream.span(at, end + 1), finish, table), end + 1
    if word != "at":
        for wanted in ("everywhere", "elsewhere", "at"):
            stream.want(end, Expected(words=wanted))
        if amount is not None and not finish:
            for wanted in (*CORNERS, *FINISHES):
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
        if stream.word(step) in {"nothing", "enough", "turnings"}:
            break
        more = edge(stream, step)
        if edges:
            stream.may(end, ",", "and")
        # A name before `at` or `elsewhere` is no edge: it is how much is left at the next ones.
        if more is None or (
            edges and (stream.word(more[1]) in _NO_EDGE or _finish(stream, more[1], _ALL)[0])
        ):
            break
        edges.append(more[0])
        end = more[1]
    if not edges:
        stream.want(end, Expected(kind="edge"))
        return None
    return Turning(amount, tuple(edges), "", stream.span(at, end), finish, table), end


def show_turning(node: Turning, style: Style) -> str:
    """`2 cm at the side and the shoulder`."""
    if node.table:
        amount = f'the turnings of "{node.table}"'
    elif node.amount is None:
        amount = f"enough {node.finish}" if node.finish else "nothing"
    else:
        amount = f"{saying.show(node.amount, style)} {node.finish}".rstrip()
    if node.rest:
        return f"{amount} {node.rest}"
    return f"{amount} at {listed([show_edge(e, style) for e in node.at])}"


def marked(stream: Stream, at: int) -> Read:
    """What is marked within a piece: a letter, a line by its name, a ruler."""
    point = references.letter(stream, at)
    return (point, at + 1) if point is not None else edge(stream, at)


def show_marked(node: Edge | PointRef, style: Style) -> str:
    return saying.letter(node) if isinstance(node, PointRef) else show_edge(node, style)


#: The places of the body that letters can stand for, in the words of the trade.
LANDMARKS = (
    "nape",
    "neck point",
    "front neck point",
    "shoulder point",
    "underarm point",
    "bust point",
    "waist in front",
)


def landmark(stream: Stream, at: int) -> Read:
    """A place of the body; its words may be part of a name that the lesson made, such as the front neck."""
    words: list[str] = []
    end, found = at, None
    while (token := stream.token(end)) is not None and len(words) < LONGEST_WARE:
        words += token.text.lower().split()
        end += 1
        if " ".join(words) in LANDMARKS:
            found = " ".join(words), end
    if found is None:
        for wanted in LANDMARKS:
            stream.want(at, Expected(words=wanted))
    return found


def _begins_an_amount(stream: Stream, at: int) -> bool:
    """Whether how far apart, or how many, begins here; what could have stood there is nobody's business yet."""
    aside = Stream(stream.tokens)
    found = amounts.total(aside, at)
    # A name that nobody made is read as an amount that is not known: here it is the ware.
    known = found is not None and not isinstance(found[0], Unknown)
    return known or amounts.count_word(aside, at) is not None


def ware(stream: Stream, at: int) -> Read:
    """What is set along an edge, in up to three plain words: `braid`, `covered buttons`."""
    words: list[str] = []
    end = at
    while len(words) < LONGEST_WARE:
        token = stream.token(end)
        if token is None or token.sort is not Sort.WORD or _begins_an_amount(stream, end):
            break
        words.append(token.text)
        end += 1
    return (" ".join(words), end) if words else None


def mark_at(stream: Stream, at: int) -> Read:
    """`the shoulder at 1 in from N`, `the back scye at T`."""
    found = edge(stream, at)
    if found is None:
        return None
    node, end = found
    if isinstance(node, Unknown) and node.words in _NO_EDGES_NAME:
        stream.want(at, Expected(kind="edge"))
        return None
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

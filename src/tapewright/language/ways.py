"""Ways, ends and leanings: which way to go, on which line it ends, how a curve leaves its letters."""

from __future__ import annotations

from typing import Any

from tapewright.language import amounts, references, saying
from tapewright.language.pattern import Expected, Stream, Style
from tapewright.language.tree import (
    AlongLine,
    Amount,
    AtAngle,
    BareWay,
    Compass,
    CornerRef,
    Crossing,
    End,
    IntoCorner,
    Leaning,
    LineRef,
    NameRef,
    Offset,
    PointRef,
    Ruler,
    SquareTo,
    Toward,
    Unknown,
    Way,
)

Read = tuple[Any, int] | None

COMPASS = ("up", "down", "left", "right", "across")
BARE_WAYS = ("in", "out", "back", "forward", "backward", "inward", "outward")


def read_corner(stream: Stream, at: int) -> Read:
    found = references.ruler(stream, at)
    return (found, at + 1) if isinstance(found, CornerRef) else None


def read_line(stream: Stream, at: int) -> Read:
    found = references.path(stream, at)
    if found is None:
        stream.want(at, Expected(kind="line"))
        return None
    node, end = found
    carried = stream.word(end) == "carried" and stream.word(end + 1) == "on"
    if carried:
        end += 2
    else:
        stream.want(end, Expected(words="carried on"))
    return LineRef(node, carried, stream.span(at, end)), end


def show_line(node: LineRef, style: Style) -> str:
    return saying.show_path(node.path) + (" carried on" if node.carried_on else "")


def read_compass(stream: Stream, at: int) -> Compass | None:
    word = stream.word(at)
    return Compass(word, stream.span(at, at + 1)) if word in COMPASS else None


def read_toward(stream: Stream, at: int) -> tuple[Toward, int] | None:
    if stream.word(at) not in {"toward", "towards"}:
        return None
    here = at + 1
    point = references.letter(stream, here)
    if point is not None:
        return Toward(point, stream.span(at, here + 1)), here + 1
    compass = read_compass(stream, here)
    if compass is not None:
        return Toward(compass, stream.span(at, here + 1)), here + 1
    found = references.path(stream, here)
    if found is None or not isinstance(found[0], NameRef | Ruler | Unknown):
        stream.want(here, Expected(kind="target"))
        return None
    return Toward(found[0], stream.span(at, found[1])), found[1]


def show_toward(node: Toward) -> str:
    return "toward " + _show_target(node.target)


def _show_target(target: PointRef | NameRef | Ruler | Compass | Unknown) -> str:
    match target:
        case PointRef():
            return saying.letter(target)
        case Compass(word):
            return f"the {word}" if word in {"left", "right"} else word
        case _:
            return saying.show_path(target)


def read_way(stream: Stream, at: int) -> Read:
    word = stream.word(at)
    compass = read_compass(stream, at)
    if compass is not None:
        return compass, at + 1
    if word in {"toward", "towards"}:
        return read_toward(stream, at)
    if word == "both" and stream.word(at + 1) == "ways" and stream.word(at + 2) == "along":
        line = read_line(stream, at + 3)
        return None if line is None else (AlongLine(line[0], True, stream.span(at, line[1])), line[1])
    if word == "along":
        line = read_line(stream, at + 1)
        return None if line is None else (AlongLine(line[0], False, stream.span(at, line[1])), line[1])
    if word == "square" and stream.word(at + 1) == "to":
        return _square_to(stream, at)
    if word == "at":
        return _at_angle(stream, at)
    if word == "into" and stream.word(at + 1) == "corner":
        corner = read_corner(stream, at + 2)
        if corner is None:
            stream.want(at + 2, Expected(kind="corner"))
        return None if corner is None else (IntoCorner(corner[0], stream.span(at, at + 3)), at + 3)
    if word in BARE_WAYS:
        return BareWay(word, stream.span(at, at + 1)), at + 1
    for wanted in (*COMPASS, "toward", "along", "square to", "at", "into the corner"):
        stream.want(at, Expected(words=wanted))
    return None


def _square_to(stream: Stream, at: int) -> Read:
    line = references.path(stream, at + 2)
    if line is None:
        stream.want(at + 2, Expected(kind="path"))
        return None
    stream.may(line[1], "toward")
    toward = read_toward(stream, line[1])
    end = line[1] if toward is None else toward[1]
    return SquareTo(line[0], None if toward is None else toward[0], stream.span(at, end)), end


def _at_angle(stream: Stream, at: int) -> Read:
    angle = amounts.total(stream, at + 1)
    if angle is None:
        return None
    if stream.word(angle[1]) != "from":
        stream.may(angle[1], "from")
        return None
    line = references.path(stream, angle[1] + 1)
    if line is None:
        stream.want(angle[1] + 1, Expected(kind="path"))
        return None
    stream.may(line[1], "toward")
    toward = read_toward(stream, line[1])
    end = line[1] if toward is None else toward[1]
    return AtAngle(angle[0], line[0], None if toward is None else toward[0], stream.span(at, end)), end


def show_way(node: Way, style: Style) -> str:
    match node:
        case Compass(word) | BareWay(word):
            return word
        case Toward():
            return show_toward(node)
        case AlongLine(line, both):
            return ("both ways along " if both else "along ") + show_line(line, style)
        case SquareTo(line, toward):
            side = "" if toward is None else " " + show_toward(toward)
            return f"square to {saying.show_path(line)}{side}"
        case AtAngle(angle, line, toward):
            side = "" if toward is None else " " + show_toward(toward)
            return f"at {saying.show(angle, style)} from {saying.show_path(line)}{side}"
        case IntoCorner(corner):
            return f"into {saying.show(corner, style)}"


def read_crossing(stream: Stream, at: int) -> Read:
    """`crossing nearer B`, `nearer B`, `farther from B`, `upper crossing`; articles are gone already."""
    here = at + 1 if stream.word(at) == "crossing" else at
    word = stream.word(here)
    if word in {"nearer", "farther", "nearest", "farthest"}:
        after = here + 1
        if stream.word(after) in {"from", "to"}:
            after += 1
        point = references.letter(stream, after)
        if point is None:
            stream.want(after, Expected(kind="point"))
            return None
        which = "nearer" if word.startswith("near") else "farther"
        return Crossing(which, point, stream.span(at, after + 1)), after + 1
    if word in {"upper", "lower", "left", "right"} and stream.word(here + 1) == "crossing":
        return Crossing(word, None, stream.span(at, here + 2)), here + 2
    for wanted in (
        "the crossing nearer",
        "the crossing farther from",
        "the upper crossing",
        "the lower crossing",
    ):
        stream.want(at, Expected(words=wanted))
    stream.may(at, "the left crossing", "the right crossing")
    return None


def show_crossing(node: Crossing) -> str:
    """A crossing as it is written after its comma."""
    if node.point is None:
        return f"the {node.which} crossing"
    return (
        f"the crossing {node.which} {'from ' if node.which == 'farther' else ''}{saying.letter(node.point)}"
    )


def read_end(stream: Stream, at: int) -> Read:
    line = read_line(stream, at)
    if line is None:
        return None
    node, end = line
    crossing = None
    stream.may(end, ",")
    if stream.word(end) == ",":
        found = read_crossing(stream, end + 1)
        if found is not None:
            crossing, end = found
    return End(node, crossing, stream.span(at, end)), end


def show_end(node: End, style: Style) -> str:
    crossing = "" if node.crossing is None else ", " + show_crossing(node.crossing)
    return show_line(node.line, style) + crossing


def read_reach(stream: Stream, at: int) -> Read:
    """How far: an amount, several, or two offsets (`1/2 in left and 1 in down`)."""
    found = amounts.limited(stream, at)
    if found is None:
        return None
    node, end = found
    stream.may(end, "up", "down", "left", "right", "toward")
    way = _offset_way(stream, end)
    if way is None:
        return node, end
    return Offset(node, way[0], stream.span(at, way[1])), way[1]


def _offset_way(stream: Stream, at: int) -> tuple[Compass | Toward, int] | None:
    compass = read_compass(stream, at)
    if compass is not None:
        return compass, at + 1
    return read_toward(stream, at)


def show_reach(node: Amount | Offset, style: Style) -> str:
    if isinstance(node, Offset):
        return f"{saying.show(node.amount, style)} {show_way(node.way, style)}"
    # A distance copied is said as one; any other amount speaks for itself.
    copied = "as long as " if isinstance(node, Ruler) else ""
    return copied + saying.show(node, style)


def read_leaning(stream: Stream, at: int) -> Read:
    verb = stream.word(at)
    if verb not in {"leaving", "passing", "reaching"}:
        for wanted in ("leaving", "passing", "reaching", "bending both ways"):
            stream.want(at, Expected(words=wanted))
        return None
    point = references.letter(stream, at + 1)
    if point is None:
        stream.want(at + 1, Expected(kind="point"))
        return None
    here = at + 2
    word = stream.word(here)
    if word in {"level", "plumb"}:
        return Leaning(verb, point, word, stream.span(at, here + 1)), here + 1
    if word in {"toward", "towards"}:
        toward = read_toward(stream, here)
        return (
            None
            if toward is None
            else (Leaning(verb, point, toward[0], stream.span(at, toward[1])), toward[1])
        )
    if word == "along":
        line = read_line(stream, here + 1)
        if line is None:
            return None
        how = AlongLine(line[0], False, stream.span(here, line[1]))
        return Leaning(verb, point, how, stream.span(at, line[1])), line[1]
    if word == "square" and stream.word(here + 1) == "to":
        square = _square_to(stream, here)
        return (
            None
            if square is None
            else (Leaning(verb, point, square[0], stream.span(at, square[1])), square[1])
        )
    for wanted in ("level", "plumb", "square to", "toward", "along"):
        stream.want(here, Expected(words=wanted))
    return None


def show_leaning(node: Leaning, style: Style) -> str:
    how = node.how if isinstance(node.how, str) else show_way(node.how, style)
    return f"{node.verb} {saying.letter(node.point)} {how}"

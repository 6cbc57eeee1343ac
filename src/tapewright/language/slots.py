"""The kinds of slot a sentence pattern may have: how each is read, printed and asked for.

`KINDS` is the table that patterns are compiled against. A kind's label is what the table says when that
kind is wanted ("a point", "how far"), and what the pointing tool asks for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from tapewright.language import amounts, claims, edges, references, saying, ways
from tapewright.language.pattern import Expected, SlotKind, Stream, Style
from tapewright.language.tokens import Sort, name_of
from tapewright.language.tree import (
    Amount,
    NameRef,
    NewName,
    NewPoint,
    NewRuler,
    Path,
    Place,
    PointRef,
    Portion,
    Ruler,
    Setting,
    Share,
    Total,
    Unknown,
)

Read = tuple[Any, int] | None


@dataclass(frozen=True, slots=True)
class Kind:
    """A slot kind made of two functions and a label."""

    label: str
    reader: Callable[[Stream, int], Read]
    printer: Callable[[Any, Style], str]

    def read(self, stream: Stream, at: int) -> Read:
        return self.reader(stream, at)

    def show(self, node: Any, style: Style) -> str:
        return self.printer(node, style)


def _new_point(stream: Stream, at: int) -> Read:
    token = stream.token(at)
    if token is None or token.sort is not Sort.POINT:
        return None
    return NewPoint(token.points[0], token.span), at + 1


def _point(stream: Stream, at: int) -> Read:
    ref = references.letter(stream, at)
    return None if ref is None else (ref, at + 1)


def _name(stream: Stream, at: int) -> Read:
    token = stream.token(at)
    if token is not None and token.sort is Sort.NAME:
        return NameRef(token.text, token.span), at + 1
    return references.unknown(stream, at)


def new_name(stop: frozenset[str]) -> Callable[[Stream, int], Read]:
    """A reader of a name made here: all words up to a mark or one of the `stop` words."""

    def read(stream: Stream, at: int) -> Read:
        end = at
        while (token := stream.token(end)) is not None:
            if (
                (token.sort is Sort.WORD and token.text not in stop)
                or token.sort is Sort.NAME
                or (token.sort is Sort.NUMBER and end > at)
            ):
                end += 1
            else:
                break
        if end == at:
            return None
        return NewName(name_of(stream.tokens[at:end]), stream.span(at, end)), end

    return read


def _ruler(stream: Stream, at: int) -> Read:
    found = references.ruler(stream, at)
    return (found, at + 1) if isinstance(found, Ruler) else None


def _share(stream: Stream, at: int) -> Read:
    """A share in a Divide: `a third`, `half plus 1 in`, `the rest`, or any amount."""
    part = amounts.one_fraction(stream, at)
    if part is not None and stream.word(part[1]) in {"as", "plus", "less"}:
        factor, end = part
        share: Amount = Share(factor, stream.span(at, end))
        if stream.word(end) == "as":
            return share, end
        sign = 1 if stream.word(end) == "plus" else -1
        more = amounts.total(stream, end + 1)
        if more is None:
            return None
        return Total((1, sign), (share, more[0]), stream.span(at, more[1])), more[1]
    return amounts.total(stream, at)


def _portion(stream: Stream, at: int) -> Read:
    share = _share(stream, at)
    if share is None:
        return None
    if stream.word(share[1]) != "as":
        stream.want(share[1], Expected(words="as"))
        return None
    name = _PORTION_NAME(stream, share[1] + 1)
    if name is None:
        stream.want(share[1] + 1, Expected(kind="newname"))
        return None
    return Portion(share[0], name[0], stream.span(at, name[1])), name[1]


def _show_portion(node: Portion, style: Style) -> str:
    return f"{saying.show(node.share, style)} as the {node.name.name}"


def _corner(stream: Stream, at: int) -> Read:
    """`the corner A-B-C`; the word may be left out, the article is gone already."""
    return ways.read_corner(stream, at + 1 if stream.word(at) == "corner" else at)


def _compass(stream: Stream, at: int) -> Read:
    found = ways.read_compass(stream, at)
    return None if found is None else (found, at + 1)


def _place(stream: Stream, at: int) -> Read:
    """`the centre back on the left`."""
    name = _PLACE_NAME(stream, at)
    if name is None:
        return None
    if stream.word(name[1]) != "on":
        stream.may(name[1], "on the left", "on the right")
        return None
    side = stream.word(name[1] + 1)
    if side not in {"left", "right"}:
        for wanted in ("the left", "the right"):
            stream.want(name[1] + 1, Expected(words=wanted))
        return None
    return Place(name[0].name, side, stream.span(at, name[1] + 2)), name[1] + 2


def _show_place(node: Place, style: Style) -> str:
    return f"the {node.name} on the {node.side}"


def _setting(stream: Stream, at: int) -> Read:
    """`the scye drop at 1/4 in`."""
    name = _SETTING_NAME(stream, at)
    if name is None or stream.word(name[1]) != "at":
        if name is not None:
            stream.want(name[1], Expected(words="at"))
        return None
    amount = amounts.total(stream, name[1] + 1)
    if amount is None:
        return None
    return Setting(name[0].name, amount[0], stream.span(at, amount[1])), amount[1]


def _show_setting(node: Setting, style: Style) -> str:
    return f"the {node.name} at {saying.show(node.amount, style)}"


def _new_ruler(stream: Stream, at: int) -> Read:
    found = references.ruler(stream, at)
    if not isinstance(found, Ruler):
        return None
    return NewRuler(
        NewPoint(found.a.name, found.a.span), NewPoint(found.b.name, found.b.span), found.span
    ), at + 1


def _show_new_ruler(node: NewRuler, style: Style) -> str:
    return f"{node.a.name}-{node.b.name}"


def _number(stream: Stream, at: int) -> Read:
    value = amounts.count_word(stream, at)
    return None if value is None or value.denominator != 1 else (int(value), at + 1)


def _show_number(node: int, style: Style) -> str:
    return str(node)


def _quoted(stream: Stream, at: int) -> Read:
    token = stream.token(at)
    return (token.text, at + 1) if token is not None and token.sort is Sort.QUOTED else None


def _between(stream: Stream, at: int) -> Read:
    return amounts.between(stream, at)


def _show_between(node: tuple[Amount, Amount], style: Style) -> str:
    return saying.show_between(*node, style)


def _show_point(node: PointRef | NewPoint, style: Style) -> str:
    return saying.letter(node)


def _show_name(node: NameRef | Unknown | NewName, style: Style) -> str:
    return f"the {node.words if isinstance(node, Unknown) else node.name}"


def _show_short(node: NameRef | Unknown, style: Style) -> str:
    """A name without its article, as cloths are named."""
    return node.words if isinstance(node, Unknown) else node.name


def _show_path(node: Path, style: Style) -> str:
    return saying.show_path(node)


_PORTION_NAME = new_name(frozenset({"and"}))
_PLACE_NAME = new_name(frozenset({"on", "and"}))
_SETTING_NAME = new_name(frozenset({"at", "and"}))
_LET_NAME = new_name(frozenset({"be"}))

KINDS: dict[str, SlotKind] = {
    "point": Kind("a point", _point, _show_point),
    "new": Kind("a new letter", _new_point, _show_point),
    "name": Kind("a name", _name, _show_name),
    "newname": Kind("a new name", _LET_NAME, _show_name),
    "setting": Kind("a value by eye, and what it is to be", _setting, _show_setting),
    "place": Kind("what lies on which side", _place, _show_place),
    "amount": Kind("how far", amounts.limited, saying.show),
    "reach": Kind("how far", ways.read_reach, ways.show_reach),
    "portion": Kind("a share and its name", _portion, _show_portion),
    "between": Kind("two amounts", _between, _show_between),
    "ruler": Kind("a ruler, such as A-B", _ruler, _show_path),
    "newruler": Kind("two new letters, such as C-D", _new_ruler, _show_new_ruler),
    "corner": Kind("a corner, such as A-B-C", _corner, saying.show),
    "path": Kind("a line", references.path, _show_path),
    "line": Kind("a line", ways.read_line, ways.show_line),
    "thing": Kind("a line or a piece", references.path, _show_path),
    "compass": Kind("a way on the paper", _compass, ways.show_way),
    "end": Kind("on which line", ways.read_end, ways.show_end),
    "crossing": Kind("which crossing", ways.read_crossing, lambda node, style: ways.show_crossing(node)),
    "way": Kind("which way", ways.read_way, ways.show_way),
    "toward": Kind("toward what", ways.read_toward, lambda node, style: ways.show_toward(node)),
    "leaning": Kind("how it leaves or reaches a letter", ways.read_leaning, ways.show_leaning),
    "run": Kind("the next edge", edges.edge_run, edges.show_edge_run),
    "edge": Kind("an edge", edges.edge, edges.show_edge),
    "cutting": Kind("how many, and of what", edges.cutting, edges.show_cutting),
    "turning": Kind("how much is left, and where", edges.turning, edges.show_turning),
    "marked": Kind("a line or a letter", edges.marked, edges.show_marked),
    "landmark": Kind("a place of the body", edges.landmark, lambda node, style: f"the {node}"),
    "ware": Kind("what is set along it", edges.ware, lambda node, style: str(node)),
    "markat": Kind("an edge, and where on it", edges.mark_at, edges.show_mark_at),
    "claim": Kind("what must come out", claims.claim, claims.show_claim),
    "number": Kind("a number", _number, _show_number),
    "quoted": Kind("a title in quotation marks", _quoted, lambda node, style: f'"{node}"'),
}

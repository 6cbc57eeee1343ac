"""What a Cut asks of the lesson: whether the edge on the fold can lie there, and whether seams are left twice."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tapewright.diagnostics import Answer, Query, Span, caution, note, question
from tapewright.language import sentences as s
from tapewright.language.edges import show_edge, show_turning
from tapewright.language.lesson import Header
from tapewright.language.pattern import Style, listed
from tapewright.language.saying import show
from tapewright.language.tree import Along, Edge, Ruler, Turning, Unknown
from tapewright.plan.plan import LineKey, OutlineEdge, OutlineShape
from tapewright.plan.scope import Scope
from tapewright.plan.turnings import tables

_PLAIN = Style()


def ask_about_cut(
    clause: s.Cut, shape: OutlineShape | None, scope: Scope, paths: dict[int, LineKey], header: Header
) -> Iterator[Query]:
    """The queries of a Cut that rest on its outline and on the header."""
    if shape is None:
        return
    if clause.on == "fold":
        for lying in clause.lying:
            if not isinstance(lying, Unknown):
                yield from _fold(clause, lying, shape, scope, paths)
    elif len(clause.lying) > 1:
        yield question(
            "on-the-fold",
            f"One line of a piece lies on the {clause.on}, and here are {len(clause.lying)}.",
            clause.lying[1].span,
            help="Keep one. Only on the fold may two lie: where the cloth is folded both ways.",
        )
    for turning in clause.turnings:
        if turning.table and turning.table not in tables():
            yield question(
                "no-such-turnings",
                f"I have no table of turnings called “{turning.table}”.",
                turning.span,
                help=f"There is {listed([f'“{title}”' for title in tables()])}.",
                answers=[
                    Answer(title, show_turning(replace(turning, table=title), _PLAIN), turning.span)
                    for title in tables()
                ],
            )
    if header.seams is not None:
        yield from _seams_twice(clause, shape, scope, paths, header)


def _fold(
    clause: s.Cut, lying: Edge, shape: OutlineShape, scope: Scope, paths: dict[int, LineKey]
) -> Iterator[Query]:
    said = show_edge(lying, _PLAIN)
    line = _bent(lying, shape, scope, paths)
    if line is not None:
        yield question(
            "on-the-fold",
            f"Cloth folds along a straight line, and {line} is a curve.",
            lying.span,
            help="Lay a straight edge on the fold, or cut the piece twice with its turnings there.",
        )
        return
    letters = set(shape.letters())
    if isinstance(lying, Ruler) and not {lying.a.name, lying.b.name} <= letters:
        away = listed([p for p in (lying.a.name, lying.b.name) if p not in letters])
        yield question(
            "on-the-fold",
            f"What lies on the fold is an edge of the piece, and {away} is no letter of its outline.",
            lying.span,
            help="Name one of its edges, or take the piece's outline along that line.",
        )
        return
    for turning in clause.turnings:
        where = next((e for e in turning.at if _same(e, lying, paths)), None)
        if turning.amount is not None and where is not None:
            yield question(
                "on-the-fold",
                f"{said[:1].upper()}{said[1:]} lies on the fold, where the cloth goes on; nothing is left outside it.",
                where.span,
                help="Leave it out of the turnings. If it is to be a seam, leave out “on the fold”.",
            )


def _bent(lying: Edge, shape: OutlineShape, scope: Scope, paths: dict[int, LineKey]) -> str | None:
    """What the edge is called, if it is not straight."""
    if isinstance(lying, Ruler):
        ends = {lying.a.name, lying.b.name}
        edge = next((e for e in shape.edges if {e.start, e.end} == ends), None)
        index = -1 if edge is None else edge.line
    else:
        path = lying.path if isinstance(lying, Along) else lying
        key = paths.get(id(path))
        index = key if isinstance(key, int) else -1
    if index < 0 or scope.lines[index].sort == "straight":
        return None
    line = scope.lines[index]
    return f"the {line.name}" if line.name else f"the line drawn from {' to '.join(line.ends or ())}"


def _same(one: Edge, other: Edge, paths: dict[int, LineKey]) -> bool:
    if isinstance(one, Ruler) and isinstance(other, Ruler):
        return {one.a.name, one.b.name} == {other.a.name, other.b.name}
    if isinstance(one, Ruler | Along | Unknown) or isinstance(other, Ruler | Along | Unknown):
        return False
    return paths.get(id(one)) == paths.get(id(other))


def _seams_twice(
    clause: s.Cut, shape: OutlineShape, scope: Scope, paths: dict[int, LineKey], header: Header
) -> Iterator[Query]:
    """Turnings left where the header says that the draft holds its seams."""
    seams = header.seams
    if seams is None:
        return
    names = [n for n in (_edge_name(e, scope) for e in shape.edges) if n]
    told = {n for n in names if any(held_at(n, where) for where in seams.at)}
    named = {show_edge(e, _PLAIN).removeprefix("the ") for t in clause.turnings for e in t.at}
    for turning in clause.turnings:
        if turning.amount is None:
            continue
        at = [show_edge(e, _PLAIN).removeprefix("the ") for e in turning.at]
        both = [n for n in names if n in told and (n in at if turning.at else n not in named)]
        both += [n for n in at if n not in names and any(held_at(n, where) for where in seams.at)]
        if both:
            yield _twice(turning, both, seams.span, show(seams.amount, _PLAIN))
            return


def _twice(turning: Turning, edges: list[str], header: Span, wide: str) -> Query:
    said = listed([f"the {name}" for name in dict.fromkeys(edges)])
    if turning.rest:
        return note(
            "seams-twice",
            f"The draft holds seams of {wide} at {said} already, as the header says; no more is left there.",
            turning.span,
            help=f"To leave more, name the edge: “{show(turning.amount, _PLAIN)} at {said}”."
            if turning.amount is not None
            else "",
        )
    return caution(
        "seams-twice",
        f"The draft holds seams of {wide} at {said} already, as the header says; here more is left outside them.",
        turning.span,
        help=f"If the seams in the draft are all, write “nothing at {said}”; else leave it as it is.",
    )


def _edge_name(edge: OutlineEdge, scope: Scope) -> str:
    if edge.line >= 0:
        return scope.lines[edge.line].name
    straight = scope.straight_between(edge.start, edge.end)
    return "" if straight is None else straight.name


def held_at(name: str, where: str) -> bool:
    """Whether an edge is one of those that the header means: `front side` of `sides`."""
    wanted = where.removesuffix("s")
    return f" {name}".removesuffix("s").endswith(f" {wanted}")

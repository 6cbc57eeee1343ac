"""One body's draft as plain data: what `--json` prints and `.json` files hold. Millimetres throughout."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import degrees
from typing import Any

import numpy as np

from tapewright.diagnostics import Query, Source, as_json
from tapewright.draft import Check, Draft, Piece
from tapewright.draft.rows import DrawnLine
from tapewright.geometry import Arc, Circle, arc_curve, arc_length, cubics, length

#: Decimals kept in numbers: a thousandth of what lengths are good to.
PLACES = 6


def account(
    draft: Draft,
    row: int,
    wearer: str,
    queries: Iterable[Query],
    sources: Mapping[str, Source],
    side: str = "",
) -> dict[str, Any]:
    """Everything about one body's draft that a program may want, in the order of the draft.

    With a `side` the pieces are named by it, and of two cut alike one belongs to each side.
    """
    return {
        "lesson": draft.plan.lesson.title,
        "wearer": wearer,
        "unit": "mm",
        "points": {
            name: {"at": [_round(x), _round(y)], "sentence": sentence}
            for name, x, y, sentence in draft.points(row)
        },
        "lines": _lines(draft, row),
        "amounts": _amounts(draft, row),
        "filled": [name for name, rows in draft.filled.items() if rows[row]],
        "choices": _choices(draft, row),
        "checks": [check_data(c, row) for c in draft.checks()],
        "pieces": [_piece(p, row, side) for p in draft.pieces()],
        "seams": [
            {
                "first": [e.name for e in seam.first],
                "second": [e.name for e in seam.second],
                "how": seam.how,
                "difference": _round(float(seam.difference[row])),
                "sentence": seam.sentence,
            }
            for seam in draft.seams()
        ],
        "marks": [
            {
                "edge": mark.edge,
                "at": [_round(float(mark.at.x[row])), _round(float(mark.at.y[row]))],
                "notches": mark.notches,
                "sentence": mark.sentence,
            }
            for mark in draft.marks()
        ],
        "queries": [as_json(q, sources) for q in queries],
    }


def _round(value: float) -> float:
    # Adding nothing turns -0.0 into 0.0, so that no sign hangs on rounding.
    return round(value, PLACES) + 0.0


def _listed(found: Any) -> list[Any]:
    return [[[_round(float(c)) for c in p] for p in cubic] for cubic in np.asarray(found)]


def _lines(draft: Draft, row: int) -> dict[str, Any]:
    """Lines by name; an unnamed straight one by its letters, an unnamed curve by the words for it."""
    found: dict[str, Any] = {}
    for line in draft.plan.lines:
        if not draft.alive(f"line {line.index}", row):
            continue
        name = line.name
        if not name and line.ends is not None:
            name = "-".join(line.ends) if line.sort == "straight" else f"the curve {'-'.join(line.ends)}"
        if not name:
            name = f"sweep of sentence {line.sentence}"
        if name in found:
            continue
        found[name] = {"kind": line.sort, **_shape(draft.line(line.index), row), "sentence": line.sentence}
    return found


def _shape(drawn: DrawnLine, row: int) -> dict[str, Any]:
    if isinstance(drawn, Circle):
        x, y, r = (float(a[row]) for a in (drawn.centre.x, drawn.centre.y, drawn.radius))
        return {
            "length": _round(2 * np.pi * r),
            "centre": [_round(x), _round(y)],
            "radius": _round(r),
            "cubics": [],
        }
    if isinstance(drawn, Arc):
        return {
            "length": _round(float(arc_length(drawn)[row])),
            "cubics": _listed(cubics(arc_curve(drawn), row)),
        }
    return {"length": _round(float(length(drawn)[row])), "cubics": _listed(cubics(drawn, row))}


def _amounts(draft: Draft, row: int) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, sort in draft.plan.names.items():
        if sort in {"amount", "unknown"} and draft.alive(f"name {name}", row):
            found[name] = _round(float(draft.amount(name)[row]))
    return found


def _choices(draft: Draft, row: int) -> dict[str, Any]:
    """Values by eye as they were drawn; the words of a choice as they are."""
    found: dict[str, Any] = {}
    for name, eye in draft.plan.by_eye.items():
        if draft.alive(f"eye {name}", row):
            value = float(np.asarray(draft.made[f"eye {name}"].thing)[row])
            found[name] = {"value": _round(value), "chosen": eye.chosen or name in draft.chosen}
    for name, choice in draft.plan.choices.items():
        found[name] = {"value": choice.taken, "chosen": False}
    return found


def check_data(check: Check, row: int) -> dict[str, Any]:
    """A check on one body as plain data, in mm or degrees."""

    def say(value: float) -> float:
        return _round(degrees(value) if check.angle else value)

    return {
        "claim": check.claim,
        "left": say(float(check.left[row])),
        "right": say(float(check.right[row])),
        "difference": say(float(check.difference[row])),
        "within": say(float(check.within[row])),
        "unit": "degrees" if check.angle else "mm",
        "holds": bool(check.holds[row]),
        "sentence": check.sentence,
    }


def _piece(piece: Piece, row: int, side: str) -> dict[str, Any]:
    return {
        "name": f"{side} {piece.name}".strip(),
        "cut": [{"count": max(1, c.count // 2) if side else c.count, "of": c.name} for c in piece.cloths],
        "under": piece.under or None,
        "lies": piece.on or None,
        "outline": [
            {
                "from": edge.start,
                "to": edge.end,
                "by": edge.name or None,
                "length": _round(float(length(edge.drawn)[row])),
                "cubics": _listed(cubics(edge.drawn, row)),
            }
            for edge in piece.outline.edges
        ],
        "turnings": [
            {
                "width": None if t.width is None else _round(float(t.width[row])),
                "at": list(t.edges) or "elsewhere",
                **({"finish": t.finish} if t.finish else {}),
                **({"table": t.table} if t.table else {}),
            }
            for t in piece.turnings
        ],
        "sentence": piece.sentence,
    }

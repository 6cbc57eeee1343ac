"""Binding one clause: everything in it is looked up, whatever sort of node it is.

A `Binder` works on one clause at a time: letters, names and lines by `lookup.py`, amounts by `amounts.py`;
here is the walk over the tree that hands each node to the right one.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from tapewright.language import tree, tree_claims
from tapewright.language.tree import CurveBetween, NameRef, NewName, NewPoint, PointRef, Ruler, Unknown
from tapewright.plan.amounts import AmountBinder
from tapewright.plan.form import Dimension

_AMOUNTS = (
    tree.Constant | tree.Bare | tree.Parts | tree.Times | tree.Total | tree.IfTaken | tree.Limited
    | tree.Along | tree.LookedUp | tree.Rest | tree.Share | tree.CornerRef
)  # fmt: skip
_NAMED = Ruler | NameRef | CurveBetween | Unknown
_WAYS = (
    tree.Toward
    | tree.AlongLine
    | tree.SquareTo
    | tree.AtAngle
    | tree.IntoCorner
    | tree.BareWay
    | tree.Compass
)
_CLAIMS = (
    tree_claims.Compared | tree_claims.InRange | tree_claims.LongerBy | tree_claims.SquareCorner
    | tree_claims.LiesOn | tree_claims.RunsOn | tree_claims.SameBothSides | tree_claims.ChoiceIs
)  # fmt: skip


@cache
def _sort_of(kind: type) -> str:
    """Which of the sorts of node a kind is; asked once for each kind, since it is asked of every node."""
    sorts: dict[str, Any] = {
        "plain": str | int | bool | tree.Place | tree.Setting | None,
        "several": tuple,
        "named": _NAMED,
        "along": tree.Along,
        "amount": _AMOUNTS,
        "way": _WAYS,
        "claim": _CLAIMS,
    }
    return next((sort for sort, kinds in sorts.items() if issubclass(kind, kinds)), "made")


@dataclass(slots=True)
class Binder(AmountBinder):
    """The binding of one clause."""

    def visit(self, node: Any, role: str = "amount") -> None:
        """Look up everything in a node; `role` says what a bare name or ruler stands for there."""
        match _sort_of(node.__class__):
            case "plain":
                return
            case "several":
                for one in node:
                    self.visit(one, role)
            case "named":
                self._named_or_edge(node, role)
            case "along" if role != "amount":
                self._named_or_edge(node, role)
            case "amount" | "along":
                self.amount(node, self.wanted)
            case "way":
                self.way(node)
            case "claim":
                self.claim(node)
            case _:
                self._made_or_placed(node)

    def _named_or_edge(self, node: tree.Path | tree.Along, role: str) -> None:
        if isinstance(node, tree.Along):
            self.path(node.path)
            self.point(node.start)
            self.point(node.end)
        elif role in {"edge", "line"}:
            self.path(node)
        elif role == "amount":
            self.amount(node, self.wanted)
        elif isinstance(node, NameRef | Unknown):
            self.named(node, (role,))
        else:
            self.path(node)

    def _made_or_placed(self, node: Any) -> None:
        match node:
            case PointRef():
                self.point(node)
            case NewPoint():
                self.new_point(node)
            case NewName():
                self.new_names.append(node)
            case tree.NewRuler(a, b):
                self.new_point(a)
                self.new_point(b)
            case tree.LineRef(path):
                self.path(path)
            case tree.End(line, crossing):
                self.path(line.path)
                self.visit(crossing)
            case tree.Crossing(_, point):
                self.visit(point)
            case tree.Offset(amount, way):
                self.amount(amount, Dimension.LENGTH)
                self.way(way)
            case tree.Leaning(_, point, how):
                self.point(point)
                self.visit(how)
            case tree.EdgeRun(to, by):
                self.point(to)
                if by is not None:
                    self.path(by)
            case tree.Cutting(_, cloth):
                self.named(cloth, ("cloth",))
            case tree.Turning(amount, at):
                self.visit(amount)
                self.visit(at, "edge")
            case tree.MarkAt(edge, point, distance):
                self.visit(edge, "edge")
                self.point(point)
                self.visit(distance)
            case _:
                raise TypeError(f"nothing binds a {type(node).__name__}")

    def way(self, node: tree.Way) -> None:
        """The letters, lines and angles of a way."""
        match node:
            case tree.Toward(target):
                self.target(target)
            case tree.AlongLine(line):
                self.path(line.path)
            case tree.SquareTo(path, toward):
                self.path(path)
                self.visit(toward)
            case tree.AtAngle(angle, path, toward):
                self.amount(angle, Dimension.ANGLE)
                self.path(path)
                self.visit(toward)
            case tree.IntoCorner(corner):
                self.corner(corner)
            case tree.BareWay(word, span):
                self.bare_way(word, span)
            case tree.Compass():
                return

    def claim(self, node: tree_claims.Claim | tree_claims.ChoiceIs) -> None:
        """The amounts and edges of a claim, both sides of one dimension."""
        match node:
            case tree_claims.Compared(left, _, right, within):
                first = self.amount(left)
                for one in (right, within):
                    if one is not None:
                        self.amount(one, first.dimension if first else None)
            case tree_claims.InRange(amount, low, high):
                first = self.amount(amount)
                for end in (low, high):
                    self.amount(end, first.dimension if first else None)
            case tree_claims.LongerBy(longer, shorter, low, high):
                for one in (longer, shorter, low, high):
                    if one is not None:
                        self.amount(one, Dimension.LENGTH)
            case tree_claims.SquareCorner(corner):
                self.corner(corner)
            case tree_claims.LiesOn(point, line):
                self.point(point)
                self.path(line.path)
            case tree_claims.RunsOn(edges, points):
                self.visit(edges, "edge")
                self.visit(points)
            case tree_claims.SameBothSides(amount):
                self.amount(amount)
            case tree_claims.ChoiceIs(name):
                self.named(name, ("choice",))

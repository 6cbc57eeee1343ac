"""Outlines and the ends of lines, as the plan has to know them: what is carried on, what is moved."""

from __future__ import annotations

from dataclasses import dataclass

from tapewright.language import sentences as s
from tapewright.language.clause import Clause
from tapewright.language.tree import CurveBetween, Path, PointRef, Ruler
from tapewright.plan.blocks import Blocks
from tapewright.plan.moving import moved_shape
from tapewright.plan.plan import Key, Line, Moving, OutlineEdge, OutlineShape


@dataclass(slots=True)
class Outlines(Blocks):
    """Outlines made and moved."""

    def last_end(self, path: Path) -> PointRef | None:
        """The letter at the last end of a line, where a Carry goes on unless it says otherwise."""
        if isinstance(path, Ruler):
            return path.b
        named = self.scope.names.get(getattr(path, "name", ""))
        ends = self.scope.lines[named.line].ends if named is not None and named.line >= 0 else None
        if isinstance(path, CurveBetween):
            ends = (path.a.name, path.b.name)
        return None if ends is None else PointRef(ends[1], path.span)

    def shape_of(self, clause: s.Outline) -> OutlineShape:
        """An outline's edges as the plan knows them."""
        edges = []
        here = clause.start.name
        for run in clause.runs:
            key = self.paths.get(id(run.by)) if run.by is not None else None
            edges.append(OutlineEdge(here, run.to.name, key if isinstance(key, int) else -1))
            here = run.to.name
        return OutlineShape(f"name {clause.name.name}", tuple(edges))

    def enter_moving(self, clause: Clause, makes: list[Key], drawn: list[Line]) -> Moving | None:
        """Declare the letters and lines of a moved outline."""
        moving = self.moving
        self.moving = None
        if moving is None:
            return None
        for letter in moving.letters:
            self.scope.points[letter.new] = self.number
            makes.append(f"point {letter.new}")
        for edge in moving.edges:
            index = len(self.scope.lines)
            old = moving.shape.edges[edge.index].line
            sort = "straight" if old < 0 else self.scope.lines[old].sort
            sort = "curve" if sort in {"arc", "circle"} else sort
            line = Line(index, sort, (edge.start, edge.end), self.number, clause.span)
            self.scope.lines.append(line)
            drawn.append(line)
            makes.append(f"line {index}")
        key = f"moved {len(self.scope.lines)}"
        makes.append(key)
        self.last_moved = moved_shape(moving, key, [x.index for x in drawn])
        return moving

"""The board: what one sentence sees while it is being drawn.

It hands out points, lines and amounts as rows, takes what the sentence makes, and keeps count of the rows
for which the sentence could be drawn. Geometry computes; the board joins what is alive. A row that is not
alive carries a copy of a living one, so that no NaN is ever loose in the arithmetic.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import NoReturn

import numpy as np

from tapewright.diagnostics import Query, Span
from tapewright.draft import asking
from tapewright.draft.bodies import Array, Bodies, Mask
from tapewright.draft.rows import DrawnLine, OutlineRun, Thing, stand_in
from tapewright.geometry import Arc, Circle, Curve, Point, Stretch, arc_curve, straight, trimmed
from tapewright.language.tree import Amount, NewName, NewPoint, Path, PointRef
from tapewright.plan import Plan
from tapewright.plan.form import Form
from tapewright.plan.plan import Key, Moving, Straight

#: How the keys of places of letters on lines begin; they are no part of the draft.
SPOT = "spot "

Wording = Callable[[int], Query]


class Waits(Exception):
    """Raised inside a sentence when no row is left for it; never leaves the evaluator."""


@dataclass(frozen=True, slots=True, eq=False)
class Value:
    """A made thing: on which rows it lives (None: all), which rows chose not to draw it, who made it."""

    thing: Thing
    sentence: int
    alive: Mask | None = None
    absent: Mask | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Failure:
    """Rows for which a sentence could not be drawn, and how to word it for one of them."""

    sentence: int
    source: str
    rows: Mask
    word: Wording


@dataclass(frozen=True, slots=True, eq=False)
class Remark:
    """A caution or a note on some rows; the thing is drawn all the same."""

    sentence: int
    source: str
    rows: Mask
    word: Wording


@dataclass(slots=True)
class Desk:
    """What a whole run shares: the plan, the bodies, everything made so far, everything remarked."""

    plan: Plan
    bodies: Bodies
    #: How an amount is worked out; handed in, since an amount may ask the board for a line's length.
    reckon: Callable[[Board, Form, Span], Array]
    made: dict[Key, Value] = field(default_factory=dict)
    filled: dict[str, Mask] = field(default_factory=dict)
    #: What no body drew because its condition holds on none, and the sentence with that condition.
    undrawn: dict[Key, int] = field(default_factory=dict)
    #: Lengths already run by the tape in this drawing: of a line, or of its piece between two letters.
    lengths: dict[tuple[int, str, str], Array] = field(default_factory=dict)
    #: Where a letter was already found on a line: the parameter there, and how far off it stands.
    spots: dict[tuple[int, str], tuple[Array, Array]] = field(default_factory=dict)


@dataclass(slots=True)
class Board:
    """One sentence at work."""

    desk: Desk
    sentence: int
    source: str
    where: Span
    lines: tuple[int, ...] = ()
    makes: tuple[Key, ...] = ()
    moving: Moving | None = None
    ok: Mask | None = None
    failures: list[Failure] = field(default_factory=list)
    remarks: list[Remark] = field(default_factory=list)
    made: dict[Key, Thing] = field(default_factory=dict)
    records: list[object] = field(default_factory=list)

    @property
    def plan(self) -> Plan:
        return self.desk.plan

    @property
    def bodies(self) -> Bodies:
        return self.desk.bodies

    @property
    def count(self) -> int:
        """How many bodies."""
        return self.desk.bodies.count

    # --- rows ---------------------------------------------------------------------------------------

    def need(self, alive: Mask | None) -> None:
        """Rows that are not alive are not drawn here either; nothing is said of them."""
        if alive is None:
            return
        self.ok = alive if self.ok is None else self.ok & alive
        if not np.count_nonzero(self.ok):
            raise Waits

    def fail(self, ok: Mask, word: Wording) -> None:
        """Rows not `ok` stop here; `word` makes the query for one of them."""
        if np.count_nonzero(ok) == self.count:
            return
        bad = ~ok if self.ok is None else self.ok & ~ok
        if not np.count_nonzero(bad):
            return
        self.failures.append(Failure(self.sentence, self.source, bad, word))
        self.need(ok)

    def stop(self, word: Wording) -> NoReturn:
        """No row can be drawn: every living row stops here."""
        self.fail(np.zeros(self.count, dtype=np.bool_), word)
        raise Waits

    def remark(self, rows: Mask, word: Wording) -> None:
        """Say something of some living rows."""
        if not np.count_nonzero(rows):
            return
        told = rows if self.ok is None else rows & self.ok
        if np.count_nonzero(told):
            self.remarks.append(Remark(self.sentence, self.source, told, word))

    def read(self, key: Key) -> Thing:
        """A made thing; its rows that are not alive are left out here too."""
        value = self.desk.made.get(key)
        if value is not None and value.alive is None and value.absent is None:
            return value.thing
        if value is None:
            sentence = self.desk.undrawn.get(key)
            if sentence is None:
                raise Waits
            self.stop(lambda row: self._one_branch(key, sentence))
        if value.absent is not None:
            self.fail(~value.absent, lambda row: self._one_branch(key, value.sentence))
        self.need(value.alive)
        return value.thing

    def _one_branch(self, key: Key, sentence: int) -> Query:
        sort, name = key.split(" ", 1)
        if sort == "line":
            name = self.plan.lines[int(name)].name
        return asking.drawn_in_one_branch(name if sort == "point" else f"the {name}", sentence, self.where)

    # --- what a sentence sees -----------------------------------------------------------------------

    def point(self, ref: PointRef | str) -> Point:
        """A point by its letter."""
        name = ref if isinstance(ref, str) else ref.name
        thing = self.read(f"point {name}")
        assert isinstance(thing, Point)
        return thing

    def line_index(self, path: Path) -> int:
        """The line a path stands for, or -1 for the straight way between two points."""
        key = self.plan.path(path)
        return -1 if isinstance(key, Straight) else key

    def line(self, path: Path) -> DrawnLine:
        """The line a path stands for."""
        key = self.plan.path(path)
        if isinstance(key, Straight):
            return straight(self.point(key.a), self.point(key.b))
        return self.drawn(key)

    def drawn(self, index: int) -> DrawnLine:
        """A drawn line by its number."""
        thing = self.read(f"line {index}")
        assert not isinstance(thing, Point | np.ndarray | OutlineRun)
        return thing

    def outline(self, name: str) -> OutlineRun:
        """An outline by its name."""
        return self.outline_of(self.plan.outlines[name].key)

    def outline_of(self, key: Key) -> OutlineRun:
        """An outline by its key."""
        thing = self.read(key)
        assert isinstance(thing, OutlineRun)
        return thing

    def inside_of(self, line: int, a: str, b: str) -> Point | None:
        """A point on the inner side of an edge: the mean of the letters of a piece that has that edge."""
        for shape in reversed(list(self.plan.outlines.values())):
            if shape.key not in self.desk.made:
                continue
            for edge in shape.edges:
                if (line >= 0 and edge.line == line) or {edge.start, edge.end} == {a, b}:
                    points = [self.point(x) for x in shape.letters()]
                    x, y = self.constant(0.0), self.constant(0.0)
                    for p in points:
                        x, y = x + p.x, y + p.y
                    return Point(x / len(points), y / len(points))
        return None

    def number(self, key: Key) -> Array:
        """A number by its key."""
        thing = self.read(key)
        assert isinstance(thing, np.ndarray)
        return thing

    def amount(self, node: Amount) -> Array:
        """An amount in mm or radians, `(bodies,)`."""
        return self.desk.reckon(self, self.plan.form(node), node.span)

    def worded(self, node: object, word: Callable[[], str]) -> str:
        """Words for a node of the plan, put together once for all drawings of it."""
        words = self.desk.plan.words.get(id(node))
        if words is None:
            words = self.desk.plan.words[id(node)] = word()
        return words

    def constant(self, value: float) -> Array:
        """One number for every body."""
        count = self.desk.bodies.count
        return np.array([value]) if count == 1 else np.full(count, value)

    # --- what a sentence makes ----------------------------------------------------------------------

    def put(self, key: Key, thing: Thing) -> None:
        """Make a thing; rows that failed get a stand-in."""
        if self.ok is not None and np.count_nonzero(self.ok) < self.count:
            thing = stand_in(thing, self.ok)
        self.made[key] = thing

    def put_point(self, new: NewPoint | str, point: Point) -> None:
        """Make a point."""
        self.put(f"point {new if isinstance(new, str) else new.name}", point)

    def put_line(self, line: DrawnLine, which: int = 0) -> None:
        """Make the sentence's line; the first unless said."""
        self.put(f"line {self.lines[which]}", line)

    def put_spot(self, new: NewPoint, path: Path, t: Array) -> None:
        """Keep where on a bent line a new letter was put, so that nobody has to look for it again."""
        key = self.plan.path(path)
        if isinstance(key, Straight):
            return
        line = self.drawn(key)
        if not isinstance(line, Circle) and not (isinstance(line, Curve) and line.is_straight):
            self.put(f"{SPOT}{key} {new.name}", t)

    def put_name(self, name: NewName | str, thing: Thing) -> None:
        """Make a named amount or outline."""
        self.put(f"name {name if isinstance(name, str) else name.name}", thing)


def as_curve(line: DrawnLine) -> Curve | None:
    """A line with two ends as a curve or a piece of one; None for a whole circle."""
    if isinstance(line, Circle):
        return None
    if isinstance(line, Arc):
        return arc_curve(line)
    return trimmed(line) if isinstance(line, Stretch) else line

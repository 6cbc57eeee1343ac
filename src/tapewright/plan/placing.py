"""Beginning from another draft: its plan is made first, and its letters, names and lines are known here.

The placed draft keeps its letters. Each can also be reached by the draft's own name (`the block's A`), which
is the only way where two placed drafts share a letter.
"""

from __future__ import annotations

from abc import abstractmethod
from dataclasses import dataclass, replace

from tapewright.diagnostics import Query, did_you_mean, note, question
from tapewright.language import sentences as s
from tapewright.language.clause import Clause
from tapewright.language.lesson import Lesson
from tapewright.language.pattern import listed
from tapewright.plan.binding import Binder
from tapewright.plan.form import Form
from tapewright.plan.outlines import Outlines
from tapewright.plan.plan import Key, OutlineEdge, OutlineShape, Place, Plan, Tape
from tapewright.plan.scope import Named

#: What an inner name becomes out here: a value by eye or a tape's whole is an amount that is read.
_READ_AS = {"by eye": "amount", "unknown": "amount"}


@dataclass(slots=True)
class Placing(Outlines):
    """Placed drafts."""

    @abstractmethod
    def plan_of(self, lesson: Lesson) -> Plan:
        """The plan of another lesson."""

    def begin_from(self, clause: s.BeginFrom, binder: Binder) -> list[Query]:
        """Bind the settings and take over what the draft makes; queries of its own are the outer's too."""
        if self.begun and not self.placed:
            return [
                question(
                    "begin",
                    "The draft has begun already; another is begun from before that.",
                    clause.span,
                    help="Put it first, in place of “Begin at”: the other draft brings its own first point.",
                )
            ]
        lesson = self.lesson.draft_called(clause.title)
        if lesson is None:
            # Asked about where it was read: what it would have made is unknown, and waits.
            self.scope.anything_waits = True
            binder.waits = True
            return []
        inner = self.plan_of(lesson)
        chosen: dict[str, Form] = {}
        queries: list[Query] = []
        for setting in clause.settings:
            eye = inner.by_eye.get(setting.name)
            if eye is None:
                near = did_you_mean(setting.name, inner.by_eye)
                queries.append(
                    question(
                        "not-by-eye",
                        f"The {setting.name} is not among the values by eye of “{clause.title}”.",
                        setting.span,
                        help=f"By eye it has {listed([f'the {n}' for n in inner.by_eye]) or 'nothing'}.",
                        answers=[f"the {n}" for n in near],
                    )
                )
                continue
            form = binder.amount(setting.amount, eye.usual.dimension)
            if form is not None:
                chosen[setting.name] = form
        if len(chosen) < len(clause.settings):
            self.scope.anything_waits = True
            return queries
        self.begun = True
        # What waits in that draft waits here too.
        letters, names = lesson.made()
        self.scope.waiting_points.update(x for x in letters if x not in inner.points)
        self.scope.waiting_names.update(x for x in names if x not in inner.names)
        self.placed.append((clause, inner, chosen))
        self.queries += [q for q in inner.queries if q not in self.queries]
        over = self.lesson.header.over
        if over is not None and lesson.header.over is not None and set(over) != set(lesson.header.over):
            worn, asked = _said(over), _said(lesson.header.over)
            queries.append(
                note(
                    "placed-over",
                    f"“{clause.title}” is drafted over {asked}; here it runs on measures taken over {worn}.",
                    clause.span,
                )
            )
        return queries

    def take_over(self, clause: Clause, makes: list[Key]) -> Place | None:
        """Declare everything that a placed draft makes, and make its step."""
        if not isinstance(clause, s.BeginFrom) or not self.placed or self.placed[-1][0] is not clause:
            return None
        _, inner, chosen = self.placed[-1]
        offset = len(self.scope.lines)
        for line in inner.lines:
            self.scope.lines.append(
                replace(line, index=offset + line.index, sentence=self.number, where=clause.span)
            )
            makes.append(f"line {offset + line.index}")
        for letter in inner.points:
            if letter in self.scope.points:
                self.scope.shared.add(letter)
            self.scope.points.setdefault(letter, self.number)
            makes.append(f"point {letter}")
        for name, sort in inner.names.items():
            self._take_name(name, sort, inner, offset, clause, makes)
        for place, side in inner.places.items():
            self.places.setdefault(place, side)
            self.scope.names.setdefault(place, Named(place, "place", clause.span, self.number))
        self.darts.update({k: v for k, v in inner.darts.items() if k not in self.darts})
        self.measured |= dict.fromkeys(inner.measures())
        own = {f"measure {m}" for m in inner.measures()}
        return Place(
            inner, chosen, offset, clause, self.number, self.source, clause.span,
            tuple(sorted(own)), tuple(dict.fromkeys(makes)),
        )  # fmt: skip

    def _take_name(
        self, name: str, sort: str, inner: Plan, offset: int, clause: s.BeginFrom, makes: list[Key]
    ) -> None:
        if sort in {"place", "cloth", "choice"}:
            if sort == "cloth":
                self.scope.names.setdefault(name, Named(name, "cloth", clause.span))
            return
        if sort == "measure":
            self.scope.names.setdefault(name, Named(name, "measure", clause.span))
            self.dimensions.setdefault(name, inner.dimensions[name])
            return
        if name in self.scope.names:
            self.scope.shared.add(name)
            return
        line = -1
        if sort == "line":
            line = offset + next(x.index for x in inner.lines if x.name == name)
        if sort == "tape":
            tape = inner.tapes[name]
            usual = tape.usual and not self.lesson.tapes
            self.tapes[name] = Tape(name, tape.whole, tape.parts, usual, clause.span, placed=True)
            makes.append(f"tape {name}")
        if sort == "outline":
            shape = inner.outlines[name]
            edges = tuple(
                OutlineEdge(e.start, e.end, e.line + offset if e.line >= 0 else -1) for e in shape.edges
            )
            self.outlines[name] = OutlineShape(f"name {name}", edges)
        read_as = _READ_AS.get(sort, sort)
        self.scope.names[name] = Named(name, read_as, clause.span, self.number, line)
        if name in inner.dimensions:
            self.dimensions[name] = inner.dimensions[name]
        makes.append(f"name {name}")

    def name_draft(self, name: str) -> None:
        """Give the last placed draft a name: its letters can be reached by it."""
        _, inner, _ = self.placed[-1]
        for letter in inner.points:
            self.scope.points[f"{name}'s {letter}"] = self.number
        step = self.steps[-1]
        if isinstance(step, Place):
            makes = (*step.makes, *(f"point {name}'s {letter}" for letter in inner.points))
            self.steps[-1] = replace(step, name=name, makes=makes)


def _said(layers: tuple[str, ...]) -> str:
    return " and ".join(layers) if layers else "nothing"

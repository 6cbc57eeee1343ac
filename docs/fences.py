"""The fenced examples of the manual: found in its text, run for a demo wearer, and answered.

The kinds of fence in `docs/language.md`:

- `beginning NAME`: a whole lesson that the `sentences` and `slip` fences after it go on from;
- `lesson NAME`: a whole lesson by itself;
- `lists`: lists, tables or shapes that the next fence has besides those of the beginning;
- `sheet`: the measure sheet that the next lesson is drawn for;
- `before`: sentences that stand between the beginning and the next fence, as things that were there;
- `sentences NAME`: sentences, one item a line, drawn as `manual/NAME.svg`;
- `slip QUERY`: sentences that must give that query and no other;
- `fitting NAME`: amendments to the beginning;
- `rewritten`: two sentences, the first as somebody writes it, the second as the formatter does;
- `sh`: a command.

What the table says of an example stands in a block quote under it. This module runs the examples; it draws
nothing (`manual_plates.py`).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

import numpy as np

from tapewright.app.library import finder, wearers
from tapewright.diagnostics import Kind, Query, Source
from tapewright.diagnostics.report import answers_said
from tapewright.draft import Check, Draft, both_sides, evaluate, from_sheets
from tapewright.language import read_amendments, read_lesson
from tapewright.measures import Sheet, read_sheet
from tapewright.plan import build_plan
from tapewright.plan.form import Dimension
from tapewright.units import show_cm

MANUAL = Path(__file__).parent / "language.md"
WEARER = "margery-thorne"
KINDS = frozenset("beginning lesson lists sheet before sentences slip fitting rewritten yaml sh".split())

_ITEM = re.compile(r"^\d+\. ", re.MULTILINE)
_FENCE = re.compile(r"^```(\w+)(?: (\S+))?\n(.*?)^```$", re.DOTALL | re.MULTILINE)
_QUOTE = re.compile(r"\A\n*(?:!\[[^\]]*\]\([^)]*\)\n+)?((?:^>.*\n)*)", re.MULTILINE)
_IMAGE = re.compile(r"\A\n*!\[([^\]]+)\]\(([^)]*)\)\n")


@dataclass(frozen=True, slots=True)
class Fence:
    """One fence: its kind, its name if it has one, its words, and where it ends in the manual."""

    kind: str
    name: str
    words: str
    end: int


@dataclass(frozen=True, slots=True, eq=False)
class Example:
    """A fence ready to run: the lesson it makes, its first own item, and the amendments to it.

    `text` is the whole lesson; `first` the number of the first item that is the example's own (1 for a
    whole lesson); `sheet` the wearer's measures as YAML.
    """

    fence: Fence
    text: str
    first: int
    amendments: str = ""
    sheet: str = ""
    others: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """What an example gave: its draft, the other side's where there are two, its checks and queries."""

    draft: Draft
    right: Draft | None
    checks: tuple[Check, ...]
    queries: tuple[Query, ...]


def fences(text: str) -> Iterator[Fence]:
    """Every fence of the manual that has a kind, in order."""
    for found in _FENCE.finditer(text):
        yield Fence(found[1], found[2] or "", found[3], found.end())


def examples(text: str) -> Iterator[Example]:
    """Every fence that runs, with all that it goes on from."""
    beginning, lists, sheet, before = "", "", "", ""
    others: dict[str, str] = {}
    for fence in fences(text):
        match fence.kind:
            case "lists":
                lists = fence.words
            case "sheet":
                sheet = fence.words
            case "before":
                before = fence.words
            case "beginning" | "lesson":
                if fence.kind == "beginning" or not beginning:
                    beginning = fence.words
                others[_title(fence.words)] = fence.words
                yield Example(fence, fence.words, 1, sheet=sheet, others=dict(others))
                sheet = ""
            case "sentences" | "slip":
                whole, first = gone_on(beginning, lists, before, fence.words)
                yield Example(fence, whole, first, others=dict(others))
                lists, before = "", ""
            case "fitting":
                yield Example(fence, beginning, 1, amendments=fence.words, others=dict(others))


def gone_on(beginning: str, lists: str, before: str, words: str) -> tuple[str, int]:
    """The beginning with an example after it, each line an item; and the number of its first own item."""
    number = len(_ITEM.findall(beginning))
    text = beginning.rstrip("\n") + "\n\n"
    if lists:
        text += lists.rstrip("\n") + "\n\n"
    if before or not words.startswith("## "):
        text += "## The example\n\n"
    own = number + len(before.splitlines())
    for line in [*before.splitlines(), *words.splitlines()]:
        if line.startswith("## "):
            text += f"\n{line}\n\n"
        elif line.strip():
            number += 1
            text += f"{number}. {line}\n"
    return text, own + 1


def run(example: Example) -> Run:
    """Read, plan and draw an example for its wearer."""
    source = Source("manual.md", example.text)

    def find(title: str) -> Source | None:
        if title in example.others:
            return Source(f"{title}.md", example.others[title])
        return finder(MANUAL.parent)(title)

    lesson = read_lesson(source, find)
    amendments, asked = read_amendments(Source("fitting.md", example.amendments), lesson)
    plan = build_plan(lesson, amendments)
    sheet = _sheet(example.sheet) if example.sheet else _demo_sheet()
    if lesson.header.body == "both sides":
        two = both_sides(plan, sheet)
        own = tuple(c for c in two.left.checks() if c.relation != "both sides")
        queries = dict.fromkeys([*asked, *two.left.queries(), *two.right.queries()])
        return Run(two.left, two.right, (*own, *two.checks), tuple(queries))
    draft = evaluate(plan, from_sheets([sheet], plan.measures()))
    return Run(draft, None, draft.checks(), (*asked, *draft.queries()))


@cache
def _demo_sheet() -> Sheet:
    return _sheet(wearers()[WEARER].read_text(encoding="utf-8"))


def _sheet(text: str) -> Sheet:
    sheet, queries = read_sheet(Source("sheet.yaml", text))
    if sheet is None or any(q.kind is not Kind.NOTE for q in queries):
        raise ValueError(f"the manual's sheet asks: {[q.message for q in queries]}")
    return sheet


def _title(text: str) -> str:
    return text.splitlines()[0].removeprefix("# ").strip()


# --- what the table says under an example ----------------------------------------------------------------


def answer(example: Example, found: Run) -> str:
    """The block quote that stands under an example: queries, checks, what its amounts come to."""
    own = [s for s in found.draft.plan.points.values() if s >= example.first]
    lines = [_said(query) for query in found.queries]
    if example.fence.kind != "slip":
        amounts = list(_amounts(example, found.draft)) if example.first > 1 or not own else []
        if amounts:
            lines.append(f"*Comes to:* {'; '.join(amounts)}.")
        if example.first > 1 or found.right is not None:
            lines += [_check(c) for c in found.checks if c.sentence >= example.first]
    return "".join(f"> {line}\n>\n" for line in lines).removesuffix(">\n")


def _said(query: Query) -> str:
    words = [f"*{str(query.kind).capitalize()}.*", query.message, query.help, answers_said(query)]
    return " ".join(w for w in words if w)


def _amounts(example: Example, draft: Draft) -> Iterator[str]:
    """Each amount that the example names, in centimetres or degrees."""
    for step in draft.plan.steps:
        if step.sentence < example.first:
            continue
        for key in step.makes:
            name = key.removeprefix("name ")
            if key.startswith("name ") and draft.alive(key) and draft.plan.names.get(name) in _AMOUNTS:
                value = float(draft.amount(name)[0])
                angle = draft.plan.dimensions.get(name) is Dimension.ANGLE
                yield f"the {name}, {_shown(value, angle=angle)}"


_AMOUNTS = frozenset({"amount", "unknown"})


def _check(check: Check) -> str:
    """A check in words: whether it holds, and both sides of it."""
    word = "Holds" if check.holds[0] else "Does not hold"
    claim = check.claim[:1].upper() + check.claim[1:]
    if check.relation in {"lies on", "runs on"}:
        return f"*{word}.* {claim}."
    left, right = (_shown(float(side[0]), angle=check.angle) for side in (check.left, check.right))
    if check.relation == "between":
        return f"*{word}.* {claim}: {left}."
    return f"*{word}.* {claim}: {left} against {right}."


def _shown(value: float, *, angle: bool) -> str:
    return f"{np.degrees(value):.1f} degrees" if angle else show_cm(value)


def quoted(text: str, fence: Fence) -> str:
    """The block quote that stands under a fence now."""
    found = _QUOTE.match(text[fence.end :])
    return found[1] if found else ""


def picture(text: str, fence: Fence) -> tuple[str, str]:
    """What the picture under a fence shows, in words, and its file; nothing and nothing if there is none."""
    found = _IMAGE.match(text[fence.end :])
    return (found[1], found[2]) if found else ("", "")


def answered(text: str) -> str:
    """The manual with every block quote under an example as the table gives it now."""
    out, at = [], 0
    for example in examples(text):
        place = _QUOTE.match(text[example.fence.end :])
        if place is None:
            continue
        start = example.fence.end + place.start(1)
        said = answer(example, run(example))
        out.append(text[at:start])
        before = text[:start]
        if said and not before.endswith("\n\n"):
            out.append("\n" if before.endswith("\n") else "\n\n")
        out.append(said)
        at = example.fence.end + place.end(1)
        if said and not place[1] and not text[at:].startswith("\n"):
            out.append("\n")
    out.append(text[at:])
    return "".join(out)

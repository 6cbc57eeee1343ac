"""Draft a lesson for one wearer or many: one result each, and one that stops stops no other."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from tapewright.app.account import account, check_data
from tapewright.app.beside import estimate_data, estimated_line, laced, ranges
from tapewright.app.files import Trouble, files_in, is_folder, read_sheet_source, read_text, write
from tapewright.app.library import finder, nominal
from tapewright.diagnostics import Kind, Query, Source, as_json, caution, in_order, note, question
from tapewright.draft import Check, Draft, TwoSides, both_sides, evaluate, from_sheets, worn_beneath
from tapewright.language import Amendment, Lesson, amendment_for, chosen_source, read_amendments, read_lesson
from tapewright.measures import (
    Estimate,
    Sheet,
    key_of,
    lent,
    read_sheet,
    say_layers,
    with_estimates,
)
from tapewright.plan import Plan, build_plan
from tapewright.units import show_cm

SHEETS = (".yaml", ".yml")
LESSONS = (".md", ".markdown")
WRITTEN = (".pdf", ".svg", ".json")


@dataclass(frozen=True, slots=True)
class Read:
    """A lesson with its amendments, planned: what every wearer's draft is made from."""

    lesson: Lesson
    plan: Plan
    sources: Mapping[str, Source]


@dataclass(frozen=True, slots=True)
class Result:
    """One wearer's draft. `draft` is None when the sheet itself could not be read."""

    sheet_name: str
    wearer: str
    sheet: Sheet | None
    draft: Draft | None
    queries: tuple[Query, ...]
    sources: Mapping[str, Source] = field(repr=False)
    two: TwoSides | None = None
    estimates: Mapping[str, Estimate] = field(default_factory=dict)
    nobodys: bool = False

    def sides(self) -> tuple[tuple[str, Draft], ...]:
        """The drafts of this wearer: one half, or the left and the right one with their names."""
        if self.two is not None:
            return (("left", self.two.left), ("right", self.two.right))
        return () if self.draft is None else (("", self.draft),)

    def checks(self) -> tuple[Check, ...]:
        """All checks: of either side where they differ, and between the sides."""
        if self.two is None:
            return () if self.draft is None else self.draft.checks()
        found = [c for _, draft in self.sides() for c in draft.checks() if c.relation != "both sides"]
        return (*found, *self.two.checks)

    @property
    def waits(self) -> bool:
        """Whether a question remains."""
        return any(q.kind is Kind.QUESTION for q in self.queries)

    @property
    def open_checks(self) -> int:
        """How many checks do not hold."""
        return sum(not bool(c.holds[0]) for c in self.checks())

    def unset(self) -> tuple[str, ...]:
        """Letters of the title and the name that the typefaces lack, and paper shows as boxes."""
        from tapewright.drawing import set_text

        title = "" if self.draft is None else self.draft.plan.lesson.title
        return set_text(f"{title} {self.wearer}", "book", 4.0).missing

    def data(self) -> dict[str, Any]:
        """The result as plain data."""
        if self.draft is None:
            queries = [as_json(q, self.sources) for q in self.queries]
            return {"lesson": "", "wearer": self.wearer, "unit": "mm", "queries": queries}
        estimated = {name: estimate_data(e) for name, e in self.estimates.items()}
        if self.two is None:
            made = account(self.draft, 0, self.wearer, self.queries, self.sources)
            return made | {"estimated": estimated}
        sides = {side: account(draft, 0, self.wearer, (), self.sources, side) for side, draft in self.sides()}
        return {
            "lesson": self.draft.plan.lesson.title,
            "wearer": self.wearer,
            "unit": "mm",
            "sides": sides,
            "estimated": estimated,
            "checks": [check_data(c, 0) for c in self.two.checks],
            "queries": [as_json(q, self.sources) for q in self.queries],
        }


def read(
    lesson: Path,
    amendments: Iterable[Path] = (),
    chosen: Mapping[str, str] | None = None,
    *,
    two_sides: bool = False,
) -> Read:
    """Read a lesson, its amendments, and choices given as words (`ease`, `2 parts`).

    With `two_sides` a lesson on the half is drawn left and right, as if its header said so; Trouble for one
    that is drawn whole.
    """
    source = read_text(lesson)
    tree = read_lesson(source, finder(lesson.parent))
    if two_sides:
        if tree.header.body == "whole":
            raise Trouble(
                f"{lesson.name} is drawn whole, both sides at once; only a half is drawn left and right."
            )
        tree = replace(tree, header=replace(tree.header, body="both sides"))
    sources = {source.name: source, **placed_sources(tree)}
    found: list[Amendment] = []
    queries: list[Query] = []
    for path in amendments:
        text = read_text(path)
        if text.name in sources:
            raise Trouble(
                f"{path}: a file called {text.name} is read already; give each file of amendments once."
            )
        sources[text.name] = text
        more, asked = read_amendments(text, tree)
        found += more
        queries += asked
    for name, words in (chosen or {}).items():
        more, asked = amendment_for(words, name, tree)
        found += more
        queries += asked
        said = chosen_source(name, words)
        sources[said.name] = said
    plan = build_plan(tree, found)
    if queries:
        plan = replace(plan, queries=(*plan.queries, *queries))
    return Read(tree, plan, sources)


def placed_sources(lesson: Lesson) -> dict[str, Source]:
    """The texts of the drafts that a lesson begins from, by their names."""
    found: dict[str, Source] = {}
    for _, inner in lesson.placed:
        found[inner.source.name] = inner.source
        found |= placed_sources(inner)
    return found


def sheets_in(path: Path) -> list[Path]:
    """A sheet, or every sheet of a folder in the order of their names."""
    if not is_folder(path):
        if path.suffix.lower() in LESSONS:
            raise Trouble(f"{path.name} is a lesson; after --for stands a measure sheet (.yaml).")
        return [path]
    found = files_in(path, SHEETS)
    if not found:
        raise Trouble(f"There is no measure sheet (.yaml) in {path}.")
    return found


def read_sheet_result(sheet_path: Path, sources: Mapping[str, Source] | None = None) -> Result:
    """A sheet by itself, read but not drafted for."""
    known = dict(sources or {})
    try:
        source = read_sheet_source(sheet_path)
    except Trouble as trouble:
        query = question("sheet-not-readable", str(trouble)).at(sheet_path.name)
        return Result(sheet_path.name, "", None, None, (query,), known)
    if isinstance(source, Query):
        return Result(sheet_path.name, "", None, None, (source,), known)
    known[source.name] = source
    sheet, asked = read_sheet(source)
    return Result(sheet_path.name, "" if sheet is None else sheet.wearer, sheet, None, asked, known)


def draft_for(read_: Read, sheet_path: Path, to_estimate: Sequence[str] = ()) -> Result:
    """Draft for the wearer of one sheet; `to_estimate` are measures to be estimated where they were not taken."""
    found = read_sheet_result(sheet_path, read_.sources)
    if found.sheet is None:
        return found
    two: TwoSides | None = None
    filled = with_estimates(found.sheet, to_estimate, read_.plan.measures())
    sheet, under_its_word = lent(filled.sheet, read_.plan.measures())
    if read_.lesson.header.body == "both sides":
        two = both_sides(read_.plan, sheet)
        draft, asked = two.left, _of_both(two)
    else:
        draft = evaluate(read_.plan, from_sheets([sheet], read_.plan.measures()))
        asked = list(draft.queries(0))
    told = _nobodys(sheet_path) or worn_beneath(read_.lesson, sheet)
    beside = [told] if told is not None else []
    of_the_sheet = [*filled.queries, *([] if under_its_word is None else [under_its_word])]
    beside += [query.at(list(found.sources)[-1]) for query in of_the_sheet]
    if (tight := laced(found.sheet, sheet_path, sheets_in(sheet_path.parent))) is not None:
        beside.append(tight)
    queries = in_order([*found.queries, *beside, *asked])
    return Result(
        sheet_path.name,
        sheet.wearer,
        found.sheet,
        draft,
        tuple(queries),
        found.sources,
        two,
        filled.estimates,
        _is_nominal(sheet_path),
    )


def nominal_for(read_: Read) -> Path:
    """The sheet to draw a lesson for that has no wearer yet: a man's where it asks for a chest, else a woman's."""
    wanted = {key_of(name) for name in read_.plan.measures()}
    return nominal("man" if "chest" in wanted and "bust" not in wanted else "woman")


def _is_nominal(sheet_path: Path) -> bool:
    return sheet_path.parent.name == "nominal" and sheet_path.stem.startswith("nominal-")


def _nobodys(sheet_path: Path) -> Query | None:
    """The note that a draft is nobody's, where it is drawn for a nominal figure."""
    if not _is_nominal(sheet_path):
        return None
    figure = sheet_path.stem.removeprefix("nominal-")
    other = {"woman": "man", "man": "woman"}.get(figure, "man")
    return note(
        "nominal-figure",
        f"Drawn for nobody: a nominal {figure}, on whom every measure is the median of a survey.",
        help=f"Say whom it is for: --for and a measure sheet; or --for nominal-{other}. Cut nothing from this.",
    ).at(sheet_path.name)


def _of_both(two: TwoSides) -> list[Query]:
    """The queries of both sides: what both ask once, what one asks with its side."""
    left, right = two.left.queries(0), two.right.queries(0)
    both = [q for q in left if q in right]
    told = [replace(q, message=f"On the left: {q.message}") for q in left if q not in both]
    told += [replace(q, message=f"On the right: {q.message}") for q in right if q not in both]
    between = [
        caution(
            "sides-disagree",
            f"{c.claim[:1].upper()}{c.claim[1:]}: {show_cm(float(c.left[0]))} on the left, "
            f"{show_cm(float(c.right[0]))} on the right.",
            c.where,
            help="Both centre lines are one line on the body; see which side was measured amiss.",
        ).at(c.source, c.sentence or None)
        for c in two.checks
        if not c.holds[0]
    ]
    return [*both, *told, *between]


def wearer_line(sheet: Sheet) -> str:
    """Whose the plate is, over what, and when: `For Margery Thorne, measured over shift on 2 March 2026`."""
    over = "" if sheet.over is None else f" over {say_layers(sheet.over)}"
    when = "" if sheet.date is None else f" on {sheet.date.day} {sheet.date:%B %Y}"
    return f"For {sheet.wearer}, measured{over}{when}" if over or when else f"For {sheet.wearer}"


def unfinished(result: Result) -> str:
    """What paper must say of a draft in which some sentences wait for an answer; nothing otherwise."""
    waiting = sorted({q.sentence for q in result.queries if q.kind is Kind.QUESTION and q.sentence})
    if not waiting and not result.waits:
        return ""
    where = f"sentence {waiting[0]} waits" if len(waiting) == 1 else f"{len(waiting)} sentences wait"
    return f"Not finished: {where if waiting else 'something waits'} for an answer. Do not cut from it."


def warning(result: Result) -> str:
    """What paper must not let be overlooked: unfinished, nobody's, estimated; nothing otherwise."""
    said = [unfinished(result)]
    if result.nobodys:
        said.append("Drawn for nobody, a nominal figure. Do not cut from it.")
    if result.estimates:
        said.append(f"{estimated_line(result.estimates)}.")
    return " ".join(part for part in said if part)


#: What a title or a name gives to a file's name at most, so that both together are a name that can be written.
_LONGEST_WORD = 50


def file_name(*words: str) -> str:
    """A plain file name from words: small letters, figures and hyphens."""
    cut = [word[:_LONGEST_WORD] for word in words]
    joined = "-".join(cut).lower().replace("'", "").replace("’", "")
    return re.sub(r"[^a-z0-9à-ÿ]+", "-", joined).strip("-") or "draft"


@dataclass(frozen=True, slots=True)
class Print:
    """How a plate is printed: the paper and the scale, already understood."""

    paper: Any
    scale: Any


def names_in_folder(results: Sequence[Result]) -> list[str]:
    """A file name for each result: title and wearer, with the sheet's own name where two would be alike."""
    names = [_name(r) for r in results]
    return [
        name if names.count(name) == 1 else f"{name}-{file_name(Path(r.sheet_name).stem)}"
        for name, r in zip(names, results, strict=True)
    ]


def _name(result: Result) -> str:
    title = "" if result.draft is None else result.draft.plan.lesson.title
    return file_name(title, result.wearer or result.sheet_name)


def _something(result: Result) -> bool:
    """Whether there is anything to show on paper."""
    return any(next(iter(draft.points(0)), None) is not None for _, draft in result.sides())


def write_result(result: Result, target: Path, how: Print, name: str = "") -> list[Path]:
    """Write one result to a file (by its ending) or, all three kinds, into a folder, under `name`.

    Of a draft in which nothing could be drawn only the JSON is written: paper would be empty.
    """
    if result.draft is None:
        return []
    if not _something(result) and target.suffix.lower() in {".pdf", ".svg"}:
        return []
    if target.suffix.lower() in WRITTEN:
        data = rendered(result, target.suffix.lower(), how)
        write(target, data)
        return [target]
    name = name or _name(result)
    written = []
    for ending in WRITTEN if _something(result) else (".json",):
        path = target / f"{name}{ending}"
        write(path, rendered(result, ending, how))
        written.append(path)
    return written


#: No garment laid flat is larger, mm; and more pages than these nobody joins.
LARGEST_DRAFT = 30_000.0
MOST_PAGES = 400


def _fits_paper(result: Result, how: Print) -> None:
    """Trouble where a draft is so large that no paper holds it: a length was not meant, or the paper is too small."""
    wide = high = 0.0
    for _, draft in result.sides():
        xs, ys = zip(*((x, y) for _, x, y, _ in draft.points(0)), strict=True)
        wide, high = max(wide, max(xs) - min(xs)), high + max(ys) - min(ys)
    wide, high = wide * float(how.scale.factor), high * float(how.scale.factor)
    if max(wide, high) > LARGEST_DRAFT:
        raise Trouble(
            f"The draft for {result.wearer} would be {wide / 1000:,.1f} m by {high / 1000:,.1f} m on paper, and "
            f"{LARGEST_DRAFT / 1000:.0f} m is the most that is printed. See which length is longer than was meant."
        )
    across, down = how.paper.room
    if across is not None and down is not None and wide * high > MOST_PAGES * across * down:
        raise Trouble(
            f"The draft for {result.wearer} is {wide / 1000:,.1f} m by {high / 1000:,.1f} m, over {MOST_PAGES} pages "
            f"of {how.paper.name}. Try --paper one-page, a roll, or --scale 1/4."
        )


def rendered(result: Result, ending: str, how: Print) -> bytes:
    """A result as the bytes of a PDF, an SVG or a JSON file; two sides are two plates, one below the other.

    Trouble when it is too large for any paper.
    """
    if result.draft is None:
        raise ValueError("a result without a draft has nothing to show")
    if ending == ".json":
        return (json.dumps(result.data(), ensure_ascii=False, indent=1) + "\n").encode()
    _fits_paper(result, how)
    from tapewright.export import pdf, svg
    from tapewright.pages import ONE_PAGE, plate_pages
    from tapewright.pages.from_draft import plate_of

    line = wearer_line(result.sheet) if result.sheet is not None else ""
    plates = [
        plate_of(
            draft,
            0,
            wearer_line=line,
            side=side,
            checks=result.two.checks if result.two else (),
            warning=warning(result),
        )
        for side, draft in result.sides()
    ]
    plates = [replace(plate, notes=(*ranges(result.estimates), *plate.notes)) for plate in plates]
    if ending == ".svg":
        from tapewright.pages.stacked import stacked

        return svg(stacked([plate_pages(p, ONE_PAGE, how.scale).drawings[0] for p in plates]))
    pages = [page for plate in plates for page in plate_pages(plate, how.paper, how.scale).drawings]
    return pdf(pages, title=plates[0].title, subject=line)

"""Print tapes: those of a lesson, those asked for by name, or the main girths and lengths; for one or for many.

A tape that is asked for is read as a lesson's list of tapes is, by the same readers, so that it can be
anything a lesson's tape can be: `the bust`, `half the chest in 18 parts`, `half the chest plus 2 1/2 in in 20
parts`. A lesson's own tapes come with a tape of every other length that it asks for.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path

import numpy as np

from tapewright.app.beside import estimated_line
from tapewright.app.drafting import Read, Result, draft_for, file_name, read_sheet_result, wearer_line
from tapewright.app.files import Trouble, is_there, read_text
from tapewright.diagnostics import Query, Source, as_text, did_you_mean
from tapewright.draft import Draft
from tapewright.drawing import Drawing
from tapewright.language import read_lesson
from tapewright.measures import Sheet, catalogue, lent
from tapewright.pages import FULL, Paper, PrintedTape, Scale, tapes_sheet
from tapewright.pages.tapes_sheet import TapeLayout
from tapewright.plan import build_plan
from tapewright.plan.form import Linear, MeasureBase
from tapewright.plan.plan import Tape
from tapewright.tapes import PARTS, Notation, Way, notations, plain, read_notation
from tapewright.units import CM, INCH, Length, show_cm, show_fraction, show_in

#: What is taped when nothing is asked for: the girths and lengths a cutter reckons from.
MAIN = ("high bust", "bust", "chest", "waist", "hip", "nape to waist", "nape height", "arm", "neck base")
#: Longer than any measure of a body, or twice one: what comes to more was not meant.
LONGEST_MM = 6_000.0

_ASKED = "--tape"
# Queries that a list of tapes by itself gives because it is no whole lesson.
_OF_A_LESSON = {"no-sentences", "header", "worn-beneath"}


@dataclass(frozen=True, slots=True)
class HowTaped:
    """How tapes are printed. `key` adds the key of the notation; `measures` a tape of each measure that the
    lesson asks for and has no tape of."""

    paper: Paper
    scale: Scale = FULL
    layout: TapeLayout = TapeLayout.STRIPS
    notation: Notation = field(default_factory=plain)
    key: bool = False
    centimetres: bool = True
    measures: bool = True


@dataclass(frozen=True, slots=True)
class Taped:
    """One wearer's tapes as pages. `told` says what else there is to say: why there are none, what is left out."""

    result: Result
    drawings: tuple[Drawing, ...]
    title: str
    name: str
    told: tuple[str, ...] = ()


# --- what is asked for ---------------------------------------------------------------------------------


def notation_called(said: str) -> tuple[Notation | None, tuple[Query, ...], Source | None]:
    """A shipped notation by its name, or a maker's own in a file; with what is asked about it.

    Trouble where there is neither.
    """
    known = notations()
    plainly = "-".join(said.casefold().split())
    if plainly in known:
        return known[plainly], (), None
    path = Path(said)
    if path.suffix or is_there(path):
        source = read_text(path)
        notation, queries = read_notation(source)
        return notation, queries, source
    near = [name for name in known if plainly and plainly in name] or did_you_mean(plainly, known) or known
    raise Trouble(
        f"There is no notation called {said}. Try {', '.join(near)}, or a file of your own (docs/tapes.md)."
    )


def asked_tapes(texts: Sequence[str], sheets: Sequence[Path] = ()) -> Read:
    """Tapes asked for in words as a lesson of nothing but these; what cannot be read is its queries.

    Measures are those of the catalogue and of the sheets that the texts name.
    """
    named = dict.fromkeys([*catalogue(), *(name for path in sheets for name in _names_of(path))])
    joined = " ".join(" ".join(texts).casefold().split())
    # The longest names first, so that `high bust` is not taken for the bust as well.
    wanted = []
    for name in sorted(named, key=len, reverse=True):
        found = re.compile(rf"(?<!\w){re.escape(name)}(?!\w)")
        if found.search(joined):
            wanted.append(name)
            joined = found.sub(";", joined)
    lines = [
        "# Tapes\n",
        "On the half. Drafted net.\n",
        "## Measures\n",
        *(f"- {name}" for name in wanted),
        "\n## Tapes\n",
        *(f"- {_bullet(' '.join(text.split()), i, len(texts))}" for i, text in enumerate(texts, 1)),
    ]
    source = Source(_ASKED, "\n".join(lines) + "\n")
    lesson = read_lesson(source)
    planned = build_plan(lesson)
    kept = tuple(q for q in planned.queries if q.name not in _OF_A_LESSON)
    return Read(lesson, replace(planned, queries=kept), {source.name: source})


def _names_of(path: Path) -> tuple[str, ...]:
    sheet = read_sheet_result(path).sheet
    return () if sheet is None else tuple(sheet.entries)


def _bullet(text: str, number: int, of: int) -> str:
    """A tape as a line of a list, with a name where none was given."""
    if ":" in text:
        return text
    whole = re.sub(r"[,\s]+in\s+\S+(?:\s+parts?)?$", "", text)
    words = re.sub(r"\b(?:of the|the)\s+", "", whole.casefold())
    name = words if re.fullmatch(r"[^\W\d_]+(?:[ '’-][^\W\d_]+)*", words) else ""
    called = f"{name} tape" if name else f"tape {number}" if of > 1 else "own tape"
    return f"{called}: {text}"


# --- the tapes of a wearer -----------------------------------------------------------------------------


def lesson_tapes(result: Result, how: HowTaped) -> list[PrintedTape]:
    """The tapes of a lesson for one wearer, as the lesson declares them; where left and right differ, both."""
    found = []
    for name, tape in result.draft.plan.tapes.items() if result.draft is not None else ():
        wholes = {side: whole for side, draft in result.sides() if (whole := _whole(draft, name)) is not None}
        alike = len(set(wholes.values())) == 1
        for side, whole in list(wholes.items())[: 1 if alike else None]:
            called = f"{side} {name}" if side and not alike else name
            found.append(_printed(called, whole, tape.parts, whole_words(tape), how))
    return found


def _whole(draft: Draft, name: str) -> float | None:
    """The whole of a tape of a draft in mm; None where it has none that can be printed."""
    if not draft.alive(f"tape {name}", 0):
        return None
    whole = float(np.asarray(draft.made[f"tape {name}"].thing)[0])
    return whole if 0 < whole <= LONGEST_MM else None


def measure_tapes(draft: Draft, sheet: Sheet, how: HowTaped) -> list[PrintedTape]:
    """A tape of each length that a lesson asks for, was taken, and is the whole of none of its tapes.

    A lesson that says `half the cross back` is then drawn by hand without arithmetic too.
    """
    shown = {
        base.name
        for tape in draft.plan.tapes.values()
        if isinstance(tape.whole, Linear) and len(tape.whole.terms) == 1 and not tape.whole.constant
        for base, _ in tape.whole.terms
        if isinstance(base, MeasureBase)
    }
    wanted = draft.plan.measures()
    sheet, _ = lent(sheet, wanted)
    return _tapes_of([name for name in wanted if name not in shown], sheet, how, halved=False)


def main_tapes(sheet: Sheet, how: HowTaped) -> list[PrintedTape]:
    """A tape of each main girth and length that was taken, in the notation's parts; of half a girth where
    the notation tapes girths by the half."""
    return _tapes_of(MAIN, sheet, how, halved=how.notation.halved)


def _tapes_of(names: Sequence[str], sheet: Sheet, how: HowTaped, *, halved: bool) -> list[PrintedTape]:
    found = []
    parts = how.notation.parts or PARTS
    for name in names:
        measure = catalogue().get(name)
        half = halved and measure is not None and measure.sort == "girth"
        for side in ("left", "right") if sheet.has_sides(name) else (None,):
            value = sheet.number(name, side)
            if value is None or not 0 < value <= LONGEST_MM or _no_length(sheet, name):
                continue
            own = f"{side} {name}" if side else name
            words = f"half the {own}" if half else f"the {own}"
            called = f"half {own} tape" if half else f"{own} tape"
            found.append(_printed(called, value / 2 if half else value, parts, words, how))
    return found


def _no_length(sheet: Sheet, name: str) -> bool:
    """Whether a measure is an angle or a weight, which no tape shows."""
    return not isinstance(sheet.value(name), Length)


def _printed(name: str, whole: float, parts: int, words: str, how: HowTaped) -> PrintedTape:
    return PrintedTape(name, whole, parts, words, how.notation, how.scale, how.centimetres)


_SHARES = {
    Fraction(1): "the",
    Fraction(1, 2): "half the",
    Fraction(1, 3): "a third of the",
    Fraction(1, 4): "a quarter of the",
    Fraction(2): "twice the",
}


def whole_words(tape: Tape) -> str:
    """What a tape is a tape of, where that is a share of one measure, and perhaps a length more or less."""
    whole = tape.whole
    if not isinstance(whole, Linear) or len(whole.terms) != 1:
        return ""
    base, factor = whole.terms[0]
    if not isinstance(base, MeasureBase) or factor <= 0:
        return ""
    share = _SHARES.get(factor)
    words = f"{share} {base.name}" if share else f"{show_fraction(factor)} of the {base.name}"
    if not whole.constant:
        return words
    more = abs(whole.constant)
    in_inches = (more / INCH.mm * 8).denominator == 1 and (more / CM.mm * 10).denominator != 1
    shown = show_in(more) if in_inches else show_cm(more)
    return f"{words} {'plus' if whole.constant > 0 else 'less'} {shown}"


# --- on paper ------------------------------------------------------------------------------------------


def taped(sheet_path: Path, how: HowTaped, lesson: Read | None = None, asked: Read | None = None) -> Taped:
    """One wearer's tapes: the lesson's, those asked for, or without either the main ones."""
    results = [draft_for(read, sheet_path) for read in (lesson, asked) if read is not None]
    result = _together(results) if results else read_sheet_result(sheet_path)
    sheet = result.sheet
    name = file_name("tapes", result.wearer or sheet_path.stem)
    if sheet is None:
        return Taped(result, (), "", name)
    tapes: list[PrintedTape] = []
    for one, read in zip(results, [r for r in (lesson, asked) if r is not None], strict=True):
        if one.draft is not None:
            tapes += lesson_tapes(one, how)
            if read is lesson and how.measures:
                tapes += measure_tapes(one.draft, sheet, how)
    if not results:
        tapes = main_tapes(sheet, how)
    if not tapes:
        what = (
            "none of the main girths and lengths was taken"
            if not results
            else "none of these tapes can be made from this sheet"
        )
        return Taped(result, (), "", name, (f"Nothing to print: {what}.",))
    title = f"Tapes of {result.wearer}"
    line = wearer_line(sheet)
    if result.estimates:
        line = f"{line}. {estimated_line(result.estimates)}"
    made = tapes_sheet(tapes, how.paper, title=title, wearer_line=line, layout=how.layout, key=how.key)
    return Taped(result, made.pages.drawings, title, name, _holds(result, how, tapes))


def _together(results: Sequence[Result]) -> Result:
    """Two drafts for one wearer as one result: the first, with what both have to say."""
    first = results[0]
    queries: list[Query] = []
    sources: dict[str, Source] = {}
    for result in results:
        queries += [q for q in result.queries if q not in queries and not _of_a_lesson(q, result)]
        sources |= dict(result.sources)
    estimates = {name: made for result in results for name, made in result.estimates.items()}
    return replace(first, queries=tuple(queries), sources=sources, estimates=estimates)


def _of_a_lesson(query: Query, result: Result) -> bool:
    """Whether something is only asked because a list of tapes is no lesson."""
    listed = result.draft is not None and result.draft.plan.lesson.source.name == _ASKED
    return listed and query.name in _OF_A_LESSON


def _holds(result: Result, how: HowTaped, tapes: Sequence[PrintedTape]) -> tuple[str, ...]:
    """What the pages hold of the wearer, and what the notation leaves out."""
    figures = "with their figures" if how.centimetres else "without figures"
    said = [f"{len(tapes)} tape{'' if len(tapes) == 1 else 's'}: measures of {result.wearer}, {figures}."]
    if how.notation.way is Way.FRACTIONS:
        said.append(
            f"{how.notation.title} shows no small parts: what a lesson gives in parts cannot be read off."
        )
    return tuple(said)


def written(sets: Sequence[Taped]) -> bytes:
    """The tapes of one wearer or of several as one PDF."""
    from tapewright.export import pdf

    drawings = [drawing for one in sets for drawing in one.drawings]
    return pdf(drawings, title=sets[0].title if len(sets) == 1 else "Tapes")


def names_in_folder(sets: Sequence[Taped]) -> list[str]:
    """A file name for each wearer's tapes, with the sheet's own where two would be alike."""
    names = [one.name for one in sets]
    return [
        f"{name}.pdf"
        if names.count(name) == 1
        else f"{file_name(name, Path(one.result.sheet_name).stem)}.pdf"
        for name, one in zip(names, sets, strict=True)
    ]


def queries_told(queries: Sequence[Query], source: Source | None) -> list[str]:
    """What is asked about a notation, in words."""
    sources = {} if source is None else {source.name: source}
    return [as_text(query, sources) for query in queries]

"""`tapewright pieces`: the pieces of a lesson, to be cut out."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tapewright.cli.options import Amend, Estimate, Json, LeftAndRight, Lesson, Paper, Scale, Set, Strict
from tapewright.cli.saying import choices, echo_json, is_folder, leave, print_options, stop, tell

if TYPE_CHECKING:
    from tapewright.app.piecing import Cut


def pieces(
    lesson: Lesson,
    for_: Annotated[
        str | None,
        typer.Option(
            "--for",
            help="A measure sheet (.yaml), or a folder of them; without one the pieces are a nominal figure's.",
            metavar="SHEET|FOLDER",
        ),
    ] = None,
    output: Annotated[
        Path | None,
        typer.Option(
            "-o",
            "--output",
            help="A .pdf, .svg, .dxf or .json file, or a folder for a PDF and an SVG of each piece.",
        ),
    ] = None,
    net: Annotated[bool, typer.Option("--net", help="Only where you sew.")] = False,
    cut: Annotated[bool, typer.Option("--cut", help="Only where you cut.")] = False,
    both: Annotated[bool, typer.Option("--both", help="Where you cut and where you sew.")] = False,
    turnings: Annotated[
        str | None,
        typer.Option(
            "--turnings",
            help="Left in place of what the lesson leaves everywhere or elsewhere, such as 1.5cm.",
        ),
    ] = None,
    for_toile: Annotated[
        bool,
        typer.Option(
            "--for-toile",
            help="The calico one: wide inlays, no linings or facings, the body's lines drawn, a form for the fitting.",
        ),
    ] = False,
    measured: Annotated[
        bool, typer.Option("--measured", help="Measure the pattern as the wearer was, beside the sheet.")
    ] = False,
    cloth: Annotated[
        list[str] | None,
        typer.Option("--cloth", help="How wide a cloth is: --cloth linen=80cm. May be given more than once."),
    ] = None,
    form: Annotated[
        str, typer.Option("--form", help="How a .dxf is written: plain, or apparel (after ASTM D6673).")
    ] = "plain",
    letters: Annotated[bool, typer.Option("--letters", help="Show the letters of the outlines.")] = False,
    paper: Paper = "one-page",
    scale: Scale = "1",
    amend: Amend = None,
    set_: Set = None,
    estimate: Estimate = None,
    left_and_right: LeftAndRight = False,
    as_json: Json = False,
    strict: Strict = False,
) -> None:
    """Cut out the pieces of a lesson: with turnings, marks, grain and labels, at full size or small."""
    from tapewright.app import drafting, library, measuring, piecing
    from tapewright.app.files import Trouble

    how = piecing.HowCut(
        print_options(paper, scale),
        _lines(net=net, cut=cut, both=both),
        letters,
        _turnings(turnings),
        for_toile,
        _form(form),
        _cloths(cloth or ()),
    )
    made = drafting.read(library.lesson_path(lesson), amend or (), choices(set_), two_sides=left_and_right)
    sheets = [drafting.nominal_for(made)] if for_ is None else drafting.sheets_in(library.wearer_path(for_))
    _check_output(output, len(sheets), piecing.WRITTEN)
    to_estimate = measuring.asked_for_by(made, measuring.known_names(estimate or ()))
    results = [drafting.draft_for(made, sheet, to_estimate) for sheet in sheets]
    cuts = [piecing.cut_out(result, how) for result in results]
    found: list[Any] = []
    troubled = False
    for one, name in zip(cuts, piecing.names_of(cuts), strict=True):
        found.append(one.data())
        written: list[Path] = []
        try:
            written = [] if output is None else piecing.write_cut(one, output, name)
        except Trouble as trouble:
            # One wearer's trouble stops no other.
            troubled = True
            typer.echo(trouble, err=True)
            continue
        if not as_json:
            _tell(one, written, output, measured=measured)
    if as_json:
        echo_json(found if for_ is not None and is_folder(for_) else found[0])
    if troubled:
        raise typer.Exit(2)
    leave(results, strict=strict)


def _lines(*, net: bool, cut: bool, both: bool) -> Any:
    from tapewright.pages.paper_piece import PieceLines

    said = [word for word, given in (("--net", net), ("--cut", cut), ("--both", both)) if given]
    if len(said) > 1:
        raise stop(f"{' and '.join(said)}: one of them is enough; --both is both lines.")
    return PieceLines(said[0].removeprefix("--")) if said else PieceLines.BOTH


#: No turning is wider; what is, was meant in another unit, mm.
_WIDEST = 200.0


def _turnings(said: str | None) -> float | None:
    from tapewright.units import Trouble, read_length

    if said is None:
        return None
    length = read_length(said)
    if isinstance(length, Trouble):
        raise stop(f'--turnings {said}: write a number and its unit, such as 1.5cm or "5/8 in".')
    if not 0 <= length.mm <= _WIDEST:
        raise stop(f"--turnings {said}: they may be up to {_WIDEST / 10:.0f} cm wide.")
    return float(length.mm)


def _check_output(output: Path | None, wearers: int, endings: tuple[str, ...]) -> None:

    if output is None:
        return
    if wearers > 1 and output.suffix.lower() in endings:
        raise stop(f"{output} is one file, and there are {wearers} wearers; give a folder after -o.")
    if output.suffix and output.suffix.lower() not in endings:
        raise stop(f"{output}: pieces are written as .pdf, .svg, .dxf or .json, or into a folder.")


def _cloths(said: Iterable[str]) -> dict[str, float]:
    """Widths of cloths as they were given, mm."""
    from tapewright.units import Length, read_length

    found: dict[str, float] = {}
    for words in said:
        name, _, width = words.partition("=")
        length = read_length(width.strip())
        if not name.strip() or not isinstance(length, Length) or length.mm <= 0:
            raise stop(f"--cloth {words}: say a cloth and how wide it is, such as linen=80cm.")
        found[name.strip()] = float(length.mm)
    return found


def _form(form: str) -> Any:
    if form not in ("plain", "apparel"):
        raise stop(f"--form {form}: a .dxf is written plain, or apparel.")
    return form


def _tell(cut: Cut, written: list[Path], output: Path | None, *, measured: bool) -> None:
    """One wearer's pieces in words: what is asked, a table of the pieces, what was written."""
    from tapewright.app import piecing
    from tapewright.diagnostics import as_text, printable

    rows = cut.table()
    further: list[str] = []
    if rows:
        wide = max(len(name) for name, _, _ in rows)
        long = max(len(size) for _, _, size in rows)
        further += [
            printable(f"{name:<{wide}}  {size:>{long}} net  {told}".replace("\u00a0", " "))
            for name, told, size in rows
        ]
    else:
        further.append(piecing.why_nothing(cut) or "Nothing could be drawn.")
    further += [as_text(q, cut.result.sources) for q in cut.queries[len(cut.result.queries) :]]
    further += [piecing.ware_words(*one) for one in cut.wares]
    if measured:
        further += [one.words() for one in cut.measured]
    if rows and output is None:
        further.append("Nothing is written yet; add -o and a .pdf, .svg, .dxf or .json, or a folder.")
    tell(cut.result, written, checks=cut.result.draft is not None, further=further)

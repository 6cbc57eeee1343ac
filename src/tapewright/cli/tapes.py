"""`tapewright tapes` and `tapewright fan`: what is graduated, printed to be cut out or to be laid along."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

Tapes = Annotated[
    list[str] | None,
    typer.Option(
        "--tape",
        help='A tape in words: --tape "half the chest in 18 parts". May be given more than once.',
    ),
]


def tapes(
    for_: Annotated[
        str,
        typer.Option("--for", help="A measure sheet (.yaml), or a folder of them.", metavar="SHEET|FOLDER"),
    ],
    output: Annotated[Path, typer.Option("-o", "--output", help="A .pdf file, or a folder for one each.")],
    lesson: Annotated[
        str | None, typer.Argument(help="The lesson whose tapes are wanted; none: the main ones.")
    ] = None,
    tape: Tapes = None,
    notation: Annotated[
        str | None,
        typer.Option(
            "--notation",
            help="plain, half-breast, ell-of-1771, letters-of-1580, or a file of your own; with its key.",
        ),
    ] = None,
    paper: Annotated[
        str | None, typer.Option("--paper", help="a4 (the usual), a3, letter, one-page, or roll:90cm.")
    ] = None,
    scale: Annotated[str, typer.Option("--scale", help="1, 1/2 or 1/4.")] = "1",
    layout: Annotated[
        str, typer.Option("--layout", help="strips, for paper; or roll, in one piece for cloth tape.")
    ] = "strips",
    centimetres: Annotated[
        bool | None,
        typer.Option(
            "--centimetres/--no-centimetres",
            help="With or without figures and a centimetre rule. Usual: with for one wearer, without for a folder.",
        ),
    ] = None,
    measures: Annotated[
        bool,
        typer.Option(
            "--measures/--no-measures",
            help="Of a lesson: also a tape of each measure that it has no tape of.",
        ),
    ] = True,
    amend: Annotated[
        list[Path] | None, typer.Option("--amend", help="A file of amendments; may be given more than once.")
    ] = None,
) -> None:
    """Print graduated tapes for a wearer, or for every wearer of a folder."""
    from tapewright.app import drafting, files, library, taping
    from tapewright.cli.saying import leave, print_options, stop, tell
    from tapewright.diagnostics import Kind
    from tapewright.pages.tapes_sheet import TapeLayout

    laid = {"strips": TapeLayout.STRIPS, "roll": TapeLayout.ROLL}.get(layout.strip().casefold())
    if laid is None:
        raise stop(f"--layout {layout}: strips or roll.")
    on = print_options(paper or ("one-page" if laid is TapeLayout.ROLL else "a4"), scale)
    if laid is TapeLayout.ROLL and on.paper.cut_sheet:
        raise stop(f"--layout roll does not go on {on.paper.name}; try --paper roll:90cm or one-page.")
    if output.suffix and output.suffix.lower() != ".pdf":
        raise stop(f"{output}: tapes are written as .pdf, or into a folder.")
    marks, asked, source = taping.notation_called(notation or "plain")
    for text in taping.queries_told(asked, source):
        typer.echo(text + "\n")
    if marks is None:
        raise typer.Exit(1)
    sheets = drafting.sheets_in(library.wearer_path(for_))
    figures = len(sheets) == 1 if centimetres is None else centimetres
    how = taping.HowTaped(on.paper, on.scale, laid, marks, notation is not None, figures, measures)
    made = None if lesson is None else drafting.read(library.lesson_path(lesson), amend or ())
    wanted = taping.asked_tapes(tape, sheets) if tape else None
    if wanted is not None and any(q.kind is Kind.QUESTION for q in wanted.plan.queries):
        for text in taping.queries_told(wanted.plan.queries, wanted.lesson.source):
            typer.echo(text + "\n")
        raise typer.Exit(1)
    sets = [taping.taped(sheet, how, made, wanted) for sheet in sheets]
    full = [one for one in sets if one.drawings]
    together = output.suffix.lower() == ".pdf"
    if together and full:
        files.write(output, taping.written(full), private=True)
    for one, name in zip(sets, taping.names_in_folder(sets), strict=True):
        target = output / name
        if one.drawings and not together:
            files.write(target, taping.written([one]), private=True)
        tell(one.result, [target] if one.drawings and not together else [], checks=False, further=one.told)
    if together and full:
        typer.echo(f"wrote {output}, readable by you only")
    if any(not one.drawings for one in sets):
        raise typer.Exit(1)
    leave([one.result for one in sets], strict=False)


def fan(
    output: Annotated[Path, typer.Option("-o", "--output", help="A .pdf file.")],
    paper: Annotated[str, typer.Option("--paper", help="a4, a3, letter, one-page, or roll:90cm.")] = "a4",
    parts: Annotated[int, typer.Option("--parts", help="How many parts a strip takes.")] = 48,
    longest: Annotated[
        str | None, typer.Option("--longest", help="The longest strip it is to take, such as 160 cm.")
    ] = None,
    folded: Annotated[
        bool, typer.Option("--folded", help="For strips laid folded in half: a quarter of the paper.")
    ] = False,
) -> None:
    """Print the graduating fan, on which any blank strip takes its parts without a computer."""
    from tapewright.app import fanning, files
    from tapewright.cli.saying import print_options, stop
    from tapewright.tapes import LONGEST, Fan
    from tapewright.units import CM, Length, read_length

    if output.suffix.lower() != ".pdf":
        raise stop(f"{output}: the fan is written as .pdf.")
    most = LONGEST
    if longest is not None:
        read = read_length(longest, CM)
        if not isinstance(read, Length) or not 500 <= read.mm <= 4000:
            raise stop(f"--longest {longest}: a length from 50 cm to 4 m, such as 160 cm.")
        most = float(read.mm)
    if not 2 <= parts <= most / 8:
        raise stop(f"--parts {parts}: from 2 to {int(most / 8)}; smaller parts cannot be marked by hand.")
    if folded and parts % 2:
        raise stop(f"--parts {parts} --folded: a strip folded in half takes an even number of parts.")
    data, says = fanning.fan_pdf(Fan(parts, most, folded=folded), print_options(paper, "1").paper)
    files.write(output, data)
    typer.echo(f"wrote {output}. {' '.join(says)}")

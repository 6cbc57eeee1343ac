"""`tapewright measures`: check, estimate, blank, import, export, ruler.

Exit status as of the other commands: 0 when no question remains, 1 when one does, 2 when the command
itself cannot be carried out.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

if TYPE_CHECKING:
    from tapewright.app.companies import BroughtIn
    from tapewright.app.drafting import Result
    from tapewright.app.measuring import Estimated

app = typer.Typer(
    no_args_is_help=True,
    help="Measure sheets: look them over, estimate, print blank ones, bring a company in and send it out.",
)

Sheets = Annotated[str, typer.Argument(help="A measure sheet (.yaml), or a folder.", metavar="SHEET|FOLDER")]
Json = Annotated[bool, typer.Option("--json", help="Print the result as JSON instead of words.")]
Paper = Annotated[str, typer.Option("--paper", help="a4, a3 or letter.")]
Names = Annotated[
    list[str] | None, typer.Option("--measure", help="Only this one; may be given more than once.")
]


def _is_folder(said: str) -> bool:
    from tapewright.app.files import is_folder

    return is_folder(Path(said))


def _stop(message: str) -> typer.Exit:
    typer.echo(message, err=True)
    return typer.Exit(2)


def _echo_json(data: Any) -> None:
    typer.echo(json.dumps(data, ensure_ascii=False, indent=1))


def _paper(said: str, *, fixed: bool = True) -> Any:
    from tapewright.pages import OptionTrouble, read_paper

    paper = read_paper(said)
    if isinstance(paper, OptionTrouble):
        raise _stop(f"{paper.message} {paper.help}".strip())
    if fixed and not paper.cut_sheet:
        raise _stop(f"--paper {said}: this is printed on sheets: a4, a3 or letter.")
    return paper


def _counted(queries: tuple[Any, ...]) -> str:
    counts: dict[str, int] = {}
    for query in queries:
        counts[str(query.kind)] = counts.get(str(query.kind), 0) + 1
    return ", ".join(f"{n} {kind}{'' if n == 1 else 's'}" for kind, n in counts.items()) or "nothing to ask"


def _tell(result: Result, *, notes: bool = True) -> None:
    from tapewright.diagnostics import Kind, as_text

    for query in result.queries:
        if query.kind is Kind.NOTE and not notes:
            continue
        typer.echo("\n".join("  " + line for line in as_text(query, result.sources).splitlines()))


def _title(result: Result) -> str:
    from tapewright.measures import say_layers

    sheet = result.sheet
    over = f", over {say_layers(sheet.over)}" if sheet is not None and sheet.over is not None else ""
    return f"{result.wearer or result.sheet_name}{over}"


@app.command()
def check(sheets: Sheets, as_json: Json = False) -> None:
    """Look sheets over: each value by itself, beside the others, and one wearer's sheets beside each other."""
    from tapewright.app import library, measuring

    results = measuring.look_over(library.wearer_path(sheets))
    if as_json:
        found = [measuring.sheet_data(r) for r in results]
        _echo_json(found if _is_folder(sheets) else found[0])
    else:
        for result in results:
            count = 0 if result.sheet is None else len(result.sheet.entries)
            typer.echo(
                f"{_title(result)}: {count} measure{'' if count == 1 else 's'}; {_counted(result.queries)}."
            )
            _tell(result)
    if any(r.waits or r.sheet is None for r in results):
        raise typer.Exit(1)


@app.command()
def estimate(
    sheets: Sheets,
    names: Names = None,
    people: Annotated[
        str | None, typer.Option("--from", help="women, men or both, in place of what the sheet says.")
    ] = None,
    over: Annotated[
        str | None,
        typer.Option("--over", help="stays or a corset: what may be over them, by judgement, from the body."),
    ] = None,
    output: Annotated[
        Path | None, typer.Option("-o", "--output", help="The plate of the wearer, a .pdf, or a folder.")
    ] = None,
    paper: Paper = "a4",
    as_json: Json = False,
) -> None:
    """Estimate what was not taken from what was, each with the range that holds nine in ten."""
    from tapewright.app import files, library, measuring
    from tapewright.measures import named_stays

    if people is not None and people not in {"women", "men", "both"}:
        raise _stop(f"--from {people}: women, men or both.")
    stays = None if over is None else named_stays(over)
    if over is not None and stays is None:
        raise _stop(f"--over {over}: stays, or a corset.")
    how = _paper(paper)
    found = measuring.estimates_for(
        library.wearer_path(sheets), measuring.known_names(names or ()), people, stays
    )
    if output is not None and output.suffix.lower() == ".pdf" and len(found) > 1:
        raise _stop(f"{output} is one file, and there are {len(found)} sheets; give a folder after -o.")
    if output is not None and output.suffix and output.suffix.lower() != ".pdf":
        raise _stop(f"{output}: the plate of a wearer is written as .pdf, or into a folder.")
    if as_json:
        data = [one.data() for one in found]
        _echo_json(data if _is_folder(sheets) else data[0])
    for one in found:
        if not as_json:
            _tell_estimates(one)
        if output is not None and one.result.sheet is not None:
            made, name = measuring.plate_pdf(one, how)
            target = output if output.suffix else output / name
            files.write(target, made, private=True)
            typer.echo(f"wrote {target}", err=as_json)
    if any(one.result.waits or one.result.sheet is None for one in found):
        raise typer.Exit(1)


def _tell_estimates(one: Estimated) -> None:
    from tapewright.measures import show

    typer.echo(_title(one.result))
    _tell(one.result, notes=False)
    judged = False
    for name, e in one.estimates.items():
        mid, low, high = (show(q) for q in e.quantities())
        low = low.split(" (", maxsplit=1)[0]
        high = high.split(" (", maxsplit=1)[0]
        rests = ", ".join(e.from_[:3])
        judged |= e.judgement
        typer.echo(f"  {name}: about {mid}; {low} to {high}; from {rests}")
    for line in one.why_not:
        typer.echo(f"  {line}")
    if one.estimates and judged:
        typer.echo("  By judgement, not from a survey: measure over the stays as soon as they are there.")
        from tapewright.measures import CARE

        typer.echo(f"  {CARE}")
    elif one.estimates:
        typer.echo("  Estimates, not measures: nine in ten such people lie in the range. Measure if you can.")
    typer.echo("")


@app.command()
def blank(
    lessons: Annotated[
        list[str] | None,
        typer.Argument(
            help="Lessons whose measures are wanted; none: the whole catalogue.", metavar="LESSON"
        ),
    ] = None,
    for_: Annotated[
        str | None,
        typer.Option(
            "--for", help="Sheets of the wearers: what they have is left out.", metavar="SHEET|FOLDER"
        ),
    ] = None,
    wearers: Annotated[
        list[str] | None,
        typer.Option("--wearer", help="A wearer without a sheet; may be given more than once."),
    ] = None,
    names: Annotated[
        list[str] | None,
        typer.Option("--measure", help="A measure wanted besides; may be given more than once."),
    ] = None,
    over: Annotated[str, typer.Option("--over", help="What will be worn beneath.")] = "",
    output: Annotated[
        Path | None,
        typer.Option(
            "-o",
            "--output",
            help="A .pdf to print; a .yaml, or a folder of them, to fill in. Without it only the list is told.",
        ),
    ] = None,
    paper: Paper = "a4",
    as_json: Json = False,
) -> None:
    """Say what is still to take, and print blank sheets for a measuring day, in the order one measures."""
    from tapewright.app import drafting, files, library, measuring

    how = _paper(paper)
    if output is not None and output.suffix.lower() not in {".pdf", ".yaml", ".yml", ""}:
        raise _stop(f"{output}: blank sheets are written as .pdf, or to be filled in as .yaml.")
    reads = [drafting.read(library.lesson_path(lesson)) for lesson in lessons or ()]
    path = None if for_ is None else library.wearer_path(for_)
    wanted = measuring.known_names(names or ())
    sheets, results = measuring.still_to_take(reads, path, wearers or (), wanted, over)
    unread = [r for r in results if r.sheet is None]
    if as_json:
        _echo_json(
            [
                {
                    "wearer": s.wearer,
                    "over": s.over,
                    "still_to_take": list(s.names),
                    "asked_for_by": list(s.needed_for),
                }
                for s in sheets
            ]
        )
    else:
        for result in unread:
            typer.echo(
                f"{result.sheet_name} could not be read: tapewright measures check {result.sheet_name}"
            )
        for sheet in sheets:
            beneath = f", over {sheet.over}" if sheet.over else ""
            typer.echo(f"{sheet.wearer or 'Anybody'}{beneath}: {len(sheet.names)} still to take")
            typer.echo(f"  {', '.join(sheet.names)}")
        if not sheets:
            typer.echo("Nothing is still to take.")
    if output is not None and sheets and output.suffix.lower() != ".pdf":
        for path in measuring.blank_texts(sheets, output):
            typer.echo(f"wrote {path}, readable by you only", err=as_json)
    elif output is not None and sheets:
        data, says = measuring.blank_pdf(sheets, how)
        files.write(output, data, private=any(s.wearer for s in sheets))
        typer.echo(f"wrote {output}. {' '.join(says)}", err=as_json)
    if unread:
        raise typer.Exit(1)


@app.command(name="import")
def import_(
    table: Annotated[str, typer.Argument(help="A .csv file, or - for what is pasted.", metavar="TABLE|-")],
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", help="The folder for the sheets; without one nothing is kept."),
    ] = None,
    unit: Annotated[str, typer.Option("--unit", help="The unit of values whose heading names none.")] = "",
    figure: Annotated[
        str | None, typer.Option("--figure", help="woman, man or child, for rows that do not say.")
    ] = None,
    column: Annotated[
        list[str] | None,
        typer.Option("--column", help='What a heading is: --column "waist line=waist", or =nothing.'),
    ] = None,
    without_rejected: Annotated[
        bool, typer.Option("--without-rejected", help="Keep the other rows although some are rejected.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Bring a company in from one table: what was understood is told first, and rejected rows with reasons."""
    from tapewright.app import companies, files
    from tapewright.diagnostics import Source
    from tapewright.measures import Figure

    if figure is not None and figure not in set(Figure):
        raise _stop(f"--figure {figure}: woman, man or child.")
    source = Source("what was pasted", sys.stdin.read()) if table == "-" else files.read_table(Path(table))
    told = {}
    for one in column or ():
        heading, mark, name = one.rpartition("=")
        if not mark or not heading.strip() or not name.strip():
            raise _stop(f'--column {one}: write the heading and what it is: --column "waist line=waist".')
        told[heading] = name
    brought = companies.read_in(source, told, unit, None if figure is None else Figure(figure))
    company = brought.company
    if as_json:
        _echo_json(brought.data())
    else:
        _tell_company(brought)
    waits = company.waits or bool(company.rejected)
    if output is not None and (not waits or (without_rejected and not company.waits)):
        written = companies.keep(brought, output)
        sheets = f"{len(written)} sheet{'' if len(written) == 1 else 's'}"
        typer.echo(f"wrote {sheets} into {output}, readable by you only", err=as_json)
    elif output is not None:
        typer.echo("Nothing was written. Mend the table, or say --without-rejected.", err=True)
    elif not as_json and not waits:
        typer.echo("Nothing is kept yet: say -o and a folder.")
    if waits:
        raise typer.Exit(1)


def _tell_company(brought: BroughtIn) -> None:
    from tapewright.diagnostics import Kind, as_text

    company, sources = brought.company, {brought.source.name: brought.source}
    if company.columns:
        typer.echo("The columns, as they are understood:")
        for column in company.columns:
            typer.echo(f"  {column.heading or '(without a heading)'}: {column.words()}")
    for query in company.queries:
        typer.echo(as_text(query, sources))
    names = {id(w): name for w, name in brought.targets}
    for wearer in company.wearers:
        told = [q for q in wearer.queries if q.kind is not Kind.NOTE]
        who = wearer.sheet.wearer or "somebody"
        count = f"{len(wearer.sheet.entries)} measures"
        line = brought.source.place(wearer.place.start).line
        where = "rejected" if wearer.rejected else f"would be {names.get(id(wearer), '')}"
        typer.echo(f"Line {line}, {who}: {count}, {where}")
        for query in told:
            typer.echo("\n".join("  " + part for part in as_text(query, sources).splitlines()))
    taken, rejected = len(company.accepted), len(company.rejected)
    typer.echo(
        f"{taken} row{'' if taken == 1 else 's'} can be taken, {rejected} {'is' if rejected == 1 else 'are'} rejected."
    )


@app.command()
def export(
    sheets: Sheets,
    output: Annotated[Path, typer.Option("-o", "--output", help="A .csv file.")],
    unit: Annotated[str, typer.Option("--unit", help="cm, mm or in.")] = "cm",
    as_json: Json = False,
) -> None:
    """Send sheets out as one table, with a line at its head that says what it holds."""
    from tapewright.app import companies, drafting, library
    from tapewright.units import CM, INCH, MM

    known = {u.name: u for u in (CM, MM, INCH)}
    if unit not in known:
        raise _stop(f"--unit {unit}: cm, mm or in.")
    if output.suffix.lower() != ".csv":
        raise _stop(f"{output}: a company is sent out as .csv.")
    results = [drafting.read_sheet_result(p) for p in drafting.sheets_in(library.wearer_path(sheets))]
    waiting = [r for r in results if r.sheet is None or r.sheet.waiting]
    found = [r.sheet for r in results if r.sheet is not None]
    if waiting:
        for result in waiting:
            typer.echo(
                f"{result.sheet_name}: a question waits; tapewright measures check {result.sheet_name}",
                err=True,
            )
        typer.echo("Nothing was written: what waits would be lost.", err=True)
        raise typer.Exit(1)
    says = companies.send_out(found, output, known[unit])
    if as_json:
        _echo_json({"file": str(output), "sheets": len(found), "holds": says})
    else:
        typer.echo(f"wrote {output}, readable by you only. It holds: {says}")


@app.command()
def ruler(
    output: Annotated[Path, typer.Option("-o", "--output", help="A .pdf file.")],
    length: Annotated[str, typer.Option("--length", help="How long: 130 cm, 50 in.")] = "130 cm",
    paper: Annotated[str, typer.Option("--paper", help="a4, a3, letter, one-page, or roll:90cm.")] = "a4",
) -> None:
    """Print a ruler in centimetres and inches, to lay a snipped strip against."""
    from tapewright.app import files, measuring
    from tapewright.units import CM, Length, read_length

    read = read_length(length, CM)
    if not isinstance(read, Length) or not 50 <= read.mm <= 10_000:
        raise _stop(f"--length {length}: a length from 5 cm to 10 m.")
    if output.suffix.lower() != ".pdf":
        raise _stop(f"{output}: the ruler is written as .pdf.")
    files.write(output, measuring.ruler_pdf(float(read.mm), _paper(paper, fixed=False)))
    typer.echo(f"wrote {output}")

"""`tapewright`: draft, pieces, check, format, tapes, fan, crib, demo, why.

Exit status: 0 when no question remains, 1 when one does (with `--strict` also when a check does not
hold), 2 when the command itself cannot be carried out.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Annotated, Any

import typer

from tapewright.cli.measures import app as measures_app
from tapewright.cli.options import Amend, Estimate, Json, LeftAndRight, Lesson, Paper, Scale, Set, Strict
from tapewright.cli.pieces import pieces
from tapewright.cli.saying import choices, counted, echo_json, is_folder, leave, print_options, stop, tell
from tapewright.cli.tapes import fan, tapes

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    help="A drafting table: one wearer's measures become tapes, and a lesson in plain English a pattern.",
)

app.add_typer(measures_app, name="measures")
app.command()(tapes)
app.command()(fan)
app.command()(pieces)

Out = Annotated[
    Path | None,
    typer.Option("-o", "--output", help="A .pdf, .svg or .json file, or a folder for all three."),
]


@app.command()
def draft(
    lesson: Lesson,
    for_: Annotated[
        str | None,
        typer.Option(
            "--for",
            help="A measure sheet (.yaml), or a folder of them; without one the draft is a nominal figure's.",
            metavar="SHEET|FOLDER",
        ),
    ] = None,
    output: Out = None,
    paper: Paper = "one-page",
    scale: Scale = "1",
    amend: Amend = None,
    set_: Set = None,
    estimate: Estimate = None,
    left_and_right: LeftAndRight = False,
    as_json: Json = False,
    strict: Strict = False,
) -> None:
    """Draw a lesson for one wearer, for every wearer of a folder, or for a nominal figure."""
    from tapewright.app import drafting, library, measuring
    from tapewright.app.files import Trouble

    how = print_options(paper, scale)
    made = drafting.read(library.lesson_path(lesson), amend or (), choices(set_), two_sides=left_and_right)
    sheets = [drafting.nominal_for(made)] if for_ is None else drafting.sheets_in(library.wearer_path(for_))
    if output is not None and len(sheets) > 1 and output.suffix.lower() in drafting.WRITTEN:
        raise stop(f"{output} is one file, and there are {len(sheets)} wearers; give a folder after -o.")
    if output is not None and output.suffix and output.suffix.lower() not in drafting.WRITTEN:
        raise stop(f"{output}: a draft is written as .pdf, .svg or .json, or into a folder.")
    to_estimate = measuring.asked_for_by(made, measuring.known_names(estimate or ()))
    results = [drafting.draft_for(made, sheet, to_estimate) for sheet in sheets]
    found: list[Any] = []
    troubles: list[str] = []
    for result, name in zip(results, drafting.names_in_folder(results), strict=True):
        written: list[Path] = []
        found.append(result.data())
        try:
            written = [] if output is None else drafting.write_result(result, output, how, name)
        except Trouble as trouble:
            # One wearer's trouble stops no other.
            troubles.append(str(trouble))
            typer.echo(trouble, err=True)
            continue
        if not as_json:
            tell(result, written)
            if output is None:
                typer.echo("Nothing is written yet; add -o and a .pdf, .svg or .json, or a folder.")
            elif not written:
                typer.echo("Nothing could be drawn, so nothing is written.")
    if as_json:
        echo_json(found if for_ is not None and is_folder(for_) else found[0])
    if troubles:
        raise typer.Exit(2)
    leave(results, strict=strict)


@app.command()
def check(
    lesson: Lesson,
    for_: Annotated[
        str | None, typer.Option("--for", help="A measure sheet or a folder of them.", metavar="SHEET|FOLDER")
    ] = None,
    amend: Amend = None,
    set_: Set = None,
    as_json: Json = False,
    strict: Strict = False,
) -> None:
    """Read a lesson and say what the table asks; with --for also what its checks come to."""
    from tapewright.app import drafting, formatting, library
    from tapewright.diagnostics import Kind, as_text, printable
    from tapewright.diagnostics import as_json as plain

    paths = formatting.lessons_in(library.lesson_path(lesson))
    if len(paths) > 1 or is_folder(lesson):
        _check_folder(paths, for_, as_json=as_json, strict=strict)
        return
    made = drafting.read(paths[0], amend or (), choices(set_))
    if for_ is not None:
        results = [drafting.draft_for(made, s) for s in drafting.sheets_in(library.wearer_path(for_))]
        if as_json:
            found = [r.data() for r in results]
            echo_json(found if is_folder(for_) else found[0])
        else:
            for result in results:
                tell(result, [], every_check=True)
        leave(results, strict=strict)
        return
    queries = made.plan.queries
    if as_json:
        echo_json({"lesson": made.lesson.title, "queries": [plain(q, made.sources) for q in queries]})
    else:
        for query in queries:
            typer.echo(as_text(query, made.sources) + "\n")
        items = len(made.lesson.items)
        typer.echo(
            f"{printable(made.lesson.title or made.lesson.source.name)}: {_sentences(items)}, {counted(queries)}."
        )
    if any(q.kind is Kind.QUESTION for q in queries):
        raise typer.Exit(1)


def _check_folder(paths: list[Path], for_: str | None, *, as_json: bool, strict: bool) -> None:
    """Every lesson of a folder: what each asks, and with --for what its checks come to."""
    from tapewright.app import drafting, library
    from tapewright.app.files import Trouble
    from tapewright.diagnostics import Kind, as_text
    from tapewright.diagnostics import as_json as plain

    found: list[Any] = []
    waits = False
    troubled = False
    for path in paths:
        try:
            made = drafting.read(path)
        except Trouble as trouble:
            # A file that cannot be read stops no other.
            typer.echo(trouble, err=True)
            troubled = True
            continue
        if for_ is not None:
            for sheet in drafting.sheets_in(library.wearer_path(for_)):
                result = drafting.draft_for(made, sheet)
                waits |= result.waits or (strict and result.open_checks > 0)
                found.append(result.data())
                if not as_json:
                    tell(result, [])
            continue
        queries = made.plan.queries
        waits |= any(q.kind is Kind.QUESTION for q in queries)
        found.append({"lesson": made.lesson.title, "queries": [plain(q, made.sources) for q in queries]})
        if not as_json:
            for query in queries:
                typer.echo(as_text(query, made.sources) + "\n")
            typer.echo(f"{path.name}: {_sentences(len(made.lesson.items))}, {counted(queries)}.")
    if as_json:
        echo_json(found)
    if troubled:
        raise typer.Exit(2)
    if waits:
        raise typer.Exit(1)


@app.command(name="format")
def format_(
    lesson: Annotated[
        Path, typer.Argument(help="A lesson (.md), or a folder of them.", metavar="LESSON|FOLDER")
    ],
    only_look: Annotated[
        bool, typer.Option("--check", help="Change nothing; leave with 1 if it would.")
    ] = False,
) -> None:
    """Put lessons into house style: sentences as the manual prints them, numbered straight through."""
    from tapewright.app import formatting
    from tapewright.app.files import Trouble

    changed = []
    troubled = False
    for path in formatting.lessons_in(lesson):
        try:
            if formatting.format_lesson(path, only_look=only_look):
                changed.append(path)
                typer.echo(f"{'would change' if only_look else 'changed'} {path}")
        except Trouble as trouble:
            # A file that cannot be read stops no other.
            typer.echo(trouble, err=True)
            troubled = True
    if troubled:
        raise typer.Exit(2)
    if not changed:
        typer.echo("In house style already.")
    if only_look and changed:
        raise typer.Exit(1)


@app.command()
def crib(
    output: Annotated[Path, typer.Option("-o", "--output", help="A .pdf file.")],
    paper: Annotated[str, typer.Option("--paper", help="a4, a3 or letter.")] = "a4",
) -> None:
    """Print the language on one page for the wall."""
    from tapewright.app import crib as cribs
    from tapewright.app import files
    from tapewright.pages.crib import NoRoomForCrib

    how = print_options(paper, "1")
    if output.suffix.lower() != ".pdf":
        raise stop(f"{output}: the crib is written as .pdf.")
    try:
        data = cribs.crib_pdf(how.paper)
    except NoRoomForCrib as slip:
        raise stop(f"--paper {paper}: {slip}; try a4, a3 or letter.") from None
    files.write(output, data)
    typer.echo(f"wrote {output}")


@app.command()
def demo(
    output: Annotated[Path, typer.Option("-o", "--output", help="The folder to write into.")] = Path("out"),
) -> None:
    """Draw both body blocks for the two demo wearers, with their tapes; cut out a jacket, and its toile."""
    from tapewright.app.demo import demo as run

    results = []
    for shown in run(output):
        results.append(shown.result)
        tell(shown.result, list(shown.files))
    typer.echo("Open the .pdf files first; measure both squares on the paper before you cut.")
    leave(results, strict=False)


@app.command()
def why(
    word: Annotated[
        str | None, typer.Argument(help="The word at the end of a query; none: list them.", metavar="WORD")
    ] = None,
) -> None:
    """Explain a query at more length."""
    from tapewright.diagnostics import did_you_mean, explanation, known_names

    if word is None:
        for name in sorted(known_names()):
            typer.echo(f"{name}: {(explanation(name) or '').lstrip('# ').splitlines()[0]}")
        return
    page = explanation(word.strip().lower().replace(" ", "-"))
    if page is None:
        near = did_you_mean(word, known_names())
        hint = f" Did you mean {', '.join(near)}?" if near else ""
        raise stop(f"There is no query called {word}.{hint}")
    typer.echo(page.rstrip())


def _sentences(count: int) -> str:
    return "1 sentence" if count == 1 else f"{count} sentences"


#: The exit status of a command that was stopped from the keyboard, as shells have it.
_STOPPED = 130
#: What the command line raises for words that are no command of ours: the parent of the one it makes public.
USAGE: type[Exception] = typer.BadParameter.__mro__[1]


def run() -> None:
    """The command; trouble with a file is one line and exit status 2."""
    from tapewright.app.files import Trouble

    try:
        status = app(standalone_mode=False) or 0
        if status == _STOPPED:
            raise KeyboardInterrupt
        sys.exit(status)
    except Trouble as trouble:
        print(trouble, file=sys.stderr)  # noqa: T201 - this is the command line
        sys.exit(2)
    except USAGE as slip:
        # What is amiss with the words of a command, and where its help stands; in one line each.
        context = getattr(slip, "ctx", None)
        told = f" See {context.command_path} --help." if context is not None else ""
        said = (
            slip.format_message() if isinstance(slip, typer.BadParameter) else getattr(slip, "message", slip)
        )
        print(f"{said}{told}", file=sys.stderr)  # noqa: T201
        sys.exit(2)
    except (KeyboardInterrupt, typer.Abort):
        print("Stopped; no file was left half written.", file=sys.stderr)  # noqa: T201
        sys.exit(_STOPPED)
    except BrokenPipeError:
        # Whoever was reading has gone; there is nobody to tell.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)


if __name__ == "__main__":
    run()

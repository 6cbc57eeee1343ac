"""`tapewright`: draft, check, format, tapes, fan, crib, demo, why.

Exit status: 0 when no question remains, 1 when one does (with `--strict` also when a check does not
hold), 2 when the command itself cannot be carried out.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tapewright.cli.measures import app as measures_app
from tapewright.cli.tapes import fan, tapes

if TYPE_CHECKING:
    from tapewright.app.drafting import Result

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

Lesson = Annotated[
    str, typer.Argument(help="A lesson (.md), or the name of a shipped one.", metavar="LESSON")
]
For = Annotated[
    str, typer.Option("--for", help="A measure sheet (.yaml), or a folder of them.", metavar="SHEET|FOLDER")
]
Out = Annotated[
    Path | None,
    typer.Option("-o", "--output", help="A .pdf, .svg or .json file, or a folder for all three."),
]
Paper = Annotated[str, typer.Option("--paper", help="a4, a3, letter, one-page, or roll:90cm.")]
Scale = Annotated[str, typer.Option("--scale", help="1, 1/2 or 1/4.")]
Amend = Annotated[
    list[Path] | None, typer.Option("--amend", help="A file of amendments; may be given more than once.")
]
Set = Annotated[
    list[str] | None,
    typer.Option("--set", help='A value by eye: --set "bust ease"="1 in". May be given more than once.'),
]
Json = Annotated[bool, typer.Option("--json", help="Print the result as JSON instead of words.")]
Strict = Annotated[bool, typer.Option("--strict", help="Leave with 1 also when a check does not hold.")]


def _is_folder(said: str) -> bool:
    from tapewright.app.files import is_folder

    return is_folder(Path(said))


def _stop(message: str) -> typer.Exit:
    typer.echo(message, err=True)
    return typer.Exit(2)


def _choices(given: list[str] | None) -> dict[str, str]:
    found: dict[str, str] = {}
    for one in given or []:
        name, mark, words = one.partition("=")
        name, words = name.strip().strip('"'), words.strip().strip('"')
        if not mark or not name or not words:
            raise _stop(f'--set {one}: write the name and what it is to be, as in --set "bust ease"="1 in".')
        if name in found:
            raise _stop(f"--set {name} is given twice; once is enough.")
        found[name] = words
    return found


def _print_options(paper: str, scale: str) -> Any:
    from tapewright.app.drafting import Print
    from tapewright.pages import OptionTrouble, read_paper, read_scale

    on, at = read_paper(paper), read_scale(scale)
    for trouble in (on, at):
        if isinstance(trouble, OptionTrouble):
            raise _stop(f"{trouble.message} {trouble.help}".strip())
    return Print(on, at)


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
    estimate: Annotated[
        list[str] | None,
        typer.Option(
            "--estimate", help="A measure to be estimated if it was not taken; may be given more than once."
        ),
    ] = None,
    as_json: Json = False,
    strict: Strict = False,
) -> None:
    """Draw a lesson for one wearer, for every wearer of a folder, or for a nominal figure."""
    from tapewright.app import drafting, library, measuring
    from tapewright.app.files import Trouble

    how = _print_options(paper, scale)
    made = drafting.read(library.lesson_path(lesson), amend or (), _choices(set_))
    sheets = [drafting.nominal_for(made)] if for_ is None else drafting.sheets_in(library.wearer_path(for_))
    if output is not None and len(sheets) > 1 and output.suffix.lower() in drafting.WRITTEN:
        raise _stop(f"{output} is one file, and there are {len(sheets)} wearers; give a folder after -o.")
    if output is not None and output.suffix and output.suffix.lower() not in drafting.WRITTEN:
        raise _stop(f"{output}: a draft is written as .pdf, .svg or .json, or into a folder.")
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
            _tell(result, written)
            if output is None:
                typer.echo("Nothing is written yet; add -o and a .pdf, .svg or .json, or a folder.")
            elif not written:
                typer.echo("Nothing could be drawn, so nothing is written.")
    if as_json:
        _echo_json(found if for_ is not None and _is_folder(for_) else found[0])
    if troubles:
        raise typer.Exit(2)
    _leave(results, strict=strict)


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
    if len(paths) > 1 or _is_folder(lesson):
        _check_folder(paths, for_, as_json=as_json, strict=strict)
        return
    made = drafting.read(paths[0], amend or (), _choices(set_))
    if for_ is not None:
        results = [drafting.draft_for(made, s) for s in drafting.sheets_in(library.wearer_path(for_))]
        if as_json:
            found = [r.data() for r in results]
            _echo_json(found if _is_folder(for_) else found[0])
        else:
            for result in results:
                _tell(result, [], every_check=True)
        _leave(results, strict=strict)
        return
    queries = made.plan.queries
    if as_json:
        _echo_json({"lesson": made.lesson.title, "queries": [plain(q, made.sources) for q in queries]})
    else:
        for query in queries:
            typer.echo(as_text(query, made.sources) + "\n")
        items = len(made.lesson.items)
        typer.echo(
            f"{printable(made.lesson.title or made.lesson.source.name)}: {_sentences(items)}, {_counted(queries)}."
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
                    _tell(result, [])
            continue
        queries = made.plan.queries
        waits |= any(q.kind is Kind.QUESTION for q in queries)
        found.append({"lesson": made.lesson.title, "queries": [plain(q, made.sources) for q in queries]})
        if not as_json:
            for query in queries:
                typer.echo(as_text(query, made.sources) + "\n")
            typer.echo(f"{path.name}: {_sentences(len(made.lesson.items))}, {_counted(queries)}.")
    if as_json:
        _echo_json(found)
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

    how = _print_options(paper, "1")
    if output.suffix.lower() != ".pdf":
        raise _stop(f"{output}: the crib is written as .pdf.")
    try:
        data = cribs.crib_pdf(how.paper)
    except NoRoomForCrib as slip:
        raise _stop(f"--paper {paper}: {slip}; try a4, a3 or letter.") from None
    files.write(output, data)
    typer.echo(f"wrote {output}")


@app.command()
def demo(
    output: Annotated[Path, typer.Option("-o", "--output", help="The folder to write into.")] = Path("out"),
) -> None:
    """Draw both body blocks for the two demo wearers, with their tapes."""
    from tapewright.app.demo import demo as run

    results = []
    for shown in run(output):
        results.append(shown.result)
        _tell(shown.result, list(shown.files))
    typer.echo("Open the .pdf files first; measure both squares on the paper before you cut.")
    _leave(results, strict=False)


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
        raise _stop(f"There is no query called {word}.{hint}")
    typer.echo(page.rstrip())


def _tell(
    result: Result,
    written: list[Path],
    *,
    checks: bool = True,
    every_check: bool = False,
    further: Sequence[str] = (),
) -> None:
    """One result in words: queries, checks, what was written."""
    from tapewright.app import drafting
    from tapewright.diagnostics import as_text, printable

    title = "" if result.draft is None else result.draft.plan.lesson.title
    typer.echo(printable(", ".join(word for word in (title, result.wearer or result.sheet_name) if word)))
    for query in result.queries:
        typer.echo(_indented(as_text(query, result.sources)))
    if result.draft is not None and checks:
        found = result.checks()
        held = sum(bool(c.holds[0]) for c in found)
        counted = f"{held} of {len(found)} checks hold" if found else "no checks"
        typer.echo(f"  {counted}; {_counted(result.queries)}.")
        if told := drafting.unfinished(result):
            typer.echo(f"  {told}")
        if every_check:
            for one in found:
                typer.echo(f"  {'holds ' if one.holds[0] else 'open  '} {one.claim}")
    if written and (unset := result.unset()):
        typer.echo(
            f"  On paper these stand as boxes, for the typefaces lack them: {printable(' '.join(unset))}"
        )
    for said in further:
        typer.echo(f"  {said}")
    for path in written:
        typer.echo(f"  wrote {path}")
    typer.echo("")


def _indented(text: str) -> str:
    return "\n".join("  " + line for line in text.splitlines())


def _sentences(count: int) -> str:
    return "1 sentence" if count == 1 else f"{count} sentences"


def _counted(queries: tuple[Any, ...]) -> str:
    if not queries:
        return "nothing to ask"
    counts: dict[str, int] = {}
    for query in queries:
        counts[str(query.kind)] = counts.get(str(query.kind), 0) + 1
    return ", ".join(f"{n} {kind}{'' if n == 1 else 's'}" for kind, n in counts.items())


def _echo_json(data: Any) -> None:
    typer.echo(json.dumps(data, ensure_ascii=False, indent=1))


def _leave(results: list[Result], *, strict: bool) -> None:
    waits = any(r.waits or (r.draft is None and r.sheet is None) for r in results)
    if waits or (strict and any(r.open_checks for r in results)):
        raise typer.Exit(1)


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

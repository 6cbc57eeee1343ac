"""What the commands share: options read, results told in words or as JSON, how a command leaves."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer

if TYPE_CHECKING:
    from tapewright.app.drafting import Result


def is_folder(said: str) -> bool:
    """Whether a folder was named."""
    from tapewright.app.files import is_folder

    return is_folder(Path(said))


def stop(message: str) -> typer.Exit:
    """The end of a command that cannot be carried out, said in one line."""
    typer.echo(message, err=True)
    return typer.Exit(2)


def choices(given: list[str] | None) -> dict[str, str]:
    """Values by eye given as `--set name=words`, by their names."""
    found: dict[str, str] = {}
    for one in given or []:
        name, mark, words = one.partition("=")
        name, words = name.strip().strip('"'), words.strip().strip('"')
        if not mark or not name or not words:
            raise stop(f'--set {one}: write the name and what it is to be, as in --set "bust ease"="1 in".')
        if name in found:
            raise stop(f"--set {name} is given twice; once is enough.")
        found[name] = words
    return found


def print_options(paper: str, scale: str) -> Any:
    """The paper and the scale of `--paper` and `--scale`."""
    from tapewright.app.drafting import Print
    from tapewright.pages import OptionTrouble, read_paper, read_scale

    on, at = read_paper(paper), read_scale(scale)
    for trouble in (on, at):
        if isinstance(trouble, OptionTrouble):
            raise stop(f"{trouble.message} {trouble.help}".strip())
    return Print(on, at)


def tell(
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
        holding = f"{held} of {len(found)} checks hold" if found else "no checks"
        typer.echo(f"  {holding}; {counted(result.queries)}.")
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


def counted(queries: tuple[Any, ...]) -> str:
    """How many queries of each kind, in words."""
    if not queries:
        return "nothing to ask"
    counts: dict[str, int] = {}
    for query in queries:
        counts[str(query.kind)] = counts.get(str(query.kind), 0) + 1
    return ", ".join(f"{n} {kind}{'' if n == 1 else 's'}" for kind, n in counts.items())


def echo_json(data: Any) -> None:
    """Print a result as JSON."""
    typer.echo(json.dumps(data, ensure_ascii=False, indent=1))


def leave(results: list[Result], *, strict: bool) -> None:
    """Leave with 1 where something waits for an answer."""
    waits = any(r.waits or (r.draft is None and r.sheet is None) for r in results)
    if waits or (strict and any(r.open_checks for r in results)):
        raise typer.Exit(1)

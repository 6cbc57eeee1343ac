"""Options that more than one command has, each said once."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

Lesson = Annotated[
    str, typer.Argument(help="A lesson (.md), or the name of a shipped one.", metavar="LESSON")
]
For = Annotated[
    str, typer.Option("--for", help="A measure sheet (.yaml), or a folder of them.", metavar="SHEET|FOLDER")
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
Estimate = Annotated[
    list[str] | None,
    typer.Option(
        "--estimate", help="A measure to be estimated if it was not taken; may be given more than once."
    ),
]
LeftAndRight = Annotated[
    bool,
    typer.Option(
        "--left-and-right", help="Draw a lesson on the half twice, with the left and the right measures."
    ),
]

"""Whether a sheet suits a lesson: what was worn beneath, against what the header asks."""

from __future__ import annotations

from tapewright.diagnostics import Query, caution, question
from tapewright.language import Lesson
from tapewright.measures import Sheet, same_layers, say_layers


def worn_beneath(lesson: Lesson, sheet: Sheet) -> Query | None:
    """The question about a sheet taken over something else than the lesson asks, showing both."""
    wanted = lesson.header.over
    if wanted is None:
        return None
    asked = say_layers(wanted)
    if sheet.over is None:
        return caution(
            "worn-beneath",
            f"The lesson is drafted over {asked}, and the sheet of {sheet.wearer} does not say what was worn.",
            lesson.header.span,
            help=f"Add a line to the sheet, such as: over: {asked}",
        ).at(lesson.source.name)
    if same_layers(wanted, sheet.over):
        return None
    return question(
        "worn-beneath",
        f"The lesson is drafted over {asked}; the sheet of {sheet.wearer} was taken over {say_layers(sheet.over)}.",
        lesson.header.span,
        help="Measure again over what the lesson asks, or take a sheet that was.",
    ).at(lesson.source.name)

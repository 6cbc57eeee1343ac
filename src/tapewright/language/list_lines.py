"""A line to be added to one of a lesson's lists, as an answer: where it goes in the text, and how it stands there."""

from __future__ import annotations

import re
from collections.abc import Collection

from tapewright.diagnostics import Answer, Source, Span
from tapewright.measures import measure_called
from tapewright.tapes import PARTS

#: The lists of a lesson in the order in which they stand.
ORDER = ("Measures", "Tapes", "By eye", "Cloth")

_HEADING = re.compile(r"^#{2,6}[ \t]+(.*?)[ \t#]*$", re.MULTILINE)
_LAST_BULLET = re.compile(r"^[ \t]*[-*+][ \t].*(?:\n[ \t]+\S.*)*", re.MULTILINE)


def unlisted(words: str, sorts: Collection[str]) -> tuple[str, str, str] | None:
    """What to say of words that no list has, the list they belong to, and the line for it; None if to no list.

    `sorts` are those that the name might be of: measure, tape, cloth and others.
    """
    if "tape" in sorts and words.endswith(" tape"):
        whole = words.removesuffix(" tape")
        return (
            f"There is no {words} among the tapes of this lesson.",
            "Tapes",
            f"- {words}: the {whole} in {PARTS} parts",
        )
    if "measure" in sorts and measure_called(words) is not None:
        return f"The {words} is not in this lesson's list of measures.", "Measures", f"- {words}"
    if "cloth" in sorts:
        return f"There is no cloth called {words} in this lesson.", "Cloth", f"- {words}"
    return None


def list_line(source: Source, under: str, line: str) -> Answer:
    """The answer that adds a line, such as `- wool`, to the list with that heading; the list is begun if need be."""
    text = source.text
    headings = list(_HEADING.finditer(text))
    called = [h[1].strip().lower() for h in headings]
    if under.lower() in called:
        at = called.index(under.lower())
        start = headings[at].end()
        end = headings[at + 1].start() if at + 1 < len(headings) else len(text)
        bullets = list(_LAST_BULLET.finditer(text, start, end))
        place = bullets[-1].end() if bullets else start
        return Answer(line, f"\n{line}" if bullets else f"\n{line}\n", Span(place, place))
    before = {name.lower() for name in ORDER[: ORDER.index(under)]}
    last = max((i for i, name in enumerate(called) if name in before), default=-1)
    following = headings[last + 1].start() if last + 1 < len(headings) else len(text)
    return Answer(line, f"## {under}\n{line}\n\n", Span(following, following))

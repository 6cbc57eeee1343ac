"""The header: `On the half. Drafted net. Taken over: stays. Of 1630 to 1640.`, in any order."""

from __future__ import annotations

import re

from tapewright.diagnostics import Answer, Query, Source, Span, question
from tapewright.language import amounts
from tapewright.language.bullets import plain_name
from tapewright.language.header_slips import said_otherwise
from tapewright.language.lesson import Header, Seams
from tapewright.language.pattern import Stream
from tapewright.language.tokens import Names, scan
from tapewright.language.tree import Constant

#: What is asked where one of the three statements is wanting, and an example of it.
WANTED = {
    "body": ("Is this drawn on the half of the body, or whole?", ("On the half.", "Whole.")),
    "drafted": (
        "Is the draft net, or are seams drawn with it?",
        ("Drafted net.", "Drafted with seams of 1/4 in at the sides."),
    ),
    "over": (
        "What was worn beneath when the measures were taken?",
        ("Taken over: a shift.", "Taken over: nothing."),
    ),
}
#: How a statement begins that was meant to be one of the three.
_STARTS = {"body": ("on ", "half", "the half"), "drafted": ("drafted",), "over": ("taken", "worn", "over ")}

USUAL = "On the half. Drafted net. Taken over: a shift."

_STATEMENT = re.compile(r"[^.]*(?:\.(?!\d)|$|\.\d[^.]*)")
_LIST = re.compile(r",\s*(?:and\s+)?|\s+and\s+")


def is_header(text: str) -> bool:
    """Whether a paragraph is meant as a header: it makes one of the header's statements."""
    if re.search(r"\b(on the half|whole\.|drafted (net|with)|taken over)", text, re.IGNORECASE):
        return True
    said = [" ".join(one.split()).rstrip(". ") for one in _statements(text)]
    return any(set(said_otherwise(one)) - {"years"} for one in said)


def read_header(source: Source, span: Span) -> tuple[Header, list[Query]]:
    """The header's statements; one that is missing or cannot be read is a question."""
    queries: list[Query] = []
    body: str | None = None
    drafted: str | None = None
    seams: Seams | None = None
    over: tuple[str, ...] | None = None
    years: tuple[int, int] | None = None
    meant: set[str] = set()
    #: Each statement's place and how the header says it; and which of them were said otherwise.
    rewritten: list[tuple[Span, str]] = []
    others: list[int] = []
    at = span.start
    for raw in _statements(source[span]):
        start = at + len(raw) - len(raw.lstrip())
        at += len(raw)
        said = " ".join(raw.split()).rstrip(".").strip()
        here = Span(start, start + len(raw.strip()))
        low = said.lower()
        if not said:
            continue
        if low == "on the half":
            body = "half"
        elif low == "on the half, left and right":
            body = "both sides"
        elif low == "whole":
            body = "whole"
        elif low == "drafted net":
            drafted = "net"
        elif low.startswith("drafted with seams of"):
            drafted = "seams"
            seams = _seams(source, here)
            if seams is None:
                example = "Try: Drafted with seams of 1/4 in at the shoulders and the sides."
                queries.append(question("header", "How wide are the seams, and where?", here, help=example))
        elif low.startswith("taken over:"):
            over = _layers(said)
        elif (found := re.fullmatch(r"of (\d{4})(?: to (\d{4}))?", low)) is not None:
            first = int(found[1])
            years = (first, int(found[2] or first))
        else:
            otherwise = said_otherwise(said)
            if otherwise:
                meant.update(otherwise)
                others.append(len(rewritten))
                rewritten.append((here, ". ".join(otherwise.values()) + "."))
                continue
            queries.append(_unclear(said, here, meant))
        rewritten.append((here, source[here]))
    if others:
        queries.insert(0, _otherwise(rewritten[others[0] : others[-1] + 1]))
    for kind, given in (("body", body), ("drafted", drafted), ("over", over)):
        if given is None and kind not in meant:
            queries.append(_wanting(kind, span))
    return Header(body or "half", seams, over, years, span), queries


def _otherwise(said: list[tuple[Span, str]]) -> Query:
    """The question about statements in other words than the header's own, all of them together."""
    return question(
        "header",
        "The header says one thing in a sentence, in words that are always the same.",
        said[0][0].to(said[-1][0]),
        answers=[" ".join(words for _, words in said)],
    )


def _unclear(said: str, span: Span, meant: set[str]) -> Query:
    """The question about a statement that cannot be read; `meant` notes which it was meant to be."""
    for kind, starts in _STARTS.items():
        if said.lower().startswith(starts):
            meant.add(kind)
            message, answers = WANTED[kind]
            return question("header", message, span, answers=answers)
    return question(
        "header",
        f"The header says how the draft is made, and “{said}” is nothing it knows.",
        span,
        help="Whatever else there is to say stands in a paragraph of its own below it. The header itself: "
        + USUAL,
    )


def _wanting(kind: str, span: Span) -> Query:
    """The question for a statement that the header does not make; the answer is added at its end."""
    message, answers = WANTED[kind]
    end = Span(span.end, span.end)
    return question("header", message, span, answers=[Answer(one, f" {one}", end) for one in answers])


def missing(span: Span) -> Query:
    """The question for a lesson that has no header at all; the answer is added below the title."""
    return question(
        "header",
        "The paragraph under the title should say how the draft is made.",
        span,
        help="On the half or whole; net or with seams; and what was worn beneath when the measures were taken.",
        answers=[Answer(USUAL, f"\n{USUAL}\n", Span(span.end, span.end))],
    )


def _statements(text: str) -> list[str]:
    pieces: list[str] = []
    start = 0
    for found in re.finditer(r"\.(?=\s|$)", text):
        pieces.append(text[start : found.end()])
        start = found.end()
    pieces.append(text[start:])
    return pieces


def _layers(said: str) -> tuple[str, ...]:
    names = [plain_name(p) for p in _LIST.split(said.split(":", 1)[-1].strip())] if ":" in said else []
    return tuple(n for n in names if n and n != "nothing")


def _seams(source: Source, span: Span) -> Seams | None:
    text = source[span]
    found_of = re.match(r"drafted\s+with\s+seams\s+of\b", text, re.IGNORECASE)
    if found_of is None:
        return None
    tokens = scan(source.text, span.start + found_of.end(), span.end)
    stream = Stream(Names().merge(tokens))
    found = amounts.total(stream, 0)
    if found is None or not isinstance(found[0], Constant) or stream.word(found[1]) != "at":
        return None
    edges = source.text[stream.tokens[found[1]].span.end : span.end].rstrip(". \n")
    at = tuple(n for n in (plain_name(p) for p in _LIST.split(edges)) if n)
    return Seams(found[0], at, span) if at else None

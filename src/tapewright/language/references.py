"""What an amount or an edge may name: letters, rulers, lines, units; and runs of words that are no name yet."""

from __future__ import annotations

from tapewright.diagnostics import Span
from tapewright.language.pattern import Stream
from tapewright.language.tokens import Sort
from tapewright.language.tree import CornerRef, CurveBetween, NameRef, Path, PointRef, Ruler, Unknown
from tapewright.units import UnitKind, unit_called, unit_words

# The units an amount may stand in, by every word for them, as the short name the printer writes.
UNIT_WORDS = {
    word: unit.name
    for kind in (UnitKind.LENGTH, UnitKind.ANGLE)
    for word in unit_words(kind)
    if word.isalpha() and (unit := unit_called(word)) is not None
}

#: The units as they are offered after a number.
UNITS_SAID = tuple(u for u in ("cm", "mm", "in", "ft", "yd", "nails", "degrees", "degree") if u in UNIT_WORDS)

# Words that end a run of unknown words: whatever stands before them was meant as a name.
STOPS = frozenset(
    (
        "plus less and or if but from to on at by of with as is in lies leaving reaching passing carried "
        "toward through parallel square between within than, otherwise taken beyond meets put until lost "
        "equal against along keeping gathering pleating easing stretching under one two each once twice for"
    ).split()
)


def letter(stream: Stream, at: int) -> PointRef | None:
    """The point at token `at`, if one stands there."""
    token = stream.token(at)
    if token is not None and token.sort is Sort.POINT:
        return PointRef(token.points[0], token.span)
    return None


def ruler(stream: Stream, at: int) -> Ruler | CornerRef | None:
    """The ruler or corner at token `at`, if one stands there."""
    token = stream.token(at)
    if token is None or token.sort is not Sort.RULER:
        return None
    span, width = token.span, 0
    refs = []
    start = span.start
    for name in token.points:
        refs.append(PointRef(name, Span(start, start + len(name))))
        start += len(name) + 1
        width += 1
    if width == 2:
        return Ruler(refs[0], refs[1], span)
    return CornerRef(refs[0], refs[1], refs[2], span)


def path(stream: Stream, at: int) -> tuple[Path, int] | None:
    """A line: `A-B`, `the curve A-B`, a name, or unknown words."""
    token = stream.token(at)
    if token is None:
        return None
    if token.sort is Sort.RULER:
        found = ruler(stream, at)
        return (found, at + 1) if isinstance(found, Ruler) else None
    if token.sort is Sort.WORD and token.text == "curve":
        between = ruler(stream, at + 1)
        if isinstance(between, Ruler):
            return CurveBetween(between.a, between.b, stream.span(at, at + 2)), at + 2
    if token.sort is Sort.NAME:
        return NameRef(token.text, token.span), at + 1
    return unknown(stream, at)


def unknown(stream: Stream, at: int) -> tuple[Unknown, int] | None:
    """A run of words that are no known name, up to the next word of the language or mark."""
    end = at
    while (token := stream.token(end)) is not None and (
        (token.sort is Sort.WORD and (end == at or token.text not in STOPS))
        or (token.sort is Sort.WORD and token.text in {"to", "of", "in"} and _goes_on(stream, end))
        or (token.sort is Sort.NAME and end > at)
    ):
        end += 1
    first = stream.token(at)
    if end == at or first is None or first.text in STOPS or first.text in UNIT_WORDS:
        return None
    span = stream.span(at, end)
    words = " ".join(t.text for t in stream.tokens[at:end])
    return Unknown(words, span), end


def _goes_on(stream: Stream, at: int) -> bool:
    """Whether a small word inside a run of unknown words is likely part of the name (`nape to wiast`)."""
    following = stream.token(at + 1)
    return following is not None and following.sort is Sort.WORD and following.text not in STOPS

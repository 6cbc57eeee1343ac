"""The lists of a lesson: Measures, Tapes, By eye, Cloth. One bullet, one entry, or one query."""

from __future__ import annotations

import re

from tapewright.diagnostics import Answer, Query, Source, Span, caution, question
from tapewright.language import amounts
from tapewright.language.lesson import ByEyeEntry, ChoiceEntry, ClothEntry, MeasureEntry, TapeEntry
from tapewright.language.pattern import Stream
from tapewright.language.tokens import ARTICLES, Names, Sort, Token, scan
from tapewright.language.tree import Amount, Bare, Constant, Parts, Unknown
from tapewright.tapes import MOST_PARTS, PARTS

Bullet = MeasureEntry | TapeEntry | ByEyeEntry | ChoiceEntry | ClothEntry
Read = tuple[Bullet | None, Query | None]

_WORDS = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*(?:(?<=s)['’](?!\w))?|\d+")
#: A width said beside a cloth's name, and a value said beside a measure.
_FIGURE = r"\d[\d.,/ ½¼¾⅓⅔⅛⅜⅝⅞-]*\s*(?:cm|mm|m|in|inch|inches|yd|yards?|ells?|\"|”)"
_WIDTH = re.compile(rf",?\s*(?:\(\s*)?{_FIGURE}(?:\s+(?:wide|width))?(?:\s*\))?\s*$", re.IGNORECASE)
_VALUE = re.compile(rf"{_FIGURE}\.?", re.IGNORECASE)
_ARTICLE = re.compile(r"^(?:the|a|an)\s+", re.IGNORECASE)


def plain_name(text: str) -> str:
    """A name as it is kept: lower case, single spaces, no article before or behind it."""
    words = [w.lower().replace("’", "'") for w in _WORDS.findall(_ARTICLE.sub("", text.strip()))]
    while words and words[-1] in ARTICLES:
        words.pop()
    return " ".join(words)


def _head(source: Source, span: Span) -> tuple[str, Span, int]:
    """The name before the colon, its place, and the offset after the colon (the end if there is none)."""
    text = source[span]
    colon = text.find(":")
    end = span.start + (colon if colon >= 0 else len(text.rstrip(" .")))
    while end > span.start and source.text[end - 1].isspace():
        end -= 1
    return (
        source.text[span.start : end],
        Span(span.start, end),
        span.start + colon + 1 if colon >= 0 else span.end,
    )


def measure(source: Source, span: Span, names: Names) -> Read:
    """`bust: the fullest girth`, `shoulder slope, left and right: in degrees`."""
    head, place, rest = _head(source, span)
    sides = False
    shortened = re.sub(r",\s*left and right$", "", head)
    if shortened != head:
        sides, place = True, Span(place.start, place.start + len(shortened))
    name = plain_name(shortened)
    if not name:
        return None, _no_name(span, "a measure")
    note = " ".join(source.text[rest : span.end].split())
    if _VALUE.fullmatch(note):
        asked = caution(
            "value-in-lesson",
            f"The {name} is {note.rstrip('.')} here, and nothing is drawn from that: a lesson is for every wearer.",
            Span(rest - 1, span.end),
            help="The value stands on the wearer's measure sheet. Here may stand how the measure is taken.",
            answers=[Answer(f"- {name}", "")],
        )
        return MeasureEntry(name, "", sides, place), asked
    return MeasureEntry(name, note, sides, place), None


def cloth(source: Source, span: Span, names: Names) -> Read:
    """`cloth width: 150 cm`, or `canvas`."""
    head, place, rest = _head(source, span)
    name = plain_name(head)
    if not name:
        return None, _no_name(span, "a cloth")
    if rest >= span.end:
        width = _WIDTH.search(head)
        if width is not None:
            name = plain_name(head[: width.start()])
            asked = _width_beside(span, name, width[0].strip(" ,()"))
            return (ClothEntry(name, None, place) if name else None), asked
        return ClothEntry(name, None, place), None
    stream = Stream(names.merge(_without_stop(scan(source.text, rest, span.end))))
    found = amounts.limited(stream, 0)
    if found is None or found[1] < len(stream.tokens):
        return None, _unreadable(span, "After the colon stands one length, such as 150 cm.")
    return ClothEntry(name, found[0], place), None


def _width_beside(span: Span, name: str, said: str) -> Query:
    """The question about a cloth with its width on the same line."""
    figure = re.sub(r"\s*(?:wide|width)$", "", said)
    two = (name, f"{name} width: {figure}")
    return question(
        "bullet-unread",
        f"A cloth stands in its list by its name alone; {said} beside it would become part of the name.",
        span,
        help="Its width is a line of its own, and sentences can then speak of it.",
        answers=[Answer(f"- {two[0]}, and below it - {two[1]}", f"{two[0]}\n- {two[1]}")] if name else [],
    )


def tape(source: Source, span: Span, names: Names) -> Read:
    """`bust tape: the bust in 48 parts; the usual tape`."""
    head, place, rest = _head(source, span)
    name = plain_name(head)
    if not name:
        return None, _no_name(span, "a tape")
    example = "A tape is written like this: bust tape: the bust in 48 parts."
    tokens = names.merge(_without_stop(scan(source.text, rest, span.end)))
    usual = False
    cut = next((i for i, t in enumerate(tokens) if t.text == ";"), len(tokens))
    if cut < len(tokens):
        words = [t.text for t in tokens[cut + 1 :]]
        if words != ["usual", "tape"]:
            return None, _unreadable(span, "After the semicolon only `the usual tape` may stand.")
        usual = True
    elif [t.text for t in tokens[-3:]] == [",", "usual", "tape"]:
        usual, cut = True, len(tokens) - 3
    stream = Stream(tokens[:cut])
    found = amounts.total(stream, 0)
    if found is None:
        return None, _unreadable(span, example)
    whole, at = found
    parts = PARTS
    if stream.word(at) == "," and stream.word(at + 1) == "in":
        at += 1
    if stream.word(at) == "in":
        number = amounts.count_word(stream, at + 1)
        if number is None:
            return None, _unreadable(span, f"How many parts? {example}")
        if number.denominator != 1 or not 1 <= number <= MOST_PARTS:
            return None, _unreadable(
                span, f"A tape has a whole number of parts, from 1 to {MOST_PARTS}, such as: in 18 parts."
            )
        parts, at = int(number), at + 2
        if stream.word(at) in {"parts", "part"}:
            at += 1
    if at < len(stream.tokens):
        return None, _unreadable(span, example)
    return TapeEntry(name, whole, parts, usual, place), None


def by_eye(source: Source, span: Span, names: Names) -> Read:
    """`neck width: 3 parts, between 2 1/2 and 3 1/2`, `figure: usual or stout`."""
    head, place, rest = _head(source, span)
    name = plain_name(head)
    if not name:
        return None, _no_name(span, "a choice by eye")
    tokens = names.merge(_without_stop(scan(source.text, rest, span.end)))
    options = _options(tokens)
    if options:
        return ChoiceEntry(name, options, place), None
    example = "Write the usual value and its range, such as: neck width: 3 parts, between 2 1/2 and 3 1/2."
    stream = Stream(tokens)
    found = amounts.total(stream, 0)
    if found is None or isinstance(found[0], Unknown):
        return None, _unreadable(span, example)
    usual, at = found
    share = ""
    for words in (("all", "round"), ("on", "half")):
        if stream.word(at) == words[0] and stream.word(at + 1) == words[1]:
            share, at = "all round" if words[0] == "all" else "on the half", at + 2
    low: Amount | None = None
    high: Amount | None = None
    if stream.word(at) == ",":
        at += 1
    if stream.word(at) == "between":
        ends = amounts.between(stream, at + 1)
        if ends is None:
            return None, _unreadable(span, example)
        (low, high), at = ends
        low, high = _as_usual(low, usual), _as_usual(high, usual)
    if at < len(stream.tokens):
        return None, _unreadable(span, example)
    return ByEyeEntry(name, usual, low, high, share, place), None


def _as_usual(node: Amount, usual: Amount) -> Amount:
    """A bare end of a range in the unit or tape of the usual value."""
    if isinstance(node, Bare) and isinstance(usual, Constant | Parts):
        return amounts.like(node, usual)
    return node


def _options(tokens: list[Token]) -> tuple[str, ...]:
    """The words of `usual, stout or stooping`, if the bullet is such a choice."""
    if not any(t.text == "or" for t in tokens):
        return ()
    options: list[str] = []
    for i, token in enumerate(tokens):
        if i % 2 == 0 and token.sort is Sort.WORD:
            options.append(token.text)
        elif i % 2 == 0 or token.text not in {"or", ","}:
            return ()
    return tuple(options)


def _without_stop(tokens: list[Token]) -> list[Token]:
    return tokens[:-1] if tokens and tokens[-1].text == "." else tokens


def _no_name(span: Span, what: str) -> Query:
    return question(
        "bullet-unread",
        f"A line of this list begins with the name of {what}.",
        span,
        help="Put the name first, then a colon and what there is to say of it; or take the line away.",
    )


def _unreadable(span: Span, help_: str) -> Query:
    return question("bullet-unread", "I cannot read this line of the list.", span, help=help_)

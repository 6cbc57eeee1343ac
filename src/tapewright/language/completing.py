"""Completion: what could stand at the caret, from the same patterns that read a sentence.

The words before the caret are read with every pattern that could still fit; what the patterns wanted at the
end is what is offered. Slots are filled with the letters, lines and lengths that the lesson has made before
the caret, the latest first. Nothing is guessed: an offer is a word with which reading gets on.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from tapewright.diagnostics import Source, Span
from tapewright.language import claims
from tapewright.language import sentences as _sentences  # noqa: F401 - fills the table of kinds
from tapewright.language.asking import TAUGHT
from tapewright.language.clause import expected_next
from tapewright.language.lesson import Lesson
from tapewright.language.markdown import blocks
from tapewright.language.pattern import Expected, Stream
from tapewright.language.reading import KNOWN_CLOTHS
from tapewright.language.standing import Standing, free_letter, standing
from tapewright.language.tokens import ARTICLES, Names, Sort, Token, key_words, scan
from tapewright.measures import catalogue

#: A name has at most so many words that are tried as the beginning of one.
_LONGEST_NAME = 6
_WORD_BEFORE = re.compile(r"[\w'’-]+$")
_ARTICLE = re.compile(r"\b(the|an?)[ \t]*$", re.IGNORECASE)
_SHARES = ("half", "a third", "a quarter", "twice", "the corner", "along")
#: Words that may begin what fills a slot of a kind, besides names and letters.
_WORDS = {
    "amount": _SHARES,
    "reach": (*_SHARES, "as long as"),
    "portion": (*_SHARES, "the rest"),
    "claim": _SHARES,
    "turning": _SHARES,
    "toward": ("toward",),
    "corner": ("the corner",),
    "path": ("the curve",),
    "line": ("the curve",),
    "number": ("2", "3", "4", "5"),
    "target": ("up", "down", "the left", "the right"),
}
_LINES, _LENGTHS = ("line", "dart", "ruler"), ("measure", "by eye", "amount", "unknown", "line")
#: What fills a slot of a kind: the sorts of name, latest first.
_FITS: dict[str, tuple[str, ...]] = {
    "point": ("letter",),
    "new": ("new letter",),
    "path": _LINES,
    "line": _LINES,
    "edge": _LINES,
    "end": _LINES,
    "ruler": ("ruler",),
    "newruler": ("new ruler",),
    "thing": ("line", "outline"),
    "name": ("outline", "unknown", "amount", "line", "dart", "by eye"),
    "amount": (*_LENGTHS, "tape", "ruler"),
    "reach": (*_LENGTHS, "tape", "ruler"),
    "between": _LENGTHS,
    "portion": _LENGTHS,
    "claim": (*_LENGTHS, "ruler", "letter"),
    "setting": ("by eye",),
    "cloth": ("cloth",),
    "cutting": (),
    "target": ("letter", "line", "place", "ruler"),
    "toward": (),
    "markat": ("line", "ruler"),
    "marked": ("line", "letter", "ruler"),
    "landmark": (),
    "ware": (),
    "turning": (),
    "place": ("place",),
    "corner": ("corner",),
    "tape": ("tape",),
}


@dataclass(frozen=True, slots=True)
class Offer:
    """Something to write: the words, the stretch they replace, and what they are (`letter`, `measure`, ...)."""

    text: str
    span: Span
    sort: str


def offers_at(source: Source, at: int, lesson: Lesson) -> tuple[Offer, ...]:
    """What could stand at the caret, `at` characters into the text; nothing where the table reads nothing.

    `lesson` is the lesson as read, with or without the sentence that is being written.
    """
    for block in blocks(source):
        if block.span.start <= at <= _end(source, block.span) and block.kind == "item":
            return tuple(_in_item(source, block.span.start, at, lesson))
    begun_item = re.search(r"^\s*\d+[.)][ \t]+$", source.text[:at], re.MULTILINE)
    if begun_item is not None and begun_item.end() == at:
        return tuple(_in_item(source, at, at, lesson))
    line = source.text[source.text.rfind("\n", 0, at) + 1 : at]
    if re.fullmatch(r"\s*[-*+] [^:]*", line) and _list_at(source, at) == "measures":
        begun = re.sub(r"^\s*[-*+] ", "", line)
        span = Span(at - len(begun), at)
        return tuple(Offer(name, span, "measure") for name in catalogue() if name.startswith(begun.lower()))
    return ()


def _end(source: Source, span: Span) -> int:
    """The end of an item, with the blanks behind it: the caret stands after them while one writes."""
    rest = re.match(r"[ \t]*", source.text[span.end :])
    return span.end + (len(rest[0]) if rest else 0)


def _list_at(source: Source, at: int) -> str:
    heads = re.findall(r"^#+[ \t]+(.*)$", source.text[:at], re.MULTILINE)
    return heads[-1].strip().lower() if heads else ""


def _in_item(source: Source, start: int, at: int, lesson: Lesson) -> Iterator[Offer]:
    text = source.text
    stands = standing(lesson, start, at)
    tokens = scan(text, start, at)
    begin, then = 0, False
    for i, token in enumerate(tokens):
        if token.sort is Sort.MARK and token.text in ".;":
            begin, then = i + 1, token.text == ";"
    tokens = tokens[begin:]
    touching = bool(tokens) and tokens[-1].span.end == at and _WORD_BEFORE.search(text[:at]) is not None
    article = _ARTICLE.search(text, max(start, tokens[-1].span.end if tokens else start), at)
    # A word that is no name yet is more likely the beginning of one than complete.
    unfinished = touching and stands.names.merge(tokens)[-1].sort is Sort.WORD
    given: set[str] = set()
    for behind in range(min(_LONGEST_NAME, len(tokens)), -1, -1):
        begun = tokens[len(tokens) - behind :]
        if not all(_may_begin(t) for t in begun) or (behind == 0 and unfinished and given):
            continue
        # Straight behind a word only a mark may stand, or more of the word.
        only_marks = behind == 0 and touching
        place = begun[0].span.start if begun else at
        before = _ARTICLE.search(text, start, place) if begun else article
        if behind == 0 and article is not None and article.end() == at and not article[0][-1].isspace():
            place, before = article.start(), None
        written = " ".join(t.text for t in begun)
        for expected in _expected(stands.names, tokens[: len(tokens) - behind], then):
            for said, sort in _fillings(expected, stands):
                offer = said if before is None else _without_article(said)
                if only_marks and offer[0].isalnum():
                    continue
                if _goes_on(said, written) and offer not in given and offer.lower() != written.lower():
                    given.add(offer)
                    yield Offer(offer, Span(place, at), sort)


def _may_begin(token: Token) -> bool:
    return token.sort in {Sort.WORD, Sort.POINT, Sort.RULER, Sort.NUMBER}


def _goes_on(said: str, written: str) -> bool:
    """Whether an offer begins with what is written, articles aside."""
    return " ".join(key_words(said.lower())).startswith(written.lower())


def _without_article(said: str) -> str:
    first, _, rest = said.partition(" ")
    return rest if first in ARTICLES else said


def _expected(names: Names, tokens: list[Token], then: bool) -> list[Expected]:
    """What could stand after the tokens of a clause; a condition is read up to its comma first."""
    if tokens and tokens[0].sort is Sort.WORD and tokens[0].text in {"if", "otherwise"}:
        rest = tokens[1:]
        if tokens[0].text == "if":
            merged = names.merge(tokens)
            stream = Stream(merged)
            found = claims.condition(stream, 1)
            if found is None or stream.word(found[1]) != ",":
                if found is not None:
                    stream.want(found[1], Expected(words=","))
                return stream.wanted if stream.farthest >= len(merged) else []
            after = merged[found[1]].span.end
            rest = [t for t in tokens if t.span.start >= after]
        elif rest and rest[0].text == ",":
            rest = rest[1:]
        tokens, then = rest, False
    if not tokens and not then:
        return [Expected(words=lead) for lead in (*TAUGHT, "See that")]
    return expected_next(names.merge(tokens), then=then)


def _fillings(one: Expected, stands: Standing) -> Iterator[tuple[str, str]]:
    """What an expectation comes to here: its words, or the names and letters that fit its slot."""
    if one.words:
        yield one.words, "word"
        return
    for sort in _FITS.get(one.kind, ()):
        yield from ((said, sort) for said in _of_sort(sort, stands))
    yield from ((words, "word") for words in _WORDS.get(one.kind, ()))


def _of_sort(sort: str, stands: Standing) -> Iterator[str]:
    if sort == "letter":
        yield from reversed(stands.letters)
    elif sort == "new letter":
        yield free_letter(stands.letters)
    elif sort == "new ruler":
        first = free_letter(stands.letters)
        yield f"{first}-{free_letter((*stands.letters, first))}"
    elif sort == "ruler":
        yield from (f"{a}-{b}" for a, b in reversed(stands.rulers))
    elif sort == "corner":
        ends = dict.fromkeys(reversed(stands.rulers))
        yield from (f"{a}-{b}-{d}" for a, b in ends for c, d in ends if b == c and a != d)
    elif sort == "cloth":
        yield from dict.fromkeys((*stands.of("cloth"), *KNOWN_CLOTHS))
    else:
        yield from (f"the {name}" for name in stands.of(sort))

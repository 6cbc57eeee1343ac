"""Completion: what is offered at the caret.

There is no outside source for what a table should offer; the sentences that are tried are those of the
handbook drafts, whose rules are the books'.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from tapewright.diagnostics import Source
from tapewright.language import Lesson, Offer, offers_at, read_lesson
from tapewright.language.numbers import fraction_word
from tapewright.language.standing import free_letter, standing
from tapewright.language.tokens import Sort, Token, key_words, scan

ROOT = Path(__file__).parents[2]
#: What stands in a table is looked up by a column, and columns are not offered.
TABLES = {"vincents-boys", "linens-by-the-ell", "cloths-by-the-quarter", "a-cloak-by-the-vara"}
BOOKS = [p for p in sorted((ROOT / "tests" / "handbooks").glob("*.md")) if p.stem not in TABLES]
HEAD = """# A trial

On the half. Drafted net. Taken over: a shift.

## Measures

- nape to waist
- bust

## Tapes

- bust tape: the bust in 48 parts; the usual tape

## By eye

- bust ease: 2 in, between 0 and 4 in

## The draft

1. Begin at A, with the centre back on the left. From A down to B: the nape to waist; call it the back edge.
2. From A across to C: half the bust. Square across from B and down from C to D.
3. """


@cache
def read(path: Path) -> tuple[Source, Lesson]:
    source = Source(path.name, path.read_text(encoding="utf-8"))
    return source, read_lesson(source)


def at_end(written: str) -> dict[str, Offer]:
    """What is offered behind a sentence that is being written."""
    source = Source("trial.md", HEAD + written)
    return {offer.text: offer for offer in offers_at(source, len(source.text), read_lesson(source))}


@pytest.mark.parametrize("path", BOOKS, ids=lambda p: p.stem)
def test_the_next_word_of_a_books_draft_is_among_the_offers(path: Path) -> None:
    """Before every word of every sentence that word is offered, or a slot that it fills.

    A number fills a length, any letter a new letter; a name that is just being made is the maker's own.
    """
    source, lesson = read(path)
    missed = []
    for item in lesson.items[:6]:
        for said in item.sentences:
            tokens = scan(source.text, said.span.start, said.span.end)
            names = standing(lesson, item.span.start, said.span.end).names
            inside = [m.span for m in names.merge(tokens) if m.sort is Sort.NAME]
            for before, token in zip([None, *tokens], tokens, strict=False):
                at = token.span.start
                if (
                    said_of_begin(tokens, before)
                    or any(span.start < at < span.end for span in inside)
                    or token.text in ".;("
                ):
                    continue
                if before is not None and before.text in {"it", "let", "as", "corner", "curve"}:
                    continue
                if token.sort is Sort.MARK and before is not None:
                    at = before.span.end
                if not any(admits(source, o, at, token) for o in offers_at(source, at, lesson)):
                    missed.append((source.text[said.span.start : at], token.text))
    assert missed == []


def said_of_begin(tokens: list[Token], before: Token | None) -> bool:
    """Whether a place is named here as a drafter will: the fold, the side."""
    return tokens[0].text == "begin" and before is not None and before.sort is not Sort.POINT


def admits(source: Source, offer: Offer, at: int, token: Token) -> bool:
    """Whether an offer goes on with a token from the caret, or is a slot that the token fills."""
    written = len(key_words(" ".join(t.text for t in scan(source.text, offer.span.start, at))))
    goes_on = [t.text for t in scan(offer.text, 0, len(offer.text))][written:]
    if goes_on[:1] == [token.text]:
        return True
    if token.sort is Sort.NUMBER or fraction_word(token.text) or token.text in {"two", "three", "five"}:
        return offer.text in {"half", "parts", "part"} or token.text in {"seven", "nine"}
    if token.sort is Sort.POINT:
        return offer.sort in {"letter", "new letter"}
    return token.sort is Sort.RULER and offer.sort in {"ruler", "new ruler", "corner", "line", "measure"}


@pytest.mark.parametrize("path", BOOKS[::4], ids=lambda p: p.stem)
def test_with_every_offer_reading_gets_on(path: Path) -> None:
    """An offer taken is read: what then cannot be read, if anything, stands behind it."""
    source, lesson = read(path)
    for item in lesson.items[:3]:
        said = item.sentences[0]
        tokens = scan(source.text, said.span.start, said.span.end)
        for token in tokens[1::3]:
            at = token.span.start
            for offer in offers_at(source, at, lesson)[::3]:
                written = f"{source.text[: offer.span.start]}{offer.text} "
                behind = len(written.rstrip()) - 1
                for query in read_lesson(Source("again", written)).queries:
                    if query.name in {"sentence-unread", "no-leading-word"} and query.span is not None:
                        assert query.span.end >= behind, (written[said.span.start :], query.message)


def test_what_is_offered_where() -> None:
    """Leading words, letters, the next free letter, ways, measures and amounts, lines, units, marks."""
    assert {"From", "Square", "Draw", "See that"} <= set(at_end(""))
    assert "From" in at_end("Fr")
    assert "Draw" not in at_end("Fr")
    assert list(at_end("From "))[:4] == ["D", "C", "B", "A"]
    assert {"down", "across", "toward", "along", "to"} <= set(at_end("From D "))
    assert list(at_end("From D down to ")) == ["E"]
    assert ":" in at_end("From D down to E")
    amounts = at_end("From D down to E: ")
    assert {"the bust", "the nape to waist", "the bust ease", "half", "the back edge"} <= set(amounts)
    assert amounts["the bust ease"].sort == "by eye"
    assert {"cm", "in", "parts"} <= set(at_end("From D down to E: 5 "))
    assert {"plus", "less"} <= set(at_end("From D down to E: half the bust "))
    assert "the back edge" in at_end("Square across from A to E on ")
    assert {"cloth", "calico"} <= set(at_end("Cut the back twice of "))
    assert {"level", "plumb", "square to"} <= set(at_end("Draw a curve from A to D, leaving A "))


def test_a_name_is_completed_from_its_first_letters() -> None:
    """`the na` is replaced by the whole name, without a second article; a line by its name; never twice."""
    offers = at_end("From D down to E: the na")
    assert list(offers) == ["nape to waist"]
    assert (offers["nape to waist"].span.end - offers["nape to waist"].span.start) == 2
    assert list(at_end("From D down to E: the nape to w")) == ["nape to waist"]
    assert "the nape to waist" in at_end("From D down to E: the")


def test_nothing_is_offered_in_prose_and_measures_in_their_list() -> None:
    """Prose is the maker's; a line of the Measures list is offered the names that sheets know."""
    text = HEAD.replace("- bust\n", "- neck\n").replace("3. ", "It is a plain thing, fro")
    source = Source("trial.md", text)
    lesson = read_lesson(source)
    assert offers_at(source, len(text), lesson) == ()
    named = offers_at(source, text.index("- neck\n") + 6, lesson)
    assert {o.text for o in named} == {"neck base", "neck to bust point"}


def test_after_if_a_condition_and_then_a_sentence() -> None:
    """`If the bust is more than 40 in,` goes on with any sentence."""
    assert "is" in at_end("If the bust ")
    assert {"more than", "less than"} <= set(at_end("If the bust is "))
    assert "," in at_end("If the bust is more than 40 in")
    assert "to" in at_end("If the bust is more than 40 in, from A down ")


def test_the_next_letter_is_none_that_looks_like_a_figure() -> None:
    """I and O are left out, as drafters do (common practice, no source); after Z come figures."""
    letters = tuple("ABCDEFGH")
    assert free_letter(letters) == "J"
    assert free_letter((*letters, *"JKLMN")) == "P"
    assert free_letter(tuple("ABCDEFGHJKLMNPQRSTUVWXYZ")) == "A1"

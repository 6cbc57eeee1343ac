"""Amendments: sentences kept beside a lesson, as at a fitting.

Three forms, one to a numbered item, bullet or paragraph::

    Let the ease be 3 parts of the bust tape.
    Instead of K: from A down to K: 3 cm.
    After the back seam: from W1 down to W3: 1 cm.

`Instead of` names what a sentence makes, never its number. In a block quote beneath stands the sentence it
replaced or came after, so that a later change of the lesson can be noticed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tapewright.diagnostics import Answer, Query, Source, Span, did_you_mean, question
from tapewright.language import sentences as s
from tapewright.language.asking import ask
from tapewright.language.clause import Clause, Unread, read_clause
from tapewright.language.lesson import IfSentence, Lesson, Sentence
from tapewright.language.making import made_by
from tapewright.language.markdown import Block, blocks
from tapewright.language.read import LONGEST
from tapewright.language.reading import KNOWN_CLOTHS, KNOWN_PLACES
from tapewright.language.tokens import Names, Sort, Token, scan, split
from tapewright.language.tree import Amount, NewName, Place
from tapewright.language.walking import walk


@dataclass(frozen=True, slots=True)
class Amendment:
    """One amendment.

    `form` is `let`, `instead` or `after`; `target` the letter or name it concerns. `said` is the sentence
    that stands instead or after, `amount` the value chosen; `kept` the words of the block quote beneath.
    """

    form: str
    target: str
    source: str
    span: Span
    said: Sentence | None = None
    amount: Amount | None = None
    kept: str = ""


def clauses_of(said: Sentence | IfSentence) -> tuple[Clause | Unread, ...]:
    """All clauses of a sentence, both branches of a conditional included."""
    return said.clauses if isinstance(said, Sentence) else (*said.then, *said.otherwise)


def makes(said: Sentence | IfSentence) -> set[str]:
    """The letters and names that a sentence makes."""
    return {name for clause in clauses_of(said) for name in made_by(clause)}


#: Of a longer name only so much is shown.
_LONGEST_SHOWN = 60


def read_amendments(source: Source, lesson: Lesson) -> tuple[tuple[Amendment, ...], tuple[Query, ...]]:
    """The amendments of a text, read with the names that the lesson has at each place."""
    queries: list[Query] = []
    found: list[Amendment] = []
    if len(source.text) > LONGEST or "\x00" in source.text:
        query = question(
            "not-text",
            "These amendments are not a plain text of a readable length.",
            Span(0, 0),
            help="Is it the right file?",
        )
        return (), (query.at(source.name),)
    for block, kept in _entries(source):
        for tokens in split(scan(source.text, block.span.start, block.span.end), "."):
            one, asked = _amendment(source, lesson, tokens, kept)
            queries += [q.at(source.name) for q in asked]
            if one is not None:
                found.append(one)
    return tuple(found), tuple(queries)


def amendment_for(text: str, name: str, lesson: Lesson) -> tuple[tuple[Amendment, ...], tuple[Query, ...]]:
    """A choice made from outside, `ease` and `2 parts`, as the amendment that says it."""
    return read_amendments(chosen_source(name, text), lesson)


def chosen_source(name: str, text: str) -> Source:
    """The sentence that a choice made from outside comes to, as a text with a name of its own."""
    return Source(f"--set {name[:_LONGEST_SHOWN]}", f"Let the {name} be {text}.")


def _entries(source: Source) -> Iterator[tuple[Block, str]]:
    """Items, bullets and paragraphs, each with the quote beneath it."""
    last: Block | None = None
    kept: list[str] = []
    for block in blocks(source):
        if block.kind == "quote":
            kept.append(" ".join(source[block.span].replace("\n", " ").replace(">", " ").split()))
            continue
        if last is not None:
            yield last, " ".join(kept)
        last, kept = (block if block.kind in {"item", "bullet", "paragraph"} else None), []
    if last is not None:
        yield last, " ".join(kept)


def _names(lesson: Lesson, before: str, *, included: bool) -> Names:
    """The names known where an amendment stands: before the sentence that makes `before`, or after it."""
    names = Names((*KNOWN_CLOTHS, *KNOWN_PLACES, *lesson.listed()))
    for item in lesson.items:
        for said in item.all():
            here = before in makes(said)
            if here and not included:
                return names
            for clause in clauses_of(said):
                if isinstance(clause, s.BeginFrom):
                    inner = lesson.draft_called(clause.title)
                    for name in () if inner is None else (*inner.listed(), *inner.made()[1]):
                        names.add(name)
                for node in () if isinstance(clause, Unread) else walk(clause):
                    if isinstance(node, NewName | Place):
                        names.add(node.name)
            if here:
                return names
    return names


def _amendment(
    source: Source, lesson: Lesson, tokens: list[Token], kept: str
) -> tuple[Amendment | None, list[Query]]:
    span = tokens[0].span.to(tokens[-1].span)
    first = tokens[0].text
    second = tokens[1].text if len(tokens) > 1 else ""
    if first == "let":
        return _let(source, lesson, tokens, span)
    if first == "instead" and second == "of":
        return _beside(source, lesson, tokens[2:], "instead", span, kept)
    if first == "after":
        return _beside(source, lesson, tokens[1:], "after", span, kept)
    return None, [
        question(
            "amendment-unread",
            "An amendment begins with Let, Instead of or After.",
            span,
            help="Such as: Instead of K: from A down to K: 3 cm.",
        )
    ]


def _let(
    source: Source, lesson: Lesson, tokens: list[Token], span: Span
) -> tuple[Amendment | None, list[Query]]:
    names = _names(lesson, "", included=True)
    body = tokens[:-1] if tokens[-1].text == "." else tokens
    clause = read_clause(names.merge(body), then=False, known_points=set())
    if isinstance(clause, s.Let):
        return Amendment("let", clause.name.name, source.name, span, amount=clause.amount), []
    if isinstance(clause, Unread):
        return None, [ask(clause, source, names)]
    return None, [
        question(
            "amendment-unread",
            "In an amendment, Let gives a value by eye its length.",
            span,
            help="Such as: Let the ease be 3 parts of the bust tape. Other sentences stand after Instead of or After.",
        )
    ]


def _no_colon(span: Span) -> Query:
    return question(
        "amendment-unread",
        "After what it concerns stands a colon, then the sentence.",
        span,
        help="Such as: Instead of K: from A down to K: 3 cm.",
    )


def _beside(
    source: Source, lesson: Lesson, tokens: list[Token], form: str, span: Span, kept: str
) -> tuple[Amendment | None, list[Query]]:
    colon = next((i for i, t in enumerate(tokens) if t.text == ":"), None)
    if not colon:
        return None, [_no_colon(tokens[0].span if tokens else span)]
    head = tokens[:colon]
    if head[0].sort is Sort.POINT and len(head) > 1:
        # The colon found is the sentence's own.
        return None, [_no_colon(head[0].span)]
    target = head[0].points[0] if head[0].sort is Sort.POINT else " ".join(t.text for t in head)
    every = {name for item in lesson.items for said in item.all() for name in makes(said)}
    if target not in every:
        near = did_you_mean(target, every) if len(target) > 1 else ()
        return None, [
            question(
                "amendment-target",
                f"Nothing in the lesson makes {_said(target)}.",
                head[0].span.to(head[-1].span),
                help="" if near else "An amendment concerns a letter or a name that a sentence makes.",
                answers=[Answer(f"Did you mean {_said(n)}?", n) for n in near],
            )
        ]
    names = _names(lesson, target, included=form == "after")
    known = {n for n in every if n[:1].isupper()}
    clauses: list[Clause | Unread] = []
    queries: list[Query] = []
    for run in split(tokens[colon + 1 :], ";"):
        body = run[:-1] if run[-1].text in {".", ";"} else run
        if not body:
            continue
        clause = read_clause(names.merge(body), then=bool(clauses), known_points=known)
        clauses.append(clause)
        if isinstance(clause, Unread):
            queries.append(ask(clause, source, names, known))
        for name in made_by(clause):
            names.add(name.lower() if name[:1].isupper() else name)
    if queries or not clauses:
        return None, queries
    return Amendment(form, target, source.name, span, Sentence(tuple(clauses), span), kept=kept), []


def _said(target: str) -> str:
    return target if target[:1].isupper() else f"the {target}"


def targets(amendments: Iterable[Amendment]) -> set[str]:
    """What amendments concern."""
    return {a.target for a in amendments}

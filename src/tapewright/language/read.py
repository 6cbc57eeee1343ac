"""A text becomes a lesson: two passes, declarations first, then sentences.

Reading is a pure function of the text and cannot fail: what cannot be read becomes a query, the rest of
the lesson stands. A sentence that cannot be read still declares its letters and names.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tapewright.diagnostics import Source, Span, did_you_mean, question
from tapewright.language import claims
from tapewright.language import sentences as _sentences  # noqa: F401 - fills the table of kinds
from tapewright.language.asking import ask
from tapewright.language.clause import Clause, Unread, read_clause, unread_from
from tapewright.language.front import declarations, front, no_sentences
from tapewright.language.lesson import (
    ByEyeEntry,
    ChoiceEntry,
    ClothEntry,
    Header,
    Heading,
    IfSentence,
    Item,
    Lesson,
    MeasureEntry,
    Sentence,
    TapeEntry,
)
from tapewright.language.making import made_by
from tapewright.language.markdown import Block, blocks
from tapewright.language.memory import Kept, Memory
from tapewright.language.pattern import Expected, Stream
from tapewright.language.reading import Finder, Reading, free
from tapewright.language.renumber import has_number, number_in, renumbered
from tapewright.language.sentences import BeginFrom, Repeat
from tapewright.language.tokens import Sort, Token, scan, split
from tapewright.language.tree import NewName, NewPoint, Place
from tapewright.language.walking import walk

#: A lesson longer than this is no lesson; reading it would only keep the maker waiting.
LONGEST = 1_000_000


def read_lesson(
    source: Source, find: Finder | None = None, within: tuple[str, ...] = (), memory: Memory | None = None
) -> Lesson:
    """The lesson of a text. Never raises on what a text may hold.

    `find` gives the text of another draft by its title, for `Begin from the draft ...`; `within` are the
    titles of the drafts that are being begun from, so that none begins from itself. A `memory`, given to
    every reading of one text in turn, makes the next one quicker and changes nothing else.
    """
    reading = Reading(source, find=find, within=within, memory=memory)
    if len(source.text) > LONGEST:
        reading.ask(
            question(
                "text-too-long",
                f"This text has {len(source.text):,} characters; more than {LONGEST:,} are not read.",
                Span(0, 0),
                help="Is it the right file?",
            )
        )
        return Lesson(source, "", Header(), queries=tuple(reading.queries))
    if "\x00" in source.text:
        at = source.text.index("\x00")
        reading.ask(
            question(
                "not-text", "This file is not plain text.", Span(at, at + 1), help="Is it the right file?"
            )
        )
        return Lesson(source, "", Header(), queries=tuple(reading.queries))
    if memory is not None:
        memory.begin()
    found = blocks(source)
    title, head, headings = front(reading, found)
    reading.within = (*within, title)
    lists = declarations(reading, found)
    items = tuple(_items(reading, found, headings))
    if not items and not within and not reading.queries:
        reading.ask(no_sentences(reading, found))
    if memory is not None:
        memory.end(reading.names)
    return Lesson(
        source,
        title,
        head,
        measures=tuple(e for e in lists if isinstance(e, MeasureEntry)),
        tapes=tuple(e for e in lists if isinstance(e, TapeEntry)),
        by_eye=tuple(e for e in lists if isinstance(e, ByEyeEntry)),
        choices=tuple(e for e in lists if isinstance(e, ChoiceEntry)),
        cloths=tuple(e for e in lists if isinstance(e, ClothEntry)),
        tables=tuple(reading.tables),
        shapes=tuple(reading.shapes),
        headings=tuple(headings),
        items=items,
        queries=tuple(reading.queries),
        placed=tuple(reading.placed.items()),
        unread=tuple(reading.unread),
    )


def _items(reading: Reading, found: list[Block], headings: list[Heading]) -> Iterator[Item]:
    """Second pass: the numbered items, until `Making up`."""
    number, heading = 0, -1
    done: list[Item] = []
    for block in found:
        if block.kind == "heading":
            heading += 1
            if headings[heading].text.strip().lower() == "making up":
                return
        elif block.kind == "item":
            number += 1
            read = _item(reading, block.span, number)
            item = Item(number, read, heading, block.span)
            repeat = _repeat_in(read)
            if repeat is not None and not repeat.heading and done:
                # The group just above is meant.
                repeat = replace(repeat, heading=headings[done[-1].heading].text)
                read = tuple(_with_repeat(said, repeat) for said in read)
                item = replace(item, sentences=read)
            if repeat is not None:
                item = replace(item, copies=tuple(_copies(reading, repeat, done, headings, number)))
            done.append(item)
            yield item


def _item(reading: Reading, span: Span, number: int) -> tuple[Sentence | IfSentence, ...]:
    """The sentences of an item, from memory if they are there."""
    memory, names = reading.memory, reading.names
    text, before, asked = reading.source[span], len(names.order), len(reading.queries)
    kept = None if memory is None else memory.find(text, span.start, names)
    if kept is not None:
        reading.points.update(kept.points)
        for name in kept.names:
            names.add(name)
        return kept.said
    tokens = scan(reading.source.text, span.start, span.end)
    read = [_sentence(reading, run, number) for run in split(tokens, ".")]
    # A mark that stands alone says nothing.
    said = tuple(one for one in read if isinstance(one, IfSentence) or one.clauses)
    if not said:
        empty = Unread(span, "", None, span, (), (), ())
        reading.ask(ask(empty, reading.source), number)
    elif memory is not None and len(reading.queries) == asked and not _rests_on_more(said):
        made = [_made(clause) for one in said for clause in _clauses_of(one)]
        points = tuple(p for letters, _ in made for p in letters)
        called = tuple(node.name for _, found in made for node in found)
        words = frozenset(token.text for token in tokens)
        memory.keep(text, Kept(span.start, said, words, before, points, called))
    return said


def _clauses_of(said: Sentence | IfSentence) -> tuple[Clause | Unread, ...]:
    return said.clauses if isinstance(said, Sentence) else (*said.then, *said.otherwise)


def _rests_on_more(said: tuple[Sentence | IfSentence, ...]) -> bool:
    """Whether sentences rest on more than their own words: on other sentences or another draft."""
    return any(isinstance(c, Repeat | BeginFrom | Unread) for one in said for c in _clauses_of(one))


def _repeat_in(read: tuple[Sentence | IfSentence, ...]) -> Repeat | None:
    for said in read:
        for clause in said.clauses if isinstance(said, Sentence) else ():
            if isinstance(clause, Repeat):
                return clause
    return None


def _with_repeat(said: Sentence | IfSentence, repeat: Repeat) -> Sentence | IfSentence:
    if isinstance(said, IfSentence):
        return said
    return replace(said, clauses=tuple(repeat if isinstance(c, Repeat) else c for c in said.clauses))


def _copies(
    reading: Reading, repeat: Repeat, done: list[Item], headings: list[Heading], number: int
) -> Iterator[Sentence | IfSentence]:
    """The sentences under a heading, once for each number, their own numbers raised by one each time."""
    wanted = " ".join(repeat.heading.lower().split())
    at = next((i for i, h in enumerate(headings) if " ".join(h.text.lower().split()) == wanted), None)
    said = [one for item in done if item.heading == at for one in item.sentences]
    if at is None or not said:
        near = did_you_mean(repeat.heading, [h.text for h in headings])
        message = (
            f"No heading “{repeat.heading}” with sentences stands before this."
            if repeat.heading
            else "Nothing stands before this that could be said again."
        )
        help_ = "" if near else "Name a heading above, as it is written there."
        reading.ask(question("repeat", message, repeat.span, help=help_, answers=near), number)
        return
    if not any(has_number(one) for one in said):
        message = f"Nothing under “{repeat.heading}” has a number that could go up."
        reading.ask(question("repeat", message, repeat.span, help="Number its letters: A1, B1."), number)
        return
    own = max(
        number_in(name) for one in said for clause in _clauses_of(one) for name in ("", *made_by(clause))
    )
    following = tuple(range(own + 1, own + 1 + len(repeat.numbers)))
    if own and repeat.numbers != following:
        first = "the next" if len(following) == 1 else "the next ones"
        listed = ", ".join(map(str, following[:-1])) + (" and " if following[1:] else "") + str(following[-1])
        are = "is" if len(following) == 1 else "are"
        reading.ask(
            question(
                "repeat",
                f"What stands under “{repeat.heading}” makes number {own} itself, so {first} {are} {listed}.",
                repeat.span,
                help="Every number in its letters and names goes up by one each time.",
                answers=[f'Repeat "{repeat.heading}" for {listed}'],
            ),
            number,
        )
        return
    for by in range(1, len(repeat.numbers) + 1):
        for one in said:
            copy: Sentence | IfSentence = renumbered(one, by)
            for clause in _clauses_of(copy):
                for name in made_by(clause):
                    reading.points.add(name) if name[:1].isupper() else reading.names.add(name)
            yield copy


def _sentence(reading: Reading, tokens: list[Token], number: int) -> Sentence | IfSentence:
    span = tokens[0].span.to(tokens[-1].span)
    if tokens[0].sort is Sort.WORD and tokens[0].text in {"if", "when"}:
        return _if_sentence(reading, tokens, number, span)
    return Sentence(tuple(_clauses(reading, tokens, number)), span)


def _clauses(
    reading: Reading, tokens: list[Token], number: int, then: bool = False
) -> Iterator[Clause | Unread]:
    runs: list[list[Token]] = []
    for run in split(tokens, ";"):
        # No clause begins with a number: the mark before it was meant to be another, and is asked about.
        # An outline's edges stand between commas; with semicolons they are still its edges.
        edge = (
            runs and run[0].text == "to" and [t.text for t in runs[-1] if t.sort is Sort.WORD][:1] == ["let"]
        )
        if runs and (run[0].sort is Sort.NUMBER or edge):
            runs[-1] += run
        else:
            runs.append(run)
    for run in runs:
        body = run[:-1] if run[-1].sort is Sort.MARK and run[-1].text in ".;" else run
        if not body:
            continue
        clause = read_clause(reading.names.merge(body), then=then, known_points=reading.points)
        then = True
        _declare(reading, clause, number)
        yield clause


def _declare(reading: Reading, clause: Clause | Unread, number: int) -> None:
    if isinstance(clause, Unread):
        reading.ask(ask(clause, reading.source, reading.names, reading.points), number)
        reading.points.update(clause.points)
        for name in clause.names:
            reading.names.add(name)
        return
    if isinstance(clause, BeginFrom):
        _place(reading, clause, number)
    points, names = _made(clause)
    reading.points.update(points)
    for node in names:
        if isinstance(node, NewName):
            free(reading, node.name, node.span, number)
        reading.names.add(node.name)


def _made(clause: Clause | Unread) -> tuple[list[str], list[NewName | Place]]:
    """The letters and the names that a clause makes."""
    points = [] if isinstance(clause, Unread) else list(clause.also_makes())
    names: list[NewName | Place] = []
    for node in walk(clause):
        if isinstance(node, NewPoint):
            points.append(node.name)
        elif isinstance(node, NewName | Place):
            names.append(node)
    return points, names


def _place(reading: Reading, clause: BeginFrom, number: int) -> None:
    """Read the draft that this one begins from; its letters and names are known from here on."""
    title = clause.title
    at = Span(clause.span.start, clause.span.end)
    if title in reading.within:
        reading.ask(
            question(
                "begins-from-itself",
                f"“{title}” would begin from itself.",
                at,
                help="Begin from another draft.",
            ),
            number,
        )
        return
    source = reading.find(title) if reading.find is not None else None
    if source is None:
        reading.ask(
            question(
                "no-such-draft",
                f"There is no draft called “{title}” here.",
                at,
                help="It is looked for beside this lesson and among the shipped ones, by its title.",
            ),
            number,
        )
        return
    inner = read_lesson(source, reading.find, reading.within)
    reading.placed[title] = inner
    points, names = inner.made()
    reading.points.update(points)
    for name in (*inner.listed(), *names):
        reading.names.add(name)


def _if_sentence(reading: Reading, tokens: list[Token], number: int, span: Span) -> Sentence | IfSentence:
    merged = reading.names.merge(tokens)
    stream = Stream(merged)
    found = claims.condition(stream, 1)
    if found is None or stream.word(found[1]) != ",":
        stream.want(max(1, found[1] if found else 1), Expected(words=","))
        body = merged[:-1] if merged[-1].text == "." else merged
        unread = unread_from(body, span, "if", stream, reading.points)
        _declare(reading, unread, number)
        return Sentence((unread,), span)
    condition, comma = found
    # Clauses are cut from the tokens before merging, so that a later name cannot change them.
    start = next(i for i, t in enumerate(tokens) if t.span == merged[comma].span) + 1
    cut = next(
        (i for i in range(start, len(tokens)) if tokens[i].text == "otherwise" and tokens[i - 1].text == ";"),
        len(tokens),
    )
    then = tuple(_clauses(reading, tokens[start:cut], number))
    rest = tokens[cut + 1 :]
    if rest and rest[0].text == ",":
        rest = rest[1:]
    otherwise = tuple(_clauses(reading, rest, number)) if rest else ()
    return IfSentence(condition, then, otherwise, span)

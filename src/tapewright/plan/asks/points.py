"""What a sentence that makes points or shares asks of itself: how many letters, which way, how far."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tapewright.diagnostics import Answer, Query, Span, question
from tapewright.language import sentences as s
from tapewright.language.numbers import show
from tapewright.language.pattern import Style
from tapewright.language.saying import show as said
from tapewright.language.saying import show_path
from tapewright.language.tree import (
    AlongLine,
    AtAngle,
    Compass,
    Constant,
    Offset,
    Rest,
    Ruler,
    Share,
    SquareTo,
    Times,
    Way,
)
from tapewright.plan.asks.table import asks
from tapewright.plan.scope import Scope

HOW_FAR = "End the sentence with a length, such as “: 5 cm”, or with a line, such as “on the hem line”."


def _letters(count: int) -> str:
    """`1 letter`, `2 letters`."""
    return f"{count} {'letter' if count == 1 else 'letters'}"


def _between(one: Span, other: Span) -> Span | None:
    """The place of the word `and` between two lengths; None where more stands there than its spaces."""
    and_ = Span(one.end + 1, other.start - 1)
    return and_ if len(and_) == len("and") else None


def _side(way: Way | None) -> Iterator[Query]:
    if isinstance(way, SquareTo | AtAngle) and way.toward is None:
        word = "square to it" if isinstance(way, SquareTo) else "at that angle"
        yield question(
            "which-side",
            f"Two ways lie {word}, one to each side.",
            way.span,
            help="Say toward which letter or place, such as “toward B”.",
        )


def _no_start(doing: str, span: Span, scope: Scope) -> Query:
    last = next(reversed(scope.points), "")
    return question(
        "no-start",
        f"{doing or 'Go '}from where?",
        span,
        help="Say from which letter. Only after a semicolon the letter made last is meant without a word."
        + (f" That was {last}." if last else ""),
    )


@asks(s.From)
def _from(clause: s.From, scope: Scope) -> Iterator[Query]:
    way, reach, news = clause.way, clause.reach, clause.news
    if not clause.starts:
        yield _no_start("", news[0].span, scope)
        return
    yield from _side(way)
    offsets = [r for r in reach if isinstance(r, Offset)]
    both = isinstance(way, AlongLine) and way.both
    if len(clause.starts) > 1 and len(clause.starts) != len(news):
        yield question(
            "letters-and-lengths",
            f"{_letters(len(clause.starts))} to start from, but {len(news)} new ones.",
            news[0].span.to(news[-1].span),
            help="Give one letter to start from, or one for each new letter in their order.",
        )
        return
    if offsets:
        yield from _offsets(clause, offsets)
        return
    if both and len(news) != 2:
        yield question(
            "both-ways",
            f"Both ways make two points, and you gave {_letters(len(news))}.",
            news[0].span.to(news[-1].span),
            help="Give two new letters: the first falls back along the line, the second on along it.",
        )
        return
    if way is None and clause.end is None:
        yield question(
            "no-way",
            f"Which way from {clause.starts[0].name if clause.starts else 'here'} to {news[0].name}?",
            clause.starts[0].span.to(news[0].span) if clause.starts else news[0].span,
            help="Say down, across, toward a letter, or along a line.",
        )
        return
    if way is None and not reach:
        line = "" if clause.end is None else show_path(clause.end.line.path)
        yield question(
            "no-way",
            f"Which way from {clause.starts[0].name} to {line}?",
            clause.starts[0].span.to(news[0].span),
            help="Say down, across or toward a letter; or how far, and a ruler so long reaches it. "
            f"Square to it is: Square from {clause.starts[0].name} to {news[0].name} on {line}.",
        )
        return
    if not reach and clause.end is None:
        yield question(
            "how-far",
            f"How far is {news[0].name}?",
            news[0].span.to(news[-1].span),
            help=HOW_FAR,
        )
        return
    if reach and len(reach) not in {1, len(news)}:
        if (
            len(news) == 1
            and len(reach) == 2
            and isinstance(reach[0], Times)
            and isinstance(reach[1], Constant)
        ):
            word = _between(reach[0].span, reach[1].span)
            yield question(
                "and-after-a-reading",
                "After a reading, “and” adds parts of the same tape; this is another length.",
                word or reach[1].span,
                help=f"Try “plus {said(reach[1], Style())}”, or parts of the tape, such as “and 1 part”.",
                answers=[Answer("plus", "plus" if word else None)],
            )
            return
        yield question(
            "letters-and-lengths",
            f"You gave {_letters(len(news))}, but {len(reach)} lengths.",
            reach[0].span.to(reach[-1].span),
            help="Give one length for all, or one for each letter in their order.",
        )
    if clause.end is not None and len(news) != 1:
        yield question(
            "letters-and-lengths",
            f"One line is met in one point, and you gave {_letters(len(news))}.",
            news[0].span.to(news[-1].span),
            help="Give one letter, and meet other lines in sentences of their own.",
        )


def _offsets(clause: s.From, offsets: list[Offset]) -> Iterator[Query]:
    if (
        len(offsets) != len(clause.reach)
        or len(offsets) > 2
        or len(clause.news) != 1
        or clause.way is not None
    ):
        said = "A point by two lengths needs a way with each of them."
        if clause.way is not None:
            said = "The way is said before the new letter, and again with each length."
        elif len(clause.news) != 1:
            said = (
                f"Two lengths, each with its way, make one point, and you gave {_letters(len(clause.news))}."
            )
        yield question(
            "two-offsets",
            said,
            clause.reach[0].span.to(clause.reach[-1].span),
            help="Write it like this: From A to B: 1/2 in left and 1 in down.",
        )
        return
    ways = [o.way.word for o in offsets if isinstance(o.way, Compass)]
    level = [w for w in ways if w in {"left", "right", "across"}]
    if len(level) > 1 or len(ways) - len(level) > 1:
        yield question(
            "two-offsets",
            f"Both lengths lie along one line, {ways[0]} and {ways[1]}.",
            offsets[0].span.to(offsets[1].span),
            help="Give one length, or turn one of the two up or down, left or right.",
        )


@asks(s.Square)
def _square(clause: s.Square, scope: Scope) -> Iterator[Query]:
    if clause.start is None:
        yield _no_start("Square ", clause.new.span, scope)
        return
    yield from _side(clause.way)
    if clause.start2 is not None:
        if clause.way is None or clause.end is not None or clause.reach is not None:
            yield question(
                "square",
                "The corner of a rectangle is made by its two lines; there is nothing more to say of it.",
                (clause.reach or clause.end or clause).span,
                help="End the sentence at the new letter, or square from one letter only.",
            )
        return
    if clause.way is None and clause.end is None:
        yield question(
            "no-way",
            f"Square which way to {clause.new.name}?",
            clause.new.span,
            help="Say up, down, left, right or across; or on which line, and it falls square to that.",
        )
    elif clause.end is None and clause.reach is None:
        yield question("how-far", f"How far is {clause.new.name}?", clause.new.span, help=HOW_FAR)


@asks(s.Carry)
def _carry(clause: s.Carry, scope: Scope) -> Iterator[Query]:
    if clause.past is None:
        yield question(
            "no-end",
            "Beyond which end is it carried on?",
            clause.line.span,
            help="Say beyond which letter, such as: Carry the hem beyond B to C: 2 cm.",
        )
    elif isinstance(clause.line, Ruler) and clause.past.name not in {clause.line.a.name, clause.line.b.name}:
        yield question(
            "no-end",
            f"{clause.past.name} is no end of {show_path(clause.line)}.",
            clause.past.span,
            help="A line is carried on beyond one of its ends.",
            answers=[clause.line.a.name, clause.line.b.name],
        )
    elif clause.end is None and clause.reach is None:
        yield question("how-far", f"How far is {clause.new.name}?", clause.new.span, help=HOW_FAR)


@asks(s.Touch)
def _touch(clause: s.Touch, scope: Scope) -> Iterator[Query]:
    if clause.toward is None:
        yield question(
            "which-side",
            "On which side does it touch?",
            clause.new.span,
            help="Add it at the end, such as “, toward the centre back”.",
        )


@asks(s.Divide)
def _divide(clause: s.Divide, scope: Scope) -> Iterator[Query]:
    if clause.parts is None:
        return
    wanted = clause.parts - 1
    letters = clause.news[0].span.to(clause.news[-1].span) if clause.news else clause.span
    if clause.parts < 2:
        yield question(
            "letters-and-parts",
            "One part is the whole line; nothing divides it.",
            letters,
            help="Say into 2 at one letter, into 3 at two letters, and so on.",
        )
    elif len(clause.news) != wanted:
        yield question(
            "letters-and-parts",
            f"{clause.parts} parts need {_letters(wanted)} between them; you gave {len(clause.news)}.",
            letters,
            help=f"Give {_letters(wanted)}, or say into {len(clause.news) + 1}.",
        )


@asks(s.Share)
def _share(clause: s.Share, scope: Scope) -> Iterator[Query]:
    total = Fraction(0)
    rests = 0
    plain = True
    for portion in clause.portions:
        match portion.share:
            case Share(factor):
                total += factor
            case Rest():
                rests += 1
            case _:
                plain = False
    last = [p for p in clause.portions if isinstance(p.share, Rest)]
    all_ = clause.portions[0].span.to(clause.portions[-1].span)
    if rests > 1:
        yield question(
            "shares", "Only one share can be the rest.", last[-1].span, help="Give the others as fractions."
        )
    elif total > 1:
        yield question(
            "shares",
            f"These shares come to {show(total)} of it, more than the whole.",
            all_,
            help="Make one of them smaller, or call one of them the rest.",
        )
    elif rests and plain and total == 1:
        yield question(
            "shares",
            "Nothing is left for the rest; the other shares come to the whole.",
            last[-1].span,
            help="Leave the rest out, or make one of the others smaller.",
        )
    elif not rests and plain and total < 1:
        yield question(
            "shares",
            f"These shares come to {show(total)} of it; {show(1 - total)} is left over.",
            all_,
            help="Give what is left a name too, such as: and the rest as the back share.",
        )

"""What a sentence that makes points or shares asks of itself: how many letters, which way, how far."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tapewright.diagnostics import Answer, Query, question
from tapewright.language import numbers
from tapewright.language import sentences as s
from tapewright.language.pattern import Style
from tapewright.language.saying import show, show_path
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


def _side(way: Way | None) -> Iterator[Query]:
    if isinstance(way, SquareTo | AtAngle) and way.toward is None:
        word = "square to it" if isinstance(way, SquareTo) else "at that angle"
        yield question(
            "which-side",
            f"To which side? Two ways lie {word}.",
            way.span,
            help="Say toward which letter or place, such as: toward the centre front.",
        )


@asks(s.From)
def _from(clause: s.From, scope: Scope) -> Iterator[Query]:
    way, reach, news = clause.way, clause.reach, clause.news
    yield from _side(way)
    offsets = [r for r in reach if isinstance(r, Offset)]
    both = isinstance(way, AlongLine) and way.both
    if len(clause.starts) > 1 and len(clause.starts) != len(news):
        yield question(
            "letters-and-lengths",
            f"{len(clause.starts)} letters to start from, and {len(news)} new "
            f"{'letter' if len(news) == 1 else 'letters'} to make.",
            news[0].span.to(news[-1].span),
            help="From several letters each new one is made from its own, in their order.",
        )
        return
    if offsets:
        yield from _offsets(clause, offsets)
        return
    if both and len(news) != 2:
        yield question(
            "both-ways",
            f"Both ways make two points; {_counted(len(news), 'letter')} stands here."
            if len(news) == 1
            else f"Both ways make two points; {_counted(len(news), 'letter')} stand here.",
            news[0].span.to(news[-1].span),
            help="Such as: From K both ways along the hem line to K1 and K2: 1 cm.",
        )
        return
    if way is None and clause.end is None:
        yield question(
            "no-way",
            f"Which way from {clause.starts[0].name if clause.starts else 'here'} to {news[0].name}?",
            news[0].span,
            help=f"Before “to {news[0].name}” say down, across, toward a letter, or along a line.",
        )
        return
    if not reach and clause.end is None:
        yield question(
            "how-far",
            f"How far is {news[0].name}?",
            news[0].span,
            help=f"End the sentence with a length, to {news[0].name}: 5 cm; or with a line, to {news[0].name} on A-B.",
        )
        return
    if reach and len(reach) not in {1, len(news)}:
        if (
            len(news) == 1
            and len(reach) == 2
            and isinstance(reach[0], Times)
            and isinstance(reach[1], Constant)
        ):
            more = show(reach[1], Style())
            yield question(
                "and-after-a-reading",
                "After a reading, “and” adds parts of the same tape.",
                reach[1].span,
                help=f"Try “plus {more}” in place of “and {more}”, or give it in parts: and 1 part.",
                answers=[Answer(f"plus {more}", None)],
            )
            return
        yield question(
            "letters-and-lengths",
            f"{_counted(len(news), 'letter')}, but {_counted(len(reach), 'length')}.",
            reach[0].span.to(reach[-1].span),
            help="Give one length for all, or one for each letter in their order.",
        )
    if clause.end is not None and len(news) != 1:
        yield question(
            "letters-and-lengths",
            f"One line is met in one point, and {_counted(len(news), 'letter')} stand here.",
            news[0].span.to(news[-1].span),
            help="Write a sentence for each letter.",
        )


def _offsets(clause: s.From, offsets: list[Offset]) -> Iterator[Query]:
    if (
        len(offsets) != len(clause.reach)
        or len(offsets) > 2
        or len(clause.news) != 1
        or clause.way is not None
    ):
        yield question(
            "two-offsets",
            "A point by two offsets has two lengths, each with its own way.",
            clause.span,
            help="Such as: From A to B: 1/2 in left and 1 in down.",
        )
        return
    ways = [o.way.word for o in offsets if isinstance(o.way, Compass)]
    level = [w for w in ways if w in {"left", "right", "across"}]
    if len(level) > 1 or len(ways) - len(level) > 1:
        yield question(
            "two-offsets",
            "Both lengths go along one direction.",
            offsets[0].span.to(offsets[-1].span),
            help="One goes up or down and the other left, right or across; or add the two up.",
        )


@asks(s.Square)
def _square(clause: s.Square, scope: Scope) -> Iterator[Query]:
    yield from _side(clause.way)
    if clause.start2 is not None:
        if clause.way is None or clause.end is not None or clause.reach is not None:
            yield question(
                "square",
                "The corner of a rectangle is made by two lines, each with its way, and needs no more.",
                clause.span,
                help="Such as: Square across from B and down from C to D.",
            )
        return
    if clause.way is None and clause.end is None:
        yield question(
            "no-way",
            "Square which way, or to which line?",
            clause.new.span,
            help="Such as: Square down from A to B: 5 cm. Or, with the corner on a line: Square from A to B on C-D.",
        )
    elif clause.end is None and clause.reach is None:
        yield question(
            "how-far",
            f"How far is {clause.new.name}?",
            clause.new.span,
            help=f"Say on which line, to {clause.new.name} on C-D; or how far, to {clause.new.name}: 5 cm.",
        )


@asks(s.Carry)
def _carry(clause: s.Carry, scope: Scope) -> Iterator[Query]:
    if clause.past is None:
        yield question(
            "no-end",
            "Beyond which end is it carried on? This line has none.",
            clause.line.span,
            help="Carry on a line with two ends, such as: Carry A-B beyond B to C: 5 cm.",
        )
    elif isinstance(clause.line, Ruler) and clause.past.name not in {clause.line.a.name, clause.line.b.name}:
        yield question(
            "no-end",
            f"{clause.past.name} is no end of {show_path(clause.line)}.",
            clause.past.span,
            help="A line is carried on beyond one of its ends.",
        )
    elif clause.end is None and clause.reach is None:
        yield question(
            "how-far",
            f"How far is {clause.new.name}?",
            clause.new.span,
            help=f"Say on which line, to {clause.new.name} on C-D; or how far, to {clause.new.name}: 5 cm.",
        )


@asks(s.Touch)
def _touch(clause: s.Touch, scope: Scope) -> Iterator[Query]:
    if clause.toward is None:
        yield question(
            "which-side",
            "On which side does it touch?",
            clause.line.span,
            help="Add, for instance: , toward the centre back.",
        )


@asks(s.Divide)
def _divide(clause: s.Divide, scope: Scope) -> Iterator[Query]:
    if clause.parts is None:
        return
    wanted = clause.parts - 1
    if clause.parts < 2 or len(clause.news) != wanted:
        if clause.parts < 2:
            yield question(
                "letters-and-parts",
                f"A line is divided into 2 parts or more, not into {clause.parts}.",
                clause.span,
            )
            return
        yield question(
            "letters-and-parts",
            f"{clause.parts} parts need {_counted(wanted, 'letter')} between them; "
            f"{_counted(len(clause.news), 'letter')} {'stands' if len(clause.news) == 1 else 'stand'} here.",
            clause.news[0].span.to(clause.news[-1].span),
            help="There is a letter at each place where two parts meet, one fewer than there are parts.",
        )


@asks(s.Share)
def _share(clause: s.Share, scope: Scope) -> Iterator[Query]:
    total = Fraction(0)
    rests = 0
    plain = True
    where = clause.portions[0].span.to(clause.portions[-1].span)
    for portion in clause.portions:
        match portion.share:
            case Share(factor):
                total += factor
            case Rest():
                rests += 1
            case _:
                plain = False
    if rests > 1:
        yield question(
            "shares", "Only one share can be the rest.", where, help="Give the other its own share."
        )
    elif total > 1:
        said = f"These shares come to {numbers.show(total)} of the whole, which is more than there is."
        yield question("shares", said, where, help="Make one of them smaller, or say: and the rest as ...")
    elif rests and plain and total == 1:
        said = "The shares before it come to the whole, so nothing is left for the rest."
        yield question("shares", said, where, help="Leave the rest out, or make one of the shares smaller.")
    elif not rests and plain and total < 1:
        said = f"These shares come to {numbers.show(total)} of the whole, and something is left."
        help_ = "Give what is left a name: and the rest as ..."
        yield question("shares", said, where, help=help_)


def _counted(count: int, what: str) -> str:
    """`1 letter`, `3 letters`."""
    return f"{count} {what}" if count == 1 else f"{count} {what}s"

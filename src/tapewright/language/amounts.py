"""Amounts: read from tokens by recursive descent, and printed in house style.

The grammar (sketch of the language, section 1): a fraction takes only the next thing; `and ... parts`
right after a reading belongs to the same tape; `if taken, otherwise` divides the whole amount, before any
limit; between complete amounts stand `plus` and `less`.
"""

from __future__ import annotations

from fractions import Fraction

from tapewright.language import numbers, references
from tapewright.language.pattern import Expected, Stream
from tapewright.language.tokens import Sort
from tapewright.language.tree import (
    Along,
    Amount,
    Bare,
    Constant,
    CornerRef,
    IfTaken,
    Limited,
    LookedUp,
    NameRef,
    Parts,
    Rest,
    Share,
    Times,
    Total,
    Unknown,
)

Found = tuple[Amount, int] | None

#: Brackets within brackets, more than which no amount has.
DEEPEST = 20


def count_word(stream: Stream, at: int) -> Fraction | None:
    """A number at token `at`, in figures or words to twelve."""
    token = stream.token(at)
    if token is None:
        return None
    if token.sort is Sort.NUMBER:
        return token.number
    if token.sort is Sort.WORD and token.text in numbers.COUNTS:
        return Fraction(numbers.COUNTS[token.text])
    return None


def one_fraction(stream: Stream, at: int) -> tuple[Fraction, int] | None:
    """`1/6`, `half`, `third`, `two thirds`, `3 eighths`."""
    token = stream.token(at)
    if token is None:
        return None
    if token.sort is Sort.WORD:
        simple = numbers.fraction_word(token.text)
        if simple is not None:
            return simple, at + 1
    count = count_word(stream, at)
    if count is None:
        return None
    after = stream.token(at + 1)
    if after is not None and after.sort is Sort.WORD:
        simple = numbers.fraction_word(after.text)
        if simple is not None:
            return count * simple, at + 2
    if token.sort is Sort.NUMBER and (count.denominator != 1 or "/" in token.text):
        return count, at + 1
    return None


def fractions(stream: Stream, at: int) -> tuple[Fraction, int] | None:
    """A fraction, or several joined by `and` before one `of`: `a third and a twelfth of`."""
    first = one_fraction(stream, at)
    if first is None:
        return None
    total, end = first
    look = end
    running = total
    while stream.word(look) == "and":
        more = one_fraction(stream, look + 1)
        if more is None:
            break
        running += more[0]
        look = more[1]
        if stream.word(look) == "of":
            total, end = running, look
    return total, end


def _tape_of(stream: Stream, at: int) -> tuple[NameRef | Unknown, int] | None:
    token = stream.token(at)
    if token is not None and token.sort is Sort.NAME:
        return NameRef(token.text, token.span), at + 1
    return references.unknown(stream, at)


def _parts(stream: Stream, at: int) -> tuple[Fraction, int] | None:
    """`1 1/2 parts`, `half part`: the number and the place after the word."""
    number = count_word(stream, at)
    end = at + 1
    if number is not None:
        stream.may(end, *(("part",) if number <= 1 else ()), *(("parts",) if number != 1 else ()))
    if number is None or stream.word(end) not in {"part", "parts"}:
        found = one_fraction(stream, at)
        if found is None:
            return None
        number, end = found
        if stream.word(end) == "of":
            return None
    if stream.word(end) not in {"part", "parts"}:
        return None
    return number, end + 1


def term(stream: Stream, at: int) -> Found:
    """One term of an amount."""
    token = stream.token(at)
    if token is None:
        stream.want(at, Expected(kind="amount"))
        return None
    if token.sort is Sort.MARK and token.text == "(":
        if stream.depth >= DEEPEST:
            return None
        stream.depth += 1
        inside = limited(stream, at + 1)
        stream.depth -= 1
        if inside is None:
            return None
        if stream.word(inside[1]) != ")":
            stream.want(inside[1], Expected(words=")"))
            return None
        return inside[0], inside[1] + 1
    if token.sort is Sort.WORD and token.text in {"twice", "double"}:
        return _times(stream, at, Fraction(2), at + 1)
    if token.sort is Sort.WORD and token.text == "along":
        return _along(stream, at)
    parts = _parts(stream, at)
    if parts is not None:
        return _parts_of(stream, at, parts)
    number = count_word(stream, at)
    if number is not None:
        after = stream.word(at + 1)
        if after == "times":
            return _times(stream, at, number, at + 2)
        stream.may(at + 1, *references.UNITS_SAID, "times")
        unit = references.UNIT_WORDS.get(after)
        if unit is not None and one_fraction(stream, at + 1) is None:
            return _and_inches(stream, at, Constant(number, unit, stream.span(at, at + 2)))
    part = fractions(stream, at)
    if part is not None:
        factor, end = part
        stream.may(end, "of")
        following = stream.token(end)
        if stream.word(end) == "of":
            end += 1
        elif following is not None and token.sort is following.sort is Sort.NUMBER:
            # `1 1/2 1/2 in`: one number too many, and no product.
            return Bare(factor, token.span), end
        elif stream.word(end) in references.UNIT_WORDS:
            unit = references.UNIT_WORDS[stream.word(end)]
            return Constant(factor, unit, stream.span(at, end + 1)), end + 1
        older = _older_reading(stream, at, factor, part[1])
        if older is not None:
            return older
        found = _times(stream, at, factor, end)
        if found is not None:
            return found
        if number is None:
            # A fraction of nothing that is named: the plan asks what it is a share of.
            return Share(factor, stream.span(at, part[1])), part[1]
    if number is not None:
        return Bare(number, token.span), at + 1
    return thing(stream, at)


def _and_inches(stream: Stream, at: int, large: Constant) -> Found:
    """`5 ft 4 in`, `1 yd 9 in`: the inches that follow a larger unit without a word between."""
    number = count_word(stream, at + 2)
    if (
        large.unit not in {"ft", "yd"}
        or number is None
        or references.UNIT_WORDS.get(stream.word(at + 3)) != "in"
    ):
        return large, at + 2
    inches = Constant(number, "in", stream.span(at + 2, at + 4))
    return Total((1, 1), (large, inches), stream.span(at, at + 4)), at + 4


def _older_reading(stream: Stream, at: int, factor: Fraction, end: int) -> Found:
    """`1/6 and 1 1/2 parts of the chest tape`, the older order."""
    if stream.word(end) != "and":
        return None
    parts = _parts(stream, end + 1)
    if parts is None or stream.word(parts[1]) != "of":
        return None
    tape = _tape_of(stream, parts[1] + 1)
    if tape is None:
        return None
    span = stream.span(at, tape[1])
    reading = Times(factor, tape[0], span)
    return Total((1, 1), (reading, Parts(parts[0], tape[0], True, span)), span), tape[1]


def _parts_of(stream: Stream, at: int, parts: tuple[Fraction, int]) -> Found:
    number, end = parts
    stream.may(end, "of")
    if stream.word(end) == "of":
        tape = _tape_of(stream, end + 1)
        if tape is None:
            stream.want(end + 1, Expected(kind="tape"))
        else:
            return Parts(number, tape[0], False, stream.span(at, tape[1])), tape[1]
    return Parts(number, None, False, stream.span(at, end)), end


def _times(stream: Stream, start: int, factor: Fraction, at: int) -> Found:
    if stream.word(at) == "of":
        at += 1
    if stream.word(at) == "(" or (
        count_word(stream, at) is not None and stream.word(at + 1) in references.UNIT_WORDS
    ):
        inner = term(stream, at)
    elif stream.word(at) == "along":
        inner = _along(stream, at)
    else:
        inner = thing(stream, at)
    if inner is None:
        return None
    return Times(factor, inner[0], stream.span(start, inner[1])), inner[1]


def _along(stream: Stream, at: int) -> Found:
    line = references.path(stream, at + 1)
    if line is None:
        stream.want(at + 1, Expected(kind="path"))
        return None
    if stream.word(line[1]) != "from":
        stream.may(line[1], "from")
        return None
    start = references.letter(stream, line[1] + 1)
    if start is None:
        stream.want(line[1] + 1, Expected(kind="point"))
        return None
    if stream.word(line[1] + 2) != "to":
        stream.may(line[1] + 2, "to")
        return None
    end = references.letter(stream, line[1] + 3)
    if end is None:
        stream.want(line[1] + 3, Expected(kind="point"))
        return None
    after = line[1] + 4
    return Along(line[0], start, end, stream.span(at, after)), after


def thing(stream: Stream, at: int) -> Found:
    """What a fraction can be taken of: a ruler, a corner, a curve, a name."""
    token = stream.token(at)
    if token is None:
        stream.want(at, Expected(kind="amount"))
        return None
    if token.sort is Sort.WORD and token.text == "rest":
        return Rest(token.span), at + 1
    if token.sort is Sort.WORD and token.text == "corner":
        corner = references.ruler(stream, at + 1)
        if not isinstance(corner, CornerRef):
            stream.want(at + 1, Expected(kind="corner"))
            return None
        return corner, at + 2
    if token.sort is Sort.RULER:
        found = references.ruler(stream, at)
        return None if found is None else (found, at + 1)
    line = references.path(stream, at)
    if line is None:
        stream.want(at, Expected(kind="amount"))
        return None
    if stream.word(line[1]) == "for":
        return _looked_up(stream, at, line[1]) or line
    return line


def _looked_up(stream: Stream, start: int, at: int) -> Found:
    """`... for the chest in the boys' sizes`: the words after the column's name."""
    by = term(stream, at + 1)
    if by is None or stream.word(by[1]) != "in":
        return None
    table = _tape_of(stream, by[1] + 1)
    if table is None:
        return None
    column = " ".join(t.text for t in stream.tokens[start:at])
    return LookedUp(column, by[0], table[0], stream.span(start, table[1])), table[1]


def total(stream: Stream, at: int, *, readings: bool = True) -> Found:
    """Terms joined by `plus` and `less`; with `readings`, `and ... parts` goes on with the last tape."""
    first = term(stream, at)
    if first is None:
        return None
    signs, terms, end = [1], [first[0]], first[1]
    while True:
        word = stream.word(end)
        tape = last_tape(terms[-1])
        if word == "and" and readings and tape is not None:
            parts = _parts(stream, end + 1)
            if parts is None or stream.word(parts[1]) == "of":
                break
            terms.append(Parts(parts[0], tape, True, stream.span(end + 1, parts[1])))
            signs.append(1)
            end = parts[1]
            continue
        if word in {"plus", "+"}:
            sign = 1
        elif word in {"less", "-", "minus"}:
            sign = -1
        else:
            stream.may(end, "plus", "less", *(("and",) if tape is not None and readings else ()))
            break
        more = term(stream, end + 1)
        if more is None:
            return None
        node = more[0]
        if isinstance(node, Parts) and node.tape is None and tape is not None:
            node = Parts(node.number, tape, True, node.span)
        signs.append(sign)
        terms.append(node)
        end = more[1]
    if len(terms) == 1:
        return terms[0], end
    return Total(tuple(signs), tuple(terms), stream.span(at, end)), end


def last_tape(node: Amount) -> NameRef | Unknown | None:
    """The tape a bare number of parts would go on with: that of the reading just before."""
    if isinstance(node, Times) and isinstance(node.thing, NameRef | Unknown):
        return node.thing
    if isinstance(node, Parts):
        return node.tape
    return None


def whole(stream: Stream, at: int) -> Found:
    """A total, or `... if taken, otherwise ...`."""
    if stream.word(at) == "as" and stream.word(at + 1) == "long" and stream.word(at + 2) == "as":
        at += 3
    first = total(stream, at)
    if first is None:
        return None
    stream.may(first[1], "if taken, otherwise")
    if not (stream.word(first[1]) == "if" and stream.word(first[1] + 1) == "taken"):
        if stream.word(first[1]) == "if":
            stream.may(first[1] + 1, "taken, otherwise")
        return first
    end = first[1] + 2
    stream.may(end, ", otherwise")
    if stream.word(end) == ",":
        end += 1
    if stream.word(end) != "otherwise":
        stream.want(end, Expected(words="otherwise"))
        return None
    second = total(stream, end + 1)
    if second is None:
        return None
    return IfTaken(first[0], second[0], stream.span(at, second[1])), second[1]


def limited(stream: Stream, at: int) -> Found:
    """A whole amount with its limits."""
    first = whole(stream, at)
    if first is None:
        return None
    node, end = first
    bounds: dict[str, Amount] = {}
    while True:
        look = end + 1 if stream.word(end) == "," else end
        if not (stream.word(look) == "but" and stream.word(look + 1) == "not"):
            stream.may(look, *(f"{', ' if look == end else ''}but not {w} than" for w in ("more", "less")))
            if stream.word(look) == "but":
                stream.may(look + 1, "not more than", "not less than")
            break
        which = stream.word(look + 2)
        if which not in {"more", "less"} or stream.word(look + 3) != "than" or which in bounds:
            for words in ("more than", "less than"):
                stream.want(look + 2, Expected(words=words))
            break
        bound = total(stream, look + 4)
        if bound is None:
            return None
        bounds[which], end = bound
    if bounds:
        node = Limited(node, bounds.get("more"), bounds.get("less"), stream.span(at, end))
    return node, end


def between(stream: Stream, at: int) -> tuple[tuple[Amount, Amount], int] | None:
    """`between a quarter and two fifths of X`, `between 0 and 4 in`: the words after `between`."""
    low: Amount | None = None
    start = one_fraction(stream, at)
    if start is not None and stream.word(start[1]) == "and":
        high = total(stream, start[1] + 1)
        if high is not None and isinstance(high[0], Times) and stream.word(high[1]) != "and":
            low = Times(start[0], high[0].thing, stream.span(at, start[1]))
            return (low, high[0]), high[1]
    # `and 1 1/2 parts` belongs to the reading before it where another `and` follows.
    first = total(stream, at)
    if first is None or stream.word(first[1]) != "and":
        first = total(stream, at, readings=False)
    if first is None:
        return None
    if stream.word(first[1]) != "and":
        stream.want(first[1], Expected(words="and"))
        return None
    high = total(stream, first[1] + 1)
    if high is None:
        return None
    return (like(first[0], high[0]), like(high[0], first[0])), high[1]


def like(node: Amount, other: Amount) -> Amount:
    """A bare number given the unit or tape of its fellow: `between 0 and 3 parts`."""
    if isinstance(node, Bare):
        if isinstance(other, Constant):
            return Constant(node.number, other.unit, node.span)
        if isinstance(other, Parts):
            return Parts(node.number, other.tape, other.goes_on, node.span)
    return node

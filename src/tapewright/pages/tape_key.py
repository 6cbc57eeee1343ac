"""How a tape is read, told beside the tapes: the parts explained, an example to look at, the key of a notation.

The words are a notation's own where it has any; what its readings look like is worked out by writing some.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from tapewright.drawing import INK, SOFT, Fill, Line, Mark, Stroke, set_text, straight, through, words_at
from tapewright.pages.block import NOTHING, Block, lines_of, stacked
from tapewright.pages.counting import listed
from tapewright.pages.dress import heading
from tapewright.pages.tape import PrintedTape, pieces_of
from tapewright.pages.tape_face import draw_piece
from tapewright.pages.wording import as_printed
from tapewright.tapes import Notation, NotationMark, Rank, Reading, Way, count, length, write
from tapewright.units import show_fraction

SIZE = 3.8
_COLUMN = 74.0
_LONGEST_EXAMPLE = 260.0

_FRACTIONS = {
    Rank.HALF: "a half",
    Rank.THIRD: "a third",
    Rank.QUARTER: "a quarter",
    Rank.SIXTH: "a sixth",
    Rank.EIGHTH: "an eighth",
    Rank.TWELFTH: "a twelfth",
}
# What stands under the example: past a stroke, and short of one.
_READINGS = (Reading(Fraction(1, 6), Fraction(3, 2)), Reading(Fraction(3, 4), Fraction(-1)))
# What the key of a notation of marks writes out.
_WRITTEN = tuple(Fraction(n, d) for n, d in ((3, 8), (5, 12), (7, 12), (2, 3), (11, 12), (3, 16), (7, 48)))


def parts_told(parts: int) -> str:
    """What the parts are for: `A half is 24 of them, a third 16, ...`.

    Fractions that fall on no half part are left out.
    """
    found = [(words, Fraction(parts, int(rank))) for rank, words in _FRACTIONS.items()]
    exact = [(words, many) for words, many in found if (2 * many).denominator == 1]
    if not exact:
        return ""
    shown = [
        f"{words} {'is ' if i == 0 else ''}{show_fraction(many)}" for i, (words, many) in enumerate(exact)
    ]
    shown[0] += f" of the {parts}"
    said = listed(shown)
    said = f"{said[:1].upper()}{said[1:]}"
    return f"{said}; so every one of them falls on a part." if parts % 24 == 0 else f"{said}."


def _counted(tapes: Sequence[PrintedTape]) -> list[str]:
    """The parts of these tapes, the commonest number first."""
    every = Counter(tape.parts for tape in tapes)
    (most, _), *others = every.most_common()
    told = [f"The whole is divided into {most} small parts. {parts_told(most)}"]
    for parts, _ in others:
        names = listed([f"the {tape.name}" for tape in tapes if tape.parts == parts])
        told.append(f"{names[:1].upper()}{names[1:]}: {parts} parts. {parts_told(parts)}")
    return told


def explanation(tapes: Sequence[PrintedTape], width: float) -> Block:
    """How to read these tapes, no wider than `width`, with an example drawn."""
    notation = tapes[0].notation
    common = Counter(tape.parts for tape in tapes).most_common(1)[0][0]
    told = [
        (
            "Each tape is one of the wearer's measures, or a share of one: that is its whole. Long or short, it is "
            "divided alike."
        ),
    ]
    if notation.way is Way.PLAIN:
        told += [
            (
                "Along the upper edge stand the simple fractions of the whole, the taller the simpler; along the lower "
                "edge the parts are counted, light and dark by turns."
            ),
            *_counted(tapes),
            (
                "For 1/6 and 1 1/2 parts go to the stroke of 1/6, and a part and a half beyond it. For 3/4 less 1 part "
                "go to 3/4, and come back one part. There is nothing to reckon: 1/6 on this tape is 1/6 of this wearer."
            ),
        ]
    else:
        told += [] if notation.way is Way.FRACTIONS else _counted(tapes)
        told.append(f"These tapes are marked in another way: {notation.title}. Its key is printed with them.")
    return stacked(
        [
            lines_of("How to read a tape", "book", 5.6, width),
            *(lines_of(one, "hand", SIZE, width) for one in told),
            example(notation, common, width),
        ],
        2.6,
    )


def example(notation: Notation, parts: int, width: float) -> Block:
    """A tape to look at, and what two of its places are called. It is nobody's, and says so."""
    whole = min(width - 0.4, _LONGEST_EXAMPLE)
    (piece,) = pieces_of(PrintedTape("an example", whole, parts, "nobody's measure", notation), whole)
    drawn = draw_piece(piece, "")
    pointed = _stretch(notation, whole) if notation.way is Way.FRACTIONS else _places(notation, parts, whole)
    marks = (*drawn.at(0.2, 0.0), *pointed.at(0.2, drawn.height + 0.8))
    return Block(width, drawn.height + 0.8 + pointed.height, marks, space=4.0)


def _places(notation: Notation, parts: int, whole: float) -> Block:
    """Two places pointed at from below, with their readings."""
    marks: list[Mark] = []
    for reading, side in zip(_READINGS, ("left", "right"), strict=True):
        share = length(reading, 1, parts)
        if not 0 < share < 1:
            continue  # a part is so large that there is no such place
        said = write(share, notation, parts)
        x = float(said.share) * whole
        marks.append(Fill(through([(x, 0.0), (x - 1.1, 2.4), (x + 1.1, 2.4)], closed=True), INK))
        marks.append(Stroke(straight(x, 2.0, x, 4.4), Line(0.3, INK)))
        words = set_text(as_printed(said.text), "hand", SIZE)
        marks.append(words_at(words, x + (-1.1 if side == "left" else 1.1), 7.8, side=side))
    return Block(whole, 9.2, tuple(marks))


def _stretch(notation: Notation, whole: float) -> Block:
    """A share that no stroke marks from the beginning, as the stretch between two strokes."""
    own = {mark.share for mark in notation.marks}
    pairs = [
        (a.share, b.share)
        for a in notation.marks
        for b in notation.marks
        if a.edge is b.edge and a.share < b.share < 1 and b.share - a.share not in own
    ]
    if not pairs:
        return NOTHING
    start, end = min(pairs, key=lambda pair: ((pair[1] - pair[0]).denominator, pair[0] - pair[1]))
    left, right = float(start) * whole, float(end) * whole
    marks: list[Mark] = [
        Stroke(through([(left, 0.4), (left, 2.4), (right, 2.4), (right, 0.4)]), Line(0.3, INK))
    ]
    words = set_text(f"{end - start}, from {start} to {end}", "hand", SIZE)
    marks.append(words_at(words, (left + right) / 2, 7.0, side="middle"))
    return Block(whole, 8.6, tuple(marks))


def key_block(notation: Notation, parts: int, width: float) -> Block:
    """The key of a notation: what it says of itself, an example, its marks, some readings, its source."""
    prose = [lines_of(_bare(one), "hand", SIZE, min(width, 200.0)) for one in notation.prose]
    source = lines_of(f"Source: {_bare(notation.source)}", "book-italic", 3.4, min(width, 200.0), ink=SOFT)
    return stacked(
        [
            heading(f"The key: {notation.title}", "", width, 6.6),
            *prose,
            example(notation, parts, width),
            _marks(notation, width),
            _written(notation, parts, width),
            replace(source, space=5.0),
        ],
        2.8,
    )


def _bare(words: str) -> str:
    """Words without the marks of emphasis that their text has."""
    return words.replace("*", "")


def _marks(notation: Notation, width: float) -> Block:
    """Every mark with its share and what it is called, in columns."""
    if not notation.way.by_marks and notation.way is not Way.FRACTIONS:
        return NOTHING
    return _columns("Its marks", [_row(mark, notation) for mark in notation.marks], width)


def _row(mark: NotationMark, notation: Notation) -> Block:
    sign = set_text(mark.sign, "book-italic" if notation.way.by_marks else "book", 5.0)
    said = mark.said or "a mark"
    if notation.way is not Way.FRACTIONS:
        said = f"{said}, {mark.share}" if mark.share < 1 else said
    words = lines_of(said, "hand", SIZE, _COLUMN - 16.0)
    return Block(
        _COLUMN, max(5.4, words.height), (words_at(sign, 0.0, 4.0), *words.at(14.0, 4.0 - SIZE * 0.66))
    )


def _written(notation: Notation, parts: int, width: float) -> Block:
    """Some readings written out, so that the rule is seen at work."""
    rows: list[Block] = []
    if notation.way in {Way.ADDED, Way.BOTH}:
        own = {mark.share for mark in notation.marks}
        for share in _WRITTEN:
            said = write(share, notation, parts)
            if said.exact and share not in own:
                rows.append(_pair(said.text, f"{share} of the whole", "book-italic"))
    elif notation.counting is not None and notation.counting.parts == parts:
        shares = (Fraction(1, 2), Fraction(1, 3), Fraction(1, 8))
        rows += [_pair(count(share, notation).text, f"{share} of the whole", "hand") for share in shares]
    elif notation.way is Way.PARTS:
        for share in (Fraction(1, 6), Fraction(1, 4), Fraction(2, 3)):
            units = write(share, notation, parts)
            if units.exact:
                rows.append(_pair(units.text, f"units: {share} of the whole", "hand"))
    by_rule = notation.way in {Way.ADDED, Way.BOTH}
    return _columns("Others, by the rule" if by_rule else "Readings written so", rows, width)


def _pair(sign: str, said: str, face: str) -> Block:
    left = set_text(sign, "book-italic" if face == "book-italic" else "hand", 4.6)
    right = set_text(said, "hand", SIZE)
    start = max(14.0, left.width + 4.0)
    return Block(_COLUMN, 5.4, (words_at(left, 0.0, 4.0), words_at(right, start, 4.0)))


def _columns(title: str, rows: Sequence[Block], width: float) -> Block:
    """Rows in as many columns as there is room for, read downward, under a small heading."""
    if not rows:
        return NOTHING
    many = max(1, min(int(width // _COLUMN), -(-len(rows) // 3)))
    each = -(-len(rows) // many)
    blocks = [stacked(rows[i * each : (i + 1) * each], 1.4) for i in range(many)]
    marks: list[Mark] = []
    for i, block in enumerate(blocks):
        marks.extend(block.at(i * _COLUMN, 0.0))
    table = Block(many * _COLUMN, max(block.height for block in blocks), tuple(marks))
    return replace(stacked([lines_of(title, "book", 4.6, width), table], 2.6), space=5.0)

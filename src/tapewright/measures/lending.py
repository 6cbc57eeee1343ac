"""The fullest girth under the word a lesson has for it: a woman's bust in a man's coat, a man's chest in a gown.

It is one girth, taken in one place; only the word goes by the figure. A sheet that says to be estimated from
the other people, or from both, says with that how it is to be read: then a lesson that asks by the other word
is given it, and whoever draws is told. Any other sheet is asked about, as ever.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from tapewright.diagnostics import Query, note
from tapewright.measures.catalogue import catalogue, key_of
from tapewright.measures.sheet import Figure, Sheet, show

_OTHER = {"bust": "chest", "chest": "bust"}
_PEOPLE = {"bust": ("women", Figure.WOMAN), "chest": ("men", Figure.MAN)}


def lent(sheet: Sheet, wanted: Iterable[str]) -> tuple[Sheet, Query | None]:
    """The sheet as a lesson wants it, with its fullest girth under that word, and the note that says so.

    The sheet itself, and None, where it does not say `estimate from` the people whose word it is, or both;
    where it has the word already; where both words are wanted, or neither.
    """
    asked = {key_of(name) for name in wanted} & set(_OTHER)
    if len(asked) != 1:
        return sheet, None
    (word,) = asked
    people, figure = _PEOPLE[word]
    if sheet.estimate_from not in {people, "both"} or sheet.figure in {figure, Figure.CHILD}:
        return sheet, None
    other = _OTHER[word]
    entry = sheet.entries.get(other)
    value = None if entry is None else entry.value()
    if word in sheet.entries or word in sheet.waiting or entry is None or value is None:
        return sheet, None
    added = replace(entry, name=word, measure=catalogue()[word])
    told = note(
        "bust-for-chest",
        f"The lesson asks for the {word}; the {other} of {sheet.wearer}, {show(value)}, is the same girth and is "
        "used.",
        entry.span,
        help="A lesson cut for another figure may want its darts and its shaping looked at on the toile.",
    )
    return replace(sheet, figure=figure, entries={**sheet.entries, word: added}), told

"""A lesson with its amendments: the sentences in the order in which they are drawn.

`Instead of K` takes the place of the sentence that makes K, and must make all that it made; `After the
back seam` follows the sentence that made it; `Let` chooses a value by eye. An amendment that cannot be
carried out is a question, and the lesson's own sentence stands meanwhile.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tapewright.diagnostics import Query, Span, question
from tapewright.language.amendments import Amendment, makes
from tapewright.language.lesson import IfSentence, Lesson, Sentence
from tapewright.language.tree import Amount


@dataclass(frozen=True, slots=True)
class Said:
    """One sentence to be drawn, the number of its item and the text it stands in."""

    said: Sentence | IfSentence
    number: int
    source: str


@dataclass(frozen=True, slots=True)
class Change:
    """A value chosen for something by eye."""

    amount: Amount
    source: str
    span: Span


@dataclass(frozen=True, slots=True)
class Amended:
    """The sentences in order, the values chosen, and what there is to ask."""

    lines: tuple[Said, ...]
    by_eye: Mapping[str, Change]
    queries: tuple[Query, ...]


def amend(lesson: Lesson, amendments: tuple[Amendment, ...]) -> Amended:
    """Carry amendments out in their order."""
    lines = [Said(said, item.number, lesson.source.name) for item in lesson.items for said in item.all()]
    chosen: dict[str, Change] = {}
    queries: list[Query] = []
    for one in amendments:
        if one.form == "let" and one.amount is not None:
            chosen[one.target] = Change(one.amount, one.source, one.span)
            continue
        if one.said is None:
            continue
        at = next((i for i, line in enumerate(lines) if one.target in makes(line.said)), None)
        query = _hinders(lesson, one, None if at is None else lines[at])
        if query is not None or at is None:
            queries += [query] if query is not None else []
            continue
        new = Said(one.said, lines[at].number, one.source)
        if one.form == "instead":
            lines[at] = new
        else:
            lines.insert(at + 1, new)
    return Amended(tuple(lines), chosen, tuple(queries))


def _hinders(lesson: Lesson, one: Amendment, line: Said | None) -> Query | None:
    """What keeps an amendment from being carried out."""
    shown = one.target if one.target[:1].isupper() else f"the {one.target}"
    if line is None:
        return question("amendment-target", f"Nothing makes {shown} any more.", one.span).at(one.source)
    if one.kept and line.source == lesson.source.name:
        now = " ".join(lesson.source[line.said.span].split())
        if now.rstrip(".") != one.kept.rstrip("."):
            return question(
                "amendment-changed",
                f"The sentence that makes {shown} has changed since this was written. "
                f"It was “{one.kept}”, it is now “{now}”.",
                one.span,
                help="Keep the amendment with the new sentence quoted beneath, or leave it out.",
            ).at(one.source)
    if one.form == "instead" and one.said is not None:
        lost = sorted(makes(line.said) - makes(one.said))
        if lost:
            names = ", ".join(x if x[:1].isupper() else f"the {x}" for x in lost)
            return question(
                "amendment-incomplete",
                f"The sentence in the lesson makes {names} as well, and this one does not.",
                one.span,
                help="An amendment takes the place of a whole sentence and makes all that it made.",
            ).at(one.source)
    return None

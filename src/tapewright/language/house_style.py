"""A lesson in house style: sentences printed as the manual prints them, numbered straight through.

Prose, lists, headings and whatever cannot be read are left byte for byte. An item that holds *emphasis* among
its words is left too, since what belongs to the student would be lost.
"""

from __future__ import annotations

import re

from tapewright.diagnostics import Source
from tapewright.language.claims import show_condition
from tapewright.language.clause import Clause, Unread, show_clause
from tapewright.language.lesson import IfSentence, Item, Lesson, Sentence
from tapewright.language.pattern import Style
from tapewright.language.read import read_lesson
from tapewright.language.sentences import From

_EMPHASIS = re.compile(r"\*\*[^*]*\*\*|\*[^*]+\*|(?<!\w)_[^_]+_(?!\w)")
_MARKER = re.compile(r"([ \t]*)(\d{1,9})([.)])([ \t]*)$")


def say_sentence(said: Sentence | IfSentence, style: Style) -> str | None:
    """A sentence in house style, full stop included; None when some clause of it could not be read."""
    if isinstance(said, Sentence):
        words = _clauses(said.clauses, style)
        return None if words is None else f"{words[:1].upper()}{words[1:]}."
    then = _clauses(said.then, style)
    otherwise = _clauses(said.otherwise, style)
    if then is None or otherwise is None or not then:
        return None
    words = f"If {show_condition(said.condition, style)}, {_lowered(then)}"
    if otherwise:
        words += f"; otherwise {_lowered(otherwise)}"
    return words + "."


def _clauses(clauses: tuple[Clause | Unread, ...], style: Style) -> str | None:
    said: list[str] = []
    for clause in clauses:
        if isinstance(clause, Unread):
            return None
        words = show_clause(clause, style)
        if isinstance(clause, From) and not clause.starts:
            words = f"then {words}"
        said.append(_lowered(words) if said else words)
    return "; ".join(said)


def _lowered(words: str) -> str:
    """A leading word after a semicolon or a comma is not a capital; a letter stays one."""
    return words if re.match(r"[A-Z][0-9'-]*(?:\s|$)", words) else words[:1].lower() + words[1:]


def style_of(lesson: Lesson) -> Style:
    """What the printer has to know of a lesson: which of its names are tapes."""
    tapes = {t.name for t in lesson.tapes}
    for _, inner in lesson.placed:
        tapes |= style_of(inner).tapes
    return Style(frozenset(tapes))


def say_item(item: Item, source: Source, style: Style) -> str | None:
    """An item's sentences in house style, or None where it is left as it was written."""
    if not item.sentences or _EMPHASIS.search(source[item.span]):
        return None
    said = [say_sentence(one, style) for one in item.sentences]
    return None if any(s is None for s in said) else " ".join(s for s in said if s is not None)


def in_house_style(lesson: Lesson) -> str:
    """The text of a lesson with its items in house style and numbered through."""
    text = lesson.source.text
    style = style_of(lesson)
    pieces: list[str] = []
    at = 0
    for i, item in enumerate(lesson.items):
        line = text.rfind("\n", 0, item.span.start) + 1
        marker = _MARKER.match(text[line : item.span.start])
        words = say_item(item, lesson.source, style)
        pieces.append(text[at:line])
        grown = 0
        if marker is None:
            pieces.append(text[line : item.span.start])
        else:
            new = f"{marker[1]}{item.number}{marker[3]} "
            grown = len(new) - (item.span.start - line)
            pieces.append(new)
        pieces.append(text[item.span.start : item.span.end] if words is None else words)
        end = lesson.items[i + 1].span.start if i + 1 < len(lesson.items) else len(text)
        end = text.rfind("\n", 0, end) + 1 if i + 1 < len(lesson.items) else end
        rest = text[item.span.end : end]
        pieces.append(_moved(rest, grown) if grown else rest)
        at = end
    pieces.append(text[at:])
    return "".join(pieces)


def _moved(rest: str, by: int) -> str:
    """The item's further paragraphs, indented to stay within it; what is not indented is not the item's."""
    lines = rest.split("\n")
    moved = []
    inside = True
    for line in lines:
        if line.strip() and not line.startswith((" ", "\t")):
            inside = False
        if inside and line.startswith("  ") and line.strip():
            line = " " * by + line if by > 0 else line[min(-by, len(line) - len(line.lstrip())) :]  # noqa: PLW2901
        moved.append(line)
    return "\n".join(moved)


def formatted(source: Source, lesson: Lesson | None = None) -> str:
    """A text in house style; a text in house style already comes back as it is."""
    return in_house_style(lesson if lesson is not None else read_lesson(source))

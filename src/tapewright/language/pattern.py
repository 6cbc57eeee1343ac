"""Declarative sentence patterns: from one line of template come the reader, the printer and the completion.

How a template is written stands in `templates.py`. Reading never raises. The place where reading got
stuck, and what could have stood there, is kept in the `Stream`: the query, the completion and
the pointing tool are all made from it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Protocol

from tapewright.diagnostics import Span
from tapewright.language.tokens import Sort, Token

Values = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Expected:
    """What could stand at a place: some words, or a slot of a kind.

    `more` are words with which what stands there already could go on, but need not.
    """

    words: str = ""
    slot: str = ""
    kind: str = ""
    more: bool = False


@dataclass(slots=True)
class Stream:
    """Tokens being read, the farthest place that any attempt reached, and what was wanted there."""

    tokens: Sequence[Token]
    farthest: int = 0
    #: How many brackets are open where it is being read.
    depth: int = 0
    wanted: list[Expected] = field(default_factory=list)

    def want(self, at: int, what: Expected) -> None:
        """Note that `what` could have stood at token `at`."""
        if at > self.farthest:
            self.farthest = at
            self.wanted = [what]
        elif at == self.farthest and what not in self.wanted:
            self.wanted.append(what)

    def may(self, at: int, *words: str) -> None:
        """Note that a reading that is whole could go on with `words`, if the tokens end here."""
        if at == len(self.tokens):
            for one in words:
                self.want(at, Expected(words=one, more=True))

    def word(self, at: int) -> str:
        """The text of token `at`, or nothing beyond the end; names and points are never words."""
        if at < len(self.tokens):
            token = self.tokens[at]
            if token.sort is Sort.WORD or token.sort is Sort.MARK:
                return token.text
        return ""

    def token(self, at: int) -> Token | None:
        """Token `at`, or None beyond the end."""
        return self.tokens[at] if at < len(self.tokens) else None

    def span(self, start: int, end: int) -> Span:
        """The stretch of text from token `start` to the one before `end`."""
        if start >= len(self.tokens):
            last = self.tokens[-1].span if self.tokens else Span(0, 0)
            return Span(last.end, last.end)
        return self.tokens[start].span.to(self.tokens[max(start, end - 1)].span)


@dataclass(frozen=True, slots=True)
class Style:
    """What the printer has to know beyond the tree: which names are tapes."""

    tapes: frozenset[str] = frozenset()


class SlotKind(Protocol):
    """A kind of slot: how it is read, how printed, and what to call it when asking for it."""

    @property
    def label(self) -> str: ...

    def read(self, stream: Stream, at: int) -> tuple[Any, int] | None: ...

    def show(self, node: Any, style: Style) -> str: ...


class Element:
    """A piece of a pattern."""

    def match(self, stream: Stream, at: int, out: list[tuple[str, Any]]) -> int:
        """The place after this piece, or -1; slots filled are added to `out`."""
        raise NotImplementedError

    def show(self, values: Mapping[str, Any], style: Style) -> list[str] | None:
        """The words of this piece; None when its slots are not filled."""
        raise NotImplementedError

    def slots(self) -> list[str]:
        """The names of its slots, in order."""
        return []


_PLAIN = frozenset({Sort.WORD, Sort.MARK, Sort.NAME})


@dataclass(frozen=True, slots=True)
class Words(Element):
    """Plain words and marks. Articles among them are printed, not read."""

    shown: tuple[str, ...]
    read: tuple[str, ...]

    def match(self, stream: Stream, at: int, out: list[tuple[str, Any]]) -> int:
        tokens = stream.tokens
        n = len(tokens)
        for k, word in enumerate(self.read):
            here = at + k
            if here < n:
                token = tokens[here]
                # A word of the language stays one where a draft has made it a name too: the fold.
                if token.text == word and token.sort in _PLAIN:
                    continue
            stream.want(here, Expected(words=self.rest(k)))
            return -1
        return at + len(self.read)

    def rest(self, k: int) -> str:
        """The words from the k-th that is read, with the articles between them."""
        i = len(self.shown)
        for word in reversed(self.read[k:]):
            i -= 1
            while self.shown[i].lower() != word:
                i -= 1
        return joined(self.shown[i:])

    def show(self, values: Mapping[str, Any], style: Style) -> list[str]:
        return list(self.shown)


@dataclass(frozen=True, slots=True)
class Flag(Element):
    """A slot that is True when its words stand there."""

    name: str
    words: Words

    def match(self, stream: Stream, at: int, out: list[tuple[str, Any]]) -> int:
        end = self.words.match(stream, at, out)
        if end < 0:
            return at
        out.append((self.name, True))
        return end

    def show(self, values: Mapping[str, Any], style: Style) -> list[str]:
        return self.words.show(values, style) if values.get(self.name) else []

    def slots(self) -> list[str]:
        return [self.name]


@dataclass(frozen=True, slots=True)
class OneOf(Element):
    """A slot that holds whichever of several words stands there."""

    name: str
    options: tuple[Words, ...]

    def match(self, stream: Stream, at: int, out: list[tuple[str, Any]]) -> int:
        for option in self.options:
            end = option.match(stream, at, out)
            if end >= 0:
                out.append((self.name, " ".join(option.read)))
                return end
        return -1

    def show(self, values: Mapping[str, Any], style: Style) -> list[str] | None:
        held = values.get(self.name)
        for option in self.options:
            if " ".join(option.read) == held:
                return list(option.shown)
        return None

    def slots(self) -> list[str]:
        return [self.name]


@dataclass(frozen=True, slots=True)
class Slot(Element):
    """A slot of a kind."""

    name: str
    kind_name: str
    kind: SlotKind

    def match(self, stream: Stream, at: int, out: list[tuple[str, Any]]) -> int:
        found = self.kind.read(stream, at)
        if found is None:
            stream.want(at, Expected(slot=self.name, kind=self.kind_name))
            return -1
        out.append((self.name, found[0]))
        return found[1]

    def show(self, values: Mapping[str, Any], style: Style) -> list[str] | None:
        node = values.get(self.name)
        return None if node is None else [self.kind.show(node, style)]

    def slots(self) -> list[str]:
        return [self.name]


@dataclass(frozen=True, slots=True)
class Several(Element):
    """A list of slots of a kind: `A`, `A and B`, `A, B and C`; `commas` for one with no `and` in it."""

    name: str
    kind_name: str
    kind: SlotKind
    commas: bool = False

    def match(self, stream: Stream, at: int, out: list[tuple[str, Any]]) -> int:
        found = self.kind.read(stream, at)
        if found is None:
            stream.want(at, Expected(slot=self.name, kind=self.kind_name))
            return -1
        nodes = [found[0]]
        at = found[1]
        while True:
            step = at
            if stream.word(step) == ",":
                step += 1
            if not self.commas and stream.word(step) == "and":
                step += 1
            if step == at:
                stream.may(at, ",", *(() if self.commas else ("and",)))
                break
            more = self.kind.read(stream, step)
            if more is None:
                if step == len(stream.tokens):
                    stream.want(step, Expected(slot=self.name, kind=self.kind_name, more=True))
                break
            nodes.append(more[0])
            at = more[1]
        out.append((self.name, tuple(nodes)))
        return at

    def show(self, values: Mapping[str, Any], style: Style) -> list[str] | None:
        nodes = values.get(self.name)
        if not nodes:
            return None
        words = [self.kind.show(node, style) for node in nodes]
        return [", ".join(words) if self.commas else listed(words)]

    def slots(self) -> list[str]:
        return [self.name]


@dataclass(frozen=True, slots=True)
class Row(Element):
    """Pieces one after another."""

    pieces: tuple[Element, ...]

    def match(self, stream: Stream, at: int, out: list[tuple[str, Any]]) -> int:
        for piece in self.pieces:
            at = piece.match(stream, at, out)
            if at < 0:
                return -1
        return at

    def show(self, values: Mapping[str, Any], style: Style) -> list[str] | None:
        words: list[str] = []
        for piece in self.pieces:
            shown = piece.show(values, style)
            if shown is None:
                return None
            words += shown
        return words

    def slots(self) -> list[str]:
        return [name for piece in self.pieces for name in piece.slots()]


@dataclass(frozen=True, slots=True)
class Maybe(Element):
    """A piece that may be left out."""

    piece: Element

    def match(self, stream: Stream, at: int, out: list[tuple[str, Any]]) -> int:
        mark = len(out)
        end = self.piece.match(stream, at, out)
        if end < 0:
            del out[mark:]
            return at
        return end

    def show(self, values: Mapping[str, Any], style: Style) -> list[str]:
        names = self.piece.slots()
        if names and all(values.get(name) in (None, (), False) for name in names):
            return []
        return self.piece.show(values, style) or []

    def slots(self) -> list[str]:
        return self.piece.slots()


@dataclass(frozen=True, slots=True)
class Choice(Element):
    """The first of several pieces that can be read; printed as the first whose slots are all filled."""

    pieces: tuple[Element, ...]

    def match(self, stream: Stream, at: int, out: list[tuple[str, Any]]) -> int:
        for piece in self.pieces:
            mark = len(out)
            end = piece.match(stream, at, out)
            if end >= 0:
                return end
            del out[mark:]
        return -1

    def show(self, values: Mapping[str, Any], style: Style) -> list[str] | None:
        filled = {name for name in self.slots() if values.get(name) not in (None, (), False)}
        for piece in self.pieces:
            if filled <= set(piece.slots()):
                shown = piece.show(values, style)
                if shown is not None:
                    return shown
        return None

    def slots(self) -> list[str]:
        return [name for piece in self.pieces for name in piece.slots()]


def listed(words: Sequence[str]) -> str:
    """`A`, `A and B`, `A, B and C`."""
    if len(words) <= 1:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]


def joined(words: Sequence[str]) -> str:
    """Words set with spaces, and none before a comma or a colon."""
    text = ""
    for word in words:
        if not word:
            continue
        text += word if not text or word[0] in ",:;." else " " + word
    return text

"""The blocks of a lesson: headings, paragraphs, bullets, numbered items and tables, with their places.

CommonMark (with pipe tables) is read by markdown-it for its blocks only; what stands inside a block is
taken from the raw text, since inline tokens carry no columns. Only blocks at the top level count, and of
an item or a bullet only its first paragraph: everything else belongs to the student.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache

from markdown_it import MarkdownIt
from markdown_it.token import Token

from tapewright.diagnostics import Source, Span

_MARKER = re.compile(r"[ \t]*(?:(\d{1,9})[.)]|[-+*])[ \t]*")
_HASHES = re.compile(r"[ \t]*#{1,6}[ \t]*")


@dataclass(frozen=True, slots=True)
class Block:
    """One block: `kind` is heading, paragraph, item, bullet, quote or table.

    `span` covers the text without its marker. `level` is a heading's, `number` a numbered item's own.
    """

    kind: str
    span: Span
    level: int = 0
    number: int = 0


#: A line of words, after its indentation and the markers of lists, as far as its first letter.
_WORDS = re.compile(r"^((?:[ \t]*(?:\d{1,9}[.)]|[-+*]))?[ \t]*[A-Za-z])[^|\n]*$", re.MULTILINE)


@cache
def _reader() -> MarkdownIt:
    reader = MarkdownIt("commonmark").enable("table").disable(["code"])
    reader.core.ruler.enableOnly(["normalize", "block"])
    return reader


def tokens_of(text: str) -> list[Token]:
    """What markdown-it makes of a text, its blocks alone; the words are left out where they make no block."""
    return _tokens(_shape(text))


@lru_cache(maxsize=8)
def _tokens(shape: str) -> list[Token]:
    return _reader().parse(shape, {})


def _shape(text: str) -> str:
    """A text with the same blocks on the same lines: of a line of words only the first letter is kept.

    What blocks there are depends on how lines begin and on the bars of tables, not on the words; so the
    blocks of a lesson are worked out anew only when a line comes, goes or begins otherwise. Where raw HTML,
    a link or a lone carriage return might stand, words may matter, and the text is left as it is.
    """
    return text if any(sign in text for sign in "<[\r") else _WORDS.sub(r"\1", text)


class _Lines:
    """Offsets of lines as markdown-it counts them (from 0)."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.starts = [0]
        for found in re.finditer("\r\n?|\n", text):
            self.starts.append(found.end())

    def start(self, line: int) -> int:
        return self.starts[line] if line < len(self.starts) else len(self.text)

    def span(self, first: int, last: int) -> Span:
        """Lines `first` up to, not including, `last`, without white space round them."""
        start, end = self.start(first), self.start(last)
        while end > start and self.text[end - 1].isspace():
            end -= 1
        while start < end and self.text[start].isspace():
            start += 1
        return Span(start, end)


def blocks(source: Source) -> list[Block]:
    """The blocks of a text in order. Any text has blocks: nothing here can fail."""
    lines = _Lines(source.text)
    found: list[Block] = []
    lists: list[str] = []
    item: Token | None = None
    taken = False
    depth = 0
    for token in tokens_of(source.text):
        match token.type:
            case "blockquote_open":
                depth += 1
            case "blockquote_close":
                depth -= 1
            case "ordered_list_open" | "bullet_list_open":
                lists.append("item" if token.type.startswith("ordered") else "bullet")
            case "ordered_list_close" | "bullet_list_close":
                lists.pop()
            case "list_item_open":
                item, taken = token, False
            case "list_item_close":
                item = None
            case "heading_open" if depth == 0 and not lists and token.map:
                span = lines.span(*token.map)
                hashes = _HASHES.match(source.text, span.start)
                start = hashes.end() if hashes else span.start
                found.append(Block("heading", Span(start, max(start, span.end)), level=int(token.tag[1])))
            case "paragraph_open" if depth > 0 and token.map:
                found.append(Block("quote", lines.span(*token.map)))
            case "paragraph_open" if token.map:
                if not lists:
                    found.append(Block("paragraph", lines.span(*token.map)))
                elif len(lists) == 1 and item is not None and not taken:
                    taken = True
                    found.append(_item(source, lines, lists[-1], token.map))
            case "table_open" if depth == 0 and not lists and token.map:
                found.append(Block("table", lines.span(*token.map)))
    return found


def _item(source: Source, lines: _Lines, kind: str, where: list[int]) -> Block:
    span = lines.span(*where)
    marker = _MARKER.match(source.text, lines.start(where[0]))
    if marker is None:
        return Block(kind, span)
    start = min(max(span.start, marker.end()), span.end)
    return Block(kind, Span(start, span.end), number=int(marker[1] or 0))

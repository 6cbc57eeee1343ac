"""The word stage: a stretch of lesson text becomes tokens, each with its place.

Every character is accounted for: white space and *emphasis* are skipped on purpose, everything else
becomes a token, if only one of kind `OTHER`. Articles are noise and are left out. Declared names are
then made single tokens, longest match first, so that the grammar never sees inside `nape to waist`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from enum import Enum, auto
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple
from unicodedata import normalize

from tapewright.diagnostics import Span
from tapewright.units import read_number


class Sort(Enum):
    """What a token is, before grammar."""

    WORD = auto()
    NUMBER = auto()
    POINT = auto()
    RULER = auto()  # A-B, or the corner A-B-C
    NAME = auto()
    QUOTED = auto()
    MARK = auto()  # . ; , : ( ) + -
    OTHER = auto()


class Token(NamedTuple):
    """One token: its sort, its text in lower case where case means nothing, and its place.

    `number` is set for NUMBER, `points` for POINT and RULER (one, two or three letters).
    """

    sort: Sort
    text: str
    span: Span
    number: Fraction | None = None
    points: tuple[str, ...] = ()
    #: How a word stands in the text, with the article before it: `the pivot`, `boys'`. Names keep these.
    said: str = ""


ARTICLES = frozenset({"the", "a", "an"})

# What joins the letters of a line: hyphen, dashes, the hyphen that does not break, a minus sign.
_HYPHENS = "-–—‑−"
# Letters may come with their accents apart, as some machines write them.
_LETTERS = r"[^\W\d_]+(?:[\u0300-\u036f]+[^\W\d_]*)*"
# Two primes may also be typed as one sign, ″ or ".
_POINT = r"""[A-Z][0-9]{0,2}(?:["″]|['’′]{0,2})"""
_GLYPH = "[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]"
_TOKEN = re.compile(
    rf"""
    \s*(?:
    (?P<emphasis>\*\*[^*]*\*\*|\*[^*]+\*|(?<!\w)_[^_]+_(?!\w))
  | (?P<number>\d+\ ?{_GLYPH}|{_GLYPH}|\d+[ -]\d+/\d+|\d+/\d+|\d+[.,]\d+|\d+)
  | (?P<ruler>{_POINT}(?:[{_HYPHENS}]{_POINT}){{1,2}}(?![\w'’′]))
  | (?P<point>{_POINT}(?![\w'’′]))
  | (?P<word>{_LETTERS}(?:['’-]{_LETTERS})*(?:(?<=s)['’](?!\w))?)
  | (?P<quoted>"[^"]*"|“[^”]*”)
  | (?P<mark>[.;,:()+]|[-−–](?=\s))
  | (?P<other>\S)
    )
    """,
    re.VERBOSE,
)


#: Lessons say few numbers, and say them often.
_number = lru_cache(maxsize=1024)(read_number)


def _clean(letter: str) -> str:
    return letter.replace("’", "'").replace("′", "'").replace("″", "''").replace('"', "''")


def scan(text: str, start: int, end: int) -> list[Token]:
    """Tokens of `text[start:end]`, spans counted from the start of `text`; articles left out."""
    tokens: list[Token] = []
    article = ""
    for found in _TOKEN.finditer(text, start, end):
        kind = found.lastgroup
        if kind is None or kind == "emphasis":
            continue
        piece = found[kind]
        span = Span(found.start(kind), found.end())
        if kind == "word":
            word = normalize("NFC", piece).lower().replace("’", "'")
            plain = word.rstrip("'")
            if plain in ARTICLES:
                article = f"{plain} "
                continue
            tokens.append(Token(Sort.WORD, plain, span, None, (), article + word))
        elif kind == "number":
            value = _number(piece)
            tokens.append(Token(Sort.OTHER if value is None else Sort.NUMBER, piece, span, value))
        elif kind == "point":
            letter = _clean(piece)
            tokens.append(Token(Sort.POINT, letter, span, None, (letter,)))
        elif kind == "ruler":
            letters = tuple(_clean(p) for p in re.split(f"[{_HYPHENS}]", piece))
            tokens.append(Token(Sort.RULER, "-".join(letters), span, None, letters))
        elif kind == "quoted":
            tokens.append(Token(Sort.QUOTED, piece[1:-1], span))
        elif kind == "mark":
            tokens.append(Token(Sort.MARK, "-" if piece in "−–" else piece, span))
        else:
            tokens.append(Token(Sort.OTHER, piece, span))
        article = ""
    return tokens


def key_words(name: str) -> list[str]:
    """The words by which a name is known: without articles, and without the apostrophe of `boys'`."""
    return [word.rstrip("'") for word in name.split() if word not in ARTICLES]


def name_of(tokens: Sequence[Token]) -> str:
    """The name that words make, in lower case: articles inside it are kept, one before it is not."""
    words = [token.said or token.text for token in tokens]
    if words:
        first, _, rest = words[0].partition(" ")
        words[0] = rest if first in ARTICLES else words[0]
    return " ".join(words)


def split(tokens: Sequence[Token], at: str) -> Iterator[list[Token]]:
    """Runs of tokens between the marks `at`, the mark kept as the last of its run; no run is empty."""
    run: list[Token] = []
    for token in tokens:
        run.append(token)
        if token.sort is Sort.MARK and token.text == at:
            if len(run) > 1:
                yield run
            run = []
    if run:
        yield run


class Names:
    """The names declared so far, for the longest match. Adding a name never changes what was matched."""

    __slots__ = ("_by_first", "_known", "order", "tables")

    def __init__(self, names: Iterable[str] = ()) -> None:
        self._known: set[str] = set()
        #: The names in the order in which they were declared.
        self.order: list[str] = []
        #: The columns of each table, which are names before `for ... in` that table.
        self.tables: dict[str, tuple[str, ...]] = {}
        self._by_first: dict[str, list[tuple[list[str], str]]] = {}
        for name in names:
            self.add(name)

    def __contains__(self, name: str) -> bool:
        return name in self._known

    def __iter__(self) -> Iterator[str]:
        return iter(self._known)

    def copy(self) -> Names:
        """A separate set with the same names."""
        same = Names(self.order)
        same.tables = dict(self.tables)
        return same

    def add(self, name: str) -> None:
        """Declare a name, in lower case with single spaces."""
        if name in self._known or not name:
            return
        self._known.add(name)
        self.order.append(name)
        words = key_words(name)
        if not words:
            return
        same = self._by_first.setdefault(words[0], [])
        same.append((words, name))
        same.sort(key=lambda known: len(known[0]), reverse=True)

    def merge(self, tokens: Sequence[Token]) -> list[Token]:
        """The tokens with every declared name made one token, longest match first, left to right.

        A name with an apostrophe and an s before a letter is that letter of a draft: `the block's A`.
        """
        out: list[Token] = []
        texts = [token.text for token in tokens]
        owned = any(text.endswith("'s") for text in texts)
        columns = self._columns(texts) if self.tables else {}
        i, n = 0, len(tokens)
        while i < n:
            token = tokens[i]
            found = columns.get(i)
            if found is None and token.sort is Sort.WORD:
                found = self._match(texts, i)
                if found is None and owned:
                    found = self._owner(tokens, i)
            if found is None:
                out.append(token)
                i += 1
                continue
            name, k, whose = found
            last = tokens[i + k - 1]
            if not whose:
                first = token.said.partition(" ")[0]
                article = f"{first} " if first in ARTICLES else ""
                out.append(Token(Sort.NAME, name, token.span.to(last.span), None, (), article + name))
                i += k
                continue
            letter = tokens[i + k]
            points = tuple(f"{name}'s {p}" for p in letter.points)
            out.append(Token(letter.sort, "-".join(points), token.span.to(letter.span), None, points))
            i += k + 1
        return out

    def _match(self, texts: list[str], i: int) -> tuple[str, int, bool] | None:
        """The longest name that stands at token i, and how many tokens it takes."""
        for words, name in self._by_first.get(texts[i], ()):
            k = len(words)
            if k == 1 or texts[i : i + k] == words:
                return name, k, False
        return None

    def _columns(self, texts: list[str]) -> dict[int, tuple[str, int, bool]]:
        """The columns of tables that are looked up: the longest that ends before `for ... in` its table."""
        found: dict[int, tuple[str, int, bool]] = {}
        for i in range(len(texts) - 1):
            table = self._match(texts, i + 1) if texts[i] == "in" else None
            columns = self.tables.get(table[0], ()) if table is not None else ()
            at = max((j for j in range(i) if texts[j] == "for"), default=0)
            for column in sorted(columns, key=len, reverse=True):
                words = key_words(column)
                start = at - len(words)
                if start >= 0 and texts[start:at] == words:
                    found[start] = (column, len(words), False)
                    break
        return found

    def _owner(self, tokens: Sequence[Token], i: int) -> tuple[str, int, bool] | None:
        """The name at token i of a draft whose letter follows, and how many tokens it takes."""
        for j in range(i, min(i + 4, len(tokens) - 1)):
            text = tokens[j].text
            if tokens[j].sort is not Sort.WORD:
                break
            if text.endswith("'s") and tokens[j + 1].sort in {Sort.POINT, Sort.RULER}:
                name = " ".join([*(t.text for t in tokens[i:j]), text[:-2]])
                return (name, j - i + 1, True) if name in self._known else None
        return None

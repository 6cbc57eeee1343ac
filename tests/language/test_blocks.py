"""The blocks of a text: what is left out before markdown-it sees it changes no block.

Checked against markdown-it itself on the whole text, which is the outside reference.
"""

from __future__ import annotations

import random
from collections import Counter

from markdown_it import MarkdownIt
from markdown_it.token import Token

from tapewright.language import markdown

_WHOLE = MarkdownIt("commonmark").enable("table").disable(["code"])

_BEGINNINGS = (
    "", "", " ", "  ", "    ", "\t", "> ", "- ", "* ", "+ ", "1. ", "2) ", "10. ", "1.", "-", "  - ", "   1. ",
    "    1. ", "# ", "## ", "#", "```", "~~~", "| ", "|", "---", "===", "--- | ---", "|---|", "- - -", "1986. ",
)  # fmt: skip
_WORDS = (
    "From A to B", "text | more", "a", "", " ", "word: other", "-", "=", "|", "**bold**", "b|c", "`code`",
    "    deep", "trailing  ", "back\\", "> q", "1. inner", "- inner", "x # y", "---", "===", "é", "\ttab",
    "a\x0bb", '"quote"', "12 cm", "~~~", "html &amp;", "[a]: b", "<b>", "-->", "word\r- item", "title\" ends",
)  # fmt: skip

#: Lines that make something only together: a table, a comment, a link's address over two lines, a fence.
_TOGETHER = (
    "text | more", "--- | ---", "one | two", "plain words", "<!-- begun", "words --> words", "<b", "more words",
    "[a]: b", "[a", "b]: c", '"title', 'title" ends', "```", "- item", "item's own words", "1. words", "===",
)  # fmt: skip


def _text(rng: random.Random) -> str:
    """A few lines, half of them made of a beginning and words, half of the lines that make things together."""
    made = (rng.choice(_BEGINNINGS) + rng.choice(_WORDS) for _ in range(rng.randint(1, 8)))
    return "\n".join(rng.choice(_TOGETHER) if rng.random() < 0.5 else line for line in made)


def _blocks(tokens: list[Token]) -> list[tuple[str, str, list[int] | None, int]]:
    return [(t.type, t.tag, t.map, t.level) for t in tokens if t.type != "inline"]


def test_blocks_do_not_depend_on_words() -> None:
    """Every block has the sort, the level and the lines that markdown-it gives it on the text as it stands."""
    rng = random.Random(1813)
    sorts: Counter[str] = Counter()
    for _ in range(6000):
        text = _text(rng)
        expected = _blocks(_WHOLE.parse(text))
        assert _blocks(markdown.tokens_of(text)) == expected, text
        sorts.update(sort for sort, *_ in expected)
    # The texts have everything in them that a text may have.
    wanted = (
        "table_open",
        "html_block",
        "fence",
        "heading_open",
        "ordered_list_open",
        "blockquote_open",
        "hr",
    )
    assert all(sorts[sort] > 20 for sort in wanted), sorts

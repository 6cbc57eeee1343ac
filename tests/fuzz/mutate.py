"""Lessons made worse: words, letters, numbers, marks and whole sentences left out, doubled, exchanged.

The corpus is every lesson in the project: those that are shipped, the drafts of the handbooks, and the
lessons that provoke the queries. A mutation is chosen by a seed, so that a find can be made again.
"""

from __future__ import annotations

import random
import re
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
PLACES = ("src/tapewright/library", "tests/handbooks", "tests/queries", "tests/fuzz/corpus")

_TOKEN = re.compile(r"\s+|\w+(?:['’-]\w+)*|[^\w\s]")
_LETTER = re.compile(r"[A-Z]\d?'?")
_NUMBER = re.compile(r"\d+")

NUMBERS = ("0", "1/0", "0.0000001", "99999999999999999999", "-3", "1/3", "½", "12", "360", "1 1/2")
ODD = (
    "\t", "\u00a0", "\r\n", "\ufeff", "–", "“", "”", "’", "′", "\x0c", "*", "_", "`", "|", "#", ">", "(", ")",
    ";", ":", ".", "\\", "<b>", "&amp;", "é", "\u202e", "👗", "\u0301",
)  # fmt: skip


@cache
def corpus() -> tuple[str, ...]:
    """The texts that are mutated."""
    paths = [path for place in PLACES for path in sorted((ROOT / place).rglob("*.md"))]
    return tuple(path.read_text(encoding="utf-8", errors="replace") for path in paths)


@cache
def pieces() -> tuple[str, ...]:
    """All words and marks of the corpus, each once, and all its sentences."""
    words = {piece for text in corpus() for piece in _TOKEN.findall(text) if not piece.isspace()}
    sentences = {s for text in corpus() for s in re.findall(r"[A-Z][^.\n]{8,200}\.", text)}
    return (*sorted(words), *sorted(sentences))


def mutated(seed: int) -> str:
    """A lesson with one to eight mutations; the same for the same seed and corpus."""
    chance = random.Random(seed)
    text = chance.choice(corpus())
    tokens = _TOKEN.findall(text)
    for _ in range(chance.randint(1, 8)):
        tokens = _once(tokens, chance)
    return "".join(tokens)


def _once(tokens: list[str], chance: random.Random) -> list[str]:
    if len(tokens) < 4:
        return [*tokens, chance.choice(pieces())]
    at = chance.randrange(len(tokens))
    length = min(chance.choice((1, 1, 1, 2, 5, 30, 200)), len(tokens) - at)
    match chance.randrange(10):
        case 0:
            return tokens[:at] + tokens[at + length :]
        case 1:
            return tokens[: at + length] + tokens[at:]
        case 2:
            to = chance.randrange(len(tokens))
            return tokens[:to] + tokens[at : at + length] + tokens[to:]
        case 3:
            return [*tokens[:at], chance.choice(pieces()), *tokens[at + 1 :]]
        case 4:
            return [*tokens[:at], chance.choice(pieces()), " ", *tokens[at:]]
        case 5:
            return [*tokens[:at], chance.choice(ODD), *tokens[at:]]
        case 6:
            numbers = [i for i, t in enumerate(tokens) if _NUMBER.fullmatch(t)]
            return _exchanged(tokens, numbers, chance.choice(NUMBERS), chance)
        case 7:
            letters = [i for i, t in enumerate(tokens) if _LETTER.fullmatch(t)]
            letter = tokens[chance.choice(letters)] if letters else "A"
            return _exchanged(tokens, letters, letter, chance)
        case 8:
            word = tokens[at]
            cut = chance.randint(0, len(word))
            return [*tokens[:at], word[:cut] + word[cut + 1 :], *tokens[at + 1 :]]
        case _:
            other = chance.randrange(len(tokens))
            low, high = min(at, other), max(at, other)
            swapped = list(tokens)
            swapped[low], swapped[high] = swapped[high], swapped[low]
            return swapped


def _exchanged(tokens: list[str], places: list[int], word: str, chance: random.Random) -> list[str]:
    if not places:
        return tokens
    at = chance.choice(places)
    return [*tokens[:at], word, *tokens[at + 1 :]]

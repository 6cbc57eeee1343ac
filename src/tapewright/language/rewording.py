"""Words also understood: a clause said in other words of the trade, turned into the words of the language.

It works on tokens, before any pattern is tried, so that each kind of sentence has one template and the
formatter rewrites the rest. Every token keeps the place of the word it stands for, so queries point there.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from tapewright.language.tokens import Sort, Token

#: How a clause may also begin, longest first where one holds another, and the words of the language for it.
#: Articles are no words here. The list is of trade and plain English words, common practice, no source.
PHRASES: dict[tuple[str, ...], tuple[str, ...]] = {
    ("start",): ("begin",),
    ("measure", "from"): ("from",),
    ("measure",): ("from",),
    ("come", "in", "from"): ("from",),
    ("go", "out", "from"): ("from",),
    ("complete", "rectangle"): ("square",),
    ("erect",): ("square",),
    ("square", "line"): ("square",),
    ("continue",): ("carry",),
    ("extend",): ("carry",),
    ("produce",): ("carry",),
    ("rule",): ("join",),
    ("connect",): ("join",),
    ("draw", "line", "from"): ("join",),
    ("draw", "straight", "line", "from"): ("join",),
    ("distribute",): ("divide",),
    ("share",): ("divide",),
    ("strike", "arc"): ("sweep",),
    ("swing", "about"): ("sweep", "about"),
    ("swing",): ("pivot",),
    ("turn", "over"): ("turn", "over"),
    ("turn",): ("pivot",),
    ("trace",): ("draw",),
    ("shape",): ("draw",),
    ("curve", "in"): ("hollow",),
    ("curve", "out"): ("round",),
    ("round", "off"): ("round",),
    ("remove",): ("take", "out"),
    ("pinch", "out"): ("take", "out"),
    ("take", "out", "dart", "of"): ("take", "out"),
    ("spring",): ("let", "out"),
    ("call",): ("let",),
    ("make", "up"): ("make",),
    ("settle",): ("make",),
    ("same", "for"): ("repeat", "for"),
    ("mirror",): ("turn", "over"),
    ("reflect",): ("turn", "over"),
    ("place",): ("lay",),
    ("slash",): ("open",),
    ("spread",): ("open",),
    ("stitch",): ("sew",),
    ("notch",): ("mark",),
    ("nick",): ("mark",),
    ("check", "that"): ("see", "that"),
    ("prove", "that"): ("see", "that"),
    ("test", "that"): ("see", "that"),
    ("test",): ("see", "that"),
}

#: More numbers than these in one row are no row of gores or of tabs.
_MOST_NUMBERS = 100
_LONGEST = max(len(phrase) for phrase in PHRASES)


def reworded(tokens: Sequence[Token]) -> list[Token]:
    """The tokens of a clause in the words of the language; the same tokens where nothing is to be changed."""
    body = list(tokens)
    lead = _text(body, 0)
    if lead == "call" and _text(body, 1) == "it":
        return body
    if lead in _TURNS:
        return _TURNS[lead](body)
    for count in range(min(_LONGEST, len(body)), 0, -1):
        found = PHRASES.get(tuple(_text(body, k) for k in range(count)))
        if found is not None:
            new = [_word(word, body[min(k, count - 1)]) for k, word in enumerate(found)]
            return _notched(_rounded(new + body[count:]))
    return _ranged(body) if lead == "repeat" else _notched(body)


def _text(tokens: Sequence[Token], at: int) -> str:
    if at < len(tokens) and tokens[at].sort in {Sort.WORD, Sort.NAME}:
        return tokens[at].text
    return ""


def _word(word: str, instead: Token) -> Token:
    return Token(Sort.MARK if word in ",:" else Sort.WORD, word, instead.span)


def _find(tokens: Sequence[Token], word: str) -> int:
    """Where a word stands last, or -1."""
    return max((k for k, token in enumerate(tokens) if token.text == word), default=-1)


def _rounded(body: list[Token]) -> list[Token]:
    """`Swing the front round P` turns about P; `the same for gores 2 and 3` names its numbers alone."""
    lead = _text(body, 0)
    if lead == "pivot":
        return [_word("about", t) if t.sort is Sort.WORD and t.text == "round" else t for t in body]
    if lead == "repeat" and _text(body, 1) == "for" and len(body) > 2 and body[2].sort is not Sort.NUMBER:
        return _ranged(body[:2] + body[3:])
    return _ranged(body) if lead == "repeat" else body


def _ranged(body: list[Token]) -> list[Token]:
    """`for 2 to 5`: 2, 3, 4 and 5."""
    if len(body) < 3 or body[-2].text != "to":
        return body
    low, high = body[-3].number, body[-1].number
    if low is None or high is None or not 0 < high - low < _MOST_NUMBERS:
        return body
    numbers: list[Token] = []
    for n in range(int(low) + 1, int(high) + 1):
        numbers += [_word(",", body[-2]), Token(Sort.NUMBER, str(n), body[-1].span, Fraction(n))]
    return [*body[:-2], *numbers]


def _notched(body: list[Token]) -> list[Token]:
    """`Mark the side at T with two notches`: a comma for the last `with`."""
    at = len(body) - 3
    if (
        at > 1
        and _text(body, 0) == "mark"
        and _text(body, at) == "with"
        and _text(body, at + 2)[:5] == "notch"
    ):
        return [*body[: at - (body[at - 1].text == ",")], _word(",", body[at]), *body[at + 1 :]]
    return body


def _halve(body: list[Token]) -> list[Token]:
    """`Halve A-B at M`: divide A-B in half at M."""
    at = _find(body, "at")
    if at < 0:
        return [_word("divide", body[0]), *body[1:]]
    halves = [_word("in", body[at]), _word("half", body[at])]
    return [_word("divide", body[0]), *body[1:at], *halves, *body[at:]]


def _from(body: list[Token]) -> list[Token]:
    """`From A square down to B`: up, down, left, right and across are square to the paper's edges anyhow."""
    if _text(body, 2) == "square" and _text(body, 3) in {"up", "down", "left", "right", "across"}:
        return body[:2] + body[3:]
    return body


def _raise(way: str) -> Callable[[list[Token]], list[Token]]:
    """`Raise B2 by 1/4 in to B3`: from B2 up to B3: 1/4 in."""

    def turned(body: list[Token]) -> list[Token]:
        to = _find(body, "to")
        start = [_word("from", body[0]), *body[1:2], _word(way, body[0])]
        if to < 2:
            return start + body[2:]
        far = body[3:to] if body[2].text == "by" else body[2:to]
        return start + body[to:] + ([_word(":", body[2]), *far] if far else [])

    return turned


def _crossing(body: list[Token]) -> list[Token]:
    """`At the crossing of A-B and C-D put E`: where A-B meets C-D, put E."""
    if [_text(body, k) for k in range(1, 3)] != ["crossing", "of"]:
        return body
    put, both = _find(body, "put"), next((k for k, t in enumerate(body) if t.text == "and"), -1)
    if put < 0 or not 2 < both < put:
        return body
    one, other = body[3:both], body[both + 1 : put]
    comma = [] if other and other[-1].text == "," else [_word(",", body[put])]
    return [_word("where", body[0]), *one, _word("meets", body[both]), *other, *comma, *body[put:]]


def _cut(body: list[Token]) -> list[Token]:
    """`Cut A-B into 3 at C and D`: divide A-B into 3 at C and D."""
    return [_word("divide", body[0]), *body[1:]] if _text(body, 2) == "into" else body


_TURNS: dict[str, Callable[[list[Token]], list[Token]]] = {
    "halve": _halve,
    "from": _from,
    "raise": _raise("up"),
    "lower": _raise("down"),
    "at": _crossing,
    "cut": _cut,
}

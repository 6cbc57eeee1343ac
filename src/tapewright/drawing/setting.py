"""Setting words: each character of a text given its place, with true fractions and point names.

The writers put down exactly what is set here, so the same words are as wide in a PDF as in an SVG, and
a label can be placed by the box of its own ink. Nothing here relies on what a viewer makes of a font:
fractions are built from a small raised figure, a fraction stroke and a small figure on the line.

Left to right only. A character that a face lacks is never dropped in silence: it is set as its plain
letter where it has one (the s of an s with a caron), as an empty box otherwise, and named in `missing`.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from tapewright.drawing.faces import Face, FaceName, face
from tapewright.drawing.path import Box, box_round

THIN = "\u2009"
STROKE = "\u2044"  # the fraction stroke

# Figures of a fraction against the full size. Smaller and an eighth printed at 8 pt is a speck; larger
# and the two figures meet under the stroke.
_FRACTION_SIZE = 0.6
# Figures that are made smaller look thinner; the bolder sister of an upright face makes up for it.
_FRACTION_FACE: dict[FaceName, FaceName] = {
    "book": "book-bold",
    "book-italic": "book-bold",
    "hand": "hand-bold",
}
# In ems: bare paper between a figure and the stroke, and between a whole number and its fraction.
_FRACTION_GAP = 0.02
_THIN = 0.125
# The figure after a letter (B2), against the letter, and how far it is lowered, in ems of the letter.
_INDEX_SIZE = 0.66
_INDEX_DROP = 0.14
_INDEX_GAP = 0.03
_HOLE, _HOLE_GAP = 0.5, 0.1  # the empty box, and the gap after it, in ems


@dataclass(frozen=True, slots=True)
class Run:
    """Characters of one face and size (mm), each `at[i]` mm right of the setting's start.

    `drop` is how far their line lies below the setting's own, in mm; raised is less than 0.
    """

    text: str
    face: FaceName
    size: float
    at: tuple[float, ...]
    drop: float = 0.0


@dataclass(frozen=True, slots=True)
class Setting:
    """Words set: runs placed from (0, 0), the start of the line of writing, y down, in mm.

    `width` is how far the pen goes on; `ink` the true box of what is seen (all zero if nothing is);
    `missing` the characters that no glyph was found for; `holes` the empty boxes that stand for those
    of them that have no plain letter either.
    """

    said: str
    runs: tuple[Run, ...]
    width: float
    ink: Box
    missing: tuple[str, ...] = ()
    holes: tuple[Box, ...] = ()

    def scaled(self, by: float) -> Setting:
        """The same words, larger by `by`."""
        return Setting(
            self.said,
            tuple(
                replace(run, size=run.size * by, at=tuple(x * by for x in run.at), drop=run.drop * by)
                for run in self.runs
            ),
            self.width * by,
            self.ink.scaled(by),
            self.missing,
            tuple(hole.scaled(by) for hole in self.holes),
        )


_EMPTY = Box(0.0, 0.0, 0.0, 0.0)


def _letter(character: str, of: Face) -> str | None:
    """What stands for a character in a face: itself, its plain letter, or nothing."""
    if of.has(character):
        return character
    plain = unicodedata.normalize("NFD", character)[0]
    return plain if of.has(plain) else None


def _clean(words: str) -> tuple[str, list[str]]:
    """Composed characters, every kind of break a space; what cannot be shown at all is listed."""
    kept: list[str] = []
    lost: list[str] = []
    for character in unicodedata.normalize("NFC", words):
        if character.isspace() and character not in {THIN, "\u00a0"}:
            kept.append(" ")
        elif unicodedata.category(character) in {"Cc", "Cf", "Cs", "Co", "Cn"}:
            lost.append(character)
        else:
            kept.append(character)
    return "".join(kept), lost


class _Setter:
    """Puts down characters one after the other; `run` for each stretch of one face and size."""

    def __init__(self) -> None:
        self.x = 0.0
        self.runs: list[Run] = []
        self.boxes: list[Box] = []
        self.missing: list[str] = []
        self.holes: list[Box] = []

    def put(self, text: str, name: FaceName, size: float, drop: float = 0.0) -> None:
        if not text:
            return
        of = face(name)
        shown: list[str] = []
        places: list[float] = []
        for character in text:
            letter = _letter(character, of)
            if letter != character:
                self.missing.append(character)
            if letter is None:
                self.holes.append(Box(self.x, drop - of.cap_height * size, self.x + _HOLE * size, drop))
                self.x += (_HOLE + _HOLE_GAP) * size
                continue
            if shown:
                self.x += of.kern(shown[-1], letter) * size
            shown.append(letter)
            places.append(self.x)
            if (ink := of.ink(letter)) is not None:
                self.boxes.append(ink.scaled(size).moved(self.x, drop))
            self.x += of.advance(letter) * size
        if shown:
            self.runs.append(Run("".join(shown), name, size, tuple(places), drop))

    def done(self, said: str, lost: Iterable[str] = ()) -> Setting:
        missing = tuple(dict.fromkeys([*self.missing, *lost]))
        ink = box_round([*self.boxes, *self.holes]) or _EMPTY
        return Setting(said, tuple(self.runs), self.x, ink, missing, tuple(self.holes))


# A fraction stands alone: no figure, point or second stroke may touch it, or it is a date or a ratio.
_FRACTION = re.compile(
    r"(?<![\d/.,\u2044])(?:(?P<whole>\d+)(?:[ \u00a0\u2009-]|(?=[\u00bc-\u00be\u2150-\u215e])))?"
    r"(?:(?P<top>\d{1,3})[/\u2044](?P<below>\d{1,3})(?![/\u2044\d]|[.,]\d)|(?P<one>[\u00bc-\u00be\u2150-\u215e]))"
)


def _fraction(setter: _Setter, top: str, below: str, name: FaceName, size: float) -> None:
    small_face = _FRACTION_FACE.get(name, name)
    small = size * _FRACTION_SIZE
    # Figures are as high as capitals in both faces: raised so that the tops agree.
    rise = face(name).cap_height * size - face(small_face).cap_height * small
    setter.put(top, small_face, small, -rise)
    setter.x += _FRACTION_GAP * size
    setter.put(STROKE, name, size)
    setter.x += _FRACTION_GAP * size
    setter.put(below, small_face, small)


@lru_cache(maxsize=4096)
def set_text(words: str, name: FaceName, size: float) -> Setting:
    """Set one line of words in a face, `size` mm to the em, every fraction in it as a true fraction.

    A whole number before a fraction keeps a thin space ("1 1/2"). "3/5/1630" is a date and stays as
    it is. Breaks of any kind are set as a space.
    """
    if not size > 0:
        raise ValueError("type needs some size")
    text, lost = _clean(words)
    setter = _Setter()
    done = 0
    for found in _FRACTION.finditer(text):
        setter.put(text[done : found.start()], name, size)
        if found["one"]:
            top, _, below = unicodedata.normalize("NFKC", found["one"]).partition(STROKE)
        else:
            top, below = found["top"], found["below"]
        if found["whole"]:
            setter.put(found["whole"], name, size)
            after = setter.x + _THIN * size
            setter.put(THIN, name, size)
            setter.x = after  # the faces disagree on how thin a thin space is
        _fraction(setter, top, below, name, size)
        done = found.end()
    setter.put(text[done:], name, size)
    return setter.done(words, lost)


_POINT_NAME = re.compile(r"(?P<letter>\D+?)(?P<index>\d*)(?P<primes>['\u2032]*)")


@lru_cache(maxsize=4096)
def set_name(name: str, size: float) -> Setting:
    """Set the name of a point: `A`, `B2`, `H2'`. Letter in book italic, figure small and lowered, primes.

    A name of another shape is set as words in book italic.
    """
    found = _POINT_NAME.fullmatch(name)
    if found is None:
        return set_text(name, "book-italic", size)
    text, lost = _clean(found["letter"])
    setter = _Setter()
    setter.put(text, "book-italic", size)
    if found["index"]:
        # A Q's tail reaches past its own width, just where the figure goes.
        setter.x = max(setter.x, max(box.right for box in setter.boxes) + _INDEX_GAP * size)
    setter.put(found["index"], "book", size * _INDEX_SIZE, size * _INDEX_DROP)
    setter.put("\u2032" * len(found["primes"]), "book", size)
    return setter.done(name, lost)


# Spaces at which a line is never broken: in a mixed number, and between a number and its unit.
_TOGETHER = re.compile(r"(?<=\d) (?=\d{1,3}/|(?:mm|cm|m|in|ft|yd|parts?|degrees)\b)")


def set_lines(words: str, name: FaceName, size: float, width: float) -> tuple[Setting, ...]:
    """Set words in lines no wider than `width` mm, broken at spaces; a word too long keeps its own line.

    A mixed number is never parted from its fraction, nor a number from its unit. A line end in `words`
    ends a line.
    """
    lines: list[Setting] = []
    for paragraph in words.split("\n"):
        line = ""
        for word in _TOGETHER.sub("\u00a0", paragraph).split(" "):
            longer = f"{line} {word}" if line else word
            if line and set_text(longer, name, size).width > width:
                lines.append(set_text(line, name, size))
                line = word
            else:
                line = longer
        lines.append(set_text(line, name, size))
    return tuple(lines)


def joined(settings: Iterable[Setting], gap: float = 0.0) -> Setting:
    """Settings one after the other on one line of writing, `gap` mm apart: two faces in one line."""
    x = 0.0
    runs: list[Run] = []
    boxes: list[Box] = []
    missing: list[str] = []
    holes: list[Box] = []
    said: list[str] = []
    for setting in settings:
        runs.extend(replace(run, at=tuple(x + at for at in run.at)) for run in setting.runs)
        if setting.ink != _EMPTY:
            boxes.append(setting.ink.moved(x, 0.0))
        missing.extend(setting.missing)
        holes.extend(hole.moved(x, 0.0) for hole in setting.holes)
        said.append(setting.said)
        x += setting.width + gap
    width = x - gap if said else 0.0
    ink = box_round(boxes) or _EMPTY
    return Setting(" ".join(said), tuple(runs), width, ink, tuple(dict.fromkeys(missing)), tuple(holes))

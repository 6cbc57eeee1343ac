"""A drawing as SVG: millimetres, named groups, and the glyphs it uses embedded.

Every character has its own place, so that no viewer spaces, kerns or joins letters its own way. The
faces are cut down to the characters used and stand in the file itself; a viewer that ignores embedded
faces is told the same face by its own name, then a kind of face, and sets its letters at the right places.
"""

from __future__ import annotations

import base64
import io
import math
import re
import unicodedata
from functools import lru_cache
from typing import Any
from xml.sax.saxutils import escape, quoteattr

from tapewright.drawing import Drawing, FaceName, Ink, Line, Path, Setting, face

# 0.1 micrometre: a thousand times finer than any printer, and short.
_DIGITS = 4
_UNWRITABLE = {"Cc", "Cs", "Cn"}  # kinds of character that XML does not allow, or not everywhere


def number(value: float) -> str:
    """A number in the shortest form at a fixed number of digits: `12`, `0.5`, `-3.25`; never `-0`."""
    text = f"{value:.{_DIGITS}f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def colour(ink: Ink) -> str:
    return f"#{ink.red:02x}{ink.green:02x}{ink.blue:02x}"


def family(name: FaceName) -> str:
    """What the embedded part of a face is called inside the file."""
    return f"tapewright-{name}"


# The own name of each face, and the kind a viewer may put in its place.
_OWN = {"book": ("Literata", "serif"), "hand": ("Ysabeau Office", "sans-serif")}


def asked_for(name: FaceName) -> str:
    """How text asks for a face: the embedded part first, then the face itself, then one of its kind."""
    kind, _, style = name.partition("-")
    own, generic = _OWN[kind]
    look = {"italic": ' font-style="italic"', "bold": ' font-weight="bold"'}.get(style, "")
    return f"font-family=\"{family(name)}, '{own}', {generic}\"{look}"


@lru_cache(maxsize=64)
def subset(name: FaceName, characters: str) -> bytes:
    """A face cut down to some characters, as WOFF2; the same bytes for the same characters."""
    from fontTools.subset import Options, Subsetter  # type: ignore[import-untyped]
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    options: Any = Options()
    options.layout_features = []
    options.hinting = False
    options.notdef_outline = True
    options.name_IDs = [0, 1, 2, 4, 6, 13, 14]  # who made it and under which licence stay with it
    font: Any = TTFont(io.BytesIO(face(name).data), recalcTimestamp=False)
    subsetter: Any = Subsetter(options)
    subsetter.populate(text=characters)
    subsetter.subset(font)
    font.flavor = "woff2"
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()


class _PathText:
    """Writes a path's steps as the `d` of an SVG path."""

    def __init__(self) -> None:
        self.parts: list[str] = []

    def _add(self, letter: str, *numbers: float) -> None:
        self.parts.append(letter + " ".join(map(number, numbers)))

    def move(self, x: float, y: float) -> None:
        self._add("M", x, y)

    def to(self, x: float, y: float) -> None:
        self._add("L", x, y)

    def bend(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        self._add("C", x1, y1, x2, y2, x, y)

    def close(self) -> None:
        self._add("Z")


def path_text(path: Path) -> str:
    """A path as SVG writes it."""
    text = _PathText()
    path.draw(text)
    return "".join(text.parts)


def identifier(name: str) -> str:
    """A name as an id: plain lower-case letters, figures and hyphens, beginning with a letter."""
    plain = unicodedata.normalize("NFD", name).encode("ascii", "ignore").decode().lower()
    words = re.sub(r"[^a-z0-9]+", "-", plain.replace("'", "-prime")).strip("-")
    return words if words[:1].isalpha() else f"mark-{words}".rstrip("-")


class _SvgPen:
    """Writes what it is asked to draw as SVG elements, in order."""

    def __init__(self) -> None:
        self.out: list[str] = []
        self.used: dict[FaceName, set[str]] = {}
        self.ids: dict[str, int] = {}
        self.clips = 0

    def _unique(self, name: str) -> str:
        plain = identifier(name)
        self.ids[plain] = self.ids.get(plain, 0) + 1
        if self.ids[plain] == 1:
            return plain
        return self._unique(f"{plain}-{self.ids[plain]}")

    def stroke(self, path: Path, line: Line) -> None:
        look = f'stroke="{colour(line.ink)}" stroke-width="{number(line.width)}"'
        if line.dash:
            look += f' stroke-dasharray="{" ".join(map(number, line.dash))}"'
        look += f' stroke-linecap="{line.cap}" stroke-linejoin="{line.join.replace("mitre", "miter")}"'
        self.out.append(f'<path fill="none" {look} d="{path_text(path)}"/>')

    def fill(self, path: Path, ink: Ink) -> None:
        self.out.append(f'<path fill="{colour(ink)}" d="{path_text(path)}"/>')

    def words(self, setting: Setting, x: float, y: float, turn: float, ink: Ink) -> None:
        if not setting.runs:
            return
        parts = []
        for run in setting.runs:
            self.used.setdefault(run.face, set()).update(run.text)
            parts.append(
                f'<tspan {asked_for(run.face)} font-size="{number(run.size)}" '
                f'x="{" ".join(map(number, run.at))}" y="{number(run.drop)}">{escape(run.text)}</tspan>'
            )
        where = f"translate({number(x)} {number(y)})"
        if turn:
            where += f" rotate({number(math.degrees(turn))})"
        self.out.append(f'<text transform="{where}" fill="{colour(ink)}">{"".join(parts)}</text>')

    def open_group(self, name: str) -> None:
        self.out.append(f'<g id="{self._unique(name)}">')

    def close_group(self) -> None:
        self.out.append("</g>")

    def open_clip(self, path: Path) -> None:
        self.clips += 1
        name = self._unique(f"clip {self.clips}")
        self.out.append(f'<clipPath id="{name}"><path d="{path_text(path)}"/></clipPath>')
        self.out.append(f'<g clip-path="url(#{name})">')

    def close_clip(self) -> None:
        self.out.append("</g>")


def _style(used: dict[FaceName, set[str]]) -> str:
    rules = ["text{white-space:pre;font-kerning:none;font-variant-ligatures:none}"]
    for name in sorted(used):
        packed = base64.b64encode(subset(name, "".join(sorted(used[name])))).decode()
        # As italic or bold as the text that asks for it, or a viewer would slant or thicken it once more.
        style = {"italic": "font-style:italic;", "bold": "font-weight:bold;"}.get(name.partition("-")[2], "")
        rules.append(
            f'@font-face{{font-family:"{family(name)}";{style}'
            f'src:url(data:font/woff2;base64,{packed}) format("woff2")}}'
        )
    return "\n".join(rules)


def svg(drawing: Drawing) -> bytes:
    """The drawing as an SVG file in UTF-8: true millimetres, groups with ids, faces embedded."""
    pen = _SvgPen()
    drawing.play(pen)
    width, height = number(drawing.width), number(drawing.height)
    name = "".join(c for c in drawing.name if unicodedata.category(c) not in _UNWRITABLE)
    opening = (
        '<svg xmlns="http://www.w3.org/2000/svg" xml:space="preserve" '
        f'width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}" '
        f'role="img" xml:lang="en-GB" aria-label={quoteattr(name)}>'
    )
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        opening,
        f"<title>{escape(name)}</title>",
        f"<style>{_style(pen.used)}</style>",
        f'<path fill="#ffffff" d="M0 0H{width}V{height}H0Z"/>',
        *pen.out,
        "</svg>",
        "",
    ]
    return "\n".join(lines).encode("utf-8")

"""The two typefaces, Literata and Ysabeau Office, with their own measures.

Five files stand in `faces/`, put there by the build hook. This module reads how wide each character
is, how pairs of them are drawn together (kerning), and where their ink lies, so that lettering can be
set here and printed alike everywhere. Measures are in ems: one em is the size of the type. y is down,
so what rises above the line of writing is negative.
"""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from functools import cache
from importlib import resources
from typing import Any, Literal, get_args

from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

from tapewright.drawing.path import Box

FaceName = Literal["book", "book-italic", "book-bold", "hand", "hand-bold"]
FACE_NAMES: tuple[FaceName, ...] = get_args(FaceName)


class FaceMissing(RuntimeError):
    """A face's file is not there: the package was not built by its own build hook."""


@dataclass(frozen=True, slots=True)
class Face:
    """One face and its measures. Look faces up with `face(name)`; do not make them."""

    name: FaceName
    data: bytes = field(repr=False)
    ascent: float
    descent: float
    cap_height: float
    x_height: float
    _advances: dict[str, float] = field(repr=False)
    _boxes: dict[str, Box] = field(repr=False)
    _kerns: dict[tuple[str, str], float] = field(repr=False)

    def has(self, character: str) -> bool:
        """Whether the face can show this character."""
        return character in self._advances

    def advance(self, character: str) -> float:
        """How far the pen goes on after a character, in ems. KeyError if the face lacks it."""
        return self._advances[character]

    def kern(self, left: str, right: str) -> float:
        """How much nearer (less than 0) or farther two neighbours stand, in ems."""
        return self._kerns.get((left, right), 0.0)

    def ink(self, character: str) -> Box | None:
        """The box of a character's ink from its own origin, in ems; None where it has none (a space)."""
        return self._boxes.get(character)


def _kern_lookups(table: Any) -> list[Any]:
    """The lookups that kern plain Latin text, in the order in which they are stored."""
    wanted: set[int] = set()
    for record in table.ScriptList.ScriptRecord:
        if record.ScriptTag in {"DFLT", "latn"} and record.Script.DefaultLangSys is not None:
            for index in record.Script.DefaultLangSys.FeatureIndex:
                feature = table.FeatureList.FeatureRecord[index]
                if feature.FeatureTag == "kern":
                    wanted.update(feature.Feature.LookupListIndex)
    return [table.LookupList.Lookup[index] for index in sorted(wanted)]


def _pairs(subtable: Any, glyphs: list[str]) -> dict[tuple[str, str], float]:
    """What one table of pairs says about these glyphs, in font units.

    A table of classes answers for every glyph it covers, with 0 where a pair is not drawn together;
    those zeros are kept, since the first table that answers ends the search (OpenType, GPOS type 2).
    """
    found: dict[tuple[str, str], float] = {}
    covered = {name: index for index, name in enumerate(subtable.Coverage.glyphs)}
    known = set(glyphs)
    if subtable.Format == 1:
        for left in known & covered.keys():
            for record in subtable.PairSet[covered[left]].PairValueRecord:
                if record.SecondGlyph in known:
                    value = record.Value1
                    found[left, record.SecondGlyph] = getattr(value, "XAdvance", 0) if value else 0
        return found
    for left in known & covered.keys():
        row = subtable.Class1Record[subtable.ClassDef1.classDefs.get(left, 0)].Class2Record
        for right in glyphs:
            value = row[subtable.ClassDef2.classDefs.get(right, 0)].Value1
            found[left, right] = getattr(value, "XAdvance", 0) if value else 0
    return found


def _kerns(font: Any, names: dict[str, str], units: int) -> dict[tuple[str, str], float]:
    """Every pair that is kerned: characters -> ems."""
    if "GPOS" not in font:
        return {}
    glyphs = sorted(set(names.values()))
    total: dict[tuple[str, str], float] = {}
    for lookup in _kern_lookups(font["GPOS"].table):
        within: dict[tuple[str, str], float] = {}
        for stored in lookup.SubTable:
            subtable = stored.ExtSubTable if lookup.LookupType == 9 else stored
            if subtable.LookupType == 2:
                for pair, value in _pairs(subtable, glyphs).items():
                    within.setdefault(pair, value)
        for pair, value in within.items():
            total[pair] = total.get(pair, 0) + value
    characters: dict[str, list[str]] = {}
    for character, glyph in names.items():
        characters.setdefault(glyph, []).append(character)
    return {
        (a, b): value / units
        for (left, right), value in total.items()
        if value
        for a in characters[left]
        for b in characters[right]
    }


@cache
def face(name: FaceName) -> Face:
    """The face of that name, read once. `FaceMissing` if its file is not there."""
    if name not in FACE_NAMES:
        raise ValueError(f"there is no face called {name!r}; there are {', '.join(FACE_NAMES)}")
    where = resources.files("tapewright.drawing") / "faces" / f"{name}.ttf"
    try:
        data = where.read_bytes()
    except FileNotFoundError as missing:
        raise FaceMissing(
            f"The face {name!r} is missing; installing the package with its build hook brings it."
        ) from missing
    font: Any = TTFont(io.BytesIO(data), lazy=True)
    units = font["head"].unitsPerEm
    names = {chr(code): glyph for code, glyph in font.getBestCmap().items()}
    widths = font["hmtx"]
    outlines = font["glyf"]
    boxes: dict[str, Box] = {}
    for character, glyph in names.items():
        shape = outlines[glyph]
        if shape.numberOfContours:
            boxes[character] = Box(
                shape.xMin / units, -shape.yMax / units, shape.xMax / units, -shape.yMin / units
            )
    return Face(
        name=name,
        data=data,
        ascent=font["hhea"].ascent / units,
        descent=-font["hhea"].descent / units,
        cap_height=font["OS/2"].sCapHeight / units,
        x_height=font["OS/2"].sxHeight / units,
        _advances={character: widths[glyph][0] / units for character, glyph in names.items()},
        _boxes=boxes,
        _kerns=_kerns(font, names, units),
    )

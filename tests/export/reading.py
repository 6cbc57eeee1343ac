"""Reading a PDF back with PDFium: paths, words and pages in millimetres, y down, as they were drawn."""

from __future__ import annotations

import ctypes
from dataclasses import dataclass

import pypdfium2
from pypdfium2 import raw

MM = 25.4 / 72
_KINDS = {0: "to", 1: "bend", 2: "move"}


@dataclass(frozen=True)
class SeenPath:
    """A path as PDFium has it: steps of (kind, x, y) in mm (a cubic is three of `bend`), and its width."""

    steps: tuple[tuple[str, float, float], ...]
    width: float
    stroked: bool
    filled: bool

    @property
    def places(self) -> list[tuple[float, float]]:
        return [(x, y) for _, x, y in self.steps]


def page_sizes(data: bytes) -> list[tuple[float, float]]:
    """Width and height of every page in mm."""
    return [tuple(side * MM for side in page.get_size()) for page in pypdfium2.PdfDocument(data)]


def paths(data: bytes, page: int = 0) -> list[SeenPath]:
    """Every path of a page in the order drawn, in mm from its upper left corner, y down."""
    document = pypdfium2.PdfDocument(data)
    sheet = document[page]
    height = sheet.get_height()
    seen: list[SeenPath] = []
    x, y, width = ctypes.c_float(), ctypes.c_float(), ctypes.c_float()
    mode, stroked = ctypes.c_int(), ctypes.c_int()
    for item in sheet.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
        matrix = item.get_matrix()
        steps = []
        for i in range(raw.FPDFPath_CountSegments(item.raw)):
            segment = raw.FPDFPath_GetPathSegment(item.raw, i)
            raw.FPDFPathSegment_GetPoint(segment, x, y)
            px, py = matrix.on_point(x.value, y.value)
            steps.append((_KINDS[raw.FPDFPathSegment_GetType(segment)], px * MM, (height - py) * MM))
        raw.FPDFPageObj_GetStrokeWidth(item.raw, width)
        raw.FPDFPath_GetDrawMode(item.raw, mode, stroked)
        seen.append(SeenPath(tuple(steps), width.value * MM, bool(stroked.value), bool(mode.value)))
    return seen


def words(data: bytes, page: int = 0) -> str:
    """All the words of a page as PDFium reads them."""
    return str(pypdfium2.PdfDocument(data)[page].get_textpage().get_text_bounded())


@dataclass(frozen=True)
class SeenCharacter:
    """A character and where its own origin lies, in mm, y down."""

    character: str
    x: float
    y: float


def characters(data: bytes, page: int = 0) -> list[SeenCharacter]:
    """Every character of a page with its origin."""
    sheet = pypdfium2.PdfDocument(data)[page]
    height = sheet.get_height()
    text = sheet.get_textpage()
    found = []
    x, y = ctypes.c_double(), ctypes.c_double()
    for i in range(text.count_chars()):
        raw.FPDFText_GetCharOrigin(text.raw, i, x, y)
        code = raw.FPDFText_GetUnicode(text.raw, i)
        found.append(SeenCharacter(chr(code), x.value * MM, (height - y.value) * MM))
    return found

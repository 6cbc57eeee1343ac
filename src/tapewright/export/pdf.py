"""Drawings as the pages of one PDF, at true scale.

A PDF counts in points of 1/72 inch and upward from the foot of the page: this is the one place where
millimetres become points and y is turned over. The file asks the printing dialogue not to fit it to the
page. It holds no date but a fixed one, no name but those in the title and the subject given, and
says that its words are English. Groups of a drawing may be told to be layers, which a viewer shows or
leaves out (optional content, ISO 32000-1, 8.11).
"""

from __future__ import annotations

import io
import math
from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any

from tapewright.drawing import Drawing, FaceName, Ink, Line, Path, Run, Setting, face

POINTS = 72 / 25.4  # in a millimetre

_CAPS = {"butt": 0, "round": 1, "square": 2}
_JOINS = {"mitre": 0, "round": 1, "bevel": 2}


@cache
def _register(name: FaceName) -> Any:
    """A face as reportlab's own font, made known to it once."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    font = TTFont(f"tapewright-{name}", io.BytesIO(face(name).data))
    pdfmetrics.registerFont(font)
    return font


class _PathOnPage:
    """Puts a path's steps into a reportlab path, in points with y up."""

    def __init__(self, canvas: Any, height: float) -> None:
        self.path = canvas.beginPath()
        self.height = height

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return x * POINTS, (self.height - y) * POINTS

    def move(self, x: float, y: float) -> None:
        self.path.moveTo(*self._at(x, y))

    def to(self, x: float, y: float) -> None:
        self.path.lineTo(*self._at(x, y))

    def bend(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        self.path.curveTo(*self._at(x1, y1), *self._at(x2, y2), *self._at(x, y))

    def close(self) -> None:
        self.path.close()


def _shown(run: Run, font: Any, document: Any) -> list[str]:
    """The operators that show a run, in one stroke where the face's characters fit one table of 256.

    `TJ` takes text and, between its pieces, what to go back by in thousandths of the size: there the
    places that were set differ from the face's own widths (kerning). reportlab has no call for it.
    """
    of = face(run.face)
    code: list[str] = []
    pieces: list[str] = []
    table = None
    natural = run.at[0]
    for character, at in zip(run.text, run.at, strict=True):
        ((subset, glyph),) = font.splitString(character, document)
        if subset != table:
            if pieces:
                code.append(f"[{''.join(pieces)}] TJ")
            pieces = []
            table = subset
            code.append(f"{font.getSubsetInternalName(subset, document)} {_number(run.size * POINTS)} Tf")
        back = round((natural - at) / run.size * 1000, 2)
        if back:
            pieces.append(_number(back))
        pieces.append(f"<{glyph.hex()}>")
        natural = at + of.advance(character) * run.size
    code.append(f"[{''.join(pieces).replace('><', '')}] TJ")
    return code


def _number(value: float) -> str:
    """A number as PDF writes it: no exponent, six digits."""
    return f"{value:.6f}".rstrip("0").rstrip(".") or "0"


class _PdfPen:
    """Draws on one page of a reportlab canvas."""

    def __init__(self, canvas: Any, height: float, layers: Mapping[str, str]) -> None:
        self.canvas = canvas
        self.height = height
        self.layers = layers
        self.used: set[str] = set()
        self.open: list[bool] = []

    def _path(self, path: Path) -> Any:
        on_page = _PathOnPage(self.canvas, self.height)
        path.draw(on_page)
        return on_page.path

    def _fill_with(self, ink: Ink) -> None:
        if ink.grey:
            self.canvas.setFillGray(ink.red / 255)
        else:
            self.canvas.setFillColorRGB(ink.red / 255, ink.green / 255, ink.blue / 255)

    def stroke(self, path: Path, line: Line) -> None:
        canvas, ink = self.canvas, line.ink
        if ink.grey:
            canvas.setStrokeGray(ink.red / 255)
        else:
            canvas.setStrokeColorRGB(ink.red / 255, ink.green / 255, ink.blue / 255)
        canvas.setLineWidth(line.width * POINTS)
        canvas.setLineCap(_CAPS[line.cap])
        canvas.setLineJoin(_JOINS[line.join])
        canvas.setDash([part * POINTS for part in line.dash], 0)
        canvas.drawPath(self._path(path), stroke=1, fill=0)

    def fill(self, path: Path, ink: Ink) -> None:
        self._fill_with(ink)
        self.canvas.drawPath(self._path(path), stroke=0, fill=1, fillMode=1)

    def words(self, setting: Setting, x: float, y: float, turn: float, ink: Ink) -> None:
        if not setting.runs:
            return
        self._fill_with(ink)
        cos, sin = math.cos(turn), math.sin(turn)
        text = self.canvas.beginText()
        for run in setting.runs:
            font = _register(run.face)
            px = x + run.at[0] * cos - run.drop * sin
            py = y + run.at[0] * sin + run.drop * cos
            text.setTextTransform(cos, -sin, sin, cos, px * POINTS, (self.height - py) * POINTS)
            text._code.extend(_shown(run, font, self.canvas._doc))
        self.canvas.drawText(text)

    def open_group(self, name: str) -> None:
        """A group that belongs to a layer is marked as its content; others have no mark in a PDF."""
        layer = self.layers.get(name)
        self.open.append(layer is not None)
        if layer is not None:
            self.used.add(layer)
            self.canvas._code.append(f"/OC /{_layer_key(layer)} BDC")

    def close_group(self) -> None:
        """As `open_group`."""
        if self.open.pop():
            self.canvas._code.append("EMC")

    def open_clip(self, path: Path) -> None:
        self.canvas.saveState()
        self.canvas.clipPath(self._path(path), stroke=0, fill=0)

    def close_clip(self) -> None:
        self.canvas.restoreState()


def _layer_key(layer: str) -> str:
    """What a layer is called inside the file."""
    return f"L{layer.encode().hex()}"


def _layers(canvas: Any, names: Sequence[str]) -> dict[str, Any]:
    """Optional content groups of these names, all shown at first, entered in the document's catalogue.

    reportlab has no call for them: its own objects are put together here.
    """
    from reportlab.pdfbase import pdfdoc

    document = canvas._doc
    groups = {}
    for name in names:
        group = pdfdoc.PDFDictionary({"Type": pdfdoc.PDFName("OCG"), "Name": pdfdoc.PDFString(name)})
        groups[name] = document.Reference(group, f"layer{_layer_key(name)}")
    every = pdfdoc.PDFArray(list(groups.values()))
    shown = pdfdoc.PDFDictionary({"Order": every, "ON": every, "Name": pdfdoc.PDFString("layers")})
    document.Catalog.OCProperties = pdfdoc.PDFDictionary({"OCGs": every, "D": shown})
    document.Catalog.__NoDefault__ = [*document.Catalog.__NoDefault__, "OCProperties"]
    return groups


def _on_page(canvas: Any, groups: Mapping[str, Any], used: set[str]) -> None:
    """Tell the page just shown which layers its content belongs to."""
    from reportlab.pdfbase import pdfdoc

    # Any: the published stubs lack the entry.
    resources: Any = pdfdoc.PDFResourceDictionary()
    resources.basicFonts()
    resources.Properties = {_layer_key(name): groups[name] for name in sorted(used)}
    canvas._doc.Pages.pages[-1].Resources = resources


def pdf(
    drawings: Sequence[Drawing], *, title: str, subject: str = "", layers: Mapping[str, str] | None = None
) -> bytes:
    """The drawings as the pages of a PDF, each page as large as its drawing; at least one.

    1 mm is 72/25.4 points exactly. `title` is what a viewer shows as the document's name, `subject` what it
    is about: whose pattern it is. `layers` tells of groups, by name, which layer they belong to; what is in
    none is always shown.
    """
    if not drawings:
        raise ValueError("a PDF needs at least one page")
    from reportlab.pdfgen import canvas as reportlab_canvas

    out = io.BytesIO()
    # Any: the published stubs take a font's name for a number.
    make: Any = reportlab_canvas.Canvas
    layers = layers or {}
    # Optional content came with PDF 1.5.
    version = {"pdfVersion": (1, 5)} if layers else {}
    first = _register("book").fontName
    canvas = make(out, invariant=1, pageCompression=1, initialFontName=first, lang="en-GB", **version)
    canvas.setTitle(title)
    canvas.setAuthor("")
    canvas.setSubject(subject)
    canvas.setKeywords("")
    canvas.setCreator("Tapewright")
    canvas.setProducer("Tapewright")
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    groups = _layers(canvas, list(dict.fromkeys(layers.values()))) if layers else {}
    for drawing in drawings:
        canvas.setPageSize((drawing.width * POINTS, drawing.height * POINTS))
        pen = _PdfPen(canvas, drawing.height, layers)
        drawing.play(pen)
        if drawing.name:
            canvas.bookmarkPage(drawing.name)
            canvas.addOutlineEntry(drawing.name, drawing.name, 0, 0)
        canvas.showPage()
        if pen.used:
            _on_page(canvas, groups, pen.used)
    canvas.save()
    return out.getvalue()

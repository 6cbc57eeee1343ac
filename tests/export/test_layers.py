"""Layers of a PDF: optional content as ISO 32000-1, 8.11 has it, read with pikepdf and drawn with PDFium."""

from __future__ import annotations

import io

import numpy as np
import pikepdf
import pypdfium2

from tapewright.drawing import Clip, Drawing, Group, Line, Stroke, Words, rectangle, set_text, straight
from tapewright.drawing.path import Box
from tapewright.export import pdf


def a_page() -> Drawing:
    """A line in a layer, another in another, clipped and grouped again, words in the first, a line in none."""
    return Drawing(
        100,
        100,
        (
            Group(
                "sewn", (Stroke(straight(10, 20, 90, 20), Line(2)), Words(set_text("sew", "hand", 8), 10, 90))
            ),
            Clip(
                rectangle(Box(0, 0, 100, 100)),
                (Group("piece", (Group("cutting", (Stroke(straight(10, 40, 90, 40), Line(2)),)),)),),
            ),
            Stroke(straight(10, 60, 90, 60), Line(2)),
        ),
        "a page",
    )


LAYERS = {"sewn": "net", "cutting": "cut"}


def dark(data: bytes, y: float) -> bool:
    """Whether anything is drawn on the level y mm, by PDFium."""
    image = np.asarray(pypdfium2.PdfDocument(data)[0].render(scale=2).to_pil().convert("L"))
    row = round(y / 100 * image.shape[0])
    return bool((image[row - 2 : row + 3] < 128).any())


def hidden(data: bytes, name: str) -> bytes:
    """The same file with one layer left out, as a viewer's reader would have it."""
    with pikepdf.open(io.BytesIO(data)) as document:
        settings = document.Root.OCProperties
        (group,) = [g for g in settings.OCGs if str(g.Name) == name]
        settings.D.OFF = pikepdf.Array([group])
        out = io.BytesIO()
        document.save(out)
    return out.getvalue()


def test_layers_are_named_and_shown() -> None:
    """The catalogue lists each layer once, in order, all on; the file says that it is PDF 1.5, which brought them."""
    data = pdf([a_page(), a_page()], title="two", layers=LAYERS)
    assert data.startswith(b"%PDF-1.5")
    with pikepdf.open(io.BytesIO(data)) as document:
        settings = document.Root.OCProperties
        assert [str(g.Name) for g in settings.OCGs] == ["net", "cut"]
        assert [str(g.Name) for g in settings.D.ON] == ["net", "cut"]
        for page in document.pages:
            assert len(page.Resources.Properties) == 2
        assert not document.check_pdf_syntax()
    assert [dark(data, y) for y in (20, 40, 60)] == [True, True, True]


def test_a_layer_left_out_is_not_drawn() -> None:
    """Of a layer that is off PDFium draws neither lines nor words, within a clip or not; all else stays."""
    data = pdf([a_page()], title="one", layers=LAYERS)
    without = hidden(data, "net")
    assert [dark(without, y) for y in (20, 88, 40, 60)] == [False, False, True, True]
    assert [dark(hidden(data, "cut"), y) for y in (20, 88, 40, 60)] == [True, True, False, True]


def test_without_layers_nothing_changes() -> None:
    """A file without layers has no optional content and is the older PDF that it was."""
    data = pdf([a_page()], title="one")
    assert b"OCProperties" not in data
    assert not data.startswith(b"%PDF-1.5")


def test_the_same_drawing_gives_the_same_bytes() -> None:
    """Layers bring no date and no chance into a file."""
    assert pdf([a_page()], title="one", layers=LAYERS) == pdf([a_page()], title="one", layers=LAYERS)

"""The faces' measures, against two other readers of fonts: HarfBuzz (through Pillow) and reportlab."""

from __future__ import annotations

import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import ImageFont, features
from reportlab.pdfbase.ttfonts import TTFont

from tapewright.drawing import FACE_NAMES, FaceName, face, set_text
from tapewright.drawing.faces import face as read_face

LATIN = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz .,:;'-0123456789éÀü"
# With these off HarfBuzz only kerns, as we do.
PLAIN = ["-liga", "-calt", "-clig", "-rlig", "-frac", "-locl"]


@pytest.fixture(scope="module")
def shaped() -> dict[FaceName, ImageFont.FreeTypeFont]:
    """Every face at 1000 units to the em, laid out by HarfBuzz."""
    assert features.check("raqm"), "Pillow was built without HarfBuzz, the reference of this test"
    return {
        name: ImageFont.truetype(io.BytesIO(face(name).data), 1000, layout_engine=ImageFont.Layout.RAQM)
        for name in FACE_NAMES
    }


@pytest.mark.parametrize("name", FACE_NAMES)
@pytest.mark.parametrize("words", ["AVAIL", "To Tailor, Wax", "LT VA Ty", "The scye line", "5 parts of 1630"])
def test_kerned_widths_are_harfbuzz_widths(
    name: FaceName, words: str, shaped: dict[FaceName, ImageFont.FreeTypeFont]
) -> None:
    """Words are as wide as HarfBuzz sets them with kerning, to a thousandth of an em a letter."""
    ours = set_text(words, name, 1000.0).width
    theirs = shaped[name].getlength(words, features=PLAIN)
    assert ours == pytest.approx(theirs, abs=len(words))


@settings(max_examples=60)
@given(st.text(LATIN, min_size=1, max_size=30))
def test_any_latin_words_are_as_wide_as_harfbuzz_sets_them(words: str) -> None:
    """The same for any letters: `book`, a thousandth of an em a letter."""
    font = ImageFont.truetype(io.BytesIO(face("book").data), 1000, layout_engine=ImageFont.Layout.RAQM)
    ours = set_text(words, "book", 1000.0).width
    assert ours == pytest.approx(font.getlength(words, features=PLAIN), abs=len(words))


@pytest.mark.parametrize("name", FACE_NAMES)
def test_single_widths_are_reportlabs(name: FaceName) -> None:
    """Each letter alone is as wide as reportlab's own reader of TrueType says."""
    theirs = TTFont(f"check-{name}", io.BytesIO(face(name).data)).face
    for character in LATIN:
        assert face(name).advance(character) * 1000 == pytest.approx(
            theirs.charWidths[ord(character)], abs=0.5
        )


@pytest.mark.parametrize("name", FACE_NAMES)
def test_what_we_write_is_there(name: FaceName) -> None:
    """Primes, the fraction stroke, the minus, dashes and quotes are in every face."""
    assert [c for c in "′″⁄−–—’‘“”×°½" if not face(name).has(c)] == []


def test_capitals_stand_as_high_as_said() -> None:
    """The cap height is that of a flat capital's own ink."""
    for name in FACE_NAMES:
        ink = face(name).ink("H")
        assert ink is not None
        assert -ink.top == pytest.approx(face(name).cap_height, abs=0.01)
        assert ink.bottom == pytest.approx(0, abs=0.01)


def test_an_unknown_face_is_refused() -> None:
    """A face is looked up by one of its five names."""
    with pytest.raises(ValueError, match="no face called"):
        read_face("chalk")

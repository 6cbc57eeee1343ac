"""Pages: plates of a construction, drawings joined from several sheets, tapes to cut out.

Everything here takes plain values (points, cubics, words), lays them out in millimetres and gives
drawings; the writers of `export` make files of those. Nothing here knows the draft or its language.
"""

from tapewright.pages.block import Block
from tapewright.pages.insets import NoRoom
from tapewright.pages.labels import place_labels
from tapewright.pages.layout import Cover, Page, Pages
from tapewright.pages.lettering import Inset, Label, Letter, Lettering, Lines
from tapewright.pages.paper import (
    A3,
    A4,
    FULL,
    HALF,
    LETTER,
    ONE_PAGE,
    QUARTER,
    OptionTrouble,
    Paper,
    Scale,
    read_paper,
    read_scale,
)
from tapewright.pages.plate import Field, Plate, PlateCheck, PlateLine, PlatePiece, PlatePoint, draw_field
from tapewright.pages.printed import plate_pages
from tapewright.pages.squares import measuring_squares
from tapewright.pages.tape import PrintedTape
from tapewright.pages.tapes_sheet import TapeSheet, tapes_sheet
from tapewright.pages.tiles import tile
from tapewright.pages.weights import Role, line_for

__all__ = [
    "A3",
    "A4",
    "FULL",
    "HALF",
    "LETTER",
    "ONE_PAGE",
    "QUARTER",
    "Block",
    "Cover",
    "Field",
    "Inset",
    "Label",
    "Letter",
    "Lettering",
    "Lines",
    "NoRoom",
    "OptionTrouble",
    "Page",
    "Pages",
    "Paper",
    "Plate",
    "PlateCheck",
    "PlateLine",
    "PlatePiece",
    "PlatePoint",
    "PrintedTape",
    "Role",
    "Scale",
    "TapeSheet",
    "draw_field",
    "line_for",
    "measuring_squares",
    "place_labels",
    "plate_pages",
    "read_paper",
    "read_scale",
    "tapes_sheet",
    "tile",
]

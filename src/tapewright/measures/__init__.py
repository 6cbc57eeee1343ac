"""Body measures: the catalogue of their names, and measure sheets read from text and written again.

Nothing here fills in a measure that was not taken, and nothing rounds one that was.
"""

from tapewright.measures.catalogue import Measure, catalogue, measure_called, near_measures
from tapewright.measures.over import Layer, layers_named, same_layers, say_layers
from tapewright.measures.reading import read_sheet, sheet_source
from tapewright.measures.sheet import Entry, Figure, Quantity, Reading, Sheet, base, show
from tapewright.measures.writing import write_sheet

__all__ = [
    "Entry",
    "Figure",
    "Layer",
    "Measure",
    "Quantity",
    "Reading",
    "Sheet",
    "base",
    "catalogue",
    "layers_named",
    "measure_called",
    "near_measures",
    "read_sheet",
    "same_layers",
    "say_layers",
    "sheet_source",
    "show",
    "write_sheet",
]

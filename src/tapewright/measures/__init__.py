"""Body measures: the catalogue of their names, and measure sheets read from text and written again.

Nothing here fills in a measure that was not taken, and nothing rounds one that was.
"""

from tapewright.measures.beneath import changed_by, stayed
from tapewright.measures.catalogue import (
    GROUPS,
    Measure,
    catalogue,
    in_turn,
    key_of,
    measure_called,
    measure_meant,
    measures_meant,
    near_measures,
    say_either,
)
from tapewright.measures.company import Company, Wearer, read_company
from tapewright.measures.company_writing import what_it_holds, write_company
from tapewright.measures.estimates import (
    Estimate,
    Stays,
    can_be_estimated,
    estimate,
    named_stays,
    over_stays,
    stays_of,
)
from tapewright.measures.filling import ESTIMATED, Filled, with_estimates
from tapewright.measures.lacing import CARE, body_sheet_for, child_over_stays, lacing
from tapewright.measures.lending import lent
from tapewright.measures.over import Layer, layers_named, same_layers, say_layers
from tapewright.measures.reading import read_sheet, sheet_source
from tapewright.measures.sheet import Entry, Figure, Quantity, Reading, Sheet, base, show
from tapewright.measures.together import Odd, look_together, odd_ones
from tapewright.measures.writing import blank_sheet, write_sheet

__all__ = [
    "CARE",
    "ESTIMATED",
    "GROUPS",
    "Company",
    "Entry",
    "Estimate",
    "Figure",
    "Filled",
    "Layer",
    "Measure",
    "Odd",
    "Quantity",
    "Reading",
    "Sheet",
    "Stays",
    "Wearer",
    "base",
    "blank_sheet",
    "body_sheet_for",
    "can_be_estimated",
    "catalogue",
    "changed_by",
    "child_over_stays",
    "estimate",
    "in_turn",
    "key_of",
    "lacing",
    "layers_named",
    "lent",
    "look_together",
    "measure_called",
    "measure_meant",
    "measures_meant",
    "named_stays",
    "near_measures",
    "odd_ones",
    "over_stays",
    "read_company",
    "read_sheet",
    "same_layers",
    "say_either",
    "say_layers",
    "sheet_source",
    "show",
    "stayed",
    "stays_of",
    "what_it_holds",
    "with_estimates",
    "write_company",
    "write_sheet",
]

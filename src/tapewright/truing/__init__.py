"""Truing: a pattern looked over as a cutter does before the shears, one inspection a file.

Each inspection takes a pattern and a body and gives queries; seams give a table as well. Nothing is changed here: what
could be corrected is offered as a sentence.
"""

from tapewright.truing.inspect import Truing, inspect
from tapewright.truing.seams import SeamRow, seam_rows, seam_words

__all__ = ["SeamRow", "Truing", "inspect", "seam_rows", "seam_words"]

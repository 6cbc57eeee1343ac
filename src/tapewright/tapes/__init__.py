"""Graduated tapes: their ticks, exact readings of them, and any length as its nearest simple reading.

No body and no drawing here: a whole is a number the caller brings.
"""

from tapewright.tapes.nearest import in_parts, nearest_reading
from tapewright.tapes.tape import PARTS, Reading, Tape, length, value
from tapewright.tapes.ticks import NAMING_ORDER, SIMPLE_RANKS, Rank, Tick, ticks
from tapewright.tapes.words import ABOUT, read_reading, say, say_parts

__all__ = [
    "ABOUT",
    "NAMING_ORDER",
    "PARTS",
    "SIMPLE_RANKS",
    "Rank",
    "Reading",
    "Tape",
    "Tick",
    "in_parts",
    "length",
    "nearest_reading",
    "read_reading",
    "say",
    "say_parts",
    "ticks",
    "value",
]

"""Graduated tapes: their ticks, exact readings of them, any length as its nearest simple reading, notations.

No body and no drawing here: a whole is a number the caller brings.
"""

from tapewright.tapes.fan import LONGEST, SHORTEST, Fan, FanLine
from tapewright.tapes.graduation import EdgeTick, Graduation, graduation
from tapewright.tapes.nearest import in_parts, nearest_reading
from tapewright.tapes.notation import Edge, Notation, NotationMark, Way
from tapewright.tapes.notation_file import PLAIN, notations, plain, read_notation
from tapewright.tapes.tape import MOST_PARTS, PARTS, Reading, Tape, length, value
from tapewright.tapes.ticks import NAMING_ORDER, SIMPLE_RANKS, Rank, Tick, ticks
from tapewright.tapes.words import ABOUT, read_reading, say, say_parts
from tapewright.tapes.writing import Unread, Written, count, read_back, write

__all__ = [
    "ABOUT",
    "LONGEST",
    "MOST_PARTS",
    "NAMING_ORDER",
    "PARTS",
    "PLAIN",
    "SHORTEST",
    "SIMPLE_RANKS",
    "Edge",
    "EdgeTick",
    "Fan",
    "FanLine",
    "Graduation",
    "Notation",
    "NotationMark",
    "Rank",
    "Reading",
    "Tape",
    "Tick",
    "Unread",
    "Way",
    "Written",
    "count",
    "graduation",
    "in_parts",
    "length",
    "nearest_reading",
    "notations",
    "plain",
    "read_back",
    "read_notation",
    "read_reading",
    "say",
    "say_parts",
    "ticks",
    "value",
    "write",
]

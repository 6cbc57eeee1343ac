"""Readings in words, in house style, and back: `1/6 of the neck tape and 1 1/2 parts`.

Figures in readings; `and` adds parts of the same tape, `less` takes them away; `5 parts of the bust tape`
where there is no fraction. The drafting language reads more forms than these; this is what is said.
"""

from __future__ import annotations

import re
from fractions import Fraction

from tapewright.tapes.tape import Reading
from tapewright.units import MINUS, read_number, show_fraction

ABOUT = "about"
_WITH_FRACTION = re.compile(
    r"(?:(?P<fraction>[^a-z]+) of )?the (?P<tape>[a-z][a-z0-9 ]*?)"
    r"(?: (?P<joint>and|less) (?P<parts>[^a-z]+) parts?)?"
)
_PARTS_ALONE = re.compile(
    rf"(?P<minus>{MINUS}?)(?P<parts>[^a-z{MINUS}]+) parts? of the (?P<tape>[a-z][a-z0-9 ]*)"
)

# Words that end an amount and stand in no tape's name.
_NO_NAME = frozenset({"plus", "less", "of", "the"})


def say_parts(parts: Fraction) -> str:
    """`3 parts`, `1 part`, `3/4 part`, `1 1/2 parts`: up to one in the singular."""
    return f"{show_fraction(parts)} {'part' if 0 < abs(parts) <= 1 else 'parts'}"


def say(reading: Reading, tape_name: str) -> str:
    """A reading of a tape, `tape_name` being the whole name of it (`neck tape`).

    A reading of the whole alone is `the neck tape`; nothing is `0 parts of the neck tape`.
    """
    about = f"{ABOUT} " if reading.about else ""
    if not reading.fraction:
        return f"{about}{say_parts(reading.parts)} of the {tape_name}"
    whole = "" if reading.fraction == 1 else f"{show_fraction(reading.fraction)} of "
    said = f"{about}{whole}the {tape_name}"
    if not reading.parts:
        return said
    return f"{said} {'less' if reading.parts < 0 else 'and'} {say_parts(abs(reading.parts))}"


def read_reading(text: str) -> tuple[Reading, str] | None:
    """What `say` says, read back: the reading and the tape's name; None for any other text."""
    found = _read(" ".join(text.split()))
    return None if found is None or not _NO_NAME.isdisjoint(found[1].split()) else found


def _read(plain: str) -> tuple[Reading, str] | None:
    about = plain.startswith(f"{ABOUT} ")
    plain = plain.removeprefix(f"{ABOUT} ")
    if found := _PARTS_ALONE.fullmatch(plain):
        number = read_number(found["parts"])
        if number is None:
            return None
        return Reading(Fraction(0), -number if found["minus"] else number, about), found["tape"]
    if found := _WITH_FRACTION.fullmatch(plain):
        fraction = Fraction(1) if found["fraction"] is None else read_number(found["fraction"])
        parts = Fraction(0) if found["parts"] is None else read_number(found["parts"])
        if fraction is None or parts is None or not fraction:
            return None
        return Reading(fraction, -parts if found["joint"] == "less" else parts, about), found["tape"]
    return None

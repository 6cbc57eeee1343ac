"""What a sheet tells about its wearer's body, in the terms of the models."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import log

from tapewright.measures.beneath import TRUNK_GIRTHS, added, changed_by
from tapewright.measures.model import names
from tapewright.measures.sheet import Figure, Sheet, base


@dataclass(frozen=True, slots=True)
class Evidence:
    """A body's measures that the models know: logarithms of mm, kg or degrees, by the name on the sheet.

    `group` is the people it is compared with. `known_as` is the name in the models (a chest is their bust).
    """

    group: str
    logs: Mapping[str, float]

    def model_names(self) -> tuple[str, ...]:
        """The names in the models, in the order of `logs`."""
        return tuple(known_as(name) for name in self.logs)


def known_as(name: str) -> str:
    """The name in the models: on women the fullest girth is the bust, on men the chest, and both are one."""
    return "bust" if name == "chest" else name


def said_as(name: str, figure: Figure | None) -> str:
    """The name on a sheet of a measure of the models."""
    return "chest" if name == "bust" and figure is Figure.MAN else name


def group_of(sheet: Sheet) -> str | None:
    """The people a wearer is compared with: those the sheet names, else those of the figure, else both.

    None for a child, of whom the surveys measured none, unless the sheet names a group itself.
    """
    if sheet.estimate_from is not None:
        return sheet.estimate_from
    match sheet.figure:
        case Figure.WOMAN:
            return "women"
        case Figure.MAN:
            return "men"
        case Figure.CHILD:
            return None
        case None:
            return "both"


def evidence_of(sheet: Sheet) -> Evidence | None:
    """What the sheet tells of the body itself; None for a child.

    Left out is what stays, hoops or padding beneath make another thing of; layers of a stated thickness
    are taken off the girths of the trunk.
    """
    group = group_of(sheet)
    if group is None:
        return None
    layers = sheet.over or ()
    changed = changed_by(layers)
    more = added(layers)
    known = frozenset(names())
    logs: dict[str, float] = {}
    for name in sheet.entries:
        if name in changed or known_as(name) not in known or known_as(name) in map(known_as, logs):
            continue
        value = sheet.value(name)
        if value is None:
            continue
        number = float(base(value)) - (more if name in TRUNK_GIRTHS else 0.0)
        if number > 0:
            logs[name] = log(number)
    return Evidence(group, logs)

"""The nominal figures: sheets on which every measure is the median of a survey, and which are nobody's.

A lesson drawn before it has a wearer is drawn for one of these, and says so everywhere. Measure by measure
the middle of many people is not a person: the parts need not go together.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
from tests.survey import STAND_INS, Sex, survey

from tapewright.measures import catalogue, in_turn
from tapewright.units import UnitKind

NOMINAL = Path(__file__).parent.parent / "src" / "tapewright" / "library" / "nominal"
FIGURES = {Sex.WOMEN: "woman", Sex.MEN: "man"}

_HEAD = """\
# A nominal figure, for drawing a lesson before it has a wearer: nobody's measures. Each is the median of the
# {count:,} {people} of the US Army survey of 1987-88, public domain, to the nearest millimetre, measured on the
# right side, lightly clad. The middle of many people is not a person. Written by python -m fitting.

wearer: nobody, a nominal {figure} (survey medians)
figure: {figure}
unit: cm
measures:
"""


def nominal(sex: Sex) -> str:
    """The sheet of one nominal figure, as text."""
    people = survey(sex)
    figure = FIGURES[sex]
    lines = [_HEAD.format(count=len(people["stature"]), people=f"{figure[:-2]}en", figure=figure)]
    for name in in_turn(people):
        middle = float(np.median(people[name]))
        match catalogue()[name].kind:
            case UnitKind.LENGTH:
                value = f"{middle / 10:.1f}"
            case UnitKind.ANGLE:
                value = f"{np.degrees(middle):.1f} degrees"
            case UnitKind.WEIGHT:
                value = f"{middle:.1f} kg"
        remark = "  # the survey took a stand-in for it" if name in STAND_INS else ""
        lines.append(f"  {name}: {value}{remark}\n")
    return "".join(lines)

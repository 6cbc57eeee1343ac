"""How near is near enough: every small number of the geometry, each with its reason.

This is the only module of the geometry in which a literal below a hundredth may stand. It holds no functions.
Lengths are in millimetres, angles in radians, parameters in segments.
"""

from __future__ import annotations

from typing import Final

SAME_POINT: Final = 1e-4
"""Two points nearer than this are one point, and a meet this little beyond an end is at the end.

A tenth of the thousandth of a millimetre to which meets are promised, and a thousand times the rounding noise
of co-ordinates a few metres from the start.
"""

TOUCH: Final = 1e-9
"""Lines that pass each other nearer than this touch, and crossings parted by less depth are one touch.

Far below SAME_POINT on purpose: a circle of 500 mm cut this deep has a chord of 0.002 mm, so that one touch
stands for both crossings within 0.001 mm; still a thousand times the rounding noise.
"""

FLAT_ANGLE: Final = 1e-8
"""Directions nearer than this are one: lines are parallel, a corner is flat, a curve is straight.

Two lines of 1 m at this angle part by 0.00001 mm; meeting them would carry noise of SAME_POINT's size.
"""

CONVERGED: Final = 1e-14
"""A parameter that moves less than this has settled: on a segment of 2 m that is 0.00000000002 mm."""

NOUGHT: Final = 1e-30
"""A divisor smaller than this is nought, and the quotient has its stand-in. No length squared is so small."""

LENGTH_AGREES: Final = 1e-3
"""To this lengths and meets are good; a length asked beyond a line's end by less is the end."""

OFFSET_AGREES: Final = 1e-2
"""To this a parallel keeps its distance from the line it is drawn along."""

SEAMS_MATCH: Final = 1e-2
"""Two edges drafted to agree agree to this on the net line; cloth and pencil know nothing so fine."""

EXACT: Final = 1e-12
"""A distance smaller than this is rounding noise at the size of a sheet: a root so near is the root."""

CUSP: Final = 1e-9
"""A curve slower than this part of its control polygon stands still there and turns on the spot."""

SETTLED: Final = 1e-9
"""An unknown is found when its bracket, mm, is narrower: far below LENGTH_AGREES, above rounding noise."""

ROUNDING: Final = 1e-6
"""A check or a bound missed by less than this holds: an amount that is exactly at its bound is within it."""

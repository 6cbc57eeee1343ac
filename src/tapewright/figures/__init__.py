"""The line figures that measures are shown on: a front, a back and a side, and where each tape lies on them.

Our own drawing, no body in particular: one unit is one centimetre on a body 170 cm tall. It shows where to
lay a tape; nothing is ever measured off it, and it is never changed to look like a wearer.
"""

from tapewright.figures.lying import Lie, View, lies_of, on_side, shown_on
from tapewright.figures.outline import Outline, outline, smooth

__all__ = ["Lie", "Outline", "View", "lies_of", "on_side", "outline", "shown_on", "smooth"]

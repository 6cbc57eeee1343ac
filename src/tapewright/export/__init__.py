"""Writers: a drawing becomes the bytes of a format. Nothing here opens a file or reads a clock.

The same drawing gives the same bytes, always. Widths, places and letters come from the drawing; a
writer decides nothing about how a thing looks.
"""

from tapewright.export.pdf import pdf
from tapewright.export.svg import svg

__all__ = ["pdf", "svg"]

"""Tapewright: one wearer's measures become graduated tapes, and plain sentences become a pattern.

The layers, from the bottom up, are in `docs/architecture.md`; imports point downward only.
"""

__version__ = "0.1.0"

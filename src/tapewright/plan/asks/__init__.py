"""What a kind of sentence asks of itself, beyond its letters and names: one short function a kind.

These need no body: how many letters go with how many lengths, a side that was not said, an outline that
does not close. Each returns queries; a question among them makes the sentence wait.
"""

from tapewright.plan.asks import curves, pieces, points  # noqa: F401 - they fill the table
from tapewright.plan.asks.table import ask_about

__all__ = ["ask_about"]

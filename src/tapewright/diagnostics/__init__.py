"""What the table says: sources, spans and queries.

A query is data. It names itself, says where, what is so and what to try, and offers answers. Nothing
here prints, raises for a maker's slip, or knows about drafting; `report.py` sets queries as text.
"""

from tapewright.diagnostics.near import did_you_mean
from tapewright.diagnostics.query import Answer, Kind, Query, caution, note, question
from tapewright.diagnostics.report import answers_said, as_json, as_text, in_order, printable
from tapewright.diagnostics.source import Place, Source, Span
from tapewright.diagnostics.why import explanation, known_names

__all__ = [
    "Answer",
    "Kind",
    "Place",
    "Query",
    "Source",
    "Span",
    "answers_said",
    "as_json",
    "as_text",
    "caution",
    "did_you_mean",
    "explanation",
    "in_order",
    "known_names",
    "note",
    "printable",
    "question",
]

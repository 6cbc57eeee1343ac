"""Text and tree: a controlled English for drafting, read, printed and asked about. No meaning here."""

from tapewright.language.amendments import Amendment, amendment_for, chosen_source, read_amendments
from tapewright.language.clause import BY_KIND, BY_LEAD, Clause, Unread, show_clause
from tapewright.language.completing import Offer, offers_at
from tapewright.language.lesson import IfSentence, Item, Lesson, Sentence
from tapewright.language.memory import Memory
from tapewright.language.read import read_lesson
from tapewright.language.reading import Finder
from tapewright.language.walking import walk

__all__ = [
    "BY_KIND",
    "BY_LEAD",
    "Amendment",
    "Clause",
    "Finder",
    "IfSentence",
    "Item",
    "Lesson",
    "Memory",
    "Offer",
    "Sentence",
    "Unread",
    "amendment_for",
    "chosen_source",
    "offers_at",
    "read_amendments",
    "read_lesson",
    "show_clause",
    "walk",
]

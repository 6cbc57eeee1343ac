"""What a clause makes: the letters and names that exist once it has been said."""

from __future__ import annotations

from tapewright.language.clause import Clause, Unread
from tapewright.language.tree import NewName, NewPoint
from tapewright.language.walking import walk


def made_by(clause: Clause | Unread) -> set[str]:
    """The letters and names that a clause makes."""
    if isinstance(clause, Unread):
        return {*clause.points, *clause.names}
    made = {n.name for n in walk(clause) if isinstance(n, NewPoint | NewName)}
    return made | set(clause.also_makes())

"""The page of the handbooks' figures says what the drafts come to now."""

from __future__ import annotations

from tests.handbook import rows
from tests.handbooks.__main__ import PAGE
from tests.handbooks.drafts import waiting_ids
from tests.handbooks.page import outcomes, page


def test_the_page_is_as_the_drafts_are() -> None:
    """The committed page is, word for word, what comes out now."""
    assert PAGE.read_text(encoding="utf-8") == page(), "run `python -m tests.handbooks` and read it"


def test_the_page_counts_every_row_once() -> None:
    """Rows compared and rows that wait make up the whole table, and none is out."""
    done = [o.row.id for o in outcomes()]
    assert len(done) == len(set(done))
    assert sorted([*done, *waiting_ids()]) == sorted(r.id for r in rows())
    assert [o.row.id for o in outcomes() if not o.holds] == []

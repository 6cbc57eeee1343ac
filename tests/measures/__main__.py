"""`python -m tests.measures` works the tables of `docs/measures.md` out anew."""

from __future__ import annotations

import sys

from tests.measures.page import PAGE, page

if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    sys.stdout.write(f"{PAGE.name} written\n")

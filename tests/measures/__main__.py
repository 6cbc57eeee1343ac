"""`python -m tests.measures` works the tables of `docs/measures.md` and `docs/measuring.md` out anew."""

from __future__ import annotations

import sys

from tests.measures.page import PAGES, page

if __name__ == "__main__":
    for path in PAGES:
        path.write_text(page(path), encoding="utf-8")
        sys.stdout.write(f"{path.name} written\n")

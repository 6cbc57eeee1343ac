"""`python -m tests.handbooks` writes `docs/check-values.md` anew."""

from __future__ import annotations

import sys
from pathlib import Path

from tests.handbooks.page import page

PAGE = Path(__file__).parent.parent.parent / "docs" / "check-values.md"

if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    sys.stdout.write(f"{PAGE.name} written\n")

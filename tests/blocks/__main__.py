"""`python -m tests.blocks` writes `docs/blocks.md` anew."""

from __future__ import annotations

import sys
from pathlib import Path

from tests.blocks.page import page

PAGE = Path(__file__).parent.parent.parent / "docs" / "blocks.md"

if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    sys.stdout.write(f"{PAGE.name} written\n")

"""`python -m fitting` fits the models again and writes them where the program finds them."""

from __future__ import annotations

import sys

from fitting.file import MODEL, written

if __name__ == "__main__":
    MODEL.write_text(written(), encoding="utf-8")
    sys.stdout.write(f"{MODEL.name} written, {MODEL.stat().st_size:,} bytes\n")

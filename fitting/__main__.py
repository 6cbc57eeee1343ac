"""`python -m fitting` fits the models again and writes them, and the nominal figures, where the program finds them."""

from __future__ import annotations

import sys

from fitting.file import MODEL, written
from fitting.nominal import FIGURES, NOMINAL, nominal

if __name__ == "__main__":
    MODEL.write_text(written(), encoding="utf-8")
    sys.stdout.write(f"{MODEL.name} written, {MODEL.stat().st_size:,} bytes\n")
    for sex, figure in FIGURES.items():
        path = NOMINAL / f"nominal-{figure}.yaml"
        path.write_text(nominal(sex), encoding="utf-8")
        sys.stdout.write(f"{path.name} written\n")

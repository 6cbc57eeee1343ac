"""Lessons that a fuzzer finds for itself, guided by which lines of the reader and the planner they reach.

`python -m tests.fuzz.guided [SECONDS]`; needs what `tests/fuzz/requirements.lock` installs, as `make fuzz`
does. It begins from `corpus/` (one small lesson for each kind of sentence) and keeps what it finds in a
folder of its own, `out/fuzz`. It stops with the text at the first that is not answered.
"""

from __future__ import annotations

import sys
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["tapewright.language", "tapewright.plan"]):
    from tests.fuzz.trying import tried

HERE = Path(__file__).parent
FOUND = HERE.parents[1] / "out" / "fuzz"
#: Longer lessons only make it slower.
LONGEST = 4000


def one(data: bytes) -> None:
    """Try bytes as the text of a lesson."""
    tried(data.decode("utf-8", errors="replace"))


def main() -> None:
    """Fuzz for so many seconds; 600 unless said."""
    seconds = int(sys.argv[1]) if len(sys.argv) > 1 else 600
    FOUND.mkdir(parents=True, exist_ok=True)
    how = [f"-max_total_time={seconds}", f"-max_len={LONGEST}", "-timeout=10", f"-artifact_prefix={FOUND}/"]
    atheris.Setup([sys.argv[0], *how, str(FOUND), str(HERE / "corpus")], one)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
